"""Delivery terms say who carries, who insures, and what they suit."""

import pytest

from sheetgen.trade.terms import TERM_CHOICES, TERMS, TRANSPORT, suits, term


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


@pytest.mark.parametrize(
    ("typed", "code"),
    [("FOB", "FOB"), ("fob", "FOB"), ("FOB Free On Board", "FOB"), ("C&F", "CFR"), ("DAT", "DPU")],
)
def test_a_term_is_found_as_typed(typed: str, code: str) -> None:
    found = term(typed)
    assert found is not None
    assert found.code == code


def test_each_choice_finds_its_term() -> None:
    assert [term(choice) for choice in TERM_CHOICES] == list(TERMS)
    assert term("") is None
    assert term("XYZ Port") is None


@pytest.mark.parametrize(
    ("code", "transport", "fits"),
    [
        ("FOB", "sea", True),
        ("FOB", "air", False),
        ("CIF", "courier", False),
        ("FCA", "air", True),
        ("DDP", "sea", True),
    ],
)
def test_sea_terms_suit_only_the_sea(code: str, transport: str, fits: bool) -> None:
    assert suits(code, transport) is fits


def test_unknown_words_are_refused() -> None:
    assert "sea" in TRANSPORT
    for code, transport in (("XYZ", "sea"), ("FOB", "balloon")):
        with pytest.raises(ValueError, match=f"{code}.*{transport}"):
            suits(code, transport)
