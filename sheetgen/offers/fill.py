"""Filling: what of the style and of its offers stands in which place of the comparison."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit import RULES
from sheetgen.audit.rule import Finding
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.families import member_name
from sheetgen.declare.kinds import Value
from sheetgen.offers.gather import Gathered, Offer
from sheetgen.offers.sheets import OFFERS_BOOK
from sheetgen.offers.sheets.carry import AXIS, OF_VENDOR, SHARED
from sheetgen.sheets import BOOK
from sheetgen.texts import marked, say
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.model.values import Values, refs

_ON_PAPER = ("number", "name", "revision", "company", "paper", "unit", "currency", "fractions")
"""Of the style: what headers, footers and headings say."""
_FOOTER = marked("Brand only: vendors' prices and landed cost. Send it to nobody.")
_AS_ASKED = ("term", "place", "payment")
"""Terms that hold as on the Style sheet where the vendor wrote nothing."""
_MISSING = frozenset({"entry-missing", "placeholder"})
_CHANGED = frozenset({
    "locked-value-changed", "formula-replaced", "formula-altered", "row-added", "row-gone", "row-doubled", "column-gone",
    "sheet-gone", "sheet-added", "sheet-hidden", "stray-text",
})  # fmt: skip
_BOM, _LADDER = "materials.bom", "quote.ladder"


def filled(gathered: Gathered) -> Values:
    """All values of the comparison's workbook."""
    values: Values = {Place(f"style.{name}"): gathered.values.get(Place(f"style.{name}")) for name in _ON_PAPER}
    values[Place("style.footer")] = say(_FOOTER)
    for number, offer in enumerate(gathered.offers, 1):
        values[Place("picture.vendors.name", f"V{number}")] = offer.vendor
    values |= dict(_of_style(gathered))
    for number, offer in enumerate(gathered.offers, 1):
        values |= dict(_of_offer(gathered, offer, number))
    values |= dict(_materials(gathered)) | dict(_uses(gathered)) | dict(_steps(gathered))
    values |= dict(_missing(gathered)) | dict(_findings(gathered))
    return {place: value for place, value in values.items() if value not in (None, "")}


def _of_style(gathered: Gathered) -> Iterator[tuple[Place, Value]]:
    own, shown = gathered.values, gathered.offers[0].shown
    for name in ("number", "name", "revision"):
        yield Place(f"offers.{name}"), own.get(Place(f"style.{name}"))
    yield Place("offers.currency"), own.get(Place("style.currency")) or "EUR"
    pieces = shown.get(Place("order.pieces"))
    yield Place("offers.pieces"), pieces or None
    in_colors = [value for place, value in shown.items() if place.entry.startswith("order.pieces_in_")]
    some = [value for value in in_colors if isinstance(value, int | float) and value > 0]
    yield Place("offers.smallest"), min(some, default=None)
    for name in ("code", "rate", "on", "from_where"):
        for row in refs("materials.rates", own):
            yield Place(f"offers.rates.{name}", row), own.get(Place(f"materials.rates.{name}", row))


def _of_offer(gathered: Gathered, offer: Offer, number: int) -> Iterator[tuple[Place, Value]]:
    """What the vendor answers, and the brand's own figures for the way to the warehouse, in the vendor's column."""
    own, home = gathered.values, OFFERS_BOOK.entries
    for address, family in OF_VENDOR.items():
        if BOOK.entries[address].table is not None or home[family].entry.who not in {"designer", "vendor"}:
            continue
        source = offer.answers if home[family].entry.who == "vendor" else own
        yield Place(member_name(family, AXIS, number)), source.get(Place(address))
    yield Place(member_name("landed.freight", AXIS, number)), offer.shown.get(Place("pricing.freight_each"))
    for name in _AS_ASKED:
        if not offer.answers.get(Place(f"quote.{name}")) and (asked := own.get(Place(f"style.{name}"))):
            yield Place(member_name(f"offers.{name}", AXIS, number)), say("{asked} (as asked)", asked=asked)
    if not offer.answers.get(Place("quote.currency")):
        yield Place(member_name("offers.quoted_in", AXIS, number)), own.get(Place("style.currency")) or "EUR"
    yield Place(member_name("offers.issued_for", AXIS, number)), offer.audit.purpose
    yield Place(member_name("offers.file", AXIS, number)), offer.audit.file.name
    for name, level in (("fixes", "fix"), ("queries", "query"), ("notes", "note")):
        count = sum(finding.level == level for finding in offer.audit.findings)
        yield Place(member_name(f"offers.{name}", AXIS, number)), count
    yield from _in_rows(offer, number)


def _in_rows(offer: Offer, number: int) -> Iterator[tuple[Place, Value]]:
    """The vendor's prices line by line and by quantity; steps are counted anew, from the smallest quantity on."""
    for address in ("materials.bom.price", "materials.bom.currency"):
        family = member_name(OF_VENDOR[address], AXIS, number)
        yield from (
            (Place(family, place.row), value) for place, value in offer.answers.items() if place.entry == address
        )
    for step, (quantity, price) in enumerate(_ladder(offer), 1):
        yield Place(member_name("quantity.ladder.from_quantity", AXIS, number), f"U{step}"), quantity
        yield Place(member_name("quantity.ladder.price", AXIS, number), f"U{step}"), price


def _ladder(offer: Offer) -> list[tuple[float, Value]]:
    steps = []
    for row in refs(_LADDER, offer.answers):
        quantity = offer.answers.get(Place(f"{_LADDER}.from_quantity", row))
        if isinstance(quantity, int | float):
            steps.append((quantity, offer.answers.get(Place(f"{_LADDER}.price", row))))
    return sorted(steps, key=lambda step: step[0])


def _materials(gathered: Gathered) -> Iterator[tuple[Place, Value]]:
    own, shown = gathered.values, gathered.offers[0].shown
    for row in refs(_BOM, own):
        item, instead = own.get(Place(f"{_BOM}.item", row)), own.get(Place(f"{_BOM}.instead_of", row))
        if item in (None, ""):
            continue
        yield (
            Place("lines.bom.item", row),
            say("{item} (alternative to {instead})", item=item, instead=instead) if instead else item,
        )
        yield Place("lines.bom.unit", row), own.get(Place(f"{_BOM}.unit", row))
        yield Place(SHARED[f"{_BOM}.gross"], row), shown.get(Place(f"{_BOM}.gross", row))
        yield Place(SHARED[f"{_BOM}.instead_of"], row), instead


def _uses(gathered: Gathered) -> Iterator[tuple[Place, Value]]:
    """What the vendors state that they use of a fabric, with waste, beside what the brand counts with."""
    own, count = gathered.values, 0
    for row in refs("yield.fabrics", own):
        material = str(own.get(Place("yield.fabrics.material", row)) or "")
        stated = [_stated(gathered, offer, row, material) for offer in gathered.offers]
        if not any(stated):
            continue
        count += 1
        ref = f"W{count}"
        yield Place("lines.uses.fabric", ref), f"{material} {own.get(Place(f'{_BOM}.item', material)) or ''}".strip()
        yield Place("lines.uses.unit_of_use", ref), own.get(Place(f"{_BOM}.unit", material))
        yield Place("lines.uses.counted_use", ref), gathered.offers[0].shown.get(Place(f"{_BOM}.gross", material))
        for number, use in enumerate(stated, 1):
            yield Place(member_name("lines.uses.stated", AXIS, number), ref), use


def _stated(gathered: Gathered, offer: Offer, row: str, material: str) -> float | None:
    gross, net = (offer.answers.get(Place(f"yield.fabrics.stated_{name}", row)) for name in ("gross", "net"))
    waste = gathered.values.get(Place(f"{_BOM}.waste", material))
    if isinstance(gross, int | float):
        return gross
    return net * (1 + (waste if isinstance(waste, int | float) else 0)) if isinstance(net, int | float) else None


def _steps(gathered: Gathered) -> Iterator[tuple[Place, Value]]:
    ladders = [_ladder(offer) for offer in gathered.offers]
    for step in range(1, max(map(len, ladders), default=0) + 1):
        yield Place("quantity.ladder.number", f"U{step}"), step
    pieces = gathered.offers[0].shown.get(Place("order.pieces"))
    quantities = {quantity for ladder in ladders for quantity, _ in ladder}
    if isinstance(pieces, int | float) and pieces > 0:
        quantities.add(pieces)
    for number, quantity in enumerate(sorted(quantities), 1):
        yield Place("quantity.breaks.quantity", f"Q{number}"), quantity


def _missing(gathered: Gathered) -> Iterator[tuple[Place, Value]]:
    states = [_open(offer) for offer in gathered.offers]
    places = dict.fromkeys(place for state in states for place in state)
    for row, place in enumerate(_in_book_order(places), 1):
        first = next(offer for offer, state in zip(gathered.offers, states, strict=True) if place in state)
        finding = next(one for one in first.audit.findings if one.place and place_of(one.place) == place)
        ref = f"N{row}"
        yield Place("missing.items.entry", ref), finding.column
        yield Place("missing.items.row", ref), _line(gathered, place)
        yield Place("missing.items.sheet", ref), finding.sheet
        yield Place("missing.items.cell", ref), finding.cell
        for number, state in enumerate(states, 1):
            yield Place(member_name("missing.items.state", AXIS, number), ref), state.get(place, "given")


def _open(offer: Offer) -> dict[Place, str]:
    """What is missing in a return, and what was filled with something that cannot be used."""
    found: dict[Place, str] = {}
    for finding in offer.audit.findings:
        if not finding.place:
            continue
        place = place_of(finding.place)
        if finding.rule in _MISSING:
            found[place] = (
                "missing" if finding.rule == "entry-missing" else say("says only {found}", found=finding.found)
            )
        elif place in offer.unusable:
            found[place] = say("not usable: {shown_text}", shown_text=shown_text(offer.unusable[place]))
    return found


def _in_book_order(places: dict[Place, None]) -> list[Place]:
    order = {address: number for number, address in enumerate(BOOK.entries)}
    return sorted(places, key=lambda place: (order.get(place.entry, len(order)), int(place.row[1:] or 0)))


def _line(gathered: Gathered, place: Place) -> str:
    """A row in words: its ref and what its key holds."""
    table = place.entry.rpartition(".")[0]
    if not place.row or table not in BOOK.tables:
        return ""
    key = gathered.values.get(Place(f"{table}.{BOOK.tables[table][1].key}", place.row))
    return f"{place.row} {key or ''}".strip()


def _findings(gathered: Gathered) -> Iterator[tuple[Place, Value]]:
    changed = others = 0
    for offer in gathered.offers:
        open_ = _open(offer)
        for finding in offer.audit.findings:
            if finding.rule in _CHANGED:
                changed += 1
                yield from _as_row("changed.items", f"G{changed}", _CHANGED_COLUMNS, gathered, offer, finding)
            elif not finding.place or place_of(finding.place) not in open_:
                others += 1
                yield from _as_row("changed.findings", f"F{others}", _OTHER_COLUMNS, gathered, offer, finding)


_CHANGED_COLUMNS = ("who", "what", "line", "entry", "cell", "sent", "came")
_OTHER_COLUMNS = ("who_else", "rule", "about", "heading", "at", "expected", "found")
_TITLES = {rule.name: rule.title for rule in RULES}


def _as_row(
    table: str, ref: str, columns: tuple[str, ...], gathered: Gathered, offer: Offer, finding: Finding
) -> Iterator[tuple[Place, Value]]:
    line = _line(gathered, place_of(finding.place)) if finding.place else ""
    at = f"{finding.sheet} {finding.cell}".strip()
    words = (offer.vendor, _TITLES[finding.rule], line, finding.column, at, finding.expected, finding.found)
    yield from ((Place(f"{table}.{column}", ref), word) for column, word in zip(columns, words, strict=True))
