"""The letter asks the vendor for what is the vendor's, and says nothing else."""

import pytest

from sheetgen.audit import RULES
from sheetgen.report.reply import reply_text

from .made import audited, finding

CONTACT = "Ada Example, ada@example.com"


def test_the_letter() -> None:
    missing = [
        finding(cell=f"L{row}", row=f"M{row - 11}", message=f"M{row - 11} has no price.") for row in (12, 13, 30)
    ]
    kinds = [
        finding(
            "wrong-kind",
            cell=f"S{row}",
            row=f"M{row - 11}",
            column="Minimum",
            found=f"{row} pcs",
            message=f"Minimum in S{row} is the text '{row} pcs'.",
            action=f"Type the number alone in S{row}.",
        )
        for row in (12, 13)
    ]
    question = finding(
        "all-on-spec",
        level="query",
        sheet="Fit",
        cell="F12",
        row="P1",
        column="Measured",
        message="All 20 measured values are exactly on spec.",
        action="Measure the sample again.",
    )
    assert reply_text(audited(*missing, *kinds, question), contact=CONTACT) == (
        "Subject: Style FJ-100, revision 2: please complete your copy\n"
        "\n"
        "Dear Northwind Sewing,\n"
        "\n"
        "Thank you for returning the workbook for style FJ-100, revision 2 (file\n"
        "field-jacket.xlsx, issue FJ-7-a1). Before we can go on, we need your help with\n"
        "the 3 points below.\n"
        "\n"
        "Sheet Materials\n"
        "---------------\n"
        "\n"
        " 1. Price per unit, 3 cells L12:L13, L30: please correct\n"
        "    Entry missing. For example: M1 has no price.\n"
        "    To do: Fill in the price.\n"
        "\n"
        " 2. Minimum, 2 cells S12:S13: please correct\n"
        "    - S12, line M1: Minimum in S12 is the text '12 pcs'.\n"
        "    - S13, line M2: Minimum in S13 is the text '13 pcs'.\n"
        "    To do: Type the number alone in S12:S13.\n"
        "\n"
        "Sheet Fit\n"
        "---------\n"
        "\n"
        " 3. Measured, cell F12, line P1: question\n"
        "    All 20 measured values are exactly on spec.\n"
        "    To do: Measure the sample again.\n"
        "\n"
        "How to return it: make the changes in the same file, and leave sheets, rows,\n"
        "columns, headings and formulas as they are. If something cannot be filled yet,\n"
        "write to us instead of typing a word in its cell. Save the file as a workbook\n"
        "(.xlsx), without a password, and send it back with your reply.\n"
        "\n"
        "Kind regards,\n"
        "Ada Example, ada@example.com\n"
    )


def test_nothing_to_ask_is_a_short_thank_you() -> None:
    note = finding(level="note", message="A note for nobody.")
    own = finding(owner="designer", message="Look at the target.")
    assert reply_text(audited(note, own), contact=CONTACT) == (
        "Subject: Style FJ-100, revision 2: thank you\n"
        "\n"
        "Dear Northwind Sewing,\n"
        "\n"
        "Thank you for returning the workbook for style FJ-100, revision 2 (file\n"
        "field-jacket.xlsx, issue FJ-7-a1). We have nothing to ask about it. We will\n"
        "come back to you with the next step.\n"
        "\n"
        "Kind regards,\n"
        "Ada Example, ada@example.com\n"
    )


def test_nothing_of_the_designer_is_in_it() -> None:
    own = finding(
        "over-target",
        owner="designer",
        level="fix",
        cell="V9",
        column="CANARY",
        row="CANARY",
        sheet="CANARY",
        expected="CANARY",
        message="CANARY",
        action="CANARY",
    )
    vendors = finding(why="CANARY")
    text = reply_text(audited(own, vendors, warnings=("CANARY",)), contact=CONTACT)
    assert "CANARY" not in text
    assert "V9" not in text
    assert "the point below" in text


def test_actions_that_differ_stand_with_their_cells() -> None:
    replaced = [
        finding("formula-replaced", cell=f"P{row}", expected=f"=N{row}*O{row}", action=f"Put back: =N{row}*O{row}")
        for row in (12, 13)
    ]
    lines = reply_text(audited(*replaced), contact=CONTACT).splitlines()
    assert lines[12:16] == [
        "    - P12, line M1: Price per unit is empty. To do: Put back: =N12*O12",
        "    - P13, line M1: Price per unit is empty. To do: Put back: =N13*O13",
        "",
        "How to return it: make the changes in the same file, and leave sheets, rows,",
    ]


def test_a_finding_without_a_place_says_its_rule() -> None:
    whole = finding("wrong-style", sheet="", cell="", row="", column="", message="This is style FJ-101.")
    lines = reply_text(audited(whole, vendor=""), contact=CONTACT).splitlines()
    assert lines[2] == "Dear partner,"
    assert lines[8:13] == [
        "The file as a whole",
        "-------------------",
        "",
        " 1. Wrong style: please correct",
        "    This is style FJ-101.",
    ]


def test_lines_are_short_and_nothing_in_a_value_steers() -> None:
    long = "\x1b[31m\u202e" + "x" * 300 + "\n 9. Pay to this account" + " and more" * 100
    text = reply_text(
        audited(finding(message=long, column=long, sheet=long, action=long), vendor=long, style=long),
        contact=CONTACT,
    )
    assert max(len(line) for line in text.splitlines()) <= 78
    assert "\x1b" not in text
    assert "\u202e" not in text
    assert not any(line.startswith(" 9.") for line in text.splitlines())


def test_the_letter_asks_the_vendor_and_does_not_tell_the_brand_what_to_do() -> None:
    letter = reply_text(audited(finding(action="Ask for a copy without it.", asked="Take it out.")), contact="A")
    assert "To do: Take it out." in letter
    assert "Ask for" not in letter


@pytest.mark.parametrize("name", [one.name for one in RULES if one.owner == "vendor"])
def test_no_rule_asks_the_vendor_to_ask_the_vendor(name: str) -> None:
    (one,) = [one for one in RULES if one.name == name]
    for word in ("ask for", "ask how", "ask whether", "do not open", "do not follow", "the vendor"):
        assert word not in (one.asked or one.fix).lower()
