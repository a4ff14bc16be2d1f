"""Sums that are right although their parts are off to both sides: one part hides the other."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping

from sheetgen.audit.case import Case
from sheetgen.audit.causes import measured_place
from sheetgen.audit.cost_slips import agrees, direct_sums, material_parts, material_sums, quote_currency
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.audit.slips import shown
from sheetgen.declare.entry import Place
from sheetgen.texts import marked, say
from sheetgen.workbook.model.compare import same

_SMALL, _MOST = 0.1, 3
"""So small a share of a side needs no mention; no more parts than that are named."""
_QUOTED = {
    "sew_cost": marked("sewing"), "cut_cost": marked("cutting"), "finish_cost": marked("finishing and packing"),
    "process_cost": marked("print, embroidery and wash"), "testing_cost": marked("testing"), "packing_cost": marked("packing work"),
    "commercial_cost": marked("bank, forwarding and commission"), "overhead_cost": marked("overhead"), "profit_cost": marked("profit"),
}  # fmt: skip
"""The parts of a price beside its materials."""
_SIDE = re.compile(r"\b(front|back)\b", re.IGNORECASE)
_NOT_THE_POINT = re.compile(r"\b(?:front|back|center|centre)\b|\bfrom\b.*|[ ,]+", re.IGNORECASE)
"""What two points that belong together may be called differently by: center back length, front length from the shoulder."""


def cancelled(off: Mapping[str, float], least: float, rest: float) -> tuple[float, float] | None:
    """How far parts are off upward and downward, if both are at least so much and all but a share of the smaller cancels."""
    up, down = sum(one for one in off.values() if one > 0), -sum(one for one in off.values() if one < 0)
    smaller = min(up, down)
    return (up, down) if smaller > 0 and smaller >= least and abs(up - down) <= rest * smaller else None


def _hidden(
    case: Case, place: Place, right: str, off: Mapping[str, float], total: float, told: str, currency: str
) -> Iterator[Fault]:
    """The fault of a sum of money whose parts hide each other; `told` has the holes up, ups, down, downs."""
    sides = cancelled(off, case.limits["moved"] * abs(total), case.limits["moved_rest"])
    if sides is not None:
        up, down = sides
        found = say(
            told, up=shown(up, currency), ups=_named(off, up), down=shown(down, currency),
            downs=_named({name: -one for name, one in off.items()}, down),
        )  # fmt: skip
        yield Fault(place, right, found, limits=("moved", "moved_rest"))


def _named(off: Mapping[str, float], side: float) -> str:
    """The parts that make most of one side, the largest first."""
    large = sorted(((one, name) for name, one in off.items() if one > _SMALL * side), reverse=True)
    return ", ".join(name for _, name in large[:_MOST])


def _since_the_last_quote(case: Case) -> Iterator[Fault]:
    """The build-up of the price, part by part, beside what the copy showed when it was sent with the last answers."""
    place, code = Place("quote.fob"), Place("quote.currency")
    if (
        case.own
        or not isinstance(case.sent.get(place), int | float)
        or not same(case.sent.get(code), case.got.typed.get(code))
    ):
        return
    worked, exchange = case.number("quote.worked_out"), case.number("quote.exchange") or 1
    parts = {say(words): Place(f"quote.{name}") for name, words in _QUOTED.items()}
    lines = {
        f"{ref} {case.value('materials.bom.item', ref)}": Place("materials.bom.counted", ref)
        for ref in case.rows("materials.bom")
    }
    off: dict[str, float] = {}
    for name, at in (*parts.items(), *lines.items()):
        before, now = case.sent_follows.get(at, case.sent.get(at)), case.number(*at)
        if isinstance(before, int | float) and now is not None:
            off[name] = (now - before) / (exchange if name in lines else 1)
        elif isinstance(before, int | float) or now is not None:
            return  # what was not known then cannot have moved
    if worked:
        currency = quote_currency(case)
        right = say(
            "the price worked out, {worked}, is as good as that of the last quote", worked=shown(worked, currency)
        )
        told = marked("its parts moved up by {up} ({ups}) and down by {down} ({downs})")
        yield from _hidden(case, place, right, off, worked, told, currency)


def _stated(case: Case) -> Iterator[Fault]:
    """Stated totals that agree, beside the stated parts that they are the sum of."""
    told = marked("of its stated parts {ups} are {up} too much and {downs} {down} too little")
    currency = quote_currency(case)
    right, own = material_parts(case, stated=False), material_parts(case, stated=True)
    pairs = (
        ("materials_cost", "stated_materials", say("the materials")),
        ("make_cost", "stated_make", say("the making")),
    )
    figures = {
        words: (case.number(f"quote.{stated}"), case.number(f"quote.{worked}")) for worked, stated, words in pairs
    }
    sums: tuple[tuple[str, str, Callable[[Case], list[float]], dict[str, float]], ...] = (
        ("stated_materials", "materials_cost", material_sums, {name: own[name] - one for name, one in right.items()}),
        (
            "stated_direct",
            "direct",
            direct_sums,
            {words: said - one for words, (said, one) in figures.items() if said and one},
        ),
    )
    for stated, worked, rights, off in sums:
        said, one = case.number(f"quote.{stated}"), case.number(f"quote.{worked}")
        if said and one and agrees(said, [one, *rights(case)]):
            expected = say("the total of {said} is right", said=shown(said, currency))
            yield from _hidden(case, Place(f"quote.{stated}"), expected, off, one, told, currency)


def _delivered(case: Case) -> Iterator[Fault]:
    """Deliveries that are the order's pieces together, and another color's each."""
    names = dict(case.got.ready.shape.axes)["colorway"]
    rows, off = case.rows("order.deliveries"), {}
    for number, name in enumerate(names, 1):
        there = sum(case.number(f"order.deliveries.pieces_c{number}", ref) or 0 for ref in rows)
        off[name] = there - (case.number(f"order.pieces_in_c{number}") or 0)
    if rows and cancelled(off, 1, 0):
        found = say(
            "there are {more} too many and {fewer} too few",
            more=", ".join(f"{one:g} {name}" for name, one in off.items() if one > 0),
            fewer=", ".join(f"{-one:g} {name}" for name, one in off.items() if one < 0),
        )
        right = say("the deliveries are the pieces of the order together")
        yield Fault(Place("order.pieces"), right, found, owner="designer", limits=())


def _front_and_back(case: Case) -> Iterator[Fault]:
    """A front and a back that are as long together as asked, one of them too long, the other too short."""
    pairs: dict[str, dict[str, str]] = {}
    for ref in case.rows("fit.points"):
        name = str(case.value("fit.points.point", ref))
        side = _SIDE.search(re.sub(r"\bfrom\b.*", "", name, flags=re.IGNORECASE))
        if side:
            pairs.setdefault(_NOT_THE_POINT.sub("", name).lower(), {}).setdefault(side.group().lower(), ref)
    for number in range(1, len(dict(case.got.ready.shape.axes)["round"]) + 1):
        for sides in pairs.values():
            if len(sides) == 2:
                yield from _seam_elsewhere(case, sides, number)


def _seam_elsewhere(case: Case, sides: Mapping[str, str], number: int) -> Iterator[Fault]:
    off = {ref: case.number(f"fit.points.deviation_r{number}", ref) or 0 for ref in sides.values()}
    allowed = [case.number(f"fit.points.{'plus' if off[ref] > 0 else 'minus'}", ref) or 0 for ref in off]
    share = case.limits["front_back"]
    far = all(abs(one) >= share * most - 5e-5 > 0 for one, most in zip(off.values(), allowed, strict=True))
    if far and cancelled(off, 0, case.limits["moved_rest"]):
        worse = max(off, key=lambda ref: abs(off[ref]))
        place = measured_place(case, worse, number)
        if case.own or not same(case.sent.get(place), case.got.typed.get(place)):
            found = say(
                "front is {front:+g} off and back {back:+g}", front=off[sides["front"]], back=off[sides["back"]]
            )
            cause = say("The seam between them lies in another place, or one was measured from there.")
            right = say("front and back together are as asked")
            yield Fault(place, right, found, cause=cause, limits=("front_back", "moved_rest"))


@rule(
    title="Two deviations cancel in a sum",
    level="query",
    limits=("moved", "moved_rest", "front_back"),
    source="common practice: a control total finds no slips that cancel, so its parts are looked at; the limits are choices of this project",
    message="{place}: {expected}, and yet {found}.{cause}",
    why="A sum that is right says nothing of its parts: one may be made to fit another, and each is used by itself.",
    fix="Look at the parts, one by one, and say why they moved or correct them.",
    bad=(
        Example(
            "0.90 moved from the making into the materials, of a direct cost that is right",
            {"quote.stated_materials": 11.67, "quote.stated_make": 9.76, "quote.stated_direct": 22.53},
            (
                "deviations-cancel quote.stated_direct",
                "total-claimed quote.stated_make",
                "total-claimed quote.stated_materials",
            ),
        ),
    ),
    fine=(
        Example(
            "all three right",
            {"quote.stated_materials": 10.77, "quote.stated_make": 10.66, "quote.stated_direct": 22.53},
        ),
    ),
)
def deviations_cancel(case: Case) -> Iterator[Fault]:
    yield from _since_the_last_quote(case)
    yield from _stated(case)
    yield from _delivered(case)
    yield from _front_and_back(case)


RULES = (deviations_cancel,)
