"""Families: one entry per size, colorway or round, and the words by which formulas speak of its members.

`spec.mine` is the member of the family that stands where we are, for each axis on its own: in a formula for each size
in the section of each length, it is of this size for a family by size and of this length for one by length.
`reach.prev` is the member before, `next.last` the last one, `step.all` the block of all members (of this row, or whole
columns where the name has that many dots), `mine` the member's number (`mine.length` where a length is not all that is
around). DEVELOPERS.md has the table of what each compiles to.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from .mistakes import DeclarationError, meant
from .parts import Book, Form, Pictures, Section, Sheet, Table
from .tokens import tokens

MEMBER = {"size": "z", "colorway": "c", "round": "r", "length": "l", "vendor": "v"}
"""The letter that a member's number follows in an expanded entry's name: spec_z2."""
MINE, PREVIOUS, LAST, ALL = "mine", "prev", "last", "all"
ENDINGS = (MINE, PREVIOUS, LAST, ALL)
"""What may follow a family's name in a formula."""

Axes = Mapping[str, Sequence[str]]


def member_name(entry: str, axis: str, number: int) -> str:
    """The name of a family's member (members are numbered from 1)."""
    return f"{entry}_{MEMBER[axis]}{number}"


@dataclass(frozen=True)
class Family:
    """The axes of a family (two where each size stands in each length), the outer one first.

    Members that do not stand side by side, because their section repeats other columns too or because they are fields of a
    form, have no block.
    """

    axes: tuple[str, ...]
    skip_first: bool = False
    side_by_side: bool = True


def declared_members(book: Book, axis: str) -> tuple[str, ...]:
    """Members of an axis that the declaration itself names (the rounds); none where the style's rows do."""
    _, table = book.tables.get(book.axes.get(axis, ""), (None, None))
    return tuple(str(row[table.key]) for row in table.rows) if table else ()


def families_of(book: Book) -> dict[str, Family]:
    """Every family of a declared book by its address."""
    return {address: family for sheet in book.sheets for address, family in _of_sheet(sheet) if family.axes}


def _of_sheet(sheet: Sheet) -> Iterator[tuple[str, Family]]:
    for part in sheet.parts:
        if isinstance(part, Table):
            for column in part.columns:
                inner = column.columns if isinstance(column, Section) else (column,)
                outer = column.axis if isinstance(column, Section) else ""
                for entry in inner:
                    axes = tuple(dict.fromkeys(axis for axis in (outer, entry.axis) if axis))
                    together = not outer or len(inner) == 1
                    yield f"{sheet.name}.{part.name}.{entry.name}", Family(axes, entry.skip_first, together)
        else:
            together = not isinstance(part, Form | Pictures)
            for entry in part.entries:
                axes = (entry.axis,) if entry.axis else ()
                yield f"{sheet.name}.{entry.name}", Family(axes, entry.skip_first, together)


@dataclass(frozen=True)
class Around:
    """Where a formula stands: its sheet and table, and the member of each axis around it."""

    book: Book
    families: Mapping[str, Family]
    axes: Axes
    sheet: Sheet
    table: Table | None = None
    members: Mapping[str, int] = field(default_factory=dict)

    def with_member(self, axis: str, number: int) -> Around:
        """The same place, at a member of an axis."""
        return replace(self, members={**self.members, axis: number})

    def names(self, axis: str) -> Sequence[str]:
        """The members of an axis; DeclarationError with a suggestion if there is no such axis."""
        if axis not in self.axes:
            raise DeclarationError(f"{axis!r} is no axis" + meant(axis, self.axes))
        return self.axes[axis]

    def address(self, name: str) -> str:
        """The declared entry that a name means here; empty if there is none."""
        own = f"{self.sheet.name}.{self.table.name}.{name}" if self.table else ""
        return next((one for one in (own, f"{self.sheet.name}.{name}", name) if one in self.book.entries), "")


def plain_formula(formula: str, at: Around) -> str:
    """Formula text in which no word speaks of a family any more; DeclarationError if one says nothing where it stands."""
    parts = tokens(formula)
    pieces: list[str] = []
    index = 0
    while index < len(parts):
        token = parts[index]
        piece = plain_name(token.text, at) if token.sort == "name" else token.text
        if piece:
            pieces.append(piece)
        elif pieces[-1:] == [","]:
            pieces.pop()
        elif [one.text for one in parts[index + 1 : index + 2]] == [","]:
            index += 1
        else:
            raise DeclarationError(f"{token.text!r} has no members here and stands alone in its brackets: add a 0")
        index += 1
    return "".join(pieces)


def plain_name(name: str, at: Around) -> str:
    """The plain word for a name in a formula; empty for the block of a family that has no members."""
    base, _, ending = name.rpartition(".")
    if MINE in (name, base):
        return str(_number(at, "" if name == MINE else ending))
    address = at.address(name)
    if address and address not in at.families:
        return name
    if address:
        raise DeclarationError(f"{name!r} is a family: say {name}.mine, .prev, .last or .all")
    address = at.address(base)
    if address not in at.families:
        if ending in ENDINGS:
            raise DeclarationError(f"{base!r} is no family of entries" + meant(base, _known(at)))
        return name
    if ending not in ENDINGS:
        raise DeclarationError(f"{ending!r} says nothing about a family" + meant(ending, ENDINGS))
    family = at.families[address]
    if ending == MINE:
        return _member(base, family, at, 0)
    if len(family.axes) > 1:
        raise DeclarationError(f"{base!r} is one for each {' and '.join(family.axes)}: only {base}.mine can be said")
    if ending == PREVIOUS:
        return _member(base, family, at, -1)
    return _last(base, family, at) if ending == LAST else _block(base, family, at)


def _known(at: Around) -> list[str]:
    """All families, as they may be called here."""
    near = f"{at.sheet.name}.{at.table.name}." if at.table else f"{at.sheet.name}."
    return [address.removeprefix(near).removeprefix(f"{at.sheet.name}.") for address in at.families]


def _number(at: Around, axis: str) -> int:
    if axis:
        at.names(axis)
        if axis not in at.members:
            raise DeclarationError(f"no {axis} is around 'mine.{axis}'")
        return at.members[axis]
    if len(at.members) != 1:
        says = " or ".join(f"mine.{one}" for one in at.members)
        raise DeclarationError(
            f"'mine' could be two numbers here: say {says}" if says else "'mine' stands in no family"
        )
    return next(iter(at.members.values()))


def _member(base: str, family: Family, at: Around, step: int) -> str:
    name = base
    for axis in family.axes:
        if axis not in at.members:
            raise DeclarationError(
                f"{base!r} is one for each {axis}, and no {axis} is around: give what is made of it an entry of its own "
                f"for each {axis}, and read the block of those (.all)"
            )
        number = at.members[axis] + step
        if number < (2 if family.skip_first else 1):
            raise DeclarationError(
                f"{base!r} has no member {number}: give the first member a formula of its own (`first`)"
            )
        name = member_name(name, axis, number)
    return name


def _last(base: str, family: Family, at: Around) -> str:
    number = len(at.names(family.axes[0]))
    if number < (2 if family.skip_first else 1):
        raise DeclarationError(f"{base!r} has no members here, and so no last one")
    return member_name(base, family.axes[0], number)


def _block(base: str, family: Family, at: Around) -> str:
    if not family.side_by_side:
        raise DeclarationError(
            f"the members of {base!r} do not stand side by side: give them an entry of its own for each {family.axes[0]}, "
            "whose members do"
        )
    first, last = 2 if family.skip_first else 1, len(at.names(family.axes[0]))
    if first > last:
        return ""
    return f"{member_name(base, family.axes[0], first)}:{member_name(base, family.axes[0], last)}"
