"""Graded measurements: published tables come out of base and steps, whichever size is the sample."""

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import pytest

from tests.published.book import Shown
from tests.trade.tables import rows

Point = tuple[str, tuple[float, ...]]


def graded(garment: str) -> tuple[tuple[str, ...], list[Point]]:
    # N. A. Raaz, "Measurement points for different garments" (course article, 2019/2020): seen.
    own = [row for row in rows("graded_spec_examples.csv") if row["garment"] == garment]
    return tuple(own[0]["sizes"].split()), [
        (row["point_of_measure"], tuple(float(row[f"v{number}"]) for number in range(1, 5))) for row in own
    ]


def astm() -> tuple[tuple[str, ...], list[Point]]:
    # ASTM D5585-11e1 Table 1 (inch-pound): seen on the publisher's catalogue page.
    own = [row for row in rows("us_size_tables.csv") if row["system"] == "US misses (ASTM)"]
    sizes = tuple(dict.fromkeys(row["size"] for row in own))
    girths = dict.fromkeys(row["body_dimension"] for row in own)
    return sizes, [
        (girth, tuple(float(row["value_in"]) for row in own if row["body_dimension"] == girth)) for girth in girths
    ]


TABLES = {
    "long-sleeve T-shirt": ("cm", *graded("long-sleeve T-shirt")),
    "basic T-shirt": ("cm", *graded("basic T-shirt")),
    "ASTM D5585": ("in", *astm()),
}
CASES = [(name, sample) for name, (_, sizes, _) in TABLES.items() for sample in sizes]


def typed(sizes: Sequence[str], points: Sequence[Point], sample: str, general: int) -> list[dict[str, Any]]:
    """Base at the sample size, one step as the general one (the most or least frequent), the others size by size."""
    found = []
    for name, values in points:
        steps = [round(high - low, 6) for low, high in pairwise(values)]
        step = Counter(steps).most_common()[general][0]
        over = {size: own for size, own in zip(sizes[1:], steps, strict=True) if own != step}
        found.append({"point": name, "base": values[sizes.index(sample)], "step": step, "over": over})
    return found


def shown(unit: str, sizes: Sequence[str], points: Sequence[dict[str, Any]], sample: str) -> Shown:
    return Shown(sizes, style={"unit": unit, "sample_size": sample}, measurements={"points": points})


def spec(book: Shown, count: int, sizes: Sequence[str]) -> list[tuple[float, ...]]:
    return [
        tuple(book.number(f"measurements.points[P{point}].spec_z{size}") for size in range(1, len(sizes) + 1))
        for point in range(1, count + 1)
    ]


@pytest.mark.parametrize("general", [0, -1], ids=["frequent-step", "rare-step"])
@pytest.mark.parametrize(("table", "sample"), CASES)
def test_every_size_is_the_published_one(table: str, sample: str, general: int) -> None:
    unit, sizes, points = TABLES[table]
    book = shown(unit, sizes, typed(sizes, points, sample, general), sample)
    for (name, values), own in zip(points, spec(book, len(points), sizes), strict=True):
        assert own == pytest.approx(values, rel=1e-9), name


@pytest.mark.parametrize("table", TABLES)
def test_uneven_steps_are_called_so(table: str) -> None:
    unit, sizes, points = TABLES[table]
    book = shown(unit, sizes, typed(sizes, points, sizes[0], 0), sizes[0])
    words = [book[f"measurements.points[P{number}].grade"] for number in range(1, len(points) + 1)]
    even = [len({round(high - low, 6) for low, high in pairwise(values)}) == 1 for _, values in points]
    assert words == ["even" if one else "uneven" for one in even]
    assert book["checks.wrong_measurements_grade_turns"] == 0


def test_the_published_tables_hold_both_kinds_of_grade() -> None:
    # trade_facts 2.4: the long-sleeve rows are even; most of the basic T-shirt and all ASTM girths are not.
    def uneven(table: str) -> int:
        return sum(len({round(high - low, 6) for low, high in pairwise(own)}) > 1 for _, own in TABLES[table][2])

    assert (uneven("long-sleeve T-shirt"), uneven("basic T-shirt"), uneven("ASTM D5585")) == (0, 5, 7)


@pytest.mark.parametrize("table", TABLES)
def test_changing_the_sample_size_and_back_changes_nothing(table: str) -> None:
    """The base moves with the sample size, there and back through every size; only what the sheet shows is used."""
    unit, sizes, points = TABLES[table]
    own = typed(sizes, points, sizes[0], 0)
    first = spec(shown(unit, sizes, own, sizes[0]), len(points), sizes)
    last = first
    for sample in (*sizes[1:], sizes[0]):
        own = [{**point, "base": values[sizes.index(sample)]} for point, values in zip(own, last, strict=True)]
        last = spec(shown(unit, sizes, own, sample), len(points), sizes)
        for before, after in zip(first, last, strict=True):
            assert after == pytest.approx(before, rel=1e-12)


def test_a_point_that_grows_and_then_shrinks_is_counted() -> None:
    point = {"point": "Neck drop", "base": 10, "step": 0.5, "over": {"L": -0.5}}
    book = shown("cm", ("S", "M", "L"), [point], "S")
    assert book["measurements.points[P1].grade"] == "turns"
    assert book["checks.wrong_measurements_grade_turns"] == 1


@pytest.mark.parametrize(
    ("sizes", "sample", "raised"),
    [
        (("XS", "S", "M", "L"), "XS", 1),
        (("XS", "S", "M", "L"), "M", 0),
        (("XS", "S", "M", "L"), "L", 1),
        (("S/M", "L/XL"), "S/M", 0),
        (("one size",), "one size", 0),
    ],
)
def test_a_sample_size_at_an_end_of_the_range_is_pointed_out(sizes: tuple[str, ...], sample: str, raised: int) -> None:
    # Common practice: the sample is made in a middle size.
    assert shown("cm", sizes, [], sample)["checks.wrong_style_sample_middle"] == raised
