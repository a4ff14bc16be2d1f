"""Each part imports only those to its left, each library has one door, and imports stand at the top of the file."""

import ast
import re
import sys
from functools import cache
from pathlib import Path

import pytest

from sheetgen.sheets import BOOK

PACKAGE = Path(__file__).parents[1] / "sheetgen"

MAY_IMPORT = {
    "errors": set(),
    "store": set(),
    "texts": {"texts"},
    "trade": {"trade"},
    "garments": {"garments", "texts", "trade"},
    "cut_planning": {"cut_planning", "texts"},
    "drawing": {"drawing", "garments", "texts", "trade"},
    "nesting": {"nesting", "garments", "texts", "drawing", "trade"},
    "declare": {"declare", "texts", "store"},
    "sheets": {"sheets", "garments", "texts", "declare", "trade"},
    "workbook": {"workbook", "texts", "declare", "trade", "errors", "store"},
    "style": {"style", "garments", "texts", "drawing", "sheets", "workbook", "declare", "trade", "errors", "store"},
    "audit": {"audit", "texts", "workbook", "declare", "trade", "errors"},
    "offers": {"offers", "texts", "sheets", "audit", "workbook", "declare", "trade", "errors"},
    "pack": {"pack", "texts", "workbook", "declare", "trade", "errors"},
    "report": {"report", "texts", "audit", "workbook", "declare", "trade", "errors"},
    "testing": {"testing", "texts", "workbook", "declare", "errors"},
    "api": {"api", "texts", "style", "sheets", "offers", "audit", "workbook", "declare", "errors"},
    "jobs": {
        "jobs",
        "texts",
        "api",
        "style",
        "nesting",
        "cut_planning",
        "pack",
        "sheets",
        "testing",
        "report",
        "audit",
        "workbook",
        "declare",
        "trade",
        "errors",
    },
}
"""Part -> parts that it may import. What is not listed (the command line) may import all but `testing`."""

ROOMS_OF_THE_WORKBOOK = {
    "model": {"model"},
    "write": {"model", "write"},
    "read": {"model", "write", "read"},
    "exchange": {"model", "write", "read", "exchange"},
}
"""Room of `workbook` -> rooms that it may import."""

PLAY_THE_VENDOR = {"testing", "jobs/demo.py"}
"""Who may import `testing`."""

NAME_THE_BOOK = {"__init__", "api", "jobs", "offers", "style"}
"""Parts that may import the real sheets, beside the command line."""

DOORS = {
    "xlsxwriter": ("workbook/write/",),
    "openpyxl": ("workbook/read/loading.py",),
    "formualizer": ("workbook/model/engine.py", "workbook/model/formulas.py", "testing/edit.py"),
    "python_calamine": ("workbook/read/binary.py", "workbook/read/record.py"),
    "rich": ("report/terminal.py", "cli", "commands/"),
    "click": ("cli", "commands/", "__main__.py"),
    "clingo": ("cut_planning/solver.py",),
    "PIL": ("workbook/model/pictures.py", "workbook/model/raster.py", "workbook/model/traces.py"),
    "resvg_py": ("workbook/model/raster.py",),
    "spyrrow": ("nesting/search.py",),
    "typst": ("pack/typeset.py",),
    "fontTools": ("pack/typeset.py",),
}
"""Library -> the files or folders that may import it."""

PRIVATE_MEMBERS = {
    "workbook/read/loading.py": {"_cells"},
    "workbook/write/recording.py": {"_prepare_formula", "_write_formula", "_check_dimensions", "_escape_attributes"},
}
"""Door -> private members of its library that it touches, because nothing public does the same. Nobody else touches any."""

PUBLIC_IN_SPITE = {"_replace", "_asdict", "_fields", "_make", "_exit"}
"""Public in spite of their names: members of named tuples, and `os._exit` (Python's own documentation)."""

SPEAK_OF_SHEETS = {"sheets", "style", "offers", "pack", "audit", "api", "jobs", "commands"}
"""Parts that may name an entry of the real book by its address; all others are told what they must know."""

ONLY_FOR_TYPES = {"xlsxwriter"}
"""Libraries whose types may be named elsewhere, under TYPE_CHECKING."""

FILES = sorted(PACKAGE.rglob("*.py"))


@cache
def imports(path: Path) -> list[tuple[str, bool, bool]]:
    """Modules that a file imports, in full; whether inside a function; whether only for the type checker."""
    tree = ast.parse(path.read_text("utf-8"))
    inside = {
        id(node) for function in ast.walk(tree) if isinstance(function, ast.FunctionDef) for node in ast.walk(function)
    }
    typing = {
        id(node)
        for test in ast.walk(tree)
        if isinstance(test, ast.If) and ast.unparse(test.test) == "TYPE_CHECKING"
        for node in ast.walk(test)
    }
    package = ("sheetgen", *path.relative_to(PACKAGE).parts[:-1])
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(package[: len(package) - node.level + 1]) if node.level else ""
            start = ".".join(word for word in (base, node.module or "") if word)
            names = [f"{start}.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Call) and ast.unparse(node.func) == "import_module":
            # A library that is large and seldom needed is loaded when it is; it has its door all the same.
            found.extend((arg.value, False, False) for arg in node.args if isinstance(arg, ast.Constant))
            continue
        else:
            continue
        found.extend((name, id(node) in inside, id(node) in typing) for name in names)
    return found


def inner(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


def part_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@pytest.mark.parametrize("path", FILES, ids=inner)
def test_a_part_imports_only_what_stands_to_its_left(path):
    allowed = MAY_IMPORT.get(part_of(path))
    for name, _, _ in imports(path):
        if allowed is not None and name.startswith("sheetgen."):
            assert name.split(".")[1] in allowed, f"{inner(path)} imports {name}"


@pytest.mark.parametrize("path", [path for path in FILES if part_of(path) == "workbook"], ids=inner)
def test_a_room_of_the_workbook_imports_only_what_stands_before_it(path):
    rooms = path.relative_to(PACKAGE / "workbook").parts[:-1]
    for name, _, _ in imports(path):
        if rooms and name.startswith("sheetgen.workbook."):
            assert name.split(".")[2] in ROOMS_OF_THE_WORKBOOK[rooms[0]], f"{inner(path)} imports {name}"


@pytest.mark.parametrize("path", FILES, ids=inner)
def test_only_the_demonstration_plays_the_vendor(path):
    named = [name for name, _, _ in imports(path) if name.startswith("sheetgen.testing")]
    assert not named or inner(path).startswith(tuple(PLAY_THE_VENDOR)), f"{inner(path)} imports {named}"


@pytest.mark.parametrize("path", FILES, ids=inner)
def test_only_the_outermost_modules_name_the_real_book(path):
    part = part_of(path)
    may = part in NAME_THE_BOOK or part == "sheets" or part.startswith("cli") or part == "commands"
    named = [name for name, _, _ in imports(path) if name.startswith("sheetgen.sheets")]
    assert may or not named, f"{inner(path)} imports {named}"


@pytest.mark.parametrize("path", FILES, ids=inner)
def test_each_library_has_its_door(path):
    for name, _, typing in imports(path):
        library = name.partition(".")[0]
        if library in DOORS and not (typing and library in ONLY_FOR_TYPES):
            assert inner(path).startswith(DOORS[library]), f"{inner(path)} imports {library}"


def texts(path: Path) -> list[str]:
    """All texts in a file's code, parts of f-strings too; no docstrings."""
    tree = ast.parse(path.read_text("utf-8"))
    plain = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in plain
    ]


def addresses(path: Path) -> list[str]:
    """Texts of a file that are addresses of the real book, or begin one that an f-string goes on with."""
    sheets = "|".join(sheet.name for sheet in BOOK.sheets)
    return [text for text in texts(path) if re.match(rf"(?:{sheets})\.(?:[a-z_]|\Z)", text)]


@pytest.mark.parametrize("path", FILES, ids=inner)
def test_only_parts_that_know_the_sheets_hold_addresses(path):
    if part_of(path) not in SPEAK_OF_SHEETS:
        assert addresses(path) == [], f"{inner(path)}: let the book say it (declare/about.py)"


def private_members(path: Path) -> set[str]:
    """Private members of other things that a file touches, by name or by getattr; those of its own classes are its own."""
    tree = list(ast.walk(ast.parse(path.read_text("utf-8"))))
    own = {node.name for node in tree if isinstance(node, ast.FunctionDef | ast.ClassDef)}
    touched = set()
    for node in tree:
        if isinstance(node, ast.Attribute):
            (own if ast.unparse(node.value) in {"self", "cls"} else touched).add(node.attr)
        elif isinstance(node, ast.Call) and ast.unparse(node.func) in {"getattr", "hasattr", "setattr"}:
            touched |= {arg.value for arg in node.args if isinstance(arg, ast.Constant) and isinstance(arg.value, str)}
    return {name for name in touched - own - PUBLIC_IN_SPITE if name.startswith("_") and not name.startswith("__")}


@pytest.mark.parametrize("path", FILES, ids=inner)
def test_private_members_of_a_library_are_touched_at_its_door_alone(path):
    assert private_members(path) <= PRIVATE_MEMBERS.get(inner(path), set())


@pytest.mark.parametrize("path", FILES, ids=inner)
def test_imports_stand_at_the_top(path):
    if part_of(path).startswith("cli") or part_of(path) in {"commands", "__main__"}:
        return  # a command imports its heavy parts when it runs, so that --help is there at once
    assert [name for name, inside, _ in imports(path) if inside] == []


def test_what_is_imported_is_declared():
    declared = {
        "click", "clingo", "defusedxml", "font_source_sans_pro", "formualizer", "openpyxl", "PIL", "python_calamine", "resvg_py", "rich",
        "formulas", "numpy", "platformdirs", "schedula", "spyrrow", "typst", "fontTools", "xlsxwriter",
    }  # fmt: skip
    used = {name.partition(".")[0] for path in FILES for name, _, _ in imports(path)} - set(sys.stdlib_module_names)
    assert used - {"sheetgen"} <= declared


def test_the_reader_of_imports_reads_them(tmp_path, monkeypatch):
    monkeypatch.setattr(f"{__name__}.PACKAGE", tmp_path)
    (tmp_path / "audit").mkdir()
    path = tmp_path / "audit" / "x.py"
    path.write_text(
        "import os.path\nfrom . import rule\nfrom ..sheets import BOOK\nfrom typing import TYPE_CHECKING\n"
        "if TYPE_CHECKING:\n    from xlsxwriter import Workbook\n"
        "def f():\n    import rich\n    import_module('clingo.backend')\n"
    )
    assert sorted(imports(path)) == [
        ("clingo.backend", False, False),
        ("os.path", False, False),
        ("rich", True, False),
        ("sheetgen.audit.rule", False, False),
        ("sheetgen.sheets.BOOK", False, False),
        ("typing.TYPE_CHECKING", False, False),
        ("xlsxwriter.Workbook", False, True),
    ]
