"""A starter in one's own sizes: numbered or by any name; the middle one is the sample size."""

from __future__ import annotations

from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place
from sheetgen.style.starters import STARTERS

NUMBERED = ("2", "4", "6", "8", "10", "12", "14")


def sizes_of(built: api.Built) -> list[str]:
    return [str(value) for place, value in built.values.items() if place.entry == "style.sizes.name"]


@pytest.mark.parametrize("garment", STARTERS)
def test_every_garment_can_be_begun_in_ones_own_sizes(garment: str) -> None:
    own, usual = api.start(garment, sizes=NUMBERED), api.start(garment)
    assert sizes_of(own) == list(NUMBERED)
    assert own.text("style.sample_size") == "8"
    assert own.values[Place("measurements.points.base", "P1")] == usual.values[Place("measurements.points.base", "P1")]
    assert own.shown[Place("measurements.points.spec_z4", "P1")] == own.values[Place("measurements.points.base", "P1")]
    assert not [at for at, count in own.shown.items() if "_astray_" in at.entry and count not in (0, None, "")]


def test_a_size_named_twice_is_refused_and_nothing_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "x.xlsx"
    assert main(["start", "shirt", "--sizes", "S, M ,M", "--out", str(out)]) == 2
    assert "--sizes: M is named twice" in capsys.readouterr().err
    assert not out.exists()
    assert main(["start", "shirt", "--sizes", "S, M , L", "--out", str(out)]) == 0
    assert [value for place, value in api.read(out).typed.items() if place.entry == "style.sizes.name"] == [
        "S",
        "M",
        "L",
    ]
