"""Delivery terms (Incoterms 2020) and ways of transport.

Used for the term and place of a price and for the landed cost. Codes, names, modes and insurance duties: ICC
Incoterms 2020 (publication 723); who must insure was seen in a stored source, the rest is from memory.
"""

from typing import Final, NamedTuple


class Term(NamedTuple):
    """One term: who pays the main carriage and who must insure it ("seller", "buyer", "nobody").

    `mode` is "any" or "sea" (sea and inland waterway only). `place` says what the named place is;
    `risk_passes` says where the risk passes to the buyer, which is not always that place.
    """

    code: str
    name: str
    mode: str
    place: str
    risk_passes: str
    main_carriage: str
    must_insure: str


SOURCE: Final = "ICC, Incoterms 2020 (publication 723)"
PROVENANCE: Final = "who must insure seen in a stored source; the rest from memory"
EDITION: Final = "Incoterms 2020"
"""To be written after term and place: 'FOB (port), Incoterms 2020'."""

TERMS: Final = (
    Term("EXW", "Ex Works", "any", "seller's premises", "seller's premises", "buyer", "nobody"),
    Term("FCA", "Free Carrier", "any", "where the carrier takes over", "at the named place", "buyer", "nobody"),
    Term("CPT", "Carriage Paid To", "any", "destination", "first carrier", "seller", "nobody"),
    Term("CIP", "Carriage and Insurance Paid To", "any", "destination", "first carrier", "seller", "seller"),
    Term(
        "DAP",
        "Delivered at Place",
        "any",
        "destination, not unloaded",
        "at the named place",
        "seller",
        "nobody",
    ),
    Term(
        "DPU",
        "Delivered at Place Unloaded",
        "any",
        "destination, unloaded",
        "at the named place",
        "seller",
        "nobody",
    ),
    Term(
        "DDP",
        "Delivered Duty Paid",
        "any",
        "destination, duty paid",
        "at the named place",
        "seller",
        "nobody",
    ),
    Term("FAS", "Free Alongside Ship", "sea", "port of shipment", "alongside the vessel", "buyer", "nobody"),
    Term("FOB", "Free On Board", "sea", "port of shipment", "on board the vessel", "buyer", "nobody"),
    Term("CFR", "Cost and Freight", "sea", "port of destination", "on board the vessel", "seller", "nobody"),
    Term(
        "CIF",
        "Cost, Insurance and Freight",
        "sea",
        "port of destination",
        "on board the vessel",
        "seller",
        "seller",
    ),
)
"""All eleven terms. Cover: CIP Institute Cargo Clauses (A), CIF Clauses (C). Nobody: no duty, but someone
should."""

TERM_CHOICES: Final = tuple(f"{term.code} {term.name}" for term in TERMS)
"""What a drop-down offers: 'FOB Free On Board'."""
OLD_TERMS: Final = {"DAT": "DPU", "C&F": "CFR", "CNF": "CFR"}
"""Words still met on quotations and the term that took their place; C&F and CNF: common practice."""
TRANSPORT: Final = ("sea", "air", "road", "rail", "courier")
"""Ways of main transport a drop-down offers."""


def term(text: str) -> Term | None:
    """The term of a code ('FOB'), a choice or an old word ('C&F'), in any case; None if unknown."""
    words = text.split()
    code = words[0].upper() if words else ""
    code = OLD_TERMS.get(code, code)
    return next((row for row in TERMS if row.code == code), None)


def suits(code: str, transport: str) -> bool:
    """Whether a term may be used with a way of transport; FAS, FOB, CFR and CIF need a vessel.

    A container handed over at a terminal also calls for FCA, CPT or CIP; that cannot be told from these two.
    Raises ValueError for an unknown term or way of transport.
    """
    found = term(code)
    if found is None or transport not in TRANSPORT:
        raise ValueError(f"unknown term or transport: {code!r}, {transport!r}")
    return found.mode in ("any", transport)
