"""A formula that nobody can read stops the book, with words that name the entry and say how long or deep it is."""

from string import ascii_lowercase

import pytest

from sheetgen.declare.entry import Place, computed, designer, per
from sheetgen.declare.expansion import expand
from sheetgen.declare.kinds import number, text
from sheetgen.declare.limits import MOST_COMPILED, MOST_DECLARED, MOST_LEVELS, refuse_unreadable
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Caution, Check, Form, Ledger, Line, Sheet, Table
from sheetgen.declare.proof import proven
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.values import ready, shape_of

from .books import in_row, one_sheet, with_entry


def field(formula: str, **words) -> Book:
    return with_entry(computed("sum", "Sum", number(), formula, **words))


def refusal(book: Book) -> str:
    with pytest.raises(DeclarationError) as caught:
        refuse_unreadable(book)
    return str(caught.value)


def of_length(characters: int) -> str:
    """A formula of ones that is so long."""
    return "count" + "+1" * ((characters - 5) // 2) + " " * ((characters - 5) % 2)


def inside(levels: int) -> str:
    return "ABS(" * levels + "count" + ")" * levels


def test_the_limits_are_those_that_were_agreed():
    assert (MOST_DECLARED, MOST_LEVELS, MOST_COMPILED) == (250, 6, 1000)


def test_a_formula_of_250_characters_and_six_levels_can_be_read():
    refuse_unreadable(field(of_length(250)))
    refuse_unreadable(field(inside(6)))
    refuse_unreadable(in_row(computed("cost", "Cost", number(), of_length(250))))


def test_a_formula_of_251_characters():
    assert refusal(field(of_length(251))) == (
        "goods.sum: its formula has 251 characters, and at most 250 can be read; give its steps entries of their own"
    )
    assert refusal(in_row(computed("cost", "Cost", number(), of_length(300)))).startswith(
        "goods.lines.cost: its formula has 300 characters"
    )


def test_a_formula_seven_levels_deep():
    assert refusal(field(inside(7))) == (
        "goods.sum: its formula is 7 brackets deep, and at most 6 can be read; give its steps entries of their own"
    )


def test_brackets_side_by_side_or_in_words_are_no_levels():
    refuse_unreadable(field("+".join(["(count)"] * 9)))
    refuse_unreadable(field('IF(count=1,"' + "(" * 9 + '","")'))


def test_the_first_members_own_formula_is_looked_at_too():
    assert refusal(field("count", first=of_length(260))).startswith("goods.sum: its formula has 260 characters")


def test_ledgers_checks_and_cautions_are_looked_at_too():
    long = of_length(252)
    ledger = Ledger("Counts", ("What", "Count"), (30, 9), (Line(("It",), (computed("it", "It", number(), long),)),))
    count = Form("Sums", (designer("count", "Count", number()),))
    assert refusal(one_sheet(count, ledger)).startswith("goods.it: its formula has 252 characters")
    assert refusal(one_sheet(count, checks=(Check("odd", "Odd", long),))).startswith(
        "goods, check odd: its formula has 252 characters"
    )
    assert refusal(one_sheet(count, cautions=(Caution("hot", "Hot.", long, "invented"),))).startswith(
        "goods, caution hot: its formula has 252 characters"
    )


def test_a_derived_sheet_is_looked_at_when_it_has_been_made():
    book = Book(
        (Sheet("goods", "Goods", (Form("Sums", (designer("count", "Count", number()),)),)),),
        axes={},
        derived=(lambda _: Sheet("made", "Made", (Form("A", (computed("b", "B", number(), of_length(270).replace("count", "goods.count")),)),)),),
    )  # fmt: skip
    refuse_unreadable(book)
    with pytest.raises(DeclarationError, match=r"made\.b: its formula has 276 characters"):
        proven(expand(book, {}))


def widths(formula: str, sizes: int) -> Book:
    """A table with a width for each size, and a sum of them by this formula."""
    book = one_sheet(Table("lines", "Lines", ref="L", key="item", columns=(
        designer("item", "Item", text()),
        per("size", designer("width", "{size}", number())),
        computed("sum", "Sum", number(), formula),
    )))  # fmt: skip
    return expand(book, {"size": [f"S{number}" for number in range(1, sizes + 1)]})


def added_up(columns: int) -> Book:
    """A table with so many columns, and a formula that adds up all of them by their short names."""
    names = [first + second for first in "abc" for second in ascii_lowercase][:columns]
    return one_sheet(Table("lines", "Lines", ref="L", key="item", columns=(
        designer("item", "Item", text()),
        *(designer(name, name, number()) for name in names),
        computed("sum", "Sum", number(), "+".join(names)),
    )))  # fmt: skip


def test_a_formula_that_is_short_as_declared_is_refused_where_it_is_too_long_in_its_cell():
    """Counted by hand: 70 cells of 6 characters ($IV999) with 69 signs are 489, and as many to wait for; =IF(OR($IV999="",
    with COUNT( and its like are 33. Each column takes 14: with one fewer it fits.
    """
    refuse_unreadable(added_up(70))
    assert list(proven(added_up(69))) == ["goods.lines.sum"]
    with pytest.raises(DeclarationError) as caught:
        proven(added_up(70))
    assert str(caught.value) == (
        "goods.lines.sum: its formula has 1011 characters in a cell, and at most 1000 can be read; give its steps "
        "entries of their own, or a block (.all) in place of single members"
    )


def test_a_block_is_as_long_for_any_number_of_members():
    assert list(proven(widths("SUM(width.all)", 200))) == ["goods.lines.sum"]


@pytest.mark.parametrize("audience", ["designer", "vendor"])
def test_a_style_of_30_sizes_and_20_colorways_can_be_made(audience):
    style = {
        **{Place("style.sizes.name", f"Z{number}"): f"S{number}" for number in range(1, 31)},
        **{Place("colorways.list.name", f"C{number}"): f"Color {number}" for number in range(1, 21)},
    }
    assert len(ready(BOOK, shape_of(BOOK, style, audience)).formulas) > 1000
