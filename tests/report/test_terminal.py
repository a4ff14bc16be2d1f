"""The terminal says all that was found, briefly, within its width, and obeys no sign of a file."""

import io
from pathlib import Path

import pytest
from rich.cells import cell_len
from rich.console import Console

from sheetgen.report.outcome import Outcome, Unusable
from sheetgen.report.terminal import print_audit

from .made import audited, finding


def printed(outcome: Outcome, next_step: str = "", width: int = 80, terminal: bool = False) -> str:
    out = io.StringIO()
    print_audit(Console(file=out, width=width, force_terminal=terminal), outcome, next_step)
    return out.getvalue()


def test_all_that_a_designer_reads() -> None:
    missing = [finding(cell=f"L{row}", row=f"M{row - 11}") for row in (*range(12, 26), 30)]
    altered = finding("locked-changed", sheet="Fit", cell="H9", row="P3", message="Base was 52, is 52.5.")
    kinds = [
        finding("wrong-kind", cell=f"S{row}", column="Minimum", message=f"S{row} is text.", found=f"{row} pc")
        for row in range(12, 16)
    ]
    identity = finding("wrong-style", sheet="", cell="", row="", column="", message="This is style FJ-101.")
    price = finding("over-target", level="query", owner="designer", cell="L14", message="4.20 is over 3.10.")
    old = finding("rate-old", level="note", owner="designer", cell="", row="", message="The rate is old.")
    outcome = audited(identity, *missing, *kinds, altered, price, old, warnings=("No receipt was found.",))
    assert printed(outcome, "sheetgen audit field-jacket.xlsx --reply letter.txt") == (
        "field-jacket.xlsx: style FJ-100, revision 2, purpose quote, vendor Northwind\n"
        "Sewing\n"
        "Warning: No receipt was found.\n"
        "21 things to fix, 1 question, 1 note: 21 for the vendor, 2 for you.\n"
        "\n"
        "The vendor's turn (21)\n"
        "  The file as a whole\n"
        "    to fix    This is style FJ-101.\n"
        "  Materials\n"
        "    to fix    Price per unit: 15 cells, L12:L25, L30 (entry missing)\n"
        "    to fix    Minimum: 4 cells, S12:S15 (wrong kind). The first: S12 is text.\n"
        "  Fit\n"
        "    to fix    H9 (P3): Base was 52, is 52.5.\n"
        "\n"
        "Your turn (2)\n"
        "  Materials\n"
        "    question  L14 (M1): 4.20 is over 3.10.\n"
        "    note      The rate is old.\n"
        "\n"
        "Next: sheetgen audit field-jacket.xlsx --reply letter.txt\n"
    )


def test_three_cells_are_not_folded() -> None:
    lines = printed(audited(*(finding(cell=cell) for cell in ("L12", "L13", "L14")))).splitlines()
    assert lines[-3:] == [
        "    to fix    L12 (M1): Price per unit is empty.",
        "    to fix    L13 (M1): Price per unit is empty.",
        "    to fix    L14 (M1): Price per unit is empty.",
    ]


def test_nothing_to_fix() -> None:
    assert printed(audited(style="", revision="", purpose="", vendor=""), "sheetgen accept a.xlsx") == (
        "field-jacket.xlsx\nNothing to fix. Ready to accept.\n\nNext: sheetgen accept a.xlsx\n"
    )


def test_a_file_that_cannot_be_used() -> None:
    outcome = Unusable(Path("in/broken.xlsx"), "It is protected by a password.")
    assert printed(outcome, "ask for it again") == (
        "broken.xlsx cannot be used.\nIt is protected by a password.\n\nNext: ask for it again\n"
    )


@pytest.mark.parametrize("width", [80, 40])
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    long = "棉布" * 60 + " " + "=SUM(" + "A1+" * 60 + " a word and " * 30
    outcome = audited(
        finding(message=long, sheet=long),
        *(finding(cell=f"C{row}", column=long) for row in range(1, 200, 2)),
        vendor=long,
        file=Path("x" * 200),
        warnings=(long,),
    )
    lines = printed(outcome, long, width).splitlines()
    assert max(cell_len(line) for line in lines) <= width
    assert [line for line in lines if line != line.rstrip()] == []


def test_escapes_and_markup_of_a_file_stay_text() -> None:
    outcome = audited(
        finding(message="\x1b[2J[bold]gone[/bold] :smile: \u202egnp", sheet="\x1b]0;owned\x07"),
        vendor="[link=http://x]click[/link]\x1b[31m",
        warnings=("\x9b31m",),
    )
    text = printed(outcome, "\x1b[0m")
    assert "\x1b" not in text
    assert "\x9b" not in text
    assert "    to fix    L12 (M1): <U+001B>[2J[bold]gone[/bold] :smile: <U+202E>gnp\n" in text
    assert "  <U+001B>]0;owned<U+0007>\n" in text
    assert "vendor\n[link=http://x]click[/link]<U+001B>[31m\n" in text


def test_a_terminal_has_color_and_still_the_word() -> None:
    text = printed(audited(finding()), terminal=True)
    assert "\x1b[1;31mto fix" in text
    assert "\x1b[31m" not in printed(audited(finding(found="\x1b[31m", message="\x1b[31m")), terminal=True)
