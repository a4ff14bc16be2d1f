"""Money: exact to the cent by decimal arithmetic, rounded where the sheet says so and once; a price moves its own line only."""

from decimal import ROUND_HALF_UP, Decimal

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.published.book import Shown

PRICE = st.integers(1, 400_000).map(lambda units: Decimal(units) / 10_000)
NET = st.integers(1, 50_000).map(lambda units: Decimal(units) / 10_000)
WASTE = st.sampled_from([Decimal("0"), Decimal("0.03"), Decimal("0.05"), Decimal("0.125")])
LINES = st.lists(st.tuples(NET, WASTE, PRICE), min_size=2, max_size=6)
GROUPS = ("fabric", "trim", "label", "packing", "thread", "trim")


def book(lines: list[tuple[Decimal, Decimal, Decimal]], pieces: int = 100) -> Shown:
    bom = [
        {
            "item": f"Line {n}", "group": GROUPS[n], "unit": "m", "net": float(net), "waste": float(waste),
            "price": float(price), "currency": "USD", "color": "any",
        }
        for n, (net, waste, price) in enumerate(lines)
    ]  # fmt: skip
    return Shown(materials={"bom": bom}, order={"sizes": [{"row": "M", "pieces": pieces}]}, quote={"fob": 27.35})


def exact(net: Decimal, waste: Decimal, price: Decimal) -> Decimal:
    """A line's cost, rounded once, half up as money is."""
    return (net * (1 + waste) * price).quantize(Decimal("0.0001"), ROUND_HALF_UP)


def is_even_split(net: Decimal, waste: Decimal, price: Decimal) -> bool:
    """Exactly between two ten-thousandths, where binary fractions may fall to either side."""
    return (net * (1 + waste) * price * 10_000) % 1 == Decimal("0.5")


@settings(max_examples=12, deadline=None)
@given(LINES, st.integers(1, 5000))
def test_costs_are_the_decimal_ones_and_their_sum_is_exact(
    lines: list[tuple[Decimal, Decimal, Decimal]], pieces: int
) -> None:
    assume(not any(is_even_split(*line) for line in lines))
    shown = book(lines, pieces)
    costs = [exact(*line) for line in lines]
    for n, cost in enumerate(costs, 1):
        assert abs(Decimal(repr(shown.number(f"materials.bom[M{n}].cost"))) - cost) < Decimal("1e-9")
    assert abs(Decimal(repr(shown.number("materials.cost"))) - sum(costs)) < Decimal("1e-9")
    by_group = [Decimal(repr(shown.number(f"materials.cost_{group}"))) for group in dict.fromkeys(GROUPS)]
    assert abs(sum(by_group) - sum(costs)) < Decimal("1e-9")
    value = (pieces * Decimal("27.35")).quantize(Decimal("0.01"), ROUND_HALF_UP)
    assert abs(Decimal(repr(shown.number("order.value"))) - value) < Decimal("1e-6")


@settings(max_examples=10, deadline=None)
@given(LINES, st.integers(0, 5))
def test_doubling_a_price_doubles_its_line_and_nothing_else(
    lines: list[tuple[Decimal, Decimal, Decimal]], which: int
) -> None:
    which %= len(lines)
    dearer = [(net, waste, price * (2 if n == which else 1)) for n, (net, waste, price) in enumerate(lines)]
    before, after = book(lines), book(dearer)
    for n in range(len(lines)):
        old, new = (shown.number(f"materials.bom[M{n + 1}].cost") for shown in (before, after))
        # Each of the two is rounded to 0.0001: twice the rounded one may be a ten-thousandth off.
        assert abs(new - (2 * old if n == which else old)) <= (1.001e-4 if n == which else 0)
    moved = after.number("materials.cost") - before.number("materials.cost")
    own = after.number(f"materials.bom[M{which + 1}].cost") - before.number(f"materials.bom[M{which + 1}].cost")
    assert abs(moved - own) < 1e-9
