"""The whole exchange, typed in LibreOffice: a return with a comment, a remark and a photo, accepted in part; what is asked back in
the vendor's own file, answered there, and accepted too. Nothing is lost. What is typed is invented.
"""

from __future__ import annotations

import datetime
import io
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from sheetgen import api
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Picture, Value
from sheetgen.jobs.asked_again import became
from sheetgen.jobs.asking_back import query_copy
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.found import Returned
from tests.loop import fresh_loop
from tests.referee.office import driven, needs_bridge
from tests.referee.test_in_libreoffice import keys
from tests.workbook.briefs import png

pytestmark = [pytest.mark.libreoffice, pytest.mark.long]

DAY = datetime.date(2026, 12, 1)
COLOR = (31, 119, 77)
WRONG = {"fit.points[P1].value_r1": "22.75", "materials.bom[M3].price": "1,80", "quote.fob": "41"}
LEFT = "materials.bom[M1].supplier"
REMARK, COMMENT, REPLY = (
    "the mill closes in August",
    "hard to measure on the form",
    "Cotton went up; the mill has confirmed",
)

Step = dict[str, Any]


def at(got: Returned, place: str) -> Cell:
    cell = got.where.at(place_of(place))
    assert cell is not None, place
    return cell


def typed(got: Returned, place: str, text: str) -> Step:
    cell = at(got, place)
    return {"do": "type", "sheet": cell.sheet, "cell": cell.address, "keys": text}


def beside(got: Returned, table: str, ref: str) -> Cell:
    """A cell beyond the last column of a table."""
    place = got.where.tables[table]
    return Cell(place.sheet, place.rows[ref], max(place.columns.values()) + 2)


def first_return(folder: Path) -> Path:
    """The clean return with three wrong answers, a remark beside a row, a comment on a cell and a photo on Fit."""
    got = api.read(folder / "a-returned.xlsx")
    (folder / "collar.png").write_bytes(png(COLOR))
    remark, comment = beside(got, "materials.bom", "M1"), at(got, "measurements.points[P3].point")
    photo = beside(got, "fit.points", "P5")
    steps = [
        *(typed(got, place, text) for place, text in WRONG.items()),
        *({"do": "unprotect", "sheet": sheet} for sheet in (remark.sheet, comment.sheet, photo.sheet)),
        {"do": "type", "sheet": remark.sheet, "cell": remark.address, "keys": REMARK},
        {"do": "comment", "sheet": comment.sheet, "cell": comment.address, "words": COMMENT},
        {"do": "picture", "sheet": photo.sheet, "cell": photo.address, "file": (folder / "collar.png").as_uri()},
    ]
    target = folder / "first.xlsx"
    driven(folder / "a-returned.xlsx", steps, target)
    return target


def second_return(folder: Path, right: Values) -> Path:
    """The query copy with two of the answers put right, and words for the third."""
    got = api.read(folder / "query.xlsx")
    asked = {
        str(value): place.row for place, value in reversed(got.typed.items()) if place.entry == "questions.queries.rule"
    }
    steps = [typed(got, f"questions.queries[{asked['price-above-target']}].reply", REPLY)]
    for place, value in right.items():
        kind = got.ready.book.entries[place.entry].entry.kind
        steps.append(typed(got, str(place), keys(kind, value, "cm")))
    target = folder / "second.xlsx"
    driven(folder / "query.xlsx", steps, target)
    return target


def words_on_questions(values: Values) -> str:
    return " | ".join(str(value) for place, value in values.items() if place.entry.startswith("questions."))


def photos(values: Values) -> list[tuple[int, int, int]]:
    """The color in the middle of each photo that stands on Questions or in a frame of Fit."""
    held = [
        value
        for place, value in values.items()
        if isinstance(value, Picture) and place.entry.startswith(("questions.", "fit."))
    ]
    found = []
    for one in held:
        shown = Image.open(io.BytesIO(one.data)).convert("RGB")
        pixel = shown.getpixel((shown.width // 2, shown.height // 2))
        assert isinstance(pixel, tuple)
        found.append((pixel[0], pixel[1], pixel[2]))
    return found


def test_the_whole_exchange_loses_nothing(tmp_path: Path) -> None:
    needs_bridge()
    folder = fresh_loop(tmp_path)
    clean = api.read(folder / "a-returned.xlsx").typed
    right: dict[Place, Value] = {place_of(place): clean[place_of(place)] for place in WRONG if place != "quote.fob"}

    first = first_return(folder)
    result = api.audit(first, folder / "a-issued.receipt.json")
    assert {"other-unit", "decimal-comma", "price-above-target"} <= {one.rule for one in result.findings}
    query = query_copy(result, DAY)

    part = api.accept(
        folder / "a-working.xlsx", first, receipt=folder / "a-issued.receipt.json", leave=(LEFT,), date=DAY
    )
    assert {place_of(place) for place in (*WRONG, LEFT)} - {place_of("quote.fob")} <= {
        one.place for one in part.acceptance.of("refused")
    }
    assert place_of(LEFT) not in part.built.values
    said = words_on_questions(part.built.values)
    assert REMARK in said
    assert COMMENT in said
    assert photos(part.built.values) == [COLOR]
    assert len(part.photos) == 1
    assert part.unplaced == ()

    (folder / "next.xlsx").write_bytes(part.built.data)
    (folder / "query.xlsx").write_bytes(query.data)
    (folder / "query.receipt.json").write_text(query.receipt.text, "utf-8")
    second = second_return(folder, right)
    outcome = became(api.audit(second, folder / "query.receipt.json"))
    assert outcome is not None
    assert len(outcome.answered) == 1
    assert len(outcome.resolved) >= 2

    done = api.accept(folder / "next.xlsx", second, receipt=folder / "query.receipt.json", date=DAY)
    assert done.acceptance.of("conflict") == []
    values = done.built.values
    assert {place: values.get(place) for place in right} == right
    assert values[place_of("quote.fob")] == 41
    assert values[place_of(LEFT)] == clean[place_of(LEFT)]
    said = words_on_questions(values)
    assert all(words in said for words in (REMARK, COMMENT, REPLY))
    assert photos(values) == [COLOR]
    entries = api.read(folder / "query.xlsx").ready.book.entries
    answers = {place: value for place, value in clean.items() if entries[place.entry].entry.who == "vendor"}
    lost = {str(place) for place, value in answers.items() if values.get(place) != value} - {"quote.fob"}
    assert lost == set()
