"""The whole book in other words: it expands and is proven, calculates the same figures, and no heading stays as it was."""

import re
from pathlib import Path

import pytest

from sheetgen.declare.entry import Place
from sheetgen.declare.parts import Ledger, Sheet
from sheetgen.declare.wording import HELD, READ_BY_PEOPLE, is_text, reworded, texts_of, worded
from sheetgen.declare.words import words_also_typed
from sheetgen.offers.sheets import OFFERS_BOOK
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.trade.labels import FIBER_CHOICES
from sheetgen.trade.sleepwear import MOST_CM
from sheetgen.workbook.model.calculation import shown_by
from sheetgen.workbook.model.values import Ready, Values, ready, shape_of

SAMPLES = Path(__file__).parents[2] / "sample_inputs"
BRIEF = load_style(BOOK, SAMPLES / "sweatshirt" / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))
VALUES: Values = {
    **BRIEF, Place("quote.fob"): 14.5, Place("fit.round_now"): "Size set", Place("pricing.insurance"): 0.003,
    Place("pricing.insured"): "share of price and freight", Place("order.carton_kind"): "assorted sizes",
    **{Place("materials.bom.price", place.row): 2 for place in BRIEF if place.entry == "materials.bom.item"},
    **{Place("materials.bom.currency", place.row): BRIEF[Place("style.currency")] for place in BRIEF if place.entry == "materials.bom.item"},
}  # fmt: skip
"""A sample with invented answers, so that what hangs on choices is calculated."""
CURRENCIES = {"EUR", "USD", "GBP", "CHF", "JPY", "CNY", "TRY", "VND"}
_FIBER = re.compile(rf"\b({'|'.join(sorted(map(re.escape, FIBER_CHOICES), key=len, reverse=True))})\b")


def in_brackets(words: str) -> str:
    """No language, but easy to see: all text in brackets that are in no text of ours."""
    return f"⟦{words}⟧"


def without(value: object) -> object:
    return value.replace("⟦", "").replace("⟧", "") if isinstance(value, str) else value


def other(values: Values, plain: Ready, copy: Ready) -> Values:
    """Values as they would be typed into such a copy: choices, and the names of fibers in the compositions that are typed."""
    typed = reworded(values, plain.book, copy.book)
    assert reworded(typed, copy.book, plain.book) == values
    for place, value in typed.items():
        if place.entry == "materials.bom.composition":
            typed[place] = _FIBER.sub(lambda found: in_brackets(found.group()), str(value))
    return typed


ADDS_LETTERS = frozenset(f"approvals.items.{name}" for name in ("at_kind", "at_artwork", "at_dip", "now"))
"""What an approval covers as a number: a sum over the letters of what stands there."""


def counts_letters(place: Place, plain: Ready) -> bool:
    """Whether a cell may say where in a text something begins, or add up its letters: steps, whose results stand elsewhere."""
    if place.entry in ADDS_LETTERS or place.entry.startswith("workings.mark_"):
        return True
    return place.entry.startswith("workings.") and plain.book.entries[place.entry].entry.kind.name == "whole"


@pytest.mark.parametrize("audience", ["designer", "vendor"])
def test_a_style_in_other_words_calculates_to_the_same(audience):
    plain = ready(BOOK, shape_of(BOOK, VALUES, audience))
    values = {place: value for place, value in VALUES.items() if place.entry in plain.book.entries}
    copy = ready(BOOK, plain.shape, in_brackets)
    typed = other(values, plain, copy)
    changed = {place.entry for place in values if typed[place] != values[place]}
    assert {"style.unit", "materials.bom.group", "materials.bom.kind", "yield.fabrics.nap", "style.term"} <= changed
    before, after = shown_by(plain, values), shown_by(copy, typed)
    # Checks lists the headings of open cells, in as many steps as these are long
    steps = {place for place in before.keys() ^ after.keys() if place.entry.startswith("checks.which_")}
    assert before.keys() - steps == after.keys() - steps
    both = [place for place in before if place in after and not place.entry.startswith("checks.which_")]
    differ = {place: (before[place], after[place]) for place in both if before[place] != without(after[place])}
    assert {place: values for place, values in differ.items() if not counts_letters(place, plain)} == {}
    # what comes from choices is said in the copy's words
    assert before[Place("materials.cost_fabric")] > 0 and before[Place("order.cartons")] > 0
    assert before[Place("pricing.insurance_cost")] > 0 if audience == "designer" else True
    assert after[Place("labels.composition_text")] == re.sub(
        r"(\w+)(?=,|$)", r"⟦\1⟧", str(before[Place("labels.composition_text")])
    )


def texts(one: object) -> list[str]:
    """All texts of a declaration that people read, what it holds included."""
    found: list[str] = []
    for name in READ_BY_PEOPLE[type(one)]:
        held = getattr(one, name)
        found.extend([held] if isinstance(held, str) else held)
    for name in HELD.get(type(one), ()):
        held = getattr(one, name)
        for each in held if isinstance(held, tuple) else (held,):
            found.extend(texts(each))
    return found


@pytest.mark.parametrize("audience", ["designer", "vendor"])
def test_no_text_of_any_sheet_stays_as_it_was(audience):
    copy = ready(BOOK, shape_of(BOOK, VALUES, audience), in_brackets)
    assert {"guide", "checks", "style", "fit"} <= {sheet.name for sheet in copy.book.sheets}
    members = {name for _, names in copy.shape.axes for name in names}
    for sheet in copy.book.sheets:
        assert isinstance(sheet, Sheet)
        left = [words for words in texts(sheet) if is_text(words) and not words.startswith("⟦")]
        # a heading that is only a member's name is the style's own word; currencies are typed as rates too
        assert set(left) <= members | CURRENCIES, sheet.name
    assert any(isinstance(part, Ledger) for part in copy.book.sheet("checks").parts)


def test_the_comparison_of_offers_in_other_words():
    shape = shape_of(
        OFFERS_BOOK, {Place("picture.vendors.name", "V1"): "One", Place("picture.vendors.name", "V2"): "Two"}
    )
    copy, plain = ready(OFFERS_BOOK, shape, in_brackets), ready(OFFERS_BOOK, shape)
    assert copy.formulas.keys() == plain.formulas.keys()
    chosen = copy.book.entries["landed.insurance_cost_v1"].entry.formula
    assert '"⟦share of price and freight⟧"' in chosen
    assert without(chosen) == plain.book.entries["landed.insurance_cost_v1"].entry.formula


def test_all_texts_are_listed_and_with_them_the_book_is_in_other_words():
    listed = {one.words for one in texts_of(BOOK)}
    asked: set[str] = set()

    def noting(words: str) -> str:
        asked.add(words)
        return words

    made = worded(BOOK, noting)
    assert made.sheets == BOOK.sheets
    for audience in ("designer", "vendor"):
        ready(BOOK, shape_of(BOOK, VALUES, audience), noting)
    assert asked == listed
    assert words_also_typed(BOOK) == CURRENCIES | set(MOST_CM)
    assert {"Bill of materials", "fabric", "Cells still to fill", "{what}, open", "Size set"} <= listed
