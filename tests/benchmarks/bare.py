"""The peers: what general libraries need for the same job, by the shortest way known, and nothing else.

A program of steps, `python -I bare.py values=working.xlsx write=build.calls:out`, that imports only what its steps need.
"""

from __future__ import annotations

import gc
import io
import json
import os
import re
import sys
import time
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

_BORDER = re.compile(rb"<border[ >].*?</border>", re.DOTALL)
_NO_BORDER = b"<border><left/><right/><top/><bottom/></border>"


class Clock:
    """What was spent on reading recorded calls: a script that held them would not read them."""

    processor = wall = 0.0


def write(calls: str, folder: str) -> None:
    """Make the recorded calls again; one file for each book."""
    import xlsxwriter
    from xlsxwriter.worksheet import CellFormulaTuple, Worksheet

    class Sheet(Worksheet):
        """Takes formulas and plain attributes as they are, as sheetgen's kind of sheet does."""

        def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:  # noqa: ARG002
            return formula.removeprefix("=")

        def _write_formula(self, row: int, col: int, formula: str, cell_format: Any = None, value: Any = 0) -> int:
            if self._check_dimensions(row, col):
                return -1
            self.table[row][col] = CellFormulaTuple(self._prepare_formula(formula), cell_format, value)
            return 0

        def _escape_attributes(self, attribute: Any) -> Any:
            if not isinstance(attribute, str) or attribute.isalnum():
                return attribute
            return super()._escape_attributes(attribute)

    start = time.process_time(), time.perf_counter()
    import pickle

    recording = pickle.loads(Path(calls).read_bytes())
    Clock.processor += time.process_time() - start[0]
    Clock.wall += time.perf_counter() - start[1]
    for number, (options, made_calls) in enumerate(recording):
        again(xlsxwriter.Workbook(f"{folder}/{number}.xlsx", options), made_calls, Sheet)


def again(book: Any, calls: list[Any], own_sheet: type) -> None:
    """The same calls on a new book, in the same order; the last one closes it."""
    things = [book]

    def real(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: real(one) for key, one in value.items()}
        if isinstance(value, list):
            return [real(one) for one in value]
        if isinstance(value, tuple):
            mark = value[0] if value else None
            if mark == "made":
                return things[value[1]]
            if mark == "image":
                return io.BytesIO(value[1])
            return own_sheet if mark == "sheet with the shortcuts" else tuple(map(real, value))
        return value

    for thing, name, plain, args, named, makes in calls:
        if plain:
            result = getattr(things[thing], name)(*args, **named)
        else:
            result = getattr(things[thing], name)(*real(args), **real(named))
        if makes:
            things.append(result)


def values(path: str) -> None:
    """Every cell's value, by calamine."""
    import python_calamine

    book = python_calamine.CalamineWorkbook.from_path(path)
    for title in book.sheet_names:
        book.get_sheet_by_name(title).to_python(skip_empty_area=False)


def sheets(path: str, titles: str) -> None:
    """The values of some sheets, by calamine."""
    import python_calamine

    book = python_calamine.CalamineWorkbook.from_path(path)
    for title in titles.split(","):
        book.get_sheet_by_name(title).to_python()


def receipt(path: str) -> None:
    """A receipt's JSON."""
    json.loads(Path(path).read_text("utf-8"))


def loaded(path: str) -> None:
    """Every cell with its formula and look, by openpyxl, the borders taken out before."""
    os.environ["OPENPYXL_DEFUSEDXML"] = "False"  # else it reads by a parser in Python wherever one is installed
    import openpyxl

    openpyxl.load_workbook(lightened(path), keep_links=False)


def streamed(path: str) -> None:
    """Every cell's formula or value, by openpyxl's way for reading only."""
    os.environ["OPENPYXL_DEFUSEDXML"] = "False"
    import openpyxl

    for sheet in openpyxl.load_workbook(path, read_only=True, keep_links=False).worksheets:
        for _ in sheet.iter_rows(values_only=True):
            pass


def lightened(path: str) -> io.BytesIO:
    """The file with its borders gone, as sheetgen reads it."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(buffer, "w", zipfile.ZIP_STORED) as target:
        for entry in source.infolist():
            content = source.read(entry)
            if entry.filename == "xl/styles.xml":
                content = _BORDER.sub(_NO_BORDER, content)
            target.writestr(entry.filename, content)
    buffer.seek(0)
    return buffer


def calculated(path: str) -> None:
    """Every formula calculated anew, by formualizer."""
    import formualizer

    formualizer.Workbook.from_path(path).evaluate_all()


def formulas(path: str) -> None:
    """Every cell's formula, its stored value, and its value calculated anew, by formualizer and calamine."""
    import formualizer
    import python_calamine

    book = formualizer.Workbook.from_path(path)
    book.evaluate_all()
    stored = python_calamine.CalamineWorkbook.from_path(path)
    for title in stored.sheet_names:
        for row, cells in enumerate(stored.get_sheet_by_name(title).to_python(skip_empty_area=False), 1):
            for column, value in enumerate(cells, 1):
                if value != "" and book.get_formula(title, row, column):
                    book.get_value(title, row, column)


def programs(path: str) -> None:
    """The programs that a command started, all at once, told the same."""
    import subprocess

    running = []
    for words, environment, told in json.loads(Path(path).read_text("utf-8")):
        pipe = subprocess.PIPE
        running.append(
            subprocess.Popen(words, env=environment or None, stdin=pipe, stdout=subprocess.DEVNULL, text=True)
        )
        own = running[-1].stdin
        if own is not None:
            own.write("".join(told))
            own.close()
    if any(program.wait() for program in running):
        raise RuntimeError("a program that the command started failed alone.")


def fixed() -> None:
    """A fixed piece of work, of the kind that all others are: it tells how fast the machine is today."""
    import zlib

    rows = [f'<c r="A{row}"><v>{row * 0.25:.2f}</v></c>' for row in range(200_000)]
    found = re.findall(r'r="(A\d+)"', "".join(rows))
    zlib.compress("".join(f"{name}={len(name)}" for name in found).encode(), 6)


STEPS: Mapping[str, Callable[..., None]] = {
    step.__name__: step
    for step in (write, values, sheets, receipt, loaded, streamed, calculated, formulas, programs, fixed)
}


def main() -> None:
    """Do the steps that the command line names, each with its arguments."""
    gc.disable()  # nothing is thrown away before the end
    for word in sys.argv[1:]:
        step, given, arguments = word.partition("=")
        STEPS[step](*(arguments.split("::") if given else ()))
    print("not counted: " + json.dumps({"processor": Clock.processor, "wall": Clock.wall}))


if __name__ == "__main__":
    main()
