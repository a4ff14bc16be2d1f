"""Sizes that the vendor graded and the brand takes: base, steps and corrections, worked back exactly."""

from __future__ import annotations

from sheetgen.declare.entry import Place
from sheetgen.declare.families import member_name
from sheetgen.style.grades import POINTS, SIZES, steps_of
from sheetgen.texts import say
from sheetgen.workbook.model.values import Values, refs

_GRADE = "grade.points"
_EXACT = 1e-6


def take_grades(values: Values) -> list[str]:
    """Put the vendor's sizes into the points that the brand takes; in words, which were taken and which were not.

    A base that the brand typed stays: a grade from another base is not taken, and Checks counts it. A break of the steps
    that was typed before goes. Where rounding to the shop's grid would move a size, that size is kept as a correction.
    """
    sizes = refs(SIZES, values)
    names = [str(values.get(Place(f"{SIZES}.name", ref)) or "") for ref in sizes]
    sample = str(values.get(Place("style.sample_size")) or "")
    notes: list[str] = []
    for row in [place.row for place, value in values.items() if place.entry == f"{_GRADE}.take" and value == "yes"]:
        found = [
            values.get(Place(f"{_GRADE}.{member_name('value', 'size', n)}", row)) for n in range(1, len(names) + 1)
        ]
        figures = [float(one) for one in found if isinstance(one, int | float)]
        if len(figures) < len(names) or sample not in names or _is_taken(values, row, figures):
            continue
        base = values.get(Place(f"{POINTS}.base", row))
        at_sample = figures[names.index(sample)]
        if isinstance(base, int | float) and abs(base - at_sample) > _EXACT:
            notes.append(
                say(
                    "{point} is not taken: its sample size is {found}, the base {base}.",
                    point=row,
                    found=at_sample,
                    base=base,
                )
            )
            continue
        _take(values, row, figures, at_sample)
        notes.append(say("{point} has the vendor's grade now.", point=row))
    return notes


def _taken(values: Values, row: str, figures: list[float], at_sample: float) -> Values:
    """Base, step, steps that differ and corrections of a point that give these sizes."""
    numbers = range(1, len(figures) + 1)
    step, differing = steps_of({str(number): figure for number, figure in zip(numbers, figures, strict=True)})
    found: Values = {Place(f"{POINTS}.base", row): at_sample, Place(f"{POINTS}.step", row): step}
    for size, other in differing.items():
        found[Place(f"{POINTS}.{member_name('over', 'size', int(size))}", row)] = other
    grid = values.get(Place("measurements.grid"))
    if isinstance(grid, int | float) and grid > 0:
        for number, figure in zip(numbers, figures, strict=True):
            away = figure - at_sample
            if abs(round(away / grid) * grid - away) > _EXACT:
                found[Place(f"{POINTS}.{member_name('fix', 'size', number)}", row)] = figure
    return found


def _is_taken(values: Values, row: str, figures: list[float]) -> bool:
    """Whether the point says these sizes already: what the brand changes afterwards stays."""
    return values.get(Place(f"{POINTS}.graded", row)) == _mark(figures)


def _mark(figures: list[float]) -> str:
    return " ".join(f"{one:g}" for one in figures)


def _take(values: Values, row: str, figures: list[float], at_sample: float) -> None:
    gone = ("break_from", "break_step", "every")
    for place in [one for one in values if one.row == row and one.entry.rpartition(".")[0] == POINTS]:
        name = place.entry.rpartition(".")[2]
        if name in gone or name.startswith(("over_", "fix_")):
            del values[place]
    values.update(_taken(values, row, figures, at_sample))
    values[Place(f"{POINTS}.graded", row)] = _mark(figures)
