"""Garments are found by themselves, each with its starter, and nothing else of the program knows one by name."""

import ast
import re
import sys
from importlib import import_module
from pathlib import Path
from types import SimpleNamespace

import pytest

import sheetgen
from sheetgen import garments
from sheetgen.garments import BY_WORD, GARMENTS, OUTLINES, Garment
from sheetgen.nesting.pieces import Piece
from sheetgen.style.starters import starter
from sheetgen.trade import outlines
from tests.nesting.filled import fill

PACKAGE = Path(sheetgen.__file__).parent
ROOM = Path(garments.__file__).parent
DECLARED = [path for path in sorted(ROOM.glob("*.py")) if path.stem not in {"__init__", "declaration"}]
EACH = [pytest.param(garment, id=garment.word) for garment in GARMENTS]


def held(path: Path) -> Garment:
    return import_module(f"sheetgen.garments.{path.stem}").GARMENT


def test_every_module_of_the_room_declares_a_garment_and_every_garment_is_found():
    assert sorted(garment.word for garment in GARMENTS) == sorted(held(path).word for path in DECLARED)
    assert len(BY_WORD) == sum(2 if garment.hooded else 1 for garment in GARMENTS)


def test_each_declaration_stands_beside_its_starter_under_the_same_name():
    files = {f"{path.stem}.toml" for path in DECLARED}
    assert {path.name for path in ROOM.glob("*.toml")} == files
    assert {garment.file for garment in GARMENTS} == files
    assert all(held(path).file == f"{path.stem}.toml" for path in DECLARED)


def test_lists_of_garments_have_the_order_that_is_declared():
    assert list(BY_WORD)[:4] == ["t-shirt", "sweatshirt", "hooded sweatshirt", "shirt"]
    places = [garment.place for garment in GARMENTS]
    assert places == sorted(places)


@pytest.mark.parametrize("garment", EACH)
def test_a_word_is_small_and_plain(garment):
    assert re.fullmatch(r"[a-z]+([ -][a-z]+)*", garment.word)
    if garment.hooded:
        assert garment.hooded.word not in {one.word for one in GARMENTS}


@pytest.mark.parametrize("garment", EACH)
def test_an_outline_of_its_own_is_named_nowhere_else_and_cut_in_its_starter(garment):
    cut = {row.get("outline") for row in starter(garment.word)["yield"]["pieces"]}
    assert set(garment.outlines) <= cut
    assert not set(garment.outlines) & set(outlines.SHARED)
    assert set(garment.outlines) <= set(OUTLINES)
    for outline in garment.outlines:
        assert 0.1 < fill(Piece("Y1", "", outline, 30, 20)) <= 1


def texts(source: str) -> set[str]:
    """All text in a module but its docstrings."""
    tree = ast.parse(source)
    said = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    return {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in said
    }


def names_in(source: str) -> list[str]:
    """Texts that hold a garment's word and are no outline of the trade."""
    words = re.compile(rf"\b({'|'.join(map(re.escape, BY_WORD))})\b", re.IGNORECASE)
    return sorted(text for text in texts(source) if words.search(text) and text not in outlines.SHARED)


@pytest.mark.parametrize("part", ["drawing", "nesting", "style"])
def test_no_module_asks_for_a_garment_by_name(part):
    files = sorted(PACKAGE.joinpath(part).rglob("*.py"))
    found = {path.name: names for path in files if (names := names_in(path.read_text("utf-8")))}
    assert found == {}, "ask a feature of the garment's declaration instead"


def test_the_search_for_names_finds_them():
    source = '"""Of a skirt."""\nif n.garment == "Shirt":\n    x = f"{y} of hooded sweatshirts"\nz = "sweatshirt" in a\n"""A dress."""\n'
    assert names_in(source) == ["Shirt", "sweatshirt"]
    assert names_in('SHAPES = {"skirt panel": 1, "shirts": 2}\n') == []


def test_a_new_module_is_all_that_a_garment_needs_to_be_found(tmp_path, monkeypatch):
    (tmp_path / "apron.py").write_text(
        "from sheetgen.garments.declaration import Features, Garment\n"
        'GARMENT = Garment("apron", 1, "one size", "woven", Features("waist to hem"), ())\n',
        "utf-8",
    )
    (tmp_path / "tables.py").write_text("ROWS = ()\n", "utf-8")
    monkeypatch.setattr(garments, "__path__", [str(tmp_path)])
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.setattr(garments, "import_module", lambda name: import_module(name.rpartition(".")[2]))
    for name in ("apron", "tables"):
        monkeypatch.delitem(sys.modules, name, raising=False)
    assert [garment.word for garment in garments._declared()] == ["apron"]


def test_a_module_without_a_garment_is_no_trouble(monkeypatch):
    monkeypatch.setattr(garments, "import_module", lambda _: SimpleNamespace(GARMENT="skirt"))
    assert list(garments._declared()) == []
