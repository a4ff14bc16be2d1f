"""Single slips in a module's code: the places where one can happen, what it becomes, and the changed tree.

A slip is what a tired person does: `<` for `<=`, plus for minus, one too many, a condition the wrong way round, a line
left out, two arguments in the wrong order. Words that people read, types and decorators are left alone.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from typing import NamedTuple

OTHER_COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
}
OTHER_ARITHMETIC: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.FloorDiv,
    ast.Pow: ast.Mult,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
}
OTHER_FUNCTIONS = {"min": "max", "max": "min", "any": "all", "all": "any"}
NOT_CODE = {"annotation", "returns", "decorator_list", "type_params"}
"""Fields of a tree that say what something is, not what it does."""


class Slip(NamedTuple):
    """One slip: the how-manieth site and which of its changes, its line, the outermost function it is in, in words."""

    site: int
    change: int
    line: int
    function: str
    words: str


class Site(NamedTuple):
    """A node where slips can happen, how to put another in its place, and the outermost function around it."""

    node: ast.AST
    put: Callable[[ast.AST], None]
    parent: ast.AST
    function: str


def slips(source: str) -> list[Slip]:
    """All slips of a module's source, in the order of its tree."""
    return [
        Slip(number, change, _line(site.node), site.function, words)
        for number, site in enumerate(sites(ast.parse(source)))
        for change, (words, _) in enumerate(changes(site))
    ]


def _line(node: ast.AST) -> int:
    """Where a node stands; what is in a comprehension, where its name stands."""
    return node.target.lineno if isinstance(node, ast.comprehension) else getattr(node, "lineno", 0)


def slipped(source: str, slip: Slip) -> ast.Module:
    """The module's tree with that slip in it."""
    tree = ast.parse(source)
    site = next(site for number, site in enumerate(sites(tree)) if number == slip.site)
    _, new = list(changes(site))[slip.change]
    site.put(ast.copy_location(new, site.node))
    return ast.fix_missing_locations(tree)


def sites(tree: ast.Module) -> Iterator[Site]:
    """Every node of the tree that is code, with the function around it."""
    for statement in tree.body:
        if isinstance(statement, ast.ClassDef):
            for inner in statement.body:
                if isinstance(inner, ast.FunctionDef):
                    yield from _inside(inner, f"{statement.name}.{inner.name}")
        elif isinstance(statement, ast.FunctionDef):
            yield from _inside(statement, statement.name)
        elif isinstance(statement, ast.Assign | ast.AnnAssign) and not _is_type(statement.value):
            yield from _inside(statement, "")


def _inside(node: ast.AST, function: str) -> Iterator[Site]:
    for name, value in ast.iter_fields(node):
        if name in NOT_CODE:
            continue
        if isinstance(value, ast.AST):
            yield Site(value, _setter(node, name), node, function)
            yield from _inside(value, function)
        elif isinstance(value, list):
            for index, item in enumerate(value):
                if isinstance(item, ast.AST):
                    yield Site(item, _placer(value, index), node, function)
                    yield from _inside(item, function)


def _setter(node: ast.AST, name: str) -> Callable[[ast.AST], None]:
    return lambda new: setattr(node, name, new)


def _placer(items: list[ast.AST], index: int) -> Callable[[ast.AST], None]:
    def put(new: ast.AST) -> None:
        items[index] = new

    return put


def _is_type(value: ast.AST | None) -> bool:
    """`Values = dict[Place, Value]`, `Outcome = Literal["taken"]`, `Shown = str | float`, or a pattern to compile."""
    text = "" if value is None else ast.unparse(value)
    return text.startswith(("dict[", "Literal[", "list[", "tuple[", "re.compile", "str |", "Callable["))


def changes(site: Site) -> Iterator[tuple[str, ast.AST]]:
    """What can slip at a site: in words, and the node that stands there then."""
    node = site.node
    if isinstance(node, ast.expr):
        yield from _expressions(node, site.parent)
    elif isinstance(node, ast.stmt):
        yield from _statements(node)
    elif isinstance(node, ast.comprehension):
        for number, test in enumerate(node.ifs):
            rest = [*node.ifs[:number], *node.ifs[number + 1 :]]
            yield f"without `if {ast.unparse(test)}`", ast.comprehension(node.target, node.iter, rest, node.is_async)


def _expressions(node: ast.expr, parent: ast.AST) -> Iterator[tuple[str, ast.AST]]:
    if _is_condition(node, parent) and not isinstance(node, ast.UnaryOp):
        turned = ast.UnaryOp(ast.Not(), node)
        yield _short(turned), turned
    if isinstance(node, ast.Compare):
        for number, operator in enumerate(node.ops):
            for other in OTHER_COMPARISONS[type(operator)]:
                operators = [*node.ops[:number], other(), *node.ops[number + 1 :]]
                new: ast.expr = ast.Compare(node.left, operators, node.comparators)
                yield _short(new), new
    elif isinstance(node, ast.BinOp) and type(node.op) in OTHER_ARITHMETIC and not _is_text(node):
        new = ast.BinOp(node.left, OTHER_ARITHMETIC[type(node.op)](), node.right)
        yield _short(new), new
    elif isinstance(node, ast.BoolOp):
        new = ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
        yield _short(new), new
        for number, gone in enumerate(node.values):
            rest = [*node.values[:number], *node.values[number + 1 :]]
            yield f"without `{_short(gone)}`", rest[0] if len(rest) == 1 else ast.BoolOp(node.op, rest)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield _short(node.operand), node.operand
    elif isinstance(node, ast.Constant):
        yield from _constants(node, parent)
    elif isinstance(node, ast.Call):
        yield from _calls(node)


def _is_condition(node: ast.expr, parent: ast.AST) -> bool:
    return isinstance(parent, ast.If | ast.IfExp) and node is parent.test


def _is_text(node: ast.BinOp) -> bool:
    """Text put together with plus: the slip would not even run."""
    return any(
        isinstance(side, ast.JoinedStr) or (isinstance(side, ast.Constant) and isinstance(side.value, str))
        for side in (node.left, node.right)
    )


def _constants(node: ast.Constant, parent: ast.AST) -> Iterator[tuple[str, ast.AST]]:
    value = node.value
    if isinstance(value, bool):
        yield f"{value} becomes {not value}", ast.Constant(not value)
    elif isinstance(value, int | float):
        for other in (value + 1, value - 1):
            yield f"{value} becomes {other:g}", ast.Constant(other)
    elif isinstance(value, str) and value and isinstance(parent, ast.Compare | ast.Set | ast.Subscript | ast.Return):
        yield f"{value!r} becomes {value + '_'!r}", ast.Constant(value + "_")


def _calls(node: ast.Call) -> Iterator[tuple[str, ast.AST]]:
    if isinstance(node.func, ast.Name) and node.func.id in OTHER_FUNCTIONS:
        other = OTHER_FUNCTIONS[node.func.id]
        yield f"{node.func.id} becomes {other}", ast.Call(ast.Name(other, ast.Load()), node.args, node.keywords)
    for first in range(len(node.args) - 1):
        pair = node.args[first : first + 2]
        if isinstance(node.func, ast.Name) and node.func.id in {"isinstance", "getattr", "setattr", "min", "max"}:
            return
        if not any(isinstance(one, ast.Starred) for one in pair) and ast.dump(pair[0]) != ast.dump(pair[1]):
            args = [*node.args[:first], pair[1], pair[0], *node.args[first + 2 :]]
            new = ast.Call(node.func, args, node.keywords)
            yield _short(new), new


def _statements(node: ast.stmt) -> Iterator[tuple[str, ast.AST]]:
    is_docstring = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    targets = node.targets if isinstance(node, ast.Assign) else []
    kept = any(isinstance(target, ast.Subscript | ast.Attribute) for target in targets)
    dropped = isinstance(node, ast.Expr | ast.AugAssign | ast.Raise | ast.Continue | ast.Break)
    if (dropped and not is_docstring) or kept:
        yield f"without `{_short(node)}`", ast.Pass()
    elif isinstance(node, ast.Return) and node.value is not None and ast.unparse(node.value) != "None":
        yield "return None", ast.Return(ast.Constant(None))


def _short(node: ast.AST) -> str:
    text = " ".join(ast.unparse(node).split())
    return text if len(text) <= 100 else text[:97] + "..."
