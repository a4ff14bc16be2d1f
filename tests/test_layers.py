"""Each part imports only those to its left, each library has one door, and imports stand at the top of the file."""

import ast
import sys
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "sheetgen"

MAY_IMPORT = {
    "errors": set(),
    "trade": {"trade"},
    "cut_planning": {"cut_planning"},
    "drawing": {"drawing", "trade"},
    "nesting": {"nesting", "drawing", "trade"},
    "declare": {"declare"},
    "sheets": {"sheets", "declare", "trade"},
    "workbook": {"workbook", "declare", "trade", "errors"},
    "style": {"style", "drawing", "sheets", "workbook", "declare", "trade", "errors"},
    "audit": {"audit", "workbook", "declare", "trade", "errors"},
    "offers": {"offers", "sheets", "audit", "workbook", "declare", "trade", "errors"},
    "report": {"report", "audit", "workbook", "declare", "trade", "errors"},
    "testing": {"testing", "workbook", "declare", "errors"},
    "api": {"api", "style", "sheets", "offers", "audit", "workbook", "declare", "errors"},
    "jobs": {
        "jobs",
        "api",
        "style",
        "nesting",
        "cut_planning",
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
    "openpyxl": ("workbook/read/file.py",),
    "formualizer": ("workbook/model/engine.py", "testing/edit.py"),
    "python_calamine": ("workbook/read/file.py", "workbook/read/record.py"),
    "rich": ("report/terminal.py", "cli", "commands/"),
    "click": ("cli", "commands/", "__main__.py"),
    "ortools": ("cut_planning/rework.py",),
    "PIL": ("workbook/model/pictures.py",),
    "resvg_py": ("workbook/model/pictures.py",),
    "spyrrow": ("nesting/search.py",),
}
"""Library -> the files or folders that may import it."""

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


@pytest.mark.parametrize("path", FILES, ids=inner)
def test_imports_stand_at_the_top(path):
    if part_of(path).startswith("cli") or part_of(path) in {"commands", "__main__"}:
        return  # a command imports its heavy parts when it runs, so that --help is there at once
    assert [name for name, inside, _ in imports(path) if inside] == []


def test_what_is_imported_is_declared():
    declared = {
        "click", "defusedxml", "font_source_sans_pro", "formualizer", "openpyxl", "ortools", "PIL", "python_calamine", "resvg_py", "rich",
        "spyrrow", "xlsxwriter",
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
        "def f():\n    import rich\n    import_module('ortools.sat')\n"
    )
    assert sorted(imports(path)) == [
        ("ortools.sat", False, False),
        ("os.path", False, False),
        ("rich", True, False),
        ("sheetgen.audit.rule", False, False),
        ("sheetgen.sheets.BOOK", False, False),
        ("typing.TYPE_CHECKING", False, False),
        ("xlsxwriter.Workbook", False, True),
    ]
