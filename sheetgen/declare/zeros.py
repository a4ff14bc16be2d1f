"""Zeros: a figure that is not known stays blank. No formula makes a 0 of it without saying why that is right.

`IFERROR(x,0)` makes 0 of whatever goes wrong in x, and `N(look-up)` of a cell that is blank. It is right, and nothing need be
said, where a position is looked for (0: it is not there), where the cell that is looked up counts things, stands in a published
list or says by its `blank` what blank means, and where the 0 is only asked for (`N(x)=0`). Elsewhere the entry says why: `zero`.
"""

from __future__ import annotations

from collections.abc import Iterator

from .expression import Call, Leaf, Node, Pair, nodes, tree
from .mistakes import DeclarationError, concerning
from .parts import Book
from .words import Spot, Vocabulary

_SEARCHES = frozenset({"FIND", "SEARCH", "MATCH"})
_LOOK_UPS = frozenset({"INDEX", "LOOKUP"})


def refuse_silent_zeros(book: Book) -> None:
    """DeclarationError for the first formula that makes 0 of what is not known, and for a reason that nothing needs."""
    vocabulary = Vocabulary(book)
    for address, (sheet, table, entry) in book.entries.items():
        made = [
            what for formula in (entry.formula, entry.first) if "IFERROR(" in formula or "N(INDEX(" in formula
            for what in _zeros(vocabulary, Spot(address, formula, sheet, table))
        ]  # fmt: skip
        with concerning(address):
            if made and not entry.zero:
                raise DeclarationError(
                    f"{made[0]} gives 0 where nothing is known: leave it blank, or say why 0 is right (zero)"
                )
            if entry.zero and not made:
                raise DeclarationError("says why 0 is right, and makes none")


def _zeros(vocabulary: Vocabulary, spot: Spot) -> Iterator[str]:
    root = tree(spot.formula)
    asked = {id(side.arguments[0]) for side in _asked(root)}
    for node in nodes(root):
        if not isinstance(node, Call) or id(node.arguments[0]) in asked:
            continue
        inner = node.arguments[0]
        called = inner.name if isinstance(inner, Call) else ""
        if node.name == "IFERROR" and _is_zero(node.arguments[1]):
            if called not in _SEARCHES | {"N"}:
                yield f"IFERROR({called or '...'}, 0)"
        elif node.name == "N" and called in _LOOK_UPS and not _says_what_blank_means(vocabulary, spot, inner):
            yield f"N({called})"


def _asked(root: Node) -> Iterator[Call]:
    """Calls whose 0 is only asked for."""
    for node in nodes(root):
        if isinstance(node, Pair) and node.sign in {"=", "<>", ">"} and _is_zero(node.right):
            for side in nodes(node.left):
                if isinstance(side, Call) and side.name in {"N", "IFERROR"}:
                    yield side


def _is_zero(node: Node) -> bool:
    return isinstance(node, Leaf) and node.token.text == "0"


def _says_what_blank_means(vocabulary: Vocabulary, spot: Spot, look_up: Node) -> bool:
    name = next(node.token.text for node in nodes(look_up) if isinstance(node, Leaf) and node.token.sort == "name")
    column = vocabulary.book.entries.get(vocabulary.address(spot, name))
    entry = column.entry if column is not None else None
    return entry is not None and (bool(entry.blank) or entry.who == "fixed" or entry.kind.name == "whole")
