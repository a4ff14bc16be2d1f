"""What a person sees through a number format, how colors stand apart, and when two formulas are one.

Expected texts are those of ECMA-376 part 1, 18.8.30 and 18.8.31 and its examples where it gives any, the others as
LibreOffice 7.4 shows them; contrasts are those of the W3C's guidelines (21 for black on white, 1 for like on like).
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.trade.contrast import contrast
from sheetgen.workbook.model.formulas import alarming, same_formula
from sheetgen.workbook.model.rendered import rendered


@pytest.mark.parametrize(
    ("value", "code", "shown"),
    [
        (1234.59, "####.#", "1234.6"), (8.9, "#.000", "8.900"), (0.631, "0.#", "0.6"), (12, "#.0#", "12.0"),
        (1234.568, "#.0#", "1234.57"), (12000, "#,###", "12,000"), (12000, "#,", "12"), (12200000, "0.0,,", "12.2"),
        (5.25, "# ???/???", "5 1/4"), (5.3, "# ???/???", "5 3/10"), (12.375, "# ??/16", "12 6/16"), (0.5, "# ?/8", "4/8"),
        (0.6, "0", "1"), (9, ";;;", ""), ("words", ";;;", ""), (1, '"9.9"', "9.9"), (0.05, "0.0%", "5.0%"),
        (-3.5, "#,##0.00;(#,##0.00)", "(3.50)"), (0, '0;-0;"zero"', "zero"), (-1, "0.00", "-1.00"), ("x", '"<"@">"', "<x>"),
        (45000, "yyyy-mm-dd", "2023-03-15"), (45000, r"YYYY\-MM\-DD", "2023-03-15"), (45000, "[$-409]d-mmm-yy", "15-Mar-23"),
        (45000.75, "h:mm AM/PM", "6:00 PM"), (7.5, "[h]:mm", "180:00"), (45000.5, "mm:ss", "00:00"), (3, '[>2]"big";0', "big"),
        (1e-7, "0.00E+00", "1.00E-07"), (0.5, "General", "0.5"), (2.5, "0", "3"), (12, "000", "012"), (None, "0.00", ""),
    ],
)  # fmt: skip
def test_a_value_shows_as_its_format_says(value, code, shown):
    assert rendered(value, code) == shown


@given(
    st.one_of(st.text(), st.integers(), st.floats(), st.none()),
    st.text(alphabet='0#?.,%/@;[]"\\_*ymdhsE+-GenralAPM<>=1 $', max_size=30),
)
def test_no_format_stops_the_program(value, code):
    assert isinstance(rendered(value, code), str)


def test_a_percentage_that_is_no_number_any_more_is_not_shown():
    assert rendered(1.797693134862316e306, "0%") == "########"


def test_contrasts_are_those_of_the_guidelines():
    assert contrast("000000", "FFFFFF") == pytest.approx(21)
    assert contrast("777777", "777777") == pytest.approx(1)
    # The guidelines' own borderline: #767676 on white just reaches 4.5.
    assert 4.5 < contrast("767676", "FFFFFF") < 4.6
    assert contrast("no color", "FFFFFF") == pytest.approx(21)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("=A1+1", "=$A$1 + 1.0"), ("=SUM(A1:A1)", "=sum(A1)"), ("='Style'!B2", "=Style!$B$2"), ("=Goods!B2", "=B2"),
        ("=((A1))*2", "=A1*2"), ("=INDEX(A1:A3,TRUE())", "=INDEX(A1:A3,1)"), ("=_xlfn.IFNA(A1,0)", "=IFNA(A1,0)"),
        ("=A1+0.1", "=A1+0.10000000000000001"), ("=+A1", "=A1"), ("=A1*-1", "=A1*(-1)"),
        ("=_xlfn.RANK.EQ(A1,B1:B9)", "=RANK(A1,B1:B9)"),
    ],
)  # fmt: skip
def test_what_other_programs_write_otherwise_has_no_weight(one, other):
    assert same_formula(one, other, "Goods")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("=IF(A1<B1,1,2)", "=IF(A1<=B1,1,2)"), ('="a b"&A1', '="ab"&A1'), ("=(A1+B1)*2", "=A1+B1*2"), ("=A1+1", "=A1+1.001"),
        ("=SUM(A1:A9)", "=SUM(A1:A8)"), ("=Style!B2", "=B2"), ("=IF(A1,B1,C1)", "=IF(A1,C1,B1)"), ("=A1", "=#REF!"), ("=A1", "=A1%"),
        ("=_xlfn.RANK.AVG(A1,B1:B9)", "=RANK(A1,B1:B9)"),
    ],
)  # fmt: skip
def test_what_changes_a_value_has_weight(one, other):
    assert not same_formula(one, other, "Goods")


@pytest.mark.parametrize(
    "formula",
    [
        "=IF(TODAY()>46000,9.9,1)", "=now()", "=[1]Sheet1!A1", "=cmd|'/c calc'!A0", '=WEBSERVICE("http://x")', "=_xlfn.RANDARRAY(3)",
        "='file:///c:/x.xls'#$Sheet1.A1", '=INDIRECT("A"&1)', "='[other.xlsx]Sheet'!A1", '=HYPERLINK("http://x","y")',
    ],
)  # fmt: skip
def test_what_reaches_outside_or_changes_by_itself_is_named(formula):
    assert alarming(formula)


@pytest.mark.parametrize(
    "formula", ['="TODAY()"', '=IF(A1="http://x",1,2)', '=IF(A1>1,"|",2)', "=SUM(A1:A3)", '=A1&"[1]"']
)
def test_words_in_quotes_alarm_nobody(formula):
    assert alarming(formula) is None
