"""What stands on the pages: taken from a file that was read, as plain data for the typesetter, and its pictures beside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, Value
from sheetgen.pack import tables
from sheetgen.pack.pages import (
    FORMS,
    PAGES,
    PORTFOLIO,
    Block,
    Cautions,
    Drawings,
    Facts,
    FitForm,
    Lines,
    Page,
    RowDrawings,
    Rows,
    TrueSize,
)
from sheetgen.pack.taking import Source, Taking
from sheetgen.texts import say
from sheetgen.trade.lengths import convert
from sheetgen.workbook.model.look import BAND, accent_of
from sheetgen.workbook.model.pictures import width_and_height
from sheetgen.workbook.model.values import Values

_WIDEST_MM, _HIGHEST_MM = 150.0, 95.0
"""Of a picture at its true size."""


_SHOWN_TO_ANYBODY = ("brand", "number", "name")
"""What stands at the head of a portfolio's pages."""


@dataclass
class Content:
    """The pack as data: `document` for the typesetter, its pictures by name, and every text in it with its place."""

    document: dict[str, Any]
    pictures: dict[str, bytes] = field(default_factory=dict)
    texts: list[tuple[str, Place]] = field(default_factory=list)
    taken: frozenset[Place] = frozenset()
    """What stands on the pages, pictures and colors too."""


def content_of(got: Source, purpose: str, only: tuple[str, ...] = (), drawn: Values | None = None) -> Content:
    """The pack of a file for a purpose; `only` these pages, by title. `drawn` are pictures that the program draws itself."""
    taking = Taking(got, drawn or {})
    wanted = (
        [page for page in (*PAGES, *FORMS) if page.title in only]
        if only
        else [page for page in PAGES if purpose in page.purposes]
    )
    pages = [made for page in wanted if (made := _page(taking, page)) is not None]
    taking.settled()
    marks = sorted(ref for ref, mark in taking.marked.items() if mark["first"])
    document = {**_head(taking, purpose), "pages": pages, "refs": sorted(taking.anchored), "marks": marks}
    return Content(document, taking.pictures, taking.texts, frozenset(taking.taken))


def _head(taking: Taking, purpose: str) -> dict[str, Any]:
    about = taking.got.ready.book.about
    fields = {
        "brand": about.company, "number": about.number, "name": about.name, "revision": about.revision, "vendor": about.vendor,
        "footer": about.footer, "date": "style.date",
    }  # fmt: skip
    found: dict[str, Any] = {"purpose": "" if purpose == PORTFOLIO else purpose}
    for name, address in fields.items():
        column = taking.column(address) if purpose != PORTFOLIO or name in _SHOWN_TO_ANYBODY else None
        found[name] = (taking.cell(Place(address), column.entry) if column else None) or ""
    found["words"] = {
        "revision": say("revision"),
        "page": say("page"),
        "of": say("of"),
        "true": say("true size"),
        "rule": say("50 mm"),
    }
    mark = taking.value(Place("style.mark")) if taking.column("style.mark") else None
    found["mark"] = taking.picture(mark) if isinstance(mark, Picture) else ""
    found["accent"] = accent_of(taking.value(Place(about.accent))).titles if about.accent else BAND
    found["paper"] = str(taking.value(Place(about.paper)) or "")
    found["sample"] = str(taking.value(Place("style.sample_size")) or "")
    return found


def _page(taking: Taking, page: Page) -> dict[str, Any] | None:
    left = [made for block in page.left for made in _block(taking, block)]
    right = [made for block in page.right for made in _block(taking, block)]
    if not left and not right:
        return None
    return {
        "title": say(page.title), "left": left, "right": right, "share": page.share, "follows": page.follows,
    }  # fmt: skip


def _block(taking: Taking, block: Block) -> Iterator[dict[str, Any]]:
    match block:
        case Drawings():
            yield from _drawings(taking, block)
        case Facts():
            yield from _facts(taking, block)
        case Rows():
            yield from tables.rows_of(taking, block)
        case TrueSize():
            yield from _true_size(taking, block)
        case RowDrawings():
            yield from _row_drawings(taking, block)
        case FitForm():
            yield from tables.fit_form(taking, block)
        case Cautions():
            yield from _cautions(taking, block)
        case Lines():
            yield tables.lines(taking, block)


def _drawings(taking: Taking, block: Drawings) -> Iterator[dict[str, Any]]:
    shown: list[tuple[Picture, str]] = []
    for address in block.entries:
        column = taking.column(address)
        picture = taking.picture_at(Place(address)) if column and len(shown) < block.across else None
        if column and picture is not None:
            words = taking.heading(column.entry)
            if picture.is_ours and column.entry.original:
                words = say("{heading}, drawn from the measurements", heading=words)
            shown.append((picture, words))
    if shown:
        drawings = [taking.drawing(*one) for one in shown]
        yield {"sort": "drawings", "shown": drawings, "height": block.height_mm}


def _row_drawings(taking: Taking, block: RowDrawings) -> Iterator[dict[str, Any]]:
    for ref in tables.filled(taking, block.table):
        picture = taking.picture_at(Place(f"{block.table}.{block.picture}", ref))
        if picture is not None:
            said = [
                f"{taking.heading(entry)}: {text}" for address, entry in tables.entries(taking, block.table, block.words)
                if isinstance(text := taking.cell(Place(address, ref), entry), str)
            ]  # fmt: skip
            words = "; ".join((ref, *said))
            yield {"sort": "drawings", "shown": [taking.drawing(picture, words)], "height": block.height_mm}


def _facts(taking: Taking, block: Facts) -> Iterator[dict[str, Any]]:
    found = []
    for address in block.entries:
        column = taking.column(address)
        text = taking.cell(Place(address), column.entry) if column else None
        if column and (isinstance(text, str) or block.blank):
            found.append([taking.heading(column.entry), text if isinstance(text, str) and not block.blank else ""])
    if found:
        yield {"sort": "facts", "title": say(block.title) if block.title else "", "facts": found}


def _cautions(taking: Taking, block: Cautions) -> Iterator[dict[str, Any]]:
    found = []
    for sheet in taking.got.ready.book.sheets:
        for caution in sheet.cautions:
            count = taking.value(Place(f"checks.{caution.counted_as}"))
            if isinstance(count, int | float) and count > 0:
                found.append([sheet.title, say(caution.sentence)])
    if found:
        yield {"sort": "facts", "title": say(block.note), "facts": found}


def _true_size(taking: Taking, block: TrueSize) -> Iterator[dict[str, Any]]:
    for ref in tables.filled(taking, block.table):
        picture = taking.picture_at(Place(f"{block.table}.{block.picture}", ref))
        if picture is None:
            continue
        wide = taking.value(Place(f"{block.table}.{block.width}", ref))
        facts = [
            [taking.heading(entry), text] for address, entry in tables.entries(taking, block.table, block.words)
            if isinstance(text := taking.cell(Place(address, ref), entry), str)
        ]  # fmt: skip
        name = Place(f"{block.table}.{block.name}", ref)
        made: dict[str, Any] = {
            "sort": "true-size",
            "ref": taking.anchor(ref),
            "name": taking.cell(name, taking.got.ready.book.entries[name.entry].entry),
            "facts": facts,
        }
        made |= {"image": taking.picture(picture), **_scaled(picture, wide, taking.unit)}
        yield made


def _scaled(picture: Picture, wide: Value, unit: str) -> dict[str, Any]:
    """Millimeters that a picture takes on paper, and its scale in words where that is not its true size."""
    pixels_wide, pixels_high = width_and_height("", picture.data)
    if not isinstance(wide, int | float) or wide <= 0:
        return {"mm": 60.0, "scale": say("not to scale")}
    true = convert(float(wide), unit, "mm")
    fits = min(1.0, _WIDEST_MM / true, _HIGHEST_MM / (true * pixels_high / pixels_wide))
    return {"mm": true * fits, "scale": "" if fits == 1 else say("scale 1 : {scale}", scale=f"{1 / fits:.2g}")}


def pages_for(purpose: str) -> list[str]:
    """Titles of the pages that a purpose has."""
    return [page.title for page in PAGES if purpose in page.purposes]
