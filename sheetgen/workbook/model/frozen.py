"""A book as it was when a file was written, as plain data: what a copy is judged by when the sheets have changed since.

Only what reading and judging need is kept: sheets, tables, entries with their kinds, and the formulas as they were read.
How the sheets look stands in what was written (`written`), not here. The data is of our own form, so that it can be read
for ever whatever becomes of the classes.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields
from functools import lru_cache
from typing import Any, Literal

from sheetgen.declare.about import About
from sheetgen.declare.entry import Entry
from sheetgen.declare.formula import Formula, Reference
from sheetgen.declare.kinds import Kind
from sheetgen.declare.parts import Book, Caution, Form, Ledger, Line, Part, Sheet, Table
from sheetgen.declare.tokens import Token
from sheetgen.workbook.model.values import Ready, Shape

_SORTS: dict[str, Literal["cell", "row", "ref", "column"]] = {"c": "cell", "r": "row", "f": "ref", "k": "column"}
_LETTERS = {sort: letter for letter, sort in _SORTS.items()}
_NOT_KEPT = {"formula", "first", "help", "width", "may_be_blank", "lowest", "skip_first", "blank", "looks_through"}
"""Of an entry: what only building asks for, and the formula, which is kept as it was read."""
_ENTRY = {
    one.name: one.default for one in fields(Entry) if one.name not in {"name", "heading", "kind", "who", *_NOT_KEPT}
}
_KIND = {one.name: one.default for one in fields(Kind) if one.name not in {"name", "width"}}


def frozen(ready: Ready) -> dict[str, Any]:
    """All of a book that reading and judging a file of it will ask for."""
    kinds: dict[Kind, int] = {}
    return {
        "audience": ready.shape.audience,
        "book": ready.book.name,
        "about": {one.name: value for one in fields(About) if (value := getattr(ready.book.about, one.name))},
        "axes": [[axis, list(names)] for axis, names in ready.shape.axes],
        "tables_of_axes": dict(ready.book.axes),
        "words": dict(ready.shape.words),
        "sheets": [_sheet(sheet, kinds) for sheet in ready.book.sheets],
        "kinds": [[kind.name, _changed(kind, _KIND)] for kind in kinds],
        "formulas": {address: _formula(formula) for address, formula in ready.formulas.items()},
    }


def _sheet(sheet: Sheet, kinds: dict[Kind, int]) -> list[Any]:
    parts = []
    for part in sheet.parts:
        if isinstance(part, Table):
            about = [part.name, part.title, part.ref, part.key, part.mirrors, [dict(row) for row in part.rows]]
            parts.append([about, [_entry(entry, kinds) for entry in part.entries]])
        elif isinstance(part, Ledger):
            parts.append([None, [[_entry(entry, kinds) for entry in line.entries] for line in part.lines]])
        elif part.entries:
            parts.append([0, [_entry(entry, kinds) for entry in part.entries]])
    cautions = [[caution.name, caution.sentence] for caution in sheet.cautions]
    return [sheet.name, sheet.title, int(sheet.private), cautions, parts]


def _entry(entry: Entry, kinds: dict[Kind, int]) -> list[Any]:
    found = [entry.name, entry.heading, kinds.setdefault(entry.kind, len(kinds)), entry.who]
    changed = _changed(entry, _ENTRY)
    return [*found, changed] if changed else found


def _changed(one: Entry | Kind, defaults: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, default in defaults.items() if (value := getattr(one, name)) != default}


def _formula(formula: Formula) -> list[Any]:
    pieces: list[Any] = []
    for token, reference in zip(formula.tokens, formula.references, strict=True):
        pieces.append(token.text if reference is None else [_named(reference)])
    numbers = [index for index, reference in enumerate(formula.waits_for) if reference in formula.numbers]
    return [formula.sheet, pieces, [_named(reference) for reference in formula.waits_for], numbers]


def _named(reference: Reference) -> str:
    return _LETTERS[reference.sort] + reference.address


def thawed(data: Mapping[str, Any]) -> Ready:
    """The book of frozen data; KeyError, TypeError, ValueError or IndexError if it is none."""
    kinds = [Kind(name, **_plain(changed, _KIND)) for name, changed in data["kinds"]]
    audience: Literal["designer", "vendor"] = "vendor" if data["audience"] == "vendor" else "designer"
    book = Book(
        tuple(_thawed_sheet(sheet, kinds) for sheet in data["sheets"]),
        dict(data["tables_of_axes"]),
        audience=audience,
        name=str(data["book"]),
        about=About(**_plain(data["about"], {one.name: "" for one in fields(About)})),
    )
    shape = Shape(
        tuple((str(axis), tuple(map(str, names))) for axis, names in data["axes"]),
        tuple((str(word), str(meaning)) for word, meaning in data["words"].items()),
        audience,
    )
    formulas = {address: _thawed_formula(*formula) for address, formula in data["formulas"].items()}
    unknown = formulas.keys() - book.entries.keys()
    if unknown:
        raise ValueError(sorted(unknown)[:3])
    return Ready(book, formulas, shape)


def _plain(changed: Mapping[str, Any], known: Mapping[str, Any]) -> dict[str, Any]:
    """Known words only: a later program's are passed over. Lists are what were tuples."""
    return {
        name: tuple(value) if isinstance(value, list) else value for name, value in changed.items() if name in known
    }


def _thawed_sheet(data: Sequence[Any], kinds: Sequence[Kind]) -> Sheet:
    name, title, private, cautions, parts = data
    return Sheet(
        name,
        title,
        tuple(_thawed_part(about, entries, kinds) for about, entries in parts),
        private=bool(private),
        cautions=tuple(Caution(word, sentence, "", "") for word, sentence in cautions),
    )


def _thawed_part(about: Any, entries: Any, kinds: Sequence[Kind]) -> Part:
    if about is None:
        lines = tuple(Line((), tuple(_thawed_entries(line, kinds))) for line in entries)
        return Ledger("", (), (), lines)
    if about == 0:
        return Form("", tuple(_thawed_entries(entries, kinds)))
    name, title, ref, key, mirrors, rows = about
    columns = tuple(_thawed_entries(entries, kinds))
    return Table(name, title, ref, key, columns, mirrors=mirrors, rows=tuple(rows))


def _thawed_entries(entries: Iterable[Sequence[Any]], kinds: Sequence[Kind]) -> Iterable[Entry]:
    for name, heading, kind, who, *changed in entries:
        yield Entry(name, heading, kinds[kind], who, **_plain(changed[0], _ENTRY) if changed else {})


def _thawed_formula(sheet: str, pieces: Sequence[Any], waits: Sequence[str], numbers: Sequence[int] = ()) -> Formula:
    """Up to the second form a formula waited for its numbers as for all else."""
    tokens: list[Token] = []
    references: list[Reference | None] = []
    for piece in pieces:
        is_named = isinstance(piece, list)
        tokens.append(Token("name", piece[0]) if is_named else _sign(piece))
        references.append(_reference(piece[0]) if is_named else None)
    waited = tuple(map(_reference, waits))
    return Formula(sheet, tuple(tokens), tuple(references), waited, tuple([waited[index] for index in numbers]))


@lru_cache(maxsize=4096)
def _sign(text: str) -> Token:
    return Token("sign", text)


@lru_cache(maxsize=4096)
def _reference(text: str) -> Reference:
    return Reference(_SORTS[text[0]], text[1:])
