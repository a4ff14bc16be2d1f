"""Charts by name: what a chart draws, resolved as a formula's words are, and refused where it could not be drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from .entry import REF
from .formula import Reference, resolve
from .mistakes import DeclarationError
from .parts import Book, Chart, Section, Sheet


@dataclass(frozen=True)
class Plot:
    """A chart read once: the address of each series with its name, and the address of the column along the axis."""

    series: tuple[tuple[str, str], ...]
    categories: str = ""

    @property
    def reads(self) -> Iterator[str]:
        """Addresses of all entries that the chart draws."""
        yield from (address for address, _ in self.series)
        if self.categories:
            yield self.categories


def read_chart(book: Book, sheet: Sheet, chart: Chart) -> Plot:
    """Resolve a chart's names; DeclarationError if one is unknown or they cannot stand in one drawing."""
    series = [resolve(book, sheet, None, word) for word in chart.series]
    if not series:
        raise DeclarationError("it has no series")
    _refuse_mixed(book, series)
    if series[0].sort == "cell":
        if chart.categories or chart.sort == "line":
            raise DeclarationError("fields stand side by side in bars, without categories; a line goes over columns")
        return Plot(_named(book, series))
    if not chart.categories:
        raise DeclarationError("columns need categories: the column that stands along the axis")
    categories = resolve(book, sheet, None, chart.categories)
    tables = {reference.address.rpartition(".")[0] for reference in (*series, categories)}
    if len(tables) > 1:
        raise DeclarationError(f"all its columns must be of one table, not of {' and '.join(sorted(tables))}")
    return Plot(_named(book, series), categories.address)


def _refuse_mixed(book: Book, series: list[Reference]) -> None:
    if len({reference.sort for reference in series}) > 1:
        raise DeclarationError("fields and columns do not go into one chart")
    kinds = {}
    for reference in series:
        column = book.entries.get(reference.address)
        if column is None or not column.entry.kind.is_number:
            raise DeclarationError(f"{reference.address} holds no numbers")
        kinds[column.entry.kind.name] = reference.address
    if len(kinds) > 1:
        raise DeclarationError(f"{' and '.join(kinds.values())} have different units, and a chart has one axis")


def _named(book: Book, series: list[Reference]) -> tuple[tuple[str, str], ...]:
    """Each series under its heading; headings that are alike take the title of their section, and then a number."""
    addresses = [reference.address for reference in series]
    if len(set(addresses)) < len(addresses):
        raise DeclarationError("a series is in it twice")
    names = [book.entries[address].entry.heading for address in addresses]
    names = [
        f"{title}: {name}" if names.count(name) > 1 and (title := _section(book, address)) else name
        for address, name in zip(addresses, names, strict=True)
    ]
    # Two colorways may carry the same name: that is the designer's word, and no fault of the book.
    return tuple(
        (address, f"{name} ({names[: index + 1].count(name)})" if names.count(name) > 1 else name)
        for index, (address, name) in enumerate(zip(addresses, names, strict=True))
    )


def _section(book: Book, address: str) -> str:
    column = book.entries[address]
    sections = [one for one in column.table.columns if isinstance(one, Section)] if column.table else []
    return next((one.title for one in sections if column.entry in one.columns), "")


def category_heading(book: Book, plot: Plot) -> str:
    """The words of the axis along which the categories stand."""
    if not plot.categories or plot.categories.rpartition(".")[2] == REF:
        return ""
    return book.entries[plot.categories].entry.heading
