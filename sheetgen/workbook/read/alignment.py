"""Alignment: which row and column of a returned sheet is which of the sent one, by the words that stand on it.

People insert rows, sort tables and move columns; the words that were written (headings, labels, refs) go along. Each row is
matched with the row that holds most of its words; names of the workbook vote, too. What holds no words lies between
what does.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, field

from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.written import WrittenSheet
from sheetgen.workbook.read.loaded import LoadedSheet

_MOST_COPIES = 60
"""A word that stands on a sheet more often tells nothing about a row."""
_IN_ITS_COLUMN = 3
"""A word in the column that it was sent in counts as much as three elsewhere: rows of few different words say the same."""
_OF_A_NAME = 2 * _IN_ITS_COLUMN
"""A workbook name counts as much as two words."""

Pairs = Sequence[tuple[int, int]]
"""What names say: a row or column as it was sent, and where its name points now."""


@dataclass
class Alignment:
    """For each row and column that was sent: where it is now. What is not in it is gone."""

    title: str
    rows: dict[int, int] = field(default_factory=dict)
    columns: dict[int, int] = field(default_factory=dict)

    def cell(self, at: tuple[int, int]) -> Cell | None:
        """Where a cell that was sent is now; None if its row or column is gone."""
        row, column = self.rows.get(at[0]), self.columns.get(at[1])
        return Cell(self.title, row, column) if row and column else None


Words = Mapping[int, Mapping[int, str]]
"""The fixed words of a sheet: row -> column -> text."""


def fixed_words(sheet: WrittenSheet, filled: Container[tuple[int, int]]) -> dict[int, dict[int, str]]:
    """All words that were written and that nobody fills or works out: titles, headings, labels, notes, refs.

    `filled` are the cells of entries.
    """
    words: dict[int, dict[int, str]] = defaultdict(dict)
    for (row, column), cell in sheet.cells.items():
        if isinstance(cell.shown, str) and not cell.by_formula and (row, column) not in filled:
            words[row][column] = cell.shown.strip()
    return dict(words)


def aligned(sheet: WrittenSheet, words: Words, held: LoadedSheet, rows: Pairs = (), columns: Pairs = ()) -> Alignment:
    """Match a returned sheet with the one that was sent."""
    if _stands_as_sent(words, held) and all(sent == now for pairs in (rows, columns) for sent, now in pairs):
        # Every row and column has as many votes for where it was as for any other place, and there it has not moved.
        return Alignment(
            held.title, {row: row for row, _ in sheet.cells}, {column: column for _, column in sheet.cells}
        )
    return voted(sheet, words, held, rows, columns)


def _stands_as_sent(words: Words, held: LoadedSheet) -> bool:
    return all(
        isinstance(one.value, str) and one.formula is None and one.value.strip() == text
        for row, line in words.items()
        for column, text in line.items()
        for one in (held.at(row, column),)
    )


def voted(sheet: WrittenSheet, words: Words, held: LoadedSheet, rows: Pairs, columns: Pairs) -> Alignment:
    """The match by votes: of the words that stand somewhere, and of the names."""
    rows_sent = sorted({row for row, _ in sheet.cells})
    columns_sent = sorted({column for _, column in sheet.cells})
    places: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for at, one in held.cells.items():
        if isinstance(one.value, str) and one.formula is None:
            places[one.value.strip()].append(at)
    found = Alignment(held.title)
    found.rows = _between(rows_sent, _matched(_row_votes(words, places, rows)), set(words))
    row_words = {row: words[row] for row in words if row in found.rows}
    found.columns = _between(
        columns_sent,
        _columns(columns_sent, _column_votes(row_words, found.rows, held, columns)),
        {column for line in words.values() for column in line},
    )
    return found


def _row_votes(words: Words, places: Mapping[str, list[tuple[int, int]]], named: Pairs) -> dict[int, Counter[int]]:
    votes: dict[int, Counter[int]] = defaultdict(Counter)
    for row, line in words.items():
        for column, text in line.items():
            where = places.get(text, ())
            if len(where) <= _MOST_COPIES:
                votes[row].update({found: 1 for found, _ in where})
                votes[row].update({found: _IN_ITS_COLUMN - 1 for found, at in where if at == column})
    for row, found in named:
        votes[row][found] += _OF_A_NAME
    return votes


def _matched(votes: Mapping[int, Counter[int]]) -> dict[int, int]:
    """One row for one row: the most votes first, among equals the one that moved least."""
    offers = sorted(
        (-count, abs(found - row), row, found) for row, counted in votes.items() for found, count in counted.items()
    )
    taken: set[int] = set()
    matched: dict[int, int] = {}
    for _, _, row, found in offers:
        if row not in matched and found not in taken:
            matched[row] = found
            taken.add(found)
    return matched


def _column_votes(words: Words, rows: Mapping[int, int], held: LoadedSheet, named: Pairs) -> dict[int, Counter[int]]:
    by_row: dict[int, dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
    wanted = set(rows.values())
    for (row, column), one in held.cells.items():
        if row in wanted and isinstance(one.value, str):
            by_row[row][one.value.strip()].append(column)
    votes: dict[int, Counter[int]] = defaultdict(Counter)
    for row, line in words.items():
        for column, text in line.items():
            found = by_row[rows[row]].get(text, [])
            if len(found) == 1:
                votes[column][found[0]] += 1
    for column, at in named:
        votes[column][at] += 1
    return votes


def _columns(sent: list[int], votes: Mapping[int, Counter[int]]) -> dict[int, int]:
    """A column goes where more say; where as many say that it stayed beside its neighbor, it stayed."""
    matched: dict[int, int] = {}
    shift = 0
    for column in sent:
        counted = votes.get(column)
        if not counted:
            continue
        best = max(counted.values())
        stayed = column + shift
        matched[column] = (
            stayed if counted[stayed] == best else min(one for one, many in counted.items() if many == best)
        )
        shift = matched[column] - column
    return matched


def _between(sent: list[int], matched: Mapping[int, int], worded: set[int]) -> dict[int, int]:
    """What could not be matched lies as far from its neighbor as it was; what had words and finds no room is gone."""
    result = dict(matched)
    taken = set(matched.values())
    known = sorted(matched)
    for one in sent:
        if one in result:
            continue
        before = max((at for at in known if at < one), default=0)
        after = min((at for at in known if at > one), default=0)
        start, end = result.get(before, 0), result.get(after, 0)
        by_before, by_after = start + one - before, end - (after - one)
        if not after or end - start == after - before:
            guess = by_before
        elif one in worded and end - start < after - before:
            continue  # less room than there was: it was taken out
        else:
            guess = by_before if by_before not in taken and (not end or by_before < end) else by_after
        if guess > 0 and guess not in taken:
            result[one] = guess
            taken.add(guess)
    return result
