"""Markers that several tests look at: each is searched for once."""

import pytest

from sheetgen.nesting import Marker, nest

from .garments import all_of, shirt, t_shirt

MIX = {"S": 1, "M": 1, "L": 1}
T_SHIRTS = all_of(t_shirt, MIX)


@pytest.fixture(scope="session")
def one_way() -> Marker:
    """T-shirts in three sizes on 180 cm of a fabric with a nap, edge to edge."""
    return nest(T_SHIRTS, MIX, 180, nap="one way", gap_cm=0, seconds=0.5, seed=3)


@pytest.fixture(scope="session")
def two_ways() -> Marker:
    """The same T-shirts turned as they like, 3 mm apart."""
    return nest(T_SHIRTS, MIX, 180, nap="two ways", gap_cm=0.3, seconds=0.5, seed=3)


@pytest.fixture(scope="session")
def shirts() -> Marker:
    """Two shirts in M and one in L on 150 cm: long enough for several rows."""
    return nest(all_of(shirt, {"M": 2, "L": 1}), {"M": 2, "L": 1}, 150, nap="any way", gap_cm=0.2, seconds=0.5, seed=1)


@pytest.fixture(params=["one_way", "two_ways", "shirts"])
def marker(request) -> Marker:
    """Each of them."""
    return request.getfixturevalue(request.param)
