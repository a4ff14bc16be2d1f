"""A total shared out by ratio, working days, and what is bought by color.

Rows are those of tests/data/purchasing_examples.csv and purchasing_examples_2.csv, which name the source of each.
"""

import datetime

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.published.book import Shown, in_source

FIRST, SECOND = "purchasing_examples.csv", "purchasing_examples_2.csv"


def shared(wanted: int, sizes: list[float], colors: list[float] | None = None) -> list[list[int]]:
    """Pieces by size, then color."""
    colors = colors or [1]
    names = [f"S{number}" for number in range(1, len(sizes) + 1)]
    book = Shown(
        names,
        colorways={"list": [{"name": f"Color {number}"} for number in range(1, len(colors) + 1)]},
        order={
            "wanted": wanted,
            "sizes": [{"row": name, "size_ratio": share} for name, share in zip(names, sizes, strict=True)],
            "colors": [{"row": f"C{number}", "ratio": share} for number, share in enumerate(colors, 1)],
        },
    )
    assert book.number("order.pieces") == wanted
    return [
        [round(book.number(f"order.sizes[Z{size}].ordered_c{color}")) for color in range(1, len(colors) + 1)]
        for size in range(1, len(names) + 1)
    ]


@pytest.mark.parametrize(
    ("case", "wanted", "ratio", "pieces"),
    [
        ("Q2", 500, [10, 25, 30, 25, 10], [50, 125, 150, 125, 50]),
        ("Q3", 347, [8, 22, 33, 25, 12], [28, 76, 114, 87, 42]),
        ("Q4", 333, [1, 2, 2, 1], [56, 111, 111, 55]),
    ],
)
def test_largest_remainder_ties_to_the_smaller_size(
    case: str, wanted: int, ratio: list[float], pieces: list[int]
) -> None:
    in_source(FIRST, case, "result", "/".join(map(str, pieces)))
    assert [cells[0] for cells in shared(wanted, ratio)] == pieces


def test_a_published_matrix_keeps_its_total() -> None:
    # CP08: a cut order planning article rounds each cell up and gets 10,006 of 10,000.
    in_source(SECOND, "CP08", "note", "largest-remainder rounding keeps 10,000")
    cells = shared(10000, [1, 2, 1, 2], [1, 2, 1])
    assert sum(map(sum, cells)) == 10000
    assert [sum(row[color] for row in cells) for color in range(3)] == [2500, 5000, 2500]


@settings(max_examples=7, deadline=None)
@given(
    st.integers(1, 20000),
    st.lists(st.integers(1, 99), min_size=1, max_size=5),
    st.lists(st.integers(1, 99), min_size=1, max_size=3),
)
def test_the_parts_always_add_up(wanted: int, sizes: list[int], colors: list[int]) -> None:
    cells = shared(wanted, [float(share) for share in sizes], [float(share) for share in colors])
    for size, row in zip(sizes, cells, strict=True):
        for color, pieces in zip(colors, row, strict=True):
            exact = wanted * size / sum(sizes) * color / sum(colors)
            assert abs(pieces - exact) < 2


def test_typed_pieces_come_before_a_total() -> None:
    book = Shown(order={"wanted": 500, "sizes": [{"row": "M", "pieces": 10}]})
    assert book.number("order.pieces") == 10
    assert book.number("checks.wrong_order_typed") == 1


@pytest.mark.parametrize(
    ("week", "mask"),
    [("Monday to Friday", "1111100"), ("Monday to Saturday", "1111110"), ("Sunday to Thursday", "1111001")],
)
def test_working_days_are_those_of_a_calendar_library(week: str, mask: str) -> None:
    """numpy's business days are the reference; the holidays are invented."""
    delivery = datetime.date(2027, 7, 15)
    free = [
        datetime.date(2027, 7, 5),
        datetime.date(2027, 6, 24),
        datetime.date(2027, 6, 10),
        datetime.date(2027, 6, 12),
    ]
    before = [75, 60, 45, 42, 38, 35, 33, 24, 1, 0]
    book = Shown(
        style={"delivery": delivery},
        order={
            "week": week,
            "holidays": [{"on": day, "name": "Invented"} for day in free],
            "calendar": [{"row": f"E{number}", "before": days} for number, days in enumerate(before, 1)],
        },
    )
    for number, days in enumerate(before, 1):
        due = datetime.date(1899, 12, 30) + datetime.timedelta(days=book.number(f"order.calendar[E{number}].due"))
        wanted = (
            numpy.busday_offset(delivery, -days, roll="following", weekmask=mask, holidays=free) if days else delivery
        )
        assert due == wanted, days


def test_a_color_is_bought_once_with_its_own_minimum() -> None:
    # By hand: 100 + 60 pieces share Bone at 2 m: 320 m; Moss 100 x 1 = 100 m is raised to the color's 150.
    book = Shown(
        colorways={"list": [{"name": "Moss"}, {"name": "Slate"}]},
        order={"sizes": [{"row": "M", "pieces": {"Moss": 100, "Slate": 60}}]},
        materials={"bom": [
            {"item": "Lining", "group": "fabric", "net": 2, "waste": 0, "unit": "m", "color": {"Moss": "Bone", "Slate": "Bone"}},
            {"item": "Rib", "group": "fabric", "net": 1, "waste": 0, "unit": "m", "minimum_color": 150,
             "color": {"Moss": "Moss", "Slate": "Slate"}, "use_in": {"Slate": 4}},
        ]},
    )  # fmt: skip
    assert [book[f"order.buy[M1].buy_of_c{number}"] for number in (1, 2)] == [320, 0]
    assert [book[f"order.buy[M2].buy_of_c{number}"] for number in (1, 2)] == [150, 240]
    assert book.number("order.buy[M2].surplus") == 50


@settings(max_examples=7, deadline=None)
@given(
    st.integers(1, 5000), st.floats(0.01, 5), st.floats(0, 0.2), st.floats(0, 3000), st.floats(0, 500),
    st.sampled_from([None, 1, 25, 50, 144]),
)  # fmt: skip
def test_never_less_is_bought_than_needed(
    pieces: int, net: float, waste: float, minimum: float, color: float, multiple: float | None
) -> None:
    line = {
        "item": "Cloth",
        "group": "fabric",
        "net": net,
        "waste": waste,
        "minimum": minimum,
        "minimum_color": color,
        "color": "any",
    }
    book = Shown(
        materials={"bom": [line]},
        order={
            "sizes": [{"row": "M", "pieces": pieces}],
            "buy": [{"row": "M1", "multiple": multiple}] if multiple else [],
        },
    )
    buy = book.number("order.buy[M1].buy")
    assert buy >= max(book.number("order.buy[M1].need"), minimum, color) - 1e-6
