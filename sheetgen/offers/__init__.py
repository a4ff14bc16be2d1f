"""Several vendors' returns of one style side by side: one workbook for the brand, with live formulas."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from pathlib import Path

from sheetgen.audit.run import Audit
from sheetgen.declare.entry import Place
from sheetgen.declare.families import member_name
from sheetgen.declare.judgment import USUAL, Limits
from sheetgen.declare.kinds import Value
from sheetgen.offers.fill import filled
from sheetgen.offers.gather import gather
from sheetgen.offers.sheets import OFFERS_BOOK
from sheetgen.offers.sheets.carry import AXIS
from sheetgen.workbook.model.values import Values, fixed_values, ready, shape_of
from sheetgen.workbook.write.file import finished

__all__ = ["OFFERS_BOOK", "Compared", "compare_offers"]


@dataclass(frozen=True)
class Compared:
    """The comparison: who was compared, the finished workbook, and what it shows."""

    vendors: tuple[str, ...]
    data: bytes
    values: Values
    shown: Values

    def of(self, entry: str, vendor: str) -> Value:
        """What a family (`offers.total`) holds or shows for a vendor."""
        place = Place(member_name(entry, AXIS, self.vendors.index(vendor) + 1))
        return self.shown.get(place, self.values.get(place))

    def text(self, address: str) -> str:
        """What a field (`offers.cheapest`) holds or shows, as text; empty if it is blank."""
        value = self.shown.get(Place(address), self.values.get(Place(address)))
        return "" if value is None else str(value)

    def number(self, address: str) -> float | None:
        """A field's number; None if it is blank."""
        value = self.shown.get(Place(address), self.values.get(Place(address)))
        return float(value) if isinstance(value, int | float) else None


def compare_offers(
    working: Path, returned: Sequence[Path], audited: Collection[Audit] = (), limits: Limits = USUAL
) -> Compared:
    """Compare the returns of a style; those `audited` already are not read again, the others are judged by the `limits`.

    UserError in one sentence if the files do not fit together.
    """
    gathered = gather(working, returned, audited, limits)
    values = filled(gathered)
    book = ready(OFFERS_BOOK, shape_of(OFFERS_BOOK, values))
    made = finished(book, values, {"kind": "offers", "book": OFFERS_BOOK.name})
    full = {**values, **fixed_values(book)}
    return Compared(tuple(offer.vendor for offer in gathered.offers), made.data, full, made.shown)
