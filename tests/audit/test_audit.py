"""The audit as a whole: what is untouched is clean, what is put right is clean again, and one fault never hides another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import pytest

from sheetgen.sheets import BOOK
from sheetgen.testing.answers import generated
from sheetgen.testing.edit import Edit
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.exchange.toml import read_toml
from tests.audit.made import KNOWN, STYLES, Made, audit_of, shorts
from tests.loop import SAMPLES


@pytest.mark.parametrize("style", STYLES)
def test_a_clean_return_has_no_findings(style: str, made: Callable[[str], Made]) -> None:
    result = made(style).audited()
    assert shorts(result) == []
    assert result.warnings == ()


@pytest.mark.parametrize(("style", "open_cells"), [("overshirt", 110), ("sweatshirt", 115), ("jacket", 135)])
def test_an_untouched_copy_asks_for_the_answers_and_says_nothing_else(
    style: str, open_cells: int, made: Callable[[str], Made]
) -> None:
    """So many cells stand in the sample's answers; those of an entry that the samples do not know yet come on top."""
    result = audit_of(made(style).issued, made(style).receipt)
    answers = SAMPLES / style / "answers-clean.toml"
    unknown = generated(result.got, values_of(BOOK, read_toml(answers), answers, result.got.typed))
    assert Counter(finding.rule for finding in result.findings) == {"entry-missing": open_cells + len(unknown)}
    assert {finding.owner for finding in result.findings} == {"vendor"}


def test_a_working_file_is_audited_for_what_the_designer_fills(overshirt: Made) -> None:
    result = audit_of(overshirt.working)
    assert shorts(result) == KNOWN["overshirt"]
    assert {finding.owner for finding in result.findings} == {"designer"}


@pytest.mark.parametrize(
    ("planted", "undone", "finding"),
    [
        (
            Edit("materials.bom[M1].price", "type", "USD 4.65"),
            Edit("materials.bom[M1].price", "type", 4.65),
            "currency-in-cell materials.bom[M1].price",
        ),
        (
            Edit("measurements.points[P1].plus", "type", 3.0),
            Edit("measurements.points[P1].plus", "type", 1),
            "locked-value-changed measurements.points[P1].plus",
        ),
        (
            Edit("quote.make_cost", "type", 9.0),
            Edit("quote.make_cost", "formula", "sew_cost+cut_cost+finish_cost"),
            "formula-replaced quote.make_cost",
        ),
        (
            Edit("materials.bom[M1].gross", "formula", "net"),
            Edit("materials.bom[M1].gross", "formula", "use*(1+waste)"),
            "formula-altered materials.bom[M1].gross",
        ),
        (
            Edit("fit.points[P3].value_r1", "type", None),
            Edit("fit.points[P3].value_r1", "type", 75.9),
            "entry-missing fit.points[P3].value_r1",
        ),
    ],
)
def test_what_is_put_right_is_clean_again(planted: Edit, undone: Edit, finding: str, overshirt: Made) -> None:
    assert shorts(overshirt.audited([planted])) == [finding]
    assert shorts(overshirt.audited([planted, undone])) == []


def test_two_faults_in_one_file_are_two_findings(overshirt: Made) -> None:
    result = overshirt.audited(
        [
            Edit("materials.bom[M3].price", "type", "1,80"),
            Edit("materials.bom[M3].supplier", "type", "TBC"),
        ]
    )
    assert shorts(result) == ["decimal-comma materials.bom[M3].price", "placeholder materials.bom[M3].supplier"]


def test_two_faults_in_one_line_of_figures_are_both_found(overshirt: Made) -> None:
    """The changed use spoils the price's build-up; the price that is off by itself is still seen."""
    result = overshirt.audited(
        [
            Edit("materials.bom[M1].net", "type", 3.6),
            Edit("quote.fob", "type", 24.3),
        ]
    )
    assert shorts(result) == ["locked-value-changed materials.bom[M1].net", "price-unexplained quote.fob"]


def test_a_wrong_kind_in_the_largest_price_is_one_finding(overshirt: Made) -> None:
    result = overshirt.audited([Edit("materials.bom[M1].price", "type", "4,65")])
    assert shorts(result) == ["decimal-comma materials.bom[M1].price"]


def test_a_lost_column_switches_off_only_what_reads_it(overshirt: Made) -> None:
    """The mills' lead times are gone; the factory's own, and every other rule of that sheet, still speak."""
    result = overshirt.audited(
        [
            Edit("materials.bom.lead", "drop-column"),
            Edit("quote.lead_time", "type", 300),
            Edit("materials.bom[M4].price", "type", "0,85"),
            Edit("materials.bom[M5].cost", "type", 0.8),
        ]
    )
    assert shorts(result) == [
        "column-gone materials.bom.lead",
        "decimal-comma materials.bom[M4].price",
        "formula-replaced materials.bom[M5].cost",
        "lead-time-too-long quote.lead_time",
    ]


def test_a_row_whose_ref_was_cleared_is_known_by_the_rows_around_it(overshirt: Made) -> None:
    """Nothing in it is lost, and its answers are still read."""
    result = overshirt.audited(
        [
            Edit("materials.bom[M2].ref", "type", None),
            Edit("materials.bom[M2].price", "type", "2,35"),
        ]
    )
    assert shorts(result) == ["decimal-comma materials.bom[M2].price", "locked-value-changed materials.bom[M2].ref"]


def test_findings_come_in_order_of_weight_and_then_of_the_sheets(overshirt: Made) -> None:
    result = overshirt.audited(
        [
            Edit("order", "unlock"),
            Edit("quote.lead_time", "type", 300),
            Edit("quote.sew_minutes", "type", "36.5 min"),
            Edit("materials.bom[M9].minimum", "type", None),
        ]
    )
    assert [finding.short for finding in result.findings] == [
        "entry-missing materials.bom[M9].minimum",
        "number-as-text quote.sew_minutes",
        "lead-time-too-long quote.lead_time",
        "protection-off Order",
    ]


def test_a_finding_says_where_what_why_and_what_to_do(overshirt: Made) -> None:
    (finding,) = overshirt.audited([Edit("measurements.points[P1].plus", "type", 3.0)]).findings
    assert (finding.sheet, finding.row, finding.column) == ("Measurements", "P1", "Tol. +")
    assert (finding.expected, finding.found, finding.owner, finding.level) == ("1", "3", "vendor", "fix")
    assert finding.message == "The plus tolerance of P1 Chest width was sent as 1 and came back as 3."
    assert finding.action == "Undo the change (1 was sent), and write what you propose into a remark."
