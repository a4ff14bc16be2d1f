"""Checks: made from the other sheets: what is still to fill, what contradicts itself, which cautions apply, how far each sheet is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from sheetgen.declare.entry import STAGES, Entry, computed
from sheetgen.declare.kinds import Kind, percent, text, whole
from sheetgen.declare.limits import MOST_DECLARED
from sheetgen.declare.parts import Book, Caution, Check, Form, Ledger, Line, Pictures, Sheet, Table

_HOLE = re.compile(r",? ?\{\w+\}")
"""The unit or currency in a heading: not needed to find the cell."""
_WHO = ("designer", "vendor")
_READABLE = MOST_DECLARED - 30
"""Characters of a sum; what stands around it takes the rest."""
_FIELDS_IN_A_STEP = 5


@dataclass(frozen=True)
class Missing:
    """One line of what is to fill: `needed` and `open_` count cells, `which` names them where they are fields.

    Formulas that would be too long to read take `steps`.
    """

    sheet: Sheet
    name: str
    what: str
    who: str
    needed: str
    open_: str
    which: str
    steps: tuple[Entry, ...] = ()


def checks(book: Book) -> Sheet:
    """The Checks sheet for this book (a vendor's book gives the vendor's own checks only)."""
    missing = [
        line for sheet in book.sheets for line in _missing(sheet) if book.audience == "designer" or line.who == "vendor"
    ]
    contradictions = [
        (sheet, check) for sheet in book.sheets for check in sheet.checks
        if book.audience == "designer" or check.who == "vendor"
    ]  # fmt: skip
    cautions = [(sheet, caution) for sheet in book.sheets for caution in sheet.cautions]
    names = [f"open_{line.name}" for line in missing]
    wrong = [f"wrong_{sheet.name}_{check.name}" for sheet, check in contradictions]
    return Sheet(
        "checks",
        "Checks",
        purpose="Nothing to fill. Counts what is missing or contradicts itself, live; 0 is good.",
        portrait=True,
        parts=(
            Form("In short", (
                computed("to_fill", "Cells still to fill", whole(), _sum(names)),
                computed("contradictions", "Contradictions", whole(), _sum(wrong)),
                computed("cautions", "Cautions that apply", whole(), _above_0([_caution(one.name) for _, one in cautions])),
            )),
            _by_sheet(book, missing),
            _cautions(cautions),
            _contradictions(contradictions),
            _still_to_fill(missing),
            *_steps(missing),
        ),
    )  # fmt: skip


def _cautions(cautions: list[tuple[Sheet, Caution]]) -> Ledger:
    lines = tuple(
        Line((sheet.title, f"{caution.sentence} Source: {caution.source}."),
             (computed(_caution(caution.name), caution.name, whole(), caution.formula),), sheet.name)
        for sheet, caution in cautions
    )  # fmt: skip
    note = "They never block. A count above 0 says that the data of this style fit the caution."
    return Ledger("Cautions", ("Sheet", "Caution", "Applies"), (13, 110, 9), lines, mark_open=True, note=note)


def _contradictions(contradictions: list[tuple[Sheet, Check]]) -> Ledger:
    lines = tuple(
        Line((sheet.title, check.title, check.who, check.fix),
             (computed(f"wrong_{sheet.name}_{check.name}", check.title, whole(), check.formula),), sheet.name)
        for sheet, check in contradictions
    )  # fmt: skip
    headings = ("Sheet", "What", "Whose turn", "How to put it right", "Count")
    return Ledger("Contradictions", headings, (13, 44, 12, 44, 9), lines, mark_open=True)


def _still_to_fill(missing: list[Missing]) -> Ledger:
    lines = tuple(
        Line((line.sheet.title, line.what, line.who), (
            computed(f"needed_{line.name}", f"{line.what}, needed", whole(), line.needed),
            computed(f"open_{line.name}", f"{line.what}, open", whole(), line.open_),
            computed(f"which_{line.name}", f"{line.what}, which", text(40), line.which),
        ), line.sheet.name)
        for line in missing
    )  # fmt: skip
    headings = ("Sheet", "What", "Whose turn", "Needed", "Open", "Which")
    return Ledger("Still to fill", headings, (13, 50, 12, 9, 9, 40), lines, mark_open=True)


def _caution(name: str) -> str:
    return "caution_" + name.replace("-", "_")


def _block(names: list[str]) -> str:
    """The cells of a ledger's lines that follow each other."""
    return f"{names[0]}:{names[-1]}"


def _sum(names: list[str]) -> str:
    return f"SUM({_block(names)})" if names else "0"


def _above_0(names: list[str]) -> str:
    return f'COUNTIF({_block(names)},">0")' if names else "0"


def _steps(missing: list[Missing]) -> Iterator[Ledger]:
    lines = tuple(Line((line.sheet.title, step.heading), (step,)) for line in missing for step in line.steps)
    if lines:
        yield Ledger("Steps of what is still to fill", ("Sheet", "Step", "Gives"), (13, 50, 40), lines, printed=False)


def _in_steps(name: str, heading: str, pieces: list[str], kind: Kind) -> tuple[str, tuple[Entry, ...]]:
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
        computed(f"{name}_{number}", f"{heading}, step {number}", kind, sign.join(group))
        for number, group in enumerate(groups, 1)
    )
    if kind.name != "text":
        return _sum([step.name for step in steps]), steps
    # With &"" a text does not wait for those of its steps that are blank.
    return "&".join(f'{step.name}&""' for step in steps), steps


def _by_sheet(book: Book, missing: list[Missing]) -> Ledger:
    lines = []
    for sheet in book.sheets:
        own = [line.name for line in missing if line.sheet is sheet]
        if own:
            needed, open_ = _sum([f"needed_{name}" for name in own]), _sum([f"open_{name}" for name in own])
            done = f"sheet_open_{sheet.name}/{needed}"
            lines.append(Line((sheet.title, sheet.purpose, ""), (
                computed(f"sheet_open_{sheet.name}", f"{sheet.title}: open", whole(), open_),
                computed(f"sheet_done_{sheet.name}", f"{sheet.title}: filled", percent(0), f"IF({needed}=0,1,1-{done})"),
            ), sheet.name))  # fmt: skip
    return Ledger("By sheet", ("Sheet", "", "", "Open", "Filled"), (13, 50, 12, 9, 9), tuple(lines), mark_open=True)


def _missing(sheet: Sheet) -> Iterator[Missing]:
    for number, part in enumerate(sheet.parts, 1):
        if isinstance(part, Table):
            yield from _missing_in_table(sheet, part)
        elif isinstance(part, Form | Pictures):
            for who in _WHO:
                entries = [entry for entry in part.entries if entry.need and entry.who == who]
                if entries:
                    yield _missing_fields(sheet, f"{sheet.name}_{number}_{who}", part.title, who, entries)


def _missing_fields(sheet: Sheet, name: str, title: str, who: str, entries: list[Entry]) -> Missing:
    by_rank = {rank: own for rank in STAGES.values() if (own := [one for one in entries if STAGES[one.need] == rank])}
    needed = "+".join(f"IF(style.stage>={rank},{len(own)},0)" for rank, own in by_rank.items())
    blank = {entry.name: f'{sheet.name}.{entry.name}=""' for entry in entries}
    counts = [
        f"IF(style.stage>={rank},{'+'.join(f'IF({blank[entry.name]},1,0)' for entry in some)},0)"
        for rank, own in by_rank.items()
        for some in (own[at : at + _FIELDS_IN_A_STEP] for at in range(0, len(own), _FIELDS_IN_A_STEP))
    ]  # fmt: skip
    open_, open_steps = _in_steps(f"open_{name}", f"{title}, open", counts, whole())
    words = [
        f'IF(AND(style.stage>={STAGES[entry.need]},{blank[entry.name]}),"{_quoted(_HOLE.sub("", entry.heading))}; ","")'
        for entry in entries
    ]
    which, which_steps = _in_steps(f"which_{name}", f"{title}, which", words, text(40))
    return Missing(sheet, name, title, who, needed, open_, which, (*open_steps, *which_steps))


def _missing_in_table(sheet: Sheet, table: Table) -> Iterator[Missing]:
    address = f"{sheet.name}.{table.name}"
    key = f'({address}.{table.key}<>"")'
    families: dict[str, list[Entry]] = {}
    for entry in table.entries:
        if entry.need and entry.who in _WHO and entry.name != table.key:
            families.setdefault(entry.family or entry.name, []).append(entry)
    own_key = next(entry for entry in table.entries if entry.name == table.key)
    if own_key.need and own_key.who in _WHO:
        rank = STAGES[own_key.need]
        yield Missing(sheet, f"{sheet.name}_{table.name}_rows", f"{table.title}: at least one row", own_key.who,
                      f"IF(style.stage>={rank},1,0)", f"IF(style.stage>={rank},IF(SUMPRODUCT({key}*1)=0,1,0),0)", '""')  # fmt: skip
    for family, entries in families.items():
        yield _missing_column(sheet, table, family, entries, key)


def _missing_column(sheet: Sheet, table: Table, family: str, entries: list[Entry], key: str) -> Missing:
    """A column, or all members of a family: members side by side are counted as one block."""
    address, first = f"{sheet.name}.{table.name}", entries[0]
    rest = f'{key}*({address}.{first.unless}="")' if first.unless else f"{key}*1"
    needed, open_ = [], []
    for run in _side_by_side(table, entries):
        cells = f"{address}.{run[0].name}" + (f":{address}.{run[-1].name}" if len(run) > 1 else "")
        times = f"{len(run)}*" if len(run) > 1 else ""
        needed.append(_asked(run[0], f"{times}SUMPRODUCT({rest})"))
        open_.append(_asked(run[0], f'SUMPRODUCT({rest}*({cells}=""))'))
    name, heading = f"{sheet.name}_{table.name}_{family}", f"{table.title}: {first.heading}"
    heading += " and the like" if len(entries) > 1 else ""
    needed_all, needed_steps = _in_steps(f"needed_{name}", f"{heading}, needed", needed, whole())
    open_all, open_steps = _in_steps(f"open_{name}", f"{heading}, open", open_, whole())
    stage = f"style.stage>={STAGES[first.need]}"
    return Missing(sheet, name, heading, first.who, f"IF({stage},{needed_all},0)", f"IF({stage},{open_all},0)", '""',
                   (*needed_steps, *open_steps))  # fmt: skip


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
