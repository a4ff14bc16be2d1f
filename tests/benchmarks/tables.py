"""The tables of README.md, written from figures; nothing in them is typed by hand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from pathlib import Path
from statistics import mean

from tests.benchmarks.cases import CASES, SHORTCUTS
from tests.benchmarks.figures import Figure, Measured, in_words
from tests.benchmarks.measuring import AT_LIMITS, GROWING, GROWTH, MANY, MANY_OF, SIZES, growth_name, many_name
from tests.benchmarks.timing import exponent

PAGE = Path(__file__).with_name("README.md")


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A Markdown table."""
    lines = [heads, ["---"] * len(heads), *rows]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def put(text: str, tables: Mapping[str, str]) -> str:
    """The page's text with each table between its markers, `<!-- name -->` and `<!-- /name -->`; KeyError without them."""
    for name, content in tables.items():
        first, last = f"<!-- {name} -->\n", f"<!-- /{name} -->"
        if first not in text or last not in text:
            raise KeyError(f"no place for the table {name}")
        before, _, rest = text.partition(first)
        end = "\n" if content else ""
        text = f"{before}{first}{content}{end}{last}{rest.partition(last)[2]}"
    return text


def taken(text: str, name: str) -> list[list[str]]:
    """The rows of a table of the page, without its heads."""
    found = re.search(rf"<!-- {name} -->\n(.*?)\n<!-- /{name} -->", text, re.DOTALL)
    lines = [line for line in found[1].splitlines() if line.startswith("|")] if found else []
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines[2:]]


def tables(measured: Measured) -> dict[str, str]:
    """All tables by the names of their markers."""
    figures = measured.figures
    return {
        "machine": _when(measured),
        "commands": _commands(figures),
        "peers": _peers(figures),
        "shortcuts": table(("shortcut", "sheetgen", "peer"), SHORTCUTS),
        "growth": _growth(figures),
        "many": _many(figures),
        "limits": _at_the_limits(figures),
        "sizes": _beside(figures, (*(name for name in figures if name.startswith("install")), *SIZES)),
        "before": _before(measured),
    }


def _when(measured: Measured) -> str:
    """Where and when, and which figures are of another day."""
    days: dict[tuple[str, str], list[str]] = {}
    for name, figure in measured.figures.items():
        days.setdefault((figure.date, figure.commit), []).append(name)
    if not days:
        return ""
    usual = max(days, key=lambda day: len(days[day]))
    lines = [f"{measured.machine}.", f"Measured on {usual[0]} at commit {usual[1]}, {measured.rounds}."]
    lines += [
        f"On {date} at commit {commit}: {', '.join(names)}."
        for (date, commit), names in days.items()
        if (date, commit) != usual
    ]
    lines.append(f"It took {measured.took / 60:.1f} minutes.")
    return "\n".join(lines)


def _commands(figures: Mapping[str, Figure]) -> str:
    rows = []
    for case in CASES:
        figure = figures.get(case.name)
        if figure is not None:
            peer, least = figure.least or ("", 0.0)
            typed = f"`{' '.join(('sheetgen', *case.words))}`"
            rows.append((
                case.name, typed, in_words(figure.amount), in_words(figure.wall or 0.0),
                peer, in_words(least), f"{figure.ratio or 0.0:.1f}",
            ))  # fmt: skip
    return table(("what", "command", "processor", "wall", "cheapest peer known", "its processor", "ratio"), rows)


def _peers(figures: Mapping[str, Figure]) -> str:
    rows = [
        (case.name, peer, in_words(amount))
        for case in CASES
        if case.name in figures and len(case.peers) > 1
        for peer, amount in sorted(figures[case.name].peers.items(), key=lambda item: item[1])
    ]
    return table(("what", "peer", "processor"), rows)


def _growth(figures: Mapping[str, Figure]) -> str:
    """One table for each thing that grows: amounts, the exponent that fits all, what one more takes from step to step."""
    parts = []
    for axis, counts in GROWTH.items():
        rows = []
        for command in (*GROWING, "working file"):
            found = [figures.get(growth_name(command, count, axis)) for count in counts]
            held = [figure for figure in found if figure is not None]
            if len(held) == len(counts):
                rows.append(_growth_row(command, counts, held))
        if rows:
            steps = [f"each from {low} to {high}" for low, high in pairwise(counts)]
            parts.append(table((axis, *map(str, counts), "exponent", *steps), rows))
    return "\n\n".join(parts)


def _growth_row(command: str, counts: Sequence[int], held: Sequence[Figure]) -> tuple[str, ...]:
    unit, finer = (held[0].unit, "ms") if held[0].unit == "s" else (held[0].unit, "bytes")
    more = [
        1000 * (after.amount - before.amount) / (high - low)
        for (before, low), (after, high) in pairwise(zip(held, counts, strict=True))
    ]
    amounts = [figure.amount for figure in held]
    return (
        command,
        *(in_words(amount, unit) for amount in amounts),
        f"{exponent(counts, amounts):.2f}",
        *(in_words(one if finer == "ms" else one * 1.024, finer) for one in more),
    )


def _many(figures: Mapping[str, Figure]) -> str:
    """What one of many takes beside one alone, and the memory."""
    rows = []
    for command in MANY_OF:
        found = [[figures.get(many_name(command, what, count)) for what in ("alone", "", "memory")] for count in MANY]
        held = [[one for one in each if one is not None] for each in found]
        if any(len(each) < 3 for each in held):
            continue
        alone = mean(each[0].amount for each in held)
        each_of = [all_of.amount / count for (_, all_of, _), count in zip(held, MANY, strict=True)]
        shares = [each / once.amount for each, (once, _, _) in zip(each_of, held, strict=True)]
        rows.append((
            command, in_words(alone), *map(in_words, each_of), f"{mean(shares):.2f}",
            f"{exponent(MANY, [all_of.amount for _, all_of, _ in held]):.2f}",
            *(in_words(memory.amount, "MB") for _, _, memory in held),
        ))  # fmt: skip
    each = [f"each of {count}" for count in MANY]
    memory = [f"memory at {count}" for count in MANY]
    return table(("many styles", "alone", *each, "of alone", "exponent", *memory), rows) if rows else ""


def _at_the_limits(figures: Mapping[str, Figure]) -> str:
    rows = []
    for command, (words, _) in AT_LIMITS.items():
        figure, memory = (figures.get(f"limits, {name}") for name in (command, f"{command}, memory"))
        if figure and memory:
            typed = f"`{' '.join(('sheetgen', *words))}`"
            rows.append((command, typed, in_words(figure.amount), in_words(memory.amount, "MB")))
    return table(("at the limits", "command", "processor", "memory"), rows) if rows else ""


def _beside(figures: Mapping[str, Figure], names: Sequence[str]) -> str:
    rows = []
    for name in names:
        figure = figures.get(name)
        if figure is not None:
            peer, least = figure.least or ("", 0.0)
            ratio = f"{figure.ratio:.2f}" if figure.ratio else ""
            rows.append(
                (name, in_words(figure.amount, figure.unit), peer, in_words(least, "KB") if peer else "", ratio)
            )
    return table(("what", "takes", "least", "its size", "ratio"), rows)


def _before(measured: Measured) -> str:
    """Both checkouts, from one run in turns; empty if only one was measured."""
    rows = [
        (name, in_words(figure.before, figure.unit), in_words(figure.amount, figure.unit), f"{figure.amount / figure.before:.2f}")
        for name, figure in measured.figures.items()
        if figure.before
    ]  # fmt: skip
    if not rows:
        return ""
    heads = ("what", f"at {measured.other}", "now", "now by then")
    return f"## Before and after\n\nBoth measured in one run, in turns.\n\n{table(heads, rows)}"
