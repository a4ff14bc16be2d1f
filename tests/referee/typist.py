"""A person at LibreOffice: opens a file, types, inserts, moves, saves. Runs in the system's Python, which has the bridge.

Reads a job as a line of JSON from standard input (see office.driven), prints what its `show` steps showed as another
line, and so on until no more jobs come.
"""

import json
import os
import signal
import subprocess
import sys
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

TAB = 1282  # com.sun.star.awt.Key
PIPE = f"sheetgen{os.getpid()}"


def named(**values):
    return tuple(PropertyValue(name, 0, value, 0) for name, value in values.items())


def connected(deadline):
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    while True:
        try:
            return resolver.resolve(f"uno:pipe,name={PIPE};urp;StarOffice.ComponentContext")
        except NoConnectException:
            if time.monotonic() > deadline:
                raise
            time.sleep(0.1)


class Typist:
    def __init__(self, context, document):
        self.context, self.book = context, document
        self.view = document.CurrentController
        self.dispatcher = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.DispatchHelper", context)
        self.shown = {}

    def sheet(self, step):
        return self.book.Sheets.getByName(step["sheet"])

    def cell(self, step):
        return self.sheet(step).getCellRangeByName(step["cell"])

    def press(self, command, **values):
        self.dispatcher.executeDispatch(self.view.Frame, command, "", 0, named(**values))

    def do_type(self, step):
        """The keys that a person presses in a cell: the program makes a number, a date or a text of them."""
        self.view.setActiveSheet(self.sheet(step))
        self.view.select(self.cell(step))
        self.press(".uno:EnterString", StringName=step["keys"])

    def key(self, code, sign=""):
        """One key on the keyboard; the window passes it on to the sheet, as any other."""
        stroke = uno.createUnoStruct("com.sun.star.awt.KeyEvent")
        stroke.KeyCode, stroke.KeyChar, stroke.Source = code, uno.Char(sign or "\0"), self.view.Frame.ContainerWindow
        toolkit = stroke.Source.getToolkit()
        toolkit.keyPress(stroke)
        toolkit.keyRelease(stroke)

    def here(self):
        cell = self.view.getSelection().getRangeAddress()
        return [cell.StartRow + 1, cell.StartColumn + 1]

    def tab(self):
        """The Tab key, and where it led; keys are worked off a little later than they are pressed."""
        before, deadline = self.here(), time.monotonic() + 1
        self.key(TAB)
        while (now := self.here()) == before and time.monotonic() < deadline:
            time.sleep(0.005)
        return now

    def do_walk(self, step):
        """From the sheet's first cell on by the Tab key alone, until it comes round again; `typed` are the keys of the cells
        in which something is typed on the way. Shows the cells in which it stopped."""
        self.view.setActiveSheet(self.sheet(step))  # the cursor stands in the first cell
        self.view.Frame.ContainerWindow.setFocus()
        self.view.Frame.ComponentWindow.setFocus()
        typed = {tuple(cell): keys for cell, keys in step["typed"]}
        stops, here = [], self.tab()
        while here not in stops and here != [1, 1]:
            stops.append(here)
            for sign in typed.get(tuple(here), ""):
                self.key(0, sign)
            here = self.tab()
        self.shown[step["as"]] = stops

    def do_insert_row(self, step):
        """A blank row above this one."""
        self.sheet(step).Rows.insertByIndex(step["row"] - 1, 1)

    def do_unprotect(self, step):
        self.sheet(step).unprotect("")

    def do_rename(self, step):
        self.sheet(step).Name = step["to"]

    def do_move(self, step):
        self.book.Sheets.moveByName(step["sheet"], step["before"])

    def do_widen(self, step):
        column = self.sheet(step).Columns.getByIndex(step["column"] - 1)
        column.Width = int(column.Width * step["times"])

    def do_comment(self, step):
        """A comment on a cell, as by the menu."""
        sheet, cell = self.sheet(step), self.cell(step)
        sheet.Annotations.insertNew(cell.CellAddress, step["words"])

    def do_picture(self, step):
        """A picture from a file, put on a sheet at a cell."""
        provider = self.context.ServiceManager.createInstanceWithContext(
            "com.sun.star.graphic.GraphicProvider", self.context
        )
        shape = self.book.createInstance("com.sun.star.drawing.GraphicObjectShape")
        shape.Graphic = provider.queryGraphic(named(URL=step["file"]))
        shape.Position = self.cell(step).Position
        shape.Size = uno.createUnoStruct("com.sun.star.awt.Size", 4000, 3000)
        self.sheet(step).DrawPage.add(shape)

    def do_show(self, step):
        cell = self.cell(step)
        self.shown[step["as"]] = cell.String if cell.FormulaResultType2 == 2 or not cell.Formula else cell.Value

    def do_show_sheets(self, step):
        """All numbers and texts of the whole book."""
        found = {}
        for sheet in self.book.Sheets:
            cursor = sheet.createCursor()
            cursor.gotoEndOfUsedArea(False)
            area = sheet.getCellRangeByPosition(0, 0, cursor.RangeAddress.EndColumn, cursor.RangeAddress.EndRow)
            found[sheet.Name] = area.DataArray
        self.shown[step["as"]] = found


def done(context, desktop, job):
    """What the steps of a job showed."""
    document = desktop.loadComponentFromURL(job["source"], "_blank", 0, ())
    typist = Typist(context, document)
    for step in job["steps"]:
        getattr(typist, "do_" + step["do"])(step)
    document.storeToURL(job["target"], named(FilterName="Calc MS Excel 2007 XML"))
    document.close(False)
    return typist.shown


def main():
    words = [*sys.argv[1:], "--headless", "--norestore", f"--accept=pipe,name={PIPE};urp;"]
    office = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
    try:
        context = connected(time.monotonic() + 60)
        desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
        for line in sys.stdin:
            print(json.dumps(done(context, desktop, json.loads(line))), flush=True)
        desktop.terminate()
        office.wait(20)
    finally:
        if office.poll() is None:
            os.killpg(office.pid, signal.SIGKILL)


main()
