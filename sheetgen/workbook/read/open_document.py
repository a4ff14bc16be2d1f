"""OpenDocument spreadsheets (ISO/IEC 26300) as plain records, by one hardened pass over their content.

Formulas and looks come in the words of the other open standard (`open_formula`, `open_styles`), so that all that finds and
judges need not know where a file comes from.
"""

from __future__ import annotations

import datetime
import re
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from typing import Any

from sheetgen.declare.a1 import letters
from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.model.geometry import column_number
from sheetgen.workbook.model.pictures import width_and_height
from sheetgen.workbook.model.written import Mark, Message
from sheetgen.workbook.read.hardened import BrokenError, UnsafeError, odd, parse
from sheetgen.workbook.read.loaded import Area, Contents, Drawing, Held, Loaded, LoadedSheet
from sheetgen.workbook.read.open_formula import area_of, excel_formula
from sheetgen.workbook.read.open_styles import OpenStyles
from sheetgen.workbook.read.package import MOST_EXPANDED, MOST_PARTS, MOST_RATIO, MOST_XML, unusable
from sheetgen.workbook.read.scanning import MOST_CELLS, MOST_COLUMN, MOST_GRID, MOST_ROW, far, too_many

_KINDS: dict[str, Any] = {
    "image": "picture", "text-box": "text", "object": "object", "object-ole": "object", "plugin": "object",
    "applet": "object", "floating-frame": "object",
}  # fmt: skip
_SHAPES = frozenset(
    {"custom-shape", "rect", "line", "circle", "ellipse", "polygon", "polyline", "path", "connector", "caption", "measure",
     "regular-polygon", "g", "control"}
)  # fmt: skip
_MOST_COPIES = 64
"""A cell or row of blanks is repeated to the end of the sheet; so many copies of a look are kept."""
_PIXELS_PER_ROW, _PIXELS_PER_COLUMN = 24, 64
_PIXELS = {"in": 96.0, "cm": 96 / 2.54, "mm": 96 / 25.4, "pt": 96 / 72, "pc": 16.0, "px": 1.0}


def is_open_document(path: Path) -> bool:
    """Whether a file is an OpenDocument spreadsheet by its own word."""
    try:
        with zipfile.ZipFile(path) as package, package.open("mimetype") as part:
            return b"opendocument.spreadsheet" in part.read(80)
    except (zipfile.BadZipFile, zlib.error, KeyError, OSError, EOFError, RuntimeError, NotImplementedError, ValueError):
        return False


def load_open_document(path: Path) -> Loaded:
    """Load an OpenDocument spreadsheet. UserError (status 3) if it is damaged or must not be opened."""
    try:
        with zipfile.ZipFile(path) as package:
            parts = _parts(package)
        styles = OpenStyles()
        styles.read(parts.get("styles.xml", b""))
        styles.read(parts["content.xml"])
        reading = _Pass(styles, parts)
        parse(parts["content.xml"], reading.start, reading.end, reading.text)
        return reading.loaded()
    except UnsafeError as error:
        raise unusable(path, str(error)) from None
    except (BrokenError, zipfile.BadZipFile, zlib.error, KeyError, EOFError, OSError, RuntimeError, ValueError):
        raise unusable(path, say("is damaged; ask for it to be sent again")) from None


def _parts(package: zipfile.ZipFile) -> dict[str, bytes]:
    entries = package.infolist()
    if len(entries) > MOST_PARTS or len({entry.filename for entry in entries}) != len(entries):
        raise odd()
    if sum(entry.file_size for entry in entries) > MOST_EXPANDED or any(
        entry.file_size > MOST_RATIO * max(entry.compress_size, 4096) or
        (entry.filename.endswith(".xml") and entry.file_size > MOST_XML) for entry in entries
    ):  # fmt: skip
        raise UnsafeError(say("unpacks to far more than a workbook holds; ask for it to be saved again"))
    parts = {entry.filename: package.read(entry) for entry in entries}
    if b"encryption-data" in parts.get("META-INF/manifest.xml", b""):
        raise UnsafeError(say("is protected with a password; save it without one"))
    return parts


@dataclass
class _Sheet:
    title: str
    is_visible: bool
    is_protected: bool
    header: str = ""
    footer: str = ""
    cells: dict[tuple[int, int], Held] = field(default_factory=dict)
    drawings: list[Drawing] = field(default_factory=list)
    hidden_rows: set[int] = field(default_factory=set)
    hidden_columns: set[int] = field(default_factory=set)
    column_styles: list[tuple[int, str]] = field(default_factory=list)
    messages: dict[str, list[str]] = field(default_factory=dict)
    marks: list[Mark] = field(default_factory=list)
    links: list[tuple[tuple[int, int], str]] = field(default_factory=list)
    merged: list[tuple[int, int, int, int]] = field(default_factory=list)
    last_row: int = 0
    last_column: int = 0


@dataclass
class _Cell:
    """A cell while it is read: its attributes, its lines of text, its comment."""

    local: Mapping[str, str]
    lines: list[str] = field(default_factory=list)
    comment: list[str] = field(default_factory=list)
    covered: bool = False


@dataclass
class _Frame:
    """Something drawn while it is read."""

    kind: Any
    local: Mapping[str, str]
    words: list[str] = field(default_factory=list)
    target: str = ""


class _Pass:
    def __init__(self, styles: OpenStyles, parts: Mapping[str, bytes]) -> None:
        self.styles, self.parts = styles, parts
        self.sheets: list[_Sheet] = []
        self.names: dict[str, Area] = {}
        self.validations: dict[str, Message] = {}
        self.validation: list[str] = []
        self.help = False
        self.sheet: _Sheet | None = None
        self.row = self.column = self.repeated_row = self.cells = 0
        self.row_cells: list[tuple[int, int, Held, str]] = []
        self.row_hidden = False
        self.cell: _Cell | None = None
        self.frames: list[_Frame] = []
        self.inside: list[str] = []
        self.table_area = ""

    def start(self, name: str, attributes: Mapping[str, str]) -> None:
        local = {key.rpartition(":")[2]: value for key, value in attributes.items()}
        begin = _BEGIN.get(name)
        if begin is not None:
            begin(self, local)
        elif name in _SHAPES or name == "frame":
            self.frames.append(_Frame("shape" if name in _SHAPES else "picture", local))
        elif name in _KINDS and self.frames:
            self._inner(name, local)
        elif name in {"annotation", "desc", "title"}:
            self.inside.append(name)
        elif name in {"p", "s", "tab", "line-break", "a"}:
            self._of_text(name, local)

    def _inner(self, name: str, local: Mapping[str, str]) -> None:
        frame = self.frames[-1]
        if name != "image" or not frame.target:
            frame.kind = _KINDS[name]
            frame.target = local.get("href", frame.target)

    def _of_text(self, name: str, local: Mapping[str, str]) -> None:
        if name == "p":
            if lines := self._lines():
                lines[0].append("")
        elif name == "s":
            self.text(" " * min(int(local.get("c", "1") or 1), 1000))
        elif name == "tab":
            self.text("\t")
        elif name == "line-break":
            self.text("\n")
        elif self.sheet is not None and self.cell is not None:
            self.sheet.links.append(((self.row, self.column), local.get("href", "").removeprefix("#")))

    def _lines(self) -> list[list[str]]:
        """Where text goes now: a comment, something drawn, a message, or the cell; nowhere for a picture's description."""
        if self.inside[-1:] in (["desc"], ["title"]):
            return []
        if self.inside[-1:] == ["annotation"] and self.cell is not None:
            return [self.cell.comment]
        if self.frames:
            return [self.frames[-1].words]
        if self.help:
            return [self.validation]
        return [self.cell.lines] if self.cell is not None else []

    def text(self, words: str) -> None:
        for lines in self._lines():
            if lines:
                lines[-1] += words

    def end(self, name: str) -> None:
        finish = _END.get(name)
        if finish is not None:
            finish(self)
        elif name in {"annotation", "desc", "title"} and self.inside:
            self.inside.pop()
        elif (name in _SHAPES or name == "frame") and self.frames:
            self._drawn(self.frames.pop())

    # Sheets, columns, rows

    def _table(self, local: Mapping[str, str]) -> None:
        look = self.styles.styles.get(("table", local.get("style-name", "")))
        header, footer = self.styles.headers.get(look.master if look else "", ("", ""))
        shown = (look.set.get("display", "true") if look else "true") != "false"
        self.sheet = _Sheet(local.get("name", ""), shown, local.get("protected") == "true", header, footer)
        self.sheets.append(self.sheet)
        self.row = self.column = 0

    def _end_table(self) -> None:
        self.sheet = None

    def _table_column(self, local: Mapping[str, str]) -> None:
        if self.sheet is None:
            return
        repeated = _count(local.get("number-columns-repeated"))
        if local.get("visibility", "visible") != "visible":
            self.sheet.hidden_columns.update(range(self.column + 1, min(self.column + repeated, MOST_COLUMN) + 1))
        self.column += repeated

    def _table_row(self, local: Mapping[str, str]) -> None:
        self.repeated_row = _count(local.get("number-rows-repeated"))
        self.row += 1
        self.column = 0
        self.row_cells = []
        self.row_hidden = local.get("visibility", "visible") != "visible"

    def _end_row(self) -> None:
        sheet = self.sheet
        if sheet is None:
            return
        holds = any(held.value is not None for _, _, held, _ in self.row_cells)
        if holds and self.repeated_row > MOST_ROW:
            raise too_many()
        times = self.repeated_row if holds else min(self.repeated_row, _MOST_COPIES)
        for row in range(self.row, self.row + times):
            if row > MOST_ROW and holds:
                raise far(say("row {row}", row=row))
            if self.row_hidden:
                sheet.hidden_rows.add(row)
            for first, count, held, message in self.row_cells:
                for column in range(first, first + count):
                    self._keep(sheet, row, column, held)
                    if message:
                        sheet.messages.setdefault(message, []).append(f"{letters(column)}{row}")
        self.row += self.repeated_row - 1

    def _keep(self, sheet: _Sheet, row: int, column: int, held: Held) -> None:
        self.cells += 1
        if self.cells > MOST_CELLS:
            raise too_many()
        sheet.cells[row, column] = held
        if held.value is not None:
            sheet.last_row, sheet.last_column = max(sheet.last_row, row), max(sheet.last_column, column)
            if sheet.last_row * sheet.last_column > MOST_GRID:
                raise far(f"{letters(column)}{row}")

    # Cells

    def _table_cell(self, local: Mapping[str, str]) -> None:
        self.cell = _Cell(local)
        self.column += 1

    def _covered_cell(self, local: Mapping[str, str]) -> None:
        self.cell = _Cell(local, covered=True)
        self.column += 1

    def _end_cell(self) -> None:
        cell, self.cell = self.cell, None
        if cell is None:
            return
        repeated = _count(cell.local.get("number-columns-repeated"))
        held, message = self._held(cell), cell.local.get("content-validation-name", "")
        across, down = (_count(cell.local.get(f"number-{side}-spanned")) for side in ("columns", "rows"))
        if self.sheet is not None and across * down > 1:
            if across * down > MOST_CELLS:
                raise too_many()
            self.sheet.merged.append((self.row, self.column, self.row + down - 1, self.column + across - 1))
        if held.value is not None and self.column > MOST_COLUMN:
            raise far(f"{letters(min(self.column, 16384))}{self.row}")
        plain = held.value is None and held.comment is None and not message and held.style == 0
        if not cell.covered and not plain:
            if held.value is not None and repeated > MOST_COLUMN:
                raise too_many()
            count = repeated if held.value is not None else min(repeated, _MOST_COPIES)
            self.row_cells.append((self.column, count, held, message))
        self.column += repeated - 1

    def _held(self, cell: _Cell) -> Held:
        local = cell.local
        style = self.styles.number(local["style-name"]) if "style-name" in local else 0
        comment = "\n".join(cell.comment).strip() if cell.comment else None
        shown = _value(local, "\n".join(cell.lines))
        if "formula" not in local:
            return Held(shown, None, comment, _is_error(local), None, style)
        formula = excel_formula(local["formula"])
        return Held(formula, formula, comment, _is_error(local), shown, style)

    # What lies over the cells

    def _drawn(self, frame: _Frame) -> None:
        sheet = self.sheet
        if sheet is None or (frame.kind == "shape" and self.frames):
            return  # a piece of a group, which is told as a whole
        first = self._corner(frame)
        last = _end_of(frame.local.get("end-cell-address", "")) or first
        digest = ""
        if frame.kind == "picture":
            digest = sha256(self.parts.get(frame.target.removeprefix("./"), b"")).hexdigest()
        kind = "chart" if frame.kind == "object" and self._is_chart(frame.target) else frame.kind
        look = self.styles.chain("graphic", frame.local.get("style-name", ""))
        clip = re.findall(r"-?[\d.]+", look.get("clip", ""))
        words = "\n".join(frame.words).strip()
        sheet.drawings.append(
            Drawing(
                _sort_of(kind, words, digest),
                first,
                last,
                digest,
                words,
                any(float(one) for one in clip if one.strip(".-")),
                look.get("mirror", "none") != "none" or "rotate" in frame.local.get("transform", ""),
            )
        )

    def _corner(self, frame: _Frame) -> tuple[int, int]:
        if self.cell is not None:
            return self.row, self.column
        across, down = _pixels(frame.local.get("x", "")), _pixels(frame.local.get("y", ""))
        return int(down // _PIXELS_PER_ROW) + 1, int(across // _PIXELS_PER_COLUMN) + 1

    def _is_chart(self, target: str) -> bool:
        inner = self.parts.get(f"{target.removeprefix('./')}/content.xml", b"")
        return b"office:chart" in inner

    # Names, messages, conditions

    def _named_range(self, local: Mapping[str, str]) -> None:
        title, area = area_of(local.get("cell-range-address", ""))
        match = re.match(r"\$?([A-Z]{1,3})\$?(\d{1,7})(?::\$?([A-Z]{1,3})\$?(\d{1,7}))?\Z", area)
        if self.sheet is None and match and title:
            left, top, right, bottom = match.groups()
            first, last = column_number(left), column_number(right or left)
            self.names[local.get("name", "")] = Area(title, int(top), first, int(bottom or top), last)

    def _begin_validation(self, local: Mapping[str, str]) -> None:
        condition = local.get("condition", "")
        listed = re.search(r"cell-content-is-in-list\((.*)\)\s*\Z", condition, re.DOTALL)
        formula = listed.group(1) if listed else ""
        if formula.startswith('"'):
            formula = '"' + formula.replace('";"', ",").strip('"') + '"'
        elif formula:
            formula = excel_formula(f"of:={formula}").removeprefix("=")
        self.validations[local.get("name", "")] = Message("", "list" if listed else "other", formula)
        self.validation = [local.get("name", "")]

    def _begin_help(self, local: Mapping[str, str]) -> None:
        self.help = local.get("display", "true") != "false"
        if self.validation:
            name = self.validation[0]
            self.validations[name] = self.validations[name]._replace(title=local.get("title", ""))

    def _end_help(self) -> None:
        if self.help and self.validation:
            name, *lines = self.validation
            self.validations[name] = self.validations[name]._replace(prompt="\n".join(lines))
        self.help = False

    def _begin_condition(self, local: Mapping[str, str]) -> None:
        self.table_area = " ".join(area_of(one)[1] for one in local.get("target-range-address", "").split())

    def _condition(self, local: Mapping[str, str]) -> None:
        value = local.get("value", "")
        inner = re.match(r"formula-is\((.*)\)\Z", value, re.DOTALL)
        formula = excel_formula(f"of:={inner.group(1)}").removeprefix("=") if inner else value
        if self.sheet is not None:
            look = self.styles.look(local.get("apply-style-name", ""))
            sort = "expression" if inner else value.partition("(")[0] or "other"
            self.sheet.marks.append(Mark(self.table_area, sort, (formula,), look))

    # All of it

    def loaded(self) -> Loaded:
        sheets = {sheet.title: self._loaded_sheet(sheet) for sheet in self.sheets}
        names = {name: area for name, area in self.names.items() if area.title in sheets}
        scripts = any(name.startswith(("Basic/", "Scripts/")) for name in self.parts)
        objects = any(drawing.kind == "object" for sheet in self.sheets for drawing in sheet.drawings)
        return Loaded(sheets, names, tuple(self.styles.numbered), Contents(macros=scripts, embedded=objects))

    def _loaded_sheet(self, sheet: _Sheet) -> LoadedSheet:
        messages = (
            self.validations[name]._replace(areas=" ".join(cells))
            for name, cells in sheet.messages.items()
            if name in self.validations
        )
        return LoadedSheet(
            sheet.title, sheet.cells, sheet.last_row, sheet.last_column, sheet.is_visible, sheet.is_protected,
            tuple(self._pictures(sheet)), tuple(sheet.drawings), frozenset(sheet.hidden_rows),
            frozenset(sheet.hidden_columns), sheet.header, sheet.footer, tuple(messages), tuple(sheet.marks),
            tuple(sheet.links),
        )  # fmt: skip

    def _pictures(self, sheet: _Sheet) -> Iterator[tuple[tuple[int, int], Picture]]:
        by_digest = {sha256(data).hexdigest(): data for name, data in self.parts.items() if name.startswith("Pictures/")}
        for drawing in sheet.drawings:
            data = by_digest.get(drawing.digest) if drawing.kind == "picture" else None
            if data is None:
                continue
            try:
                width_and_height(sheet.title, data)
            except UserError:
                continue
            row, column = drawing.first
            inside = (one for one in sheet.merged if one[0] <= row <= one[2] and one[1] <= column <= one[3])
            frame = next(inside, None)
            yield (frame[0], frame[1]) if frame else drawing.first, Picture(data)


_BEGIN: dict[str, Any] = {
    "table": _Pass._table, "table-column": _Pass._table_column, "table-row": _Pass._table_row,
    "table-cell": _Pass._table_cell, "covered-table-cell": _Pass._covered_cell, "named-range": _Pass._named_range,
    "content-validation": _Pass._begin_validation, "help-message": _Pass._begin_help,
    "conditional-format": _Pass._begin_condition, "condition": _Pass._condition,
}  # fmt: skip
_END: dict[str, Any] = {
    "table": _Pass._end_table, "table-row": _Pass._end_row, "table-cell": _Pass._end_cell,
    "covered-table-cell": _Pass._end_cell, "help-message": _Pass._end_help,
}  # fmt: skip


def _sort_of(kind: Any, words: str, digest: str) -> Any:
    """Whether something drawn is there for its words."""
    return "text" if words and kind in {"shape", "picture"} and not digest else kind


def _count(text: str | None) -> int:
    return min(int(text), 1 << 21) if text and text.isdigit() else 1


def _is_error(local: Mapping[str, str]) -> bool:
    return local.get("value-type") == "error"


def _value(local: Mapping[str, str], text: str) -> Any:
    """A cell's value or a formula's result, as openpyxl would give it."""
    kind = local.get("value-type", "")
    try:
        if kind in {"float", "percentage", "currency"}:
            number = float(local["value"])
            return int(number) if number == int(number) and abs(number) < 1e15 else number
        if kind == "date":
            return datetime.datetime.fromisoformat(local["date-value"].removesuffix("Z"))
        if kind == "boolean":
            return local["boolean-value"] == "true"
    except (KeyError, ValueError, OverflowError):
        return text or None
    if kind == "time":
        return local.get("time-value", text)
    return text or local.get("string-value") or None


def _end_of(text: str) -> tuple[int, int] | None:
    match = re.match(r"\$?([A-Z]{1,3})\$?(\d{1,7})\Z", area_of(text)[1])
    return (int(match.group(2)), column_number(match.group(1))) if match else None


def _pixels(text: str) -> float:
    match = re.match(r"(-?[\d.]+)(in|cm|mm|pt|pc|px)\Z", text)
    return max(0.0, float(match.group(1)) * _PIXELS[match.group(2)]) if match else 0.0
