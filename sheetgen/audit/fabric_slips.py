"""What may go wrong in a fabric's consumption: the Yield sheet's calculation again, with one thing done otherwise."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import combinations
from typing import NamedTuple

from sheetgen.audit.case import Case
from sheetgen.audit.slips import Slip, efficiency_slips, loosely, scaled, sum_slips, unit_slips
from sheetgen.texts import marked, say
from sheetgen.trade.weights import USE_UNITS

_SAME = 1e-6
_BY_LENGTH = frozenset(one.unit for one in USE_UNITS if one.of == "length")


class Side(NamedTuple):
    """Length or width of a piece in meters: what its points give, what is added, and the shrinkage (a share)."""

    points: float
    plus: float
    shrink: float


class Piece(NamedTuple):
    """A cut piece in one size: how many of it, times that size's share of the order and the filled share of its box."""

    name: str
    times: float
    long: Side
    wide: Side
    number: float = 1


def _cut(side: Side) -> float:
    return (side.points + side.plus) / (1 - side.shrink)


def _shrink_added(side: Side) -> float:
    return (side.points + side.plus) * (1 + side.shrink)


def _shrink_forgotten(side: Side) -> float:
    return side.points + side.plus


def _plus_halved(side: Side) -> float:
    return (side.points + (side.plus / 2 if side.points else side.plus)) / (1 - side.shrink)


def _plus_forgotten(side: Side) -> float:
    return (side.points + (0 if side.points else side.plus)) / (1 - side.shrink)


_OTHERWISE: tuple[tuple[str, Callable[[Side], float]], ...] = (
    (marked("the shrinkage is added as 1 + s instead of divided by 1 − s"), _shrink_added),
    (marked("the shrinkage is left out"), _shrink_forgotten),
    (marked("seams and hems are added at one edge only"), _plus_halved),
    (marked("seams and hems are left out"), _plus_forgotten),
)


def _area(pieces: list[Piece], long: Callable[[Side], float] = _cut, wide: Callable[[Side], float] = _cut) -> float:
    return sum(piece.times * long(piece.long) * wide(piece.wide) for piece in pieces)


def _point(case: Case, ref: str, side: str, size: int) -> float:
    point, times = case.value(f"yield.pieces.{side}_point", ref), case.number(f"yield.pieces.{side}_times", ref)
    if not isinstance(point, str) or not point:
        return 0
    return (case.number(f"measurements.points.spec_z{size}", point) or 0) * (1 if times is None else times)


def _side(case: Case, ref: str, side: str, size: int, shrink: float) -> Side:
    unit = case.number("style.unit_in_meters") or 0
    points = _point(case, ref, side, size) + _point(case, ref, f"{side}_second", size)
    plus = case.number(f"yield.pieces.{side}_plus", ref) or 0
    own = case.number(f"yield.pieces.{side}_shrink", ref)
    return Side(points * unit, plus * unit, shrink if own is None else own)


def _shares(case: Case) -> dict[int, float]:
    """Size number -> its share of the order; the sample size alone where nothing is ordered."""
    count = len(dict(case.got.ready.shape.axes)["size"])
    pieces = {size: case.number("order.sizes.total", f"Z{size}") or 0 for size in range(1, count + 1)}
    total = sum(pieces.values())
    if total:
        return {size: number / total for size, number in pieces.items() if number}
    sample = case.number("style.sample_number")
    return {} if sample is None else {int(sample): 1}


def _pieces(case: Case, fabric: str) -> list[Piece]:
    material = case.value("yield.fabrics.material", fabric)
    shrink = {side: case.number(f"yield.fabrics.{side}_shrink", fabric) or 0 for side in ("long", "wide")}
    found = []
    for ref in case.rows("yield.pieces"):
        if case.value("yield.pieces.material", ref) != material:
            continue
        fill = case.number("yield.pieces.fill", ref)
        times = (case.number("yield.pieces.count", ref) or 0) * (1 if fill is None else fill)
        name = f"“{case.value('yield.pieces.piece', ref)}”"
        for size, share in _shares(case).items():
            long, wide = (_side(case, ref, side, size, shrink[side]) for side in ("long", "wide"))
            found.append(Piece(name, times * share, long, wide, case.number("yield.pieces.count", ref) or 0))
    return found


def _piece_slips(pieces: list[Piece], unit: float) -> Iterator[Slip]:
    """Slips in the area, in square meters."""
    for declared, other in _OTHERWISE:
        words = say(declared)
        yield Slip(words, _area(pieces, other, other))
        yield Slip(say("{slip}, in the length", slip=words), _area(pieces, other))
        yield Slip(say("{slip}, in the width", slip=words), _area(pieces, _cut, other))
    added = sum(piece.times * (_cut(piece.long) + _cut(piece.wide)) * unit for piece in pieces)
    yield Slip(say("length and width of the pieces are added instead of multiplied"), added)
    once = [
        piece._replace(times=piece.times / 2) if piece.number and piece.number % 2 == 0 else piece for piece in pieces
    ]
    yield Slip(say("of every pair of pieces one is counted"), _area(once))
    yield from loosely(_exchanged(pieces))
    by_name: dict[str, float] = {}
    for piece in pieces:
        by_name[piece.name] = by_name.get(piece.name, 0) + piece.times * _cut(piece.long) * _cut(piece.wide)
    yield from loosely(sum_slips(by_name))


def _exchanged(pieces: list[Piece]) -> Iterator[Slip]:
    """The counts of two pieces taken for each other."""
    area = _area(pieces)
    by_name: dict[str, list[Piece]] = {}
    for piece in pieces:
        by_name.setdefault(piece.name, []).append(piece)
    for (one, first), (other, second) in combinations(by_name.items(), 2):
        of_one, of_other = first[0].number, second[0].number
        if of_one and of_other and of_one != of_other:
            more = _area(first) * (of_other / of_one - 1) + _area(second) * (of_one / of_other - 1)
            yield Slip(say("the counts of {one} and {other} are exchanged", one=one, other=other), area + more)


def fabric_slips(case: Case, fabric: str, right: float) -> Iterator[Slip]:
    """What a net use would be if one thing were done otherwise; `right` is what Yield works out for that row.

    Slips in the pieces are left out where this file's own calculation does not follow the sheet's.
    """
    efficiency, usable = (case.number(f"yield.fabrics.{name}", fabric) for name in ("counted", "usable"))
    unit, full = case.number("style.unit_in_meters"), case.number("yield.fabrics.full", fabric)
    mix, sample = (case.number(f"yield.fabrics.{name}", fabric) for name in ("mix", "sample"))
    meters = sample if mix is None else mix
    if not efficiency or not usable or not unit or not meters:
        return
    yield from efficiency_slips(right, efficiency)
    pieces = _pieces(case, fabric)
    area = _area(pieces)
    if area and abs(area / (usable * unit) / efficiency / meters - 1) < _SAME:
        yield from scaled(_piece_slips(pieces, unit), right / area)
    if full and case.value("yield.fabrics.unit", fabric) in {"kg", "g", "lb", "oz"}:
        yield Slip(say("the usable width is weighed instead of the full one"), right * usable / full)
    whole = full or case.number("materials.bom.width", str(case.value("yield.fabrics.material", fabric)))
    if whole and whole != usable and case.value("yield.fabrics.unit", fabric) in _BY_LENGTH:
        yield Slip(say("the full width is counted instead of the usable one"), right * usable / whole)
    for number, name in enumerate(dict(case.got.ready.shape.axes)["size"], 1):
        one = case.number(f"yield.fabrics.meters_z{number}", fabric)
        if one:
            yield Slip(
                say("size {name} alone is counted, not the order's mix of sizes", name=name),
                right * one / meters,
                loose=True,
            )
    yield from unit_slips(right, str(case.value("yield.fabrics.unit", fabric) or ""))
