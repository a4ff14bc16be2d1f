"""Families: one entry per size, colorway or round, turned into ordinary entries before anything else sees the book.

In a family's formula: `mine` is the member's number, `step.mine` the same member of another family, `reach.prev` the
member before, `spec.row` this row's cells over all members, `measurements.points.spec.all` the whole block;
`EACH(size, ...)` adds up what stands in it over all sizes; in it `outer` is the number of the member around, and
`plies.outer` that member of another family.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from .entry import Entry
from .formula import DeclarationError
from .parts import Book, Chart, Form, Ledger, Part, Section, Sheet, Table

_WORD = re.compile(r'"(?:[^"]|"")*"|[a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*)*')
MEMBER = {"size": "z", "colorway": "c", "round": "r", "length": "l", "vendor": "v"}
"""The letter that a member's number follows in an expanded entry's name: spec_z2."""

Axes = Mapping[str, Sequence[str]]


def member_name(entry: str, axis: str, number: int) -> str:
    """The name of a family's member (members are numbered from 1)."""
    return f"{entry}_{MEMBER[axis]}{number}"


def expand(book: Book, axes: Axes) -> Book:
    """The plain book for these sizes and colorways, with the derived sheets made from it and put in the book's order."""
    families = _families(book)
    sheets = tuple(
        replace(sheet, parts=tuple(made for part in sheet.parts if (made := _expand_part(part, axes, families, sheet))),
                checks=tuple(replace(check, formula=_plain_words(check.formula, axes, families, sheet, None, 0))
                             for check in sheet.checks))
        for sheet in book.sheets if not sheet.only_with or axes.get(sheet.only_with)
    )  # fmt: skip
    plain = replace(book, sheets=sheets)
    for derive in book.derived:
        plain = replace(plain, sheets=(*plain.sheets, replace(derive(plain), derived=True)))
    place = {name: index for index, name in enumerate(book.order)}
    return replace(plain, sheets=tuple(sorted(plain.sheets, key=lambda sheet: place.get(sheet.name, len(place)))))


def for_vendor(book: Book) -> Book:
    """The book without anything that is the brand's own: not hidden, absent."""
    sheets = [
        replace(
            sheet,
            parts=tuple(part for part in map(_shared_part, sheet.parts) if part is not None),
            checks=tuple(check for check in sheet.checks if not check.private),
        )
        for sheet in book.sheets
        if not sheet.private
    ]
    return replace(book, sheets=tuple(sheets), audience="vendor")


def _shared_part(part: Part) -> Part | None:
    if isinstance(part, Table):
        columns = [
            replace(column, columns=_shared(column.columns)) if isinstance(column, Section) else column
            for column in part.columns
            if isinstance(column, Section) or not column.private
        ]
        kept = tuple(column for column in columns if not isinstance(column, Section) or column.columns)
        return replace(part, columns=kept) if kept else None
    if isinstance(part, Form):
        entries = _shared(part.entries)
        return replace(part, entries=entries) if entries else None
    if isinstance(part, Chart) and part.private:
        return None
    return part


def _shared(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    return tuple(entry for entry in entries if not entry.private)


def _families(book: Book) -> dict[str, tuple[str, bool]]:
    """Address of each family -> its axis and whether it skips the first member."""
    found: dict[str, tuple[str, bool]] = {}
    for sheet in book.sheets:
        for part in sheet.parts:
            if isinstance(part, Table):
                for column in part.columns:
                    inner = column.columns if isinstance(column, Section) else (column,)
                    axis = column.axis if isinstance(column, Section) else ""
                    for entry in inner:
                        if entry.axis or axis:
                            found[f"{sheet.name}.{part.name}.{entry.name}"] = (
                                entry.axis or axis,
                                entry.skip_first,
                            )
            elif isinstance(part, Form | Ledger):
                fields = (
                    part.entries if isinstance(part, Form) else [one for line in part.lines for one in line.entries]
                )
                found.update({f"{sheet.name}.{entry.name}": (entry.axis, False) for entry in fields if entry.axis})
    return found


def _expand_part(part: Part, axes: Axes, families: Mapping[str, tuple[str, bool]], sheet: Sheet) -> Part | None:
    if isinstance(part, Table):
        columns: list[Entry | Section] = []
        for column in part.columns:
            columns.extend(_expand_column(column, axes, families, sheet, part))
        return replace(part, columns=tuple(columns))
    if isinstance(part, Form):
        entries = [plain for entry in part.entries for plain in _expand_entry(entry, axes, families, sheet, None)]
        return replace(part, entries=tuple(entries))
    if isinstance(part, Ledger):
        return _expand_ledger(part, axes, families, sheet)
    if isinstance(part, Chart):
        series = [name for word in part.series for name in _expand_series(word, axes, families, sheet)]
        # Nothing is left to draw of a family without members (the steps of a single size).
        return replace(part, series=tuple(series)) if series or not part.series else None
    return part


def _expand_ledger(part: Ledger, axes: Axes, families: Mapping[str, tuple[str, bool]], sheet: Sheet) -> Ledger:
    """A heading that names an axis opens into one for each member, and the families in the lines below it likewise."""
    headings: list[str] = []
    widths: list[float] = []
    for heading, width in zip(part.headings, part.widths, strict=True):
        axis = next((axis for axis in axes if "{" + axis + "}" in heading), "")
        names = [heading.replace("{" + axis + "}", name) for name in axes[axis]] if axis else [heading]
        headings.extend(names)
        widths.extend([width] * len(names))
    lines = tuple(
        replace(
            line,
            entries=tuple(one for entry in line.entries for one in _expand_entry(entry, axes, families, sheet, None)),
        )
        for line in part.lines
    )
    return replace(part, headings=tuple(headings), widths=tuple(widths), lines=lines)


def _expand_series(word: str, axes: Axes, families: Mapping[str, tuple[str, bool]], sheet: Sheet) -> list[str]:
    base, _, ending = word.rpartition(".")
    if ending != "all":
        return [word]
    axis, skip_first = families[_family_address(base, families, sheet, None)]
    return [member_name(base, axis, number) for number in range(2 if skip_first else 1, len(axes[axis]) + 1)]


def _expand_column(
    column: Entry | Section, axes: Axes, families: Mapping[str, tuple[str, bool]], sheet: Sheet, table: Table
) -> list[Entry | Section]:
    if isinstance(column, Section) and column.axis:
        return [
            replace(
                column,
                title=column.title.replace("{" + column.axis + "}", name),
                columns=tuple(
                    member
                    for entry in column.columns
                    for member in _section_members(entry, column.axis, number, name, axes, families, sheet, table)
                ),
                axis="",
                new_page=column.new_page and number > 1,
            )
            for number, name in enumerate(axes[column.axis], 1)
        ]
    if isinstance(column, Section):
        inner: list[Entry] = []
        for entry in column.columns:
            inner.extend(_expand_entry(entry, axes, families, sheet, table))
        return [replace(column, columns=tuple(inner))] if inner else []
    return list(_expand_entry(column, axes, families, sheet, table))


def _section_members(
    entry: Entry, axis: str, number: int, name: str, axes: Axes, families: Mapping[str, tuple[str, bool]], sheet: Sheet,
    table: Table,
) -> list[Entry]:  # fmt: skip
    """An entry in the section of one member; one with an axis of its own (each size in each length) opens once more."""
    if not entry.axis or entry.axis == axis:
        return [_member(replace(entry, axis=axis), number, name, axes, families, sheet, table)]
    outer = replace(entry, name=member_name(entry.name, axis, number), formula=_OUTER.sub(str(number), entry.formula))
    return _expand_entry(outer, axes, families, sheet, table)


def _expand_entry(
    entry: Entry, axes: Axes, families: Mapping[str, tuple[str, bool]], sheet: Sheet, table: Table | None
) -> list[Entry]:
    if not entry.axis:
        return [replace(entry, formula=_plain_words(entry.formula, axes, families, sheet, table, 0))]
    names = list(enumerate(axes[entry.axis], 1))[1 if entry.skip_first else 0 :]
    return [_member(entry, number, name, axes, families, sheet, table) for number, name in names]


def _member(
    entry: Entry, number: int, name: str, axes: Axes, families: Mapping[str, tuple[str, bool]], sheet: Sheet, table: Table | None
) -> Entry:  # fmt: skip
    formula = entry.first if entry.first and number == 1 else entry.formula
    return replace(
        entry,
        name=member_name(entry.name, entry.axis, number),
        heading=entry.heading.replace("{" + entry.axis + "}", name),
        formula=_plain_words(formula, axes, families, sheet, table, number),
        first="",
        axis="",
        keeps=member_name(entry.keeps, entry.axis, number) if entry.keeps else "",
        member=number,
        family=entry.name,
        member_title=name,
    )


def _plain_words(
    formula: str, axes: Axes, families: Mapping[str, tuple[str, bool]], sheet: Sheet, table: Table | None, number: int,
    around: int = 0,
) -> str:  # fmt: skip
    """Formula text in which no word speaks of a family any more; `around` is the member outside of an EACH."""
    formula = _summed(
        formula, axes, lambda inner, member: _plain_words(inner, axes, families, sheet, table, member, number)
    )

    def change(match: re.Match[str]) -> str:
        word = match.group()
        if word.startswith('"'):
            return word
        if word in {"mine", "outer"}:
            return str(number if word == "mine" else around)
        base, _, ending = word.rpartition(".")
        if ending not in {"mine", "outer", "prev", "last", "row", "all"}:
            return word
        address = _family_address(base, families, sheet, table)
        axis, skip_first = families[address]
        if ending == "last":
            return member_name(base, axis, len(axes[axis]))
        if ending == "outer":
            return member_name(base, axis, around)
        if ending in {"mine", "prev"}:
            return member_name(base, axis, number - (ending == "prev"))
        first, last = (2 if skip_first else 1), len(axes[axis])
        if first > last:
            return _NOTHING
        return f"{member_name(base, axis, first)}:{member_name(base, axis, last)}"

    return _WORD.sub(change, formula).replace("," + _NOTHING, "").replace(_NOTHING + ",", "")


_NOTHING = "\x01"
"""Stands for a family without members (the steps of a single size) until it is taken out of its argument list."""
_OUTER = re.compile(r"\bouter\b")
"""In a family inside another's section: the number of the section's member (in EACH, see `_plain_words`)."""
_EACH = re.compile(r"EACH\((\w+),")


def _summed(formula: str, axes: Axes, plain: Callable[[str, int], str]) -> str:
    """EACH(size, x) as x for the first size + x for the second + ..."""
    while (start := _EACH.search(formula)) is not None:
        depth, end = 1, start.end()
        while depth:
            depth += {"(": 1, ")": -1}.get(formula[end], 0)
            end += 1
        inner = formula[start.end() : end - 1].strip()
        if _EACH.search(inner):
            raise DeclarationError(
                "one EACH inside another: `mine` would mean two things; use a column for the inner sum"
            )
        terms = [plain(inner, number) for number in range(1, len(axes[start.group(1)]) + 1)]
        formula = formula[: start.start()] + "(" + "+".join(terms) + ")" + formula[end:]
    return formula


def _family_address(base: str, families: Mapping[str, tuple[str, bool]], sheet: Sheet, table: Table | None) -> str:
    own = f"{sheet.name}.{table.name}.{base}" if table else ""
    for address in (own, f"{sheet.name}.{base}", base):
        if address in families:
            return address
    raise DeclarationError(f"{base!r} is no family of entries")
