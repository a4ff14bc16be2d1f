"""Delivery terms (Incoterms 2020).

Used for the term of a price and by the checks of its transport. Codes, names, modes and insurance duties: ICC
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
