"""What outlines fill of their boxes: the numbers that Yield counts with are those of the outlines that a marker lays."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from statistics import median

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.garments import BY_WORD, OUTLINES
from sheetgen.jobs.marker_tasks import StyleFigures
from sheetgen.nesting.outlines import area, outline
from sheetgen.nesting.pieces import Piece
from sheetgen.sheets import BOOK
from sheetgen.trade.outlines import USUAL_FILL
from sheetgen.workbook.model.values import ready, shape_of

STARTERS = [word for word in BY_WORD if not word.startswith("hooded")]


@cache
def made(word: str) -> api.Built:
    return api.start(word)


def pieces(word: str) -> Iterator[tuple[Piece, float]]:
    """The starter's pieces in its sample size, with the share that the workbook counts."""
    built = made(word)
    shown = {**built.values, **built.shown}
    figures = StyleFigures(ready(BOOK, shape_of(BOOK, built.values)), shown)
    sample = built.values[Place("style.sample_size")]
    for material in {str(value) for place, value in shown.items() if place.entry == "yield.pieces.material" and value}:
        for piece in figures._pieces(material, [str(sample)]):
            yield piece, float(shown[Place("yield.pieces.filled", piece.ref)])  # type: ignore[arg-type]


def share(piece: Piece) -> float:
    return area(outline(piece)) / piece.length / piece.width


@pytest.mark.parametrize("word", STARTERS)
def test_a_starter_counts_what_its_outlines_fill(word):
    found = list(pieces(word))
    assert found
    for piece, counted in found:
        assert counted == pytest.approx(share(piece), abs=0.0051), piece.name


def test_the_usual_share_is_the_middle_one_of_the_starters_or_that_of_the_outline_alone():
    by_outline: dict[str, list[float]] = {}
    for word in STARTERS:
        for piece, _ in pieces(word):
            by_outline.setdefault(piece.outline, []).append(round(share(piece), 2))
    for name in OUTLINES:
        usual = USUAL_FILL.get(name, 1.0)
        alone = share(Piece("Y1", name, name, 40.0, 30.0, 1, False, "M", {}))
        expected = median(by_outline[name]) if name in by_outline else alone
        assert usual == pytest.approx(expected, abs=0.04), name


GRAMS = {
    "t-shirt": (150, 200),  # from memory: retailers state 170 to 180 g for a size M of 180 g/m2
    "sweatshirt": (380, 520),  # from memory: 280 g/m2, 400 to 500 g
    "shirt": (180, 260),  # from memory: poplin, 200 to 250 g
    "trousers": (400, 560),  # from memory: twill of 260 g/m2, 450 to 550 g
    "leggings": (190, 280),  # from memory
}
"""Grams of a finished garment in its sample size."""


@pytest.mark.parametrize("word", GRAMS)
def test_a_garment_weighs_what_its_pieces_do(word):
    built = made(word)
    grams = built.shown[Place("materials.garment_grams")]
    low, high = GRAMS[word]
    assert low <= grams <= high
    for place, item in built.values.items():
        if place.entry != "yield.fabrics.material":
            continue
        square = built.shown[Place("yield.fabrics.net_area", place.row)]
        base = built.shown[Place("materials.bom.base", str(item))]
        assert built.shown[Place("materials.bom.grams", str(item))] == pytest.approx(square * base)
        used = built.shown[Place("yield.fabrics.mix_kg", place.row)]
        if used:
            assert square * base / 1000 <= used  # what is worn is never more than what is cut into


def test_a_leg_is_as_wide_as_its_hem_where_that_is_the_wider():
    values = dict(made("trousers").values)
    opening = next(
        place.row
        for place, value in values.items()
        if place.entry == "measurements.points.point" and value == "Leg opening"
    )
    leg = next(
        place.row for place, value in values.items() if place.entry == "yield.pieces.piece" and value == "Front leg"
    )
    before = made("trousers").shown[Place("yield.pieces.wide_z3", leg)]
    values[Place("measurements.points.base", opening)] = 80
    wide = api.from_values(values, (), ()).shown[Place("yield.pieces.wide_z3", leg)]
    assert wide > before
    assert wide > 80 * 0.85
