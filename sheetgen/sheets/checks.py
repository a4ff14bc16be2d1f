"""Checks: made from the other sheets: what is still to fill, what contradicts itself, which cautions apply, how far each sheet is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from sheetgen.declare.entry import STAGES, Entry, computed
from sheetgen.declare.kinds import percent, text, whole
from sheetgen.declare.parts import Book, Caution, Check, Form, Ledger, Line, Pictures, Sheet, Table, Translate

_HOLE = re.compile(r",? ?\{\w+\}")
"""The unit or currency in a heading: not needed to find the cell."""
_WHO = ("designer", "vendor")


@dataclass(frozen=True)
class Missing:
    """One line of what is to fill: `needed` and `open_` count cells, `which` names them where they are fields."""

    sheet: Sheet
    name: str
    what: str
    who: str
    needed: str
    open_: str
    which: str


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
                computed("contradictions", say("Contradictions"), whole(), _sum([f"N({name})" for name in wrong])),
                computed("cautions", say("Cautions that apply"), whole(),
                         _sum([f"IF(N({_caution(caution.name)})>0,1,0)" for _, caution in cautions])),
            )),
            _by_sheet(book, missing),
            _cautions(cautions, say),
            _contradictions(contradictions, say),
            _still_to_fill(missing, say),
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
             (computed(f"wrong_{sheet.name}_{check.name}", check.title, whole(), check.formula),), sheet.name)
        for sheet, check in contradictions
    )  # fmt: skip
    headings = (say("Sheet"), say("What"), say("Whose turn"), say("How to put it right"), say("Count"))
    return Ledger(say("Contradictions"), headings, (13, 44, 12, 44, 9), lines, mark_open=say("Count"))


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


def _sum(names: list[str]) -> str:
    return "+".join(names) if names else "0"


def _by_sheet(book: Book, missing: list[Missing]) -> Ledger:
    say, lines = book.say, []
    for sheet in book.sheets:
        own = [line.name for line in missing if line.sheet is sheet]
        if own:
            needed, open_ = _sum([f"needed_{name}" for name in own]), _sum([f"open_{name}" for name in own])
            lines.append(Line((sheet.title, sheet.purpose, ""), (
                computed(f"sheet_open_{sheet.name}", say("{sheet}: open").format(sheet=sheet.title), whole(), open_),
                computed(f"sheet_done_{sheet.name}", say("{sheet}: filled").format(sheet=sheet.title), percent(0), f"IF(({needed})=0,1,1-({open_})/({needed}))"),
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
                    yield _missing_fields(sheet, f"{sheet.name}_{number}_{who}", part.title, who, entries)


def _missing_fields(sheet: Sheet, name: str, title: str, who: str, entries: list[Entry]) -> Missing:
    by_rank = {rank: [entry for entry in entries if STAGES[entry.need] == rank] for rank in STAGES.values() if entries}
    needed = "+".join(f"IF(style.stage>={rank},{len(own)},0)" for rank, own in by_rank.items() if own)
    blank = {entry.name: f'{sheet.name}.{entry.name}=""' for entry in entries}
    open_ = "+".join(
        f"IF(style.stage>={rank},{'+'.join(f'IF({blank[entry.name]},1,0)' for entry in own)},0)"
        for rank, own in by_rank.items() if own
    )  # fmt: skip
    which = "&".join(
        f'IF(AND(style.stage>={STAGES[entry.need]},{blank[entry.name]}),"{_quoted(_HOLE.sub("", entry.heading))}; ","")'
        for entry in entries
    )
    return Missing(sheet, name, title, who, needed, open_, which)


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
        first = entries[0]
        rank = STAGES[first.need]
        heading = first.heading
        if len(entries) > 1:
            heading = say("{heading} and the like").format(heading=first.heading)
        what = say("{table}: {heading}").format(table=table.title, heading=heading)
        rest = f'{key}*({address}.{first.unless}="")' if first.unless else f"{key}*1"
        needed = "+".join(_asked(entry, f"SUMPRODUCT({rest})") for entry in entries)
        open_ = "+".join(_asked(entry, f'SUMPRODUCT({rest}*({address}.{entry.name}=""))') for entry in entries)
        yield Missing(sheet, f"{sheet.name}_{table.name}_{family}", what, first.who,
                      f"IF(style.stage>={rank},{needed},0)", f"IF(style.stage>={rank},{open_},0)", '""')  # fmt: skip


def _asked(entry: Entry, count: str) -> str:
    if not entry.asked_by:
        return count
    return f'IF({entry.asked_by}&""="{_quoted(entry.asked_when or entry.member_title)}",{count},0)'


def _quoted(words: str) -> str:
    return words.replace('"', '""')
