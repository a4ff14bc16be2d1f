"""Nothing is there for tests alone: each name of the package is reached from its front, or from what runs on import.

A name counts by its module: an import is followed to where the name was made, a local variable of the same name counts
for nothing, and what only a dead name reads is dead too. Methods count by their word, as no type is known here.
"""

from __future__ import annotations

import ast
import importlib
import inspect
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from textwrap import dedent

import pytest

import sheetgen

PACKAGE = Path(sheetgen.__file__).parent

PROMISED = {
    "sheetgen.api.__getattr__": "Python asks it for what the module does not hold",
    "sheetgen.testing.edit.typed_in": "tests play the vendor with it",
    "sheetgen.declare.wording.texts_of": "whoever gathers texts for another language starts here",
    "sheetgen.declare.wording.reworded": "how a copy in another language is read back",
    "sheetgen.texts.speak": "how another language comes in; English is the only catalog for now",
    "sheetgen.workbook.write.file.workbook_bytes": "the short form of `finished`, for whoever wants the file alone",
    "sheetgen.jobs.asking_back.query_copy": "an audit loads it when it is asked for: what builds a workbook takes long to load",
    "sheetgen.report.worklist.worklist": "likewise",
    "sheetgen.jobs.second_opinion.second_opinion": "two commands load it when it is asked for: so does its engine",
    "sheetgen.workbook.read.loading.load": "loaded with its library where a file was not read before",
    "sheetgen.workbook.model.shapes.shapes_seen": "likewise, where a drawing was not looked through before",
    "sheetgen.garments.*.GARMENT": "found by their folder",
    "sheetgen": "the front: what its `__all__` names",
    "sheetgen.api": "the public API: what its `__all__` names",
    "sheetgen.cli.main": "the command's entry point",
    "sheetgen.commands.*.command": "the command line finds it by its name",
}
"""Where reading begins, with the reason."""

STANDS_YET: dict[str, str] = {}
"""Dead names that are known; one that lives again, or is gone, must leave this list."""

HOOKS = {"_pickle.Pickler": ("reducer_override",)}
"""What a library calls where it is there, without having it itself (Python's own documentation)."""

ONLY_CHANGE_WHAT_THEY_DECORATE = {"dataclass", "property", "cached_property", "cache", "lru_cache", "staticmethod"}
"""Decorators that make nothing known elsewhere; any other one (a rule's, a command's) hands the function on."""


@dataclass
class Module:
    """One file: the names made at its top with the code that makes them, what it imports, and what runs on import."""

    name: str
    made: dict[str, list[ast.AST]] = field(default_factory=dict)
    imported: dict[str, str] = field(default_factory=dict)
    runs: list[ast.AST] = field(default_factory=list)


def module(path: Path, root: Path) -> Module:
    """Read one file of the package that stands in `root`."""
    found = Module(".".join(path.relative_to(root).with_suffix("").parts).removesuffix(".__init__"))
    tree = ast.parse(path.read_text("utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom):
            start = ".".join(path.relative_to(root).parts[: -node.level]) if node.level else ""
            source = ".".join(filter(None, (start, node.module)))
            found.imported.update({one.asname or one.name: f"{source}.{one.name}" for one in node.names})
        elif isinstance(node, ast.Import):
            found.imported.update({one.asname: one.name for one in node.names if one.asname})
    for node in tree.body:
        for name in names_made(node):
            found.made.setdefault(name, []).append(node)
        if handed_on(node) if isinstance(node, ast.FunctionDef | ast.ClassDef) else not names_made(node):
            found.runs.append(node)
    return found


def names_made(node: ast.stmt) -> list[str]:
    """Names that a statement at the top of a file makes; an `if` or a `try` counts as code that runs."""
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        return [node.name]
    if isinstance(node, ast.Assign | ast.AnnAssign):
        targets = node.targets if isinstance(node, ast.Assign) else [node.target]
        return [one.id for target in targets for one in ast.walk(target) if isinstance(one, ast.Name)]
    return []


def handed_on(node: ast.FunctionDef | ast.ClassDef) -> bool:
    """Whether a decorator may make it known elsewhere."""
    words = (ast.unparse(one).partition("(")[0].rpartition(".")[2] for one in node.decorator_list)
    return any(word not in ONLY_CHANGE_WHAT_THEY_DECORATE for word in words)


def own_names(function: ast.FunctionDef | ast.Lambda) -> set[str]:
    """Arguments and variables of a function."""
    given = function.args
    arguments = [*given.posonlyargs, *given.args, *given.kwonlyargs, given.vararg, given.kwarg]
    body = [function.body] if isinstance(function, ast.Lambda) else function.body
    stored = {
        one.id
        for part in body
        for one in ast.walk(part)
        if isinstance(one, ast.Name) and isinstance(one.ctx, ast.Store)
    }
    return stored | {one.arg for one in arguments if one is not None}


def reads(node: ast.AST, local: frozenset[str] = frozenset()) -> Iterator[tuple[str, str]]:
    """What a piece of code reads: ("name", n), ("attribute", a), ("of", "n.a"); the methods of a class are left out."""
    if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load) and node.id not in local:
        yield "name", node.id
    if isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Load):
        yield "attribute", node.attr
        if isinstance(node.value, ast.Name) and node.value.id not in local:
            yield "of", f"{node.value.id}.{node.attr}"
    inside = local
    if isinstance(node, ast.FunctionDef | ast.Lambda):
        inside = local | own_names(node)
    elif isinstance(node, ast.ListComp | ast.SetComp | ast.DictComp | ast.GeneratorExp):
        targets = {one.id for part in node.generators for one in ast.walk(part.target) if isinstance(one, ast.Name)}
        inside = local | targets
    for child in ast.iter_child_nodes(node):
        if not (isinstance(node, ast.ClassDef) and isinstance(child, ast.FunctionDef) and waits(child)):
            yield from reads(child, inside)


def waits(method: ast.FunctionDef) -> bool:
    """Whether a method is dead until something names it; Python itself calls the rest, and a decorator may."""
    return not (method.name.startswith("__") and method.name.endswith("__")) and not handed_on(method)


def methods(node: ast.AST) -> list[ast.FunctionDef]:
    """Methods of a class that wait to be named."""
    return [one for one in getattr(node, "body", []) if isinstance(one, ast.FunctionDef) and waits(one)]


class Package:
    """All modules, and what of them is reached."""

    def __init__(self, folder: Path, promised: Iterable[str]) -> None:
        found = (module(path, folder.parent) for path in sorted(folder.rglob("*.py")))
        self.modules = {one.name: one for one in found}
        self.promised = promised
        self.reached: set[str] = set()
        self.words: set[str] = set()
        self._waiting: list[tuple[str, str, ast.FunctionDef]] = []
        for one in self.modules.values():
            for node in one.runs:
                self._read(one, node)
        for start in self._starts():
            self._reach(start)
        self._reach_methods()

    def dead(self) -> list[str]:
        """Names made and never reached, then methods of reached classes that nothing names."""
        names = [f"{one.name}.{name}" for one in self.modules.values() for name in one.made]
        idle = [name for name in names if name not in self.reached and not name.rpartition(".")[2].startswith("__")]
        return [*self._alone(), *idle, *(f"{owner}.{method.name}" for _, owner, method in self._waiting)]

    def _alone(self) -> list[str]:
        """Modules that no other one imports."""
        addresses = [address for one in self.modules.values() for address in one.imported.values()]
        known = {*addresses, *(one.rpartition(".")[0] for one in (*addresses, *self._starts()))}
        rooms = {name.rpartition(".")[0] for name in self.modules}
        return [name for name in self.modules if name not in known | rooms and not name.endswith(".__main__")]

    def _starts(self) -> Iterator[str]:
        for start in self.promised:
            if start in self.modules:
                listed = next(node for node in self.modules[start].made["__all__"])
                names = [one.value for one in ast.walk(listed) if isinstance(one, ast.Constant)]
                yield from (f"{start}.{name!s}" for name in names)
            elif "*" in start:
                folder, name = start.split(".*.")
                yield from (f"{one}.{name}" for one in self.modules if one.startswith(f"{folder}."))
            else:
                yield start

    def _reach(self, address: str) -> None:
        """Follow an address to where its name is made, and read the code that makes it."""
        where, _, name = address.rpartition(".")
        home = self.modules.get(where)
        if home is None or address in self.reached:
            return
        if name not in home.made:
            if home.imported.get(name, address) != address:
                self._reach(home.imported[name])
            return
        self.reached.add(address)
        for node in home.made[name]:
            self._read(home, node)
            if isinstance(node, ast.ClassDef):
                theirs = names_of_foreign_bases(address) if methods(node) else frozenset()
                for method in methods(node):
                    if method.name in theirs:
                        self._read(home, method)
                    else:
                        self._waiting.append((where, address, method))

    def _read(self, home: Module, node: ast.AST) -> None:
        for kind, word in reads(node):
            if kind == "attribute":
                self.words.add(word)
            elif kind == "name":
                self._reach(f"{home.name}.{word}")
            elif (alias := word.partition(".")[0]) in home.imported:
                self._reach(f"{home.imported[alias]}.{word.partition('.')[2]}")

    def _reach_methods(self) -> None:
        while named := [one for one in self._waiting if one[2].name in self.words]:
            self._waiting = [one for one in self._waiting if one not in named]
            for where, _, method in named:
                self._read(self.modules[where], method)


@cache
def names_of_foreign_bases(address: str) -> frozenset[str]:
    """Names that a class has from libraries: what it overrides there, the library calls."""
    where, _, name = address.rpartition(".")
    bases = inspect.getmro(getattr(importlib.import_module(where), name))[1:]
    ours = where.partition(".")[0]
    found = frozenset(word for base in bases if base.__module__.partition(".")[0] != ours for word in vars(base))
    return found.union(*(HOOKS.get(f"{base.__module__}.{base.__name__}", ()) for base in bases))


def test_every_name_is_reached_from_the_front() -> None:
    dead = Package(PACKAGE, PROMISED).dead()
    assert sorted(dead) == sorted(STANDS_YET), "only tests use these, or nobody: take them out"


def test_dead_names_are_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    files = {
        "__init__": "from .front import answer as answer",
        "front": """
            from . import tables
            from .shapes import Box

            def answer() -> int:
                limit = tables.FIRST
                return Box().wide() + limit + _own()

            def _own() -> int:
                return 1

            def _left() -> int:
                return tables.SECOND

            def limit() -> int:
                return 2
        """,
        "tables": "FIRST = 1\nSECOND = _HALF = 2",
        "shapes": """
            import json

            class Box(json.JSONEncoder):
                def __repr__(self) -> str:
                    return "box"

                def default(self, o: object) -> object:
                    return _called_by_the_library(o)

                def wide(self) -> int:
                    return 1

                def high(self) -> int:
                    return 2

            def _called_by_the_library(o: object) -> object:
                return o
        """,
        "alone": "",
    }
    folder = tmp_path / "planted"
    folder.mkdir()
    for name, text in files.items():
        folder.joinpath(f"{name}.py").write_text(dedent(text), "utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    dead = Package(folder, ["planted.front.answer"]).dead()
    assert sorted(dead) == [
        "planted.alone",
        "planted.front._left",
        "planted.front.limit",
        "planted.shapes.Box.high",
        "planted.tables.SECOND",
        "planted.tables._HALF",
    ]
