"""The page is whole, stands alone, and shows a file's texts without obeying them."""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from sheetgen.report.outcome import Outcome, Unusable
from sheetgen.report.page import html_page
from sheetgen.report.page_look import DARK, LIGHT

from .made import audited, finding

EMPTY = {"meta", "br"}


class Outline(HTMLParser):
    """The words of a page by element, with every element closed in its turn."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.words: dict[str, list[str]] = {}
        self.attributes: list[tuple[str, str | None]] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.attributes.extend(attrs)
        if tag not in EMPTY:
            self.open.append(tag)
            self.words.setdefault(tag, []).append("")

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        for tag in set(self.open):
            self.words[tag][-1] += data


HOSTILE = "<script>alert(1)</script>"


def hostile_page() -> str:
    bad = finding(
        "wrong-kind",
        found=HOSTILE,
        expected='"><img src=x onerror=alert(1)>',
        message=HOSTILE,
        why=HOSTILE,
        action=HOSTILE,
        sheet='"' + HOSTILE,
        row=HOSTILE,
        cell=HOSTILE,
        column=HOSTILE,
    )
    audit = audited(bad, warnings=(HOSTILE,), style=HOSTILE, vendor="\x1b[31m\u202e", issue_id="'" + HOSTILE)
    return html_page([audit, Unusable(Path("<b>.xlsx"), HOSTILE)], title=HOSTILE)


def test_a_script_in_a_value_is_shown_and_not_run() -> None:
    page = hostile_page()
    assert "<dd><bdi>&lt;script&gt;alert(1)&lt;/script&gt;</bdi></dd>" in page
    assert "<script" not in page
    assert "<img" not in page
    assert "<b>" not in page


def test_signs_that_steer_are_shown() -> None:
    page = hostile_page()
    assert "<bdi>&lt;U+001B&gt;[31m&lt;U+202E&gt;</bdi>" in page
    assert "\x1b" not in page
    assert "\u202e" not in page


def test_the_page_is_whole_and_loads_nothing() -> None:
    page = hostile_page()
    outline = Outline(page)
    assert outline.open == []
    names = {name for name, _ in outline.attributes}
    assert not names & {"src", "style", "onclick", "onerror", "action"}
    assert [value for name, value in outline.attributes if name == "href"] == ["#file-1", "#file-2"]
    assert ("lang", "en") in outline.attributes
    assert "url(" not in page
    assert "@import" not in page


def test_headings_lead_from_the_file_to_the_sheet() -> None:
    vendors = finding()
    own = finding("over-target", owner="designer", level="query", sheet="Pricing")
    whole = finding("wrong-style", sheet="", cell="", row="", column="")
    words = Outline(html_page([audited(whole, vendors, own)], title="Audit")).words
    assert words["h1"] == ["Audit"]
    assert words["h2"] == ["field-jacket.xlsx"]
    assert words["h3"] == ["The vendor's turn: 2 findings", "Your turn: 1 finding"]
    assert words["h4"] == ["The file as a whole", "Materials", "Pricing"]
    assert words["dl"][0] == "StyleFJ-100Revision2PurposequoteVendorNorthwind SewingIssueFJ-7-a1"


def test_a_finding_says_all() -> None:
    words = Outline(html_page([audited(finding(level="query"))], title="Audit")).words
    assert words["td"] == [
        "Question",
        "Price per unitL12row M1",
        "Price per unit is empty.Expecteda priceFoundnothing",
        "Fill in the price.Why: Without it the line has no cost. (Rule: entry-missing)",
    ]


def test_missing_entries_fold_by_column_and_name_every_cell() -> None:
    missing = [finding(cell=f"L{row}", row=f"M{row}", message=f"M{row} has no price.") for row in range(12, 15)]
    other = finding(cell="T12", row="M12", column="Minimum")
    words = Outline(html_page([audited(*missing, other)], title="Audit")).words
    assert words["td"][1] == "Price per unit3 cells: L12:L14rows M12, M13, M14"
    assert words["td"][2] == "Entry missing. For example: M12 has no price.Expecteda priceFoundnothing"
    assert words["td"][5] == "MinimumT12row M12"


def test_no_cell_is_left_out_however_many_there_are() -> None:
    page = html_page([audited(*(finding(cell=f"L{row}") for row in range(1, 2001, 2)))], title="Audit")
    assert "1,000 cells: L1, L3, L5," in page
    assert ", L1997, L1999</bdi>" in page


def test_different_values_are_not_folded() -> None:
    page = html_page([audited(finding(cell="L12", found="?"), finding(cell="L13", found="TBC"))], title="Audit")
    assert Outline(page).words["dd"][-4:] == ["a price", "?", "a price", "TBC"]


def test_several_files_have_an_overview() -> None:
    outcomes: list[Outcome] = [
        audited(finding(), finding(level="note"), warnings=("No receipt was found.",)),
        audited(file=Path("parka.xlsx")),
        Unusable(Path("broken.xlsx"), "It is protected by a password."),
    ]
    words = Outline(html_page(outcomes, title="Audit of 3 files")).words
    assert words["h2"] == ["3 files", "field-jacket.xlsx", "parka.xlsx", "broken.xlsx"]
    assert words["tr"][:4] == [
        "FileStyleVendorDueTo fixQuestionsNotesWhose turn",
        "field-jacket.xlsxFJ-100Northwind Sewing101vendor 1",
        "parka.xlsxFJ-100Northwind Sewing000nothing to ask",
        "broken.xlsxCannot be used: It is protected by a password.",
    ]
    assert "Warning: No receipt was found." in words["p"]
    assert "1 thing to fix, 1 note: all for the vendor." in words["p"]
    assert "Nothing to fix. Ready to accept." in words["p"]
    assert "Cannot be used: It is protected by a password." in words["p"]


# What text stands on what in the style sheet.
PAIRS = (
    ("ink", "paper"),
    ("ink", "soft"),
    ("ink", "section"),
    ("faint", "paper"),
    ("faint", "soft"),
    ("band-text", "band"),
    ("fix-text", "fix"),
    ("query-text", "query"),
    ("note-text", "note"),
    ("ink", "good"),
    ("link", "paper"),
)


def luminance(color: str) -> float:
    # WCAG 2.2, relative luminance.
    parts = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("colors", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(("text", "ground"), PAIRS)
def test_text_stands_out(colors: dict[str, str], text: str, ground: str) -> None:
    # WCAG 2.2, 1.4.3: 4.5 to 1 for text of normal size.
    dark, light = sorted((luminance(colors[text]), luminance(colors[ground])))
    assert (light + 0.05) / (dark + 0.05) >= 4.5


def listed(page: str) -> list[tuple[str, str]]:
    """The links of the contents, and what stands at the place that each leads to."""
    links = re.findall(r'<td><a href="#([^"]+)"><bdi>([^<]+)</bdi></a></td>', page)
    return [
        (word, " ".join(re.findall(rf'<h4 id="{re.escape(anchor)}"><bdi>([^<]+)</bdi>', page)))
        for anchor, word in links
    ]


def test_the_contents_lead_to_each_sheet_what_is_to_fix_first() -> None:
    some = [
        finding("lead-time-too-long", level="query", sheet="Quote", cell="C4"),
        finding("entry-missing", sheet="Materials", cell="L12"),
        finding("entry-missing", sheet="Materials", cell="L13"),
        finding("dip-outside-limit", level="query", sheet="Materials", cell="N3", column="dE00"),
        finding("price-jumped", level="note", owner="designer", sheet="Quote", cell="C9"),
    ]
    page = html_page([audited(*some)], title="Audit")
    assert listed(page) == [("Materials", "Materials"), ("Quote", "Quote"), ("Quote", "Quote")]
    assert "4 points for 5 findings" in page
    rows = re.findall(r"<tr>(.*?)</tr>", page[page.index("<nav") : page.index("</nav>")])
    cells = [[re.sub(r"<[^>]+>", "", cell) for cell in re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", row)] for row in rows]
    assert cells == [
        ["Whose turn", "Sheet", "To fix", "Questions", "Notes"],
        ["The vendor's turn", "Materials", "1", "1", ""],
        ["", "Quote", "", "1", ""],
        ["Your turn", "Quote", "", "", "1"],
    ]


def test_two_sheets_need_no_contents_and_ids_are_each_there_once() -> None:
    page = html_page([audited(finding(), finding(sheet="Quote"))], title="Audit")
    assert "nav" not in Outline(page).words
    several = html_page([audited(*(finding(sheet=sheet) for sheet in "ABCD"))] * 3, title="Audit")
    ids = [value for name, value in Outline(several).attributes if name == "id"]
    assert len(ids) == len(set(ids)) > 12
