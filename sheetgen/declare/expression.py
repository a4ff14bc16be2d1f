"""Expressions: a formula's tokens as a tree, for what must be known of a formula beyond its words and their order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .mistakes import DeclarationError
from .tokens import Token, tokens


@dataclass(frozen=True)
class Leaf:
    """A name, a number, a text, or nothing (an argument left out); `index` is its place among the tokens."""

    token: Token
    index: int


@dataclass(frozen=True)
class Call:
    """A function, or the braces of an array (called `{`), with what stands in its brackets."""

    name: str
    arguments: tuple[Node, ...]


@dataclass(frozen=True)
class Pair:
    """Two sides with a sign between them; a leading minus has nothing on its left."""

    sign: str
    left: Node
    right: Node


Node = Leaf | Call | Pair

_LEVELS = (("=", "<>", "<", ">", "<=", ">="), ("&",), ("+", "-"), ("*", "/"), ("^",), (":",))
"""Signs from those that bind least to those that bind most, as spreadsheet programs have them."""
_NOTHING = Token("nothing", "")


def tree(formula: str) -> Node:
    """The formula as a tree; DeclarationError where its signs and brackets do not make one."""
    parts = tokens(formula)
    node, end = _level(parts, 0, 0)
    if end < len(parts):
        raise DeclarationError(f"{parts[end].text!r} is one too many in {formula!r}")
    return node


def is_nothing(node: Node) -> bool:
    """Whether a node is the empty text, with which a formula asks or says that something is blank."""
    return isinstance(node, Leaf) and node.token.text == '""'


def nodes(node: Node) -> Iterator[Node]:
    """The node and all below it."""
    yield node
    if isinstance(node, Call):
        for argument in node.arguments:
            yield from nodes(argument)
    elif isinstance(node, Pair):
        yield from nodes(node.left)
        yield from nodes(node.right)


def _level(parts: Sequence[Token], at: int, level: int) -> tuple[Node, int]:
    if level == len(_LEVELS):
        return _single(parts, at)
    left, at = _level(parts, at, level + 1)
    while at < len(parts) and parts[at].text in _LEVELS[level] and parts[at].sort == "sign":
        right, end = _level(parts, at + 1, level + 1)
        left, at = Pair(parts[at].text, left, right), end
    return left, at


def _single(parts: Sequence[Token], at: int) -> tuple[Node, int]:
    token = parts[at] if at < len(parts) else _NOTHING
    if token.sort == "function":
        arguments, at = _listed(parts, at + 2, ")")
        return _with_percent(Call(token.text, arguments), parts, at)
    if token.text == "{":
        arguments, at = _listed(parts, at + 1, "}")
        return Call("{", arguments), at
    if token.text == "(":
        inner, at = _level(parts, at + 1, 0)
        if at >= len(parts) or parts[at].text != ")":
            raise DeclarationError(f"a bracket holds more than one thing before {_rest(parts, at)!r}")
        return _with_percent(inner, parts, at + 1)
    if token.text in {"-", "+"}:
        inner, end = _level(parts, at + 1, len(_LEVELS) - 1)
        return Pair(token.text, Leaf(_NOTHING, at), inner), end
    if token.sort in {"name", "number", "text"}:
        return _with_percent(Leaf(token, at), parts, at + 1)
    raise DeclarationError(f"something is missing before {_rest(parts, at)!r}")


def _with_percent(node: Node, parts: Sequence[Token], at: int) -> tuple[Node, int]:
    while at < len(parts) and parts[at].text == "%":
        node, at = Pair("%", node, Leaf(_NOTHING, at)), at + 1
    return node, at


def _listed(parts: Sequence[Token], at: int, close: str) -> tuple[tuple[Node, ...], int]:
    """What stands between commas up to the closing bracket, and the index after that."""
    found: list[Node] = []
    while True:
        if parts[at].text in {",", close}:
            found.append(Leaf(_NOTHING, at))
        else:
            node, at = _level(parts, at, 0)
            found.append(node)
        if parts[at].text == close:
            return tuple(found), at + 1
        if parts[at].text != ",":
            raise DeclarationError(f"a sign is missing before {_rest(parts, at)!r}")
        at += 1


def _rest(parts: Sequence[Token], at: int) -> str:
    return "".join(token.text for token in parts[at:]) or "the end"
