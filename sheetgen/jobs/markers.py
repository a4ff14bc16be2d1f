"""Laying: from a style's cut pieces, as its workbook works them out, to markers, and back into the workbook."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.families import member_name
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.nesting import NAPS, Marker, Nap, Piece, area, details_of, mix_of, nest, outline, picture, symmetric
from sheetgen.style.diagrams import measures_of_sizes
from sheetgen.style.figures import figures
from sheetgen.trade.lengths import convert
from sheetgen.workbook.exchange.accept import carried
from sheetgen.workbook.model.pictures import from_svg
from sheetgen.workbook.model.values import Ready, Values, free_row, refs

_FABRICS, _PIECES, _LIST = "yield.fabrics", "yield.pieces", "markers.list"
USUAL_GARMENTS, MOST_GARMENTS = 4, 24
"""Garments of a marker where nothing says how many; more of them use the fabric better (common practice)."""
SHORT_CM = 150.0
"""A marker of fewer pieces than would cover so much of the fabric's length gets more garments: collars and plackets
fill the width only when there are many."""
_FAR_BELOW = 0.15
"""So much below the typed efficiency a marker is probably laid for too few garments."""
USUAL_GAP_CM = 0.2
"""Room for the knife between two pieces where nothing else is said (from memory)."""


@dataclass(frozen=True)
class Request:
    """What markers are asked for. `gap` is in the style's unit; without `mix` the order's mix is laid.

    `materials` are refs of Materials, none for every fabric whose pieces are listed; `mix` are garments by size.
    """

    materials: Sequence[str] = ()
    garments: int | None = None
    mix: Mapping[str, int] | None = None
    gap: float | None = None
    effort: float = 10.0
    seed: int = 1


@dataclass(frozen=True)
class Laid:
    """A marker, for which fabric, its drawing, the style's unit of length, and what a person should know of it."""

    material: str
    item: str
    marker: Marker
    svg: str
    unit: str
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Task:
    """What a fabric's marker is laid from, in centimeters."""

    fabric: str
    material: str
    item: str
    pieces: tuple[Piece, ...]
    mix: Mapping[str, int]
    width_cm: float
    nap: Nap
    notes: tuple[str, ...]


class LayingError(ValueError):
    """What keeps a marker from being laid: one sentence, and the place where it is put right."""

    def __init__(self, sentence: str, place: Place | None = None) -> None:
        super().__init__(sentence)
        self.place = place


Told = Callable[[str, float], None]
"""Hears which fabric is laid, and the part of its work that is done."""


def lay(
    values: Values, request: Request, made_on: datetime.date, tell: Told = lambda _item, _part: None
) -> tuple[Values, list[Laid]]:
    """The values with a marker for each fabric asked for, and these markers. LayingError says what stands in the way."""
    ready, shown = figures(values)
    style = _Style(ready, shown)
    tasks = [style.task(fabric, request) for fabric in style.fabrics(request.materials)]
    laid = [style.laid(task, request, tell) for task in tasks]
    result = dict(values)
    for one in laid:
        result |= style.entries(one, request, made_on, _row_of(result, one.material))
    # Last of all the mark of what the markers rest on: the shares that their pieces fill belong to it.
    _, shown = figures(result)
    for one in laid:
        row = _row_of(result, one.material)
        result[Place(f"{_LIST}.stamp", row)] = shown[Place(f"{_LIST}.stamp_now", row)]
    return result, laid


def lay_markers(
    working: Path, request: Request, *, made_on: datetime.date | None = None, tell: Told = lambda _item, _part: None
) -> tuple[api.Built, list[Laid]]:  # fmt: skip
    """The working workbook with markers laid for its fabrics, and these markers; UserError says what stands in the way."""
    got = api.working_copy(working, "is a vendor's copy; lay the markers in the working workbook")
    values, lost = carried(got)
    try:
        values, laid = lay(values, request, made_on or datetime.date.today(), tell)
    except LayingError as refused:
        cell = got.where.at(refused.place) if refused.place else None
        where = f", sheet {cell.sheet}, cell {cell.address}" if cell else ""
        raise UserError(f"{working}{where}: {refused}.") from None
    except ValueError as refused:
        raise UserError(f"{working}: {str(refused).rstrip('.')}.") from None
    return api.from_values(values, tuple(lost)), laid


def _row_of(values: Values, material: str) -> str:
    """The ref of a material's marker, or the first free one."""
    used = refs(_LIST, values)
    for row in used:
        if values.get(Place(f"{_LIST}.material", row)) == material:
            return row
    return free_row("G", used)


class _Style:
    """A style's figures, asked for what markers need; lengths come out in centimeters."""

    def __init__(self, ready: Ready, shown: Values) -> None:
        self._shown = shown
        self._unit = dict(ready.shape.words)["{unit}"]
        self._sizes = dict(ready.shape.axes)["size"]
        self._details = {size: details_of(measures) for size, measures in measures_of_sizes(ready, shown)}

    def fabrics(self, wanted: Sequence[str]) -> list[str]:
        """Rows of the fabrics to lay: those that are wanted, or all that have cut pieces."""
        rows = {self._word(f"{_FABRICS}.material", row): row for row in refs(_FABRICS, self._shown)}
        cut = {self._word(f"{_PIECES}.material", row) for row in refs(_PIECES, self._shown)} - {""}
        listed = {material: row for material, row in rows.items() if material in cut}
        if not listed:
            raise LayingError(
                "lists no fabric with cut pieces; fill both tables of the Yield sheet", Place(f"{_FABRICS}.material")
            )
        for material in wanted:
            if material not in listed:
                raise LayingError(
                    f"the Yield sheet has no fabric {material} with cut pieces; it has {', '.join(listed)}"
                )
        return [listed[material] for material in dict.fromkeys(wanted or listed)]

    def task(self, fabric: str, request: Request) -> _Task:
        """All that the marker of a fabric is laid from."""
        material = self._word(f"{_FABRICS}.material", fabric)
        item = f"{material} {self._word(f'{_FABRICS}.item', fabric)}".strip()
        width, said = self._at(f"{_FABRICS}.usable", fabric), self._word(f"{_FABRICS}.nap", fabric)
        if not isinstance(width, int | float):
            raise LayingError(f"{item} has no usable width; fill it", Place(f"{_FABRICS}.usable", fabric))
        nap = next((nap for nap in NAPS if nap == said), NAPS[0])
        notes = [] if said else [f"pieces lie {nap}, as nothing else is said"]
        width_cm = self._cm(float(width))
        mix = self._mix(material, width_cm, request)
        pieces = tuple(self._pieces(material, [size for size, number in mix.items() if number]))
        bare = dict.fromkeys(piece.ref for piece in pieces if not self._word(f"{_PIECES}.outline", piece.ref))
        if bare:
            notes.append(f"{', '.join(bare)} laid as rectangles, as no outline is chosen")
        return _Task(fabric, material, item, pieces, mix, width_cm, nap, tuple(notes))

    def laid(self, task: _Task, request: Request, tell: Told) -> Laid:
        """The marker of a fabric."""
        marker = nest(
            task.pieces,
            task.mix,
            task.width_cm,
            nap=task.nap,
            gap_cm=USUAL_GAP_CM if request.gap is None else self._cm(request.gap),
            seconds=request.effort,
            seed=request.seed,
            progress=lambda part: tell(task.item, part),
        )
        drawn = picture(marker, fabric=task.item, unit="in" if self._unit == "in" else "cm")
        typed = self._at(f"{_FABRICS}.efficiency", task.fabric)
        notes = task.notes
        if isinstance(typed, int | float) and marker.efficiency < typed - _FAR_BELOW:
            notes += (
                f"an efficiency of {marker.efficiency:.1%} is far below the {typed:.0%} that is typed, and counts now: "
                "lay more garments, or clear its row in Markers",
            )
        return Laid(task.material, task.item, marker, drawn, self._unit, notes)

    def entries(self, one: Laid, request: Request, made_on: datetime.date, row: str) -> Values:
        """What a marker writes into the workbook: its row, and how much of its box each piece fills."""
        marker, gap = one.marker, convert(one.marker.gap_cm, "cm", self._unit)
        own: dict[str, Value] = {
            "material": one.material,
            "sizes": ", ".join(f"{size} {number}" for size, number in marker.garments.items()),
            "garments": sum(marker.garments.values()),
            "width": convert(marker.width_cm, "cm", self._unit),
            "long": marker.length_cm / 100,
            "area": marker.area_cm2 / 10_000,
            "made_on": made_on,
            "how": f"{marker.nap}, {gap:.2g} {self._unit} between pieces, effort {request.effort:g}, seed {marker.seed}",
            "picture": from_svg(one.svg),
        }
        written: Values = {Place(f"{_LIST}.{name}", row): value for name, value in own.items()}
        for ref, share in _fills(marker).items():
            if self._word(f"{_PIECES}.outline", ref):
                written[Place(f"{_PIECES}.fill", ref)] = round(share, 6)
        return written

    def _pieces(self, material: str, sizes: Sequence[str]) -> Iterator[Piece]:
        for ref in refs(_PIECES, self._shown):
            count = self._at(f"{_PIECES}.count", ref)
            if self._at(f"{_PIECES}.material", ref) != material or not isinstance(count, int | float):
                continue
            for size in sizes:
                name = self._word(f"{_PIECES}.piece", ref)
                kind = self._word(f"{_PIECES}.outline", ref) or "rectangle"
                long, wide = (self._side(side, ref, name, size) for side in ("long", "wide"))
                piece = Piece(ref, name, kind, long, wide, int(count), False, size, self._details.get(size, {}))
                yield replace(piece, mirrored=not symmetric(piece))

    def _side(self, side: str, ref: str, name: str, size: str) -> float:
        number = self._sizes.index(size) + 1
        value = self._at(f"{_PIECES}.{member_name(side, 'size', number)}", ref)
        if not isinstance(value, int | float) or value <= 0:
            what = "length" if side == "long" else "width"
            raise LayingError(
                f"{ref} {name} has no {what} in size {size}; give it a point that has a value, or a length of its own",
                Place(f"{_PIECES}.{side}_point", ref),
            )
        return self._cm(float(value))

    def _mix(self, material: str, width_cm: float, request: Request) -> Mapping[str, int]:
        """The garments of each size: as asked, or the order's in their proportion, or all sizes alike."""
        if request.mix is not None:
            unknown = [size for size in request.mix if size not in self._sizes]
            if unknown:
                raise LayingError(f"there is no size {unknown[0]}; the style has {', '.join(self._sizes)}")
            return request.mix
        ordered = {
            size: float(value) if isinstance(value := self._at("order.sizes.total", ref), int | float) else 0.0
            for size, ref in zip(self._sizes, refs("style.sizes", self._shown), strict=False)
        }
        least = USUAL_GARMENTS
        if not sum(ordered.values()):
            ordered, least = dict.fromkeys(self._sizes, 1.0), len(self._sizes)
        return mix_of(ordered, request.garments or self._usual(material, width_cm, ordered, least))

    def _usual(self, material: str, width_cm: float, ordered: Mapping[str, float], least: int) -> int:
        """As many garments as the marker before had, as the cutter's table holds, or as make a marker worth laying."""
        before = self._at(f"{_LIST}.garments", _row_of(self._shown, material))
        for said in (before, self._at("cutting.most_garments")):
            if isinstance(said, int | float) and said >= 1:
                return int(said)
        size = max(ordered, key=lambda size: ordered[size])
        covered = sum(area(outline(piece)) * piece.count for piece in self._pieces(material, [size])) / width_cm
        rounds = range(least, max(MOST_GARMENTS, least) + 1, least)
        return next((number for number in rounds if covered * number >= SHORT_CM), rounds[-1])

    def _at(self, address: str, row: str = "") -> object:
        value = self._shown.get(Place(address, row))
        return None if value == "" else value

    def _word(self, address: str, row: str = "") -> str:
        return str(self._at(address, row) or "")

    def _cm(self, value: float) -> float:
        return convert(value, self._unit, "cm")


def _fills(marker: Marker) -> dict[str, float]:
    """Of each piece the share of its boxes that it fills, over all sizes as they lie in the marker."""
    filled: dict[str, float] = {}
    boxes: dict[str, float] = {}
    for one in marker.placed:
        filled[one.ref] = filled.get(one.ref, 0.0) + area(outline(one.piece))
        boxes[one.ref] = boxes.get(one.ref, 0.0) + one.piece.length * one.piece.width
    return {ref: min(filled[ref] / boxes[ref], 1.0) for ref in filled}
