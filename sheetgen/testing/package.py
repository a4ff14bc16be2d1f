"""Patches the parts of an .xlsx package: one cell, one sheet, one name, and leaves every other byte as it was.

A library that loads and saves whole workbooks drops what it does not know; a patch does not, and is fast.
"""

from __future__ import annotations

import io
import re
import zipfile
from html import escape, unescape

from sheetgen.declare.a1 import letters, quoted
from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.engine import cell_value
from sheetgen.workbook.model.geometry import column_number

_WORKBOOK, _RELATIONS, _TYPES = "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "[Content_Types].xml"
_ROW = re.compile(r'<row r="(\d+)"([^>]*?)(?:/>|>(.*?)</row>)', re.DOTALL)
_CELL = re.compile(r"<c ([^>]*?)(?:/>|>(.*?)</c>)", re.DOTALL)
_ANCHOR = re.compile(
    r"<xdr:(?P<sort>one|two)CellAnchor.*?<xdr:from><xdr:col>(?P<column>\d+)</xdr:col>.*?<xdr:row>(?P<row>\d+)</xdr:row>"
    r".*?</xdr:(?P=sort)CellAnchor>", re.DOTALL)  # fmt: skip
_MERGED = re.compile(r'<mergeCell ref="([A-Z]+)(\d+):([A-Z]+)(\d+)"')
_SHEET_XML = (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
    '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>{rows}</sheetData></worksheet>'
)
_SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


class SheetPart:
    """A worksheet's rows and cells, as text that is put back unless a cell was set."""

    def __init__(self, text: str) -> None:
        start, end = text.index("<sheetData"), text.rindex("</sheetData>")
        body = text.index(">", start) + 1
        self.head, self.tail = text[:body], text[end:]
        self.rows: dict[int, tuple[str, dict[int, str]]] = {}
        for match in _ROW.finditer(text, body, end):
            cells = {_column(found.group(1)): found.group() for found in _CELL.finditer(match.group(3) or "")}
            self.rows[int(match.group(1))] = (match.group(2), cells)

    def set(self, row: int, column: int, value: Value, formula: str = "", stored: Value = None) -> None:
        """Put a value or a formula (without its value, or with one that is `stored`) into a cell; its look stays."""
        attributes, cells = self.rows.get(row, ("", {}))
        cells[column] = _cell_text(f"{letters(column)}{row}", self.style(row, column), value, formula)
        if stored is not None:
            shown = escape(stored, quote=False) if isinstance(stored, str) else repr(cell_value(stored))
            cells[column] = cells[column].replace("</f>", f"</f><v>{shown}</v>")
            if isinstance(stored, str):
                cells[column] = cells[column].replace("><f>", ' t="str"><f>', 1)
        self.rows[row] = (re.sub(r' spans="[^"]*"', "", attributes), cells)

    def style(self, row: int, column: int) -> str:
        """A cell's look, as the attribute that names it; empty if it has none."""
        cell = self.rows.get(row, ("", {}))[1].get(column, "")
        found = re.search(r'\bs="\d+"', cell.partition(">")[0])
        return found.group() if found else ""

    def set_style(self, row: int, column: int, style: str) -> None:
        """Give a cell another look."""
        cells, now = self.rows[row][1], self.style(row, column)
        cells[column] = cells[column].replace(now, style, 1) if now else cells[column].replace("<c ", f"<c {style} ", 1)

    def inner(self, row: int, column: int) -> str:
        """The cell's text between its tags; empty if it holds nothing."""
        match = _CELL.match(self.rows.get(row, ("", {}))[1].get(column, ""))
        return (match.group(2) or "") if match else ""

    def copy(self, row: int, column: int, other_row: int) -> None:
        """What the cell holds into the same column of another row."""
        cells = self.rows[row][1]
        if column in cells:
            moved = cells[column].replace(f'r="{letters(column)}{row}"', f'r="{letters(column)}{other_row}"', 1)
            self.rows.setdefault(other_row, ("", {}))[1][column] = moved

    def text(self) -> str:
        """The whole part."""
        rows = (
            f'<row r="{row}"{attributes}>' + "".join(cells[column] for column in sorted(cells)) + "</row>"
            for row, (attributes, cells) in sorted(self.rows.items())
        )
        body = "".join(rows)
        last = letters(max((column for _, cells in self.rows.values() for column in cells), default=1))
        # A cell outside the stated dimension makes the calculation engine refuse the file.
        dimension = f'<dimension ref="A1:{last}{max(self.rows, default=1)}"/>'
        head = re.sub(r'<dimension ref="[^"]*"/>', dimension, self.head)
        return head + body + self.tail


def _column(attributes: str) -> int:
    match = re.search(r'\br="([A-Z]+)', attributes)
    return column_number(match.group(1)) if match else 0


def _cell_text(address: str, style: str, value: Value, formula: str) -> str:
    start = f'<c r="{address}" {style}'.rstrip()
    if formula:
        return f"{start}><f>{escape(formula.removeprefix('='), quote=False)}</f></c>"
    held = cell_value(value)
    if held is None:
        return f"{start}/>"
    if isinstance(held, str):
        return f'{start} t="inlineStr"><is><t xml:space="preserve">{escape(held, quote=False)}</t></is></c>'
    return f"{start}><v>{held!r}</v></c>"


class Package:
    """An .xlsx file's parts by name, its sheets by title."""

    def __init__(self, data: bytes) -> None:
        with zipfile.ZipFile(io.BytesIO(data)) as source:
            self.parts = {entry.filename: source.read(entry) for entry in source.infolist()}
        self._open: dict[str, SheetPart] = {}

    def data(self) -> bytes:
        """The finished file."""
        for name, part in self._open.items():
            self.parts[name] = part.text().encode()
        self._open = {}
        buffer = io.BytesIO()
        with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as target:
            for name, content in self.parts.items():
                target.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), content, zipfile.ZIP_DEFLATED)
        return buffer.getvalue()

    def titles(self) -> list[str]:
        """The sheets' titles in their order."""
        return [unescape(title) for title in re.findall(r'<sheet name="([^"]*)"', self._text(_WORKBOOK))]

    def sheet(self, title: str) -> SheetPart:
        """A sheet's rows; KeyError if there is no such sheet."""
        name = self._part_of(title)
        if name not in self._open:
            self._open[name] = SheetPart(self._text(name))
        return self._open[name]

    def change(self, title: str, pattern: str, new: str) -> int:
        """Replace a pattern outside the cells of a sheet; how often it was there."""
        part = self.sheet(title)
        part.head, first = re.subn(pattern, new, part.head)
        part.tail, last = re.subn(pattern, new, part.tail)
        return first + last

    def add(self, name: str, content: bytes) -> None:
        """One part more."""
        self.parts[name] = content

    def text(self, name: str) -> str:
        """A part's text."""
        return self._text(name)

    def declare(self, name: str, kind: str) -> None:
        """Say of what kind an added part is."""
        self._replace(_TYPES, "</Types>", f'<Override PartName="/{name}" ContentType="{kind}"/></Types>')

    def relate(self, title: str, kind: str, target: str, *, outside: bool = False) -> str:
        """Point from a sheet to something; the relation's id."""
        name = self._part_of(title).replace("worksheets/", "worksheets/_rels/") + ".rels"
        relations = self.parts.get(name, f'<Relationships xmlns="{_PACKAGE}"></Relationships>'.encode()).decode()
        number = f"rIdNew{relations.count('<Relationship ')}"
        mode = ' TargetMode="External"' if outside else ""
        one = f'<Relationship Id="{number}" Type="{kind}" Target="{escape(target)}"{mode}/>'
        self.parts[name] = relations.replace("</Relationships>", f"{one}</Relationships>").encode()
        return number

    def drawing_of(self, title: str) -> str | None:
        """The part that holds what lies over a sheet's cells."""
        name = self._part_of(title).replace("worksheets/", "worksheets/_rels/") + ".rels"
        found = re.search(r'Target="\.\./(drawings/drawing\d+\.xml)"', self.parts.get(name, b"").decode())
        return f"xl/{found.group(1)}" if found else None

    def move_name(self, name: str, rows: int) -> None:
        """A workbook name of one cell points so many rows further down; KeyError if there is none."""

        def moved(found: re.Match[str]) -> str:
            return f"{found.group(1)}{int(found.group(2)) + rows}{found.group(3)}"

        text, count = re.subn(
            rf'(<definedName name="{name}"[^>]*>[^<]*\$)(\d+)(</definedName>)', moved, self._text(_WORKBOOK)
        )
        if not count:
            raise KeyError(name)
        self.parts[_WORKBOOK] = text.encode()

    def hide(self, title: str) -> None:
        """The sheet stays and is not seen."""
        self._workbook(f'<sheet name="{escape(title)}"', f'<sheet name="{escape(title)}" state="hidden"')

    def drop_name(self, name: str) -> None:
        """A workbook name goes; without it its column is found by its heading."""
        text = re.sub(rf'<definedName name="{name}"[^>]*>[^<]*</definedName>', "", self._text(_WORKBOOK))
        self.parts[_WORKBOOK] = text.encode()

    def drop_sheet(self, title: str) -> None:
        """The sheet goes; what read it reads #REF!, as programs leave it."""
        index, name = self.titles().index(title), self._part_of(title)
        relation = self._relation_of(title)
        text = re.sub(rf'<sheet name="{re.escape(escape(title))}"[^>]*/>', "", self._text(_WORKBOOK))
        text = re.sub(rf'<definedName [^>]*localSheetId="{index}"[^>]*>[^<]*</definedName>', "", text)
        text = re.sub(
            r'localSheetId="(\d+)"',
            lambda found: f'localSheetId="{_moved(int(found.group(1)), index)}"',
            text,
        )
        area = re.compile(re.escape(escape(quoted(title), quote=False)) + r"!\$?[A-Z]+\$?\d+(?::\$?[A-Z]+\$?\d+)?")
        self.parts[_WORKBOOK] = area.sub("#REF!", text).encode()
        self._replace(_RELATIONS, rf'<Relationship Id="{relation}"[^>]*/>', "")
        self._replace(_TYPES, rf'<Override PartName="/{re.escape(name)}"[^>]*/>', "")
        self._open.pop(name, None)
        del self.parts[name]
        for other in self.titles():
            for attributes_and_cells in self.sheet(other).rows.values():
                cells = attributes_and_cells[1]
                cells.update({column: area.sub("#REF!", cell) for column, cell in cells.items() if "<f>" in cell})

    def add_sheet(self, title: str, words: str) -> None:
        """A sheet more, with these words in its first cell."""
        name = f"xl/worksheets/sheet{len(self.titles()) + 100}.xml"
        self.add(name, _SHEET_XML.format(rows=f'<row r="1">{_cell_text("A1", "", words, "")}</row>').encode())
        self._workbook(
            "</sheets>",
            f'<sheet name="{escape(title)}" sheetId="{len(self.titles()) + 100}" r:id="rIdNew"/></sheets>',
        )
        relation = f'<Relationship Id="rIdNew" Type="{_OFFICE}/worksheet" Target="{name.removeprefix("xl/")}"/>'
        self._replace(_RELATIONS, "</Relationships>", relation + "</Relationships>")
        self._replace(_TYPES, "</Types>", f'<Override PartName="/{name}" ContentType="{_SHEET_TYPE}"/></Types>')

    def drop_picture(self, title: str, row: int, column: int) -> bool:
        """Take the picture out of the frame whose first cell this is; whether there was one."""
        last = column
        for left, top, right, _ in _MERGED.findall(self.sheet(title).tail):
            if int(top) == row and column_number(left) == column:
                last = column_number(right)
        part = self.drawing_of(title)
        if part is None:
            return False
        before = self._text(part)

        def kept(found: re.Match[str]) -> str:
            in_frame = int(found["row"]) == row - 1 and column - 1 <= int(found["column"]) <= last - 1
            return "" if in_frame else found.group()

        after = _ANCHOR.sub(kept, before)
        self.parts[part] = after.encode()
        return after != before

    def _part_of(self, title: str) -> str:
        target = re.search(
            rf'<Relationship (?=[^>]*Id="{self._relation_of(title)}")[^>]*Target="/?(?:xl/)?([^"]*)"',
            self._text(_RELATIONS),
        )
        if target is None:
            raise KeyError(title)
        return f"xl/{target.group(1)}"

    def _relation_of(self, title: str) -> str:
        match = re.search(rf'<sheet name="{re.escape(escape(title))}"[^>]*r:id="([^"]*)"', self._text(_WORKBOOK))
        if match is None:
            raise KeyError(title)
        return match.group(1)

    def _text(self, name: str) -> str:
        return self.parts[name].decode()

    def _replace(self, name: str, pattern: str, new: str) -> None:
        self.parts[name] = re.sub(pattern, lambda _: new, self._text(name)).encode()

    def _workbook(self, old: str, new: str) -> None:
        self.parts[_WORKBOOK] = self._text(_WORKBOOK).replace(old, new, 1).encode()


def _moved(number: int, gone: int) -> int:
    return number - (number > gone)
