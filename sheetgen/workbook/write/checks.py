"""Entry checks, input messages, drop-downs, and the color that a cell has until it is filled."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from sheetgen.declare.a1 import letters
from sheetgen.declare.entry import Entry, Place
from sheetgen.declare.kinds import EARLIEST, Kind
from sheetgen.texts import say
from sheetgen.workbook.model import look
from sheetgen.workbook.model.geometry import Geometry, name_of
from sheetgen.workbook.model.page import Page, PlacedLedger, PlacedTable
from sheetgen.workbook.model.values import Ready, with_words
from sheetgen.workbook.write.formats import Formats
from sheetgen.workbook.write.targets import MOST_MESSAGE, EntryCells, Target, entry_targets, set_rule
from sheetgen.workbook.write.waiting import say_what_is_waited_for

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

_MOST_LIST = 255
_BAD_WORDS, _GOOD_WORDS = (
    ("out", "fail", "turns", "open, late", "missing", "order below"),
    ("in", "pass", "done", "given", "reached"),
)
_JUDGED = frozenset({"verdict", "state", "grade"})


def asked_cells(asked: Mapping[Place, str], where: Geometry, title: str) -> dict[tuple[int, int], str]:
    """Row and column (0-based) of the cells of a sheet about which something is asked, and where it stands on Questions."""
    cells = ((where.at(place), word) for place, word in asked.items())
    return {(cell.row - 1, cell.column - 1): word for cell, word in cells if cell and cell.sheet == title}


def add_checks(
    formats: Formats, sheet: Worksheet, page: Page, ready: Ready, asked: Mapping[tuple[int, int], str]
) -> None:  # fmt: skip
    """Everything live on one sheet that is no formula."""
    entries = entry_targets(page, ready)
    typed = [one for one in entries if one.column.entry.who in {"designer", "vendor"}]
    _entry_checks(sheet, page, ready, typed, asked)
    say_what_is_waited_for(sheet, page, ready, entries)
    _to_fill(formats, sheet, page, ready, typed)
    _verdicts(formats, sheet, page)
    _lowest(formats, sheet, page)


def _entry_checks(
    sheet: Worksheet, page: Page, ready: Ready, typed: Sequence[EntryCells], asked: Mapping[tuple[int, int], str]
) -> None:  # fmt: skip
    vendor_only = ready.shape.audience == "vendor"
    for _, column, target, _ in typed:
        entry = column.entry
        if entry.kind.name == "picture" or (vendor_only and entry.who != "vendor"):
            continue
        rule = _rule(entry.kind)
        heading = with_words(entry.heading, ready.shape)
        help_ = with_words(entry.help.rstrip("."), ready.shape)
        blank = say("Blank: {meaning}", meaning=with_words(entry.blank, ready.shape)) if entry.blank else ""
        says = ". ".join(words for words in (help_, blank, _sentence(entry.kind)) if words)
        rule["error_title"] = say("Not possible here")
        rule["error_message"] = look.shortened(
            say("{heading}: must be {noun}.", heading=heading, noun=entry.kind.noun), MOST_MESSAGE
        )
        for part, word in _parted(target, asked):
            question = say("Asked about: see {row} on Questions", row=word) if word else ""
            told = ". ".join(words for words in (question, says) if words)
            set_rule(sheet, page.sheet.title, part, dict(rule), heading, told)


def _parted(target: Target, asked: Mapping[tuple[int, int], str]) -> Iterator[tuple[Target, str]]:
    """An entry's cells from top to bottom, each that is asked about by itself."""
    if not asked:
        yield target, ""
        return
    first, column, last, last_column = target
    for row in range(first, last + 1):
        if word := asked.get((row, column)):
            if row > first:
                yield Target(first, column, row - 1, last_column), ""
            yield Target(row, column, row, last_column), word
            first = row + 1
    if first <= last:
        yield Target(first, column, last, last_column), ""


def _sentence(kind: Kind) -> str:
    if kind.name == "length":
        return say("A length in the style's unit; fractions as 12 3/8")
    if kind.is_number or kind.name in {"date", "color"}:
        return kind.noun[0].upper() + kind.noun[1:]
    return say("Choose from the list") if kind.name == "choice" else "Text"


def _rule(kind: Kind) -> dict[str, Any]:
    if kind.source:
        return {"validate": "list", "source": f"={name_of(kind.source)}", "show_error": False}
    if kind.choices and len(",".join(kind.choices)) <= _MOST_LIST:
        return {"validate": "list", "source": list(kind.choices), "show_error": not kind.open}
    if kind.name == "date":
        return {"validate": "date", "criteria": ">=", "value": EARLIEST}
    if kind.name == "whole":
        return {"validate": "integer", **_bounds(kind)}
    if kind.is_number:
        return {"validate": "decimal", **_bounds(kind)}
    return {"validate": "any"}


def _bounds(kind: Kind) -> dict[str, Any]:
    least = -1_000_000_000 if kind.least is None else kind.least
    most = 1_000_000_000 if kind.most is None else kind.most
    return {"criteria": "between", "minimum": least, "maximum": most}


def _to_fill(formats: Formats, sheet: Worksheet, page: Page, ready: Ready, typed: Sequence[EntryCells]) -> None:
    """A needed cell is strongly colored until it is filled; the rule asks the stage by its name, never by address."""
    grouped: dict[tuple[str, str, str, str, int, str], list[Target]] = defaultdict(list)
    columns = {
        f"{part.address}.{entry.name}": letters(at)
        for part in page.parts
        if isinstance(part, PlacedTable)
        for entry, at in part.columns
    }
    for address, column, target, key in typed:
        rank = ready.needed.get(address, 0)
        if not rank:
            continue
        role = look.role_of(column.entry, column.sheet.private)
        asked = (
            column.entry.asked_by
            and f'{name_of(column.entry.asked_by)}="{column.entry.asked_when or column.entry.member_title}"'
        )
        unless = columns.get(f"{address.rpartition('.')[0]}.{column.entry.unless}", "")
        grouped[role, key, asked, unless, rank, f"{target.first_row} {'' if key else target.first_column}"].append(
            target
        )
    stage = name_of(ready.book.about.stage)
    for (role, key, asked, unless, rank, _), targets in grouped.items():
        first = targets[0]
        tests = [f'{letters(first.first_column + 1)}{first.first_row + 1}=""', f"{stage}>={rank}"]
        if key:
            tests.append(f'${key}{first.first_row + 1}<>""')
        if asked:
            tests.append(asked)
        if unless:
            tests.append(f'${unless}{first.first_row + 1}=""')
        paint(
            sheet,
            targets,
            f"=AND({','.join(tests)})",
            formats.mark(bg_color=look.ROLES[role].to_fill),
        )


def paint(sheet: Worksheet, targets: list[Target], formula: str, shade: Any) -> None:
    """Give cells a conditional format. Programs count the formula's cell from the top left of all targets: the first."""
    first = targets[0]
    options: dict[str, Any] = {"type": "formula", "criteria": formula, "format": shade}
    if len(targets) > 1:
        options["multi_range"] = " ".join(target.text for target in targets)
    sheet.conditional_format(*first, options)


def _verdicts(formats: Formats, sheet: Worksheet, page: Page) -> None:
    """Words that judge (in, out, pass, fail) and counts of open things, in green or red besides the word."""
    good = formats.mark(bg_color=look.GOOD)
    bad = formats.mark(bg_color=look.BAD)
    for part in page.parts:
        if isinstance(part, PlacedTable) and part.refs:
            for entry, column in part.columns:
                if _judges(entry):
                    _judged(sheet, Target(part.first - 1, column - 1, part.last - 2, column - 1), good, bad)
        elif isinstance(part, PlacedLedger) and not part.part.mark_open:
            for row, line in part.lines:
                for entry, (column, _) in zip(line.entries, part.columns[len(line.words) :], strict=False):
                    if _judges(entry):
                        _judged(sheet, Target(row - 1, column - 1, row - 1, column - 1), good, bad)
        elif isinstance(part, PlacedLedger) and part.lines:
            column = part.columns[part.part.headings.index(part.part.mark_open)][0]
            target = Target(part.lines[0][0] - 1, column - 1, part.lines[-1][0] - 1, column - 1)
            cell = f"{letters(column)}{part.lines[0][0]}"
            paint(sheet, [target], f"=N({cell})>0", bad)
            paint(sheet, [target], f"=N({cell})=0", good)


def _judges(entry: Entry) -> bool:
    name = entry.family or entry.name
    judges = name in _JUDGED or name.endswith("_state")
    return judges and entry.who in {"computed", "fixed"} and entry.kind.name == "text"


def _judged(sheet: Worksheet, target: Target, good: Any, bad: Any) -> None:
    cell = f"{letters(target.first_column + 1)}{target.first_row + 1}"
    for words, shade in ((_BAD_WORDS, bad), (_GOOD_WORDS, good)):
        tests = ",".join(f'{cell}="{word}"' for word in words)
        paint(sheet, [target], f"=OR({tests})", shade)


def _lowest(formats: Formats, sheet: Worksheet, page: Page) -> None:
    """The smallest of a family's members in green, where there are two to compare."""
    good = formats.mark(bg_color=look.GOOD, bold=True)
    for targets in _families_to_mark(page):
        cells = [f"${letters(one.first_column + 1)}{one.first_row + 1}" for one in targets]
        listed = ",".join(cells)
        for target, cell in zip(targets, cells, strict=True):
            test = f"=AND(ISNUMBER({cell}),COUNT({listed})>1,{cell}=MIN({listed}),MIN({listed})<MAX({listed}))"
            paint(sheet, [target], test, good)


def _families_to_mark(page: Page) -> Iterator[list[Target]]:
    """The cells of each family whose lowest member is marked: a column of each, or in a ledger a cell of each."""
    for part in page.parts:
        found: dict[str, list[Target]] = defaultdict(list)
        if isinstance(part, PlacedTable) and part.refs:
            for entry, column in part.columns:
                if entry.lowest:
                    found[entry.family].append(Target(part.first - 1, column - 1, part.last - 2, column - 1))
        elif isinstance(part, PlacedLedger):
            for row, line in part.lines:
                for entry, (column, _) in zip(line.entries, part.columns[len(line.words) :], strict=False):
                    if entry.lowest:
                        found[entry.family].append(Target(row - 1, column - 1, row - 1, column - 1))
        yield from found.values()
