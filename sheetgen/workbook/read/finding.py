"""Finding: where everything stands in a file, by workbook names first, by words where a name is gone."""

from __future__ import annotations

import re
from collections.abc import Iterator

from sheetgen.declare.entry import REF, Place
from sheetgen.declare.parts import END_OF_TABLE, Table, grows
from sheetgen.texts import say
from sheetgen.workbook.model.geometry import Cell, TablePlace, name_of
from sheetgen.workbook.model.values import with_words
from sheetgen.workbook.read.aligning import align, field_cell, table_place
from sheetgen.workbook.read.found import Lost, Returned
from sheetgen.workbook.read.loaded import LoadedSheet
from sheetgen.workbook.read.record import is_record


class Finder:
    """Finds places: by workbook names first, by the words that were written where a name is gone."""

    def __init__(self, found: Returned) -> None:
        self.found, self.loaded, self.names = found, found.loaded, found.loaded.names
        self.book, self.where = found.ready.book, found.where
        self.called = found.written.name_of if found.written else name_of

    def find(self) -> None:
        """Fill in the places, and what is lost, renamed, added or doubled."""
        if self.found.written is not None:
            align(self.found)
        for address, column in self.book.entries.items():
            if column.table is None and (cell := field_cell(self.found, address, self.names.get(self.called(address)))):
                self.where.fields[address] = cell
        for address, (_, table) in self.book.tables.items():
            names = [*(entry.name for entry in table.entries), REF]
            areas = {name: area for name in names if (area := self.names.get(self.called(f"{address}.{name}")))}
            place = table_place(self.found, address, areas)
            if place is not None:
                self.where.tables[address] = place
                self._rows(address, table, place)
        self._titles()
        if self.found.written is None:
            self._by_heading()
        self._losses()

    def _titles(self) -> None:
        for sheet in self.book.sheets:
            cells = [cell.sheet for address, cell in self.where.fields.items() if address.startswith(f"{sheet.name}.")]
            tables = [
                place.sheet for address, place in self.where.tables.items() if address.startswith(f"{sheet.name}.")
            ]
            counted = [*cells, *tables]
            if counted:
                title = max(set(counted), key=counted.count)
            elif sheet.title in self.loaded.sheets:
                title = sheet.title
            else:
                continue
            self.where.titles[sheet.name] = title
            if title != sheet.title:
                self.found.renamed[sheet.name] = title
        ours = {*self.where.titles.values(), *(one.title for one in self.found.alignments.values())}
        record = next((held.title for held in self.loaded.sheets.values() if is_record(held)), None)
        for held in self.loaded.sheets.values():
            if held.title in ours:
                if not held.is_visible:
                    self.found.hidden.append(held.title)
            elif held.title != record:
                self.found.added_sheets.append(held.title)

    def _rows(self, address: str, table: Table, place: TablePlace) -> None:
        """Rows by their refs; a row that someone added takes the next free ref, so that it is audited like any other."""
        sheet = self.loaded.sheets[place.sheet]
        typed = _typed_names(table)
        columns = [column for name, column in place.columns.items() if name in typed or not typed]
        nameless: list[int] = []
        copies: list[tuple[int, str]] = []
        for row in self._rows_of(table, place, sheet, columns):
            ref = sheet.value(row, place.ref_column)
            text = "" if ref is None else str(ref).strip()
            if text == say(END_OF_TABLE) and not self._grows(table):
                continue
            if re.fullmatch(re.escape(table.ref) + r"[1-9]\d*", text):
                if text not in place.rows:
                    place.rows[text] = row
                else:
                    copies.append((row, text))
            elif any(_holds(sheet, row, column) for column in columns):
                nameless.append(row)
        self._number(address, table, place, nameless, copies)

    def _grows(self, table: Table) -> bool:
        """Whether a row that touches the table belongs to it: in the brand's own file, where people put in rows."""
        return self.found.ready.shape.audience == "designer" and grows(table)

    def _rows_of(self, table: Table, place: TablePlace, sheet: LoadedSheet, columns: list[int]) -> Iterator[int]:
        """The table's rows, and those that were pasted below its end, up to a blank one or one of another part."""
        yield from range(place.first, min(place.last, sheet.last_row) + 1)
        if not self._grows(table):
            return
        row = place.last + 1
        while any(_holds(sheet, row, column) for column in columns) and not self._is_of_another_part(place.sheet, row):
            yield row
            row += 1

    def _is_of_another_part(self, title: str, row: int) -> bool:
        """Whether something that was written below stands in this row."""
        return any(row in one.rows.values() for one in self.found.alignments.values() if one.title == title)

    def _number(
        self,
        address: str,
        table: Table,
        place: TablePlace,
        nameless: list[int],
        copies: list[tuple[int, str]],
    ) -> None:
        """Refs for rows that have none of their own: the one that is missing between its neighbors, or a new one."""
        at = {row: ref for ref, row in place.rows.items()}
        free = max((_ref_number(ref) for ref in place.rows), default=0) + 1
        for row in nameless:
            before, after = _ref_number(at.get(row - 1, "")), _ref_number(at.get(row + 1, ""))
            missing = before + 1 if before else after - 1
            if (
                missing > 0
                and row < place.last  # what stands on the closing line or below it was put in
                and f"{table.ref}{missing}" not in place.rows
                and (not after or not before or after == missing + 1)
            ):
                place.rows[f"{table.ref}{missing}"] = row
                at[row] = f"{table.ref}{missing}"
                self.found.unnamed_rows.append(Place(f"{address}.{REF}", at[row]))
                continue
            place.rows[f"{table.ref}{free}"] = row
            self.found.added_rows[Place(f"{address}.{REF}", f"{table.ref}{free}")] = row
            free += 1
        for row, text in copies:
            place.rows[f"{table.ref}{free}"] = row
            self.found.added_rows[Place(f"{address}.{REF}", f"{table.ref}{free}")] = row
            self.found.doubled_rows[Place(f"{address}.{REF}", f"{table.ref}{free}")] = text
            free += 1
        place.rows = dict(sorted(place.rows.items(), key=lambda item: item[1]))

    def _by_heading(self) -> None:
        """The second anchor: a column or field whose name is gone is looked for by its words, where its part stands."""
        for address, column in self.book.entries.items():
            title = self.where.titles.get(column.sheet.name)
            if title is None or next(self.where.places(address), None) is not None:
                continue
            heading = with_words(column.entry.heading, self.found.ready.shape)
            sheet = self.loaded.sheets[title]
            if column.table is None:
                self._field_by_heading(address, heading, sheet)
            elif (place := self.where.tables.get(f"{column.sheet.name}.{column.table.name}")) is not None:
                taken = set(place.columns.values())
                for number in range(1, sheet.last_column + 1):
                    if number not in taken and sheet.value(place.first - 1, number) == heading:
                        place.columns[column.entry.name] = number
                        break

    def _field_by_heading(self, address: str, heading: str, sheet: LoadedSheet) -> None:
        taken = set(self.where.fields.values())
        for (row, number), held in sheet.cells.items():
            if isinstance(held.value, str) and held.value.split("  ·")[0] == heading:
                right = min((place[1] for place in sheet.cells if place[0] == row and place[1] > number), default=0)
                if right and Cell(sheet.title, row, right) not in taken:
                    self.where.fields[address] = Cell(sheet.title, row, right)
                    return

    def _losses(self) -> None:
        for sheet in self.book.sheets:
            if sheet.name not in self.where.titles:
                self.found.lost.append(Lost("sheet", sheet.name))
        for address, column in self.book.entries.items():
            if column.sheet.name not in self.where.titles:
                continue
            if column.table is None:
                if address not in self.where.fields:
                    self.found.lost.append(Lost("field", address))
                continue
            table = f"{column.sheet.name}.{column.table.name}"
            if table in self.where.tables and column.entry.name not in self.where.tables[table].columns:
                self.found.lost.append(Lost("column", address))
        for address, (sheet, _) in self.book.tables.items():
            if address not in self.where.tables and sheet.name in self.where.titles:
                self.found.lost.append(Lost("table", address))


def _holds(sheet: LoadedSheet, row: int, column: int) -> bool:
    held = sheet.at(row, column)
    return held.formula is not None or held.value not in (None, "")


def _ref_number(ref: str) -> int:
    return int(ref.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ") or 0)


def _typed_names(table: Table) -> set[str]:
    return {entry.name for entry in table.entries if entry.who in {"designer", "vendor"}}
