"""What is not known is no 0: the proof refuses a formula that makes one, unless its entry says why that is right."""

from __future__ import annotations

import pytest

from sheetgen.declare.entry import computed, designer, or_zero
from sheetgen.declare.kinds import number, text, whole
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Sheet, Table
from sheetgen.declare.zeros import refuse_silent_zeros
from sheetgen.sheets import BOOK

WHY = "a mark: what counts is only whether it changes"


def book(formula: str, zero: str = "") -> Book:
    table = Table("lines", "Lines", ref="M", key="item", columns=(
        designer("item", "Item", text()),
        designer("price", "Price", number(2)),
        designer("minimum", "Minimum", number(2), blank="none"),
        designer("pieces", "Pieces", whole()),
        or_zero(zero, computed("made", "Made", number(2), formula)),
    ))  # fmt: skip
    return Book((Sheet("goods", "Goods", (table,)),), {})


SILENT = [
    "IFERROR(INDEX(lines.price,MATCH(item,lines.item,0)),0)", "N(INDEX(lines.price,1))*2", "IFERROR(price/pieces,0)",
    "IFERROR(SUMPRODUCT(lines.price),0)", "1+IFERROR(price+N(INDEX(lines.price,2)),0)",
]  # fmt: skip
SAID = [
    'IFERROR(INDEX(lines.price,MATCH(item,lines.item,0)),"")', "N(INDEX(lines.minimum,1))", "N(INDEX(lines.pieces,1))", "N(price)",
    'IFERROR(FIND("%",item),0)', "IFERROR(MATCH(item,lines.item,0),0)", 'IF(N(INDEX(lines.price,1))=0,"",INDEX(lines.price,1))',
]  # fmt: skip


@pytest.mark.parametrize("formula", SILENT)
def test_a_zero_for_what_is_not_known_is_refused(formula):
    with pytest.raises(DeclarationError, match=r"goods\.lines\.made: .* gives 0 where nothing is known"):
        refuse_silent_zeros(book(formula))
    refuse_silent_zeros(book(formula, WHY))


@pytest.mark.parametrize("formula", SAID)
def test_what_has_a_meaning_is_not(formula):
    refuse_silent_zeros(book(formula))
    with pytest.raises(DeclarationError, match="says why 0 is right, and makes none"):
        refuse_silent_zeros(book(formula, WHY))


def test_the_list_of_justified_ones_is_short():
    reasons = {column.entry.zero for column in BOOK.entries.values()} - {""}
    assert len(reasons) <= 9
    assert all(len(reason) > 25 for reason in reasons)
