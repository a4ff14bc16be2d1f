"""Delivery terms (Incoterms 2020).

Used for the term of a price and by the checks of its transport. Codes, names, modes and insurance duties: ICC
Incoterms 2020 (publication 723); who must insure was seen in a stored source, the rest is from memory.
"""

from typing import Final, NamedTuple


class Term(NamedTuple):
    """One term: who pays the main carriage and who must insure it ("seller", "buyer", "nobody").

    `mode` is "any" or "sea" (sea and inland waterway only).
    """

    code: str
    name: str
    mode: str
    main_carriage: str
    must_insure: str


TERMS: Final = (
    Term("EXW", "Ex Works", "any", "buyer", "nobody"),
    Term("FCA", "Free Carrier", "any", "buyer", "nobody"),
    Term("CPT", "Carriage Paid To", "any", "seller", "nobody"),
    Term("CIP", "Carriage and Insurance Paid To", "any", "seller", "seller"),
    Term("DAP", "Delivered at Place", "any", "seller", "nobody"),
    Term("DPU", "Delivered at Place Unloaded", "any", "seller", "nobody"),
    Term("DDP", "Delivered Duty Paid", "any", "seller", "nobody"),
    Term("FAS", "Free Alongside Ship", "sea", "buyer", "nobody"),
    Term("FOB", "Free On Board", "sea", "buyer", "nobody"),
    Term("CFR", "Cost and Freight", "sea", "seller", "nobody"),
    Term("CIF", "Cost, Insurance and Freight", "sea", "seller", "seller"),
)
"""All eleven terms. Cover: CIP Institute Cargo Clauses (A), CIF Clauses (C). Nobody: no duty, but someone
should."""
