"""Expansion: a declared book with sizes and colorways becomes a plain one before anything else sees it.

Each family turns into ordinary entries, each formula speaks of them by their names, and the derived sheets are made.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any, assert_never

from .entry import Entry
from .families import Around, Axes, declared_members, families_of, member_name, plain_formula, plain_name
from .mistakes import concerning
from .parts import Book, Chart, Form, Ledger, Part, Pictures, Section, Sheet, Table, Words


def expand(book: Book, axes: Axes) -> Book:
    """The plain book for these sizes and colorways, with the derived sheets made from it and put in the book's order.

    DeclarationError names the entry, check or chart whose words cannot be expanded.
    """
    named = {axis: declared_members(book, axis) or tuple(names) for axis, names in axes.items()}
    families = families_of(book)
    plain = replace(
        book,
        sheets=tuple(
            _sheet(Around(book, families, named, sheet))
            for sheet in book.sheets
            if not sheet.only_with or named.get(sheet.only_with)
        ),
    )
    for derive in book.derived:
        plain = replace(plain, sheets=(*plain.sheets, replace(derive(plain), derived=True)))
    place = {name: index for index, name in enumerate(book.order)}
    return replace(plain, sheets=tuple(sorted(plain.sheets, key=lambda sheet: place.get(sheet.name, len(place)))))


def _sheet(at: Around) -> Sheet:
    sheet = at.sheet
    parts = tuple(made for part in sheet.parts if (made := _part(part, at)) is not None)
    checks, cautions = [], []
    for check in sheet.checks:
        with concerning(f"{sheet.name}, check {check.name!r}"):
            checks.append(replace(check, formula=plain_formula(check.formula, at)))
    for caution in sheet.cautions:
        with concerning(f"{sheet.name}, caution {caution.name!r}"):
            cautions.append(replace(caution, formula=plain_formula(caution.formula, at)))
    return replace(sheet, parts=parts, checks=tuple(checks), cautions=tuple(cautions))


def _part(part: Part, at: Around) -> Part | None:
    match part:
        case Table():
            inside = replace(at, table=part)
            return replace(part, columns=_columns(part, inside))
        case Form() | Pictures():
            return replace(part, entries=_entries(part.entries, at))
        case Ledger():
            return _ledger(part, at)
        case Chart():
            return _chart(part, at)
        case Words():
            return part
        case _:
            assert_never(part)


def _chart(chart: Chart, at: Around) -> Chart | None:
    with concerning(f"{at.sheet.name}, chart {chart.title!r}"):
        series = tuple(name for word in chart.series for name in _series(word, at))
    # Nothing is left to draw of a family without members (the steps of a single size).
    return replace(chart, series=series) if series or not chart.series else None


def _series(word: str, at: Around) -> list[str]:
    base, _, ending = word.rpartition(".")
    if ending != "all":
        return [word]
    family = at.families.get(at.address(base))
    if family is None or len(family.axes) > 1:
        return [plain_name(word, at)]
    axis = family.axes[0]
    return [member_name(base, axis, number) for number in range(2 if family.skip_first else 1, len(at.names(axis)) + 1)]


def _ledger(ledger: Ledger, at: Around) -> Ledger:
    """A heading that names an axis opens into one for each member, and the families in the lines below it likewise."""
    headings: list[str] = []
    widths: list[float] = []
    for heading, width in zip(ledger.headings, ledger.widths, strict=True):
        axis = next((axis for axis in at.axes if "{" + axis + "}" in heading), "")
        names = [heading.replace("{" + axis + "}", name) for name in at.axes[axis]] if axis else [heading]
        headings.extend(names)
        widths.extend([width] * len(names))
    lines = tuple(replace(line, entries=_entries(line.entries, at)) for line in ledger.lines)
    return replace(ledger, headings=tuple(headings), widths=tuple(widths), lines=lines)


def _columns(table: Table, at: Around) -> tuple[Entry | Section, ...]:
    """All columns in their order; what went before the latest of an axis stands behind what is printed, before the workings."""
    shown: list[Entry | Section] = []
    off_paper: list[Entry | Section] = []
    earlier: list[Entry | Section] = []
    workings: list[Entry | Section] = []
    for column in table.columns:
        opened = _column(column, at)
        if isinstance(column, Section) and column.latest:
            shown += opened[-1:]
            earlier += [replace(one, printed=False) for one in reversed(opened[:-1]) if isinstance(one, Section)]
        elif isinstance(column, Section) and not column.printed:
            (workings if column.folded else off_paper).extend(opened)
        else:
            shown += opened
    return (*shown, *off_paper, *earlier, *workings)


def _column(column: Entry | Section, at: Around) -> tuple[Entry | Section, ...]:
    if isinstance(column, Entry):
        return _entries((column,), at)
    if not column.axis:
        inner = _entries(column.columns, at)
        return (replace(column, columns=inner),) if inner else ()
    with concerning(f"{at.sheet.name}, section {column.title!r}"):
        names = at.names(column.axis)
    return tuple(
        replace(
            column,
            title=column.title.replace("{" + column.axis + "}", name),
            columns=tuple(
                one for entry in column.columns for one in _in_section(entry, column.axis, number, name, at)
            ),
            axis="",
        )
        for number, name in enumerate(names, 1)
    )  # fmt: skip


def _in_section(entry: Entry, axis: str, number: int, name: str, at: Around) -> tuple[Entry, ...]:
    """An entry in the section of one member; one with an axis of its own (each size in each length) opens once more."""
    if not entry.axis or entry.axis == axis:
        return (_member(replace(entry, axis=axis), number, name, at),)
    return _entries((replace(entry, name=member_name(entry.name, axis, number)),), at.with_member(axis, number))


def _entries(entries: Iterable[Entry], at: Around) -> tuple[Entry, ...]:
    """Each entry once, or once for each member of its axis."""
    opened: list[Entry] = []
    for entry in entries:
        if not entry.axis:
            opened.append(_plain(entry, entry.formula, at, {}))
            continue
        with concerning(_address(entry.name, at)):
            names = at.names(entry.axis)
        members = list(enumerate(names, 1))[1 if entry.skip_first else 0 :]
        opened.extend(_member(entry, number, name, at) for number, name in members)
    return tuple(opened)


def _member(entry: Entry, number: int, name: str, at: Around) -> Entry:
    own = {
        "name": member_name(entry.name, entry.axis, number),
        "heading": entry.heading.replace("{" + entry.axis + "}", name),
        "first": "",
        "axis": "",
        "keeps": member_name(entry.keeps, entry.axis, number) if entry.keeps else "",
        "member": number,
        "family": entry.name,
        "member_title": name,
    }
    formula = entry.first if entry.first and number == 1 else entry.formula
    return _plain(entry, formula, at.with_member(entry.axis, number), own)


def _plain(entry: Entry, formula: str, at: Around, own: Mapping[str, Any]) -> Entry:
    """The entry with a formula that names no family, and with what is its own as a member of one."""
    with concerning(_address(own.get("name", entry.name), at)):
        plain = plain_formula(formula, at)
        blank = tuple(plain_name(name, at) for name in entry.may_be_blank)
    return (
        entry
        if not own and (plain, blank) == (entry.formula, entry.may_be_blank)
        else replace(entry, formula=plain, may_be_blank=blank, **own)
    )


def _address(name: str, at: Around) -> str:
    return f"{at.sheet.name}.{at.table.name}.{name}" if at.table else f"{at.sheet.name}.{name}"
