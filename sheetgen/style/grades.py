"""Grades and body tables from elsewhere: a CSV file, or another style's workbook, put into a style's values.

A CSV of a grade has a column `point` and either the graded figures, one column a size (`S, M, L`), or steps: `step` and
where they differ `to M`, `to L`. `minus`, `plus`, `how`, `base` are taken too. A CSV of bodies has `body`, `source` and sizes.
"""

from __future__ import annotations

import csv
import itertools
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from sheetgen.declare.entry import Place
from sheetgen.declare.families import member_name
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.trade.lengths import convert, parse_length
from sheetgen.trade.sizes import LETTER_BANDS, LETTER_SOURCE, PRIMARY_DIMENSION
from sheetgen.workbook.model.values import Values, refs

if TYPE_CHECKING:
    from sheetgen.workbook.read.found import Returned

POINTS, BODY, SIZES = "measurements.points", "ease.body", "style.sizes"
_STEP_PREFIX = "to "
_WORDS = ("how", "extent", "direction")
_LENGTHS = ("base", "step", "minus", "plus", "break_step")


@dataclass(frozen=True)
class PointGrade:
    """How one point grows: the general step, steps up to a size where they differ, and what else came with it."""

    point: str
    step: float | None = None
    steps_to: Mapping[str, float] = field(default_factory=dict)
    others: Mapping[str, Value] = field(default_factory=dict)


def from_csv(path: Path, unit: str, sample_size: str) -> list[PointGrade]:
    """The grade in a CSV file, lengths in `unit` unless they carry their own; UserError names the line."""
    rows = _rows(path, "point")
    return [_point_of(row, number, path, unit, sample_size) for number, row in enumerate(rows, 2)]


def _rows(path: Path, key: str) -> list[dict[str, str]]:
    try:
        text = path.read_text("utf-8-sig")
    except FileNotFoundError:
        raise UserError(say("{path}: there is no such file; check the name.", path=path)) from None
    except (OSError, UnicodeDecodeError):
        raise UserError(say("{path}: cannot be read as text; save it as CSV in UTF-8.", path=path)) from None
    separator = ";" if text.partition("\n")[0].count(";") > text.partition("\n")[0].count(",") else ","
    reader = csv.DictReader(text.splitlines(), delimiter=separator)
    try:
        rows = [_named(row) for row in reader]
    except csv.Error:
        raise UserError(
            say(
                "{path}: line {line} cannot be read as CSV; save the table as CSV again.",
                path=path,
                line=reader.line_num + 1,
            )
        ) from None
    if not rows or key not in rows[0]:
        raise UserError(
            say("{path}: has no column {key!r} in its first line; name the columns there.", path=path, key=key)
        )
    return [row for row in rows if row[key]]


def _named(row: Mapping[str | None, str | list[str] | None]) -> dict[str, str]:
    """A line's cells by their headings; what stands beyond the last heading has none and is left."""
    return {
        name.strip(): (cell or "").strip()
        for name, cell in row.items()
        if name is not None and not isinstance(cell, list)
    }


def _point_of(row: Mapping[str, str], line: int, path: Path, unit: str, sample_size: str) -> PointGrade:
    others: dict[str, Value] = {word: row[word] for word in _WORDS if row.get(word)}
    numbers = {word: _length(row[word], path, line, word, unit) for word in _LENGTHS if row.get(word)}
    step = numbers.pop("step", None)
    steps_to = {
        name[len(_STEP_PREFIX) :]: _length(cell, path, line, name, unit)
        for name, cell in row.items()
        if name.startswith(_STEP_PREFIX) and cell
    }
    known = {"point", *_WORDS, *_LENGTHS}
    sizes = {
        name: _length(cell, path, line, name, unit)
        for name, cell in row.items()
        if cell and name not in known and not name.startswith(_STEP_PREFIX)
    }
    if sizes:
        step, steps_to = steps_of(sizes)
        if sample_size in sizes:
            numbers.setdefault("base", sizes[sample_size])
    return PointGrade(row["point"], step, steps_to, {**others, **numbers})


def _length(text: str, path: Path, line: int, column: str, unit: str) -> float:
    value = parse_length(text, unit)
    if value is None:
        raise UserError(
            say(
                "{path}: line {line}, column {column}: {value!r} is no length, as 12 3/8 or 31.4.",
                path=path,
                line=line,
                column=column,
                value=text,
            )
        )
    return value


def steps_of(sizes: Mapping[str, float]) -> tuple[float, dict[str, float]]:
    """The general step and the steps that differ from it, from graded figures in the order of their sizes."""
    names, figures = list(sizes), list(sizes.values())
    steps = [round(after - before, 9) for before, after in itertools.pairwise(figures)]
    if not steps:
        return 0.0, {}
    general = Counter(steps).most_common(1)[0][0]
    return general, {name: step for name, step in zip(names[1:], steps, strict=True) if step != general}


def from_workbook(other: Returned) -> list[PointGrade]:
    """The grade in another style's workbook: steps, breaks, tolerances; the bases stay that style's own."""
    sizes = dict(other.ready.shape.axes)["size"]
    found = []
    for ref in refs(POINTS, other.typed):

        def typed(entry: str, row: str = ref) -> Value:
            return other.typed.get(Place(f"{POINTS}.{entry}", row))

        name, step = typed("point"), typed("step")
        if not isinstance(name, str):
            continue
        steps_to = {
            title: float(value)
            for number, title in enumerate(sizes, 1)
            if isinstance(value := typed(member_name("over", "size", number)), int | float)
        }
        others = {
            entry: value
            for entry in ("minus", "plus", "break_from", "break_step", "every", "how", "extent", "direction")
            if (value := typed(entry)) is not None
        }
        found.append(PointGrade(name, float(step) if isinstance(step, int | float) else None, steps_to, others))
    return found


def apply_grade(values: Values, grade: Sequence[PointGrade]) -> list[str]:
    """Put a grade into a style's values, point by point by name; says in words what was graded and what was not."""
    sizes = _sizes(values)
    by_name = {
        str(value).strip().lower(): place.row for place, value in values.items() if place.entry == f"{POINTS}.point"
    }
    taken, added, unknown = 0, 0, set()
    for point in grade:
        row = by_name.get(point.point.strip().lower())
        if row is None:
            added += 1
            row = _next_ref("P", POINTS, values)
            values[Place(f"{POINTS}.point", row)] = point.point
        taken += 1
        for place in [place for place in values if place.row == row and place.entry.startswith(f"{POINTS}.over_")]:
            del values[place]
        if point.step is not None:
            values[Place(f"{POINTS}.step", row)] = point.step
        for entry, value in point.others.items():
            values[Place(f"{POINTS}.{entry}", row)] = value
        for size, step in point.steps_to.items():
            if size in sizes[1:]:
                values[Place(f"{POINTS}.{member_name('over', 'size', sizes.index(size) + 1)}", row)] = step
            elif size not in sizes:
                unknown.add(size)
    words = [say("{taken} points graded, {added} of them new", taken=taken, added=added)]
    if unknown:
        words.append(
            say("sizes that this style does not have were left out: {listed}", listed=", ".join(sorted(unknown)))
        )
    return words


def apply_body(values: Values, source: str, unit: str) -> list[str]:
    """Put a body table into the Ease sheet: `women` or `men` (EN 13402-3 letters, middle of the band), or a CSV file."""
    rows = (
        [_letters(source, _sizes(values), unit)] if source in PRIMARY_DIMENSION else list(_bodies(Path(source), unit))
    )
    sizes = _sizes(values)
    missing = set()
    for body, origin, figures in rows:
        row = _next_ref("B", BODY, values)
        values[Place(f"{BODY}.body", row)] = body
        values[Place(f"{BODY}.source", row)] = origin
        for number, size in enumerate(sizes, 1):
            if size in figures:
                values[Place(f"{BODY}.{member_name('value', 'size', number)}", row)] = figures[size]
            else:
                missing.add(size)
    words = [say("{count} body measurements put into the Ease sheet", count=len(rows))]
    if missing:
        words.append(say("no body figure for the sizes {listed}", listed=", ".join(sorted(missing))))
    return words


def _bodies(path: Path, unit: str) -> Iterator[tuple[str, str, dict[str, float]]]:
    for line, row in enumerate(_rows(path, "body"), 2):
        sizes = {name: cell for name, cell in row.items() if cell and name not in {"body", "source"}}
        figures = {name: _length(cell, path, line, name, unit) for name, cell in sizes.items()}
        yield row["body"], row.get("source") or path.name, figures


def _letters(body: str, sizes: Sequence[str], unit: str) -> tuple[str, str, dict[str, float]]:
    bands = {
        band.letter: convert((band.from_cm + band.to_cm) / 2, "cm", unit) for band in LETTER_BANDS if band.body == body
    }
    return (
        say(PRIMARY_DIMENSION[body].capitalize()),
        say("{letter_source}; middle of each band", letter_source=LETTER_SOURCE),
        {size: round(bands[size], 4) for size in sizes if size in bands},
    )


def _sizes(values: Values) -> list[str]:
    return [str(values.get(Place(f"{SIZES}.name", ref)) or "") for ref in refs(SIZES, values)]


def _next_ref(letter: str, table: str, values: Values) -> str:
    used = set(refs(table, values))
    return next(ref for ref in (f"{letter}{number}" for number in range(1, len(used) + 2)) if ref not in used)
