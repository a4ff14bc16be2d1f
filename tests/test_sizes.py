"""Files stay short enough to be read, functions hold one idea, and no module is a drawer for everything."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
FILES = sorted(ROOT.joinpath("sheetgen").rglob("*.py"))
TESTS = sorted(ROOT.joinpath("tests").rglob("*.py"))
DECLARATIONS = [path for path in FILES if "sheets" in path.relative_to(ROOT).parts]

MOST_LINES = 300
MOST_LINES_OF_A_FUNCTION = 40
MOST_COLUMNS_OF_A_DECLARATION = 160
"""Declarations are tables, set by hand; all other lines are the formatter's."""
NO_NAMES = {"util", "utils", "helper", "helpers", "common", "misc", "shared", "tools", "base"}

PURE_DATA: dict[str, str] = {"sheetgen/audit/spoken.py": "a name for each entry, one a line"}
"""Files that may be longer, with the reason: only tables, no code."""


def inner(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def lengths(source: str) -> dict[str, int]:
    """Lines of each function without its docstring, by name."""
    found = {}
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            first = node.body[0]
            docstring = ast.get_docstring(node) is not None
            taken = (first.end_lineno or 0) - first.lineno + 1 if docstring else 0
            found[node.name] = (node.end_lineno or 0) - node.lineno + 1 - taken
    return found


@pytest.mark.parametrize("path", [*FILES, *TESTS], ids=inner)
def test_a_file_can_be_read_in_one_go(path):
    lines = len(path.read_text("utf-8").splitlines())
    assert lines <= MOST_LINES or inner(path) in PURE_DATA, f"{inner(path)} has {lines} lines"


@pytest.mark.parametrize("path", FILES, ids=inner)
def test_a_function_holds_one_idea(path):
    long = {name: lines for name, lines in lengths(path.read_text("utf-8")).items() if lines > MOST_LINES_OF_A_FUNCTION}
    assert long == {}, f"{inner(path)}: {long}"


@pytest.mark.parametrize("path", DECLARATIONS, ids=inner)
def test_a_line_of_a_declaration_can_be_read(path):
    lines = path.read_text("utf-8").splitlines()
    long = [number for number, line in enumerate(lines, 1) if len(line) > MOST_COLUMNS_OF_A_DECLARATION]
    assert long == [], f"{inner(path)}: lines {long} are longer than {MOST_COLUMNS_OF_A_DECLARATION}"


def test_the_declarations_of_both_books_are_looked_at():
    rooms = {path.relative_to(ROOT).parent.as_posix() for path in DECLARATIONS}
    assert rooms == {"sheetgen/sheets", "sheetgen/sheets/workings", "sheetgen/offers/sheets"}


@pytest.mark.parametrize("path", [*FILES, *TESTS], ids=inner)
def test_no_module_is_a_drawer(path):
    assert path.stem not in NO_NAMES
    assert path.parent.name not in NO_NAMES


def test_excepted_files_are_there_and_hold_only_data():
    for name, reason in PURE_DATA.items():
        assert reason
        assert lengths(ROOT.joinpath(name).read_text("utf-8")) == {}


def test_a_docstring_does_not_count():
    source = 'def f():\n    """One\n    two."""\n    a = 1\n    return a\n\n\nasync def g():\n    return 2\n'
    assert lengths(source) == {"f": 3, "g": 2}
