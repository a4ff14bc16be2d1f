"""Parts of a sheet: entries, forms, tables, ledgers, frames for pictures and charts, and the book that holds the sheets.

A declaration is frozen data and does nothing by itself: `audience` takes out what is the brand's own, `wording` puts it
into other words, `expansion` opens its families, `proof` refuses a wrong one, `workbook.model` places it. Every part
tells its `entries`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal, NamedTuple

from sheetgen.texts import marked

from .about import About
from .entry import Entry, Need
from .kinds import Value


@dataclass(frozen=True)
class Section:
    """A group of columns under one title.

    The last sections of a table may be left out of the print: in the brand's own file they are `folded` away, the very last
    ones. Of one with an axis, `latest` keeps the last member's in sight; the earlier ones follow behind what is printed.
    """

    title: str
    columns: tuple[Entry, ...]
    axis: str = ""
    printed: bool = True
    folded: bool = True
    latest: bool = False


@dataclass(frozen=True)
class Form:
    """Entries with their label beside them; `new_page` starts a printed page; one that is not `printed` stands last."""

    title: str
    entries: tuple[Entry, ...]
    note: str = ""
    new_page: bool = False
    printed: bool = True


@dataclass(frozen=True)
class Pictures:
    """Frames for large drawings, side by side; `height` in points."""

    title: str
    entries: tuple[Entry, ...]
    height: float = 300
    across: int = 2
    note: str = ""
    printed: bool = True


@dataclass(frozen=True)
class Chart:
    """A live chart in a frame of its own; `height` in points, two of `half` the width that follow each other stand side
    by side.

    `series` are fields (one bar or one segment each) or columns of one table, by name as in a formula; a family's
    members are `landed_of.all`. `categories` is the column that stands along the axis, `unit` says what is counted,
    `description` begins the text alternative, which goes on with the names of all that is drawn.

    It takes all rows of its table; only a line over computed columns ends with the last row that shows something when
    the file is made, because programs draw a formula that shows blank as 0.
    """

    title: str
    sort: Literal["stacked bars", "bars", "line"]
    series: tuple[str, ...]
    unit: str
    categories: str = ""
    description: str = ""
    height: float = 220
    half: bool = False
    private: bool = False
    entries = ()  # it has none


@dataclass(frozen=True)
class Words:
    """Plain sentences."""

    title: str
    lines: tuple[str, ...]
    entries = ()  # it has none


@dataclass(frozen=True)
class Line:
    """A line of a ledger: fixed words, then its entries; `link` is the sheet it leads to."""

    words: tuple[str, ...]
    entries: tuple[Entry, ...]
    link: str = ""


@dataclass(frozen=True)
class Ledger:
    """Lines that each work out something of their own (the checks, the list of sheets), with a column for each heading.

    A heading that names an axis (`{vendor}`) opens into one for each member, as the families below it do; over a table
    the first column is as wide as the table's ref and key together. `mark_open` is the heading of the column whose counts are
    marked where they are not 0. `new_page` starts a printed page. One that is not `printed` (steps) stands last on its sheet.
    """

    title: str
    headings: tuple[str, ...]
    widths: tuple[float, ...]
    lines: tuple[Line, ...]
    note: str = ""
    mark_open: str = ""
    new_page: bool = False
    printed: bool = True

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Those of all lines."""
        return tuple(entry for line in self.lines for entry in line.entries)


@dataclass(frozen=True)
class Table:
    """Rows under headings. A row is its ref (`ref` is the letter), not its number; `spare` rows wait at the end.

    `mirrors` takes the rows of another table; `rows` are filled by the declaration, `begins` by a new style; `new_page` and
    `printed` are as in a form; `filtered` puts filters on the headings.
    `says` are the columns that, with the key, say what a row is: an answer to it is one to another thing once they change.
    """

    name: str
    title: str
    ref: str
    key: str
    columns: tuple[Entry | Section, ...]
    spare: int = 4
    least: int = 0
    mirrors: str = ""
    rows: tuple[Mapping[str, Value], ...] = ()
    begins: tuple[Mapping[str, Value], ...] = ()
    note: str = ""
    row_height: float = 0
    new_page: bool = False
    printed: bool = True
    filtered: bool = False
    says: tuple[str, ...] = ()

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """All columns, sections opened."""
        found: list[Entry] = []
        for column in self.columns:
            found.extend(column.columns if isinstance(column, Section) else (column,))
        return tuple(found)


END_OF_TABLE = marked("insert rows above")
"""Stands in the ref's place of the line that closes a table: ranges end there, so that rows put in above it count."""


def grows(table: Table) -> bool:
    """Whether people put rows into it: it keeps spare ones, follows no other table, and something is typed into it."""
    typed = any(entry.who in {"designer", "vendor"} for entry in table.entries)
    return table.spare > 0 and not table.mirrors and typed


Part = Form | Table | Pictures | Chart | Words | Ledger


@dataclass(frozen=True)
class Check:
    """A contradiction counted live: `formula` gives the number of things wrong (0 is good), `where` the ref of the first.

    One that `stops` a purpose keeps copies for it, and for later ones, from leaving; one that stops none is a question.
    """

    name: str
    title: str
    formula: str
    who: Literal["designer", "vendor"] = "designer"
    fix: str = ""
    private: bool = False
    where: str = ""
    stops: Need = ""


@dataclass(frozen=True)
class Caution:
    """A safety or legal caution raised by data: `formula` is above 0 where it applies. It never blocks."""

    name: str
    sentence: str
    formula: str
    source: str

    @property
    def counted_as(self) -> str:
        """The entry that counts where it applies."""
        return f"caution_{self.name.replace('-', '_')}"


@dataclass(frozen=True)
class Sheet:
    """One sheet: parts from top to bottom, with the checks and cautions that belong to it.

    `only_with` names an axis without whose members the sheet is left out (lengths, for styles that have none).
    Of a sheet that is not `printed` only the title goes to paper. `main` names its first part, a table, where people work
    in it most of the time: its headings and first columns stay in sight. `seen`, `goes` and what follow: `model.visible`.
    """

    name: str
    title: str
    parts: tuple[Part, ...]
    purpose: str = ""
    private: bool = False
    checks: tuple[Check, ...] = ()
    cautions: tuple[Caution, ...] = ()
    portrait: bool = False
    derived: bool = False
    only_with: str = ""
    printed: bool = True
    main: str = ""
    seen: Literal["always", "quote", "sample", "bulk", "answers", "wanted", "never"] = "always"
    seen_with: str = ""
    goes: tuple[Need, ...] = ()
    goes_with: str = ""


class Column(NamedTuple):
    """Where an entry belongs: its sheet, its table (None for a field) and itself."""

    sheet: Sheet
    table: Table | None
    entry: Entry


Derive = Callable[["Book"], Sheet]
Translate = Callable[[str], str]
"""A text that people read, as a copy says it."""


def as_it_is(text: str) -> str:
    """The declarations' own words."""
    return text


@dataclass(frozen=True, eq=False, repr=False)  # in words it would be all sheets, over and over: minutes
class Book:
    """All sheets, the axes, and the sheets derived from the rest.

    An axis goes by the address of the table whose rows are its members; those in `optional_axes` may have none.
    `name` tells books apart: a file is read by the book that wrote it. The style's own has none. `about` says which
    fields the machinery asks for. `moved` says by form of the files which addresses were others in it.
    Derived sheets put all their own words through `say`.
    """

    sheets: tuple[Sheet, ...]
    axes: Mapping[str, str]
    derived: tuple[Derive, ...] = ()
    order: tuple[str, ...] = ()
    audience: Literal["designer", "vendor"] = "designer"
    name: str = ""
    about: About = field(default_factory=About)
    optional_axes: frozenset[str] = frozenset()
    moved: Mapping[int, Mapping[str, str]] = field(default_factory=dict)
    say: Translate = as_it_is

    @cached_property
    def entries(self) -> dict[str, Column]:
        """Every entry by its address, in the order of the sheets."""
        return {address: column for sheet in self.sheets for address, column in addresses(sheet)}

    @cached_property
    def tables(self) -> dict[str, tuple[Sheet, Table]]:
        """Every table by its address."""
        return {
            f"{sheet.name}.{part.name}": (sheet, part)
            for sheet in self.sheets
            for part in sheet.parts
            if isinstance(part, Table)
        }

    def sheet(self, name: str) -> Sheet:
        """The sheet of that name; KeyError if there is none."""
        return next(sheet for sheet in self.sheets if sheet.name == name)


def addresses(sheet: Sheet) -> Iterator[tuple[str, Column]]:
    """Every entry of a sheet by its address, in its order."""
    for part in sheet.parts:
        table = part if isinstance(part, Table) else None
        start = f"{sheet.name}.{part.name}" if isinstance(part, Table) else sheet.name
        for entry in part.entries:
            yield f"{start}.{entry.name}", Column(sheet, table, entry)
