"""Where named areas lie on a drawn garment: on it, at the height that the words say, and nowhere where it is not seen."""

from functools import cache

import pytest
from shapely.geometry import Point as Dot
from shapely.geometry import Polygon
from shapely.ops import unary_union

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.drawing import area_targets
from sheetgen.drawing.areas import is_at_the_back, spot_of
from sheetgen.drawing.garments import views
from sheetgen.drawing.views import View
from sheetgen.sheets import BOOK
from sheetgen.style.diagrams import measures_of_sizes
from sheetgen.style.starters import STARTERS
from sheetgen.workbook.model.values import ready, shape_of

SEEN_NOWHERE = ("Lining", "Inside label", "Care label", "Back neck tape", "Neck facing", "Seat edges", "Size print")


@cache
def started(garment: str) -> tuple[tuple[View, ...], list, list[str]]:
    built = api.start(garment)
    values = {**built.values, **built.shown}
    measures = dict(measures_of_sizes(ready(BOOK, shape_of(BOOK, built.values)), values))[
        str(values[Place("style.sample_size")])
    ]
    areas = [str(value) for place, value in values.items() if place.entry == "construction.callouts.area"]
    return views(str(values[Place("measurements.garment")]), measures, 1.0), measures, areas


def cloth(view: View):
    """All that is drawn of the garment, as an area; a line's width more."""
    areas = [Polygon(path).buffer(0) for stroke in view.strokes for path in stroke.paths if len(path) > 3]
    return unary_union(areas).buffer(1.0)


@pytest.mark.parametrize("garment", STARTERS)
def test_every_place_is_on_the_garment_on_either_side(garment):
    (front, back), _, areas = started(garment)[0][:2], *started(garment)[1:]
    found = 0
    for words in areas:
        view = back if is_at_the_back(words) else front
        spot = spot_of(view, words)
        if spot is not None:
            found += 1
            for one in (spot, spot.turned) if spot.twice else (spot,):
                assert cloth(view).contains(Dot(one.point)), (words, one)
    assert found >= 0.5 * len(areas), areas


@pytest.mark.parametrize("words", SEEN_NOWHERE)
def test_what_is_not_seen_has_no_place(words):
    front, back, *_ = started("shirt")[0]
    assert spot_of(front, words) is None
    assert spot_of(back, words) is None


def test_areas_lie_in_the_order_in_which_a_garment_has_them_from_the_top():
    front = started("shirt")[0][0]
    heights = [
        spot.point.y
        for words in ("Collar", "Armhole", "Chest pocket", "Side seam", "Cuffs", "Hem")
        if (spot := spot_of(front, words))
    ]
    assert len(heights) == 6
    assert heights[:4] == sorted(heights[:4])
    assert heights[5] == max(heights)
    legs, *_ = started("trousers")[0]
    named = {
        words: spot_of(legs, words) for words in ("Waistband", "Front pocket", "Crotch seam", "Inside leg seam", "Hem")
    }
    down = [spot.point.y for spot in named.values() if spot]
    assert len(down) == 5 and down == sorted(down)


def test_a_pocket_of_which_there_is_one_is_pointed_at_where_it_is():
    front = started("shirt")[0][0]
    pocket = spot_of(front, "Chest pocket")
    assert pocket is not None and not pocket.twice
    welts = spot_of(started("jacket")[0][0], "Welt pocket")
    assert welts is not None and welts.twice


def test_places_are_parts_of_the_drawing_and_take_turns_at_its_sides():
    _, measures, areas = started("shirt")
    targets = area_targets("shirt", measures, {f"N{n}": words for n, words in enumerate(areas, 1)})
    assert all(0 < one.across < 1 and 0 < one.down < 1 for one in targets)
    sides = [one.across > 0.5 for one in targets if abs(one.across - 0.5) > 0.02]
    assert 2 <= sum(sides) <= len(sides) - 2


def test_words_of_the_back_are_known():
    assert [is_at_the_back(words) for words in ("Center back seam", "Seat edges", "Back yoke", "Backing", "Hem")] == [
        True, True, True, False, False,
    ]  # fmt: skip
