"""Scanning: one pass over a sheet's part, for what openpyxl does not give, and for what must be refused before it loads.

Stored results of formulas, conditional formats, messages, headers, links, hidden rows; far cells and areas without end.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sheetgen.texts import say
from sheetgen.workbook.model.geometry import column_number
from sheetgen.workbook.model.written import Mark, Message, Style
from sheetgen.workbook.read.hardened import UnsafeError, attribute, odd, parse

MOST_CELLS = 400_000
MOST_ROW, MOST_COLUMN = 100_000, 702
MOST_GRID = 4_000_000
"""Cells from A1 to the last row and column of one sheet: a reader holds them all, the empty ones too."""
MOST_LISTED = 20_000
"""Merged areas, messages, conditional formats, links of one sheet."""
_ADDRESS = re.compile(r"([A-Za-z]{1,3})([1-9]\d{0,6})\Z")
_AREA = re.compile(r"\$?([A-Za-z]{1,3})\$?([1-9]\d{0,6}):\$?([A-Za-z]{1,3})\$?([1-9]\d{0,6})\Z")
_HEADERS = frozenset({"oddHeader", "evenHeader", "firstHeader"})
_FOOTERS = frozenset({"oddFooter", "evenFooter", "firstFooter"})
READ_HERE = frozenset({"conditionalFormatting", "dataValidations", "mergeCells", "hyperlinks", "extLst"})
"""Elements that the pass reads whole; openpyxl would spend most of its time on them."""
_KEPT = frozenset({"v", "f", "t", "formula", "formula1", "sqref"}) | _HEADERS | _FOOTERS


@dataclass
class Scanned:
    """What one pass over a sheet's part found; `stored` are what formulas show: the cell's type and its text."""

    stored: dict[tuple[int, int], tuple[str, str]] = field(default_factory=dict)
    styles: dict[tuple[int, int], int] = field(default_factory=dict)
    merged: list[tuple[int, int, int, int]] = field(default_factory=list)
    hidden_rows: set[int] = field(default_factory=set)
    hidden_columns: set[int] = field(default_factory=set)
    header: str = ""
    footer: str = ""
    messages: list[Message] = field(default_factory=list)
    marks: list[tuple[str, str, tuple[str, ...], int]] = field(default_factory=list)
    links: list[tuple[tuple[int, int], str, str]] = field(default_factory=list)
    is_protected: bool = False
    drawings: list[tuple[str, str]] = field(default_factory=list)
    last_row: int = 0
    last_column: int = 0
    cuts: list[tuple[int, int]] = field(default_factory=list)
    """Where in the part the elements stand that openpyxl need not read."""

    def marks_with(self, looks: Sequence[Style]) -> tuple[Mark, ...]:
        """The conditional formats with how the cells then look."""
        return tuple(
            Mark(areas, sort, formulas, looks[number] if 0 <= number < len(looks) else Style())
            for areas, sort, formulas, number in self.marks
        )


def scan(content: bytes) -> Scanned:
    """One pass over a sheet. UnsafeError if it must not be opened, BrokenError if it is no XML."""
    reading = _Pass()
    reading.found.cuts = parse(content, reading.start, reading.end, reading.text, READ_HERE)
    return reading.found


class _Pass:
    """Keeps where in the sheet the parser is."""

    def __init__(self) -> None:
        self.found = Scanned()
        self.row = self.column = self.cells = 0
        self.type = self.value = ""
        self.formula = False
        self.keeping = ""
        self.words: list[str] = []
        self.rule: dict[str, Any] = defaultdict(str)
        self.area = ""
        self.columns: dict[str, int] = {}

    def start(self, name: str, attributes: Mapping[str, str]) -> None:
        if name == "c":
            self._cell(attributes)
        elif name in _KEPT:
            self.keeping, self.words = name, []
            if name == "f":
                self.formula = True
        elif name == "row":
            self._row(attributes)
        elif (begin := _BEGIN.get(name)) is not None:
            begin(self, attributes)

    def text(self, words: str) -> None:
        if self.keeping:
            self.words.append(words)

    def end(self, name: str) -> None:
        if name == self.keeping:
            self.keeping = ""
            words = "".join(self.words)
            if name == "v":
                self.value = words
            elif name in _HEADERS:
                self.found.header += words
            elif name in _FOOTERS:
                self.found.footer += words
            elif name in {"formula", "formula1", "sqref", "f"}:
                self._of_rule(name, words)
        elif name == "c":
            if self.formula:
                self.found.stored[self.row, self.column] = (self.type, self.value)
        elif name == "cfRule":
            self.found.marks.append(
                (self.area, self.rule["type"], tuple(self.rule["formulas"] or ()), int(self.rule["look"] or -1))
            )
        elif name == "dataValidation":
            self._message()

    def _row(self, attributes: Mapping[str, str]) -> None:
        number = attributes.get("r", "")
        self.row = _number(number) if number else self.row + 1
        self.column = 0
        hidden = attributes.get("hidden") in {"1", "true"} or attributes.get("ht") in {"0", "0.0"}
        if hidden and self.row <= MOST_ROW:
            self.found.hidden_rows.add(self.row)

    def _cell(self, attributes: Mapping[str, str]) -> None:
        self.cells += 1
        address = attributes.get("r")
        if address is None:
            self.column += 1
        else:
            self._to(address)
        found = self.found
        if self.row > found.last_row or self.column > found.last_column:
            self._grown(address or say("row {row}", row=self.row))
        if self.cells > MOST_CELLS:
            raise too_many()
        self.type, self.value, self.formula = attributes.get("t", "n"), "", False
        if style := attributes.get("s"):
            found.styles[self.row, self.column] = _number(style)

    def _grown(self, where: str) -> None:
        """The sheet reaches further than before: only then can it reach too far."""
        found = self.found
        found.last_row, found.last_column = max(found.last_row, self.row), max(found.last_column, self.column)
        if self.row > MOST_ROW or self.column > MOST_COLUMN or found.last_row * found.last_column > MOST_GRID:
            raise far(where)

    def _to(self, address: str) -> None:
        column = address.rstrip("0123456789")
        row = address[len(column) :]
        if column not in self.columns:
            if not _ADDRESS.match(address):
                raise UnsafeError(say("is damaged; ask for it to be sent again"))
            self.columns[column] = column_number(column.upper())
        self.column = self.columns[column]
        if not row:
            raise UnsafeError(say("is damaged; ask for it to be sent again"))
        self.row = int(row)

    def _of_rule(self, name: str, words: str) -> None:
        if name == "formula":
            self.rule["formulas"] = [*(self.rule["formulas"] or []), words]
        elif name == "sqref":
            self.rule["areas"] = words
            self.area = self.area or words
        elif (name == "f" and self.rule.get("in")) or (name == "formula1" and words.strip()):
            self.rule["formula1"] = words

    def _message(self) -> None:
        rule = self.rule
        said = rule["shown"] in {"1", "true"}
        self.found.messages.append(
            Message(
                rule["areas"],
                rule["type"],
                rule["formula1"],
                rule["title"] if said else "",
                rule["prompt"] if said else "",
            )
        )
        self.rule = defaultdict(str)
        _limited(self.found.messages)

    def _begin_message(self, attributes: Mapping[str, str]) -> None:
        self.rule = defaultdict(
            str,
            {
                "in": "1",
                "areas": attribute(attributes, "sqref"),
                "type": attributes.get("type", "none"),
                "title": attributes.get("promptTitle", ""),
                "prompt": attributes.get("prompt", ""),
                "shown": attributes.get("showInputMessage", ""),
            },
        )

    def _begin_marks(self, attributes: Mapping[str, str]) -> None:
        self.area = attribute(attributes, "sqref")

    def _begin_mark(self, attributes: Mapping[str, str]) -> None:
        self.rule = defaultdict(str, {"type": attributes.get("type", ""), "look": attributes.get("dxfId", "")})
        _limited(self.found.marks)

    def _merge(self, attributes: Mapping[str, str]) -> None:
        area = _opened_area(attribute(attributes, "ref"))
        if area is not None:
            self.found.merged.append(area)
        _limited(self.found.merged)

    def _link(self, attributes: Mapping[str, str]) -> None:
        text = attribute(attributes, "ref")
        area = _opened_area(text if ":" in text else f"{text}:{text}")
        if area is not None:
            target = (area[0], area[1]), attributes.get("location", ""), attribute(attributes, "id")
            self.found.links.append(target)
        _limited(self.found.links)

    def _protection(self, attributes: Mapping[str, str]) -> None:
        self.found.is_protected = attributes.get("sheet") in {"1", "true"}

    def _columns(self, attributes: Mapping[str, str]) -> None:
        hidden = attributes.get("hidden") in {"1", "true"} or attributes.get("width") in {"0", "0.0"}
        if hidden:
            first, last = _number(attributes.get("min", "1")), _number(attributes.get("max", "1"))
            self.found.hidden_columns.update(range(first, min(last, MOST_COLUMN) + 1))

    def _drawing(self, attributes: Mapping[str, str]) -> None:
        self.found.drawings.append(("drawing", attribute(attributes, "id")))

    def _legacy(self, attributes: Mapping[str, str]) -> None:
        self.found.drawings.append(("legacyDrawing", attribute(attributes, "id")))


_BEGIN = {
    "dataValidation": _Pass._begin_message,
    "conditionalFormatting": _Pass._begin_marks,
    "cfRule": _Pass._begin_mark,
    "mergeCell": _Pass._merge,
    "hyperlink": _Pass._link,
    "sheetProtection": _Pass._protection,
    "col": _Pass._columns,
    "drawing": _Pass._drawing,
    "legacyDrawing": _Pass._legacy,
}


def _opened_area(text: str) -> tuple[int, int, int, int] | None:
    """First row and column, last row and column; UnsafeError if it is larger than any sheet's."""
    match = _AREA.match(text)
    if match is None:
        return None
    left, top, right, bottom = match.groups()
    first, last = column_number(left.upper()), column_number(right.upper())
    if (int(bottom) - int(top) + 1) * (last - first + 1) > MOST_CELLS:
        raise too_many()
    return int(top), first, int(bottom), last


def _limited(found: Sequence[object]) -> None:
    if len(found) > MOST_LISTED:
        raise odd()


def _number(text: str) -> int:
    try:
        return int(text)
    except ValueError:
        raise UnsafeError(say("is damaged; ask for it to be sent again")) from None


def far(where: str) -> UnsafeError:
    """What is said of a cell that no sheet of ours reaches."""
    return UnsafeError(say("has a cell far outside the sheets ({where}); delete it and save again", where=where))


def too_many() -> UnsafeError:
    """What is said of a sheet that holds more than can be."""
    return UnsafeError(say("holds more cells than any specification workbook; ask for the workbook itself"))
