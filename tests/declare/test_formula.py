"""Formula text by names: read, resolved, compiled for where things stand, and compared."""

import re

import pytest

from sheetgen.declare.a1 import letters, plain, quoted
from sheetgen.declare.entry import computed, designer
from sheetgen.declare.formula import ROW, compiled, resolve
from sheetgen.declare.kinds import number, text
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Form, Sheet, Table
from sheetgen.declare.tokens import Token, tokens

from .books import GOODS_PLACES, Places, column_of, formula_of, in_row, lines, one_sheet, with_entry

RATES = Sheet("rates", "It's rates", (
    Table("table", "Rates", ref="X", key="code", columns=(
        designer("code", "Code", text()), designer("rate", "Rate", number()),
    )),
))  # fmt: skip
OWN = Sheet("own", "Own prices", (Form("Own", (designer("margin", "Margin", number()),)),))


def test_tokens_keep_words_in_quotes_whole():
    assert tokens('IF(bom.unit="m  ""x"" net",net2*1.5,{1,2}<=3)') == (
        Token("function", "IF"), Token("sign", "("), Token("name", "bom.unit"), Token("sign", "="),
        Token("text", '"m  ""x"" net"'), Token("sign", ","), Token("name", "net2"), Token("sign", "*"),
        Token("number", "1.5"), Token("sign", ","), Token("sign", "{"), Token("number", "1"), Token("sign", ","),
        Token("number", "2"), Token("sign", "}"), Token("sign", "<="), Token("number", "3"),
        Token("sign", ")"),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("formula", "rest"), [("net!A1", "'!A1'"), ("net+[@price]", "'[@price]'"), ("SUM", "'SUM'"), ('"open', "'\"open'")]
)
def test_a_sign_that_the_language_does_not_have(formula, rest):
    with pytest.raises(DeclarationError, match=re.escape(f"cannot read {rest} in {formula!r}")):
        tokens(formula)


@pytest.mark.parametrize(
    ("name", "meaning"),
    [
        ("net", ("row", "goods.lines.net")),
        ("ref", ("ref", "goods.lines.ref")),
        ("count", ("cell", "goods.count")),
        ("lines.net", ("column", "goods.lines.net")),
        ("lines.ref", ("column", "goods.lines.ref")),
        ("own.margin", ("cell", "own.margin")),
        ("rates.table.rate", ("column", "rates.table.rate")),
    ],
)
def test_the_number_of_dots_says_cell_or_column(name, meaning):
    book = in_row(computed("cost", "Cost", number(), "net"), RATES, OWN)
    sheet, table, _ = column_of(book, "goods.lines.cost")
    assert resolve(book, sheet, table, name) == meaning


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("nett", "nothing is called 'nett'; is it 'net'?"),
        ("lines.prise", "nothing is called 'lines.prise'; is it 'price'?"),
        ("own.margn", "nothing is called 'own.margn'; is it 'margin'?"),
        ("xyzzy", "nothing is called 'xyzzy'"),
        ("goods.lines", "nothing is called 'goods.lines'"),
        ("rates.table.rat", "nothing is called 'rates.table.rat'; is it 'rate'?"),
    ],
)
def test_an_unknown_name_brings_a_suggestion(name, says):
    book = in_row(computed("cost", "Cost", number(), "net"), RATES, OWN)
    sheet, table, _ = column_of(book, "goods.lines.cost")
    with pytest.raises(DeclarationError) as caught:
        resolve(book, sheet, table, name)
    assert str(caught.value) == says


def test_a_column_is_no_field_outside_its_table():
    book = with_entry(computed("sum", "Sum", number(), "net"))
    with pytest.raises(DeclarationError) as caught:
        formula_of(book, "goods.sum")
    assert str(caught.value) == "nothing is called 'net'; is it 'goods.lines.net'?"


def test_a_name_that_is_field_and_column_is_refused():
    book = one_sheet(
        Form("Sums", (designer("net", "Net", number()),)), lines(computed("cost", "Cost", number(), "net*price"))
    )
    with pytest.raises(DeclarationError) as caught:
        formula_of(book, "goods.lines.cost")
    assert str(caught.value) == "'net' is both a field and a column of goods.lines"


def written(entry, *more: Sheet, row: int = 12, title: str = "Goods", row_of_table: bool = True) -> str | None:
    book = in_row(entry, *more) if row_of_table else with_entry(entry, *more)
    address = f"goods.lines.{entry.name}" if row_of_table else f"goods.{entry.name}"
    made = compiled(formula_of(book, address), GOODS_PLACES, title)
    return made and made.replace(ROW, str(row))


@pytest.mark.parametrize(
    ("formula", "text_in_cell"),
    [
        # blank until the key and all that is read of the row and of fields is there
        ("net*(1+waste)", '=IF(OR($B12="",COUNT($C12,$D12)<2),"",$C12*(1+$D12))'),
        ("net*count", '=IF(OR($B12="",COUNT($C12,$C$5)<2),"",$C12*$C$5)'),
        ("net+net", '=IF(OR($B12="",COUNT($C12)<1),"",$C12+$C12)'),
        # what a formula tests itself it does not wait for
        ('IF(waste="",net,net*waste)', '=IF(OR($B12="",COUNT($C12)<1),"",IF($D12="",$C12,$C12*$D12))'),
        ('IF(waste<>"",1,2)', '=IF($B12="","",IF($D12<>"",1,2))'),
        ("N(net)+N(waste)", '=IF($B12="","",N($C12)+N($D12))'),
        ("ISBLANK(net)", '=IF($B12="","",ISBLANK($C12))'),
        # an equality with another word is no test of blank
        ('IF(waste="x",1,2)', '=IF(OR($B12="",COUNT($D12)<1),"",IF($D12="x",1,2))'),
        # columns and this row's ref are not waited for
        ("SUM(lines.net)", '=IF($B12="","",SUM($C$10:$C$14))'),
        ("MATCH(ref,lines.ref,0)", '=IF($B12="","",MATCH($A12,$A$10:$A$14,0))'),
        # blocks: a row's cells, and whole columns side by side
        ("SUM(net:price)", '=IF($B12="","",SUM($C12:$E12))'),
        ("SUM(lines.net:lines.price)", '=IF($B12="","",SUM($C$10:$E$14))'),
        # other sheets, quoted where they must be
        ("net*own.margin", "=IF(OR($B12=\"\",COUNT($C12,'Own prices'!$AB$7)<2),\"\",$C12*'Own prices'!$AB$7)"),
        (
            "INDEX(rates.table.rate,MATCH(item,rates.table.code,0))",
            "=IF($B12=\"\",\"\",INDEX('It''s rates'!$AB$4:$AB$9,MATCH($B12,'It''s rates'!$AA$4:$AA$9,0)))",
        ),
        ("SUM(rates.table.code:rates.table.rate)", "=IF($B12=\"\",\"\",SUM('It''s rates'!$AA$4:$AB$9))"),
    ],
)
def test_a_row_formula_as_it_stands_in_the_cell(formula, text_in_cell):
    assert written(computed("cost", "Cost", number(), formula), RATES, OWN) == text_in_cell


@pytest.mark.parametrize(
    ("formula", "text_in_cell"),
    [
        ("SUM(lines.net)", "=SUM($C$10:$C$14)"),
        ("ROUND(count*2,2)", '=IF(COUNT($C$5)<1,"",ROUND($C$5*2,2))'),
        ('count&""', '=$C$5&""'),
        ('SUMIF(lines.item,"a b",lines.net)', '=SUMIF($B$10:$B$14,"a b",$C$10:$C$14)'),
    ],
)
def test_a_field_formula_as_it_stands_in_the_cell(formula, text_in_cell):
    assert written(computed("sum", "Sum", number(), formula), row_of_table=False) == text_in_cell


def test_a_formula_seen_from_another_sheet_names_the_sheet():
    assert written(computed("sum", "Sum", number(), "SUM(lines.net)"), title="Elsewhere", row_of_table=False) == (
        "=SUM(Goods!$C$10:$C$14)"
    )


@pytest.mark.parametrize("formula", ["SUM(lines.price)", "net+price", "SUM(net:price)", 'IF(price="",1,2)'])
def test_a_formula_whose_inputs_are_gone_cannot_be_written(formula):
    found = Places(GOODS_PLACES.fields, {k: v for k, v in GOODS_PLACES.columns.items() if k != "goods.lines.price"})
    book = in_row(computed("cost", "Cost", number(), formula))
    assert compiled(formula_of(book, "goods.lines.cost"), found, "Goods") is None


def test_a_formula_whose_rows_key_is_gone_cannot_be_written():
    found = Places({}, {"goods.lines.net": ("Goods", 3, 10, 14)})
    assert (
        compiled(formula_of(in_row(computed("cost", "Cost", number(), "net")), "goods.lines.cost"), found, "Goods")
        is None
    )


@pytest.mark.parametrize(("column", "name"), [(1, "A"), (26, "Z"), (27, "AA"), (52, "AZ"), (702, "ZZ"), (703, "AAA")])
def test_column_letters(column, name):
    assert letters(column) == name


@pytest.mark.parametrize(
    ("title", "in_formula"),
    [
        ("Fit", "Fit"),
        ("Fit_2", "Fit_2"),
        ("Fit 2", "'Fit 2'"),
        ("Ann's", "'Ann''s'"),
        ("2026", "'2026'"),
        ("Naht ß", "'Naht ß'"),
    ],
)
def test_titles_are_quoted_where_they_must_be(title, in_formula):
    assert quoted(title) == in_formula


@pytest.mark.parametrize(
    ("saved", "ours"),
    [
        ("=SUM( $C$10 : $C$14 )", "=SUM(C10:C14)"),
        ("='Goods'!$C$10", "=Goods!C10"),
        ('=if($A1="",TRUE(),FALSE())', '=IF(A1="",1,0)'),
        ("=A1\n+ B1", "=A1+B1"),
        ("='Own prices'!$A$1+Goods!B2", "='Own prices'!A1+'Goods'!B2"),
    ],
)
def test_what_other_programs_change_on_saving_is_no_difference(saved, ours):
    assert plain(saved) == plain(ours)


@pytest.mark.parametrize(
    ("changed", "ours"),
    [
        ('=SUMIF(A1:A9,"fab ric",B1:B9)', '=SUMIF(A1:A9,"fabric",B1:B9)'),
        ('=SUMIF(A1:A9,"FABRIC",B1:B9)', '=SUMIF(A1:A9,"fabric",B1:B9)'),
        ('=A1&"$"', '=A1&""'),
        ('=A1&"TRUE()"', '=A1&"1"'),
        ('=A1&"say ""a b"""', '=A1&"say ""ab"""'),
        ("=Own!A1", "='Own prices'!A1"),
        ("=C10*1.5", "=C10*1.05"),
        ("=SUM(C10:C13)", "=SUM(C10:C14)"),
    ],
)
def test_a_real_change_stays_one(changed, ours):
    assert plain(changed) != plain(ours)


def test_a_block_of_fields_reaches_from_the_first_to_the_last():
    fields = [designer(name, name, number()) for name in ("first", "second")]
    book = one_sheet(Form("Sums", (*fields, computed("most", "Most", number(), "MAX(first:second)"))))
    formula = formula_of(book, "goods.most")
    where = Places(fields={"goods.first": ("Goods", 4, 3), "goods.second": ("Goods", 4, 4)})
    assert compiled(formula, where, "Goods") == "=MAX($C$4:$D$4)"
    assert compiled(formula, where, "Other") == "=MAX(Goods!$C$4:$D$4)"
    del where.fields["goods.second"]
    assert compiled(formula, where, "Goods") is None
