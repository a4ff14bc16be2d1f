"""A sample of the tampering: every class at one cell of one sample; `python -m tests.tampering.run` tries them all."""

import pytest

from tests.tampering.classes import CLASSES, Tamper
from tests.tampering.judge import STYLES, Batch, Change, batches, cells_of, judged
from tests.tampering.targets import SORTS

SEED = 3


def sample(style: str) -> list[Batch]:
    """The classes dealt out over the styles, each at one cell."""
    mine = set(list(CLASSES)[STYLES.index(style) :: len(STYLES)])
    dealt = (
        batch._replace(changes=tuple(one for one in batch.changes if one.name in mine))
        for batch in batches(style, 1, SEED, False)
    )
    return [batch for batch in dealt if batch.changes]


@pytest.mark.parametrize("style", STYLES)
def test_every_class_is_found_at_its_cell(style):
    done: list[Change] = []
    for batch in sample(style):
        changed, missed = judged(batch)
        assert missed == []
        done += changed
    assert len(done) >= len(CLASSES) / len(STYLES) * 0.7


def test_a_change_that_does_nothing_is_missed(monkeypatch):
    """The judge itself: it counts only what the audit says of that very cell."""
    monkeypatch.setitem(
        CLASSES, "nothing", Tamper(("asked number",), lambda *_: True, CLASSES["a number one less"].rules)
    )
    cell = next(one for one in cells_of("overshirt") if one.sort == "asked number")
    other = next(
        one for one in cells_of("overshirt") if one.sort == "asked number" and one.cell.sheet != cell.cell.sheet
    )
    _, missed = judged(Batch("overshirt", SEED, (Change("nothing", cell), Change("a number one less", other))))
    assert [one.where for one in missed] == [f"{cell.cell.sheet}!{cell.cell.address}"]


def test_every_sort_of_cell_is_met_by_a_class_and_stands_in_every_sample():
    assert {sort for tamper in CLASSES.values() for sort in tamper.sorts} >= set(SORTS)
    for style in STYLES:
        assert {cell.sort for cell in cells_of(style)} >= set(SORTS)
