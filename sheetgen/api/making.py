"""A working workbook, from a brief, a garment, another workbook or values."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from sheetgen.api.showing import show
from sheetgen.declare.entry import Place
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.sheets.workings.as_built import as_built
from sheetgen.sheets.workings.closed import closed_now
from sheetgen.sheets.workings.given import given_now
from sheetgen.style.brand import load_brand, load_style, starter_style, with_brand
from sheetgen.style.diagrams import artist
from sheetgen.style.grades import apply_body, apply_grade, from_csv, from_workbook
from sheetgen.style.marks import with_marks
from sheetgen.style.next_season import design_of
from sheetgen.style.starters import starter
from sheetgen.texts import say
from sheetgen.workbook.exchange.brief import points_nowhere
from sheetgen.workbook.model.references import astray
from sheetgen.workbook.model.values import Values, ready, shape_of
from sheetgen.workbook.write.file import finished

if TYPE_CHECKING:
    from sheetgen.api.settling import Settle
    from sheetgen.workbook.read.found import Returned

_BRAND_PLACES = ("brand.toml", "../brand.toml", "../brand/brand.toml", "brand/brand.toml")


class _Reading(Protocol):
    """What is needed of `sheetgen.api.reading`."""

    def read(self, path: Path) -> Returned: ...
    def working_copy(self, path: Path, otherwise: str) -> Returned: ...


def _reading() -> _Reading:
    """The reader of workbooks, loaded when one is read: most are built from a brief."""
    module: _Reading = import_module("sheetgen.api.reading")
    return module


class _Settling(Protocol):
    """What is needed of `sheetgen.api.settling`."""

    def settled(self, got: Returned, how: Settle | None = None) -> tuple[Values, list[str], list[str]]: ...


def _settling() -> _Settling:
    module: _Settling = import_module("sheetgen.api.settling")
    return module


@dataclass(frozen=True)
class Built:
    """A working workbook: its values, its bytes, what of an earlier file could not be carried over, and what it shows."""

    values: Values
    data: bytes
    not_carried: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    shown: Values = field(default_factory=dict, repr=False)

    def text(self, address: str) -> str:
        """A field as text, empty if blank."""
        value = self.values.get(Place(address))
        return "" if value is None else str(value)


def cautions_of(built: Built) -> list[str]:
    """The sentences of all cautions that apply to a style."""
    found = []
    for sheet in BOOK.sheets:
        for caution in sheet.cautions:
            count = built.shown.get(Place(f"checks.{caution.counted_as}"))
            if isinstance(count, int | float) and count > 0:
                found.append(say(caution.sentence))
    return found


def find_brand(brief: Path) -> Path | None:
    """The brand file beside a brief or one folder up; None if there is none."""
    candidates = (brief.parent / place for place in _BRAND_PLACES)
    return next((path.resolve() for path in candidates if path.is_file()), None)


def build(
    source: Path, brand: Path | None = None, *, grade: Path | None = None, body: str | None = None, settle: Settle | None = None,
    shows: Sequence[str] = (),
) -> Built:  # fmt: skip
    """A working workbook from a brief (.toml), or anew from a working workbook (.xlsx) with all that was typed in it.

    `grade` is a CSV file or another style's workbook whose grade is taken, `body` a body table (women, men, a CSV file).
    The brand fills what a workbook leaves blank. `settle` says what another unit, currency or sample size in a workbook means;
    `shows` names sheets to be shown that its purpose does not bring.
    """
    notes: list[str] = []
    if source.suffix.lower() == ".toml":
        if settle is not None:
            raise UserError(
                say(
                    "{source}: --unit, --keep-figures and --sample-size are for workbooks; write it in the brief.",
                    source=source,
                )
            )
        path = brand or find_brand(source)
        values = load_style(BOOK, source, load_brand(path) if path else None)
        lost: list[str] = []
    else:
        got = _reading().working_copy(
            source, say("is a vendor's copy; build from the working workbook, or accept this one into it")
        )
        values, lost, settled_notes = _settling().settled(got, settle)
        notes += settled_notes
        if brand is not None:
            notes += with_brand(BOOK, values, load_brand(brand))
    notes += _with_tables(values, grade, body)
    show(values, shows)
    return from_values(values, tuple(lost), tuple(notes))


def start(
    garment: str, *, hood: bool = False, child: bool = False, unit: str | None = None, brand: Path | None = None,
    grade: Path | None = None, body: str | None = None, sizes: Sequence[str] = (), shows: Sequence[str] = (),
) -> Built:  # fmt: skip
    """A working workbook from a garment's usual points, seams and materials, all of them suggestions.

    `sizes` names the sizes from the smallest to the largest; the middle one is the sample size. The usual ones if none.
    """
    shared = load_brand(brand) if brand else None
    chosen = unit or str((shared.defaults.get("style.unit") if shared else None) or "cm")
    try:
        data = starter(garment, hood=hood, child=child, unit=chosen, sizes=sizes)
    except ValueError as error:
        raise UserError(f"{garment}: {error}.") from None
    values = starter_style(BOOK, data, Path(f"{garment} starter"), shared)
    notes = _with_tables(values, grade, body)
    show(values, shows)
    return from_values(values, (), tuple(notes))


def start_from(source: Path, number: str) -> Built:
    """A working workbook with the design of another style's: without prices, answers, measured rounds, decisions and dates."""
    got = _reading().working_copy(source, say("is a vendor's copy; begin from a working workbook"))
    values, lost, notes = _settling().settled(got)
    kept, dropped = design_of(got.ready.book, values, number)
    return from_values(kept, tuple(lost), (*notes, *dropped))


def _with_tables(values: Values, grade: Path | None, body: str | None) -> list[str]:
    """Put in a grade and a body table from elsewhere; says in words what was taken."""
    unit = str(values.get(Place("style.unit")) or "cm")
    sample = str(values.get(Place("style.sample_size")) or "")
    notes: list[str] = []
    if grade is not None:
        points = (
            from_csv(grade, unit, sample) if grade.suffix.lower() == ".csv" else from_workbook(_reading().read(grade))
        )
        before = set(astray(BOOK, values))
        notes += [f"{grade.name}: {words}" for words in apply_grade(values, points)]
        wrong = [one for one in astray(BOOK, values) if one not in before]
        if wrong:
            raise UserError(f"{grade}: {points_nowhere(BOOK, *wrong[0], values)}.")
    if body is not None:
        notes += apply_body(values, body, unit)
    return notes


def from_values(values: Values, not_carried: tuple[str, ...] = (), notes: tuple[str, ...] = ()) -> Built:
    """The working workbook of these values."""
    record = {
        "kind": "working",
        "style": str(values.get(Place("style.number")) or ""),
        "name": str(values.get(Place("style.name")) or ""),
        "revision": values.get(Place("style.revision")) or 0,
    }
    book = ready(BOOK, shape_of(BOOK, values))
    kept_beside = {**as_built(values), **with_marks(values)}
    made = finished(book, {**values, **kept_beside}, record, artist(book, values))
    kept = {**given_now(values, made.shown), **closed_now(values, made.shown)}
    if kept:
        values = {place: value for place, value in {**values, **kept}.items() if value is not None}
        made = finished(book, {**values, **kept_beside}, record, artist(book, values))
    return Built(values, made.data, not_carried, notes, made.shown)
