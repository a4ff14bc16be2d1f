"""Carrying over: what the style's sheets declare once, once for each vendor.

An entry keeps its kind and its formula; only the names in the formula become those of this book, one for each vendor.
So no figure here is worked out by a second copy of a formula.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sheetgen.declare.entry import Entry, Who, per
from sheetgen.declare.formula import resolve
from sheetgen.declare.kinds import Kind
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.tokens import tokens
from sheetgen.sheets import BOOK

AXIS = "vendor"
SHARED: Mapping[str, str] = {
    "style.currency": "offers.currency",
    "order.pieces": "offers.pieces",
    "quote.planned": "offers.pieces",
    "materials.rates.code": "offers.rates.code",
    "materials.rates.rate": "offers.rates.rate",
    "materials.rates.on": "offers.rates.on",
    "materials.bom.gross": "lines.bom.gross",
    "materials.bom.instead_of": "lines.bom.instead_of",
}
"""Entries of the style's book that are the same for all vendors, and where they stand in this one."""

_QUOTED = (
    "exchange", "rate_on", "fob", "valid_until", "tier", "at_order", "price", "term", "place", "payment", "minimum_style",
    "minimum_colorway", "surcharge", "lead_time", "sample_price", "development", "tooling", "tooling_for", "one_off", "remark",
)  # fmt: skip
_MADE = (
    "sew_minutes", "cut_minutes", "finish_minutes", "rate", "efficiency", "sew_cost", "cut_cost", "finish_cost", "make_cost",
    "materials_cost", "process_cost", "testing_cost", "packing_cost", "commercial_cost", "direct", "overhead", "profit",
    "overhead_cost", "profit_cost", "worked_out", "unexplained",
)  # fmt: skip
_LANDED = (
    "fob", "insured", "insurance", "insurance_cost", "cif", "duty_base", "duty", "other_duty", "duty_value", "duty_cost",
    "fees", "fee_share", "fee_least", "fee_most", "fee_shipment", "fees_each", "inland", "landed", "order_cost",
)  # fmt: skip
OF_VENDOR: Mapping[str, str] = {
    "style.origin": "offers.origin",
    "quote.currency": "offers.quoted_in",
    **{f"quote.{name}": f"offers.{name}" for name in _QUOTED},
    **{f"quote.{name}": f"making.{name}" for name in _MADE},
    **{f"quote.ladder.{name}": f"quantity.ladder.{name}" for name in ("from_quantity", "price")},
    **{
        f"materials.bom.{name}": f"lines.bom.{name}"
        for name in ("price", "currency", "rate", "price_here", "cost", "counted")
    },
    "materials.cost": "offers.materials",
    **{f"pricing.{name}": f"landed.{name}" for name in _LANDED},
    "pricing.freight_each": "landed.freight",
}
"""Entries of the style's book that differ by vendor, and the family that holds them here."""

_CURRENCIES = "materials.rates.code"


def carried(address: str, instead: Mapping[str, str] | None = None, *, inside: str = "") -> str:
    """The declared formula of an entry in the names of this book; `instead` gives other words for some addresses.

    What stands on the sheet `inside` is named without it. DeclarationError if the formula reads something that this
    book does not hold.
    """
    return "".join(
        _here(address, token.text, instead or {}, inside) if token.sort == "name" else token.text
        for token in tokens(BOOK.entries[address].entry.formula)
    )


def _here(address: str, name: str, instead: Mapping[str, str], inside: str = "") -> str:
    """A name in an entry's formula as this book says it."""
    sheet, table, _ = BOOK.entries[address]
    reference = resolve(BOOK, sheet, table, name)
    word = instead.get(reference.address) or _home(reference.address)
    if reference.sort == "row":
        return word.split(".", 2)[2]
    return word.removeprefix(f"{inside}.") if inside else word


def _home(address: str) -> str:
    if address in SHARED:
        return SHARED[address]
    if address in OF_VENDOR:
        return f"{OF_VENDOR[address]}.mine"
    raise DeclarationError(f"{address} is not carried over into the comparison of offers")


def _copy(address: str, who: Who, formula: str = "", kind: Kind | None = None) -> Entry:
    entry = BOOK.entries[address].entry
    own = kind or entry.kind
    if own.source:
        own = replace(own, source=SHARED[_CURRENCIES]) if own.source == _CURRENCIES else replace(own, source="")
    name = (OF_VENDOR.get(address) or SHARED[address]).rpartition(".")[2]
    return replace(
        entry, name=name, who=who, kind=own, formula=formula, need="", private=False, unless="", width=0,
        help=entry.help if who == "designer" else "",
        may_be_blank=tuple(_here(address, name, {}) for name in entry.may_be_blank) if formula else (),
    )  # fmt: skip


def answer(address: str, *, kind: Kind | None = None, lowest: bool = False) -> Entry:
    """What each vendor answered."""
    return per(AXIS, _copy(address, "vendor", kind=kind), lowest=lowest)


def given(address: str, *, kind: Kind | None = None) -> Entry:
    """What the brand says, for each vendor on its own: it begins as in the working workbook and may be changed."""
    return per(AXIS, _copy(address, "designer", kind=kind))


def worked(address: str, *, kind: Kind | None = None, lowest: bool = False) -> Entry:
    """What the declared formula gives for each vendor."""
    formula = carried(address, inside=OF_VENDOR[address].partition(".")[0])
    return per(AXIS, _copy(address, "computed", formula, kind), lowest=lowest)


def heading(address: str) -> str:
    """The words that the entry has in the style's workbook."""
    return BOOK.entries[address].entry.heading
