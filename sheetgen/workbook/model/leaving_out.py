"""What a copy leaves at home: the sheets that its purpose does not show, and the workings that no answer moves.

A figure that goes while its source stays at home goes as a locked value. What the vendor's entries move stays a formula, with
all that it is worked out from; so a sheet that such a figure reads goes too, unseen.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Set
from dataclasses import replace
from datetime import timedelta
from typing import NamedTuple

from sheetgen.declare.blocks import read_by
from sheetgen.declare.charts import read_chart
from sheetgen.declare.entry import REF, Entry, Place
from sheetgen.declare.formula import resolve
from sheetgen.declare.kinds import DAY_ZERO, Value
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Chart, Column, Ledger, Line, Part, Section, Sheet, Table, Words, addresses
from sheetgen.declare.remembered import proven_once
from sheetgen.declare.tokens import tokens
from sheetgen.workbook.model.values import Ready, Values


class LeftOut(NamedTuple):
    """The book of a copy without what stays at home, and the entries whose figures go as locked values."""

    ready: Ready
    given: frozenset[str]


SPARE_ROWS = 1
"""So many stay in a copy where only the brand begins rows: they are locked, and what is put in there is seen all the same."""
_DIGITS = 15
"""So many a spreadsheet program keeps of a number when it saves."""
Home = tuple[str, int]
"""Where an entry belongs, as far as it goes or stays: its sheet; of machinery the part of the sheet, too."""


def left_out(full: Ready, unseen: frozenset[str]) -> LeftOut:
    """The vendor's book without the sheets that are not seen."""
    homes = dict(_homes(full.book))
    reads = {
        address: frozenset(one.address for one in read_by(full.book, formula))
        for address, formula in full.formulas.items()
    }
    stay = _staying(full, homes, reads, unseen)
    book = full.book
    there = frozenset(address for address, home in homes.items() if home in stay)
    torn = frozenset(address for address, read in reads.items() if not read <= there)
    plain = [_sheet(book, sheet, stay, there, torn) for sheet in book.sheets if not sheet.derived]
    kept = _with_all_cautions([sheet for sheet in plain if sheet.parts], plain)
    axes = {axis: table for axis, table in book.axes.items() if f"{table}.{REF}" in there}
    made = replace(book, sheets=tuple(kept), axes=axes)
    for derive in book.derived:
        made = replace(made, sheets=(*made.sheets, replace(derive(made), derived=True)))
    order = {sheet.name: number for number, sheet in enumerate(book.sheets)}
    sheets = (
        _with_values(sheet, _torn(made, sheet)) if sheet.derived else _with_counted_cautions(made, sheet)
        for sheet in made.sheets
    )
    made = replace(made, sheets=tuple(sorted(sheets, key=lambda sheet: order[sheet.name])))
    given = frozenset(
        address
        for address, column in made.entries.items()
        if column.entry.who == "fixed" and full.book.entries[address].entry.who == "computed"
    )
    known_by = full.known_by and full.known_by + repr(sorted(unseen)).encode()
    return LeftOut(Ready(made, proven_once(made, known_by), full.shape, known_by), given)


def given_values(given: frozenset[str], ready: Ready, shown: Mapping[Place, Value]) -> Values:
    """What the locked figures are: as they were worked out with everything there."""
    values: Values = {}
    for place, value in shown.items():
        if place.entry in given and value not in (None, ""):
            values[place] = _given_value(value, is_day=ready.book.entries[place.entry].entry.kind.name == "date")
    return values


def _given_value(value: Value, *, is_day: bool) -> Value:
    if not isinstance(value, int | float):
        return value
    return DAY_ZERO + timedelta(value) if is_day else float(f"{value:.{_DIGITS}g}")


def _home(sheet: Sheet, number: int) -> Home:
    """The home of what stands in the part of a sheet with this number, counted from 1."""
    return sheet.name, number if sheet.seen == "never" else 0


def _homes(book: Book) -> Iterator[tuple[str, Home]]:
    for sheet in book.sheets:
        for number, part in enumerate(sheet.parts, 1):
            home = _home(sheet, number)
            start = f"{sheet.name}.{part.name}" if isinstance(part, Table) else sheet.name
            yield from ((f"{start}.{entry.name}", home) for entry in part.entries)
            if isinstance(part, Table):
                yield f"{start}.{REF}", home


def _staying(
    full: Ready, homes: Mapping[str, Home], reads: Mapping[str, frozenset[str]], unseen: frozenset[str]
) -> frozenset[Home]:
    """Homes of what goes: all that is seen, lists without formulas, and what a figure reads that the vendor can move."""
    worked_out = {homes[address] for address in reads}
    stay = {home for home in homes.values() if home[0] not in unseen or (home[1] and home not in worked_out)}
    users: dict[str, list[str]] = defaultdict(list)
    read_in: dict[Home, set[str]] = defaultdict(set)
    for address, read in reads.items():
        read_in[homes[address]] |= read
        for one in read:
            users[one].append(address)
    while True:
        typed = (
            address for address, column in full.book.entries.items()
            if column.entry.who == "vendor" and homes[address] in stay
        )  # fmt: skip
        moved = _reached(typed, users)
        wanted = {
            homes[one] for address in moved if homes[address] in stay and _goes_live(full.book.entries[address])
            for one in reads.get(address, ()) if not _is_derived(full.book, one)
        }  # fmt: skip
        wanted |= _of_checks(full.book, homes, moved, stay)
        wanted |= _of_cautions(full.book, homes, read_in, stay)
        if wanted <= stay:
            return frozenset(stay)
        stay |= wanted


def _goes_live(column: Column) -> bool:
    """Checks and Guide are made anew from what goes; what looks something up finds nothing in a table that is not there."""
    return not column.sheet.derived and not column.entry.looks_through


def _of_checks(book: Book, homes: Mapping[str, Home], moved: Set[str], stay: Set[Home]) -> set[Home]:
    """The machinery that the vendor's own checks read, where all sheets that they read go."""
    wanted: set[Home] = set()
    for sheet in book.sheets:
        for check in sheet.checks if (sheet.name, 0) in stay else ():
            read = _read_by_words(book, sheet, (check.formula, check.where))
            own = {homes[address] for address in read}
            if check.who == "vendor" and read & moved and all(home[1] or home in stay for home in own):
                wanted |= own
    return wanted


def _of_cautions(
    book: Book, homes: Mapping[str, Home], read_in: Mapping[Home, Set[str]], stay: Set[Home]
) -> set[Home]:  # fmt: skip
    """The machinery of a caution, to its last step, where all sheets that it reads go: what a vendor puts in may raise it."""
    wanted: set[Home] = set()
    for sheet in book.sheets:
        for caution in sheet.cautions:
            own: set[Home] = set()
            waiting = list(_read_by_words(book, sheet, (caution.formula,)))
            while waiting:
                address = waiting.pop()
                home = homes[address]
                if home[1] and home not in own:
                    waiting += read_in.get(home, ())
                own.add(home)
            if all(home[1] or home in stay for home in own):
                wanted |= own
    return wanted


def _read_by_words(book: Book, sheet: Sheet, formulas: Iterable[str]) -> frozenset[str]:
    words = (token.text for formula in formulas for token in tokens(formula) if token.sort == "name")
    return frozenset(resolve(book, sheet, None, word).address for word in words)


def _is_derived(book: Book, address: str) -> bool:
    column = book.entries.get(address)
    return column is not None and column.sheet.derived


def _reached(start: Iterable[str], users: Mapping[str, list[str]]) -> set[str]:
    found = set(start)
    waiting = list(found)
    while waiting:
        for user in users.get(waiting.pop(), ()):
            if user not in found:
                found.add(user)
                waiting.append(user)
    return found


def _sheet(
    book: Book, sheet: Sheet, stay: frozenset[Home], there: frozenset[str], torn: frozenset[str]
) -> Sheet:  # fmt: skip
    parts = tuple(
        kept
        for number, part in enumerate(sheet.parts, 1)
        if _home(sheet, number) in stay and (kept := _part(book, sheet, part, there)) is not None
    )
    checks = tuple(
        check for check in sheet.checks if _read_by_words(book, sheet, (check.formula, check.where)) <= there
    )
    return _with_values(replace(sheet, parts=parts, checks=checks if parts else ()), torn, there)


def _part(book: Book, sheet: Sheet, part: Part, there: frozenset[str]) -> Part | None:
    if isinstance(part, Chart):
        return part if all(address in there for address in read_chart(book, sheet, part).reads) else None
    if isinstance(part, Table) and part.mirrors and f"{part.mirrors}.{REF}" not in there:
        return replace(part, mirrors="", spare=0, least=0)
    if isinstance(part, Table) and book.entries[f"{sheet.name}.{part.name}.{part.key}"].entry.who != "vendor":
        return replace(part, spare=min(part.spare, SPARE_ROWS), least=0)
    return part


def _with_all_cautions(kept: list[Sheet], plain: list[Sheet]) -> list[Sheet]:
    """A caution goes with every copy, whether or not its sheet does: the first sheet says what those that stay would."""
    names = {sheet.name for sheet in kept}
    homeless = tuple(caution for sheet in plain if sheet.name not in names for caution in sheet.cautions)
    return [replace(kept[0], cautions=(*kept[0].cautions, *homeless)), *kept[1:]]


def _torn(book: Book, sheet: Sheet) -> frozenset[str]:
    """Of a sheet made anew: what reads something that is not there any more (a caution does)."""
    return frozenset(
        address for address, column in addresses(sheet) if not _can_be_read(book, sheet, column.entry.formula)
    )


def _with_counted_cautions(book: Book, sheet: Sheet) -> Sheet:
    """A caution whose data stay at home stands in Checks as it was counted there."""
    cautions = (one if _can_be_read(book, sheet, one.formula) else replace(one, formula="0") for one in sheet.cautions)
    return replace(sheet, cautions=tuple(cautions))


def _can_be_read(book: Book, sheet: Sheet, formula: str) -> bool:
    try:
        _read_by_words(book, sheet, (formula,))
    except DeclarationError:
        return False
    return True


def _with_values(sheet: Sheet, torn: frozenset[str], there: frozenset[str] | None = None) -> Sheet:
    """The sheet with locked values where what a formula reads stays at home, and without choices from there."""

    def opened(entries: Iterable[Entry], start: str) -> tuple[Entry, ...]:
        return tuple(_given(entry, f"{start}.{entry.name}" in torn, there) for entry in entries)

    parts: list[Part] = []
    for part in sheet.parts:
        match part:
            case Table():
                start = f"{sheet.name}.{part.name}"
                columns = tuple(
                    replace(one, columns=opened(one.columns, start))
                    if isinstance(one, Section)
                    else opened((one,), start)[0]
                    for one in part.columns
                )
                parts.append(replace(part, columns=columns))
            case Ledger():
                lines = tuple(Line(line.words, opened(line.entries, sheet.name), line.link) for line in part.lines)
                parts.append(replace(part, lines=lines))
            case Chart() | Words():
                parts.append(part)
            case _:
                parts.append(replace(part, entries=opened(part.entries, sheet.name)))
    return replace(sheet, parts=tuple(parts))


def _given(entry: Entry, is_torn: bool, there: frozenset[str] | None) -> Entry:
    source = entry.kind.source
    if source and there is not None and source not in there:
        entry = replace(entry, kind=replace(entry.kind, source=""))
    if not is_torn:
        return entry
    return replace(
        entry, who="fixed", formula="", first="", keeps="", may_be_blank=(), zero="", looks_through=False
    )  # fmt: skip
