"""The vendor's book holds nothing of the brand's own, whatever kind of part it stands in, and names nothing that is not in it."""

from dataclasses import fields, replace
from typing import get_args

import pytest

from sheetgen.declare.audience import for_vendor, private_in
from sheetgen.declare.entry import computed, designer, fixed, per, vendor
from sheetgen.declare.expansion import expand
from sheetgen.declare.kinds import money, number, pick, picture, text
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import (
    Book,
    Caution,
    Chart,
    Check,
    Form,
    Ledger,
    Line,
    Part,
    Pictures,
    Section,
    Sheet,
    Table,
    Words,
)
from sheetgen.declare.proof import proven
from sheetgen.declare.wording import READ_BY_PEOPLE

SHARED, OWN = designer("shared", "Shared", text()), designer("own", "Own", text(), private=True)

PARTS = {
    Form: Form("Part", (SHARED, OWN)),
    Pictures: Pictures("Part", (designer("shared", "Shared", picture()), designer("own", "Own", picture(), private=True))),
    Table: Table("table", "Part", ref="T", key="shared", columns=(SHARED, Section("Own", (OWN,)))),
    Ledger: Ledger("Part", ("", "Shared", "Own"), (9, 9, 9), (Line(("both",), (SHARED, OWN)), Line(("own",), (replace(OWN, name="own_2"),)))),
    Chart: Chart("Part", "bars", ("count",), "pc", private=True),
    Words: Words("Part", ("for all",)),
}  # fmt: skip
"""One of each kind of part that holds something of the brand's own, if it can hold any."""


def book_of(*parts, **of_sheet) -> Book:
    return Book(
        (Sheet("goods", "Goods", (Form("Sums", (designer("count", "Count", number()),)), *parts), **of_sheet),), axes={}
    )


def refusal(book: Book) -> str:
    with pytest.raises(DeclarationError) as caught:
        proven(book)
    return str(caught.value)


def test_every_kind_of_part_is_tried():
    assert set(PARTS) == set(get_args(Part))


@pytest.mark.parametrize("part", PARTS.values(), ids=lambda part: type(part).__name__)
def test_nothing_private_is_left_in_any_part(part):
    book = book_of(part)
    holds = type(part) is not Words
    assert bool(list(private_in(book))) == holds
    made = for_vendor(book)
    assert list(private_in(made)) == []
    left = [one for one in made.sheets[0].parts if one.title == "Part"]
    assert [entry.name for one in left for entry in one.entries] == (["shared"] if part.entries else [])
    assert proven(made) == {}


@pytest.mark.parametrize("part", PARTS.values(), ids=lambda part: type(part).__name__)
def test_the_proof_refuses_a_vendors_book_that_still_holds_it(part):
    book = replace(book_of(part), audience="vendor")
    if type(part) is Words:
        assert proven(book) == {}
    else:
        names = ", ".join(private_in(book))
        assert refusal(book) == f"the vendor's book still holds the brand's own: {names}"


def test_the_names_of_what_is_private():
    assert [next(iter(private_in(book_of(part)))) for part in PARTS.values() if type(part) is not Words] == [
        "entry goods.own", "entry goods.own", "entry goods.table.own", "entry goods.own", "goods, chart 'Part'",
    ]  # fmt: skip
    sheet = book_of(checks=(Check("low", "Low", "0", private=True),), private=True)
    assert list(private_in(sheet)) == ["sheet goods", "goods, check 'low'"]
    assert for_vendor(sheet).sheets == ()


def test_a_kind_of_part_with_nothing_left_goes():
    for part in (Form("Own", (OWN,)), Pictures("Own", (OWN,)), Table("own", "Own", ref="T", key="own", columns=(OWN,))):
        assert len(for_vendor(book_of(part)).sheets[0].parts) == 1
    assert len(for_vendor(book_of(Ledger("Own", ("", "A"), (9, 9), (Line(("a",), (OWN,)),)))).sheets[0].parts) == 1


def test_a_ledger_keeps_its_columns():
    (_, made) = for_vendor(book_of(PARTS[Ledger])).sheets[0].parts
    assert (made.headings, made.widths) == (("", "Shared"), (9, 9))
    assert [line.words for line in made.lines] == [("both",)]
    torn = Ledger("Part", ("", "Own", "Shared"), (9, 9, 9), (Line(("both",), (OWN, SHARED)),))
    with pytest.raises(DeclarationError) as caught:
        for_vendor(book_of(torn))
    assert str(caught.value) == "goods: ledger 'Part': own is the brand's own and must stand last in its line"


def test_a_ledger_of_families_keeps_their_columns():
    line = Line(("Price",), (per("vendor", vendor("price", "{vendor}", money())), OWN))
    made = for_vendor(book_of(Ledger("By vendor", ("", "{vendor}", "Own"), (9, 9, 9), (line,))))
    (_, opened) = expand(made, {"vendor": ("A", "B")}).sheets[0].parts
    assert opened.headings == ("", "A", "B")
    assert [entry.name for entry in opened.entries] == ["price_v1", "price_v2"]


def test_declared_rows_lose_what_their_private_columns_held():
    table = Table("steps", "Steps", ref="E", key="step", rows=({"step": "cut", "cost": 3},), columns=(
        fixed("step", "Step", text()), replace(fixed("cost", "Cost", money()), private=True),
    ))  # fmt: skip
    assert for_vendor(book_of(table)).tables["goods.steps"][1].rows == ({"step": "cut"},)


LINES = Table(
    "lines",
    "Lines",
    ref="L",
    key="item",
    columns=(designer("item", "Item", text()), designer("price", "Price", money())),
)
STRAYS = [
    (Form("F", (replace(SHARED, unless="own"),)), "goods.shared: unless names goods.own, which is not in this book"),
    (Form("F", (computed("sum", "S", text(), '""', keeps="own"),)), "goods.sum: keeps names goods.own, which is not in this book"),
    (Form("F", (replace(SHARED, asked_by="goods.cont", asked_when="a"),)),
     "goods.shared: asked_by names goods.cont, which is not in this book; is it 'count'?"),
    (Form("F", (computed("sum", "S", money(), "SUM(secret.list.price)"),)),
     "goods.sum: nothing is called 'secret.list.price'; is it 'price'?"),
    (Form("F", (designer("code", "C", pick("secret.list.code")),)), "goods.code: its choices are secret.list.code, which is no column of the book"),
    (replace(LINES, name="more", key="itm"), "table goods.more: its key 'itm' is not among its columns; is it 'item'?"),
    (replace(LINES, name="more", mirrors="secret.list"), "table goods.more: it mirrors secret.list, which is not in this book"),
    (replace(LINES, name="more", rows=({"item": "a", "cost": 1},)),
     "table goods.more: its rows fill cost, which are not among its columns"),
]  # fmt: skip


@pytest.mark.parametrize("audience", ["designer", "vendor"])
@pytest.mark.parametrize(("part", "says"), STRAYS, ids=[says for _, says in STRAYS])
def test_what_is_named_must_be_in_the_book(part, says, audience):
    assert refusal(replace(book_of(LINES, part), audience=audience)) == says


def test_axes_checks_and_cautions_name_what_is_there():
    assert refusal(replace(book_of(LINES), axes={"size": "style.sizes"})) == (
        "axis size: its members are the rows of style.sizes, which is not in this book"
    )
    gone = book_of(LINES, checks=(Check("low", "Low", "COUNT(goods.lines.prise)"),))
    assert refusal(gone) == "goods, check 'low': nothing is called 'goods.lines.prise'; is it 'price'?"
    caution = Caution("cord", "Take care.", "COUNTIF(secret.list.kind,1)", "invented")
    assert refusal(book_of(cautions=(caution,))).startswith(
        "goods, caution 'cord': nothing is called 'secret.list.kind'"
    )


def test_a_shared_check_that_reads_what_is_private():
    form = Form("F", (OWN,))
    book = book_of(form, checks=(Check("low", "Low", 'IF(goods.own="",1,0)'),))
    assert refusal(book) == "goods, check 'low': shared, but reads the brand's own goods.own"
    assert proven(book_of(form, checks=(Check("low", "Low", 'IF(goods.own="",1,0)', private=True),))) == {}
    caution = Caution("low", "Low.", 'IF(goods.own="",1,0)', "invented")
    assert (
        refusal(book_of(form, cautions=(caution,)))
        == "goods, caution 'low': shared, but reads the brand's own goods.own"
    )


def test_what_can_be_private_is_told_by_a_field_of_that_name():
    """`private_in` asks every sheet, part, entry and check for `private`; nothing else may carry such a mark."""
    marked = {one for one in READ_BY_PEOPLE if "private" in {field.name for field in fields(one)}}
    assert {one.__name__ for one in marked} == {"Sheet", "Chart", "Check", "Entry"}


def test_the_vendors_book_has_nothing_of_the_brands_own():
    book = Book((
        Sheet("goods", "Goods", (
            Form("Mixed", (designer("shared", "Shared", text()), designer("secret", "Secret", text(), private=True))),
            Form("Secret form", (designer("ceiling", "Ceiling", money(), private=True),)),
            Table("lines", "Lines", ref="L", key="item", columns=(
                designer("item", "Item", text()),
                Section("Secret section", (designer("target", "Target", money(), private=True),)),
                Section("Half", (vendor("price", "Price", money()), computed("gain", "Gain", number(), "price", private=True))),
            )),
            Table("secrets", "Secret table", ref="S", key="who", columns=(designer("who", "Who", text(), private=True),)),
            Words("Note", ("for all",)),
        ), checks=(Check("open", "Open", "0"), Check("hidden", "Hidden", "0", private=True))),
        Sheet("pricing", "Pricing", (Form("", (fixed("tax", "Tax", number()),)),), private=True),
    ), axes={})  # fmt: skip
    made = for_vendor(book)
    assert list(made.entries) == ["goods.shared", "goods.lines.item", "goods.lines.price"]
    assert [part.title for part in made.sheet("goods").parts] == ["Mixed", "Lines", "Note"]
    assert [column.title for column in made.tables["goods.lines"][1].columns if isinstance(column, Section)] == ["Half"]
    assert [check.name for check in made.sheet("goods").checks] == ["open"]
    assert made.audience == "vendor"
