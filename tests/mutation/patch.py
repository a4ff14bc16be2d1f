"""Puts a slip into the running program: into the functions that all importers share, or the tables that they hold.

The tests import names (`from ... import merge`), so a changed module would not reach them. A function keeps its identity
and gets other code; a table at the top of a module is put wherever its name stands.
"""

from __future__ import annotations

import ast
import functools
import sys
import types
from collections.abc import Iterator
from importlib import import_module
from typing import Any

from tests.mutation.slips import Slip, slipped


def put_in(name: str, source: str, slip: Slip) -> None:
    """Change the loaded module `name`, whose source this is, as the slip has it."""
    module = import_module(name)
    tree = slipped(source, slip)
    code = compile(tree, str(module.__file__), "exec")
    if slip.function:
        live = function_of(module, slip.function)
        live.__code__ = _code_of(code, slip.function)
        made = _again(module, code)
        fresh = function_of(made, slip.function)
        live.__defaults__, live.__kwdefaults__ = fresh.__defaults__, fresh.__kwdefaults__
    else:
        _put_tables(module, _again(module, code), _tables(tree, slip.line))
    forget()


def function_of(module: types.ModuleType, path: str) -> types.FunctionType:
    """The function under whatever wraps it: a rule, a cache, a property; LookupError if it is not found."""
    held: Any = module
    for word in path.split("."):
        held = vars(held)[word]
    return _unwrapped(held, path.rpartition(".")[2])


def _unwrapped(held: Any, name: str) -> types.FunctionType:
    if isinstance(held, types.FunctionType) and held.__name__ == name and not hasattr(held, "__wrapped__"):
        return held
    inner = [getattr(held, word, None) for word in ("__wrapped__", "fget", "func", "__func__", "check")]
    for one in inner:
        if one is not None:
            return _unwrapped(one, name)
    raise LookupError(f"{name} is wrapped in something unknown: {held!r}")


def _code_of(code: types.CodeType, path: str) -> types.CodeType:
    for word in path.split("."):
        code = next(one for one in code.co_consts if isinstance(one, types.CodeType) and one.co_name == word)
    return code


def _again(module: types.ModuleType, code: types.CodeType) -> types.ModuleType:
    """The module run anew beside the loaded one."""
    made = types.ModuleType(module.__name__)
    made.__dict__.update(__file__=module.__file__, __package__=module.__package__)
    exec(code, made.__dict__)
    return made


def _tables(tree: ast.Module, line: int) -> list[str]:
    """The names that the statement at a line assigns, and those at the top that are worked out from them."""
    made = {name: statement for statement in tree.body for name in _names_of(statement)}
    touched = {name for name, one in made.items() if one.lineno <= line <= (one.end_lineno or 0)}
    before: set[str] = set()
    while before != touched:
        before = set(touched)
        touched |= {name for name, one in made.items() if _read(one) & before}
    return [name for name in made if name in touched and not isinstance(made[name], ast.FunctionDef)]


def _names_of(statement: ast.stmt) -> list[str]:
    """What a statement at the top of a module names: a table or a function."""
    if isinstance(statement, ast.FunctionDef):
        return [statement.name]
    targets = statement.targets if isinstance(statement, ast.Assign) else []
    targets = [statement.target] if isinstance(statement, ast.AnnAssign) else targets
    return [target.id for target in targets if isinstance(target, ast.Name)]


def _read(statement: ast.stmt) -> set[str]:
    return {node.id for node in ast.walk(statement) if isinstance(node, ast.Name)}


def _put_tables(module: types.ModuleType, made: types.ModuleType, names: list[str]) -> None:
    for name in names:
        old, new = vars(module)[name], vars(made)[name]
        for other in list(sys.modules.values()):
            if other is module or getattr(other, "__name__", "").partition(".")[0] in {"sheetgen", "tests"}:
                held = vars(other)
                if name in held and held[name] is old:
                    held[name] = new


def forget() -> None:
    """Empty the caches of the program: what was worked out before the slip is worked out again."""
    for cached in set(_caches()):
        cached.cache_clear()


def _caches() -> Iterator[Any]:
    for module in list(sys.modules.values()):
        if getattr(module, "__name__", "").partition(".")[0] == "sheetgen":
            yield from (held for held in vars(module).values() if isinstance(held, functools._lru_cache_wrapper))
