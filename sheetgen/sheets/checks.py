"""Checks: made from the other sheets: what each purpose waits for, what contradicts itself, which cautions apply, what is still to fill."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from sheetgen.declare.entry import STAGES, Entry, computed
from sheetgen.declare.kinds import percent, text, whole
from sheetgen.declare.parts import Book, Caution, Check, Form, Ledger, Line, Sheet, Translate
from sheetgen.trade.cautions import DEFERENCE

from .to_fill import Missing, block, in_steps, reached, to_fill, total

Checks: TypeAlias = list[tuple[Sheet, Check]]
_WIDTHS = (13, 40, 12, 9, 9, 22)
"""Characters of the columns that are printed: they stand beside each other on an upright page."""


def checks(book: Book) -> Sheet:
    """The Checks sheet for this book (a vendor's book gives the vendor's own checks only)."""
    say = book.say
    missing = to_fill(book)
    all_checks = [
        (sheet, check) for sheet in book.sheets for check in sheet.checks
        if book.audience == "designer" or check.who == "vendor"
    ]  # fmt: skip
    by_stop = {stops: [one for one in all_checks if one[1].stops == stops] for stops in ("quote", "sample", "bulk", "")}
    cautions = [(sheet, caution) for sheet in book.sheets for caution in sheet.cautions]
    wrong = "+".join(reached(stops or "quote", total(_wrong(some))) for stops, some in by_stop.items() if some)
    own = (book.audience,)
    by_sheet, sheet_steps = _by_sheet(book, missing, own)
    where, where_steps = _first_sheets(book, by_sheet, say)
    return Sheet(
        "checks",
        say("Checks"),
        purpose=say("Nothing to fill. Counts what is missing or contradicts itself, live; 0 is good."),
        parts=(
            Form(say("In short"), (
                computed("to_fill", say("Cells still to fill"), whole(), _open(missing, own) or "0"),
                computed("to_fill_on", say("They are on"), text(60), where),
                computed("contradictions", say("Contradictions"), whole(), wrong or "0"),
                computed("cautions", say("Cautions that apply"), whole(), _above_0([one.counted_as for _, one in cautions])),
            )),
            *([_by_purpose(missing, by_stop, say)] if book.audience == "designer" else []),
            _cautions(cautions, say),
            by_sheet,
            *_contradictions(by_stop, say),
            *_still_to_fill(missing, say),
            *_steps(missing, [*sheet_steps, *where_steps], say),
        ),
    )  # fmt: skip


def _wrong(some: Checks) -> list[str]:
    return [f"wrong_{sheet.name}_{check.name}" for sheet, check in some]


def _open(missing: tuple[Missing, ...], who: tuple[str, ...], upto: str = "") -> str:
    """Cells that they have still to fill: for the purpose on the Style sheet, or for a given one."""
    sums = []
    for purpose, rank in STAGES.items():
        lines = [f"open_{line.name}" for line in missing if line.purpose == purpose and line.who in who]
        if lines and rank <= STAGES.get(upto, rank):
            sums.append(total(lines) if upto else reached(purpose, total(lines)))
    return "+".join(sums)


def _by_purpose(missing: tuple[Missing, ...], by_stop: dict[str, Checks], say: Translate) -> Ledger:
    """The judgment that stands before a copy leaves, for each purpose at once: nobody needs a command to know."""
    lines = []
    for purpose, rank in STAGES.items():
        stops = [total(_wrong(some)) for stop, some in by_stop.items() if some and 0 < STAGES.get(stop, 0) <= rank]
        fill, stop = f"ready_{purpose}_fill", f"ready_{purpose}_stops"
        named = {"purpose": say(purpose)}
        lines.append(Line((say(purpose), say(_LEAVES[purpose]), ""), (
            computed(fill, say("To fill for {purpose}").format(**named), whole(), _open(missing, ("designer",), purpose) or "0"),
            computed(stop, say("To put right for {purpose}").format(**named), whole(), "+".join(stops) or "0"),
            computed(f"ready_{purpose}", say("May leave for {purpose}").format(**named), text(40),
                     f'IF({fill}+{stop}=0,"{say("yes")}","{say("not yet: fill or put right what is counted")}")'),
        )))  # fmt: skip
    headings = (say("Purpose"), say("What leaves"), "", say("To fill"), say("To put right"), say("May it leave"))
    note = say(
        "Counts the brand's own cells and all that would stop a copy, whatever purpose stands on the Style sheet."
    )
    return Ledger(say("What each purpose waits for"), headings, _WIDTHS, tuple(lines), note=note)


_LEAVES = {
    "quote": "Everything that a price rests on.",
    "sample": "All of that, and what a sample is sewn from.",
    "bulk": "All of that, and what is cut, packed and inspected.",
}


def _cautions(cautions: list[tuple[Sheet, Caution]], say: Translate) -> Ledger:
    lines = tuple(
        Line((sheet.title, say("{sentence} Source: {source}.").format(sentence=_without_end(caution.sentence), source=caution.source)),
             (computed(caution.counted_as, say(caution.name), whole(), caution.formula),), sheet.name)
        for sheet, caution in cautions
    )  # fmt: skip
    note = say("They never block. A count above 0 says that the data of this style fit the caution. {end}").format(
        end=say(DEFERENCE)
    )
    headings = (say("Sheet"), say("Caution"), say("Applies"))
    return Ledger(say("Cautions"), headings, (13, 83, 9), lines, mark_open=say("Applies"), note=note)


def _without_end(sentence: str) -> str:
    """A caution's own words: how all of them end stands once, above."""
    return sentence.removesuffix(f" {DEFERENCE}")


_TITLES = {
    "quote": "Stops every copy", "sample": "Stops a copy for a sample", "bulk": "Stops a copy for bulk",
    "": "Contradictions: put right, or leave what is meant",
}  # fmt: skip


def _contradictions(by_stop: dict[str, Checks], say: Translate) -> Iterator[Ledger]:
    headings = (say("Sheet"), say("What"), say("Whose turn"), say("How to put it right"), say("Count"), say("First at"))
    for stops, some in by_stop.items():
        lines = tuple(
            Line((sheet.title, check.title, say(check.who), check.fix),
                 _counted(f"{sheet.name}_{check.name}", check, say), sheet.name)
            for sheet, check in some
        )  # fmt: skip
        if lines:
            yield Ledger(
                say(_TITLES[stops]), headings, (13, 44, 12, 44, 9, 9), lines, mark_open=say("Count"), printed=False
            )


def _counted(name: str, check: Check, say: Translate) -> tuple[Entry, ...]:
    count = computed(f"wrong_{name}", check.title, whole(), check.formula)
    if not check.where:
        return (count,)
    return count, computed(f"first_{name}", say("{what}, first at").format(what=check.title), text(9), check.where)


_ASKED = {
    "quote": "To fill for a quote, and for all after it", "sample": "To fill for a sample, and for bulk",
    "bulk": "To fill for bulk",
}  # fmt: skip


def _still_to_fill(missing: tuple[Missing, ...], say: Translate) -> Iterator[Ledger]:
    headings = (say("Sheet"), say("What"), say("Whose turn"), say("Needed"), say("Open"), say("Which"))
    for purpose in STAGES:
        lines = tuple(
            Line((line.sheet.title, line.what, say(line.who)), (
                computed(f"needed_{line.name}", say("{what}, needed").format(what=line.what), whole(), line.needed),
                computed(f"open_{line.name}", say("{what}, open").format(what=line.what), whole(), line.open_),
                computed(f"which_{line.name}", say("{what}, which").format(what=line.what), text(40), line.which),
            ), line.sheet.name)
            for line in missing if line.purpose == purpose
        )  # fmt: skip
        if lines:
            yield Ledger(
                say(_ASKED[purpose]), headings, (13, 44, 12, 9, 9, 40), lines, mark_open=say("Open"), printed=False
            )


def _above_0(names: list[str]) -> str:
    return f'COUNTIF({block(names)},">0")' if names else "0"


def _steps(missing: tuple[Missing, ...], sheet_steps: list[Line], say: Translate) -> Iterator[Ledger]:
    lines = (
        *(Line((line.sheet.title, step.heading), (step,)) for line in missing for step in line.steps),
        *sheet_steps,
    )
    if lines:
        headings = (say("Sheet"), say("Step"), say("Gives"))
        yield Ledger(say("Steps of what is still to fill"), headings, (13, 50, 40), lines, printed=False)


def _by_sheet(book: Book, missing: tuple[Missing, ...], who: tuple[str, ...]) -> tuple[Ledger, list[Line]]:
    """How far each sheet is with what is theirs to fill, for the purpose on the Style sheet; and the steps of its counts."""
    say, lines, steps = book.say, [], []
    for sheet in book.sheets:
        counts = {}
        for what in ("open", "needed"):
            heading = say("{sheet}: {what}").format(sheet=sheet.title, what=say(what))
            counts[what], own = in_steps(
                f"sheet_{what}_of_{sheet.name}", heading, _of_sheet(sheet, missing, what, who), whole(), say
            )
            steps += [Line((sheet.title, step.heading), (step,)) for step in own]
        if any(line.sheet is sheet and line.who in who for line in missing):
            needed, open_ = f"sheet_needed_{sheet.name}", f"sheet_open_{sheet.name}"
            named = {"sheet": sheet.title}
            lines.append(Line((sheet.title, sheet.purpose, ""), (
                computed(needed, say("{sheet}: needed").format(**named), whole(), counts["needed"]),
                computed(open_, say("{sheet}: open").format(**named), whole(), counts["open"]),
                computed(f"sheet_done_{sheet.name}", say("{sheet}: filled").format(**named), percent(0), f"IF({needed}=0,1,1-{open_}/{needed})"),
            ), sheet.name))  # fmt: skip
    headings = (say("Sheet"), "", "", say("Needed"), say("Open"), say("Filled"))
    return Ledger(say("By sheet"), headings, _WIDTHS, tuple(lines), mark_open=say("Open"), printed=False), steps


def _first_sheets(book: Book, by_sheet: Ledger, say: Translate) -> tuple[str, list[Line]]:
    """The sheets on which something is still to fill, in words; and the steps of it."""
    titles = {sheet.name: sheet.title for sheet in book.sheets}
    words = [f'IF(sheet_open_{line.link}>0,"{titles[line.link]}; ","")' for line in by_sheet.lines]
    heading = say("Sheets with cells to fill")
    formula, steps = in_steps("sheets_to_fill", heading, words or ['""'], text(40), say)
    return formula, [Line((heading, step.heading), (step,)) for step in steps]


def _of_sheet(sheet: Sheet, missing: tuple[Missing, ...], what: str, who: tuple[str, ...]) -> list[str]:
    """The sheet's lines, which stand together for each purpose and each whose turn it is."""
    sums = []
    for purpose in STAGES:
        for one in who:
            own = [
                f"{what}_{line.name}"
                for line in missing
                if line.sheet is sheet and (line.purpose, line.who) == (purpose, one)
            ]
            if own:
                sums.append(reached(purpose, total(own)))
    return sums
