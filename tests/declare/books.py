"""Small books for the tests of the declaration layer."""

from dataclasses import dataclass, field

from sheetgen.declare.entry import Entry, designer
from sheetgen.declare.formula import Formula, read_formula
from sheetgen.declare.kinds import number, text
from sheetgen.declare.parts import Book, Column, Form, Section, Sheet, Table


def one_sheet(*parts, **of_sheet) -> Book:
    """A book of a single sheet called goods."""
    return Book((Sheet("goods", "Goods", tuple(parts), **of_sheet),), axes={})


def with_entry(entry: Entry, *more: Sheet) -> Book:
    """The entry as a field of goods, which has a field count and a table lines of item, net, waste and price."""
    return Book(
        (
            Sheet("goods", "Goods", (Form("Sums", (designer("count", "Count", number()), entry)), lines())),
            *more,
        ),
        axes={},
    )


def in_row(entry: Entry, *more: Sheet) -> Book:
    """The entry as a column of that table."""
    return Book(
        (Sheet("goods", "Goods", (Form("Sums", (designer("count", "Count", number()),)), lines(entry))), *more), axes={}
    )


def lines(*more: Entry | Section) -> Table:
    return Table("lines", "Lines", ref="L", key="item", columns=(
        designer("item", "Item", text()),
        designer("net", "Net", number()),
        designer("waste", "Waste", number()),
        designer("price", "Price", number()),
        *more,
    ))  # fmt: skip


def formula_of(book: Book, address: str) -> Formula:
    return read_formula(book, column_of(book, address))


def column_of(book: Book, address: str) -> Column:
    return book.entries[address]


@dataclass
class Places:
    """Where things stand, written by hand: fields as (title, row, column), columns as (title, column, first, last)."""

    fields: dict[str, tuple[str, int, int]] = field(default_factory=dict)
    columns: dict[str, tuple[str, int, int, int]] = field(default_factory=dict)

    def cell(self, address: str) -> tuple[str, int, int] | None:
        return self.fields.get(address)

    def column(self, address: str) -> tuple[str, int, int, int] | None:
        return self.columns.get(address)


GOODS_PLACES = Places(
    fields={"goods.count": ("Goods", 5, 3), "own.margin": ("Own prices", 7, 28)},
    columns={
        "goods.lines.ref": ("Goods", 1, 10, 14),
        "goods.lines.item": ("Goods", 2, 10, 14),
        "goods.lines.net": ("Goods", 3, 10, 14),
        "goods.lines.waste": ("Goods", 4, 10, 14),
        "goods.lines.price": ("Goods", 5, 10, 14),
        "rates.table.code": ("It's rates", 27, 4, 9),
        "rates.table.rate": ("It's rates", 28, 4, 9),
    },
)
