"""What is to fill: from the declaration, one line for each column and each group of fields, by purpose and by whose turn it is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from sheetgen.declare.entry import STAGES, Entry, computed
from sheetgen.declare.kinds import Kind, text, whole
from sheetgen.declare.limits import MOST_DECLARED
from sheetgen.declare.parts import Book, Form, Pictures, Sheet, Table, Translate

_HOLE = re.compile(r",? ?\{\w+\}")
"""The unit or currency in a heading: not needed to find the cell."""
WHO = ("designer", "vendor")
_READABLE = MOST_DECLARED - 30
"""Characters of a sum; what stands around it takes the rest."""
_FIELDS_IN_A_STEP = 5


@dataclass(frozen=True)
class Missing:
    """One line of what is to fill: `needed` and `open_` count cells, `which` names them where they are fields.

    `purpose` is the first one that asks for them. Formulas that would be too long to read take `steps`.
    """

    sheet: Sheet
    name: str
    what: str
    who: str
    purpose: str
    needed: str
    open_: str
    which: str
    steps: tuple[Entry, ...] = ()


def to_fill(book: Book) -> tuple[Missing, ...]:
    """All lines: by purpose, then by whose turn it is, then as the sheets stand. A vendor's book holds the vendor's only."""
    lines = [line for sheet in book.sheets for line in _missing(sheet, book.say)]
    if book.audience == "vendor":
        lines = [_when_asked(line) for line in lines if line.who == "vendor"]
    return tuple(sorted(lines, key=lambda line: (STAGES[line.purpose], WHO.index(line.who))))


def _when_asked(line: Missing) -> Missing:
    """A copy asks for its own purpose only; the brand sees in its own file what each will ask for."""
    return replace(
        line,
        needed=reached(line.purpose, line.needed),
        open_=reached(line.purpose, line.open_),
        which=reached(line.purpose, line.which, before='""'),
    )


def block(names: list[str]) -> str:
    """The cells of a ledger's lines that follow each other."""
    return f"{names[0]}:{names[-1]}"


def total(names: list[str]) -> str:
    """What they add up to; nothing is 0."""
    return f"SUM({block(names)})" if names else "0"


def reached(purpose: str, what: str, before: str = "0") -> str:
    """What counts from that purpose on; before it nobody is asked."""
    return what if STAGES[purpose] == 1 else f"IF(style.stage>={STAGES[purpose]},{what},{before})"


def in_steps(name: str, heading: str, pieces: list[str], kind: Kind, say: Translate) -> tuple[str, tuple[Entry, ...]]:
    """Counts added up, or texts put one after another; in steps of their own where that is too long to read."""
    sign = "&" if kind.name == "text" else "+"
    if len(sign.join(pieces)) <= _READABLE:
        return sign.join(pieces), ()
    groups: list[list[str]] = [[]]
    for piece in pieces:
        if groups[-1] and len(sign.join((*groups[-1], piece))) > _READABLE:
            groups.append([])
        groups[-1].append(piece)
    steps = tuple(
        computed(
            f"{name}_{number}",
            say("{heading}, step {number}").format(heading=heading, number=number),
            kind,
            sign.join(group),
        )
        for number, group in enumerate(groups, 1)
    )
    if kind.name != "text":
        return total([step.name for step in steps]), steps
    # With &"" a text does not wait for those of its steps that are blank.
    return "&".join(f'{step.name}&""' for step in steps), steps


def _missing(sheet: Sheet, say: Translate) -> Iterator[Missing]:
    for number, part in enumerate(sheet.parts, 1):
        if isinstance(part, Table):
            yield from _missing_in_table(sheet, part, say)
        elif isinstance(part, Form | Pictures):
            for purpose in STAGES:
                for who in WHO:
                    entries = [entry for entry in part.entries if entry.need == purpose and entry.who == who]
                    if entries:
                        name = f"{sheet.name}_{number}_{purpose}_{who}"
                        yield _missing_fields(sheet, name, part.title, entries, say)


def _missing_fields(sheet: Sheet, name: str, title: str, entries: list[Entry], say: Translate) -> Missing:
    blank = {entry.name: f'{sheet.name}.{entry.name}=""' for entry in entries}
    counts = [
        "+".join(f"IF({blank[entry.name]},1,0)" for entry in entries[at : at + _FIELDS_IN_A_STEP])
        for at in range(0, len(entries), _FIELDS_IN_A_STEP)
    ]
    open_, open_steps = in_steps(f"open_{name}", say("{what}, open").format(what=title), counts, whole(), say)
    words = [f'IF({blank[entry.name]},"{_quoted(_HOLE.sub("", entry.heading))}; ","")' for entry in entries]
    which, which_steps = in_steps(f"which_{name}", say("{what}, which").format(what=title), words, text(40), say)
    first = entries[0]
    return Missing(
        sheet, name, title, first.who, first.need, f"{len(entries)}", open_, which, (*open_steps, *which_steps)
    )


def _missing_in_table(sheet: Sheet, table: Table, say: Translate) -> Iterator[Missing]:
    address = f"{sheet.name}.{table.name}"
    key = f'({address}.{table.key}<>"")'
    families: dict[str, list[Entry]] = {}
    for entry in table.entries:
        if entry.need and entry.who in WHO and entry.name != table.key:
            families.setdefault(entry.family or entry.name, []).append(entry)
    own_key = next(entry for entry in table.entries if entry.name == table.key)
    if own_key.need and own_key.who in WHO:
        rows = say("{table}: at least one row").format(table=table.title)
        yield Missing(sheet, f"{sheet.name}_{table.name}_rows", rows, own_key.who, own_key.need,
                      "1", f"IF(SUMPRODUCT({key}*1)=0,1,0)", '""')  # fmt: skip
    for family, entries in families.items():
        yield _missing_column(sheet, table, family, entries, key, say)


def _missing_column(
    sheet: Sheet, table: Table, family: str, entries: list[Entry], key: str, say: Translate
) -> Missing:  # fmt: skip
    """A column, or all members of a family: members side by side are counted as one block."""
    address, first = f"{sheet.name}.{table.name}", entries[0]
    rest = f'{key}*({address}.{first.unless}="")' if first.unless else f"{key}*1"
    needed, open_ = [], []
    for run in _side_by_side(table, entries):
        cells = f"{address}.{run[0].name}" + (f":{address}.{run[-1].name}" if len(run) > 1 else "")
        times = f"{len(run)}*" if len(run) > 1 else ""
        needed.append(_asked(run[0], f"{times}SUMPRODUCT({rest})"))
        open_.append(_asked(run[0], f'SUMPRODUCT({rest}*({cells}=""))'))
    name = f"{sheet.name}_{table.name}_{family}"
    alone, with_others = say("{table}: {heading}"), say("{table}: {heading} and the like")
    heading = (alone if len(entries) == 1 else with_others).format(table=table.title, heading=first.heading)
    needed_all, needed_steps = in_steps(
        f"needed_{name}", say("{what}, needed").format(what=heading), needed, whole(), say
    )
    open_all, open_steps = in_steps(f"open_{name}", say("{what}, open").format(what=heading), open_, whole(), say)
    return Missing(
        sheet, name, heading, first.who, first.need, needed_all, open_all, '""', (*needed_steps, *open_steps)
    )


def _side_by_side(table: Table, entries: list[Entry]) -> list[list[Entry]]:
    """Entries whose columns follow each other, and that are asked for together."""
    runs: list[list[Entry]] = []
    at = {entry.name: index for index, entry in enumerate(table.entries)}
    for entry in entries:
        before = runs[-1][-1] if runs else None
        if before and at[before.name] + 1 == at[entry.name] and _asked(before, "") == _asked(entry, ""):
            runs[-1].append(entry)
        else:
            runs.append([entry])
    return runs


def _asked(entry: Entry, count: str) -> str:
    if not entry.asked_by:
        return count
    return f'IF({entry.asked_by}&""="{_quoted(entry.asked_when or entry.member_title)}",{count},0)'


def _quoted(words: str) -> str:
    return words.replace('"', '""')
