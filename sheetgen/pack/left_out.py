"""What people fill in and no page shows, with the reason: whole sheets, tables, columns and fields, by their addresses.

What is worked out is not listed: pages name what a factory reads of it, and the rest follows from what stands there. Nor is
what no table means for paper.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from sheetgen.declare.entry import Entry
from sheetgen.texts import marked

_SEAMS, _BOUGHT = marked("how thread is counted"), marked("how much is bought, and for what")
_FABRIC = marked("how the use of fabric is counted; the use stands in Materials")
_CAUTIONS = marked("the cautions that follow from it are printed")
_IN_SPEC, _ANSWERED = (
    marked("the size that comes of it stands in the table"),
    marked("answered in the file, or on its form"),
)

LEFT_OUT: Final[Mapping[str, str]] = {
    "approvals.items.blocks": marked("whether bulk waits for it: Checks says so in the file"),
    "artwork.pieces.colors_count": marked("the colors stand by name"),
    "artwork.pieces.due": marked("strike-offs are dated in Approvals"),
    "colorways.components.system": marked("which system a reference is of; lab dips are compared in L*a*b*"),
    "construction.callouts.drawing": marked("it says on which page the callout stands"),
    "construction.callouts.extra": _SEAMS,
    "construction.callouts.from_point": _SEAMS,
    "construction.callouts.times": _SEAMS,
    "fit.round_now": marked("the form carries its name"),
    "fit.rounds": marked("the dates of rounds: what is asked stands on the first page"),
    "labels.bleach": marked("the care label's text says it"),
    "labels.care_extra": marked("the care label's text says it"),
    "labels.composition.fiber": marked("the label's text says it"),
    "labels.composition.share": marked("the label's text says it"),
    "labels.dry": marked("the care label's text says it"),
    "labels.iron": marked("the care label's text says it"),
    "labels.professional": marked("the care label's text says it"),
    "labels.wash": marked("the care label's text says it"),
    "materials.bom.by_size": _BOUGHT,
    "materials.bom.group": marked("it says in which order materials stand"),
    "materials.bom.net": marked("the use, with what Yield and Thread work out, stands beside"),
    "materials.bom.price": _ANSWERED,
    "materials.bom.size_point": _BOUGHT,
    "materials.bom.sourcing": marked("who buys it: answered in the file"),
    "materials.bom.waste": _BOUGHT,
    "materials.bom.weight_within": marked("how far a weight may be off: judged in the file"),
    "materials.rates": marked("what a currency was worth"),
    "measurements.garment": marked("the drawing shows it"),
    "measurements.points.base": _IN_SPEC,
    "measurements.points.direction": _IN_SPEC,
    "measurements.points.over": _IN_SPEC,
    "measurements.points.step": _IN_SPEC,
    "order.buy": _BOUGHT,
    "order.calendar.before": marked("the day that comes of it stands beside"),
    "order.sizes.pieces": marked("the pieces that come of it stand beside"),
    "order.sizes.ratio": marked("the pieces that come of it stand beside"),
    "order.surplus_owner": _BOUGHT,
    "quality.cords.age_from": marked("for whom the garment is stands on the first page"),
    "questions": _ANSWERED,
    "quote": _ANSWERED,
    "style.accent": marked("the pages have this color"),
    "style.height_to": marked("for whom the garment is stands on the first page"),
    "style.market_eu": _CAUTIONS,
    "style.market_uk": _CAUTIONS,
    "style.market_us": _CAUTIONS,
    "style.nightwear": _CAUTIONS,
    "style.outerwear": _CAUTIONS,
    "style.paper": marked("the pages are of this size"),
    "style.purpose": marked("each page has it at its foot"),
    "style.sizes": marked("sizes stand over the table of measurements"),
    "style.thread_waste": _SEAMS,
    "yield.fabrics.material": marked("its name stands there"),
    "yield.pieces": _FABRIC,
}
"""Address of a sheet, a table, a column, a family or a field -> why it stands on no page."""


def declared(address: str, entry: Entry) -> str:
    """The address under which an entry is declared as left out: its own, its family's, its table's or its sheet's; or ""."""
    table, _, name = address.rpartition(".")
    family = f"{table}.{entry.family or name}"
    numbered = family.rstrip("0123456789").rstrip("_")
    return next((one for one in (family, numbered, table, address.partition(".")[0]) if one in LEFT_OUT), "")
