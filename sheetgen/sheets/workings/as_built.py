"""As built: what the columns and headings of the file follow, kept to compare with what stands in the grid now."""

from __future__ import annotations

from sheetgen.declare.entry import fixed
from sheetgen.declare.kinds import text
from sheetgen.declare.parts import Check, Form

AS_BUILT = Form("As built", (
    fixed("built_unit", "Unit", text(), private=True),
    fixed("built_currency", "Currency", text(), private=True),
    fixed("built_sample", "Sample size", text(), private=True),
))  # fmt: skip
KEPT = {"built_unit": "style.unit", "built_currency": "style.currency", "built_sample": "style.sample_size"}
"""Entry -> what it keeps of the style when the file is built."""


def _changed(name: str) -> str:
    kept = f"workings.{name}"
    return f'IF({kept}="",0,IF({KEPT[name]}&""={kept},0,1))'


CHECKS = (
    Check("unit_changed", "Another unit than the file was built with", _changed("built_unit"), private=True,
          fix="All lengths are still in the old one: sheetgen build FILE --unit UNIT converts them, --keep-figures keeps them."),
    Check("currency_changed", "Another currency than the file was built with", _changed("built_currency"), private=True,
          fix="All prices are still in the old one: sheetgen build FILE --keep-figures if they are meant in the new one."),
    Check("sample_changed", "Another sample size than the file was built with", _changed("built_sample"), private=True,
          fix="All sizes move with it: sheetgen build FILE --sample-size moves-base keeps them as they were, moves-sizes does not."),
)  # fmt: skip
