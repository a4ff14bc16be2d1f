"""A book with charts: over single fields, over columns, over families, shared and the brand's own."""

import re
from types import MappingProxyType
from xml.etree import ElementTree

from sheetgen.declare.a1 import letters
from sheetgen.declare.entry import computed, designer, fixed, per, place_of, vendor
from sheetgen.declare.kinds import Value, choice, money, number, percent, text, whole
from sheetgen.declare.parts import Book, Chart, Form, Section, Sheet, Table
from sheetgen.sheets import ABOUT
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.write.file import workbook_bytes

from .canary import parts_of
from .small import ready_for

STYLE = Sheet("style", "Style", parts=(
    Form("The style", (
        designer("number", "Style number", text()),
        designer("revision", "Revision", whole(least=1)),
        designer("purpose", "Purpose", choice("quote", "sample", "bulk")),
        designer("unit", "Unit", choice("cm", "mm", "in")),
        designer("currency", "Currency", choice("EUR", "USD", open=True)),
        computed("stage", "Stage", whole(), 'MATCH(purpose,{"quote","sample","bulk"},0)'),
    )),
    Table("colorways", "Colorways", ref="C", key="name", spare=0, least=1, columns=(designer("name", "Colorway", text()),)),
))  # fmt: skip

QUOTE = Sheet("quote", "Vendor's quote", parts=(
    Chart("Price by quantity", "line", series=("ladder.price",), categories="ladder.from_quantity", unit="{currency} per garment"),
    Chart("Target beside price", "bars", series=("ladder.price", "ladder.target"), categories="ladder.from_quantity",
          unit="{currency} per garment", private=True),
    Table("ladder", "Price by quantity", ref="U", key="from_quantity", spare=4, columns=(
        vendor("from_quantity", "From pieces", number(0)),
        vendor("price", "Price", money(4)),
        designer("target", "Hidden target price", money(4), private=True),
    )),
))  # fmt: skip

PARTS = ("materials", "making", "freight", "duty", "inland", "overhead", "margin")
CHANGES = (-0.1, 0.1)

PRICING = Sheet("pricing", "Pricing", private=True, parts=(
    Form("To the shop, {currency} per garment", (
        designer("materials", "Materials", money(4)),
        designer("making", "Making, overhead and profit of the factory", money(4)),
        designer("freight", "Freight and insurance", money(4)),
        designer("duty", "Duty and entry fees", money(4)),
        designer("inland", "Clearing and inland", money(4)),
        designer("overhead", "Own overhead", money(4)),
        designer("wholesale", "Wholesale price", money(2)),
        computed("landed", "Landed cost", money(4), "materials+making+freight+duty+inland"),
        computed("margin", "Margin at wholesale", money(4), "wholesale-landed-overhead"),
        per("colorway", computed("landed_in", "Landed: {colorway}", money(4), "landed*(1+mine/100)")),
    )),
    Chart("Where the money goes", "stacked bars", series=PARTS, unit="{currency} per garment", height=160,
          description="The wholesale price, part by part."),
    Chart("Side by side", "bars", series=PARTS, unit="{currency} per garment", half=True),
    Chart("Landed cost by quantity", "line", series=("ladder.price", "ladder.landed_of.all"),
          categories="ladder.from_quantity", unit="{currency} per garment", half=True),
    Chart("By colorway", "bars", series=("landed_in.all",), unit="{currency} per garment", half=True, height=160),
    Chart("If something changes", "bars", series=("swings.landed_1", "swings.landed_2"), categories="swings.what",
          unit="{currency} per garment", half=True, height=160),
    Chart("In parts", "stacked bars", series=("ladder.price", "ladder.freight_at"), categories="ladder.from_quantity",
          unit="{currency} per garment", height=260),
    Table("swings", "If something changes", ref="S", key="what", spare=0,
          rows=tuple({"what": what} for what in ("Vendor's price", "Exchange rate of the quote", "Freight")), columns=(
        fixed("what", "What changes", text(26)),
        *(Section(f"{change:+.0%}", (
            computed(f"landed_{index}", "Landed", money(4), f'landed*(1+({change})*LEN(what)/20)'),
            computed(f"margin_{index}", "Margin", percent(2, None), f"1-landed_{index}/wholesale"),
        )) for index, change in enumerate(CHANGES, 1)),
    )),
    Table("ladder", "By quantity", ref="U", key="from_quantity", mirrors="quote.ladder", columns=(
        computed("from_quantity", "From pieces", number(0),
                 'IF(N(INDEX(quote.ladder.from_quantity,MATCH(ref,quote.ladder.ref,0)))=0,"",INDEX(quote.ladder.from_quantity,MATCH(ref,quote.ladder.ref,0)))'),
        computed("price", "Vendor's price", money(4), "INDEX(quote.ladder.price,MATCH(ref,quote.ladder.ref,0))"),
        computed("freight_at", "Freight", money(4), "freight*(1+100/from_quantity)"),
        per("colorway", computed("landed_of", "Landed: {colorway}", money(4), "price+freight+duty+inland+landed_in.mine-landed")),
    )),
))  # fmt: skip

CHARTED = Book((STYLE, QUOTE, PRICING), axes=MappingProxyType({"colorway": "style.colorways"}), about=ABOUT)

_TYPED: dict[str, Value] = {
    "style.number": "AB-002", "style.revision": 1, "style.purpose": "quote", "style.unit": "cm", "style.currency": "EUR",
    "style.colorways[C1].name": "Indigo", "style.colorways[C2].name": "Stone",
    "quote.ladder[U1].from_quantity": 300, "quote.ladder[U1].price": 14.2,
    "quote.ladder[U2].from_quantity": 600, "quote.ladder[U2].price": 13.5,
    "quote.ladder[U3].from_quantity": 1200, "quote.ladder[U3].price": 12.95, "quote.ladder[U3].target": 12.345,
    "pricing.materials": 7.31, "pricing.making": 6.19, "pricing.freight": 0.62, "pricing.duty": 1.64,
    "pricing.inland": 0.25, "pricing.overhead": 1.1, "pricing.wholesale": 39,
}  # fmt: skip


TYPED: Values = {place_of(words): value for words, value in _TYPED.items()}

SPACES = {
    "c": "http://schemas.openxmlformats.org/drawingml/2006/chart",
    "a": "http://schemas.openxmlformats.org/drawingml/2006/main",
    "x": "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing",
}
TITLES = [
    "Price by quantity", "Target beside price", "Where the money goes", "Side by side", "Landed cost by quantity",
    "By colorway", "If something changes", "In parts",
]  # fmt: skip


def made(values=TYPED, audience="designer") -> bytes:
    return workbook_bytes(ready_for(values, audience, CHARTED), values, {"kind": "working"})


def drawn(data: bytes) -> dict[str, ElementTree.Element]:
    """The charts of a file by their titles."""
    roots = [ElementTree.fromstring(part) for name, part in parts_of(data).items() if name.startswith("xl/charts/")]
    return {"".join(texts(root, "c:chart/c:title//a:t")): root for root in roots}


def texts(root: ElementTree.Element, path: str) -> list[str]:
    return [node.text or "" for node in root.findall(path, SPACES)]


def values_at(root: ElementTree.Element, path: str) -> list[str]:
    return [node.get("val", "") for node in root.findall(path, SPACES)]


def anchors(data: bytes) -> list[ElementTree.Element]:
    parts = [part for name, part in parts_of(data).items() if re.match(r"xl/drawings/drawing\d+\.xml", name)]
    return [anchor for part in parts for anchor in ElementTree.fromstring(part)]


def absolute(cell: Cell) -> str:
    return f"${letters(cell.column)}${cell.row}"


def names(root: ElementTree.Element) -> list[str]:
    return texts(root, ".//c:ser/c:tx/c:v")
