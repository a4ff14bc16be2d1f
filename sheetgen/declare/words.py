"""Words in quotes: with which entries a formula compares them, and which words these entries can hold.

A word that is compared with an entry of the list must be one of its choices. Of open lists too: what a formula looks for
should be offered. A pick from a published table holds the words of that table, one from what people type any word, and a
computed entry the words in its formula and those of the entries that it passes on. What cannot be known is not proven.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fnmatch import fnmatchcase
from functools import lru_cache
from typing import NamedTuple

from .entry import Entry
from .expression import Call, Leaf, Node, Pair, is_nothing, nodes, tree
from .families import ENDINGS, declared_members
from .mistakes import DeclarationError, concerning, meant
from .parts import Book, Sheet, Table

_CRITERIA = {"COUNTIF": 0, "SUMIF": 0, "COUNTIFS": 0, "SUMIFS": 1}
"""Functions -> the argument that is a range in which the next one is looked for; in the plural ones pairs follow."""
_LOOKUPS = frozenset({"MATCH", "EXACT", "LOOKUP", "HLOOKUP", "VLOOKUP"})
"""Functions that look for their first argument in the second."""
_SIGNS = re.compile(r"(<=|>=|<>|<|>|=)?(.*)\Z", re.DOTALL)


class Spot(NamedTuple):
    """A formula of a declared book: what it belongs to, and where its names are looked up."""

    name: str
    formula: str
    sheet: Sheet
    table: Table | None


@dataclass
class Said:
    """What can come out of a piece of a formula: words in quotes and names, `known` unless something else may come too."""

    words: list[Leaf] = field(default_factory=list)
    names: list[str] = field(default_factory=list)
    known: bool = True

    def add(self, other: Said) -> Said:
        """What comes out of either."""
        return Said(self.words + other.words, self.names + other.names, self.known and other.known)


class Domain(NamedTuple):
    """The words that an entry can hold (blank is no word): `chosen` are choices or stand in declared rows, `shown` only in a
    formula; `known` if it holds no others; `typed` if a whole cell of what people type freely may come through.
    """

    chosen: frozenset[str] = frozenset()
    shown: frozenset[str] = frozenset()
    known: bool = True
    typed: bool = False


_ANY, _TYPED = Domain(known=False), Domain(known=False, typed=True)


def spots(book: Book) -> Iterator[Spot]:
    """All formulas of a declared book."""
    for address, (sheet, table, entry) in book.entries.items():
        yield from (Spot(address, formula, sheet, table) for formula in (entry.formula, entry.first) if formula)
    for sheet in book.sheets:
        yield from (Spot(f"{sheet.name}, check {one.name!r}", one.formula, sheet, None) for one in sheet.checks)
        yield from (Spot(f"{sheet.name}, caution {one.name!r}", one.formula, sheet, None) for one in sheet.cautions)


def word_of(leaf: Leaf) -> str:
    """The word that stands in quotes, without them."""
    return leaf.token.text[1:-1].replace('""', '"')


def holds_words(formula: str) -> bool:
    """Whether there is anything in quotes but nothing."""
    return '"' in formula.replace('""', "")


def said_by(node: Node) -> Said:
    """The words and names whose values a piece of a formula passes on."""
    if isinstance(node, Leaf):
        sort, text = node.token
        if sort == "text":
            return Said([node] if text != '""' else [])
        return Said(names=[text]) if sort == "name" else Said()
    if isinstance(node, Pair):
        if node.sign == ":":
            return said_by(node.left).add(said_by(node.right))
        if node.sign == "&":
            sides = [side for side in (node.left, node.right) if not is_nothing(side)]
            return said_by(sides[0]) if len(sides) == 1 else Said(known=False)
        return Said()  # a number, or true or false
    passed = {"IF": node.arguments[1:], "IFERROR": node.arguments, "CHOOSE": node.arguments[1:], "{": node.arguments}
    if node.name == "INDEX":
        return said_by(node.arguments[0])
    if node.name not in passed:
        return Said(known=False)
    found = Said()
    for argument in passed[node.name]:
        found = found.add(said_by(argument))
    return found


def compared(node: Node) -> Iterator[Said]:
    """What a formula compares with each other, one comparison after the other; not the question whether something is blank."""
    for one in nodes(node):
        if isinstance(one, Pair) and one.sign in {"=", "<>"}:
            if is_nothing(one.left) or is_nothing(one.right):
                continue
            yield said_by(one.left).add(said_by(one.right))
        elif isinstance(one, Call) and one.name in _LOOKUPS:
            yield said_by(one.arguments[0]).add(said_by(one.arguments[1]))
        elif isinstance(one, Call) and one.name in _CRITERIA:
            start = _CRITERIA[one.name]
            last = len(one.arguments) - 1 if one.name.endswith("S") else start + 1
            for index in range(start, last, 2):
                yield said_by(one.arguments[index]).add(said_by(one.arguments[index + 1]))


class Vocabulary:
    """The words that the entries of a declared book can hold, each worked out once."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self._known: dict[str, Domain] = {}

    def address(self, spot: Spot, name: str) -> str:
        """The declared entry that a formula's name means, a family's without its ending; empty if it is no entry."""
        base, _, ending = name.rpartition(".")
        plain = base if ending in ENDINGS else name
        own = f"{spot.sheet.name}.{spot.table.name}.{plain}" if spot.table else ""
        return next((one for one in (own, f"{spot.sheet.name}.{plain}", plain) if one in self.book.entries), "")

    def of(self, spot: Spot, said: Said) -> dict[str, Domain]:
        """The domain of each entry that is named."""
        found = {name: self.address(spot, name) for name in said.names}
        return {address or name: self.domain(address) if address else _ANY for name, address in found.items()}

    def domain(self, address: str) -> Domain:
        """The words that an entry can hold."""
        if address not in self._known:
            self._known[address] = _ANY  # for an entry that comes back to itself
            self._known[address] = self._worked_out(address)
        return self._known[address]

    def _worked_out(self, address: str) -> Domain:
        _, table, entry = self.book.entries[address]
        if entry.who == "computed":
            return self._computed(address)
        if entry.who == "fixed" and table is not None and table.rows:
            return Domain(frozenset(value for row in table.rows if isinstance(value := row.get(entry.name), str)))
        if entry.kind.choices:
            return Domain(frozenset(entry.kind.choices))
        if entry.kind.source in self.book.entries:
            source = self.book.entries[entry.kind.source].entry
            return self.domain(entry.kind.source) if source.who == "fixed" or source.kind.choices else _TYPED
        return Domain() if entry.kind.is_number or entry.kind.name == "date" else _TYPED

    def _computed(self, address: str) -> Domain:
        sheet, table, entry = self.book.entries[address]
        chosen: frozenset[str] = frozenset()
        shown: frozenset[str] = frozenset()
        known, typed = True, False
        for formula in filter(None, (entry.formula, entry.first)):
            said = said_by(tree(formula))
            domains = self.of(Spot(address, formula, sheet, table), said).values()
            chosen = chosen.union(*(one.chosen for one in domains))
            shown = shown.union((word_of(leaf) for leaf in said.words), *(one.shown for one in domains))
            known = known and said.known and all(one.known for one in domains)
            typed = typed or any(one.typed for one in domains)
        return Domain(chosen, shown - chosen, known or entry.kind.is_number, typed)


@lru_cache(maxsize=8)
def refuse_wrong_words(book: Book) -> None:
    """DeclarationError for a word in quotes that is compared with an entry which never holds it."""
    vocabulary = Vocabulary(book)
    for spot in spots(book):
        if holds_words(spot.formula):
            with concerning(spot.name):
                for said in compared(tree(spot.formula)):
                    _refuse_wrong_word(vocabulary, spot, said)
    for address, (_, _, entry) in book.entries.items():
        if entry.asked_by in book.entries:
            with concerning(address):
                _refuse_wrong_reason(vocabulary, entry)


def _refuse_wrong_word(vocabulary: Vocabulary, spot: Spot, said: Said) -> None:
    domains = vocabulary.of(spot, said)
    if not said.words or not domains or not said.known or not all(one.known for one in domains.values()):
        return
    words = frozenset().union(*(one.chosen | one.shown for one in domains.values()))
    for leaf in said.words:
        looked_for = _looked_for(word_of(leaf))
        if looked_for and not any(fnmatchcase(word, looked_for) for word in words):
            raise DeclarationError(f"{looked_for!r} is no word of {' or '.join(domains)}" + meant(looked_for, words))


def _refuse_wrong_reason(vocabulary: Vocabulary, entry: Entry) -> None:
    """What asks for an entry must be able to say so: `asked_when`, or each of the members that the declaration names."""
    book, domain = vocabulary.book, vocabulary.domain(entry.asked_by)
    members = declared_members(book, entry.axis)
    for word in (entry.asked_when,) if entry.asked_when else members:
        if domain.known and word not in domain.chosen:
            raise DeclarationError(f"{word!r} is no word of {entry.asked_by}" + meant(word, domain.chosen))


def _looked_for(criterion: str) -> str:
    """The word in a criterion such as `<>open`; empty if it is a number or nothing."""
    match = _SIGNS.match(criterion)
    word = match.group(2) if match else criterion
    return "" if re.fullmatch(r"-?[\d.]*", word) else word


def chosen_words(vocabulary: Vocabulary, spot: Spot) -> Mapping[int, str]:
    """The words in a formula that stand for choices or for words of declared rows, by their place among the tokens."""
    root = tree(spot.formula)
    found: dict[int, str] = {}
    for said in (*compared(root), said_by(root)):
        chosen = frozenset().union(*(one.chosen for one in vocabulary.of(spot, said).values()))
        found |= {leaf.index: word for leaf in said.words if (word := word_of(leaf)) in chosen}
    return found


def words_also_typed(book: Book) -> frozenset[str]:
    """Choices that a formula compares with cells that people type (currencies): such a word is a sign that no language changes.

    Not those that are looked for in a longer text (fibers in a composition): that is written in the copy's language.
    """
    vocabulary = Vocabulary(book)
    found: frozenset[str] = frozenset()
    for spot in spots(book):
        for said in compared(tree(spot.formula)):
            domains = vocabulary.of(spot, said).values()
            if any(one.typed for one in domains):
                found = found.union(*(one.chosen for one in domains))
    return found
