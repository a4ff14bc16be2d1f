"""The language's page in DEVELOPERS.md: every form in its table compiles to what stands beside it."""

import re
from pathlib import Path

import pytest

from sheetgen.declare.entry import Entry, computed, designer, per
from sheetgen.declare.expansion import expand
from sheetgen.declare.families import ENDINGS
from sheetgen.declare.formula import ROW, compiled
from sheetgen.declare.kinds import number, text
from sheetgen.declare.parts import Book, Form, Section, Sheet, Table
from sheetgen.declare.proof import proven

from .books import Places

PAGE = Path(__file__).parents[2].joinpath("DEVELOPERS.md").read_text("utf-8")
LANGUAGE = PAGE.partition("<!-- language -->")[2].partition("<!-- end of language -->")[0]
LINES = re.findall(r"^\| `(.+?)` \| (.+?) \| `(.+?)` \| (.*) \|$", LANGUAGE, re.MULTILINE)

AXES = {"size": ("S", "M", "L"), "colorway": ("Red", "Blue")}
PLACES = Places(
    fields={"goods.count": ("Goods", 5, 3), "goods.sum": ("Goods", 6, 3), "style.rate": ("Style", 3, 3)},
    columns={
        f"goods.lines.{name}": ("Goods", column, 10, 14)
        for column, name in enumerate(
            "ref item net waste price width_z1 width_z2 width_z3 step_z2 step_z3 made_c1 made_c2".split(), 1
        )
    }
    | {"rates.table.code": ("Rates", 2, 4, 9), "rates.table.rate": ("Rates", 3, 4, 9)},
)
"""As the page describes it: columns A to L in rows 10 to 14."""


def book_of(entry: Entry | Section, field: bool) -> Book:
    lines = Table("lines", "Lines", ref="L", key="item", columns=(
        designer("item", "Item", text()), *(designer(name, name, number()) for name in ("net", "waste", "price")),
        per("size", designer("width", "Width", number())), per("size", designer("step", "Step", number()), skip_first=True),
        per("colorway", designer("made", "Made", number())), *(() if field else (entry,)),
    ))  # fmt: skip
    rates = Table("table", "Rates", ref="X", key="code", columns=(
        designer("code", "Code", text()), designer("rate", "Rate", number()),
    ))  # fmt: skip
    return Book((
        Sheet("style", "Style", (Form("Style", (designer("rate", "Rate", number()),)),)),
        Sheet("rates", "Rates", (rates,)),
        Sheet("goods", "Goods", (Form("Sums", (designer("count", "Count", number()), *((entry,) if field else ()))), lines)),
    ), axes={})  # fmt: skip


def _for_each(entry: Entry, stands: str) -> tuple[Entry | Section, str]:
    """One for each size, in the section of each colorway if the page says so, and the name of the member it shows."""
    match stands:
        case "each size":
            return per("size", entry), "sum_z2"
        case "each size but the first":
            return per("size", entry, skip_first=True), "sum_z2"
        case "each size in each colorway":
            return Section("{colorway}", axis="colorway", columns=(per("size", entry),)), "sum_c2_z2"
    raise AssertionError(f"the page has no place called {stands!r}")


def in_the_cell(formula: str, stands: str) -> str:
    """What stands in row 12: at size M where it is one for each, in the section of Blue where it is one for each there."""
    where, _, rest = stands.partition(", ")
    blank = re.fullmatch(r"`may_be_blank=\(\"(\w+)\",\)`", rest)
    entry = computed("sum", "Sum", number(), formula, may_be_blank=(blank.group(1),) if blank else ())
    assert where in {"row", "field"}
    declared, name = (entry, "sum") if blank or not rest else _for_each(entry, rest)
    made = proven(expand(book_of(declared, where == "field"), AXES))
    address = f"goods.{name}" if where == "field" else f"goods.lines.{name}"
    text_in_cell = compiled(made[address], PLACES, "Goods")
    assert text_in_cell is not None
    return text_in_cell.replace(ROW, "12")


@pytest.mark.parametrize(
    ("formula", "stands", "cell", "means"), LINES, ids=[f"{line[0]} in {line[1]}" for line in LINES]
)
def test_a_form_compiles_to_what_the_page_says(formula, stands, cell, means):
    assert in_the_cell(formula, stands) == cell
    assert means


def test_the_page_holds_every_word_of_the_language():
    shown = " ".join(line[0] for line in LINES)
    for word in ("mine.size", "ref", ":", '""', *(f".{ending}" for ending in ENDINGS)):
        assert word in shown
    assert any("may_be_blank" in line[1] for line in LINES)
    # every line of the table is read: none is written so that the pattern passes it over
    assert len(LINES) == len([line for line in LANGUAGE.splitlines() if line.startswith("| `")]) >= 20
