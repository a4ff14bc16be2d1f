"""Nesting: pieces laid on fabric of a given width as short as a search finds, the same again for the same seed."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sheetgen.drawing.shapes import Path, Point, bounds
from sheetgen.nesting.lanes import best_of
from sheetgen.nesting.markers import NAPS, Marker, Nap, Placed
from sheetgen.nesting.outlines import mirror_image, outline
from sheetgen.nesting.pieces import Piece
from sheetgen.texts import say

if TYPE_CHECKING:
    from sheetgen.nesting.search import Task

LANES = 2
"""Searches that run side by side, each from its own seeds; the better one counts. Always so many, whatever the machine,
so that the result is always the same."""
FINE = 0.005
"""Room in cm that pieces get beyond the gap: where the search rounds its numbers, none may touch another for it."""
_SEEDS = 1_000_000
"""Seeds of the library for each seed of a marker: its lanes and their new starts never meet another marker's."""


@dataclass(frozen=True)
class _Kind:
    """Pieces that are alike: outline, hand and how many of them are laid."""

    piece: Piece
    mirrored: bool
    path: Path
    count: int


def nest(
    pieces: Sequence[Piece],
    garments: Mapping[str, int],
    width_cm: float,
    *,
    nap: Nap = "one way",
    gap_cm: float = 0.0,
    seconds: float = 20.0,
    seed: int = 1,
    progress: Callable[[float], None] | None = None,
) -> Marker:
    """The pieces of so many garments of each size, laid on fabric of a usable width in cm.

    The length of a piece runs along the fabric; see NAPS for how it may lie turned. `gap_cm` is kept between pieces,
    not at the edges. Pieces of sizes that `garments` leaves out are not laid.

    `seconds` is effort, not a clock: so many steps of the search as take about so long, half to double mostly, on an
    ordinary machine with two free cores; a slow or busy one takes as long as it needs. So the same arguments give the
    same marker, to the last digit, however fast the machine is and whatever else it does. With another version of the
    packing library or on another kind of processor, whose arithmetic may round otherwise, it may differ.

    `progress` is called now and then, in the caller's thread, with the part of the work that is done, 0 to 1. Ctrl-C
    and any error of `progress` end the search at once. ValueError says what can't be laid, and the way out;
    RuntimeError that the search broke down.
    """
    _refuse(width_cm, nap, gap_cm, seconds, seed)
    kinds = _kinds(pieces, garments)
    for kind in kinds:
        if kind.piece.width > width_cm:
            raise ValueError(
                say(
                    "{piece} is {width:g} cm wide and the fabric only {width_cm:g} cm: cut the piece in two "
                    "with a seam, or take a wider fabric.",
                    piece=kind.piece,
                    width=kind.piece.width,
                    width_cm=width_cm,
                )
            )
    apart = gap_cm + FINE
    tasks = [_task(kinds, width_cm, nap, apart, seconds, seed * _SEEDS + lane) for lane in range(LANES)]
    lies = best_of(tasks, progress or (lambda _: None))["lies"]
    placed = _placed(kinds, lies, width_cm, apart + FINE / 2)
    length = max(point.x for one in placed for point in one.polygon)
    laid = {size: number for size, number in garments.items() if number}
    return Marker(width_cm, length, placed, laid, nap, gap_cm, seconds, seed)


def _task(kinds: Sequence[_Kind], width: float, nap: Nap, apart: float, seconds: float, seed: int) -> Task:
    return {
        "shapes": [
            {"points": _spaced(kind.path), "count": kind.count, "turns": [0.0] if nap == "one way" else [0.0, 180.0]}
            for kind in kinds
        ],
        # The search keeps shapes as far from the edges as from each other; on fabric they may lie at its edge.
        "height": width + FINE + 2 * apart,
        "apart": apart,
        "seconds": seconds,
        "seed": seed,
        "step": LANES,
    }


def _refuse(width_cm: float, nap: str, gap_cm: float, seconds: float, seed: int) -> None:
    if nap not in NAPS:
        raise ValueError(say("pieces lie {listed}, not {nap!r}", listed=", ".join(NAPS), nap=nap))
    if not 0 < width_cm < math.inf:
        raise ValueError(say("a fabric is not {width_cm:g} cm wide; give its usable width", width_cm=width_cm))
    if not 0 <= gap_cm < width_cm:
        raise ValueError(
            say("a gap of {gap_cm:g} cm between pieces is not possible; give 0 or a few millimeters", gap_cm=gap_cm)
        )
    if not 0 < seconds < math.inf:
        raise ValueError(say("a search can't take {seconds:g} seconds; give a number above 0", seconds=seconds))
    if not 0 <= seed < _SEEDS:
        raise ValueError(say("a seed is a whole number from 0 to {most}, not {seed}", most=_SEEDS - 1, seed=seed))


def _kinds(pieces: Sequence[Piece], garments: Mapping[str, int]) -> list[_Kind]:
    """Each piece and its mirror image once, with how many are laid. ValueError if there is nothing to lay."""
    if negative := [size for size, number in garments.items() if number < 0]:
        raise ValueError(
            say(
                "{count} garments of size {size} can't be laid; give 0 or more",
                count=garments[negative[0]],
                size=negative[0],
            )
        )
    sizes = {piece.size for piece in pieces if piece.count}
    if missing := [size for size, number in garments.items() if number and size not in sizes]:
        raise ValueError(
            say("size {missing} has no cut pieces; list them, or leave the size out of the marker", missing=missing[0])
        )
    kinds = []
    for piece in pieces:
        path = outline(piece)
        for mirrored, hand in enumerate(piece.hands):
            count = hand * garments.get(piece.size, 0)
            if count:
                kinds.append(_Kind(piece, bool(mirrored), mirror_image(path, piece.width) if mirrored else path, count))
    if not kinds:
        raise ValueError(say("a marker without pieces has no length; give one garment of one size at least"))
    return kinds


def _spaced(path: Path) -> list[Point]:
    """The outline without points so near each other that the search's short numbers can't tell them apart."""
    low, up = bounds([path])
    least = max(up.x - low.x, up.y - low.y) * 1e-5
    kept = [path[0]]
    for point in path[1:]:
        if min(kept[-1].distance(point), kept[0].distance(point)) > least:
            kept.append(point)
    return kept


def _placed(
    kinds: Sequence[_Kind], lies: Sequence[tuple[int, float, float, float]], width: float, edge: float
) -> tuple[Placed, ...]:
    """The pieces as the search laid them, from the start of the fabric on, none beyond its edges."""
    placed = []
    for number, angle, x, y in lies:
        kind = kinds[number]
        turned = abs(angle) > 90
        way = -1 if turned else 1
        path = tuple(Point(x + way * point.x, y - edge + way * point.y) for point in kind.path)
        low, up = (corner.y for corner in bounds([path]))
        aside = max(-low, 0.0) - max(up - width, 0.0)
        placed.append(Placed(kind.piece, kind.mirrored, turned, tuple(point.to(0, aside) for point in path)))
    start = min(point.x for one in placed for point in one.polygon)
    moved = [
        Placed(one.piece, one.mirrored, one.turned, tuple(point.to(-start, 0) for point in one.polygon))
        for one in placed
    ]
    return tuple(sorted(moved, key=lambda one: min(one.polygon)))
