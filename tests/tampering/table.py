"""The README's table of what was tampered with: written here, by the command that tried it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from tests.tampering.classes import CLASSES

README = Path(__file__).parents[2] / "README.md"
START, END = "<!-- tampered -->", "<!-- end of tampered -->"


def written_into_readme(tried: Mapping[str, int], missed: Mapping[str, int], cells: int, seed: int) -> None:
    """Put the table between its two marks; ValueError where they are gone."""
    total, lost = sum(tried.values()), sum(missed.values())
    lines = [
        f"{total - lost:,} of {total:,} changes were found at their cell, over {cells:,} cells of three samples (seed {seed}).",
        "",
        "| done to one cell | found |",
        "|---|---|",
        *(f"| {name} | {tried.get(name, 0) - missed.get(name, 0):,} of {tried.get(name, 0):,} |" for name in CLASSES),
    ]
    text = README.read_text("utf-8")
    start, end = text.index(START) + len(START), text.index(END)
    README.write_text(text[:start] + "\n" + "\n".join(lines) + "\n" + text[end:], "utf-8")
