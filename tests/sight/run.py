"""Measures how the samples' sheets look, fill and print, and writes the tables of README.md beside this file.

    python -m tests.sight.run            print them
    python -m tests.sight.run --write    write them

With LibreOffice and a font of Arial's widths (as Liberation Sans) the pages are counted too.
"""

from __future__ import annotations

import datetime
import sys
import tempfile
from pathlib import Path

from sheetgen import api
from sheetgen.api.making import from_values
from sheetgen.sheets import BOOK
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.exchange.toml import read_toml
from sheetgen.workbook.model.values import Values, ready, shape_of
from tests.loop import ISSUED, SAMPLES
from tests.sight.measured import Sight, measured

PAGE = Path(__file__).with_name("README.md")
START, END = "<!-- measured -->", "<!-- end of measured -->"
COLUMNS = ("sheet", "screens wide", "high", "headings stay", "rows at first", "pages", "points", "too tall", "broken words",
           "must fill", "open cells", "Tab stops")  # fmt: skip


def main() -> int:
    """Print the tables, or write them."""
    text = "\n\n".join(_tables())
    if "--write" in sys.argv[1:]:
        page = PAGE.read_text("utf-8")
        before, after = page.index(START) + len(START), page.index(END)
        PAGE.write_text(f"{page[:before]}\n{text}\n{page[after:]}", "utf-8")
    else:
        print(text)
    return 0


def _tables() -> list[str]:
    found: dict[str, list[Sight]] = {}
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for style in ("overshirt", "sweatshirt", "jacket"):
            working = folder / f"{style}.xlsx"
            brief = api.build(SAMPLES / style / "brief.toml")
            # What the samples wish to send beyond their purpose is left out.
            built = from_values(
                {place: one for place, one in brief.values.items() if not place.entry.startswith("guide.")}
            )
            working.write_bytes(built.data)
            found[f"{style}, working file"] = measured(working, ready(BOOK, shape_of(BOOK, built.values)))
            for purpose in ("quote", "sample", "bulk") if style == "overshirt" else ("sample",):
                found[f"{style}, {purpose} copy"] = _copy(working, purpose)
            if style == "overshirt":
                working.write_bytes(from_values(_quoted(style, built.values)).data)
                found[f"{style}, sample copy once it is quoted"] = _copy(working, "sample")
    whole = [
        "| file | sheets | pages | smallest points | must fill | open cells | Tab stops |",
        "|---|---|---|---|---|---|---|",
    ]
    for name, sheets in found.items():
        least = min((one.least_points for one in sheets if one.pages), default=0.0)
        sums = (sum(getattr(one, what) for one in sheets) for what in ("pages", "must_fill", "open_cells", "stops"))
        pages, *others = sums
        whole.append(f"| {name} | {len(sheets)} | {pages} | {least:g} | " + " | ".join(map(str, others)) + " |")
    return [
        "\n".join(whole),
        *(_table(name, found[name]) for name in ("overshirt, working file", "overshirt, sample copy")),
    ]


def _quoted(style: str, values: Values) -> Values:
    """A style's values with what its vendor's clean answers say of prices."""
    path = SAMPLES / style / "answers-clean.toml"
    answers = values_of(BOOK, read_toml(path), path, values)
    return {
        **values,
        **{place: one for place, one in answers.items() if place.entry.startswith(("quote.", "materials."))},
    }


def _copy(working: Path, purpose: str) -> list[Sight]:
    copy = working.with_stem(f"{working.stem}-{purpose}")
    made = api.issue(working, purpose=purpose, issued=ISSUED, due=ISSUED + datetime.timedelta(14), anyway="measured")
    copy.write_bytes(made.data)
    assert made.laid is not None
    return measured(copy, made.laid.ready)


def _table(name: str, sheets: list[Sight]) -> str:
    lines = [f"**{name}**", "", f"| {' | '.join(COLUMNS)} |", "|---" * len(COLUMNS) + "|"]
    for one in sheets:
        shown = (_shown(value) for value in one)
        lines.append(f"| {' | '.join(shown)} |")
    return "\n".join(lines)


def _shown(value: str | float | bool) -> str:
    if isinstance(value, bool):
        return "yes" if value else ""
    return value if isinstance(value, str) else f"{value:g}"


if __name__ == "__main__":
    sys.exit(main())
