"""Branches that nobody reaches: a formula that asks for every word that a cell can hold, and then waits for the cell.

The branch that is left is meant for a cell in which nothing was chosen yet, and while that is so the formula shows blank.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from .formula import Formula, Reference
from .mistakes import DeclarationError, concerning
from .parts import Book

_COMPARES = frozenset({"=", "<>"})


def refuse_unreached(book: Book, formulas: Mapping[str, Formula]) -> None:
    """DeclarationError for the first formula whose case of nothing chosen is never shown."""
    for address, formula in formulas.items():
        with concerning(address):
            for reference, words in _compared(formula).items():
                column = book.entries.get(reference.address)
                kind = column.entry.kind if column is not None else None
                if kind is None or not kind.choices or kind.open or reference not in formula.waits_for:
                    continue
                if words >= set(kind.choices):
                    name = reference.address.rpartition(".")[2]
                    raise DeclarationError(
                        f"asks {name} for every word that it can hold and waits for it: what it gives while nothing is chosen "
                        f'is never shown; say may_be_blank=("{name}",), or leave the last question out'
                    )


def _compared(formula: Formula) -> dict[Reference, set[str]]:
    """The words that each cell is compared with."""
    found: dict[Reference, set[str]] = defaultdict(set)
    for index, reference in enumerate(formula.references):
        after = formula.tokens[index + 1 : index + 3]
        if reference is not None and len(after) == 2 and after[0].text in _COMPARES and after[1].sort == "text":
            found[reference].add(after[1].text.strip('"'))
    return found
