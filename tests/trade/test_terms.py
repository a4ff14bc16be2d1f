"""Delivery terms say who carries, who insures, and whether they need a vessel."""

from sheetgen.trade.terms import TERMS


def test_the_eleven_terms_of_the_edition() -> None:
    # ICC Incoterms 2020: seven for any mode, four for sea and inland waterway; from memory.
    assert {row.code for row in TERMS if row.mode == "any"} == {
        "EXW",
        "FCA",
        "CPT",
        "CIP",
        "DAP",
        "DPU",
        "DDP",
    }
    assert {row.code for row in TERMS if row.mode == "sea"} == {"FAS", "FOB", "CFR", "CIF"}


def test_only_two_terms_oblige_anybody_to_insure() -> None:
    # ICC text, seen: the seller insures under CIP and CIF.
    assert {row.code for row in TERMS if row.must_insure != "nobody"} == {"CIP", "CIF"}
    assert all(row.must_insure == "seller" for row in TERMS if row.code in ("CIP", "CIF"))


def test_the_buyer_carries_under_e_and_f_terms_only() -> None:
    # From memory: E and F terms leave the main carriage to the buyer, C and D terms to the seller.
    assert all((row.main_carriage == "buyer") == (row.code[0] in "EF") for row in TERMS)
