"""A drawing is made once for its figures, and anew for others."""

from sheetgen import store
from sheetgen.drawing import Measure, diagram, flat
from sheetgen.style.drawn_once import drawn_once

CHEST = [Measure("P1", "chest", 55.0, half=True, said="55.0"), Measure("P2", "length", 72.0, half=False, said="72.0")]
WIDER = [Measure("P1", "chest", 60.0, half=True, said="60.0"), CHEST[1]]


def test_it_is_the_drawing_itself_and_no_other(tmp_path, monkeypatch):
    monkeypatch.setenv(store.SETTING, str(tmp_path / "kept"))
    for _ in range(2):
        assert drawn_once(diagram, "shirt", CHEST, unit="cm") == diagram("shirt", CHEST, unit="cm")
        assert drawn_once(diagram, "shirt", WIDER, unit="cm") == diagram("shirt", WIDER, unit="cm")
        assert drawn_once(diagram, "shirt", CHEST, unit="in") == diagram("shirt", CHEST, unit="in")
        assert drawn_once(flat, "shirt", CHEST, back=True) == flat("shirt", CHEST, back=True)
    assert len([path for path in (tmp_path / "kept").iterdir() if path.name != "secret"]) == 4


def test_what_is_there_already_is_not_drawn_again(tmp_path, monkeypatch):
    monkeypatch.setenv(store.SETTING, str(tmp_path / "kept"))
    drawn = []

    def draw(*of: object) -> str:
        drawn.append(of)
        return f"<svg>{of}</svg>"

    assert [drawn_once(draw, 1.5), drawn_once(draw, 1.5), drawn_once(draw, 2.5)] == [
        "<svg>(1.5,)</svg>", "<svg>(1.5,)</svg>", "<svg>(2.5,)</svg>",
    ]  # fmt: skip
    assert drawn == [(1.5,), (2.5,)]
