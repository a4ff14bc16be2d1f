"""What a formula does not wait for: what it asks for itself, and what its entry says may be blank."""

import pytest

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.expansion import expand
from sheetgen.declare.kinds import number, text
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Sheet, Table

from .books import formula_of, in_row


def waits(formula: str, *may_be_blank: str) -> list[str]:
    entry = computed("cost", "Cost", number(), formula, may_be_blank=may_be_blank)
    return [reference.address for reference in formula_of(in_row(entry), "goods.lines.cost").waits_for]


def test_what_may_be_blank_is_not_waited_for():
    assert waits("net*(1+waste)") == ["goods.lines.item", "goods.lines.net", "goods.lines.waste"]
    assert waits("net*(1+waste)", "waste") == ["goods.lines.item", "goods.lines.net"]
    assert waits("net*count", "net", "count") == ["goods.lines.item"]


def test_asking_once_switches_the_waiting_off_for_the_whole_formula():
    assert waits('IF(net>1,waste*2,IF(waste="",0,1))') == ["goods.lines.item", "goods.lines.net"]


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("price", "'price' may be blank, but the formula does not read it"),
        ("wast", "nothing is called 'wast'; is it 'waste'?"),
        ("lines.net", "'lines.net' may be blank, but no formula waits for a column"),
    ],
)
def test_a_name_that_says_nothing_is_refused(name, says):
    with pytest.raises(DeclarationError) as caught:
        waits("net*waste+SUM(lines.net)", name)
    assert str(caught.value) == says


def test_a_family_says_it_of_its_members():
    table = Table("list", "Points", ref="P", key="point", columns=(
        designer("point", "Point", text()), per("size", designer("width", "{size}", number())),
        per("size", computed("twice", "{size}", number(), "2*width.mine", may_be_blank=("width.mine",))),
    ))  # fmt: skip
    made = expand(Book((Sheet("points", "Points", (table,)),), axes={}), {"size": ("S", "M")})
    assert made.entries["points.list.twice_z2"].entry.may_be_blank == ("width_z2",)
    assert [one.address for one in formula_of(made, "points.list.twice_z2").waits_for] == ["points.list.point"]
