"""Aligning a whole file: which of its sheets is which, and what its names say against the words that stand on them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from sheetgen.declare.entry import REF
from sheetgen.workbook.model.geometry import Cell, TablePlace
from sheetgen.workbook.model.written import Written, WrittenSheet
from sheetgen.workbook.read.alignment import Alignment, Words, aligned, fixed_words
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.read.loaded import Area, Loaded, LoadedSheet

_ENOUGH = 0.5
"""A sheet under another title is ours if it holds so much of the words."""


def align(found: Returned) -> None:
    """Match each sheet that was sent with one of the file: by names, by title, by words."""
    written, loaded = found.written, found.loaded
    assert written is not None
    taken: set[str] = set()
    words = {sheet.title: fixed_words(sheet, found.sent_places.get(sheet.title, {})) for sheet in written.sheets}
    named = _titles_by_names(written, loaded)
    for sheet in written.sheets:
        wanted = (named.get(sheet.title), sheet.title)
        title = next((one for one in wanted if one in loaded.sheets and one not in taken), None)
        title = title or _by_words(words[sheet.title], loaded, taken | {one.title for one in written.sheets})
        if title is not None:
            taken.add(title)
            held = loaded.sheets[title]
            rows, columns = _votes_of_names(written, sheet.title, loaded, title)
            found.alignments[sheet.title] = aligned(sheet, words[sheet.title], held, rows, columns)


def _titles_by_names(written: Written, loaded: Loaded) -> dict[str, str]:
    """Where most of a sheet's names point."""
    counted: dict[str, Counter[str]] = {}
    for address, cell in written.where.fields.items():
        if area := loaded.names.get(written.name_of(address)):
            counted.setdefault(cell.sheet, Counter())[area.title] += 1
    for table, place in written.where.tables.items():
        for entry in place.columns:
            if area := loaded.names.get(written.name_of(f"{table}.{entry}")):
                counted.setdefault(place.sheet, Counter())[area.title] += 1
    return {sent: titles.most_common(1)[0][0] for sent, titles in counted.items()}


def _by_words(words: Words, loaded: Loaded, known: set[str]) -> str | None:
    """A sheet of another title that holds the words of one that is missing."""
    wanted = {text for line in words.values() for text in line.values()}
    best: tuple[float, str] = (_ENOUGH, "")
    for held in loaded.sheets.values():
        if held.title in known or not wanted:
            continue
        texts = {one.value.strip() for one in held.cells.values() if isinstance(one.value, str)}
        best = max(best, (len(wanted & texts) / len(wanted), held.title))
    return best[1] or None


def _votes_of_names(
    written: Written, sent_title: str, loaded: Loaded, title: str
) -> tuple[list[tuple[int, int]], list[tuple[int, int]]]:
    rows: list[tuple[int, int]] = []
    columns: list[tuple[int, int]] = []
    for address, cell in written.where.fields.items():
        area = loaded.names.get(written.name_of(address)) if cell.sheet == sent_title else None
        if area and area.title == title:
            rows.append((cell.row, area.first))
            columns.append((cell.column, area.column))
    for table, place in written.where.tables.items():
        if place.sheet != sent_title:
            continue
        refs = loaded.names.get(written.name_of(f"{table}.{REF}"))
        if refs and refs.title == title:
            rows += [(place.first - 1, refs.first - 1), (place.last, refs.last)]
        for entry, column in {**place.columns, REF: place.ref_column}.items():
            area = loaded.names.get(written.name_of(f"{table}.{entry}"))
            if area and area.title == title:
                columns.append((column, area.column))
    return rows, columns


def field_cell(found: Returned, address: str, by_name: Area | None) -> Cell | None:
    """Where a field is: where its name points, unless its label stands as sent and says otherwise."""
    named = Cell(by_name.title, by_name.first, by_name.column) if by_name else None
    if found.written is None:
        return named
    sent = found.written.where.fields.get(address)
    alignment = found.alignments.get(sent.sheet) if sent else None
    if sent is None or alignment is None:
        return named
    by_words = alignment.cell((sent.row, sent.column))
    if by_words is None or by_words == named or not _label_stands(found, sent, alignment):
        return named
    if named is None:
        return by_words
    found.moved_names.append(address)
    return by_words


def _label_stands(found: Returned, sent: Cell, alignment: Alignment) -> bool:
    assert found.written is not None
    sheet = found.written.sheet(sent.sheet)
    if sheet is None:
        return False
    line = ((at, cell) for at, cell in sheet.cells.items() if at[0] == sent.row and at[1] < sent.column)
    left = [at for at, cell in line if isinstance(cell.shown, str)]
    # A frame's label stands above it.
    label = max(left) if left else (sent.row - 1, sent.column)
    return _same_words(sheet, label, alignment, found.loaded.sheets[alignment.title])


def _same_words(sheet: WrittenSheet, at: tuple[int, int], alignment: Alignment, held: LoadedSheet) -> bool:
    cell, now = sheet.cells.get(at), alignment.cell(at)
    if cell is None or now is None:
        return False
    return str(cell.shown or "").strip() == str(held.value(now.row, now.column) or "").strip()


def table_place(found: Returned, address: str, areas: Mapping[str, Area]) -> TablePlace | None:
    """Where a table is: its rows between its headings and its last line, its columns under their headings.

    Where headings and names disagree, the headings as they were sent decide, because people go by them. None if neither
    is there.
    """
    sent = found.written.where.tables.get(address) if found.written else None
    alignment = found.alignments.get(sent.sheet) if sent else None
    by_names = _by_names(areas)
    if sent is None or alignment is None or found.written is None:
        return by_names
    first, last = alignment.rows.get(sent.first - 1), alignment.rows.get(sent.last)
    if first is None or last is None or last <= first:
        if by_names is None:
            return None
        place = by_names
    else:
        place = TablePlace(alignment.title, first + 1, last, ref_column=alignment.columns.get(sent.ref_column, 1))
    sheet = found.written.sheet(sent.sheet)
    held = found.loaded.sheets[alignment.title]
    for name, column in sent.columns.items():
        named, aligned_to = areas.get(name), alignment.columns.get(column)
        stands = bool(aligned_to and sheet and _same_words(sheet, (sent.first - 1, column), alignment, held))
        by_name = named.column if named and named.title == place.sheet else None
        at = aligned_to if stands else by_name
        if at is not None:
            place.columns[name] = at
            if by_name is not None and at != by_name:
                found.moved_names.append(f"{address}.{name}")
    return place


def _by_names(areas: Mapping[str, Area]) -> TablePlace | None:
    refs = areas.get(REF)
    any_area = refs or next(iter(areas.values()), None)
    if any_area is None:
        return None
    ref_column = refs.column if refs else max(1, min(area.column for area in areas.values()) - 1)
    place = TablePlace(any_area.title, any_area.first, any_area.last, ref_column=ref_column)
    place.columns = {name: area.column for name, area in areas.items() if area.title == any_area.title and name != REF}
    return place
