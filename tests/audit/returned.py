"""A vendor's return as the rules see it, with the figures that a test states in place of what stands in the file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

from sheetgen import api
from sheetgen.audit.case import Case
from sheetgen.audit.run import case_of
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.testing.answers import answer
from sheetgen.workbook.exchange.receipts import load_receipt
from sheetgen.workbook.read.file import read
from tests.kept import kept
from tests.loop import ISSUED, SAMPLES


def _make(folder: Path) -> None:
    """The overshirt once round the loop, after a second round was added."""
    brief = api.build(SAMPLES / "overshirt" / "brief.toml").values
    built = api.from_values({**brief, Place("fit.rounds.round", "R2"): "Fit"})
    (folder / "a-working.xlsx").write_bytes(built.data)
    issued = api.issue(folder / "a-working.xlsx", issued=ISSUED)
    (folder / "a-issued.xlsx").write_bytes(issued.data)
    (folder / "a-issued.receipt.json").write_text(issued.receipt.text, "utf-8")
    answers = SAMPLES / "overshirt" / "answers-clean.toml"
    answer(BOOK, folder / "a-issued.xlsx", answers, built.values, folder / "a-returned.xlsx")


@cache
def _clean() -> Case:
    folder = kept("two-rounds", _make)
    return case_of(read(BOOK, folder / "a-returned.xlsx"), load_receipt(folder / "a-issued.receipt.json"))


def returned(
    answers: Mapping[str, Value], worked: Mapping[str, Value], *, sent: Mapping[str, Value] | None = None,
    unit: str = "cm", own: bool = False,
) -> Case:  # fmt: skip
    """The overshirt's clean return with these answers and no other measured values and no other dips.

    `worked` is what the sheets work out (what was asked, tolerances, a difference of color); `sent` what was sent
    along with the copy.
    """
    case = _clean()
    typed = {place: value for place, value in case.got.typed.items() if not _is_measured(place)}
    before = {place: value for place, value in case.sent.items() if not _is_measured(place)}
    words = tuple((word, unit if word == "{unit}" else meaning) for word, meaning in case.got.ready.shape.words)
    worded = replace(case.got.ready, shape=replace(case.got.ready.shape, words=words))
    meant = {place: value for place, value in case.meant.items() if not _is_asked(place)}
    return replace(
        case,
        got=replace(case.got, typed={**typed, **_places(answers)}, ready=worded),
        sent={**before, **_places(sent or {})},
        meant={**meant, **_places(worked)},
        own=own,
    )


_DIP = frozenset(f"colorways.dips.{name}" for name in ("l", "a", "b", "limit"))
_WORKED = frozenset({"fit.points.minus", "fit.points.plus", "colorways.dips.difference"})


def _is_measured(place: Place) -> bool:
    return place.entry.startswith("fit.points.value_") or place.entry in _DIP


def _is_asked(place: Place) -> bool:
    return place.entry.startswith("fit.points.spec_") or place.entry in _WORKED


def _places(values: Mapping[str, Value]) -> dict[Place, Value]:
    return {place_of(text): value for text, value in values.items() if value is not None}


def measured_return(
    points: Mapping[str, tuple[Value, Value, Value, Value]], *, mark: str = "r1", sent: Mapping[str, Value] | None = None,
    unit: str = "cm", own: bool = False,
) -> Case:  # fmt: skip
    """A return in which these points were measured in a round: value, what was asked, tolerance minus and plus."""
    answers = {f"fit.points[{ref}].value_{mark}": value for ref, (value, *_) in points.items()}
    worked: dict[str, Value] = {}
    for ref, (_, spec, minus, plus) in points.items():
        worked[f"fit.points[{ref}].spec_{mark}"] = spec
        worked[f"fit.points[{ref}].minus"] = minus
        worked[f"fit.points[{ref}].plus"] = plus
    return returned(answers, worked, sent=sent, unit=unit, own=own)
