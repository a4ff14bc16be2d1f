"""Every starter becomes a workbook without an error value, and its own sums agree."""

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.calculation import shown_by
from sheetgen.workbook.model.values import ready, shape_of

from .garments import NAMES, OPTIONS, loaded

ALL = pytest.mark.parametrize(("garment", "options"), OPTIONS, ids=NAMES)


def shown(values):
    """What every computed cell shows."""
    return shown_by(ready(BOOK, shape_of(BOOK, values)), values)


@ALL
@pytest.mark.parametrize("unit", ["cm", "in"])
def test_no_cell_shows_an_error_and_nothing_contradicts_itself(garment, options, unit):
    values = loaded(garment, **options, unit=unit)
    cells = shown(values)
    assert [str(place) for place, value in cells.items() if isinstance(value, str) and value.startswith("#")] == []
    assert cells[Place("checks.contradictions")] == 0
    # Thread in Materials is what the callouts take, rounded up.
    rows = [place.row for place, value in values.items() if place.entry == "materials.bom.kind" and value == "thread"]
    typed = sum(values[Place("materials.bom.net", row)] for row in rows)
    assert 0 <= typed - cells[Place("construction.thread_net")] < 6


@ALL
def test_a_fabric_is_used_as_the_yield_works_it_out(garment, options):
    values = loaded(garment, **options)
    cells = shown(values)
    entries = ready(BOOK, shape_of(BOOK, values)).book.entries
    sample = values[Place("style.sample_size")]
    at = next(
        address
        for address, column in entries.items()
        if column.entry.family == "meters" and column.entry.member_title == sample
    )
    for place, material in [
        (place, value) for place, value in values.items() if place.entry == "yield.fabrics.material"
    ]:
        meters = cells[Place(at, place.row)]
        assert (
            Place("materials.bom.net", material) not in values
        )  # a figure typed there would stay when the pieces change
        used = cells[Place("materials.bom.use", material)]
        if values[Place("materials.bom.unit", material)] == "kg":
            usable = values[Place("yield.fabrics.usable", place.row)] / 100
            meters *= usable * values[Place("materials.bom.weight", material)] / 1000
        assert used == pytest.approx(meters), material


@ALL
def test_it_builds(garment, options):
    built = api.from_values(loaded(garment, **options))
    assert built.data[:2] == b"PK"
    assert built.not_carried == ()


def test_a_child_style_raises_the_caution_of_needles():
    assert shown(loaded("t-shirt", child=True))[Place("checks.caution_needle_control")] == 1
    assert shown(loaded("t-shirt"))[Place("checks.caution_needle_control")] == 0
