"""Overlays: pictures, text boxes and shapes that lie over the cells: those that were sent, and those that were not."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.audit.structure import beside
from sheetgen.declare.kinds import Picture
from sheetgen.texts import marked, say
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.written import WrittenDrawing
from sheetgen.workbook.read.loaded import Drawing, LoadedSheet

_WORDS = {
    "picture": marked("a picture"), "text": marked("a text box"), "shape": marked("a shape"), "chart": marked("a chart"),
    "object": marked("an object"),
}  # fmt: skip


def _added(case: Case) -> Iterator[tuple[LoadedSheet, Drawing]]:
    """What lies over the cells and was neither sent nor asked for."""
    if case.got.written is None:
        return
    framed = _framed(case)
    for sheet in case.got.loaded.sheets.values():
        if sheet.title in case.got.added_sheets:
            continue
        expected = framed[sheet.title]
        for own in _drawn(case, sheet.title):
            expected[own.kind, own.digest] += 1
        for drawing in sheet.drawings:
            key = (drawing.kind, drawing.digest) if drawing.kind == "picture" else (drawing.kind, "")
            if expected[key] > 0:
                expected[key] -= 1
            else:
                yield sheet, drawing


def _framed(case: Case) -> dict[str, Counter[tuple[str, str]]]:
    """The pictures that stand in their frames, by sheet."""
    found: dict[str, Counter[tuple[str, str]]] = defaultdict(Counter)
    for place, value in case.got.typed.items():
        if isinstance(value, Picture) and (cell := case.got.where.at(place)) is not None:
            found[cell.sheet]["picture", value.digest] += 1
    return found


def _drawn(case: Case, title: str) -> list[WrittenDrawing]:
    """What the program drew on a sheet itself: diagrams and charts; pictures of entries are judged as values."""
    written = case.got.written
    sent = next((one for one, alignment in case.got.alignments.items() if alignment.title == title), None)
    sheet = written.sheet(sent) if written and sent else None
    if sheet is None:
        return []
    places = case.got.sent_places.get(sheet.title, {})
    return [
        drawing for drawing in sheet.drawings
        if not (at := places.get(drawing.first)) or case.entry(at).who == "drawn"
    ]  # fmt: skip


def _covers(sheet: LoadedSheet, drawing: Drawing) -> bool:
    """Whether something that was sent, or an answer, lies under a drawing."""
    (top, left), (bottom, right) = drawing.first, drawing.last
    return any(
        top <= row <= bottom and left <= column <= right and held.value not in (None, "")
        for (row, column), held in sheet.cells.items()
    )


def _fault(case: Case, sheet: LoadedSheet, drawing: Drawing) -> Fault:
    cell = Cell(sheet.title, *drawing.first)
    words = say(_WORDS[drawing.kind]) + (f": “{drawing.text.strip()}”" if drawing.text.strip() else "")
    return Fault(case.place_of_cell(cell) or beside(case, cell), "", words, sheet=sheet.title, cell=cell.address)


@rule(
    title="Something lies over the cells",
    level="fix",
    source="ICAEW Twenty principles: nothing hides what stands in a cell",
    message="{found} lies over cells that hold something, at {cell}.",
    why="People read what lies on top; what stands under it is not seen.",
    fix="Take it away; write what it says into a remark.",
    bad=(
        Example(
            "a text box over a tolerance",
            {"measurements.points[P1].plus": Do("text-box", "9.9")},
            ("laid-over measurements.points[P1].plus",),
        ),
    ),
    fine=(Example("the pictures that were sent"),),
)
def laid_over(case: Case) -> Iterator[Fault]:
    for sheet, drawing in () if case.own else _added(case):
        if _covers(sheet, drawing):
            yield _fault(case, sheet, drawing)


@rule(
    title="A picture or text box was added",
    level="query",
    source="common practice",
    message="{found} was put on {sheet} at {cell}, where no frame is; accepting it brings it onto Questions.",
    why="What it shows is easily overlooked there.",
    fix="Look at it; sheetgen accept --photos saves it.",
    owner="designer",
    bad=(
        Example(
            "a remark in a text box beside the tables",
            {"materials.bom[M1]": Do("text-box", "ask Ines")},
            ("drawing-added materials.bom[M1].ref",),
        ),
    ),
    fine=(Example("the pictures that were sent"),),
)
def drawing_added(case: Case) -> Iterator[Fault]:
    for sheet, drawing in _added(case):
        if case.own or not _covers(sheet, drawing):
            yield _fault(case, sheet, drawing)


@rule(
    title="A picture was cut or turned",
    level="fix",
    source="common practice",
    message="The picture at {cell} of {sheet} is {found}.",
    why="A part of the drawing is not seen, or left is right.",
    fix="Put the picture back as it was sent.",
    bad=(Example("a front view mirrored", {"style.front": Do("mirror")}, ("picture-altered style.front",)),),
    fine=(Example("pictures as they were sent"),),
)
def picture_altered(case: Case) -> Iterator[Fault]:
    for sheet in () if case.own else case.got.loaded.sheets.values():
        for drawing in sheet.drawings:
            if drawing.kind == "picture" and (drawing.cropped or drawing.turned):
                cell = Cell(sheet.title, *drawing.first)
                words = say("cut at its edges") if drawing.cropped else say("mirrored or turned")
                yield Fault(case.frame_at(cell), "", words, sheet=sheet.title, cell=cell.address)


@rule(
    title="A drawing is gone",
    level="fix",
    source="common practice",
    message="{expected} is missing from {sheet}.",
    why="What is measured where, or what a chart tells, is no longer to be seen.",
    fix="Put the answers into a fresh copy of the file.",
    bad=(
        Example(
            "a measurement drawing deleted",
            {"measurements.diagram": Do("drop-picture")},
            ("drawing-gone measurements.diagram",),
        ),
    ),
    fine=(Example("all drawings there"),),
)
def drawing_gone(case: Case) -> Iterator[Fault]:
    written = case.got.written
    if case.own or written is None or case.got.loaded.typed_only:
        return
    for sent, alignment in case.got.alignments.items():
        there: Counter[tuple[str, str]] = Counter(
            (one.kind, one.digest if one.kind == "picture" else "")
            for one in case.got.loaded.sheets[alignment.title].drawings
        )
        for drawing in _drawn(case, alignment.title):
            if there[drawing.kind, drawing.digest] > 0:
                there[drawing.kind, drawing.digest] -= 1
                continue
            place = case.got.sent_places.get(sent, {}).get(drawing.first)
            cell = alignment.cell(drawing.first)
            words = say(_WORDS[drawing.kind])
            yield Fault(place, words, "", sheet=alignment.title, cell=cell.address if cell else "")


RULES = (laid_over, drawing_added, picture_altered, drawing_gone)
