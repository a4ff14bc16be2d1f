"""A wrong book stops at import, with a sentence that names the entry and what is wrong with it."""

import pytest

from sheetgen.declare.entry import computed, designer
from sheetgen.declare.kinds import number, pick, text
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Form, Section, Sheet, Table
from sheetgen.declare.proof import proven

from .books import in_row, lines, one_sheet, with_entry


def refusal(book: Book) -> str:
    with pytest.raises(DeclarationError) as caught:
        proven(book)
    return str(caught.value)


def field(formula: str, **words) -> Book:
    return with_entry(computed("sum", "Sum", number(), formula, **words))


def row(formula: str, *more: Sheet, **words) -> Book:
    return in_row(computed("cost", "Cost", number(), formula, **words), *more)


OWN = Sheet("own", "Own", (
    Form("Own", (designer("margin", "Margin", number()),)),
    Table("rates", "Rates", ref="X", key="code", columns=(designer("code", "Code", text()), designer("rate", "Rate", number()))),
), private=True)  # fmt: skip


def test_all_formulas_of_a_right_book_are_read():
    book = row("net*(1+waste)*price")
    assert list(proven(book)) == ["goods.lines.cost"]
    assert list(proven(book)["goods.lines.cost"].reads)[:3] == [
        "goods.lines.net",
        "goods.lines.waste",
        "goods.lines.price",
    ]


def test_an_entry_declared_twice():
    book = one_sheet(Form("A", (designer("x", "X", text()),)), Form("B", (designer("x", "Y", text()),)))
    assert refusal(book) == "declared twice: goods.x"


def test_a_table_and_a_title_declared_twice():
    book = Book((Sheet("goods", "Same", (lines(),)), Sheet("other", "Same", (lines(),))), axes={})
    assert refusal(book) == "declared twice: sheet titled Same"
    doubled = one_sheet(lines(), Table("lines", "Again", ref="B", key="k", columns=(designer("k", "K", text()),)))
    assert refusal(doubled) == "declared twice: table goods.lines"


def test_a_section_that_is_not_printed_is_the_last():
    key, steps = designer("k", "K", text()), Section("Steps", (designer("s", "S", text()),), printed=False)
    more = Section("More", (designer("m", "M", text()),))
    last = one_sheet(Table("rows", "Rows", ref="B", key="k", columns=(key, more, steps)))
    assert proven(last) == {}
    said = refusal(one_sheet(Table("rows", "Rows", ref="B", key="k", columns=(key, steps, more))))
    assert said == "table goods.rows: its section 'Steps' is not printed, and what follows it is: paper ends there"


def test_the_table_whose_headings_stay_in_sight_is_the_first_part():
    table, form = (
        Table("rows", "Rows", ref="B", key="k", columns=(designer("k", "K", text()),)),
        Form("A", (designer("x", "X", text()),)),
    )
    assert proven(Book((Sheet("goods", "Goods", (table, form), main="rows"),), axes={})) == {}
    said = refusal(Book((Sheet("goods", "Goods", (form, table), main="rows"),), axes={}))
    assert said == "goods: its main table 'rows' is not its first part, and would scroll away"


@pytest.mark.parametrize("name", ["XLOOKUP", "INDIRECT", "OFFSET", "SUBTOTAL", "DATEDIF", "FILTER"])
def test_a_function_that_programs_do_not_agree_on(name):
    assert refusal(field(f"{name}(lines.net)")) == f"goods.sum: {name} is not on the safe list"


@pytest.mark.parametrize("formula", ["lines.net*2", "ROUND(lines.net,2)", "1+lines.net", "IF(lines.net>1,1,2)"])
def test_a_whole_column_used_as_one_value(formula):
    assert refusal(field(formula)) == "goods.sum: lines.net is a whole column, used as one value"


@pytest.mark.parametrize(
    "formula",
    [
        "SUM(lines.net)",
        "SUM((lines.net))",
        "SUMPRODUCT((lines.net>1)*lines.price)",
        "INDEX(lines.net,1,1)",
        "COUNT(lines.net)/2",
    ],
)
def test_a_whole_column_where_a_range_belongs(formula):
    assert list(proven(field(formula))) == ["goods.sum"]


@pytest.mark.parametrize("function", ["SUM", "SUMPRODUCT", "COUNT", "COUNTA"])
def test_adding_up_one_cell(function):
    assert (
        refusal(row(f"{function}(net)"))
        == f"goods.lines.cost: {function}(net) adds up one cell; the column is <table>.net"
    )


def test_a_computed_column_multiplied_in_sumproduct():
    book = one_sheet(
        Form("Sums", (computed("sum", "Sum", number(), "SUMPRODUCT(lines.price*lines.gross)"),)),
        lines(computed("gross", "Gross", number(), "net*2")),
    )
    assert (
        refusal(book)
        == "goods.sum: lines.gross is computed and may be blank: give SUMPRODUCT it as an argument of its own"
    )


@pytest.mark.parametrize(
    "formula", ["SUMPRODUCT(lines.price,lines.gross)", 'SUMPRODUCT((lines.item<>"")*1,lines.gross)']
)
def test_a_computed_column_as_its_own_argument(formula):
    book = one_sheet(
        Form("Sums", (computed("sum", "Sum", number(), formula),)), lines(computed("gross", "Gross", number(), "net*2"))
    )
    assert list(proven(book)) == ["goods.sum", "goods.lines.gross"]


@pytest.mark.parametrize(
    ("formula", "read"), [("net*own.margin", "own.margin"), ("INDEX(own.rates.rate,1)", "own.rates.rate")]
)
def test_a_shared_formula_that_reads_a_private_sheet(formula, read):
    assert refusal(row(formula, OWN)) == f"goods.lines.cost: shared, but reads the brand's own {read}"


def test_a_shared_formula_that_reads_a_private_column():
    book = one_sheet(
        lines(designer("target", "Target", number(), private=True), computed("gap", "Gap", number(), "price-target"))
    )
    assert refusal(book) == "goods.lines.gap: shared, but reads the brand's own goods.lines.target"


def test_a_private_formula_may_read_what_is_private():
    assert list(proven(row("net*own.margin", OWN, private=True))) == ["goods.lines.cost"]


def test_choices_that_are_the_brands_own():
    book = in_row(designer("code", "Code", pick("own.rates.code")), OWN)
    assert refusal(book) == "goods.lines.code: shared, but its choices are the brand's own own.rates.code"
    assert proven(in_row(designer("code", "Code", pick("own.rates.code"), private=True), OWN)) == {}


def test_choices_that_are_nowhere():
    book = in_row(designer("code", "Code", pick("goods.lines.cod")))
    assert refusal(book) == "goods.lines.code: its choices are goods.lines.cod, which is no column of the book"


def test_a_circle_over_two_entries_and_one_over_itself():
    two = one_sheet(Form("", (computed("x", "X", number(), "y+1"), computed("y", "Y", number(), "x+1"))))
    assert refusal(two) == "goods.x -> goods.y -> goods.x: a circle"
    assert refusal(row("SUM(lines.cost)")) == "goods.lines.cost -> goods.lines.cost: a circle"


def test_a_key_that_waits_for_itself_is_no_circle():
    book = one_sheet(Table("lines", "Lines", ref="L", key="item", columns=(
        computed("item", "Item", text(), 'ref&""'), computed("twice", "Twice", text(), "item&item"),
    )))  # fmt: skip
    assert list(proven(book)) == ["goods.lines.item", "goods.lines.twice"]


def test_a_formula_that_cannot_be_read_names_its_entry():
    assert refusal(row("nett*2")) == "goods.lines.cost: nothing is called 'nett'; is it 'net'?"


@pytest.mark.parametrize(
    "formula", ["ABS(lines.net:lines.price)", "lines.net:lines.price", "IF(lines.net:lines.price=1,2,3)"]
)
def test_a_block_is_no_single_value(formula):
    assert refusal(field(formula)) == "goods.sum: lines.net is an end of a block, used as one value"
