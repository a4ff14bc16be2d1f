"""What a fabric's marker is laid from, as the style's workbook works it out: pieces in each size, mix, width, nap."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from sheetgen.declare.entry import Place
from sheetgen.declare.families import member_name
from sheetgen.nesting import NAPS, Nap, Piece, area, details_of, mix_of, outline, symmetric
from sheetgen.style.diagrams import measures_of_sizes
from sheetgen.texts import say
from sheetgen.trade.lengths import convert
from sheetgen.workbook.model.values import Ready, Values, free_row, refs

FABRICS, PIECES, LIST = "yield.fabrics", "yield.pieces", "markers.list"
USUAL_GARMENTS, MOST_GARMENTS = 4, 24
"""Garments of a marker where nothing says how many; more of them use the fabric better (common practice)."""
SHORT_CM = 150.0
"""A marker of fewer pieces than would cover so much of the fabric's length gets more garments: collars and plackets
fill the width only when there are many."""


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
class Task:
    """What a fabric's marker is laid from, in centimeters."""

    fabric: str
    material: str
    item: str
    pieces: tuple[Piece, ...]
    mix: Mapping[str, int]
    width_cm: float
    nap: Nap
    notes: tuple[str, ...]


class MarkerError(ValueError):
    """What keeps a marker from being laid: one sentence, and the place where it is put right."""

    def __init__(self, sentence: str, place: Place | None = None) -> None:
        super().__init__(sentence)
        self.place = place


def row_of(values: Values, material: str) -> str:
    """The ref of a material's marker, or the first free one."""
    used = refs(LIST, values)
    for row in used:
        if values.get(Place(f"{LIST}.material", row)) == material:
            return row
    return free_row("G", used)


class StyleFigures:
    """A style's figures, asked for what markers need; lengths come out in centimeters."""

    def __init__(self, ready: Ready, shown: Values) -> None:
        self._shown = shown
        self.unit = dict(ready.shape.words)["{unit}"]
        self._sizes = dict(ready.shape.axes)["size"]
        self._details = {size: details_of(measures) for size, measures in measures_of_sizes(ready, shown)}

    def fabrics(self, wanted: Sequence[str]) -> list[str]:
        """Rows of the fabrics to lay: those that are wanted, or all that have cut pieces."""
        rows = {self.word(f"{FABRICS}.material", row): row for row in refs(FABRICS, self._shown)}
        cut = {self.word(f"{PIECES}.material", row) for row in refs(PIECES, self._shown)} - {""}
        listed = {material: row for material, row in rows.items() if material in cut}
        if not listed:
            raise MarkerError(
                say("lists no fabric with cut pieces; fill both tables of the Yield sheet"),
                Place(f"{FABRICS}.material"),
            )
        for material in wanted:
            if material not in listed:
                raise MarkerError(
                    say(
                        "the Yield sheet has no fabric {material} with cut pieces; it has {listed}",
                        material=material,
                        listed=", ".join(listed),
                    )
                )
        return [listed[material] for material in dict.fromkeys(wanted or listed)]

    def task(self, fabric: str, request: Request) -> Task:
        """All that the marker of a fabric is laid from."""
        material = self.word(f"{FABRICS}.material", fabric)
        item = f"{material} {self.word(f'{FABRICS}.item', fabric)}".strip()
        width, said = self.at(f"{FABRICS}.usable", fabric), self.word(f"{FABRICS}.nap", fabric)
        if not isinstance(width, int | float):
            raise MarkerError(say("{item} has no usable width; fill it", item=item), Place(f"{FABRICS}.usable", fabric))
        nap = next((nap for nap in NAPS if nap == said), NAPS[0])
        notes = [] if said else [say("pieces lie {nap}, as nothing else is said", nap=nap)]
        width_cm = self.cm(float(width))
        mix = self._mix(material, width_cm, request)
        pieces = tuple(self._pieces(material, [size for size, number in mix.items() if number]))
        bare = dict.fromkeys(piece.ref for piece in pieces if not self.word(f"{PIECES}.outline", piece.ref))
        if bare:
            notes.append(say("{listed} laid as rectangles, as no outline is chosen", listed=", ".join(bare)))
        return Task(fabric, material, item, pieces, mix, width_cm, nap, tuple(notes))

    def _pieces(self, material: str, sizes: Sequence[str]) -> Iterator[Piece]:
        for ref in refs(PIECES, self._shown):
            count = self.at(f"{PIECES}.count", ref)
            if self.at(f"{PIECES}.material", ref) != material or not isinstance(count, int | float):
                continue
            for size in sizes:
                name = self.word(f"{PIECES}.piece", ref)
                kind = self.word(f"{PIECES}.outline", ref) or "rectangle"
                long, wide = (self._side(side, ref, name, size) for side in ("long", "wide"))
                piece = Piece(ref, name, kind, long, wide, int(count), False, size, self._details.get(size, {}))
                yield replace(piece, mirrored=not symmetric(piece))

    def _side(self, side: str, ref: str, name: str, size: str) -> float:
        number = self._sizes.index(size) + 1
        value = self.at(f"{PIECES}.{member_name(side, 'size', number)}", ref)
        if not isinstance(value, int | float) or value <= 0:
            what = "length" if side == "long" else "width"
            raise MarkerError(
                say(
                    "{ref} {name} has no {what} in size {size}; give it a point that has a value, or a "
                    "length of its own",
                    ref=ref,
                    name=name,
                    what=what,
                    size=size,
                ),
                Place(f"{PIECES}.{side}_point", ref),
            )
        return self.cm(float(value))

    def _mix(self, material: str, width_cm: float, request: Request) -> Mapping[str, int]:
        """The garments of each size: as asked, or the order's in their proportion, or all sizes alike."""
        if request.mix is not None:
            unknown = [size for size in request.mix if size not in self._sizes]
            if unknown:
                raise MarkerError(
                    say(
                        "there is no size {size}; the style has {listed}",
                        size=unknown[0],
                        listed=", ".join(self._sizes),
                    )
                )
            return request.mix
        ordered = {
            size: float(value) if isinstance(value := self.at("order.sizes.total", ref), int | float) else 0.0
            for size, ref in zip(self._sizes, refs("style.sizes", self._shown), strict=False)
        }
        least = USUAL_GARMENTS
        if not sum(ordered.values()):
            ordered, least = dict.fromkeys(self._sizes, 1.0), len(self._sizes)
        return mix_of(ordered, request.garments or self._usual(material, width_cm, ordered, least))

    def _usual(self, material: str, width_cm: float, ordered: Mapping[str, float], least: int) -> int:
        """As many garments as the marker before had, as the cutter's table holds, or as make a marker worth laying."""
        before = self.at(f"{LIST}.garments", row_of(self._shown, material))
        for said in (before, self.at("cutting.most_garments")):
            if isinstance(said, int | float) and said >= 1:
                return int(said)
        size = max(ordered, key=lambda size: ordered[size])
        covered = sum(area(outline(piece)) * piece.count for piece in self._pieces(material, [size])) / width_cm
        rounds = range(least, max(MOST_GARMENTS, least) + 1, least)
        return next((number for number in rounds if covered * number >= SHORT_CM), rounds[-1])

    def mix_of_lay(self, lays: str, row: str) -> dict[str, int]:
        """The garments of each size in a lay's marker; those of which there is none are left out."""
        found = {
            size: self.at(f"{lays}.{member_name('garments', 'size', number)}", row)
            for number, size in enumerate(self._sizes, 1)
        }
        return {size: int(number) for size, number in found.items() if isinstance(number, int | float) and number >= 1}

    def at(self, address: str, row: str = "") -> object:
        """What a place holds or shows; None if it is blank."""
        value = self._shown.get(Place(address, row))
        return None if value == "" else value

    def word(self, address: str, row: str = "") -> str:
        """The same as text."""
        return str(self.at(address, row) or "")

    def cm(self, value: float) -> float:
        """A length of the style in centimeters."""
        return convert(value, self.unit, "cm")
