"""What stands on the pages: taken from a file that was read, as plain data for the typesetter, and its pictures beside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from sheetgen.declare.entry import Entry, Place
from sheetgen.declare.families import member_name
from sheetgen.declare.kinds import Picture, Value
from sheetgen.pack.pages import (
    FORMS,
    PAGES,
    PORTFOLIO,
    ROOM_MM,
    Block,
    Cautions,
    Drawings,
    Facts,
    FitForm,
    Lines,
    Page,
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


_CLOSE_MM = 0.9
"""Above and below the words of a row that is read."""
_SHOWN_TO_ANYBODY = ("brand", "number", "name")
"""What stands at the head of a portfolio's pages."""
_SHORT = 14
"""Letters of a column that needs no more room than its words."""


@dataclass
class Content:
    """The pack as data: `document` for the typesetter, its pictures by name, and every text in it with its place."""

    document: dict[str, Any]
    pictures: dict[str, bytes] = field(default_factory=dict)
    texts: list[tuple[str, Place]] = field(default_factory=list)


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
    return Content(document, taking.pictures, taking.texts)


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
            yield from _rows(taking, block)
        case TrueSize():
            yield from _true_size(taking, block)
        case FitForm():
            yield from _fit_form(taking, block)
        case Cautions():
            yield from _cautions(taking, block)
        case Lines():
            yield _lines(taking, block)


def _drawings(taking: Taking, block: Drawings) -> Iterator[dict[str, Any]]:
    shown = []
    for address in block.entries:
        column = taking.column(address)
        picture = taking.value(Place(address))
        if column and isinstance(picture, Picture):
            words = taking.heading(column.entry)
            if picture.vector and column.entry.original:
                words = say("{heading}, drawn from the measurements", heading=words)
            shown.append((picture, words))
    if shown:
        drawings = [taking.drawing(*one) for one in shown[: block.across]]
        yield {"sort": "drawings", "shown": drawings, "height": block.height_mm}


def _facts(taking: Taking, block: Facts) -> Iterator[dict[str, Any]]:
    found = []
    for address in block.entries:
        column = taking.column(address)
        text = taking.cell(Place(address), column.entry) if column else None
        if column and (isinstance(text, str) or block.blank):
            found.append([taking.heading(column.entry), text if isinstance(text, str) and not block.blank else ""])
    if found:
        yield {"sort": "facts", "title": say(block.title) if block.title else "", "facts": found}


def _entries(taking: Taking, table: str, names: tuple[str, ...]) -> list[tuple[str, Entry]]:
    """The named columns of a table, families opened, in the order of the names."""
    declared = taking.got.ready.book.tables.get(table)
    if declared is None:
        return []
    return [
        (f"{table}.{entry.name}", entry) for name in names for entry in declared[1].entries
        if name in (entry.name, entry.family) and taking.column(f"{table}.{entry.name}") is not None
    ]  # fmt: skip


def _filled(taking: Taking, table: str) -> list[str]:
    """Refs of the rows that have a name."""
    declared = taking.got.ready.book.tables.get(table)
    if declared is None:
        return []
    key = f"{table}.{declared[1].key}"
    return [place.row for place, _ in taking.got.where.places(key) if taking.value(place) is not None]


def _rows(taking: Taking, block: Rows) -> Iterator[dict[str, Any]]:
    column, wanted = block.where or block.unless
    rows = [
        ref for ref in _filled(taking, block.table)
        if not column or (taking.value(Place(f"{block.table}.{column}", ref)) == wanted) is bool(block.where)
    ]  # fmt: skip
    for name, beside, words in block.stands_for_blank:
        for ref in rows:
            place = Place(f"{block.table}.{name}", ref)
            if taking.value(place) is None and taking.value(Place(f"{block.table}.{beside}", ref)) is not None:
                taking.known[place] = words
    columns = _entries(taking, block.table, block.columns)
    write_in = (*map(say, block.write_in), *dict(taking.got.ready.shape.axes).get(block.write_in_each, ()))
    yield from _table(taking, block.title, columns, rows, write_in, block.room_mm)


def _table(
    taking: Taking, title: str, columns: list[tuple[str, Entry]], rows: list[str], write_in: tuple[str, ...], room_mm: float
) -> Iterator[dict[str, Any]]:  # fmt: skip
    cells = {(address, ref): taking.cell(Place(address, ref), entry) for address, entry in columns for ref in rows}
    shown = [(address, entry) for address, entry in columns if any(cells[address, ref] is not None for ref in rows)]
    if not rows or not shown:
        return
    headings = [taking.column_heading(entry, [one for _, one in shown]) for _, entry in shown]
    shares = [_share([cells[address, ref] for ref in rows]) for address, _ in shown]
    yield {
        "sort": "rows",
        "title": say(title) if title else "",
        "headings": ["", *headings, *write_in],
        "widths": [0, *shares, *(6 for _ in write_in)],
        "numbers": [False, *(entry.kind.is_number for _, entry in shown), *(False for _ in write_in)],
        "rows": [
            [taking.anchor(ref), *(cells[address, ref] for address, _ in shown), *(None for _ in write_in)]
            for ref in rows
        ],
        "room": room_mm if write_in else _CLOSE_MM,
    }


def _share(texts: list[Any]) -> float:
    """A column's share of the width: 0 where it is as wide as its words, which are short; long texts by how long they are."""
    words = [text for text in texts if isinstance(text, str)]
    longest = max(map(len, words), default=0)
    word = max((len(one) for text in words for one in text.split()), default=0)
    return 0 if longest <= _SHORT else round(max(longest**0.6, 0.75 * word), 2)


def _fit_form(taking: Taking, block: FitForm) -> Iterator[dict[str, Any]]:
    """Only where a round is asked for that has its columns."""
    sheet = block.table.partition(".")[0]
    asked = taking.value(Place(f"{sheet}.round_now"))
    names = dict(taking.got.ready.shape.axes).get("round", ())
    if asked not in names:
        return
    spec = member_name(block.asked, "round", names.index(str(asked)) + 1)
    columns = _entries(taking, block.table, (*block.columns[:1], spec, *block.columns[1:]))
    yield from _table(
        taking, str(asked), columns, _filled(taking, block.table), tuple(map(say, block.write_in)), ROOM_MM
    )


def _lines(taking: Taking, block: Lines) -> dict[str, Any]:
    """Rows to be written in by hand, with a column for each member of the axis after the first heading."""
    each = dict(taking.got.ready.shape.axes).get(block.each, ())
    headings = [*map(say, block.before), *each, *map(say, block.after)]
    return {
        "sort": "rows",
        "title": say(block.title) if block.title else "",
        "headings": ["", *headings],
        "widths": [0, *(6 for _ in headings)],
        "numbers": [False] * (len(headings) + 1),
        "rows": [[str(number), *(None for _ in headings)] for number in range(1, block.count + 1)],
        "room": ROOM_MM,
    }


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
    for ref in _filled(taking, block.table):
        picture, wide = (taking.value(Place(f"{block.table}.{name}", ref)) for name in (block.picture, block.width))
        if not isinstance(picture, Picture):
            continue
        facts = [
            [taking.heading(entry), text] for address, entry in _entries(taking, block.table, block.words)
            if isinstance(text := taking.cell(Place(address, ref), entry), str)
        ]  # fmt: skip
        made: dict[str, Any] = {
            "sort": "true-size",
            "ref": taking.anchor(ref),
            "name": str(taking.value(Place(f"{block.table}.{block.name}", ref))),
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
