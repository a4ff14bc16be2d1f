"""As built: what the columns and headings of the file follow, kept to compare with what stands in the grid now."""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.declare.entry import Place, fixed
from sheetgen.declare.kinds import Value, number, picture, text
from sheetgen.declare.parts import Check, Form, Pictures
from sheetgen.trade.lengths import UNITS, convert

AS_BUILT = Form("As built", (
    fixed("built_unit", "Unit of length in metres", number(4), private=True),
    fixed("built_currency", "Currency", text(), private=True),
    fixed("built_sample", "Sample size", text(), private=True),
))  # fmt: skip
CLEAN = Pictures("Drawings as they were put in, without marks", (
    fixed("clean_front", "Flat, front", picture(), private=True), fixed("clean_back", "Flat, back", picture(), private=True),
), height=60)  # fmt: skip
CLEAN_OF = Form("What was drawn of them", (
    fixed("clean_front_of", "Flat, front", text(), private=True), fixed("clean_back_of", "Flat, back", text(), private=True),
    fixed("own_front_of", "Front", text(), private=True), fixed("own_back_of", "Back", text(), private=True),
    fixed("own_view_3_of", "Further view", text(), private=True), fixed("own_view_4_of", "Further view", text(), private=True),
))  # fmt: skip
_UNIT, _CURRENCY, _SAMPLE = "style.unit", "style.currency", "style.sample_size"


def as_built(values: Mapping[Place, Value]) -> dict[Place, Value]:
    """What a file keeps of the style when it is built. The unit as a number: its word may be another one in a copy."""
    unit, others = values.get(Place(_UNIT)), {"currency": _CURRENCY, "sample": _SAMPLE}
    kept: dict[Place, Value] = {
        Place(f"workings.built_{name}"): str(values[Place(address)])
        for name, address in others.items()
        if values.get(Place(address)) not in (None, "")
    }
    if unit in UNITS:
        kept[Place("workings.built_unit")] = convert(1.0, str(unit), "cm") / 100
    return kept


_OTHER_UNIT = 'IF(workings.built_unit="",0,IF(ABS(N(style.unit_in_meters)-workings.built_unit)<0.000001,0,1))'


def _changed(name: str, address: str) -> str:
    return f'IF(workings.{name}="",0,IF({address}&""=workings.{name},0,1))'


CHECKS = (
    Check("unit_changed", "Another unit than the file was built with", _OTHER_UNIT, private=True,
          fix="All lengths are still in the old one: sheetgen build FILE --unit UNIT converts them, --keep-figures keeps them."),
    Check("currency_changed", "Another currency than the file was built with", _changed("built_currency", _CURRENCY), private=True,
          fix="All prices are still in the old one: sheetgen build FILE --keep-figures if they are meant in the new one."),
    Check("sample_changed", "Another sample size than the file was built with", _changed("built_sample", _SAMPLE), private=True,
          fix="All sizes move with it: sheetgen build FILE --sample-size moves-base keeps them as they were, moves-sizes does not."),
)  # fmt: skip
