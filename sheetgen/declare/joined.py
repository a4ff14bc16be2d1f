"""Numbers put into texts: where a formula joins one with `&`, it says first how many digits it has.

Spreadsheet programs write fifteen digits of a number into a text, engines the shortest that is the same number, and a file
keeps sixteen: a width of 58.267716535433074 in is three texts. What is compared with such a text would change by itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from .expression import Leaf, Node, Pair, is_nothing, nodes, tree
from .kinds import Kind
from .mistakes import DeclarationError, concerning
from .parts import Book
from .words import Spot, Vocabulary, spots

_PASSING = {
    "IF": slice(1, None),
    "IFERROR": slice(None),
    "CHOOSE": slice(1, None),
    "INDEX": slice(1),
    "LOOKUP": slice(1, None),
    "N": slice(None),
    "ABS": slice(None),
    "MAX": slice(None),
    "MIN": slice(None),
    "MOD": slice(None),
    "SUM": slice(None),
    "LARGE": slice(1),
    "SMALL": slice(1),
    "SUMPRODUCT": slice(None),
    "CEILING": slice(None),
    "FLOOR": slice(None),
    "SUMIF": slice(2, None),
    "SUMIFS": slice(1),
}
"""Functions that give a whole number where these arguments are whole: -> which ones."""
_EXACT = frozenset(
    "AND COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS DATE DAY EDATE EXACT FIND INT ISBLANK ISERROR ISTEXT LEFT LEN LOWER MATCH MID "
    "MONTH NOT OR RANK REPT RIGHT ROUND ROUNDDOWN ROUNDUP SEARCH SIGN SUBSTITUTE TEXT TRUNC UPPER YEAR".split()
)
"""Functions that give a text, a truth, a whole number or one of so many digits as they are told."""
_COMPARISONS = frozenset({"=", "<>", "<", ">", "<=", ">="})
_ARITHMETIC = frozenset({"+", "-", "*", "^", ":"})


def refuse_raw_joins(book: Book) -> None:
    """DeclarationError for a number that goes into a text with all the digits that it happens to have."""
    vocabulary = Vocabulary(book)
    for spot in spots(book):
        if "&" not in spot.formula:
            continue
        with concerning(spot.name):
            for name in raw_joins(vocabulary, spot):
                raise DeclarationError(
                    f"{name} is joined into a text with all its digits: say how many, ROUND(x,6) or TEXT"
                )


def raw_joins(vocabulary: Vocabulary, spot: Spot) -> Iterator[str]:
    """What a formula joins that may be a number with a fraction: entries by name, functions and signs by theirs."""
    for one in nodes(tree(spot.formula)):
        # Joined with nothing, a number is only asked whether it is blank.
        if isinstance(one, Pair) and one.sign == "&" and not is_nothing(one.right):
            yield from _fractions(vocabulary, spot, one.left)
            yield from _fractions(vocabulary, spot, one.right)


def _fractions(vocabulary: Vocabulary, spot: Spot, node: Node) -> Iterator[str]:
    if isinstance(node, Leaf):
        if node.token.sort == "name" and _may_be_a_fraction(vocabulary, spot, node.token.text):
            yield node.token.text
    elif isinstance(node, Pair):
        if node.sign in _ARITHMETIC:
            yield from _fractions(vocabulary, spot, node.left)
            yield from _fractions(vocabulary, spot, node.right)
        elif node.sign == "&" and is_nothing(node.right):
            yield from _fractions(vocabulary, spot, node.left)
        elif node.sign not in _COMPARISONS and node.sign != "&":
            yield node.sign
    elif node.name in _PASSING or node.name == "{":
        for argument in node.arguments[_PASSING.get(node.name, slice(None))]:
            yield from _fractions(vocabulary, spot, argument)
    elif node.name not in _EXACT:
        yield node.name


def _may_be_a_fraction(vocabulary: Vocabulary, spot: Spot, name: str) -> bool:
    entries = vocabulary.book.entries
    address = vocabulary.address(spot, name)
    return address in entries and _has_fractions(entries[address].entry.kind)


def _has_fractions(kind: Kind) -> bool:
    return kind.is_number and kind.name != "whole"
