"""Close-ups: whole shapes, symmetric where they should be, words that lie on nothing else, for all garments, sizes and odd figures."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from shapely.geometry import LineString, Polygon, box

from sheetgen.drawing import Measure, closeups, shown_closeups
from sheetgen.drawing.closeups import WIDE, Shown
from sheetgen.drawing.waists import Label
from sheetgen.garments import BY_WORD

SVG = "{http://www.w3.org/2000/svg}"
GARMENTS = tuple(BY_WORD)
FACTORS = (0.5, 0.8, 1.0, 1.25, 1.6)
LABEL = Label("L1", 5, 2, 1.0, {"label width": "5", "label height": "2", "label below": "1 in"})
SYMMETRIC = {
    "Neckline",
    "Collar, laid open",
    "Front placket",
    "Chest pocket",
    "Pouch pocket",
    "Cuff",
    "Sleeve hem",
    "Gusset, laid flat",
    "Waistband",
}
# By hand, from the garments' declared points: a detail is there if its numbers are.
THERE = {
    "t-shirt": ["Neckline", "Sleeve hem"],
    "sweatshirt": ["Cuff", "Hem at the side seam"],
    "hooded sweatshirt": ["Hood, folded flat", "Pouch pocket", "Cuff", "Hem at the side seam"],
    "shirt": ["Collar, laid open", "Front placket", "Chest pocket", "Cuff"],
    "trousers": ["Waistband and fly", "Front pocket", "Back pocket", "Hem at the side seam"],
    "skirt": ["Waistband and zip", "Vent", "Hem at the side seam"],
    "dress": ["Neckline", "Sleeve hem"],
    "jacket": ["Collar, laid open", "Front zip", "Welt pocket", "Sleeve hem"],
    "leggings": ["Waistband", "Gusset, laid flat"],
    "vest": ["Collar, laid open", "Front zip", "Welt pocket", "Hem at the side seam"],
}  # fmt: skip


def measures(word: str, factor: float = 1.0, said: str = "{:.2f}") -> list[Measure]:
    return [
        Measure(f"P{number}", one.point, one.base_cm * factor, one.half_or_full == "half", said.format(one.base_cm * factor))
        for number, one in enumerate(BY_WORD[word].points, 1)
    ]  # fmt: skip


def shown(word: str, factor: float = 1.0, said: str = "{:.2f}") -> list[Shown]:
    waist = BY_WORD[word].features.silhouette in {"two legs", "waist to hem"}
    return shown_closeups(
        word, measures(word, factor, said), (), (LABEL._replace(below=None) if waist else LABEL, waist)
    )


def extreme(word: str) -> Iterator[list[Measure]]:
    """One point after the other far too small or far too large."""
    for number, _ in enumerate(BY_WORD[word].points):
        for factor in (0.05, 4.0):
            found = measures(word)
            found[number] = replace(found[number], value=found[number].value * factor)
            yield found


@pytest.mark.parametrize("word", GARMENTS)
def test_a_garment_has_the_details_whose_numbers_it_has(word):
    assert [one.title for one in shown(word)] == [*THERE[word], "Main label, inside"]


@pytest.mark.parametrize("word", GARMENTS)
@pytest.mark.parametrize("factor", FACTORS)
def test_outlines_do_not_cross_themselves(word, factor):
    count = 0
    for one in shown(word, factor):
        for stroke in one.detail.strokes:
            for path in stroke.paths:
                if stroke.kind in {"outline", "cloth", "inside", "ribbed", "button"} and len(set(path)) > 3:
                    closed = path[0] == path[-1]
                    assert Polygon(path).is_valid if closed else LineString(path).is_simple, (
                        one.title,
                        stroke.kind,
                        path,
                    )
                    count += 1
    assert count > 4


@pytest.mark.parametrize("word", GARMENTS)
@pytest.mark.parametrize("factor", FACTORS)
def test_what_has_two_like_halves_is_drawn_so(word, factor):
    for one in shown(word, factor):
        if one.title in SYMMETRIC:
            points = {
                (round(p.x, 3), round(p.y, 3)) for stroke in one.detail.strokes
                if stroke.kind in {"outline", "cloth"} and stroke.part != "waistband" for path in stroke.paths for p in path
            }  # fmt: skip
            middle = (min(x for x, _ in points) + max(x for x, _ in points)) / 2
            assert one.title == "Cuff" or abs(middle) < 0.01
            for x, y in points:
                assert any(abs(2 * middle - x - a) < 0.01 and abs(y - b) < 0.01 for a, b in points), (one.title, x, y)


def boxes(drawing: str) -> tuple[list[tuple[str, object]], list[object]]:
    """What is written and where: labels by their frames, titles and the caption by their letters' usual width."""
    root = ElementTree.fromstring(drawing)
    labels = []
    for element in root.iter(f"{SVG}rect"):
        if "data-row" in element.attrib:
            x, y, wide, high = (float(element.attrib[name]) for name in ("x", "y", "width", "height"))
            labels.append((element.attrib["data-row"], box(x, y, x + wide, y + high)))
    words = []
    for element in root.iter(f"{SVG}text"):
        text, size = element.text or "", float(element.attrib["font-size"])
        assert size >= 18
        if not re.match(r"[PL]\d+ = ", text):
            x, y, half = float(element.attrib["x"]), float(element.attrib["y"]), len(text) * size * 0.25
            words.append(box(x - half, y - size * 0.8, x + half, y + size * 0.2))
    return labels, words


@pytest.mark.parametrize("word", GARMENTS)
@pytest.mark.parametrize("factor", FACTORS)
@pytest.mark.parametrize("said", ["{:.2f}", "12 15/16"])
def test_no_words_lie_on_others_and_all_are_on_the_drawing(word, factor, said):
    drawing = closeups(shown(word, factor, said), "Figures as in Measurements")
    labels, words = boxes(drawing)
    assert len(labels) > 4
    whole = box(0, 0, WIDE, float(ElementTree.fromstring(drawing).attrib["height"]))
    places = [*(place for _, place in labels), *words]
    assert all(whole.covers(place) for place in places)
    for one, other in itertools.combinations(places, 2):
        assert one.intersection(other).area < 1, word


@pytest.mark.parametrize("word", GARMENTS)
def test_odd_figures_make_no_odd_drawing(word):
    for found in extreme(word):
        drawing = closeups(shown_closeups(word, found), "")
        assert "nan" not in drawing and "inf" not in drawing
        labels, _ = boxes(drawing)
        for (_, one), (_, other) in itertools.combinations(labels, 2):
            assert one.intersection(other).area < 1


@pytest.mark.parametrize("word", GARMENTS)
def test_each_figure_is_that_of_its_row(word):
    """Each label says its row's ref and what stands there, and the line beside it measures the point of that row."""
    said = {one.ref: one.said for one in measures(word)} | {"L1": None}
    labels = re.findall(r">([PL]\d+) = ([^<]+)<", closeups(shown(word)))
    assert len(labels) > 4
    for ref, words in labels:
        assert words == said[ref] if ref != "L1" else words in LABEL.words.values()


def test_lengths_are_as_long_as_they_are_said():
    """A detail laid flat is drawn true: its measured lines are as long as the points, but for a zip with a break in it."""
    for word in GARMENTS:
        by_ref = {one.ref: one for one in measures(word)}
        for one in shown(word):
            for span in one.detail.spans:
                ref = one.figures.get(span.key, ("", ""))[0]
                if ref in by_ref and one.title != "Front zip":
                    drawn = sum(a.distance(b) for a, b in itertools.pairwise(span.path))
                    assert drawn == pytest.approx(by_ref[ref].value, abs=0.05), (word, one.title, span.key)


def test_a_girth_that_is_measured_all_round_says_so():
    found = [Measure("P1", "sleeve opening", 35, False, "35"), *measures("t-shirt")[:3]]
    labels = re.findall(r">(P\d+ = [^<]+)<", closeups(shown_closeups("t-shirt", found)))
    assert "P1 = 35 all round" in labels


def test_a_drawing_of_ones_own_takes_the_place_of_the_one_that_is_called_alike():
    own = ["Chest pocket", "Collar and stand"]
    titles = [one.title for one in shown_closeups("shirt", measures("shirt"), own)]
    assert titles == ["Front placket", "Cuff"]


def test_there_is_none_of_a_garment_without_figures():
    assert closeups(shown_closeups("shirt", [])) == ""
    with pytest.raises(ValueError, match="no drawing for 'kilt'"):
        shown_closeups("kilt", [])
