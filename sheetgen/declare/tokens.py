"""The pieces of a formula's text."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache, lru_cache
from typing import NamedTuple

from .mistakes import DeclarationError

_TOKEN = re.compile(
    r'(?P<text>"(?:[^"]|"")*")|(?P<number>\d+(?:\.\d+)?)|(?P<function>[A-Z][A-Z0-9]*)(?=\()'
    r"|(?P<name>[a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*)*)|(?P<space>\s+)|(?P<sign><=|>=|<>|[-+*/^&=<>(),:%{}])"
)
_OPERANDS = frozenset({"text", "number", "name", "function"})
_CLOSES = {")": "(", "}": "{"}
_OPENS = frozenset(_CLOSES.values())


class Token(NamedTuple):
    """A piece of formula text and what sort it is."""

    sort: str
    text: str


_token = cache(Token)
"""Most pieces stand in many formulas."""


@lru_cache(maxsize=8192)
def tokens(formula: str) -> tuple[Token, ...]:
    """Split formula text; DeclarationError on a sign that the language does not have, on a bracket without its other, and
    on two words without a sign between them.
    """
    found: list[Token] = []
    position, after_value = 0, False
    for match in _TOKEN.finditer(formula):
        start, end = match.span()
        if start != position:
            break
        position = end
        token = _token(str(match.lastgroup), match.group())
        if token.sort == "space":
            continue
        is_operand = token.sort in _OPERANDS
        if is_operand and after_value:
            raise DeclarationError(f"cannot read {formula[start:]!r} in {formula!r}: a sign is missing before it")
        found.append(token)
        after_value = is_operand or token.text in _CLOSES
    if position < len(formula):
        raise DeclarationError(f"cannot read {formula[position:]!r} in {formula!r}")
    _refuse_open_brackets(found, formula)
    return tuple(found)


def _refuse_open_brackets(found: Sequence[Token], formula: str) -> None:
    open_brackets: list[str] = []
    for index, (_, text) in enumerate(found):
        if text in _CLOSES:
            if not open_brackets or open_brackets.pop() != _CLOSES[text]:
                raise DeclarationError(f"{text!r} closes nothing in {formula!r}")
        elif text in _OPENS:
            if index and found[index - 1].sort == "name":
                before = found[index - 1].text
                raise DeclarationError(f"{before!r} before a bracket: functions are written in capital letters")
            open_brackets.append(text)
    if open_brackets:
        raise DeclarationError(f"{open_brackets[-1]!r} is not closed in {formula!r}")
