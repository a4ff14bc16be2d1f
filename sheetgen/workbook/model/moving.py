"""Moving: a book of an older form under today's addresses, where its entries have been renamed or moved since.

The file stays as it is; its names and places are the old ones, what is found in them goes by today's addresses, so that
rules and acceptance need not know of older forms.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import fields, replace

from sheetgen.declare.about import About
from sheetgen.declare.entry import REF, Entry, Place
from sheetgen.declare.formula import Formula, Reference
from sheetgen.declare.parts import Book, Form, Ledger, Part, Sheet, Table
from sheetgen.workbook.model.geometry import Geometry, TablePlace
from sheetgen.workbook.model.values import Ready
from sheetgen.workbook.model.written import Written

Moves = Mapping[str, str]
"""An entry's address in an older form -> its address today."""


def moves_since(book: Book, form: int) -> dict[str, str]:
    """What has moved since a form: the moves of each form since, one after another."""
    found: dict[str, str] = {}
    for number in sorted(one for one in book.moved if one >= form):
        step = book.moved[number]
        found = {old: step.get(now, now) for old, now in found.items()}
        found.update({old: now for old, now in step.items() if old not in found.values() and old not in found})
    return found


def moved_place(place: Place, moves: Moves) -> Place:
    """A place under its address of today."""
    return Place(_new(place.entry, moves), place.row) if moves else place


def moved(written: Written, moves: Moves) -> Written:
    """What was written, under today's addresses; `names` say what the file calls those that have moved."""
    if not moves:
        return written
    book, where = written.ready.book, written.where
    formulas = {_new(address, moves): _formula(address, one, moves) for address, one in written.ready.formulas.items()}
    changed = replace(
        book,
        sheets=_sheets(book, moves),
        axes={axis: _table(book, table, moves) for axis, table in book.axes.items()},
        about=About(**{one.name: _new(getattr(book.about, one.name), moves) for one in fields(About)}),
    )
    ready = Ready(changed, formulas, written.ready.shape)
    names = {_new(address, moves): address for address in book.entries if _new(address, moves) != address}
    names |= {
        f"{_table(book, table, moves)}.{REF}": f"{table}.{REF}" for table in book.tables
        if _table(book, table, moves) != table
    }  # fmt: skip
    return replace(written, ready=ready, where=_geometry(where, moves), names=names)


def _new(address: str, moves: Moves) -> str:
    table, _, name = address.rpartition(".")
    if name == REF and address not in moves:
        tables = {now.rpartition(".")[0] for old, now in moves.items() if old.rpartition(".")[0] == table}
        return f"{tables.pop()}.{REF}" if len(tables) == 1 else address
    return moves.get(address, address)


def _table(book: Book, address: str, moves: Moves) -> str:
    """A table's address today: where its key is now."""
    key = f"{address}.{book.tables[address][1].key}" if address in book.tables else ""
    return _new(key, moves).rpartition(".")[0] if key else address


def _formula(address: str, formula: Formula, moves: Moves) -> Formula:
    def new(reference: Reference) -> Reference:
        return Reference(reference.sort, _new(reference.address, moves))

    return Formula(
        _new(address, moves).partition(".")[0] if address in moves else formula.sheet,
        formula.tokens,
        tuple(None if one is None else new(one) for one in formula.references),
        tuple(new(one) for one in formula.waits_for),
        tuple(new(one) for one in formula.numbers),
    )


def _sheets(book: Book, moves: Moves) -> tuple[Sheet, ...]:
    """The sheets with each entry where it belongs today; a sheet or table that is new has the old one's title."""
    parts: dict[str, list[Part]] = {}
    about: dict[str, Sheet] = {}
    for sheet in book.sheets:
        for part in sheet.parts:
            for home, piece in _pieces(sheet, part, moves):
                about.setdefault(
                    home, sheet if home == sheet.name else replace(sheet, name=home, parts=(), cautions=())
                )
                parts.setdefault(home, []).append(piece)
        about.setdefault(sheet.name, sheet)
        parts.setdefault(sheet.name, [])
    return tuple(replace(about[name], parts=tuple(parts[name])) for name in about)


def _pieces(sheet: Sheet, part: Part, moves: Moves) -> Iterable[tuple[str, Part]]:
    start = f"{sheet.name}.{part.name}" if isinstance(part, Table) else sheet.name
    homes: dict[str, list[Entry]] = {}
    for entry in part.entries:
        home, _, name = _new(f"{start}.{entry.name}", moves).rpartition(".")
        homes.setdefault(home, []).append(_renamed(entry, name, start, moves))
    if list(homes) == [start] and isinstance(part, Ledger):
        renamed = {entry.name: one for entry, one in zip(part.entries, homes[start], strict=True)}
        lines = (replace(line, entries=tuple(renamed[one.name] for one in line.entries)) for line in part.lines)
        yield start, replace(part, lines=tuple(lines))
        return
    for home, entries in homes.items():
        if isinstance(part, Table):
            key = _new(f"{start}.{part.key}", moves)
            mirrors = part.mirrors if key.rpartition(".")[0] == home else key.rpartition(".")[0]
            here = key.rpartition(".")[2] if key.rpartition(".")[0] == home else entries[0].name
            yield (
                home.partition(".")[0],
                replace(part, name=home.partition(".")[2], key=here, columns=tuple(entries), mirrors=mirrors),
            )
        else:
            yield home, Form("", tuple(entries))


def _renamed(entry: Entry, name: str, start: str, moves: Moves) -> Entry:
    def here(other: str) -> str:
        return _new(f"{start}.{other}", moves).rpartition(".")[2] if other else ""

    kind = replace(entry.kind, source=_new(entry.kind.source, moves)) if entry.kind.source else entry.kind
    return replace(
        entry,
        name=name,
        kind=kind,
        asked_by=_new(entry.asked_by, moves),
        unless=here(entry.unless),
        keeps=here(entry.keeps),
    )


def _geometry(where: Geometry, moves: Moves) -> Geometry:
    titles = dict(where.titles)
    fields_at = {_new(address, moves): cell for address, cell in where.fields.items()}
    tables: dict[str, TablePlace] = {}
    for address, place in where.tables.items():
        for name, column in place.columns.items():
            home, _, now = _new(f"{address}.{name}", moves).rpartition(".")
            here = tables.setdefault(
                home, TablePlace(place.sheet, place.first, place.last, {}, place.rows, place.ref_column)
            )
            here.columns[now] = column
    for address, cell in fields_at.items():
        titles.setdefault(address.partition(".")[0], cell.sheet)
    for address, place in tables.items():
        titles.setdefault(address.partition(".")[0], place.sheet)
    return Geometry(titles, fields_at, tables)
