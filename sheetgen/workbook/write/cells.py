"""Cells: titles, legends, forms, tables, ledgers and picture frames, written where the layout puts them."""

from __future__ import annotations

import datetime
import io
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sheetgen.declare.a1 import quoted
from sheetgen.declare.entry import Entry, Place
from sheetgen.declare.kinds import Picture, Value
from sheetgen.declare.parts import END_OF_TABLE
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.model import look
from sheetgen.workbook.model.asked import waits_for_vendor
from sheetgen.workbook.model.engine import PICTURE_WORD
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.grid import chips
from sheetgen.workbook.model.page import Page, PlacedFields, PlacedLedger, PlacedTable, PlacedWords, Span
from sheetgen.workbook.model.pictures import width_and_height
from sheetgen.workbook.model.values import Ready, Values, with_words
from sheetgen.workbook.write.formats import Formats

if TYPE_CHECKING:
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet


@dataclass
class SheetWriter:
    """Writes one sheet: what stands where is planned, what it shows is calculated."""

    sheet: Worksheet
    page: Page
    ready: Ready
    formats: Formats
    values: Values
    shown: Mapping[Place, Value]
    formulas: Mapping[tuple[str, int, int], tuple[Place, str]]
    hidden: frozenset[str] = frozenset()
    asked: frozenset[Place] = frozenset()

    def write(self) -> None:
        """All of the sheet's cells."""
        self._columns()
        for row, height in self.page.heights.items():
            self.sheet.set_row(row - 1, height)
        self._top()
        for part in self.page.parts:
            if isinstance(part, PlacedFields):
                self._fields(part)
            elif isinstance(part, PlacedTable):
                self._table(part)
            elif isinstance(part, PlacedLedger):
                self._ledger(part)
            elif isinstance(part, PlacedWords):
                self._words(part)

    def _columns(self) -> None:
        """Widths; workings are folded away. Some programs open no group of a locked sheet: a copy hides what is only steps."""
        page, copy = self.page, self.ready.shape.audience == "vendor"
        shown = page.open_columns if page.open_columns and not copy else len(page.widths)
        for column, width in enumerate(page.widths):
            away = {"level": 1, "hidden": True} if column >= shown else {}
            hidden = {"hidden": True} if copy and column + 1 in page.machinery else away
            self.sheet.set_column(column, column, width, None, hidden)
        if shown < len(page.widths):
            self.sheet.set_column(len(page.widths), len(page.widths), None, None, {"collapsed": True})

    def _top(self) -> None:
        sheet, formats = self.sheet, self.formats
        title = formats.get(
            bold=True, font_size=16, font_color=formats.accent.words, bg_color=formats.accent.band, valign="vcenter"
        )
        for column in range(self.page.first_page):
            self._ok(sheet.write_blank(0, column, None, title))
        self._ok(sheet.write_string(0, 0, self.page.sheet.title, title))
        purpose = with_words(self.page.sheet.purpose, self.ready.shape)
        self._ok(sheet.write_string(1, 0, purpose, formats.note))
        roles = [
            role for role in look.ROLES
            if role != "fixed" and not (role == "private" and not self.ready.has_private)
        ]  # fmt: skip
        for role, (first, last) in zip(roles, chips(self.page, len(roles)), strict=False):
            words = look.ROLES[role]
            self._span(Span(3, first, last), f"{say(words.word)}: {say(words.meaning)}", formats.role_word(role))

    def _title(self, row: int, title: str, note: str) -> None:
        if title:
            for column in range(self.page.first_page):
                self._ok(self.sheet.write_blank(row - 1, column, None, self.formats.part_title))
            text = with_words(title, self.ready.shape)
            self._ok(self.sheet.write_string(row - 1, 0, text, self.formats.part_title))
        if note:
            self._ok(self.sheet.write_string(row, 0, with_words(note, self.ready.shape), self.formats.note))

    def _fields(self, part: PlacedFields) -> None:
        self._title(part.title, part.part.title, part.part.note)
        for placed in part.fields:
            entry = placed.entry
            heading = with_words(entry.heading, self.ready.shape)
            self._span(placed.label, heading, self.formats.label)
            self._value(placed.value, Place(f"{self.page.sheet.name}.{entry.name}"), entry, indent=1)

    def _table(self, part: PlacedTable) -> None:
        self._title(part.title, part.table.title, part.table.note)
        for title, first, last in part.section_spans:
            self._span(Span(part.sections, first, last), with_words(title, self.ready.shape), self.formats.section)
        self._ok(self.sheet.write_string(part.headings - 1, 0, "Ref", self.formats.heading))
        self._who(part)
        for entry, column in part.columns:
            heading = with_words(entry.heading, self.ready.shape)
            self._ok(self.sheet.write_string(part.headings - 1, column - 1, heading, self.formats.heading))
        if part.table.filtered and part.refs:
            self._ok(self.sheet.autofilter(part.headings - 1, 0, part.last - 2, part.columns[-1][1] - 1))
        ref_format = self.formats.get(font_color=look.FAINT, border=1, border_color=look.RULE, align="center")
        for index, ref in enumerate(part.refs):
            self._ok(self.sheet.write_string(part.first - 1 + index, 0, ref, ref_format))
        end = self.formats.get(font_color=look.FAINT, top=1, top_color=self.formats.accent.band, valign="vcenter")
        for _, column in part.columns:
            self._ok(self.sheet.write_blank(part.last - 1, column - 1, None, end))
        self._ok(self.sheet.write_string(part.last - 1, 0, say(END_OF_TABLE), end))
        for entry, column in part.columns:
            address = f"{part.address}.{entry.name}"
            for index, ref in enumerate(part.refs):
                self._value(Span(part.first + index, column, column), Place(address, ref), entry)

    def _who(self, part: PlacedTable) -> None:
        """Who fills: a color over each column, and its word once over a run of them."""
        before = ""
        for entry, column in part.columns:
            role = look.role_of(entry, self.page.sheet.private)
            form = self.formats.role_word(role)
            if role == before:
                self._ok(self.sheet.write_blank(part.sections, column - 1, None, form))
            else:
                self._ok(self.sheet.write_string(part.sections, column - 1, say(look.ROLES[role].word), form))
            before = role

    def _ledger(self, part: PlacedLedger) -> None:
        self._title(part.title, part.part.title, part.part.note)
        for heading, (first, last) in zip(part.part.headings, part.columns, strict=True):
            self._span(Span(part.headings, first, last), with_words(heading, self.ready.shape), self.formats.heading)
        for row, line in part.lines:
            for number, (word, (first, last)) in enumerate(zip(line.words, part.columns, strict=False)):
                if number == 0 and line.link in self.hidden:  # a link to it would do nothing
                    self._span(
                        Span(row, first, last),
                        word,
                        self.formats.get(font_color=look.FAINT, text_wrap=True, valign="top"),
                    )
                elif number == 0 and line.link:
                    target = self.ready.book.sheet(line.link).title
                    self._ok(self.sheet.write_url(row - 1, 0, f"internal:{quoted(target)}!A1", self.formats.link, word))
                else:
                    self._span(Span(row, first, last), with_words(word, self.ready.shape), self.formats.words)
            for entry, (first, last) in zip(line.entries, part.columns[len(line.words) :], strict=False):
                self._value(Span(row, first, last), Place(f"{self.page.sheet.name}.{entry.name}"), entry)

    def _words(self, part: PlacedWords) -> None:
        self._title(part.title, part.part.title, "")
        for offset, line in enumerate(part.part.lines, 1):
            span = Span(part.title + offset, 1, self.page.first_page)
            self._span(span, line, self.formats.get(text_wrap=True))

    def _value(self, span: Span, place: Place, entry: Entry, indent: int = 0) -> None:
        locked = not self._is_open(place, entry)
        value = self.values.get(place)
        role = look.role_of(entry, self.page.sheet.private)
        if role == "vendor" and locked and value is None:
            role = "fixed"  # nothing can be answered there: it does not look as if
        picture = entry.kind.name == "picture"
        form = self.formats.value(
            entry.kind, role, locked=locked, small=picture, indent=indent, asked=place in self.asked
        )
        if entry.kind.name == "color" and isinstance(value, str) and entry.kind.wrong(value) is None:
            form = self.formats.swatch(value, locked=locked)
        if span.last > span.first:
            self._ok(self.sheet.merge_range(span.row - 1, span.first - 1, span.row - 1, span.last - 1, "", form))
        computed = self.formulas.get((self.page.sheet.title, span.row, span.first))
        row, column = span.row - 1, span.first - 1
        if computed is not None:
            shown = self.shown.get(computed[0])
            self._ok(self.sheet.write_formula(row, column, computed[1], form, "" if shown is None else shown))
        elif isinstance(value, Picture):
            self._ok(self.sheet.write_string(row, column, PICTURE_WORD, form))
            self._picture(span, value, entry)
        else:
            self._plain(row, column, value, form, place)

    def _is_open(self, place: Place, entry: Entry) -> bool:
        """In a copy only what can hold an answer is open, so that the Tab key goes from one of these to the next."""
        if self.ready.shape.audience != "vendor":
            return entry.who != "computed"
        asked = place in self.asked or waits_for_vendor(self.ready, place, self._known)
        return entry.who == "vendor" and asked

    def _known(self, address: str, row: str) -> Value:
        place = Place(address, row)
        return self.values.get(place, self.shown.get(place))

    def _plain(self, row: int, column: int, value: Value, form: Format, place: Place) -> None:
        if value is None or value == "":
            self._ok(self.sheet.write_blank(row, column, None, form))
        elif isinstance(value, str):
            if self.sheet.write_string(row, column, value, form):
                raise UserError(say("{place}: the text is longer than a cell can hold", place=place))
        elif isinstance(value, datetime.date):
            self._ok(self.sheet.write_datetime(row, column, datetime.datetime.combine(value, datetime.time()), form))
        elif isinstance(value, int | float):
            self._ok(self.sheet.write_number(row, column, value + 0, form))

    def _picture(self, span: Span, picture: Picture, entry: Entry) -> None:
        wide = sum(int(7 * width + 5) for width in self.page.widths[span.first - 1 : span.last])
        high = self.page.heights.get(span.row, 18) * 4 / 3
        width, height = width_and_height(entry.heading, picture.data)
        scale = min((wide - 8) / width, (high - 8) / height)
        self._ok(
            self.sheet.insert_image(
                span.row - 1,
                span.first - 1,
                f"{picture.digest[:16]}.png",
                {
                    "image_data": io.BytesIO(picture.data),
                    "x_scale": scale,
                    "y_scale": scale,
                    "x_offset": 4 + max(0, (wide - 8 - width * scale) / 2),
                    "y_offset": 4,
                    "object_position": 2,
                    "description": with_words(entry.heading, self.ready.shape),
                },
            )
        )

    def _span(self, span: Span, text: str, form: Format) -> None:
        if span.last > span.first:
            self._ok(self.sheet.merge_range(span.row - 1, span.first - 1, span.row - 1, span.last - 1, text, form))
        else:
            self._ok(self.sheet.write_string(span.row - 1, span.first - 1, text, form))

    def _ok(self, code: int | None) -> None:
        # xlsxwriter answers -1 or -2 and writes nothing, without a warning.
        if code:
            raise RuntimeError(f"sheet {self.page.sheet.title}: a cell could not be written (code {code})")


def cells_with_formulas(
    formulas: list[tuple[Place, Cell, str]],
) -> dict[tuple[str, int, int], tuple[Place, str]]:
    """Formulas by the cell they stand in."""
    return {(cell.sheet, cell.row, cell.column): (place, text) for place, cell, text in formulas}
