"""A block names its two ends; what stands between them is read as well, and proven as well."""

import pytest

from sheetgen.declare.blocks import read_by
from sheetgen.declare.entry import Entry, computed, designer
from sheetgen.declare.kinds import number
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Form, Ledger, Line
from sheetgen.declare.proof import proven

from .books import formula_of, in_row, lines, one_sheet


def read(book: Book, address: str) -> list[str]:
    return [reference.address for reference in read_by(book, formula_of(book, address))]


def count(name: str, formula: str = "1") -> Entry:
    return computed(name, name, number(), formula)


def test_columns_between_the_ends_are_read():
    book = in_row(computed("sum", "Sum", number(), "SUM(net:price)"))
    assert read(book, "goods.lines.sum") == [
        "goods.lines.net",
        "goods.lines.waste",
        "goods.lines.price",
        "goods.lines.item",
    ]


def test_whole_columns_between_the_ends_are_read():
    book = one_sheet(Form("Sums", (computed("sum", "Sum", number(), "SUM(lines.net:lines.price)"),)), lines())
    assert read(book, "goods.sum") == ["goods.lines.net", "goods.lines.waste", "goods.lines.price"]


def test_lines_of_a_ledger_between_the_ends_are_read_in_their_column_only():
    ledger = Ledger("Counts", ("What", "Needed", "Open"), (30, 9, 9), tuple(
        Line((name,), (count(f"needed_{name}"), count(f"open_{name}"))) for name in ("a", "b", "c", "d")
    ))  # fmt: skip
    book = one_sheet(Form("Sums", (computed("sum", "Sum", number(), "SUM(open_a:open_c)"),)), ledger)
    assert sorted(read(book, "goods.sum")) == ["goods.open_a", "goods.open_b", "goods.open_c"]


def test_a_block_of_one_cell_and_two_neighbors_have_nothing_between():
    assert read(in_row(computed("sum", "Sum", number(), "SUM(net:waste)")), "goods.lines.sum") == [
        "goods.lines.net",
        "goods.lines.waste",
        "goods.lines.item",
    ]


def test_a_shared_block_with_something_private_inside_is_refused():
    own = designer("target", "Target", number(), private=True)
    book = one_sheet(
        lines(own, designer("final", "Last", number()), computed("sum", "Sum", number(), "SUM(price:final)"))
    )
    with pytest.raises(
        DeclarationError, match=r"^goods\.lines\.sum: shared, but reads the brand's own goods\.lines\.target$"
    ):
        proven(book)


def test_a_circle_through_the_middle_of_a_block_is_refused():
    ledger = Ledger("Counts", ("What", "Count"), (30, 9), (
        Line(("a",), (count("a"),)), Line(("b",), (count("b", "sum+1"),)), Line(("c",), (count("c"),)),
    ))  # fmt: skip
    book = one_sheet(Form("Sums", (computed("sum", "Sum", number(), "SUM(a:c)"),)), ledger)
    with pytest.raises(DeclarationError, match=r"^goods\.sum -> goods\.b -> goods\.sum: a circle$"):
        proven(book)


@pytest.mark.parametrize(("formula", "words"), [
    ("SUM(net:price)", "ok"),
    ("SUM(price:net)", "net stands before price, and a block goes from left to right"),
])  # fmt: skip
def test_a_block_goes_from_left_to_right(formula, words):
    book = in_row(computed("sum", "Sum", number(), formula))
    if words == "ok":
        assert "goods.lines.price" in read(book, "goods.lines.sum")
        return
    with pytest.raises(DeclarationError, match=rf"^goods\.lines\.sum: {words}$"):
        proven(book)


def test_a_block_stands_in_one_table_or_ledger():
    ledger = Ledger("Counts", ("What", "Count"), (30, 9), (Line(("a",), (count("a"),)),))
    other = Ledger("More", ("What", "Count"), (30, 9), (Line(("b",), (count("b"),)),))
    book = one_sheet(Form("Sums", (computed("sum", "Sum", number(), "SUM(a:b)"),)), ledger, other)
    with pytest.raises(
        DeclarationError,
        match=r"^goods\.sum: a and b stand in no one table or ledger: no block goes from one to the other$",
    ):
        proven(book)
