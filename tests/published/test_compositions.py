"""Compositions read live from what people type, and what they are of the whole garment by weight."""

import pytest

from tests.published.book import Shown


def cloth(composition: str, **more: object) -> dict[str, object]:
    return {
        "item": "Cloth",
        "group": "fabric",
        "composition": composition,
        "net": 1,
        "unit": "m²",
        "weight": 200,
        **more,
    }


@pytest.mark.parametrize(
    ("typed", "read"),
    # Ways of writing are common practice; the names are those of Regulation (EU) No 1007/2011, Annex I.
    [
        ("95 % cotton 5 % elastane", "95% cotton, 5% elastane"),
        ("95% Cotton, 5% Elastane", "95% cotton, 5% elastane"),
        ("cotton 60 %, polyester 40 %", "60% cotton, 40% polyester"),
        ("97,5 % wool / 2.5 % elastane", "97.5% wool, 2.5% elastane"),
        ("100%cotton", "100% cotton"),
        ("80 % organic cotton; 20 % recycled polyester", "80% cotton, 20% polyester"),
        ("50 % viscose and 30 % modal and 20 % silk", "50% viscose, 30% modal, 20% silk"),
        ("95 % cotton 4 % elastane", "not read"),
        ("95 % coton 5 % elastane", "not read"),
    ],
)
def test_a_composition_is_read(typed: str, read: str) -> None:
    book = Shown(materials={"bom": [cloth(typed)]})
    assert book["materials.bom[M1].read_as"] == read
    assert book.number("checks.wrong_materials_composition") == (read == "not read")


def test_the_whole_garment_by_weight() -> None:
    # By hand: 1.5 m of 150 cm at 200 g/m2 are 450 g, 0.05 kg of rib 50 g: cotton 450 x 0.8 + 50 x 0.95 = 407.5 of 500.
    shell = cloth("80 % cotton 20 % polyester", unit="m", net=1.5, width=150)
    rib = cloth("95 % cotton 5 % elastane", unit="kg", net=0.05)
    button = {"item": "Button", "group": "trim", "weight": 2, "weight_unit": "g a piece", "net": 6, "unit": "pc"}
    thread = {"item": "Thread", "group": "thread", "weight": 30, "weight_unit": "tex", "net": 100, "unit": "m"}
    book = Shown(materials={"bom": [shell, rib, button, thread]})
    assert book.number("materials.garment_grams") == pytest.approx(450 + 50 + 12 + 3)
    assert book.number("workings.fibers[J1].share") == pytest.approx(407.5 / 500)
    # 81.5, 18 and 0.5: a trace counts 1, and together they are 100.
    assert book["labels.composition_text"] == "81% cotton, 18% polyester, 1% elastane"


def test_an_alternative_is_in_no_total() -> None:
    price = {"price": 4, "currency": "USD", "waste": 0}
    book = Shown(materials={"bom": [cloth("100 % cotton", **price), cloth("100 % wool", instead_of="M1", **price)]})
    assert book.number("materials.cost") == 4
    assert book["materials.bom[M2].stands_for"] == "Cloth"
    assert book["labels.composition_text"] == "100% cotton"
