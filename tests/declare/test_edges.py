"""The proof at its edges: what is near to a mistake and none, and a mistake in the less usual of its forms."""

from __future__ import annotations

import pytest

from sheetgen.declare.entry import computed, designer
from sheetgen.declare.formula import compiled
from sheetgen.declare.kinds import number, pick, text
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Form, Sheet, Table
from sheetgen.declare.proof import proven

from .books import GOODS_PLACES, Places, formula_of, in_row, lines, one_sheet, with_entry


def refusal(book: Book) -> str:
    with pytest.raises(DeclarationError) as caught:
        proven(book)
    return str(caught.value)


def sums(formula: str) -> Book:
    """A field over a table that has a computed column gross beside the typed net and price."""
    return one_sheet(
        Form("Sums", (computed("sum", "Sum", number(), formula),)), lines(computed("gross", "Gross", number(), "net*2"))
    )


@pytest.mark.parametrize(
    "formula",
    [
        "SUMPRODUCT(lines.price*lines.gross)",
        "SUMPRODUCT(lines.gross*lines.price)",
        "SUMPRODUCT(lines.price/lines.gross)",
        "SUMPRODUCT(lines.gross/lines.price)",
        "SUMPRODUCT(SUM(lines.gross*lines.price))",
    ],
)
def test_a_computed_column_multiplied_or_divided_in_sumproduct(formula: str) -> None:
    assert refusal(sums(formula)) == (
        "goods.sum: lines.gross is computed and may be blank: give SUMPRODUCT it as an argument of its own"
    )


@pytest.mark.parametrize(
    "formula",
    [
        "SUMPRODUCT(lines.price*lines.net)",  # both are typed
        "SUMPRODUCT((lines.gross>0)*lines.net)",  # what is multiplied is a comparison
        "SUM(lines.gross*2)",  # no SUMPRODUCT: an array formula that the engines work out alike
        "SUMPRODUCT(lines.gross,lines.net)",
        "SUMPRODUCT((lines.ref=lines.item)*1)",  # refs are nobody's formula
    ],
)
def test_what_is_near_to_it_and_none(formula: str) -> None:
    assert list(proven(sums(formula))) == ["goods.sum", "goods.lines.gross"]


@pytest.mark.parametrize("function", ["ABS", "ROUND", "N", "MAX", "AVERAGE"])
def test_one_cell_may_stand_alone_in_a_function_that_adds_nothing_up(function: str) -> None:
    more = ",1" if function == "ROUND" else ""
    assert list(proven(in_row(computed("cost", "Cost", number(), f"{function}(net{more})")))) == ["goods.lines.cost"]


@pytest.mark.parametrize("formula", ["SUM(net,price)", "SUM(net*2)", "SUM(net:price)", "COUNT(net:price)"])
def test_adding_up_more_than_one_cell(formula: str) -> None:
    assert list(proven(in_row(computed("cost", "Cost", number(), formula)))) == ["goods.lines.cost"]


def test_a_field_alone_in_a_sum() -> None:
    book = with_entry(computed("sum", "Sum", number(), "SUM(count)"))
    assert refusal(book) == "goods.sum: SUM(count) adds up one cell; the column is <table>.count"


@pytest.mark.parametrize("formula", ["SUM(lines.net:lines.price)", "SUMPRODUCT(lines.net:lines.price)"])
def test_a_block_of_columns_is_a_range(formula: str) -> None:
    assert list(proven(with_entry(computed("sum", "Sum", number(), formula)))) == ["goods.sum"]


@pytest.mark.parametrize(
    "formula", ["(lines.net)", "-lines.net", "(SUM(1)+lines.net)", "IF(SUM(lines.price)>1,lines.net,2)"]
)
def test_a_whole_column_behind_brackets_is_a_value_too(formula: str) -> None:
    assert refusal(with_entry(computed("sum", "Sum", number(), formula))) == (
        "goods.sum: lines.net is a whole column, used as one value"
    )


OWN = Sheet("own", "Own", (
    Table("rates", "Rates", ref="X", key="code", columns=(
        designer("code", "Code", text()), designer("hidden", "Hidden", text(), private=True),
    )),
))  # fmt: skip
"""A shared table with one column of the brand's own."""


def test_choices_out_of_a_private_column_of_a_shared_table() -> None:
    book = in_row(designer("code", "Code", pick("own.rates.hidden")), OWN)
    assert refusal(book) == "goods.lines.code: shared, but its choices are the brand's own own.rates.hidden"
    assert proven(in_row(designer("code", "Code", pick("own.rates.hidden"), private=True), OWN)) == {}
    assert proven(in_row(designer("code", "Code", pick("own.rates.code")), OWN)) == {}
    assert proven(in_row(designer("code", "Code", pick("own.rates.ref")), OWN)) == {}


def test_choices_out_of_a_table_that_is_not_there() -> None:
    book = in_row(designer("code", "Code", pick("own.prices.ref")), OWN)
    assert refusal(book) == "goods.lines.code: its choices are own.prices.ref, which is no column of the book"


def test_a_circle_is_told_from_where_it_begins() -> None:
    entries = (
        computed("first", "First", number(), "x+1"),
        computed("x", "X", number(), "y+1"),
        computed("y", "Y", number(), "x+1"),
    )
    assert refusal(one_sheet(Form("", entries))) == "goods.x -> goods.y -> goods.x: a circle"


def test_two_ways_to_one_entry_are_no_circle() -> None:
    entries = (
        computed("top", "Top", number(), "left_+right_"),
        computed("left_", "Left", number(), "low+1"),
        computed("right_", "Right", number(), "low+2"),
        designer("low", "Low", number()),
    )
    assert list(proven(one_sheet(Form("", entries)))) == ["goods.top", "goods.left_", "goods.right_"]


def without(**gone: str) -> Places:
    """Where things stand when a field or a column is gone."""
    return Places(
        {address: at for address, at in GOODS_PLACES.fields.items() if address not in gone.values()},
        {address: at for address, at in GOODS_PLACES.columns.items() if address not in gone.values()},
    )


@pytest.mark.parametrize(
    ("formula", "gone"),
    [
        ("net*2", "goods.lines.net"),
        ("net*count", "goods.count"),
        ("SUM(net:price)", "goods.lines.net"),
        ("SUM(net:price)", "goods.lines.price"),
        ("SUM(lines.net)", "goods.lines.net"),
        ("1+1", "goods.lines.item"),  # the row's key, for which it waits
        ('IF(net="",1,2)', "goods.lines.net"),
    ],
)
def test_a_formula_whose_cells_are_gone_is_none(formula: str, gone: str) -> None:
    book = in_row(computed("cost", "Cost", number(), formula))
    read = formula_of(book, "goods.lines.cost")
    assert compiled(read, GOODS_PLACES, "Goods") is not None
    assert compiled(read, without(gone=gone), "Goods") is None


def test_a_block_of_fields_goes_from_the_first_to_the_last() -> None:
    entries = (designer("first", "First", number()), designer("last", "Last", number()))
    book = one_sheet(Form("Sums", (*entries, computed("sum", "Sum", number(), "SUM(first:last)"))))
    places = Places({"goods.first": ("Goods", 5, 3), "goods.last": ("Goods", 8, 4)})
    read = formula_of(book, "goods.sum")
    assert compiled(read, places, "Goods") == "=SUM($C$5:$D$8)"
    assert compiled(read, places, "Other") == "=SUM(Goods!$C$5:$D$8)"
    for gone in places.fields:
        fewer = Places({address: at for address, at in places.fields.items() if address != gone})
        assert compiled(read, fewer, "Goods") is None


@pytest.mark.parametrize("sign", [">", "<", ">=", "<="])
def test_a_comparison_with_nothing_is_no_test_of_blank(sign: str) -> None:
    read = formula_of(in_row(computed("cost", "Cost", number(), f'IF(net{sign}"",1,2)')), "goods.lines.cost")
    text_in_cell = compiled(read, GOODS_PLACES, "Goods")
    assert text_in_cell is not None
    assert "COUNT($C\x00)<1" in text_in_cell


def test_outside_a_table_there_is_no_ref() -> None:
    assert refusal(with_entry(computed("sum", "Sum", number(), "ref"))).startswith("goods.sum: nothing is called 'ref'")


def test_a_table_may_follow_another_one() -> None:
    answers = Table("answers", "Answers", ref="L", key="says", mirrors="goods.lines", columns=(
        designer("says", "Says", text()), computed("twice", "Twice", text(), "says&says"),
    ))  # fmt: skip
    assert list(proven(one_sheet(lines(), answers))) == ["goods.answers.twice"]
