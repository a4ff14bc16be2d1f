"""How points grow: breaks, groups of sizes, points that follow, corrections by hand, rounding, lengths, ease and charts."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.published.book import Shown
from tests.trade.tables import rows

LETTERS = ("XS", "S", "M", "L", "XL", "XXL")


def sizes_of(book: Shown, count: int, point: str = "P1") -> list[float]:
    return [book.number(f"measurements.points[{point}].spec_z{number}") for number in range(1, count + 1)]


def graded(
    points: list[dict[str, Any]], sample: str = "M", names: tuple[str, ...] = LETTERS, **measurements: Any
) -> Shown:
    return Shown(names, style={"sample_size": sample}, measurements={"points": points, **measurements})


def test_a_break_widens_the_step_from_a_size_on() -> None:
    # Common practice: a 2 in grade on the full girth, 3 in from the large sizes on; half girths here, in cm.
    book = graded([{"point": "Chest width", "base": 50, "step": 2.5, "break_from": "XL", "break_step": 4}])
    assert sizes_of(book, 6) == [45, 47.5, 50, 52.5, 56.5, 60.5]
    assert book["measurements.points[P1].grade"] == "uneven"


def test_a_point_holds_over_pairs_of_sizes() -> None:
    book = graded([{"point": "Pocket width", "base": 12, "step": 0.5, "every": 2}])
    assert sizes_of(book, 6) == [11.5, 11.5, 12, 12, 12.5, 12.5]


def test_a_typed_step_goes_before_break_and_groups() -> None:
    book = graded(
        [{"point": "Chest width", "base": 50, "step": 2, "break_from": "XL", "break_step": 4, "over": {"XL": 3}}]
    )
    assert sizes_of(book, 6) == [46, 48, 50, 52, 55, 59]


def test_a_point_follows_another_by_ratio_and_sum() -> None:
    points = [
        {"point": "Chest width", "base": 50, "step": 2, "over": {"XXL": 3}},
        {"point": "Chest pocket position", "follows": "P1", "ratio": 0.5, "extra": 1},
    ]
    book = graded(points)
    assert sizes_of(book, 6, "P2") == [24, 25, 26, 27, 28, 29.5]
    assert book["measurements.points[P2].grade"] == "follows"
    assert book["checks.wrong_measurements_follows_follower"] == 0


def test_a_point_that_follows_a_follower_is_pointed_out() -> None:
    points = [
        {"point": "Chest width", "base": 50, "step": 2},
        {"point": "Bottom width", "follows": "P1"},
        {"point": "Hem band", "follows": "P2"},
    ]
    assert graded(points)["checks.wrong_measurements_follows_follower"] == 1


def test_a_size_corrected_by_hand_stands_and_is_counted() -> None:
    book = graded([{"point": "Chest width", "base": 50, "step": 2, "fix": {"XL": 55}}])
    assert sizes_of(book, 6) == [46, 48, 50, 52, 55, 56]
    assert book["measurements.points[P1].by_hand"] == 1
    assert book["checks.wrong_measurements_by_hand"] == 1


def test_rounding_goes_from_the_exact_figure_not_from_the_rounded_neighbor() -> None:
    # Steps of 0.7 on a grid of 0.5: rounding step by step would drift to 52.5, 53, 53.5; from the exact figures it is:
    book = graded([{"point": "Chest width", "base": 51.3, "step": 0.7}], sample="XS", grid=0.5)
    assert sizes_of(book, 6) == pytest.approx([51.3, 51.8, 52.8, 53.3, 54.3, 54.8])


@settings(max_examples=12, deadline=None, database=None)
@given(
    base=st.integers(10, 2000).map(lambda tenths: tenths / 10),
    steps=st.lists(st.integers(0, 60).map(lambda tenths: tenths / 10), min_size=2, max_size=8),
    grid=st.sampled_from([None, 0.1, 0.25, 0.5, 1]),
    falling=st.booleans(),
    data=st.data(),
)
def test_laws_of_grading(
    base: float, steps: list[float], grid: float | None, falling: bool, data: st.DataObject
) -> None:
    """Monotone when all steps have one sign; the base column is the base; no size is further than half a grid off."""
    names = tuple(f"size {number}" for number in range(len(steps) + 1))
    sample = data.draw(st.integers(0, len(steps)))
    signed = [-step if falling else step for step in steps]
    point = {"point": "Chest width", "base": base, "step": 0, "over": dict(zip(names[1:], signed, strict=True))}
    book = graded([point], names[sample], names, **({} if grid is None else {"grid": grid}))
    got = sizes_of(book, len(names))
    assert got[sample] == base
    ordered = sorted(got, reverse=falling)
    assert got == ordered
    exact = [base + sum(signed[:number]) - sum(signed[:sample]) for number in range(len(names))]
    allowed = 1e-9 if grid is None else grid / 2 + 1e-9
    assert all(abs(one - other) <= allowed for one, other in zip(got, exact, strict=True))


def test_each_size_in_each_length() -> None:
    book = Shown(
        ("S", "M"),
        style={
            "sample_size": "M", "base_length": "regular",
            "lengths": [{"name": "short"}, {"name": "regular"}, {"name": "long"}],
        },
        measurements={"points": [{"point": "Inside leg", "base": 80, "step": 1}, {"point": "Waist width", "base": 40, "step": 2}]},
        lengths={"points": [{"row": "P1", "step": 5}]},
    )  # fmt: skip

    def shown(point: str) -> list[float]:
        return [
            book.number(f"lengths.points[{point}].spec_l{length}_z{size}") for length in (1, 2, 3) for size in (1, 2)
        ]

    assert shown("P1") == [74, 75, 79, 80, 84, 85]
    assert shown("P2") == [38, 40] * 3


def test_the_bust_steps_of_en_13402_3_come_out_of_base_and_steps() -> None:
    """EN 13402-3 women's bust step edges (seen): 4 cm up to 102, 5 cm once, then 6 cm: a break, and one step apart."""
    edges = (74, 78, 82, 86, 90, 94, 98, 102, 107, 113, 119, 125, 131)
    assert [float(row["from_cm"]) for row in rows("en13402_3_bust_steps.csv")] == list(edges[:-1])
    names = tuple(str(edge) for edge in edges)
    point = {"point": "Bust girth", "base": 94, "step": 4, "break_from": "113", "break_step": 6, "over": {"107": 5}}
    book = graded([point], "94", names)
    assert sizes_of(book, len(names)) == list(edges)
    assert book["measurements.points[P1].grade"] == "uneven"


@pytest.mark.parametrize("sex", ["men", "women"])
def test_the_letters_of_en_13402_3_come_out_of_base_and_steps_whichever_is_the_sample(sex: str) -> None:
    own = [row for row in rows("en13402_3.csv") if row["sex"] == sex]
    names = tuple(row["letter"] for row in own)
    edges = [float(row["min_cm"]) for row in own]
    steps = {name: after - before for name, before, after in zip(names[1:], edges, edges[1:], strict=False)}
    for sample in ("XS", "M", "5XL"):
        point = {"point": "Girth", "base": edges[names.index(sample)], "step": 8, "over": steps}
        assert sizes_of(graded([point], sample, names), len(names)) == edges


def test_ease_is_the_garment_less_the_body_and_an_uneven_one_is_flagged() -> None:
    """EN 13402-3 women's bust bands (seen): XS 74-82, S 82-90, M 90-98, L 98-107, XL 107-119; middle of each band.

    A half chest graded by 2.5 cm (customary, common practice) does not keep pace with bands 8 to 12 cm wide: body and
    garment are separate figures, and the sheet says where ease turns uneven.
    """
    names = ("XS", "S", "M", "L", "XL")
    middles = dict(zip(names, (78, 86, 94, 102.5, 113), strict=True))
    book = Shown(
        names,
        style={"sample_size": "M"},
        measurements={"points": [{"point": "Bust width", "extent": "half", "base": 52, "step": 2.5}]},
        ease={
            "body": [{"body": "Bust girth", "value": middles}],
            "points": [{"point": "P1", "body_ref": "B1", "least": 0}],
        },
    )
    assert [book.number(f"ease.points[J1].ease_z{number}") for number in range(1, 6)] == [16, 13, 10, 6.5, 1]
    assert book["ease.points[J1].verdict"] == "uneven"


def test_negative_ease_is_allowed_where_it_is_meant() -> None:
    def verdict(least: float) -> Any:
        book = Shown(
            ("S", "M", "L"),
            style={"sample_size": "M"},
            measurements={"points": [{"point": "Hip width", "extent": "half", "base": 40, "step": 2}]},
            ease={
                "body": [{"body": "Hip girth", "value": {"S": 92, "M": 96, "L": 100}}],
                "points": [{"point": "P1", "body_ref": "B1", "least": least}],
            },
        )
        assert book.number("ease.points[J1].ease_z2") == -16
        return book["ease.points[J1].verdict"]

    assert verdict(-20) == "even"
    assert verdict(-10) == "too small"


def test_the_size_chart_is_rounded_and_says_so() -> None:
    book = Shown(
        ("S", "M"),
        style={"sample_size": "M"},
        measurements={
            "points": [{"point": "Chest width", "extent": "half", "base": 52.3, "step": 2.5, "minus": 1, "plus": 1.2}]
        },
        chart={"lines": [{"line": "Chest, all round", "point": "P1", "shown": "all round"}]},
    )
    assert [book.number(f"chart.lines[Q1].value_z{number}") for number in (1, 2)] == [100, 105]
    assert book["chart.rounding"] == "All figures in cm, rounded to 1.0."
    assert book["chart.tolerance"] == "A finished garment may differ by up to 2.4 cm from the garment figures."
