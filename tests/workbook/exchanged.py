"""A small book with every sort of cell that goes to a vendor and back, and its three versions: working, sent, returned.

The versions are read once from real files; a case then says what stands in single places of each of them.
"""

from __future__ import annotations

import datetime
from collections.abc import Collection, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType

from sheetgen.declare.entry import Place, computed, designer, fixed, place_of, vendor
from sheetgen.declare.kinds import PictureMark, Value, length, money, number, picture, text, whole
from sheetgen.declare.parts import Book, Form, Pictures, Sheet, Table
from sheetgen.sheets import ABOUT
from sheetgen.workbook.exchange.accept import Acceptance, Wish, merge
from sheetgen.workbook.exchange.issue import issue
from sheetgen.workbook.exchange.receipts import Receipt
from sheetgen.workbook.model.values import Values, ready, shape_of
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.write.file import workbook_bytes
from tests.workbook.small import STYLE

GOODS = Sheet("goods", "Bought goods", parts=(
    Form("In short", (
        vendor("remark", "Remark", text(60)),
        vendor("reach", "Reach", length()),
        designer("wide", "Wide", length()),
        designer("made_of", "Made of", text()),
        computed("total", "All lines", money(4), "SUM(lines.cost)"),
        designer("margin", "Margin", number(2), private=True),
    )),
    Table("lines", "Lines", ref="M", key="item", spare=2, columns=(
        designer("item", "Item", text(26)),
        designer("net", "Net use", length()),
        vendor("price", "Price", money(4)),
        vendor("colour", "Colour", text()),
        computed("cost", "Cost", money(4), "net*price"),
        computed("spec", "Spec", length(), 'IF(fix="",net*2,fix)', keeps="fix"),
        designer("fix", "Fix", length()),
    )),
    Table("answers", "Answers", ref="M", key="what", mirrors="goods.lines", columns=(
        computed("what", "About", text(), 'IFERROR(INDEX(lines.item,MATCH(ref,lines.ref,0))&"","")'),
        vendor("says", "Answer", text()),
    )),
    Table("steps", "Price steps", ref="U", key="quantity", spare=2, columns=(
        vendor("quantity", "From", whole(least=1)), vendor("price", "Price", money(4)),
    )),
    Table("grades", "Grades", ref="G", key="grade", rows=({"grade": "A"}, {"grade": "B"}), columns=(
        fixed("grade", "Grade", text()), vendor("found", "Found", whole(least=0)),
    )),
    Pictures("Photos", (vendor("photo", "Photo", picture()), designer("sketch", "Sketch", picture()))),
))  # fmt: skip

BOOK = Book((STYLE, GOODS), axes=MappingProxyType({"size": "style.sizes"}), about=ABOUT)
FILLED: Values = {
    Place("style.number"): "AB-001",
    Place("style.unit"): "in",
    Place("style.sizes.name", "Z1"): "M",
    Place("goods.made_of"): "wool",
    Place("goods.margin"): 0.5,
    Place("goods.lines.item", "M1"): "Twill",
    Place("goods.lines.net", "M1"): 1.5,
    Place("goods.lines.item", "M2"): "Button",
}
DAY = datetime.date(2026, 11, 20)


@cache
def versions() -> tuple[Returned, Receipt, Returned]:
    """The working file, what was sent, and the vendor's copy as it was sent."""
    working = workbook_bytes(ready(BOOK, shape_of(BOOK, FILLED)), FILLED, {"kind": "working"})
    sent = issue(BOOK, FILLED, {}, DAY)
    with TemporaryDirectory() as folder:
        paths = [Path(folder, name) for name in ("working.xlsx", "issued.xlsx")]
        for path, data in zip(paths, (working, sent.data), strict=True):
            path.write_bytes(data)
        return read(BOOK, paths[0]), sent.receipt, read(BOOK, paths[1])


def with_typed(found: Returned, values: Mapping[str, Value]) -> Returned:
    """A file that was read, with other things in some places; None for nothing."""
    typed = dict(found.typed)
    for text_, value in values.items():
        typed.pop(place_of(text_), None)
        if value is not None:
            typed[place_of(text_)] = value
    return replace(found, typed=typed)


def merged(
    place: str,
    *,
    sent: Value | PictureMark = None,
    now: Value = None,
    came: Value = None,
    to_fix: Mapping[Place, str] = MappingProxyType({}),
    take: Collection[str] = (),
) -> Acceptance:
    """What accepting makes of one place: what was sent there, what the working file has now, what came back."""
    working, receipt, returned = versions()
    values = {where: value for where, value in receipt.values.items() if where != place_of(place)}
    if sent is not None:
        values[place_of(place)] = sent
    return merge(
        with_typed(working, {place: now}), replace(receipt, values=values), with_typed(returned, {place: came}), to_fix,
        Wish(tuple(take)),
    )  # fmt: skip
