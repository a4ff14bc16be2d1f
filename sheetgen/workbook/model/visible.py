"""Which sheets are seen: what the purpose asks for, what somebody must fill or has filled, and what the brand wants to see.

A sheet is declared to be seen always, never (machinery), from a purpose on, in every copy (answers), or when it is wanted;
one that `goes` stands in copies of these purposes alone, once something stands on it, one that `goes_with` an entry once that
says something;
a blank cell that must be filled now brings any sheet into sight, and the brand's wish goes before all of this.
What the brand wants to see goes to its vendor, too; what it puts away comes to the vendor where it is asked for.
In the brand's own file a sheet that is not seen is there: its figures count, its data stays.
"""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.declare.entry import STAGES, Place, Who
from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Book, Sheet
from sheetgen.workbook.model.asked import is_asked
from sheetgen.workbook.model.geometry import Geometry
from sheetgen.workbook.model.values import Ready

WANTED, NOT_WANTED = "yes", "no"
"""What stands beside a sheet on the Guide; a copy in other words has these two, in this order, in its own."""


def hidden_sheets(ready: Ready, known: Mapping[Place, Value], where: Geometry) -> frozenset[str]:
    """Names of the sheets that are not seen; `known` is what stands in the places, typed and worked out."""
    return frozenset(sheet.name for sheet in ready.book.sheets if not _is_seen(sheet, ready, known, where))


def wish_of(book: Book, sheet: str) -> Place:
    """Where the brand says whether it wants to see a sheet."""
    return Place(book.about.wanted.format(sheet))


def _by_purpose(sheet: Sheet, purpose: str) -> bool:
    return sheet.seen == "always" or 0 < STAGES.get(sheet.seen, 0) <= STAGES.get(purpose, 1)


def _goes(sheet: Sheet, purpose: str, ready: Ready, known: Mapping[Place, Value], where: Geometry) -> bool:
    """Whether a sheet stands in a copy of this purpose, though nothing on it must be filled."""
    if (sheet.goes and purpose not in sheet.goes) or (
        sheet.goes_with and not _holds(sheet.goes_with, ready, known, where)
    ):
        return False
    if sheet.seen == "answers" or (sheet.goes and _is_filled(sheet, ready, known)):
        return True
    return _by_purpose(sheet, purpose) or _holds(sheet.seen_with, ready, known, where)


def _is_filled(sheet: Sheet, ready: Ready, known: Mapping[Place, Value]) -> bool:
    """Whether the brand has filled anything on it."""
    own = {
        address for address, column in ready.book.entries.items()
        if column.sheet.name == sheet.name and column.entry.who == "designer"
    }  # fmt: skip
    return any(place.entry in own for place, value in known.items() if value not in (None, ""))


def _is_seen(sheet: Sheet, ready: Ready, known: Mapping[Place, Value], where: Geometry) -> bool:
    if sheet.seen == "never":
        return False
    purpose = str(known.get(Place(ready.book.about.purpose)) or "")
    wish, for_vendor = wish_of(ready.book, sheet.name), ready.shape.audience == "vendor"
    column = ready.book.entries.get(wish.entry)
    wanted, not_wanted = column.entry.kind.choices if column else (WANTED, NOT_WANTED)
    if known.get(wish) == wanted or (known.get(wish) == not_wanted and not for_vendor):
        return known.get(wish) == wanted
    if _must_be_filled(sheet, ready, known, where, STAGES.get(purpose, 1)):
        return True
    if for_vendor:
        return _goes(sheet, purpose, ready, known, where)
    return _by_purpose(sheet, purpose) or _holds(sheet.seen_with, ready, known, where)


def _holds(address: str, ready: Ready, known: Mapping[Place, Value], where: Geometry) -> bool:
    """Whether something stands in an entry, or in a member of that family."""
    if not address:
        return False
    table, _, name = address.rpartition(".")
    addresses = (
        one for one, column in ready.book.entries.items()
        if one == address or (column.entry.family == name and one.rpartition(".")[0] == table)
    )  # fmt: skip
    return any(known.get(place) not in (None, "") for one in addresses for place, _ in where.places(one))


def _must_be_filled(
    sheet: Sheet, ready: Ready, known: Mapping[Place, Value], where: Geometry, stage: int
) -> bool:  # fmt: skip
    """Whether a cell of it is blank that must be filled now by whoever the file is for."""
    who: Who = "vendor" if ready.shape.audience == "vendor" else "designer"

    def value(address: str, row: str) -> Value:
        return known.get(Place(address, row), known.get(Place(address)))

    start = f"{sheet.name}."
    for address in ready.needed:
        if address.startswith(start) and ready.book.entries[address].entry.who == who:
            for place, _ in where.places(address):
                if known.get(place) in (None, "") and is_asked(ready, place, value, stage, who):
                    return True
    return False
