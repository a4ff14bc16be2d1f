"""The whole story of one style, typed in LibreOffice: own trousers in inches, seven numbered sizes, from the starter over a quote
and two fits to bulk. Names and figures are invented; what a cell asks for is taken from the audit, as a designer would.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Kind, Picture, Value
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.found import Returned
from tests.loop import SAMPLES
from tests.referee.office import driven, needs_bridge
from tests.referee.test_in_libreoffice import keys

SIZES = ("28", "30", "32", "34", "36", "38", "40")
DAYS = {
    "style.date": datetime.date(2026, 11, 27),
    "style.due": datetime.date(2026, 12, 18),
    "style.delivery": datetime.date(2027, 7, 30),
}
OWN = {"style.number": "ER-27S-TR-001", "style.name": "Hillside trousers", "style.company": "Elder & Rowan", "style.vendor": "Costura Monte",
       "style.currency": "EUR", "style.place": "Elder & Rowan warehouse"}  # fmt: skip
FRAMES = ("style.front", "style.back", "construction.flat_front", "construction.flat_back")
PHOTO = Picture((SAMPLES / "rendered" / "measurements.png").read_bytes())


def by_kind(kind: Kind, got: Returned) -> Value:
    if kind.choices:
        return kind.choices[0]
    if kind.source:
        held = (got.typed.get(place, got.shown.get(place)) for place, _ in got.where.places(kind.source))
        return next((value for value in held if value not in (None, "")), OWN["style.currency"])
    plain: dict[str, Value] = {
        "percent": 0.1,
        "whole": 40,
        "money": 5.0,
        "date": datetime.date(2027, 1, 15),
        "length": 4.5,
        "number": 2.0,
    }
    return plain.get(kind.name, "as agreed")


class Story:
    """The designer's file and the copy that is out, each typed into in LibreOffice and saved as .xlsx."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.number, self.typed = folder, 0, 0

    def path(self, name: str) -> Path:
        self.number += 1
        return self.folder / f"{self.number}-{name}.xlsx"

    def types(self, path: Path, values: Mapping[str, Value]) -> Path:
        """The same file with these cells typed, as a person presses the keys."""
        got = api.read(path)
        steps = []
        for place, value in values.items():
            cell = got.where.at(place_of(place))
            assert cell is not None, place
            kind = got.ready.book.entries[place_of(place).entry].entry.kind
            steps.append({"do": "type", "sheet": cell.sheet, "cell": cell.address, "keys": keys(kind, value, "in")})
        target = self.path(path.stem.partition("-")[2])
        driven(path, steps, target)
        self.typed += len(steps)
        return target

    def fills(self, path: Path, purpose: str | None = None, known: Mapping[str, Value] | None = None) -> Path:
        """Type what the audit says is missing, until it says no more."""
        found = api.audit(path, purpose=purpose)
        missing = [
            one.place for one in found.findings if one.rule == "entry-missing" and not one.place.startswith(FRAMES)
        ]
        given: dict[str, Value] = {}
        for place in missing:
            entry = found.got.ready.book.entries[place_of(place).entry].entry
            asked = Place(place_of(place).entry.replace(".value_", ".spec_"), place_of(place).row)
            measured = found.got.shown.get(asked) if ".value_" in place else None
            given[place] = (
                (known or {}).get(place) or {**OWN, **DAYS}.get(place) or measured or by_kind(entry.kind, found.got)
            )
        return self.types(path, given) if given else path

    def built(self, path: Path) -> Path:
        made = api.build(path)
        assert made.not_carried == ()
        target = self.path("working")
        target.write_bytes(made.data)
        return target

    def goes_round(self, working: Path, purpose: str, revise: str | None = None) -> tuple[Path, Values]:
        """Issued, answered by the vendor, audited, accepted: the next working file."""
        issued = api.issue(
            working, purpose=purpose, due=datetime.date(2027, 1, 29), issued=datetime.date(2026, 11, 27), revise=revise
        )
        copy = self.path("copy")
        copy.write_bytes(issued.data)
        receipt = copy.with_suffix(".receipt.json")
        receipt.write_text(issued.receipt.text, "utf-8")
        back = self.fills(copy, known={"quote.price": 14.5})
        result = api.audit(back, receipt)
        assert [one.message for one in result.findings if one.level == "fix"] == []
        made = api.accept(working, back, receipt=receipt, date=datetime.date(2027, 1, 20)).built
        target = self.path("next")
        target.write_bytes(made.data)
        return target, made.values


@pytest.mark.libreoffice
@pytest.mark.story
def test_from_the_starter_over_two_fits_to_bulk(tmp_path: Path) -> None:
    needs_bridge()
    story = Story(tmp_path)
    begun = api.start("trousers", unit="in", sizes=SIZES)
    pictures = {Place(frame): PHOTO for frame in FRAMES}
    working = story.path("working")
    working.write_bytes(api.from_values({**begun.values, **pictures}).data)

    working = story.fills(working, "quote")
    working, after_quote = story.goes_round(story.built(working), "quote")
    assert after_quote[Place("style.name")] == OWN["style.name"]

    working = story.built(story.types(working, {"style.purpose": "sample"}))
    working = story.fills(working, "sample", {"colorways.components[K1].reference_c1": "ER-114"})
    working, _ = story.goes_round(story.built(working), "sample", "first sample")
    rounds = {"fit.rounds[R1].decision": "approved with comments", "fit.rounds[R2].round": "Fit", "fit.rounds[R2].size": "34", "fit.round_now": "Fit",
              "fit.comments[F1].seen": "Seat drags below the waist", "fit.comments[F1].round": "Proto", "fit.comments[F1].change": "Raise the back by 3/8",
              "fit.points[P1].revise_r1": 17.5}  # fmt: skip
    working = story.built(story.types(working, rounds))
    asked = api.build(working).shown
    assert asked[place_of("fit.points[P1].spec_r1")] != asked[place_of("fit.points[P1].spec_r2")] == 17.5

    working, after_fit = story.goes_round(story.fills(working, "sample"), "sample", "a second fit")
    assert after_fit[place_of("fit.comments[F1].answer")] == "as agreed"
    closed = {"fit.comments[F1].closed": "Fit", "fit.rounds[R2].decision": "approved"}
    working = story.types(working, closed)
    waiting = [one.place for one in api.audit(working, purpose="bulk").findings if one.rule == "approval-open"]
    working = story.types(
        working, {place.replace(".about", ".decision"): "approved" for place in waiting if place.endswith(".decision")}
    )
    working = story.built(story.types(working, {"style.purpose": "bulk"}))
    working = story.built(story.fills(working, "bulk"))
    judged = api.audit(working, purpose="bulk")
    assert [one.message for one in judged.findings if one.level == "fix" and one.rule != "changed-since-issue"] == []
    last, in_bulk = story.goes_round(working, "bulk", "for bulk")

    names = [value for place, value in in_bulk.items() if place.entry == "style.sizes.name"]
    assert tuple(map(str, names)) == SIZES
    kept = {
        place: value
        for place, value in begun.values.items()
        if place.entry.startswith("measurements.points.") and value not in (None, "")
    }
    assert {place: in_bulk.get(place) for place in kept} == kept
    assert asked[place_of("fit.points[P1].spec_r1")] == api.build(last).shown[place_of("fit.points[P1].spec_r1")]
    assert story.typed > 150
