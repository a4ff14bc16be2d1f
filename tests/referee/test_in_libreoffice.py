"""A vendor at LibreOffice: what is typed there is read back, and what does no harm is no finding."""

import datetime
from fractions import Fraction
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import openpyxl
import pytest

from sheetgen.audit import RULES
from sheetgen.audit.run import Audit, audit
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Kind, Value
from sheetgen.sheets import BOOK
from sheetgen.testing.answers import generated
from sheetgen.trade.lengths import fraction_text
from sheetgen.workbook.exchange.issue import issue
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned
from tests.referee.books import ISSUED, answers, brief, file_bytes
from tests.referee.office import driven, needs_bridge
from tests.sight.measured import asked_cells, open_cells

pytestmark = [pytest.mark.libreoffice, pytest.mark.long]

Step = dict[str, Any]


@cache
def sent(style: str) -> tuple[bytes, str, Returned, frozenset[str]]:
    """A vendor's copy, its receipt, what is read in it, and in short what the audit says before anyone touched it."""
    made = issue(BOOK, brief(style), {}, ISSUED)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "copy.xlsx"
        path.write_bytes(made.data)
        (Path(folder) / "copy.receipt.json").write_text(made.receipt.text, "utf-8")
        untouched = audit(BOOK, RULES, path)
    return made.data, made.receipt.text, untouched.got, frozenset(shorts(untouched))


class Desk:
    """A vendor's copy on a desk, and the places in it."""

    def __init__(self, folder: Path, style: str) -> None:
        needs_bridge()
        self.folder = folder
        self.copy = folder / "copy.xlsx"
        data, receipt, self.got, self.still_to_fill = sent(style)
        self.copy.write_bytes(data)
        (folder / "copy.receipt.json").write_text(receipt, "utf-8")
        assert self.still_to_fill
        assert all(short.startswith("entry-missing ") for short in self.still_to_fill)

    def at(self, place: str) -> Step:
        """Where a place is, as a step wants it."""
        cell = self.got.where.at(place_of(place))
        assert cell is not None, place
        return {"sheet": cell.sheet, "cell": cell.address}

    def typed(self, place: str, keys: str) -> Step:
        return {"do": "type", **self.at(place), "keys": keys}

    def row_above(self, place: str) -> Step:
        """A row put in above this place's; the copy's protection allows it."""
        cell = self.got.where.at(place_of(place))
        assert cell is not None, place
        return {"do": "insert_row", "sheet": cell.sheet, "row": cell.row}

    def returned(self, steps: list[Step]) -> tuple[Audit, dict[str, Any]]:
        """The copy after these steps, audited; and what was seen on the screen."""
        target = self.folder / "returned.xlsx"
        shown = driven(self.copy, steps, target)
        return audit(BOOK, RULES, target), shown


def shorts(result: Audit) -> set[str]:
    return {finding.short for finding in result.findings}


def keys(kind: Kind, value: Value, unit: str) -> str:
    """How a person types a value: a share with its sign, inches as a fraction, a date by year, month and day."""
    if isinstance(value, datetime.date):
        return value.isoformat()
    if kind.name == "percent" and isinstance(value, float):
        return f"{value * 100:.10g}%"
    if (
        kind.name == "length"
        and unit == "in"
        and isinstance(value, int | float)
        and Fraction(value).denominator in {2, 4, 8, 16}
    ):
        return fraction_text(value)
    return str(value)


def row_of(got: Returned, place: str) -> int:
    cell = got.where.at(place_of(place))
    assert cell is not None
    return cell.row


def test_opening_and_saving_is_no_finding(tmp_path: Path) -> None:
    desk = Desk(tmp_path, "jacket")
    result, _ = desk.returned([])
    assert shorts(result) == desk.still_to_fill
    assert result.got.typed == desk.got.typed
    assert result.warnings == ()


def test_a_copy_is_filled_by_the_keyboard_alone(tmp_path: Path) -> None:
    """Tab goes from one open cell to the next, line by line, and every cell that must be filled is among its stops.

    Where a share belongs, the program puts the sign behind what is typed itself.
    """
    desk = Desk(tmp_path, "overshirt")
    got = desk.got
    given = answers("overshirt")
    given = {**given, **generated(got, given)}
    at = {place: cell for place in given if (cell := got.where.at(place)) is not None}
    assert at.keys() == given.keys()
    sheets = {
        sheet.title: sheet for sheet in openpyxl.load_workbook(desk.copy).worksheets if sheet.sheet_state == "visible"
    }
    steps: list[Step] = [
        {"do": "walk", "sheet": title, "as": title, "typed": [
            ((cell.row, cell.column), keys(got.ready.book.entries[place.entry].entry.kind, given[place], "cm").rstrip("%"))
            for place, cell in at.items() if cell.sheet == title
        ]}
        for title in sheets
    ]  # fmt: skip
    result, stops = desk.returned(steps)
    walked = 0
    for sheet in got.ready.book.sheets:
        if sheet.title in sheets:
            stopped = [tuple(cell) for cell in stops[sheet.title]]
            assert stopped == sorted(stopped), sheet.title
            assert asked_cells(sheet.name, got) <= set(stopped), sheet.title
            assert set(stopped) <= set(open_cells(sheets[sheet.title])), sheet.title
            walked += len(stopped)
    assert walked > 400
    assert shorts(result) == set()
    assert {place: result.got.typed.get(place) for place in given} == {
        place: pytest.approx(value, rel=1e-12) if isinstance(value, float) else value for place, value in given.items()
    }


def test_a_vendor_types_all_answers_there(tmp_path: Path) -> None:
    desk = Desk(tmp_path, "sweatshirt")
    given = answers("sweatshirt")
    given = {**given, **generated(desk.got, given)}
    steps = [
        desk.typed(str(place), keys(desk.got.ready.book.entries[place.entry].entry.kind, value, "in"))
        for place, value in given.items()
    ]
    open_cells = desk.at("checks.to_fill")
    before, after = ({"do": "show", **open_cells, "as": when} for when in ("before", "after"))
    fractions = [step["keys"] for step in steps if "/" in step["keys"] and " " in step["keys"]]
    assert any(
        text.replace("/", " ").replace(" ", "").isdigit() for text in fractions
    )  # inches as 12 3/8 are among them
    result, shown = desk.returned([before, *steps, after])
    assert shorts(result) == set()
    assert shown["before"] > 0 == shown["after"]
    for place, value in given.items():
        expected = pytest.approx(value, rel=1e-12) if isinstance(value, float) else value
        assert result.got.typed[place] == expected, place


def test_single_answers_are_read_as_what_they_are(tmp_path: Path) -> None:
    desk = Desk(tmp_path, "sweatshirt")
    asked = desk.got.shown[place_of("fit.points[P1].spec_r1")]
    assert isinstance(asked, float)
    result, _ = desk.returned([
        desk.typed("fit.points[P1].value_r1", fraction_text(asked + 0.375)),
        desk.typed("fit.points[P2].value_r1", "12 3/8"),
        desk.typed("quote.valid_until", "2027-02-15"),
        desk.typed("quote.efficiency", "62.5%"),
        desk.typed("materials.bom[M1].price", "4.65"),
        desk.typed("materials.bom[M1].supplier", "Dokuma Ağrı"),
        desk.typed("style.number", "MINE-1"),  # locked: the program refuses it
    ])  # fmt: skip
    typed = result.got.typed
    new = {str(place): value for place, value in typed.items() if desk.got.typed.get(place) != value}
    assert new == {
        "fit.points[P1].value_r1": asked + 0.375, "fit.points[P2].value_r1": 12.375,
        "quote.valid_until": datetime.date(2027, 2, 15), "quote.efficiency": 0.625,
        "materials.bom[M1].price": 4.65, "materials.bom[M1].supplier": "Dokuma Ağrı",
    }  # fmt: skip
    assert shorts(result) - desk.still_to_fill == {"sample-out-of-tolerance fit.points[P2].value_r1"}
    assert {short.removeprefix("entry-missing ") for short in desk.still_to_fill - shorts(result)} == set(new)


def test_a_blank_row_columns_and_order_do_no_harm(tmp_path: Path) -> None:
    desk = Desk(tmp_path, "jacket")
    result, _ = desk.returned([
        desk.row_above("materials.bom[M3].price"),
        {"do": "widen", "sheet": "Fit", "column": 4, "times": 3},
        {"do": "widen", "sheet": "Quote", "column": 1, "times": 0.5},
        {"do": "move", "sheet": "Quote", "before": 0},
        {"do": "move", "sheet": "Guide", "before": 9},
    ])  # fmt: skip
    assert row_of(result.got, "materials.bom[M3].price") == row_of(desk.got, "materials.bom[M3].price") + 1
    assert row_of(result.got, "materials.bom[M2].price") == row_of(desk.got, "materials.bom[M2].price")
    assert shorts(result) == desk.still_to_fill
    assert result.got.typed == desk.got.typed


def test_a_row_put_in_with_answers_is_read_and_given_a_ref(tmp_path: Path) -> None:
    desk = Desk(tmp_path, "jacket")
    above, below = "quote.ladder[U1]", "quote.ladder[U2]"
    result, _ = desk.returned([
        desk.row_above(f"{below}.price"),
        desk.typed(f"{above}.from_quantity", "500"), desk.typed(f"{above}.price", "14.5"),
        desk.typed(f"{below}.from_quantity", "1500"), desk.typed(f"{below}.price", "13.5"),  # where U2 was is the new row
    ])  # fmt: skip
    new = {str(place): value for place, value in result.got.typed.items() if place not in desk.got.typed}
    (added,) = result.got.added_rows
    assert added.row not in desk.got.where.tables["quote.ladder"].rows
    assert new == {
        f"{above}.from_quantity": 500, f"{above}.price": 14.5,
        f"quote.ladder[{added.row}].from_quantity": 1500, f"quote.ladder[{added.row}].price": 13.5,
    }  # fmt: skip
    assert shorts(result) == desk.still_to_fill


def test_an_unprotected_sheet_is_noted(tmp_path: Path) -> None:
    desk = Desk(tmp_path, "jacket")
    result, _ = desk.returned([{"do": "unprotect", "sheet": "Materials"}])
    assert shorts(result) - desk.still_to_fill == {"protection-off Materials"}


def test_a_renamed_sheet_is_found(tmp_path: Path) -> None:
    desk = Desk(tmp_path, "jacket")
    result, _ = desk.returned([
        {"do": "rename", "sheet": "Materials", "to": "Bill of materials 2"},
        {"do": "move", "sheet": "Bill of materials 2", "before": 0},
        desk.typed("quote.fob", "13.35"),
    ])  # fmt: skip
    assert result.got.renamed == {"materials": "Bill of materials 2"}
    assert result.got.typed == {**desk.got.typed, Place("quote.fob"): 13.35}
    assert desk.still_to_fill - shorts(result) == {"entry-missing quote.fob"}
    assert shorts(result) <= desk.still_to_fill


def test_changing_the_sample_size_in_the_grid_and_back_changes_nothing(tmp_path: Path) -> None:
    needs_bridge()
    path = tmp_path / "working.xlsx"
    path.write_bytes(file_bytes("overshirt"))
    got = read(BOOK, path)
    cell = got.where.at(place_of("style.sample_size"))
    sizes = [str(got.typed[place]) for place in got.typed if place.entry == "style.sizes.name"]
    own = got.typed[place_of("style.sample_size")]
    assert cell is not None
    steps: list[Step] = [{"do": "show_sheets", "as": "at first"}]
    for size in (*(size for size in sizes if size != own), str(own)):
        steps.append({"do": "type", "sheet": cell.sheet, "cell": cell.address, "keys": size})
        steps.append({"do": "show_sheets", "as": size})
    shown = driven(path, steps, tmp_path / "saved.xlsx")
    assert shown[str(own)] == shown["at first"]
    for size in sizes:
        assert (shown[size]["Measurements"] == shown["at first"]["Measurements"]) == (size == own), size
