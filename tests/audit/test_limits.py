"""Limits of the judgment: each one, set otherwise, makes its rule find or not find; and what a brand file may say of them.

Figures are written by hand; garments, prices and people are invented.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import ClassVar

import pytest

from sheetgen import api, cli
from sheetgen.audit import RULES
from sheetgen.audit.case import Case
from sheetgen.audit.rule import Example, Rule
from sheetgen.audit.run import case_of
from sheetgen.audit.samples import measured_apart
from sheetgen.declare.judgment import LIMITS, Limits, limits_of
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand
from sheetgen.testing.edit import Edit, edited_bytes
from sheetgen.workbook.exchange.receipts import load_receipt
from sheetgen.workbook.read.file import read
from tests.audit.made import Made, edits_of, quick_case, wide
from tests.audit.returned import measured_return, returned
from tests.loop import SAMPLES, WIDE

BY_NAME = {one.name: one for one in RULES}


def sample(*points: tuple[float | None, float], tolerance: float = 1) -> Case:
    """A round of these values, each with what was asked."""
    return measured_return(
        {f"P{number}": (value, spec, tolerance, tolerance) for number, (value, spec) in enumerate(points, 1)}
    )


def asked(count: int, off: float = 0.0, start: int = 50) -> list[tuple[float, float]]:
    """So many points that measure what was asked, and so much more."""
    return [(start + number + off, float(start + number)) for number in range(count)]


A_ROW_LOW = (
    (None, 50.0),
    (50.0, 50.0),
    (50.0, 50.0),
    (50.0, 50.0),
    (50.0, 60.0),
    (60.0, 70.0),
    (70.0, 80.0),
    (80.0, 90.0),
    (90.0, 99.0),
    (50.0, 30.0),
)
"""Nine values a row too low: three of them fit their own row too, the last fits neither (8 of 9 fit the row above)."""
MEASURED: dict[str, tuple[str, Callable[[], Case], float]] = {
    # Limit: rule, a round in which it finds by the usual limit, the limit by which it does not.
    "exact_values": ("sample-copied", lambda: sample(*asked(5)), 6),
    "exact_share": ("sample-copied", lambda: sample(*asked(9), (80.3, 80)), 0.95),
    "repeated_values": ("deviation-repeated", lambda: sample(*asked(8, 0.2)), 9),
    "repeated_share": ("deviation-repeated", lambda: sample(*asked(7, 0.2), (80.3, 80), (81.4, 81), (81.9, 82)), 0.8),
    "fine_values": ("finer-than-a-tape", lambda: sample(*asked(5, 0.023)), 6),
    "fine_share": ("finer-than-a-tape", lambda: sample(*asked(5, 0.023), *asked(13, 0.1, 20)), 0.3),
    "down_values": ("sample-repeated", lambda: sample(*[(61.0, float(50 + number)) for number in range(5)]), 6),
    "row_off_values": ("measured-a-row-off", lambda: sample(*A_ROW_LOW), 10),
    "row_off_share": ("measured-a-row-off", lambda: sample(*A_ROW_LOW), 0.9),
    "row_off_own": ("measured-a-row-off", lambda: sample(*A_ROW_LOW), 0.3),
    "unit_near": ("other-unit", lambda: sample((24.0, 58.0)), 0.05),  # 24 in are 60.96 cm, 5.1 % more than 58
    "days_off": ("date-far-off", lambda: returned({"colorways.dips[D1].sent": datetime.date(2024, 12, 7)}, {}), 1500),
}
FROM_P3 = {"fit.points[P3].own_r1": 76.9, "fit.points[P4].own_r1": 76.6}
"""A back 0.9 too long of 76, a front 0.9 too short of 77.5; the tolerance is 1."""
TYPED: dict[str, tuple[str, Mapping[str, object], bool, Mapping[str, float], str, float]] = {
    # Limit: rule, what is typed, in the brand's own file, what was sent, where it finds, the limit by which it does not.
    "apart_values": ("measured-apart", measured_apart.bad[0].changes, True, {}, "fit.points[P1].own_r1", 9),
    "apart": ("measured-apart", measured_apart.bad[0].changes, True, {}, "fit.points[P1].own_r1", 6),
    "apart_scatter": ("measured-apart", measured_apart.bad[0].changes, True, {}, "fit.points[P1].own_r1", 0.1),
    "direction_points": ("direction-off", BY_NAME["direction-off"].bad[0].changes, True, {}, "fit.points[P3].own_r1", 4),
    "direction": ("direction-off", BY_NAME["direction-off"].bad[0].changes, True, {}, "fit.points[P3].own_r1", 0.05),
    "sides": ("one-side-off", BY_NAME["one-side-off"].bad[0].changes, True, {}, "fit.points[P6].own_r1", 4),
    "tolerance_step": ("tolerance-over-step", {"measurements.points[P1].minus": 2, "measurements.points[P1].plus": 2}, True, {}, "measurements.points[P1].plus", 1),
    "price_jump": ("price-jumped", {}, False, {"materials.bom[M2].price": 0.235}, "materials.bom[M2].price", 9.5),
    "price_built": ("price-unexplained", {"quote.fob": 24.3}, False, {}, "quote.fob", 0.1),
    "dozen_near": ("price-per-dozen", {"quote.fob": 325}, False, {}, "quote.fob", 0.04),  # 27.08 each, 5 % more than 25.79
    "alike_lines": ("price-out-of-line", {"materials.bom[M9].price": 1.8}, False, {}, "materials.bom[M9].price", 6),
    "alike_apart": ("price-out-of-line", {"materials.bom[M9].price": 1.8}, False, {}, "materials.bom[M9].price", 50),
    "ladder_apart": ("price-out-of-line", {"quote.ladder[U1].price": 323.52}, False, {}, "quote.ladder[U1].price", 20),
    "option_share": ("price-out-of-line", {"quote.fob": 25.8, "quote.options[OP1].option": "Hood", "quote.options[OP1].more": 28.4}, True, {}, "quote.options[OP1].more", 2),
    "moved": ("deviations-cancel", BY_NAME["deviations-cancel"].bad[0].changes, False, {}, "quote.stated_direct", 0.05),
    "moved_rest": ("deviations-cancel", BY_NAME["deviations-cancel"].bad[0].changes, False, {}, "quote.stated_direct", 0),
    "front_back": ("deviations-cancel", FROM_P3, True, {}, "fit.points[P3].own_r1", 0.95),
    "surplus": ("minimum-above-need", {"materials.bom[M1].minimum": 3000}, False, {}, "materials.bom[M1].minimum", 0.2),
    "fabric_use": ("consumption-claimed", {"yield.fabrics[B3].stated_net": 0.187}, False, {}, "yield.fabrics[B3].stated_net", 0.2),
    "fabric_slip": ("consumption-claimed", {"yield.fabrics[B1].stated_net": 1.882}, False, {}, "yield.fabrics[B1].stated_net", 0.5),
    "thread_use": ("thread-claimed", {"thread.articles[H2].stated_looper": 75}, False, {}, "thread.articles[H2].stated_looper", 0.9),
    "thread_slip": ("thread-claimed", {"thread.articles[H2].stated_gross": 70.19}, False, {}, "thread.articles[H2].stated_gross", 0.5),
    "fabric_typed": ("consumption-not-yield", {"materials.bom[M1].net": 1.55}, True, {}, "materials.bom[M1].net", 0.3),
    "thread_typed": ("consumption-not-yield", {"materials.bom[M6].net": 30}, True, {}, "materials.bom[M6].net", 0.9),
    "heaviest": ("weight-in-grams", {"order.piece_weight": 25}, False, {}, "order.piece_weight", 30),
}  # fmt: skip


_CASES: dict[str, Case] = {}


def case_of_example(made: Callable[[str], Made], example: Example) -> Case:
    """What rules see of what is typed, through a file where values alone do not show it."""
    of = made(WIDE if wide(made("overshirt"), example) else "overshirt")
    key = f"{sorted(example.changes.items())} {sorted(example.sent.items())}"
    if key not in _CASES:
        _CASES[key] = quick_case(of, example) or _read(of, example)
    return _CASES[key]


def _read(of: Made, example: Example) -> Case:
    target = of.folder / "limits.xlsx"
    data = (of.working if example.own else of.clean).read_bytes()
    target.write_bytes(edited_bytes(of.found(example.own), data, edits_of(example)))
    return case_of(read(BOOK, target), None if example.own else load_receipt(of.receipt))


def found(rule: Rule, case: Case, limits: Limits) -> set[str]:
    return {str(fault.place) for fault in rule.check(replace(case, limits=limits))}


@pytest.mark.parametrize("name", MEASURED)
def test_a_limit_of_what_is_measured_set_otherwise(name: str) -> None:
    rule, case, other = MEASURED[name]
    assert found(BY_NAME[rule], case(), Limits())
    assert not found(BY_NAME[rule], case(), limits_of({name: other}))


@pytest.mark.parametrize("name", TYPED)
def test_a_limit_of_prices_uses_and_plans_set_otherwise(name: str, made: Callable[[str], Made]) -> None:
    rule, changes, own, sent, place, other = TYPED[name]
    case = case_of_example(made, Example(name, changes, sent=sent, own=own))
    assert place in found(BY_NAME[rule], case, Limits())
    assert place not in found(BY_NAME[rule], case, limits_of({name: other}))


def test_all_limits_are_tried_and_each_serves_a_rule_that_says_so() -> None:
    assert {*MEASURED, *TYPED} == set(LIMITS)
    for name, limit in LIMITS.items():
        rule = (MEASURED.get(name) or TYPED[name])[0]
        assert name in BY_NAME[rule].limits
        assert limit.kind.wrong(limit.usual) is None
        assert "{value}" in limit.says and limit.means.endswith(".") and limit.source


class Watched(Limits):
    """Limits that remember which were asked for."""

    asked: ClassVar[set[str]] = set()

    def __getitem__(self, name: str) -> float:
        self.asked.add(name)
        return super().__getitem__(name)


def test_a_rule_reads_the_limits_that_it_declares(made: Callable[[str], Made]) -> None:
    """Some ask of values whether another rule tells them already, by that rule's limits."""
    others = {"down_values", "row_off_values", "row_off_share", "row_off_own", "unit_near", "dozen_near", "price_jump"}
    for name, (rule, changes, own, sent, *_) in TYPED.items():
        case = case_of_example(made, Example(name, changes, sent=sent, own=own))
        Watched.asked = set()
        list(BY_NAME[rule].check(replace(case, limits=Watched())))
        assert name in Watched.asked
        assert Watched.asked - set(BY_NAME[rule].limits) <= others, rule


def brand_file(folder: Path, table: str) -> Path:
    path = folder / "brand.toml"
    path.write_text(f"[judgment]\n{table}\n", "utf-8")
    return path


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ("price_jmp = 0.2", "[judgment] knows no 'price_jmp'; is it 'price_jump'?"),
        ("zebra = 1", "[judgment] knows no 'zebra'; sheetgen rules --limits lists them"),
        ('price_jump = "a tenth"', "[judgment] price_jump must be a number, as 0.1"),
        ("price_jump = true", "[judgment] price_jump must be a number, as 0.1"),
        ("price_jump = nan", "[judgment] price_jump must be a finite number"),
        ("price_jump = 10.5", "[judgment] price_jump must be at most 1000 %"),
        ("price_jump = -0.1", "[judgment] price_jump must be at least 0.5 %"),
        ("exact_values = 5.5", "[judgment] exact_values must be a whole number"),
        ("exact_values = 2", "[judgment] exact_values must be at least 3"),
        ("apart = 51", "[judgment] apart must be at most 50"),
    ],
)
def test_what_a_brand_file_cannot_say_is_one_sentence_with_file_and_key(table: str, says: str, tmp_path: Path) -> None:
    path = brand_file(tmp_path, table)
    with pytest.raises(UserError) as error:
        load_brand(path)
    assert str(error.value) == f"{path}: {says}; see the sample brand file for its form."


def test_a_table_that_is_none(tmp_path: Path) -> None:
    path = tmp_path / "brand.toml"
    path.write_text("judgment = 3\n", "utf-8")
    with pytest.raises(UserError, match="'judgment' must be a table"):
        load_brand(path)


def test_the_sample_brand_sets_one() -> None:
    assert load_brand(SAMPLES / "brand" / "brand.toml").limits["price_jump"] == 0.08


def test_the_brand_file_beside_the_file_or_the_one_named_counts(overshirt: Made, tmp_path: Path) -> None:
    """With no money left over allowed, each minimum is asked about."""
    path = tmp_path / "returned.xlsx"
    path.write_bytes(overshirt.clean.read_bytes())

    def said(brand: Path | None = None) -> list[str]:
        return [one.rule for one in api.audit(path, overshirt.receipt, brand=brand).findings]

    assert said() == []
    (tmp_path / "elsewhere").mkdir()
    assert "minimum-above-need" in said(brand_file(tmp_path / "elsewhere", "surplus = 0"))
    brand_file(tmp_path, "surplus = 0")
    assert "minimum-above-need" in said()


def test_the_finding_says_the_limit_and_the_letter_does_not(
    overshirt: Made, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Who knows a limit keeps just below it."""
    path, reply = tmp_path / "returned.xlsx", tmp_path / "reply.txt"
    edits = [Edit("quote.fob", "type", 24.3)]
    path.write_bytes(edited_bytes(overshirt.found(), overshirt.clean.read_bytes(), edits))
    named = brand_file(tmp_path, "price_built = 0.03")
    arguments = ["audit", str(path), "--receipt", str(overshirt.receipt), "--brand", str(named), "--reply", str(reply)]
    cli.main(arguments)
    shown = " ".join(capsys.readouterr().out.split())
    assert "additions give 25.79." in shown and "Limit: more than 3 % of the price." in shown
    letter = " ".join(reply.read_text("utf-8").split())
    assert "additions give 25.79." in letter and "Limit" not in letter and "3 %" not in letter


def test_issuing_judges_by_the_brand_file_beside_the_working_file(overshirt: Made, tmp_path: Path) -> None:
    """The chest's tolerance is 1 cm upward, its step 2.5 cm."""
    working = tmp_path / "working.xlsx"
    working.write_bytes(overshirt.working.read_bytes())

    def said() -> set[str]:
        return {one.rule for one in api.leaving(working, anyway="a trial").judged.findings}

    assert "tolerance-over-step" not in said()
    brand_file(tmp_path, "tolerance_step = 0.1")
    assert "tolerance-over-step" in said()
