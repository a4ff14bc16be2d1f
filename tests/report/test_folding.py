"""Findings fold into ranges, and none is lost or mixed with another kind."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.utils.cell import rows_from_range

from sheetgen.report.folding import folded, ranges

from .made import finding


@pytest.mark.parametrize(
    ("cells", "text"),
    [
        (["L12", "L13", "L14", "L30"], "L12:L14, L30"),
        (["L30", "L13", "L12", "L14"], "L12:L14, L30"),
        (["L9", "L10"], "L9:L10"),
        (["Z4", "AA4", "AB4"], "Z4:AB4"),
        (["C3", "D3", "C4", "D4"], "C3:D4"),
        (["C3", "C4", "D4"], "C3:C4, D4"),
        (["L12", "L12"], "L12"),
        (["the sheet", "L12"], "L12, the sheet"),
        ([""], ""),
    ],
)
def test_ranges(cells: list[str], text: str) -> None:
    assert ranges(cells) == text


@given(st.sets(st.tuples(st.sampled_from(["A", "B", "C", "Z", "AA", "AB"]), st.integers(1, 12)), min_size=1))
def test_ranges_name_every_cell_once_and_no_other(places: set[tuple[str, int]]) -> None:
    cells = {f"{column}{row}" for column, row in places}
    named = [cell for part in ranges(sorted(cells)).split(", ") for row in rows_from_range(part) for cell in row]
    assert sorted(named) == sorted(cells)


def test_another_rule_level_owner_sheet_or_heading_is_another_group() -> None:
    groups = folded(
        [
            finding(cell="L12"),
            finding("wrong-kind", cell="L13"),
            finding(cell="L14", level="query"),
            finding(cell="L15", owner="designer"),
            finding(cell="L16", sheet="Labels"),
            finding(cell="L17", column="Minimum"),
            finding(cell="L18"),
        ]
    )
    assert [group.cells for group in groups] == ["L12, L18", "L13", "L14", "L15", "L16", "L17"]


def test_alike_also_parts_what_was_found() -> None:
    findings = [finding(cell="L12", found="?"), finding(cell="L13"), finding(cell="L14", found="?")]
    assert [group.cells for group in folded(findings, alike=True)] == ["L12, L14", "L13"]
    assert [group.cells for group in folded(findings)] == ["L12:L14"]


def test_findings_without_a_cell_stay_alone() -> None:
    assert len(folded([finding("row-gone", cell=""), finding("row-gone", cell="")])) == 2


def test_a_text_that_names_its_own_cell_is_shared_with_the_ranges() -> None:
    (group,) = folded(
        [
            finding(cell="L1", action="Fill L1, not L12 or AL1.", message="M1 has no price."),
            finding(cell="L2", action="Fill L2, not L12 or AL1.", message="M2 has no price."),
        ]
    )
    assert group.shared(lambda one: one.action) == "Fill L1:L2, not L12 or AL1."
    assert group.shared(lambda one: one.message) is None


def test_a_cell_found_twice_counts_once() -> None:
    (group,) = folded([finding(cell="L12", found="?"), finding(cell="L12"), finding(cell="L13")])
    assert (group.count, group.cells) == ("2 cells", "L12:L13")
