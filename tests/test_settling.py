"""Changes in the grid that can be meant in two ways: told with their cell, nothing written, and done as the designer says."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.api.making import from_values
from sheetgen.cli import main
from sheetgen.declare.entry import Place, place_of
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit, edited
from sheetgen.workbook.model.values import Values
from tests.loop import loop


@cache
def before() -> Values:
    """What somebody typed into the overshirt's working workbook."""
    got = api.read(loop() / "a-working.xlsx")
    entries = got.ready.book.entries
    return {
        place: value for place, value in got.typed.items()
        if entries[place.entry].entry.who in ("designer", "vendor") and not entries[place.entry].entry.original
    }  # fmt: skip


def typed(built: api.Built) -> Values:
    """What stands in a built style, without the drawings on which the program draws."""
    entries = BOOK.entries
    return {
        place: value
        for place, value in built.values.items()
        if not (place.entry in entries and entries[place.entry].entry.original)
    }


@cache
def lengths() -> frozenset[Place]:
    entries = api.read(loop() / "a-working.xlsx").ready.book.entries
    return frozenset(place for place in before() if entries[place.entry].entry.kind.name == "length")


def with_edits(folder: Path, *edits: Edit) -> Path:
    path = folder / "o-working.xlsx"
    edited(BOOK, loop() / "a-working.xlsx", edits, path)
    return path


def family(values: Values, address: str) -> dict[Place, object]:
    """The values of an entry, all members of it."""
    return {place: value for place, value in values.items() if place.entry.rpartition("_z")[0] == address}


def test_another_unit_in_the_grid_is_told_and_nothing_is_written(tmp_path, capsys):
    path = with_edits(tmp_path, Edit("style.unit", "type", "in"))
    for command in (["build", str(path), "--out", str(tmp_path / "b.xlsx")], ["issue", str(path)]):
        assert main(command) == 2
        said = " ".join(capsys.readouterr().err.split())
        assert "o-working.xlsx: Style " in said
        assert "the unit is in and was cm" in said
        assert "--unit in" in said
        assert "--keep-figures" in said
        assert list(tmp_path.iterdir()) == [path]


def test_lengths_are_converted_where_that_is_asked_and_only_they(tmp_path):
    path = with_edits(tmp_path, Edit("style.unit", "type", "in"))
    built = api.build(path, settle=api.Settle(unit="in"))
    assert built.not_carried == ()
    for place, value in before().items():
        if place == Place("style.unit"):
            assert built.values[place] == "in"
        elif place in lengths():
            # International yard and pound agreement of 1959: one inch is 2.54 cm.
            assert built.values[place] == pytest.approx(value / 2.54, rel=1e-12), place
        else:
            assert built.values[place] == value, place
    assert len(lengths()) > 150
    assert built.values[place_of("measurements.points[P1].base")] == pytest.approx(
        before()[place_of("measurements.points[P1].base")] / 2.54
    )
    # The same garment takes the same cloth: metres do not ask in what it was measured.
    shown = api.build(loop() / "a-working.xlsx").shown
    assert built.shown[place_of("yield.fabrics[B1].mix")] == pytest.approx(shown[place_of("yield.fabrics[B1].mix")])


def test_there_and_back_is_the_same_style(tmp_path):
    (tmp_path / "inches.xlsx").write_bytes(api.build(loop() / "a-working.xlsx", settle=api.Settle(unit="in")).data)
    back = typed(api.build(tmp_path / "inches.xlsx", settle=api.Settle(unit="cm")))
    assert back.keys() == before().keys()
    for place, value in before().items():
        if isinstance(value, int | float):
            assert back[place] == pytest.approx(value, rel=1e-9), place
        else:
            assert back[place] == value, place


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("style", ["overshirt", "sweatshirt", "jacket"])
def test_a_style_in_another_unit_has_nothing_to_fix(style, unit, tmp_path):
    path = tmp_path / "other.xlsx"
    path.write_bytes(api.build(loop(style) / "a-working.xlsx", settle=api.Settle(unit=unit)).data)
    assert [one for one in api.audit(path).findings if one.level == "fix"] == []


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_what_was_approved_and_laid_stands_in_another_unit(unit, tmp_path):
    item, lay = "approvals.items.{}", "cutting.lays.{}"
    values: Values = {place: value for place, value in before().items() if place != Place(item.format("about"), "V3")}
    values |= {Place(item.format("kind"), "V3"): "trims card", Place(item.format("decision"), "V3"): "approved"}
    values |= {Place(lay.format("lay"), "A1"): "One", Place(lay.format("laid_long"), "A1"): 3.2}
    values[Place("cutting.lay_material")] = "M1"
    stamp = from_values(values).shown[Place(lay.format("laid_now"), "A1")]
    laid = tmp_path / "laid.xlsx"
    laid.write_bytes(from_values({**values, Place(lay.format("laid_stamp"), "A1"): stamp}).data)
    for built in (api.build(laid), api.build(laid, settle=api.Settle(unit=unit))):
        assert built.shown[Place("approvals.items.since", "V3")] == "the same"
        assert built.shown[Place("cutting.lays.state", "A1")] == "as laid"
        assert built.values[Place("approvals.items.given_revision", "V3")] == 1


def test_figures_are_kept_where_that_is_asked(tmp_path):
    path = with_edits(tmp_path, Edit("style.unit", "type", "in"))
    kept = typed(api.build(path, settle=api.Settle(keep_figures=True)))
    assert {place: value for place, value in kept.items() if place != Place("style.unit")} == {
        place: value for place, value in before().items() if place != Place("style.unit")
    }


def test_another_currency_is_never_guessed(tmp_path):
    path = with_edits(tmp_path, Edit("style.currency", "type", "USD"))
    with pytest.raises(
        UserError, match=r"Style [A-Z]\d+: the currency is USD and was EUR .* amounts are not converted"
    ):
        api.build(path)
    assert api.build(path, settle=api.Settle(keep_figures=True)).text("style.currency") == "USD"


def test_another_sample_size_must_say_what_moves(tmp_path):
    sizes = [value for place, value in before().items() if place.entry == "style.sizes.name"]
    was = before()[Place("style.sample_size")]
    now = sizes[sizes.index(was) + 1]
    path = with_edits(tmp_path, Edit("style.sample_size", "type", now))
    with pytest.raises(UserError, match="moves-base"):
        api.build(path)
    with pytest.raises(UserError, match="moves-base"):
        api.issue(path)
    graded = family(api.build(loop() / "a-working.xlsx").shown, "measurements.points.spec")
    stays = family(api.build(path, settle=api.Settle(sample_size="moves-base")).shown, "measurements.points.spec")
    assert {place: value for place, value in stays.items() if value not in (None, "")} == {
        place: pytest.approx(value, abs=1e-9) for place, value in graded.items() if value not in (None, "")
    }
    moves = api.build(path, settle=api.Settle(sample_size="moves-sizes"))
    number = sizes.index(now) + 1
    assert (
        moves.shown[place_of(f"measurements.points[P1].spec_z{number}")]
        == before()[place_of("measurements.points[P1].base")]
    )


def test_what_names_a_size_follows_when_it_is_called_otherwise(tmp_path):
    was = before()[Place("style.sample_size")]
    row = next(place.row for place, value in before().items() if place.entry == "style.sizes.name" and value == was)
    path = with_edits(tmp_path, Edit(f"style.sizes[{row}].name", "type", f"{was}R"))
    built = api.build(path)
    assert built.text("style.sample_size") == f"{was}R"
    named = {
        place
        for place, value in before().items()
        if value == was and place.entry in ("fit.rounds.size", "measurements.points.break_from")
    }
    assert named
    assert {built.values[place] for place in named} == {f"{was}R"}
    graded = family(api.build(loop() / "a-working.xlsx").shown, "measurements.points.spec")
    assert family(built.shown, "measurements.points.spec") == graded
    assert not [
        place for place, value in built.shown.items() if "_astray_" in place.entry and value not in (0, None, "")
    ]


def test_these_options_are_for_workbooks(tmp_path, capsys):
    brief = tmp_path / "brief.toml"
    brief.write_text('[style]\nnumber = "A-1"\n', "utf-8")
    assert main(["build", str(brief), "--unit", "cm"]) == 2
    assert "are for workbooks" in " ".join(capsys.readouterr().err.split())


def test_a_brand_fills_what_a_workbook_leaves_blank_and_says_what_it_leaves(tmp_path, capsys):
    path = with_edits(tmp_path, Edit("style.footer", "type", None), Edit("style.paper", "type", "Letter"))
    brand = Path(__file__).parents[1] / "sample_inputs" / "brand" / "brand.toml"
    out = tmp_path / "b.xlsx"
    assert main(["build", str(path), "--brand", str(brand), "--out", str(out)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "brand.toml fills: style.footer" in said
    assert "was not asked: style.paper" in said
    typed = api.read(out).typed
    assert typed[Place("style.footer")] == before()[Place("style.footer")]
    assert typed[Place("style.paper")] == "Letter"
    assert main(["build", str(path), "--brand", str(brand), "--brand", str(brand), "--out", str(out), "--replace"]) == 2
    assert "--brand is given twice" in capsys.readouterr().err
