"""Modules in which one slip costs a garment, and the tests that belong to each."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).parents[2]
MODULES: dict[str, tuple[str, ...]] = {
    "sheetgen/workbook/exchange/accept.py": ("tests/workbook/test_accept.py",),
    "sheetgen/workbook/exchange/issue.py": ("tests/workbook/test_receipt.py",),
    "sheetgen/workbook/exchange/receipts.py": ("tests/workbook/test_receipt.py",),
    "sheetgen/audit/units.py": ("tests/audit/test_units.py",),
    "sheetgen/audit/samples.py": ("tests/audit/test_samples.py",),
    "sheetgen/trade/lengths.py": ("tests/trade/test_lengths.py",),
    "sheetgen/trade/sampling.py": ("tests/trade/test_sampling.py",),
    "sheetgen/cut_planning/order.py": ("tests/cut_planning/test_numbers.py",),
    "sheetgen/cut_planning/draft.py": ("tests/cut_planning/test_numbers.py",),
    "sheetgen/cut_planning/greedy.py": ("tests/cut_planning/test_numbers.py",),
    "sheetgen/cut_planning/plan.py": ("tests/cut_planning/test_numbers.py",),
    "sheetgen/api/accepting.py": ("tests/test_accept_and_issue.py",),
    "sheetgen/api/issuing.py": ("tests/test_accept_and_issue.py",),
    "sheetgen/declare/proof.py": (
        "tests/declare/test_proof.py",
        "tests/declare/test_charts.py",
        "tests/declare/test_words.py",
        "tests/declare/test_audience.py",
        "tests/declare/test_blocks.py",
        "tests/declare/test_edges.py",
    ),
    "sheetgen/declare/formula.py": (
        "tests/declare/test_formula.py",
        "tests/declare/test_proof.py",
        "tests/declare/test_blank.py",
        "tests/declare/test_family_words.py",
        "tests/declare/test_edges.py",
    ),
    "sheetgen/declare/tokens.py": (
        "tests/declare/test_tokens.py",
        "tests/declare/test_formula.py",
        "tests/declare/test_proof.py",
        "tests/declare/test_blank.py",
        "tests/declare/test_family_words.py",
        "tests/declare/test_edges.py",
    ),
}
"""Module -> its tests, quick ones: they run once for every slip."""


def dotted(path: str) -> str:
    """A module's name: sheetgen.audit.units."""
    return path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")


def chosen(words: list[str]) -> list[str]:
    """The modules whose path holds one of the words; all of them without a word."""
    return [path for path in MODULES if not words or any(word in path for word in words)]
