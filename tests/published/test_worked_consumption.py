"""Published worked examples, row by row: the inputs typed into the sheets, the answer read from their live formulas.

Rows are those of the `_2` tables in tests/data, which name the source of each; `recomputed` there is the figure of the
row's own formula, `published_answer` the one that its source prints. Rows with a source's own rounding in between are
typed with the rounded figure, as the source went on.
"""

from functools import cache

import pytest

from tests.published.book import Shown, published
from tests.published.rows import check, lines

CONSUMPTION = "consumption_examples_2.csv"


def cut(unit: str, usable: float, *pieces: tuple[float, float, int], use: str = "yd", weight: float = 100) -> Shown:
    """Each piece (length, width, count) of a fabric of its own, M1, M2 and so on, all of one width; one garment is ordered."""
    rows = range(1, len(pieces) + 1)
    return Shown(
        style={"unit": unit},
        materials={"bom": [{"item": f"Cloth {n}", "group": "fabric", "unit": use, "weight": weight} for n in rows]},
        order={"sizes": [{"row": "M", "pieces": 1}]},
        **{"yield": {
            "fabrics": [{"material": f"M{n}", "usable": usable, "efficiency": 1} for n in rows],
            "pieces": [
                {"material": f"M{n}", "piece": f"Piece {n}", "count": count, "long_plus": long, "wide_plus": wide}
                for n, (long, wide, count) in enumerate(pieces, 1)
            ],
        }},
    )  # fmt: skip


@cache
def shirt_in_cm() -> Shown:
    # On cloth one metre wide, metres are square metres.
    return cut(
        "cm", 100, (75 + 5, 55 + 6, 2), (65 + 4, 25 + 5, 2 * 2), (32 + 3, 2 + 2, 2), (14 + 2, 12 + 1, 1), use="m²"
    )


@cache
def whole_shirt_in_cm() -> Shown:
    # Its parts as areas, each a strip one centimetre wide of so many centimetres.
    parts = (9760, 8280, 720, 280, 208, 1508)
    pieces = [{"material": "M1", "piece": f"{part}", "count": 1, "long_plus": part, "wide_plus": 1} for part in parts]
    return Shown(
        materials={"bom": [{"item": "Cloth", "group": "fabric", "unit": "m²"}, {"item": "Strip", "group": "fabric", "unit": "in"}]},
        order={"sizes": [{"row": "M", "pieces": 1}]},
        **{"yield": {
            "fabrics": [{"material": "M1", "usable": 100, "efficiency": 1}, {"material": "M2", "usable": 2.54, "efficiency": 1}],
            "pieces": [*pieces, {"material": "M2", "piece": "All, on cloth an inch wide", "count": 1, "long_plus": 20756, "wide_plus": 1}],
        }},
    )  # fmt: skip


@cache
def shirt_in_inches() -> Shown:
    return cut(
        "in", 44, (31 + 2, 24 + 2, 1), (21 + 4, 4 + 1, 1), (34.5 - 11 + 1, 21 + 1, 2), (9 + 3, 2.5 + 0.5, 2),
        (16 + 5, 2 + 1, 4), (57.45, 44, 1),
    )  # fmt: skip


@cache
def jacket_in_inches() -> Shown:
    return cut("in", 56, (29.87, 43.68, 2))


@cache
def knits() -> Shown:
    return cut("cm", 150, (73 + 19.5 + 10, 52 + 4, 2), use="kg", weight=160)


@cache
def a_meter_of_knit() -> Shown:
    return cut("cm", 60 * 2.54, (100, 60 * 2.54, 1), use="g", weight=220)


@cache
def shrunk() -> Shown:
    # SH02: four yards that must be left after 10 % shrinkage. ME01: pieces that fill 82 of 100.
    marker = {"material": "M1", "width": 100, "long": 100, "area": 82, "garments": 1}
    piece = {"material": "M1", "piece": "Panel", "count": 1, "long_plus": 4 * 36, "wide_plus": 44, "long_shrink": 0.1}
    return Shown(
        style={"unit": "in"},
        materials={"bom": [{"item": "Cloth", "group": "fabric", "unit": "yd"}, {"item": "Other", "group": "fabric"}]},
        order={"sizes": [{"row": "M", "pieces": 1}]},
        markers={"list": [{**marker, "material": "M2", "width": 100 / 2.54}]},
        **{"yield": {"fabrics": [{"material": "M1", "usable": 44, "efficiency": 1}], "pieces": [piece]}},
    )


MADE_OF = {
    # row: the book, the place, and how many of what the place shows are one of what the row counts
    "KN01": (knits, "yield.fabrics[B1].mix_kg", 12),
    "KN02": (lines, "materials.bom[M1].gross", 1),
    "KN04": (lines, "materials.bom[M2].gross", 1),
    "WV01": (shirt_in_cm, "yield.pieces[Y1].area_z1", 1e4),
    "WV02": (shirt_in_cm, "yield.pieces[Y2].area_z1", 1e4),
    "WV04": (shirt_in_cm, "yield.pieces[Y3].area_z1", 1e4),
    "WV05": (shirt_in_cm, "yield.pieces[Y4].area_z1", 1e4),
    "WV07": (whole_shirt_in_cm, "yield.fabrics[B1].worked_out", 1e4),
    "WV08": (whole_shirt_in_cm, "yield.fabrics[B2].worked_out", 1),
    "WV10": (shirt_in_inches, "yield.fabrics[B6].worked_out", 1),
    "WV11": (lines, "materials.bom[M3].gross", 1),
    "LS01": (shirt_in_inches, "yield.fabrics[B1].worked_out", 1),
    "LS02": (shirt_in_inches, "yield.fabrics[B2].worked_out", 1),
    "LS04": (shirt_in_inches, "yield.fabrics[B3].worked_out", 1),
    "LS05": (shirt_in_inches, "yield.fabrics[B4].worked_out", 1),
    "LS07": (shirt_in_inches, "yield.fabrics[B5].worked_out", 1),
    "JK02": (jacket_in_inches, "yield.fabrics[B1].worked_out", 1),
    "JK03": (lines, "materials.bom[M4].gross", 1),
    "DZ02": (lines, "materials.bom[M5].gross", 1),
    "CV01": (a_meter_of_knit, "yield.fabrics[B1].worked_out", 1),
    "CV04": (lines, "materials.bom[M6].cost", 1),
    "SH02": (shrunk, "yield.fabrics[B1].worked_out", 1),
    "ME01": (shrunk, "markers.list[G1].efficiency", 100),
}


@pytest.mark.parametrize("row", MADE_OF)
def test_a_published_consumption(row: str) -> None:
    book, place, times = MADE_OF[row]
    check(CONSUMPTION, row, book().number(place) * times)


def test_sums_of_published_parts() -> None:
    # LS08: the seven parts as printed, each a length of cloth 44 in wide.
    printed = (0.541, 0.079, 0.562, 0.68, 0.05, 0.032, 0.159)
    pieces = [
        {"material": "M1", "piece": f"{yards} yd", "count": 1, "long_plus": yards * 36, "wide_plus": 44}
        for yards in printed
    ]
    book = Shown(
        style={"unit": "in"},
        materials={"bom": [{"item": "Cloth", "group": "fabric", "unit": "yd"}]},
        order={"sizes": [{"row": "M", "pieces": 1}]},
        **{"yield": {"fabrics": [{"material": "M1", "usable": 44, "efficiency": 1}], "pieces": pieces}},
    )
    check(CONSUMPTION, "LS08", book.number("yield.fabrics[B1].worked_out"))


def test_cloth_by_the_kilogram() -> None:
    # CV03: 4.17 m of cloth a metre wide weigh a kilogram at 240 g/m2; 100 / 0.24 cm of it weigh exactly one.
    assert published(CONSUMPTION)["CV03"]["recomputed"] == "4.166667"
    kilogram = cut("cm", 100, (100 / 0.24, 100, 1), use="kg", weight=240)
    assert kilogram.number("yield.fabrics[B1].worked_out") == pytest.approx(1, rel=1e-9)
    # KN05: 3.795 kg a dozen for 10,000 pieces; the source counts 833.33 dozen.
    line = {"item": "Knit", "group": "fabric", "unit": "kg", "net": 3.45 / 12, "waste": 0.1, "color": "any"}
    book = Shown(materials={"bom": [line]}, order={"sizes": [{"row": "M", "pieces": 10000}]})
    assert book.number("order.buy[M1].need") == pytest.approx(
        float(published(CONSUMPTION)["KN05"]["published_answer"]), abs=0.05
    )
