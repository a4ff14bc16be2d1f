"""The slips that are put into code, and that they reach the program that runs: by hand, on a few lines."""

from __future__ import annotations

import ast
import importlib
import sys
import textwrap
from pathlib import Path

import pytest

from tests.mutation.explained import load_explained
from tests.mutation.modules import MODULES, ROOT, chosen, dotted
from tests.mutation.patch import put_in
from tests.mutation.slips import slipped, slips


def all_of(source: str) -> list[str]:
    return [slip.words for slip in slips(textwrap.dedent(source))]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("return a < b", ["return None", "a <= b", "a >= b"]),
        ("return a == b", ["return None", "a != b"]),
        ("return a + b", ["return None", "a - b"]),
        ("return a // b", ["return None", "a * b"]),
        ("return not a", ["return None", "a"]),
        ("return -a", ["return None", "a"]),
        ("return a and b", ["return None", "a or b", "without `a`", "without `b`"]),
        ("return 3", ["return None", "3 becomes 4", "3 becomes 2"]),
        ("return True", ["return None", "True becomes False"]),
        ("return 'x'", ["return None", "'x' becomes 'x_'"]),
        ("return None", []),
        ("return", []),
        ("return f(a, b)", ["return None", "f(b, a)"]),
        ("return min(a, b)", ["return None", "min becomes max"]),
        ("return a in {'x'}", ["return None", "a not in {'x'}", "'x' becomes 'x_'"]),
        ("f(a)", ["without `f(a)`"]),
        ("a += 1", ["without `a += 1`", "1 becomes 2", "1 becomes 0"]),
        ("a[b] = c", ["without `a[b] = c`"]),
        ("raise a", ["without `raise a`"]),
        ("'words'", []),
        ("return a if b else c", ["return None", "not b"]),
        ("return [x for x in a if x]", ["return None", "without `if x`"]),
    ],
)
def test_what_can_slip_in_a_line(line: str, words: list[str]) -> None:
    found = slips(f"def f(a, b, c):\n    {line}\n")
    assert [slip.words for slip in found] == words
    assert {(slip.line, slip.function) for slip in found} <= {(2, "f")}


def test_types_decorators_and_words_for_people_are_left_alone() -> None:
    source = '''
        """Words."""
        from x import y
        Value = dict[str, int]

        @y(3)
        def f(a: Literal["x", "y"] = "z") -> Literal[1]:
            """Words of 3."""
    '''
    assert all_of(source) == []


def test_every_slip_is_one_change_of_the_code() -> None:
    source = "LEAST = 3\n\n\ndef f(a, b=2):\n    if a < b:\n        return a + 1\n    return LEAST\n"
    texts = [ast.unparse(slipped(source, slip)) for slip in slips(source)]
    assert texts[:3] == [
        source.replace("LEAST = 3", "LEAST = 4").strip().replace("\n\n\n", "\n\n"),
        source.replace("LEAST = 3", "LEAST = 2").strip().replace("\n\n\n", "\n\n"),
        source.replace("b=2", "b=3").strip().replace("\n\n\n", "\n\n"),
    ]
    assert len(set(texts)) == len(texts) == 12
    assert ast.unparse(ast.parse(source)) not in texts


@pytest.fixture
def module(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """A small module with every sort of thing that can be changed, loaded; and one that took things from it."""
    (tmp_path / "sheetgen_slips.py").write_text(SMALL, "utf-8")
    monkeypatch.syspath_prepend(str(tmp_path))
    yield importlib.import_module("sheetgen_slips")
    del sys.modules["sheetgen_slips"]


SMALL = """
from functools import cache

LEAST = 300
TWICE = 2 * LEAST

def doubled(a, b=1):
    return a * 2 + b

@cache
def kept(a):
    return a + 1

def limit():
    return LEAST

class Box:
    @property
    def size(self):
        return 4

    def full(self):
        return self.size > 3
"""


def put(words: str, line: int) -> None:
    slip = next(slip for slip in slips(SMALL) if slip.words == words and slip.line == line)
    put_in("sheetgen_slips", SMALL, slip)


def test_a_slip_reaches_whoever_holds_the_function(module) -> None:
    held, cached, box = module.doubled, module.kept, module.Box()
    assert (held(3), cached(1), box.size, box.full()) == (7, 2, 4, True)
    put("a * 2 - b", 8)
    assert held(3) == 5
    put("a - 1", 12)
    cached.cache_clear()
    assert cached(1) == 0
    put("4 becomes 5", 20)
    assert box.size == 5
    put("self.size <= 3", 23)
    assert box.full() is False


def test_a_slip_in_a_default_reaches_it_too(module) -> None:
    held = module.doubled
    put("1 becomes 2", 7)
    assert held(3) == 8


def test_a_slip_in_a_table_reaches_what_is_worked_out_from_it(module) -> None:
    put("300 becomes 301", 4)
    assert (module.LEAST, module.TWICE, module.limit()) == (301, 602, 301)


def test_the_modules_and_their_tests_are_there() -> None:
    for path, tests in MODULES.items():
        assert (ROOT / path).is_file(), path
        assert all((ROOT / test).is_file() for test in tests), path
        assert tests, path
        assert slips((ROOT / path).read_text("utf-8")), path


def test_modules_are_chosen_by_words_of_their_path() -> None:
    assert chosen([]) == list(MODULES)
    assert chosen(["exchange/accept"]) == ["sheetgen/workbook/exchange/accept.py"]
    assert dotted("sheetgen/workbook/exchange/accept.py") == "sheetgen.workbook.exchange.accept"
    assert dotted("sheetgen/api/__init__.py") == "sheetgen.api"


def test_what_is_explained_still_stands_in_the_code() -> None:
    for path, listed in load_explained().items():
        source = (ROOT / path).read_text("utf-8")
        lines = source.splitlines()
        possible = {(lines[slip.line - 1].strip(), slip.words) for slip in slips(source)}
        for one in listed:
            missing = [words for words in one.slips if (one.line, words) not in possible]
            assert missing == [], f"{path}: {one.line} has no such slip any more"
            assert one.why
