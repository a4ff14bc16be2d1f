"""Which texts a module holds, how each stands there, and which of them a person would read."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import sheetgen

PACKAGE = Path(sheetgen.__file__).parent

GATES = {"say", "say_many", "marked"}
FOR_DEVELOPERS = {
    "DeclarationError", "RuntimeError", "AssertionError", "KeyError", "AttributeError", "AddressError",
}  # fmt: skip
"""Errors that mean a bug or a wrong declaration: whoever reads them reads the code too."""
DECLARED = {
    "rule",
    "Example",
    "Do",
    "click.option",
    "click.argument",
    "click.command",
    "click.group",
    "click.version_option",
}
"""Calls that declare texts: the audit and the command line say them through the gate when they are shown."""
ELSEWHERE = {
    "sheets": "declarations of the sheets: the gate of the book takes them",
    "offers/sheets": "likewise",
    "report/worklist.py": "likewise",
    "trade": "published words and their sources",
    "garments": "declarations: they become briefs, whose words are the designer's from then on",
    "testing": "plays the vendor; its errors are for whoever writes an example",
    "drawing": "words of points of measure, by which drawings find them",
    "nesting/uppers.py": "words of measures, by which outlines find them",
    "nesting/lowers.py": "likewise",
    "nesting/parts.py": "likewise",
    "nesting/pieces.py": "likewise; what it refuses says so through the gate",
    "nesting/lanes.py": "an answer of one process to another",
    "style/starters/measures.py": "words of a first brief, which are the designer's from then on",
    "style/starters/units.py": "likewise",
    "style/starters/layers.py": "for whoever writes a starter",
    "declare": "for whoever declares a sheet",
}
"""Rooms that speak to nobody themselves, with the reason."""
SPEAK_ALL_THE_SAME = {"declare/kinds.py"}
"""A module of such a room whose words reach a person."""


class Text(NamedTuple):
    """A text in the code: where, what it says with its holes as {}, and the calls around it from inside out."""

    file: str
    line: int
    words: str
    calls: tuple[str, ...]
    in_function: bool


def texts(path: Path) -> Iterator[Text]:
    """Every text of a module but docstrings, comparisons, keys and what stands inside another text."""
    tree = ast.parse(path.read_text("utf-8"))
    parents = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}
    for node in ast.walk(tree):
        words = _words(node)
        if words is None or isinstance(parents[node], ast.Expr | ast.JoinedStr | ast.Compare | ast.FormattedValue):
            continue
        if _is_key(node, parents):
            continue
        around = list(_around(node, parents))
        if any(isinstance(one, ast.Assert) for one in around):
            continue  # a bug, for whoever mends it
        calls = tuple(ast.unparse(one.func) for one in around if isinstance(one, ast.Call))
        inside = any(isinstance(one, ast.FunctionDef) for one in around)
        yield Text(path.relative_to(PACKAGE).as_posix(), node.lineno, words, calls, inside)


def _words(node: ast.AST) -> str | None:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.JoinedStr):
        return "".join(str(one.value) if isinstance(one, ast.Constant) else "{}" for one in node.values)
    return None


def _around(node: ast.AST, parents: dict[ast.AST, ast.AST]) -> Iterator[ast.AST]:
    while node in parents:
        node = parents[node]
        yield node


def _is_key(node: ast.AST, parents: dict[ast.AST, ast.AST]) -> bool:
    parent = parents[node]
    return (isinstance(parent, ast.Dict) and node in parent.keys) or (
        isinstance(parent, ast.Subscript) and node is parent.slice
    )


def is_read_by_a_person(words: str) -> bool:
    """Whether a text looks like words of a sentence: two of them beside each other, in small letters, no code."""
    if (
        re.match(r"\s*[=<#&:]", words)
        or "://" in words
        or "</" in words
        or re.search(r"\(\?|\\[dwszb]|\[\^|{ ?\w+: ", words)
    ):
        return False
    return re.search(r"[a-z]{2,}[ ,;:.]+ ?(\{\}|[a-z])", words) is not None and " " in words.strip()


def spoken(path: Path) -> Iterator[Text]:
    """Texts of a module that a person would read."""
    yield from (text for text in texts(path) if is_read_by_a_person(text.words))


def rooms() -> list[Path]:
    """All modules that speak to people themselves."""
    silent = tuple(room if room.endswith(".py") else f"{room}/" for room in ELSEWHERE)
    inner = {path: path.relative_to(PACKAGE).as_posix() for path in sorted(PACKAGE.rglob("*.py"))}
    return [path for path, name in inner.items() if name in SPEAK_ALL_THE_SAME or not name.startswith(silent)]
