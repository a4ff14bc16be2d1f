"""Entries: one thing to fill in or to work out, who fills it, and when it must be filled."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from .kinds import Kind

Who = Literal["designer", "vendor", "computed", "fixed", "drawn"]
Need = Literal["", "quote", "sample", "bulk"]
STAGES = {"quote": 1, "sample": 2, "bulk": 3}
"""Purposes in their order: what is needed for one is needed for all later ones."""
REF = "ref"
"""The word for a table row's own reference (M1, P3, ...) in formulas and names."""


class Place(NamedTuple):
    """One cell by name: the entry's address, and the row's ref where it is a column (`materials.bom[M3].price`)."""

    entry: str
    row: str = ""

    def __str__(self) -> str:
        if not self.row:
            return self.entry
        table, _, column = self.entry.rpartition(".")
        return f"{table}[{self.row}].{column}"


_PLACE = re.compile(r"(?P<table>[a-z_]+\.[a-z_0-9]+)\[(?P<row>[A-Z]+\d+)\](?:\.(?P<entry>[a-z_0-9]+))?\Z")


def place_of(text: str) -> Place:
    """`materials.bom[M3].price` or `quote.fob` as a place; a row without an entry is its ref."""
    match = _PLACE.match(text)
    if match is None:
        return Place(text)
    return Place(f"{match['table']}.{match['entry'] or REF}", match["row"])


@dataclass(frozen=True)
class Entry:
    """One thing to fill in or to work out.

    `axis` makes it a family: one entry for each size, colorway or fit round. A family entry with `asked_by` is needed
    only for the member whose name that field holds now (the fit round asked for), or while it holds `asked_when`.
    `unless` is an entry of the same row that takes its place; `keeps` the entry that keeps what is typed over a formula.
    `may_be_blank` names what the formula does not wait for, although it reads it and does not ask whether it is blank.
    `zero` says why its formula may make 0 of what is not there. `lowest` marks the smallest of a family's members, live.
    `blank` says what it means that nothing stands there, where that is not just still open: a stated default ("the
    fabric's"), or that it is not used. `looks_through` says that its formula searches tables: where a copy has none of them,
    nothing is found. `original` is the entry that keeps a picture as it was before the program drew on it; beside it, with
    `_of` at its end, stands what the drawn one was.
    """

    name: str
    heading: str
    kind: Kind
    who: Who
    need: Need = ""
    private: bool = False
    help: str = ""
    formula: str = ""
    first: str = ""
    axis: str = ""
    skip_first: bool = False
    width: float = 0
    member: int = 0
    family: str = ""
    asked_by: str = ""
    asked_when: str = ""
    unless: str = ""
    keeps: str = ""
    member_title: str = ""
    lowest: bool = False
    blank: str = ""
    may_be_blank: tuple[str, ...] = ()
    zero: str = ""
    looks_through: bool = False
    original: str = ""

    @property
    def columns_wide(self) -> float:
        """Width in characters."""
        return self.width or self.kind.width


def designer(
    name: str, heading: str, kind: Kind, *, need: Need = "", help: str = "", private: bool = False, width: float = 0,
    unless: str = "", blank: str = "",
) -> Entry:  # fmt: skip
    """An entry the brand fills."""
    return Entry(name, heading, kind, "designer", need, private, help, width=width, unless=unless, blank=blank)


def vendor(
    name: str, heading: str, kind: Kind, *, need: Need = "", help: str = "", width: float = 0, unless: str = "", blank: str = "",
) -> Entry:  # fmt: skip
    """An entry the factory fills: unlocked in its copy."""
    return Entry(name, heading, kind, "vendor", need, help=help, width=width, unless=unless, blank=blank)


def computed(
    name: str, heading: str, kind: Kind, formula: str, *, help: str = "", private: bool = False, width: float = 0,
    first: str = "", keeps: str = "", may_be_blank: tuple[str, ...] = (),
) -> Entry:  # fmt: skip
    """An entry nobody fills. `first` is the formula of a family's first member, where that differs."""
    return Entry(
        name, heading, kind, "computed", "", private, help, formula, first, width=width, keeps=keeps,
        may_be_blank=may_be_blank,
    )  # fmt: skip


def fixed(name: str, heading: str, kind: Kind, *, help: str = "", width: float = 0, private: bool = False) -> Entry:
    """An entry that the declaration itself fills (a published table), or the program when it builds a file."""
    return Entry(name, heading, kind, "fixed", help=help, width=width, private=private)


def drawn(name: str, heading: str, kind: Kind) -> Entry:
    """A picture that the program draws at every build; it is no data and is not read back."""
    return Entry(name, heading, kind, "drawn")


def or_zero(why: str, entry: Entry) -> Entry:
    """The entry, whose formula may make 0 of what is not there; and why that is right (`sheetgen.declare.zeros`)."""
    return replace(entry, zero=why)


def looking_through(entry: Entry) -> Entry:
    """The entry, whose formula searches a table that a copy may be without: nothing is found there then."""
    return replace(entry, looks_through=True)


def drawn_on(original: str, entry: Entry) -> Entry:
    """A picture on which the program draws, or all of which it does where there is none.

    One that was put in is kept clean in `original`, and counts again in the next file; the entry of that name and `_of` keeps
    what was drawn.
    """
    return replace(entry, original=original)


def per(
    axis: str, entry: Entry, *, skip_first: bool = False, asked_by: str = "", asked_when: str = "", lowest: bool = False
) -> Entry:  # fmt: skip
    """One `entry` for each member of the axis; `{size}` or `{colorway}` in its heading is the member's name."""
    return replace(entry, axis=axis, skip_first=skip_first, asked_by=asked_by, asked_when=asked_when, lowest=lowest)
