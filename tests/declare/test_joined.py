"""A number that is joined into a text says how many digits it has: else each program writes it with its own."""

import pytest

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.joined import refuse_raw_joins
from sheetgen.declare.kinds import date, length, number, percent, text, whole
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Form, Section, Sheet, Table
from sheetgen.offers.sheets import OFFERS_BOOK
from sheetgen.report.worklist import WORKLIST
from sheetgen.sheets import BOOK

FIELDS = (
    designer("item", "Item", text()),
    designer("width", "Width", length()),
    designer("rate", "Rate", percent()),
    designer("count", "Count", whole()),
    designer("on", "On", date()),
    computed("area", "Area", number(), "width*width"),
)
LINES = Table("lines", "Lines", ref="L", key="name", columns=(
    designer("name", "Name", text()), designer("net", "Net", number()),
    Section("{size}", axis="size", columns=(per("size", designer("paid", "Paid", number())),)),
))  # fmt: skip


def refused(formula: str) -> str:
    """What is refused about a field with this formula; empty if nothing is."""
    form = Form("F", (*FIELDS, computed("new", "New", text(), formula)))
    try:
        refuse_raw_joins(Book((Sheet("goods", "Goods", (form, LINES)),), axes={}))
    except DeclarationError as error:
        return str(error)
    return ""


@pytest.mark.parametrize("formula, name", [
    ('item&"/"&width', "width"),
    ('width&" cm"', "width"),
    ('IF(item="","",rate)&" of all"', "rate"),
    ('"about "&IFERROR(area,0)', "area"),
    ('"first "&INDEX(lines.net,1)', "lines.net"),
    ('"most "&MAX(lines.net)', "lines.net"),
    ('count/2&" pairs"', "/"),
    ('"half "&(count*width)', "width"),
    ('"mean "&AVERAGE(lines.net)', "AVERAGE"),
    ('"so "&(width&"")', "width"),
    ('IF(count=1,"x"&width,"")', "width"),
])  # fmt: skip
def test_a_number_with_all_its_digits_is_refused_in_a_text(formula, name):
    assert f"goods.new: {name} is joined into a text with all its digits" in refused(formula)


@pytest.mark.parametrize("formula", [
    'item&"/"&ROUND(width,4)',
    'TEXT(rate,"0.0%")&" of all"',
    'count&" of "&COUNT(lines.net)',
    '(count-1)&" more"',
    'IF(width="","none",item)&"."',
    'IF(width&""="","none","some")',
    '"on "&on',
    '"place "&MATCH(width,lines.net,0)',
    '"is "&(width=rate)',
])  # fmt: skip
def test_texts_whole_numbers_and_rounded_ones_are_joined(formula):
    assert refused(formula) == ""


@pytest.mark.parametrize("book", [BOOK, OFFERS_BOOK, WORKLIST])
def test_no_sheet_joins_a_raw_number(book):
    refuse_raw_joins(book)
