"""The fiber names that a drop-down offers are legal names of a market."""

import pytest

from tests.lists import offered

# Name: row of Annex I of Regulation (EU) 1007/2011, which the UK keeps (SI 2012/1102); place in the US rules. Rows 1 to
# 20 of the Annex and 303.7(c) were seen, of 303.6 and 300 cotton, linen, flax, silk and wool; the rest is from memory.
LAW = {
    "cotton": (5, "303.6"),
    "wool": (1, "300"),
    "silk": (4, "303.6"),
    "linen": (7, "303.6"),
    "flax": (7, "303.6"),
    "ramie": (14, "303.6"),
    "hemp": (8, "303.6"),
    "cashmere": (2, "300"),
    "mohair": (2, "300"),
    "alpaca": (2, "300"),
    "viscose": (25, "303.7(d)"),
    "rayon": (None, "303.7(d)"),
    "modal": (22, "303.7(d)"),
    "lyocell": (33, "303.7(d)"),
    "cupro": (21, "303.7(d)"),
    "acetate": (19, "303.7(e)"),
    "triacetate": (24, "303.7(e)"),
    "polyester": (35, "303.7(c)"),
    "polyamide": (30, None),
    "nylon": (30, "303.7(i)"),
    "acrylic": (26, "303.7(a)"),
    "modacrylic": (29, "303.7(b)"),
    "elastane": (43, None),
    "spandex": (None, "303.7(k)"),
    "polypropylene": (37, None),
    "polyethylene": (36, None),
    "polyurethane": (39, None),
    "polylactide": (34, None),
    "elastomultiester": (45, None),
    "aramid": (31, "303.7(s)"),
    "metallic": (48, "303.7(o)"),
}


def test_every_fiber_offered_is_a_legal_name_somewhere() -> None:
    fibers = offered("fibers")
    assert len(set(fibers)) == len(fibers)
    assert set(fibers) == set(LAW)
    assert all(row or place for row, place in LAW.values())


@pytest.mark.parametrize(("us", "eu"), [("spandex", "elastane"), ("nylon", "polyamide"), ("rayon", "viscose")])
def test_where_markets_differ_both_words_are_offered(us: str, eu: str) -> None:
    # The nearest names; the editors' pairs, from memory.
    assert LAW[us][1] and LAW[eu][0]
    assert {us, eu} <= set(offered("fibers"))
