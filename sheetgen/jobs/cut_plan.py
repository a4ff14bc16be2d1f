"""The cut plan of a working workbook: its order and limits go to the solver, the lays come back into its sheet."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from sheetgen import api
from sheetgen.cut_planning import CutPlan, plan
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.style.figures import figures
from sheetgen.texts import marked, say
from sheetgen.workbook.exchange.accept import carried
from sheetgen.workbook.model.values import Values, refs
from sheetgen.workbook.read.found import Returned

MOST_LAYS = 200
"""So many rows a person can still read and a spreadsheet program still calculates at once."""
MOST_OVER = 0.2
"""As in the sheet."""
_WORDS = {
    "most_plies": (marked("Plies in a lay, at most"), "--plies 60"),
    "most_garments": (marked("Garments in a marker, at most"), "--garments 6"),
}
"""What the sheet calls a limit, and the option that gives it."""


@dataclass(frozen=True)
class Limits:
    """What the options say: plies, garments, share over, ref of the lays' material; None is as the sheet has it."""

    plies: int | None = None
    garments: int | None = None
    over: float | None = None
    material: str | None = None


@dataclass(frozen=True)
class Planned:
    """A plan by names of sizes and colorways, and the workbook that it was put into."""

    plan: CutPlan
    sizes: Mapping[str, str]
    colorways: Mapping[str, str]
    pieces: int
    built: api.Built


def planned(working: Path, limits: Limits, progress: Callable[[str], None] | None = None) -> Planned:
    """Plan the lays of a working workbook's order and put them in place of the lays that it has.

    Limits that are given go into the workbook. UserError if a limit is missing, nothing is ordered, or too many lays
    would be needed.
    """
    got = api.working_copy(working, say("is a vendor's copy; plan in the working workbook"))
    values, lost = carried(got)
    _set_limits(values, limits, got)
    plies, garments = (_limit(got, values, name) for name in ("most_plies", "most_garments"))
    over = _over(got, values)
    sizes, colorways = _names(values, "style.sizes"), _names(values, "colorways.list")
    _refuse_words(got, values)
    shown = figures(values)[1]  # calculated anew: what the file shows may be old
    ordered = _ordered(got, shown, sizes, colorways)
    pieces = sum(sum(row.values()) for row in ordered.values())
    if not pieces:
        raise UserError(
            say(
                "{working}: nothing is ordered; type pieces by size and colorway into its sheet {sheet}, "
                "or pieces wanted and ratios, and save it.",
                working=working,
                sheet=got.where.titles.get("order", "Order"),
            )
        )
    _refuse_many(working, -(-pieces // (plies * garments)), plies, garments)
    found = plan(ordered, plies, garments, over, progress=progress)
    _refuse_many(working, len(found.lays), plies, garments)
    _put(values, found, sizes, colorways)
    return Planned(found, sizes, colorways, pieces, api.from_values(values, tuple(lost)))


def _set_limits(values: Values, limits: Limits, got: Returned) -> None:
    fabrics = [str(values[place]) for place in values if place.entry == "yield.fabrics.material" and values[place]]
    if limits.material is not None and limits.material not in fabrics:
        listed = ", ".join(fabrics) or "none"
        raise UserError(
            say(
                "--material {material}: is no fabric of the Yield sheet in {path}; there are: {listed}.",
                material=limits.material,
                path=got.path,
                listed=listed,
            )
        )
    if fabrics and not values.get(Place("cutting.lay_material")):
        values[Place("cutting.lay_material")] = fabrics[0]
    given = {
        "most_plies": limits.plies,
        "most_garments": limits.garments,
        "most_over": limits.over,
        "lay_material": limits.material,
    }
    values.update({Place(f"cutting.{name}"): value for name, value in given.items() if value is not None})


def _limit(got: Returned, values: Values, name: str) -> int:
    declared, example = _WORDS[name]
    words = say(declared)
    place = Place(f"cutting.{name}")
    value = values.get(place)
    if value in (None, ""):
        raise UserError(
            say(
                "{place}: “{limit}” is not given; type it there or add {example}.",
                place=_cell(got, place),
                limit=words,
                example=example,
            )
        )
    if not isinstance(value, int | float) or value != int(value) or value < 1:
        raise UserError(
            say(
                "{place}: “{limit}” is {value}, no whole number from 1; correct it or add {example}.",
                place=_cell(got, place),
                limit=words,
                value=value,
                example=example,
            )
        )
    return int(value)


def _over(got: Returned, values: Values) -> float:
    place = Place("cutting.most_over")
    value = values.get(place)
    if value in (None, ""):
        return 0.0
    if not isinstance(value, int | float) or not 0 <= value <= MOST_OVER:
        raise UserError(
            say(
                "{place}: {value} is no share from 0 to {most_over:.0%}; correct it or add --over 2%.",
                place=_cell(got, place),
                value=value,
                most_over=MOST_OVER,
            )
        )
    return float(value)


def _cell(got: Returned, place: Place) -> str:
    """The file and where in it a place stands, as a sentence begins."""
    cell = got.where.at(place)
    return f"{got.path}: {cell.sheet} {cell.address}" if cell else f"{got.path}: {place}"


def _names(values: Values, table: str) -> dict[str, str]:
    """Refs in order with their names; the ref where there is no name."""
    return {ref: str(values.get(Place(f"{table}.name", ref)) or ref) for ref in refs(table, values)}


def _ordered(
    got: Returned, shown: Values, sizes: Mapping[str, str], colorways: Mapping[str, str]
) -> dict[str, dict[str, int]]:
    """What the order cuts by colorway and size (their refs): the pieces ordered, with what is cut over."""
    return {
        color: {size: _pieces(got, Place(f"workings.split.asked_c{number}", size), shown) for size in sizes}
        for number, color in enumerate(colorways, 1)
    }


def _refuse_words(got: Returned, values: Values) -> None:
    """A quantity typed as words would count as none."""
    for place, value in values.items():
        if not place.entry.startswith("order.sizes.pieces_c") or not isinstance(value, str) or not value.strip():
            continue
        raise UserError(
            say(
                "{place}: “{value}” is no number; type the pieces only, without a unit.",
                place=_cell(got, place),
                value=value,
            )
        )


def _pieces(got: Returned, place: Place, shown: Values) -> int:
    value: Value = shown.get(place)
    if value in (None, ""):
        return 0
    if not isinstance(value, int | float) or value < 0 or value != int(value):
        raise UserError(
            say(
                "{place}: {pieces} pieces can't be cut; order a whole number from 0.",
                place=_cell(got, place),
                pieces=value,
            )
        )
    return int(value)


def _refuse_many(working: Path, lays: int, plies: int, garments: int) -> None:
    if lays > MOST_LAYS:
        raise UserError(
            say(
                "{working}: {lays} lays would be needed at {plies} x {garments} (plies x garments), and "
                "the sheet holds {most_lays}; allow more plies or garments, or split the order.",
                working=working,
                lays=lays,
                plies=plies,
                garments=garments,
                most_lays=MOST_LAYS,
            )
        )


def _put(values: Values, found: CutPlan, sizes: Mapping[str, str], colorways: Mapping[str, str]) -> None:
    """The lays into their table; those that were there go."""
    for place in [place for place in values if place.entry.startswith("cutting.lays.")]:
        del values[place]
    for number, (lay, name) in enumerate(zip(found.lays, lay_names(found), strict=True), 1):
        row = f"A{number}"
        values[Place("cutting.lays.lay", row)] = name
        for member, size in enumerate(sizes, 1):
            if size in lay.garments:
                values[Place(f"cutting.lays.garments_z{member}", row)] = lay.garments[size]
        for member, color in enumerate(colorways, 1):
            if color in lay.plies:
                values[Place(f"cutting.lays.plies_c{member}", row)] = lay.plies[color]


def lay_names(found: CutPlan) -> list[str]:
    """What each lay is: its marker's number, and which of that marker's lays."""
    markers = [tuple(lay.garments.items()) for lay in found.lays]
    numbers = {marker: number for number, marker in enumerate(dict.fromkeys(markers), 1)}
    names = []
    for place, marker in enumerate(markers):
        count, nth = markers.count(marker), markers[: place + 1].count(marker)
        names.append(
            say("Marker {numbers}", numbers=numbers[marker])
            + (say(", lay {nth} of {count}", nth=nth, count=count) if count > 1 else "")
        )
    return names
