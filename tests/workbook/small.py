"""A book of four small sheets: every kind, a family, a mirror, a fixed table, and something of the brand's own."""

import datetime
from pathlib import Path
from types import MappingProxyType

from sheetgen.declare.entry import Place, computed, designer, fixed, per, vendor
from sheetgen.declare.kinds import (
    Value,
    choice,
    color,
    date,
    length,
    money,
    number,
    percent,
    pick,
    picture,
    text,
    whole,
)
from sheetgen.declare.parts import Book, Check, Form, Ledger, Line, Pictures, Section, Sheet, Table, Words
from sheetgen.sheets import ABOUT
from sheetgen.workbook.model.values import Ready, Values, ready, shape_of
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.write.file import workbook_bytes

STYLE = Sheet("style", "Style", purpose="What it is.", parts=(
    Form("The style", (
        designer("number", "Style number", text(), need="quote"),
        designer("name", "Name", text()),
        designer("company", "Company", text()),
        designer("revision", "Revision", whole(least=1)),
        designer("purpose", "Purpose", choice("quote", "sample", "bulk")),
        designer("vendor", "Vendor", text()),
        designer("due", "Answer due", date()),
        designer("unit", "Unit", choice("cm", "mm", "in")),
        designer("currency", "Currency", choice("EUR", "USD", open=True)),
        designer("secret", "Hidden remark", text(), private=True),
        designer("description", "Description", text(60)),
        computed("stage", "Stage", whole(), 'MATCH(purpose,{"quote","sample","bulk"},0)'),
    )),
    Table("sizes", "Sizes", ref="Z", key="name", spare=0, least=1, columns=(designer("name", "Size", text()),)),
    Pictures("Views", (designer("front", "Front", picture()), designer("back", "Back", picture()))),
    Words("How", ("Fill what is marked.", "Send it back.")),
))  # fmt: skip

GOODS = Sheet("goods", "Bought goods", parts=(
    Form("In short, {currency}", (
        computed("total", "All lines", money(4), "SUM(lines.cost)"),
        vendor("remark", "Remark", text(60)),
        vendor("sent", "Sent on", date()),
    )),
    Table("lines", "Lines", ref="M", key="item", spare=2, columns=(
        designer("item", "Item", text(26), need="quote"),
        designer("net", "Net use", number(4, 0)),
        designer("waste", "Waste", percent(1, 0, 0.5)),
        designer("tint", "Tint", color()),
        vendor("price", "Price", money(4), need="quote"),
        vendor("currency", "Paid in", pick("scale.grades.grade")),
        computed("cost", "Cost", money(4), "ROUND(net*(1+waste)*price,4)"),
        designer("target", "Hidden target", money(4), private=True),
        designer("photo", "Photo", picture(12)),
        Section("Widths, {unit}", (per("size", designer("width", "Width {size}", length())),)),
    )),
    Table("answers", "Answers", ref="M", key="what", mirrors="goods.lines", columns=(
        computed("what", "About", text(), 'IFERROR(INDEX(lines.item,MATCH(ref,lines.ref,0))&"","")'),
        vendor("says", "Answer", text()),
    )),
), checks=(Check("no_price", "No price", "COUNT(goods.lines.cost)"),))  # fmt: skip

SCALE = Sheet("scale", "Scale", parts=(
    Table("grades", "Grades", ref="G", key="grade", rows=({"grade": "A", "points": 1}, {"grade": "B", "points": 4}), columns=(
        fixed("grade", "Grade", text()), fixed("points", "Points", whole()), vendor("found", "Found", whole(least=0)),
    )),
    Ledger("Counts", ("What", "Count"), (30, 9), (
        Line(("Lines",), (computed("lines_count", "Lines", whole(), 'SUMPRODUCT((goods.lines.item<>"")*1)'),), link="goods"),
    ), mark_open="Count"),
))  # fmt: skip

OWN = Sheet("own", "Own figures", private=True, parts=(
    Form("Own", (
        designer("margin", "Hidden margin", percent(1, 0, 0.99)),
        computed("wholesale", "Hidden wholesale", money(4), "goods.total/(1-margin)"),
        designer("note", "Hidden note", text()),
    )),
    Table("plan", "Hidden plan", ref="U", key="step", columns=(designer("step", "Hidden step", text()), designer("by", "Hidden by", date()))),
))  # fmt: skip

SMALL = Book((STYLE, GOODS, SCALE, OWN), axes=MappingProxyType({"size": "style.sizes"}), about=ABOUT)

FILLED: Values = {
    Place("style.number"): "AB-001",
    Place("style.revision"): 2,
    Place("style.purpose"): "quote",
    Place("style.vendor"): "Vendor One",
    Place("style.due"): datetime.date(2026, 12, 1),
    Place("style.unit"): "cm",
    Place("style.currency"): "EUR",
    Place("style.secret"): "told nobody",
    Place("style.sizes.name", "Z1"): "S",
    Place("style.sizes.name", "Z2"): "M",
    Place("goods.lines.item", "M1"): "Twill",
    Place("goods.lines.net", "M1"): 1.5,
    Place("goods.lines.waste", "M1"): 0.1,
    Place("goods.lines.tint", "M1"): "#204060",
    Place("goods.lines.price", "M1"): 4,
    Place("goods.lines.target", "M1"): 3.5,
    Place("goods.lines.width_z1", "M1"): 140,
    Place("goods.lines.width_z2", "M1"): 142.5,
    Place("goods.lines.item", "M2"): "Button",
    Place("goods.lines.net", "M2"): 6,
    Place("own.margin"): 0.5,
    Place("own.plan.step", "U1"): "negotiate",
}


def ready_for(values: Values, audience: str = "designer", book: Book = SMALL) -> Ready:
    return ready(book, shape_of(book, values, audience))


def built(values: Values, path: Path, book: Book = SMALL) -> Path:
    """The working file of these values."""
    path.write_bytes(workbook_bytes(ready_for(values, book=book), values, {"kind": "working"}))
    return path


def typed_by_people(got: Returned) -> dict[Place, Value]:
    """What was read of entries that people fill, without the drawings on which the program draws."""
    entries = got.ready.book.entries
    return {
        place: value for place, value in got.typed.items()
        if entries[place.entry].entry.who in {"designer", "vendor"} and not entries[place.entry].entry.original
    }  # fmt: skip


def round_trip(values: Values, path: Path, book: Book = SMALL) -> dict[Place, Value]:
    return typed_by_people(read(book, built(values, path, book)))
