"""Markers of a working workbook: its cut pieces go to the nesting, the markers come back into its sheet."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.jobs.marker_tasks import FABRICS, LIST, PIECES, MarkerError, Request, StyleFigures, Task, row_of
from sheetgen.nesting import Marker, area, in_sizes, nest, outline, picture
from sheetgen.style.figures import figures
from sheetgen.texts import say
from sheetgen.trade.lengths import convert
from sheetgen.workbook.exchange.accept import carried
from sheetgen.workbook.model.pictures import from_svg
from sheetgen.workbook.model.values import Values, refs

_LAYS, _LAY_MATERIAL = "cutting.lays", "cutting.lay_material"
_FAR_BELOW = 0.15
"""So much below the typed efficiency a marker is probably laid for too few garments."""
USUAL_GAP_CM = 0.2
"""Room for the knife between two pieces where nothing else is said (from memory)."""


@dataclass(frozen=True)
class Laid:
    """A marker, for which fabric, its drawing, the style's unit of length, and what a person should know of it."""

    material: str
    item: str
    marker: Marker
    svg: str
    unit: str
    notes: tuple[str, ...] = ()


Told = Callable[[str, float], None]
"""Hears which fabric is laid, and the part of its work that is done."""


def lay(
    values: Values, request: Request, made_on: datetime.date, tell: Told = lambda _item, _part: None
) -> tuple[Values, list[Laid]]:
    """The values with a marker for each fabric asked for, and these markers. MarkerError says what stands in the way."""
    ready, shown = figures(values)
    style = StyleFigures(ready, shown)
    tasks = [style.task(fabric, request) for fabric in style.fabrics(request.materials)]
    laid = [_laid(style, task, request, tell) for task in tasks]
    result = dict(values)
    for one in laid:
        result |= _entries(style, one, request, made_on, row_of(result, one.material))
    # Last of all the mark of what the markers rest on: the shares that their pieces fill belong to it.
    _, shown = figures(result)
    for one in laid:
        row = row_of(result, one.material)
        result[Place(f"{LIST}.stamp", row)] = shown[Place(f"{LIST}.stamp_now", row)]
    return result, laid


def lay_for_lays(values: Values, request: Request, tell: Told = lambda _item, _part: None) -> tuple[Values, list[Laid]]:
    """The values with a marker of its own sizes for each lay of the cut plan; lays of the same sizes share one."""
    ready, shown = figures(values)
    style = StyleFigures(ready, shown)
    material = style.word(_LAY_MATERIAL)
    lays = {row: mix for row in refs(_LAYS, values) if (mix := style.mix_of_lay(_LAYS, row))}
    if not material or not lays:
        what = (
            say("says no material of the lays") if not material else say("has no lay; plan them with sheetgen cutplan")
        )
        raise MarkerError(what, Place(_LAY_MATERIAL))
    found: dict[tuple[tuple[str, int], ...], Laid] = {}
    result = dict(values)
    for row, mix in lays.items():
        own = replace(request, materials=(material,), mix=mix)
        if (same := tuple(mix.items())) not in found:
            task = style.task(style.fabrics(own.materials)[0], own)
            name = style.word(f"{_LAYS}.lay", row) or row
            found[same] = _laid(style, replace(task, item=say("{lay}, {item}", lay=name, item=task.item)), own, tell)
        result[Place(f"{_LAYS}.laid_long", row)] = found[same].marker.length_cm / 100
    _, shown = figures(result)
    for row in lays:
        result[Place(f"{_LAYS}.laid_stamp", row)] = shown[Place(f"{_LAYS}.laid_now", row)]
    return result, list(found.values())


def lay_markers(
    working: Path, request: Request, *, made_on: datetime.date | None = None, tell: Told = lambda _item, _part: None,
    for_lays: bool = False,
) -> tuple[api.Built, list[Laid]]:  # fmt: skip
    """The working workbook with markers laid for its fabrics, or `for_lays` for each lay of its cut plan; and these markers.
    UserError says what stands in the way."""
    got = api.working_copy(working, say("is a vendor's copy; lay the markers in the working workbook"))
    values, lost = carried(got)
    try:
        if for_lays:
            values, laid = lay_for_lays(values, request, tell)
        else:
            values, laid = lay(values, request, made_on or datetime.date.today(), tell)
    except MarkerError as refused:
        cell = got.where.at(refused.place) if refused.place else None
        where = say(", sheet {sheet}, cell {address}", sheet=cell.sheet, address=cell.address) if cell else ""
        raise UserError(f"{working}{where}: {refused}.") from None
    except ValueError as refused:
        raise UserError(f"{working}: {str(refused).rstrip('.')}.") from None
    return api.from_values(values, tuple(lost)), laid


def _laid(style: StyleFigures, task: Task, request: Request, tell: Told) -> Laid:
    """The marker of a fabric."""
    marker = nest(
        task.pieces,
        task.mix,
        task.width_cm,
        nap=task.nap,
        gap_cm=USUAL_GAP_CM if request.gap is None else style.cm(request.gap),
        seconds=request.effort,
        seed=request.seed,
        progress=lambda part: tell(task.item, part),
    )
    drawn = picture(marker, fabric=task.item, unit="in" if style.unit == "in" else "cm")
    typed = style.at(f"{FABRICS}.efficiency", task.fabric)
    notes = task.notes
    if isinstance(typed, int | float) and marker.efficiency < typed - _FAR_BELOW:
        notes += (
            say(
                "an efficiency of {efficiency:.1%} is far below the {typed:.0%} that is typed, and "
                "counts now: lay more garments, or clear its row in Markers",
                efficiency=marker.efficiency,
                typed=typed,
            ),
        )
    return Laid(task.material, task.item, marker, drawn, style.unit, notes)


def _entries(style: StyleFigures, one: Laid, request: Request, made_on: datetime.date, row: str) -> Values:
    """What a marker writes into the workbook: its row, and how much of its box each piece fills."""
    marker, gap = one.marker, convert(one.marker.gap_cm, "cm", style.unit)
    own: dict[str, Value] = {
        "material": one.material,
        "sizes": in_sizes(marker.garments),
        "garments": sum(marker.garments.values()),
        "width": convert(marker.width_cm, "cm", style.unit),
        "long": marker.length_cm / 100,
        "area": marker.area_cm2 / 10_000,
        "made_on": made_on,
        "how": say(
            "{nap}, {gap:.2g} {unit} between pieces, effort {effort:g}, seed {seed}",
            nap=marker.nap,
            gap=gap,
            unit=style.unit,
            effort=request.effort,
            seed=marker.seed,
        ),
        "picture": from_svg(one.svg),
    }
    written: Values = {Place(f"{LIST}.{name}", row): value for name, value in own.items()}
    for ref, share in _fills(marker).items():
        if style.word(f"{PIECES}.outline", ref):
            written[Place(f"{PIECES}.fill", ref)] = round(share, 6)
    return written


def _fills(marker: Marker) -> dict[str, float]:
    """Of each piece the share of its boxes that it fills, over all sizes as they lie in the marker."""
    filled: dict[str, float] = {}
    boxes: dict[str, float] = {}
    for one in marker.placed:
        filled[one.ref] = filled.get(one.ref, 0.0) + area(outline(one.piece))
        boxes[one.ref] = boxes.get(one.ref, 0.0) + one.piece.length * one.piece.width
    return {ref: min(filled[ref] / boxes[ref], 1.0) for ref in filled}
