"""Checks: made from the other sheets: what is still to fill, what contradicts itself, which cautions apply, how far each sheet is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from sheetgen.declare.entry import STAGES, Entry, computed
from sheetgen.declare.kinds import Kind, percent, text, whole
from sheetgen.declare.limits import MOST_DECLARED
from sheetgen.declare.parts import Book, Caution, Check, Form, Ledger, Line, Pictures, Sheet, Table, Translate

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
    say = book.say
    missing = [
        line
        for sheet in book.sheets
        for line in _missing(sheet, say)
        if book.audience == "designer" or line.who == "vendor"
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
        say("Checks"),
        purpose=say("Nothing to fill. Counts what is missing or contradicts itself, live; 0 is good."),
        portrait=True,
        parts=(
            Form(say("In short"), (
                computed("to_fill", say("Cells still to fill"), whole(), _sum(names)),
                computed("contradictions", say("Contradictions"), whole(), _sum(wrong)),
                computed("cautions", say("Cautions that apply"), whole(), _above_0([_caution(one.name) for _, one in cautions])),
            )),
            _by_sheet(book, missing),
            _cautions(cautions, say),
            _contradictions(contradictions, say),
            _still_to_fill(missing, say),
            *_steps(missing, say),
        ),
    )  # fmt: skip


def _cautions(cautions: list[tuple[Sheet, Caution]], say: Translate) -> Ledger:
    lines = tuple(
        Line((sheet.title, say("{sentence} Source: {source}.").format(sentence=caution.sentence, source=caution.source)),
             (computed(_caution(caution.name), say(caution.name), whole(), caution.formula),), sheet.name)
        for sheet, caution in cautions
    )  # fmt: skip
    note = say("They never block. A count above 0 says that the data of this style fit the caution.")
    headings = (say("Sheet"), say("Caution"), say("Applies"))
    return Ledger(say("Cautions"), headings, (13, 110, 9), lines, mark_open=say("Applies"), note=note)


def _contradictions(contradictions: list[tuple[Sheet, Check]], say: Translate) -> Ledger:
    lines = tuple(
        Line((sheet.title, check.title, say(check.who), check.fix),
             _counted(f"{sheet.name}_{check.name}", check, say), sheet.name)
        for sheet, check in contradictions
    )  # fmt: skip
    headings = (say("Sheet"), say("What"), say("Whose turn"), say("How to put it right"), say("Count"), say("First at"))
    return Ledger(say("Contradictions"), headings, (13, 44, 12, 44, 9, 9), lines, mark_open=say("Count"))


def _counted(name: str, check: Check, say: Translate) -> tuple[Entry, ...]:
    count = computed(f"wrong_{name}", check.title, whole(), check.formula)
    if not check.where:
        return (count,)
    return count, computed(f"first_{name}", say("{what}, first at").format(what=check.title), text(9), check.where)


def _still_to_fill(missing: list[Missing], say: Translate) -> Ledger:
    lines = tuple(
        Line((line.sheet.title, line.what, say(line.who)), (
            computed(f"needed_{line.name}", say("{what}, needed").format(what=line.what), whole(), line.needed),
            computed(f"open_{line.name}", say("{what}, open").format(what=line.what), whole(), line.open_),
            computed(f"which_{line.name}", say("{what}, which").format(what=line.what), text(40), line.which),
        ), line.sheet.name)
        for line in missing
    )  # fmt: skip
    headings = (say("Sheet"), say("What"), say("Whose turn"), say("Needed"), say("Open"), say("Which"))
    return Ledger(say("Still to fill"), headings, (13, 50, 12, 9, 9, 40), lines, mark_open=say("Open"))


def _caution(name: str) -> str:
    return "caution_" + name.replace("-", "_")


def _block(names: list[str]) -> str:
    """The cells of a ledger's lines that follow each other."""
    return f"{names[0]}:{names[-1]}"


def _sum(names: list[str]) -> str:
    return f"SUM({_block(names)})" if names else "0"


def _above_0(names: list[str]) -> str:
    return f'COUNTIF({_block(names)},">0")' if names else "0"


def _steps(missing: list[Missing], say: Translate) -> Iterator[Ledger]:
    lines = tuple(Line((line.sheet.title, step.heading), (step,)) for line in missing for step in line.steps)
    if lines:
        headings = (say("Sheet"), say("Step"), say("Gives"))
        yield Ledger(say("Steps of what is still to fill"), headings, (13, 50, 40), lines, printed=False)


def _in_steps(name: str, heading: str, pieces: list[str], kind: Kind, say: Translate) -> tuple[str, tuple[Entry, ...]]:
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
        return _sum([step.name for step in steps]), steps
    # With &"" a text does not wait for those of its steps that are blank.
    return "&".join(f'{step.name}&""' for step in steps), steps


def _by_sheet(book: Book, missing: list[Missing]) -> Ledger:
    say, lines = book.say, []
    for sheet in book.sheets:
        own = [line.name for line in missing if line.sheet is sheet]
        if own:
            needed, open_ = _sum([f"needed_{name}" for name in own]), _sum([f"open_{name}" for name in own])
            done = f"sheet_open_{sheet.name}/{needed}"
            lines.append(Line((sheet.title, sheet.purpose, ""), (
                computed(f"sheet_open_{sheet.name}", say("{sheet}: open").format(sheet=sheet.title), whole(), open_),
                computed(f"sheet_done_{sheet.name}", say("{sheet}: filled").format(sheet=sheet.title), percent(0), f"IF({needed}=0,1,1-{done})"),
            ), sheet.name))  # fmt: skip
    headings = (say("Sheet"), "", "", say("Open"), say("Filled"))
    return Ledger(say("By sheet"), headings, (13, 50, 12, 9, 9), tuple(lines), mark_open=say("Open"))


def _missing(sheet: Sheet, say: Translate) -> Iterator[Missing]:
    for number, part in enumerate(sheet.parts, 1):
        if isinstance(part, Table):
            yield from _missing_in_table(sheet, part, say)
        elif isinstance(part, Form | Pictures):
            for who in _WHO:
                entries = [entry for entry in part.entries if entry.need and entry.who == who]
                if entries:
                    yield _missing_fields(sheet, f"{sheet.name}_{number}_{who}", part.title, who, entries, say)


def _missing_fields(
    sheet: Sheet, name: str, title: str, who: str, entries: list[Entry], say: Translate
) -> Missing:  # fmt: skip
    by_rank = {rank: own for rank in STAGES.values() if (own := [one for one in entries if STAGES[one.need] == rank])}
    needed = "+".join(f"IF(style.stage>={rank},{len(own)},0)" for rank, own in by_rank.items())
    blank = {entry.name: f'{sheet.name}.{entry.name}=""' for entry in entries}
    counts = [
        f"IF(style.stage>={rank},{'+'.join(f'IF({blank[entry.name]},1,0)' for entry in some)},0)"
        for rank, own in by_rank.items()
        for some in (own[at : at + _FIELDS_IN_A_STEP] for at in range(0, len(own), _FIELDS_IN_A_STEP))
    ]  # fmt: skip
    open_, open_steps = _in_steps(f"open_{name}", say("{what}, open").format(what=title), counts, whole(), say)
    words = [
        f'IF(AND(style.stage>={STAGES[entry.need]},{blank[entry.name]}),"{_quoted(_HOLE.sub("", entry.heading))}; ","")'
        for entry in entries
    ]
    which, which_steps = _in_steps(f"which_{name}", say("{what}, which").format(what=title), words, text(40), say)
    return Missing(sheet, name, title, who, needed, open_, which, (*open_steps, *which_steps))


def _missing_in_table(sheet: Sheet, table: Table, say: Translate) -> Iterator[Missing]:
    address = f"{sheet.name}.{table.name}"
    key = f'({address}.{table.key}<>"")'
    families: dict[str, list[Entry]] = {}
    for entry in table.entries:
        if entry.need and entry.who in _WHO and entry.name != table.key:
            families.setdefault(entry.family or entry.name, []).append(entry)
    own_key = next(entry for entry in table.entries if entry.name == table.key)
    if own_key.need and own_key.who in _WHO:
        rank = STAGES[own_key.need]
        rows = say("{table}: at least one row").format(table=table.title)
        yield Missing(sheet, f"{sheet.name}_{table.name}_rows", rows, own_key.who,
                      f"IF(style.stage>={rank},1,0)", f"IF(style.stage>={rank},IF(SUMPRODUCT({key}*1)=0,1,0),0)", '""')  # fmt: skip
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
    words = "{table}: {heading}" if len(entries) == 1 else "{table}: {heading} and the like"
    heading = say(words).format(table=table.title, heading=first.heading)
    needed_all, needed_steps = _in_steps(
        f"needed_{name}", say("{what}, needed").format(what=heading), needed, whole(), say
    )
    open_all, open_steps = _in_steps(f"open_{name}", say("{what}, open").format(what=heading), open_, whole(), say)
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
