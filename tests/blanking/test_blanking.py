"""A sample of the cells of one sample and one starter, emptied and filled with rubbish; `python -m tests.blanking.run` takes all."""

import pytest

from sheetgen.declare.entry import Place, place_of
from tests.blanking.emptied import IN_BLANK, RUBBISH, bench, in_silence

EVERY = {"overshirt": 41, "trousers": 23}
"""One cell in so many."""


@pytest.mark.parametrize("sort", RUBBISH)
@pytest.mark.parametrize("style", EVERY)
def test_no_cell_shows_an_error_whatever_is_typed(style, sort):
    of = bench(style)
    offset = list(RUBBISH).index(sort)
    places = list(of.inputs())[offset :: EVERY[style]]
    assert len(places) > 25
    assert [(str(place), hit[:3]) for place in places if (hit := of.tried(place, RUBBISH[sort]).errors)] == []


def test_a_word_where_a_style_has_nothing_is_no_error_either():
    """One cell of every entry that this style leaves blank: no sample fills them all, and a word is the worst that is typed."""
    of = bench("trousers")
    places = list(of.not_filled())
    assert len(places) > 150
    assert [(str(place), hit[:3]) for place in places if (hit := of.tried(place, RUBBISH[IN_BLANK[0]]).errors)] == []


def test_a_fabric_whose_weight_is_not_known_does_not_weigh_what_is_bought_of_it():
    """It is sold by weight; its cut pieces weigh less than that."""
    of, place = bench("sweatshirt"), place_of("materials.bom[M1].weight")
    moved = of.tried(place, None).moved
    assert moved[place_of("materials.bom[M1].grams")][1] in (None, "")
    assert str(moved[Place("materials.weighed")][1]).startswith("at least")


@pytest.mark.parametrize("style", EVERY)
def test_what_is_emptied_is_never_another_figure_in_silence(style):
    of = bench(style)
    places = list(of.inputs())[7 :: EVERY[style]]
    assert [str(place) for place in places if in_silence(of, of.tried(place, None))] == []


def test_a_figure_changed_in_silence_would_be_seen():
    """The law itself: of a row that loses its name, the check is what tells; without it the sum falls in silence."""
    of, place = bench("overshirt"), place_of("construction.callouts[N1].area")
    outcome = of.tried(place, None)
    assert not in_silence(of, outcome)
    unseen = {at: figures for at, figures in outcome.moved.items() if not at.entry.startswith("checks.")}
    assert place_of("construction.thread_net") in in_silence(of, outcome._replace(moved=unseen))


def test_an_error_would_be_seen():
    """The bench itself: a lookup that finds nothing is an error, and it is told."""
    of = bench("overshirt")
    cell = of.where.at(place_of("quote.make_cost"))
    assert cell is not None
    of.book.set_formula(cell.sheet, cell.row, cell.column, '=MATCH("nobody",$A$1:$A$2,0)')
    try:
        seen = of.tried(place_of("style.season"), None)
        assert Place("quote.make_cost") in seen.errors
    finally:
        text = next(text for place, _, text in of.formulas if place == Place("quote.make_cost"))
        of.book.set_formula(cell.sheet, cell.row, cell.column, text)


def test_a_figure_that_is_gone_makes_what_follows_blank():
    of = bench("overshirt")
    moved = of.tried(place_of("measurements.points[P1].base"), None).moved
    assert moved[place_of("measurements.points[P1].spec_z5")][1] in (None, "")
    moved = of.tried(place_of("yield.fabrics[B1].usable"), "a word").moved
    assert moved[place_of("yield.fabrics[B1].worked_out")][1] in (None, "")
    assert str(of.before[Place("materials.priced")]).startswith("at least: 0 of ")
