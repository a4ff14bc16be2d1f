"""What an OpenDocument sheet has besides cells: what lies over them, names, messages, conditional formats."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

from sheetgen.workbook.model.geometry import column_number
from sheetgen.workbook.model.written import Mark, Message
from sheetgen.workbook.read.loaded import Area, Drawing, Held
from sheetgen.workbook.read.open_formula import area_of, excel_formula
from sheetgen.workbook.read.open_styles import OpenStyles

_PIXELS_PER_ROW, _PIXELS_PER_COLUMN = 24, 64
_PIXELS = {"in": 96.0, "cm": 96 / 2.54, "mm": 96 / 25.4, "pt": 96 / 72, "pc": 16.0, "px": 1.0}


@dataclass
class OpenSheet:
    """A sheet while it is read."""

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
class OpenCell:
    """A cell while it is read: its attributes, its lines of text, its comment."""

    local: Mapping[str, str]
    lines: list[str] = field(default_factory=list)
    comment: list[str] = field(default_factory=list)
    covered: bool = False


@dataclass
class Frame:
    """Something drawn while it is read."""

    kind: Any
    local: Mapping[str, str]
    words: list[str] = field(default_factory=list)
    target: str = ""


class Extras:
    """Takes in what stands on a sheet besides its cells, as the pass over the content comes to it."""

    def __init__(self, styles: OpenStyles, parts: Mapping[str, bytes]) -> None:
        self.styles, self.parts = styles, parts
        self.names: dict[str, Area] = {}
        self.validations: dict[str, Message] = {}
        self.validation: list[str] = []
        self.help = False
        self.sheet: OpenSheet | None = None
        self.row = self.column = 0
        self.cell: OpenCell | None = None
        self.frames: list[Frame] = []
        self.table_area = ""

    def drawn(self, frame: Frame) -> None:
        """Something drawn is complete."""
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

    def _corner(self, frame: Frame) -> tuple[int, int]:
        if self.cell is not None:
            return self.row, self.column
        across, down = _pixels(frame.local.get("x", "")), _pixels(frame.local.get("y", ""))
        return int(down // _PIXELS_PER_ROW) + 1, int(across // _PIXELS_PER_COLUMN) + 1

    def _is_chart(self, target: str) -> bool:
        inner = self.parts.get(f"{target.removeprefix('./')}/content.xml", b"")
        return b"office:chart" in inner

    def named_range(self, local: Mapping[str, str]) -> None:
        """A name of the workbook."""
        title, area = area_of(local.get("cell-range-address", ""))
        match = re.match(r"\$?([A-Z]{1,3})\$?(\d{1,7})(?::\$?([A-Z]{1,3})\$?(\d{1,7}))?\Z", area)
        if self.sheet is None and match and title:
            left, top, right, bottom = match.groups()
            first, last = column_number(left), column_number(right or left)
            self.names[local.get("name", "")] = Area(title, int(top), first, int(bottom or top), last)

    def begin_validation(self, local: Mapping[str, str]) -> None:
        """What a cell may hold."""
        condition = local.get("condition", "")
        listed = re.search(r"cell-content-is-in-list\((.*)\)\s*\Z", condition, re.DOTALL)
        formula = listed.group(1) if listed else ""
        if formula.startswith('"'):
            formula = '"' + formula.replace('";"', ",").strip('"') + '"'
        elif formula:
            formula = excel_formula(f"of:={formula}").removeprefix("=")
        self.validations[local.get("name", "")] = Message("", "list" if listed else "other", formula)
        self.validation = [local.get("name", "")]

    def begin_help(self, local: Mapping[str, str]) -> None:
        """The message beside a cell."""
        self.help = local.get("display", "true") != "false"
        if self.validation:
            name = self.validation[0]
            self.validations[name] = self.validations[name]._replace(title=local.get("title", ""))

    def end_help(self) -> None:
        """The message is complete."""
        if self.help and self.validation:
            name, *lines = self.validation
            self.validations[name] = self.validations[name]._replace(prompt="\n".join(lines))
        self.help = False

    def begin_condition(self, local: Mapping[str, str]) -> None:
        """The area of a conditional format."""
        self.table_area = " ".join(area_of(one)[1] for one in local.get("target-range-address", "").split())

    def condition(self, local: Mapping[str, str]) -> None:
        """One condition and how the cells then look."""
        value = local.get("value", "")
        inner = re.match(r"formula-is\((.*)\)\Z", value, re.DOTALL)
        formula = excel_formula(f"of:={inner.group(1)}").removeprefix("=") if inner else value
        if self.sheet is not None:
            look = self.styles.look(local.get("apply-style-name", ""))
            sort = "expression" if inner else value.partition("(")[0] or "other"
            self.sheet.marks.append(Mark(self.table_area, sort, (formula,), look))


def _sort_of(kind: Any, words: str, digest: str) -> Any:
    """Whether something drawn is there for its words."""
    return "text" if words and kind in {"shape", "picture"} and not digest else kind


def _end_of(text: str) -> tuple[int, int] | None:
    match = re.match(r"\$?([A-Z]{1,3})\$?(\d{1,7})\Z", area_of(text)[1])
    return (int(match.group(2)), column_number(match.group(1))) if match else None


def _pixels(text: str) -> float:
    match = re.match(r"(-?[\d.]+)(in|cm|mm|pt|pc|px)\Z", text)
    return max(0.0, float(match.group(1)) * _PIXELS[match.group(2)]) if match else 0.0
