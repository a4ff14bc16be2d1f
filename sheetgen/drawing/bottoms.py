"""Bottoms: two legs lying flat side by side, the fork on the center line."""

from __future__ import annotations

import math

from sheetgen.drawing.legs import Legs, legs
from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Point, across, at, band, both, curve, level, line, moved
from sheetgen.drawing.views import Laid, Span, Stroke, View, of, one, pair

_THICK = 0.17
"""The trunk's radius from front to back, of half the hip girth."""
_BACK_HIGHER = 2.5


def bottom(n: Numbers) -> tuple[View, ...]:
    """Front and back, the rises from the side, and the gusset if it is measured."""
    found = [_view(n, back=False), _view(n, back=True)]
    if n.has("front rise", "back rise"):
        found.append(_rises(n))
    if n.has("gusset"):
        found.append(gusset(n))
    return tuple(found)


def _view(n: Numbers, back: bool) -> View:
    made = legs(n, back)
    whole = both(made.edge)
    waistband, loops = _waistband(n, made)
    strokes: list[Stroke] = [one("cloth", whole), *waistband, one("outline", (*whole, whole[0])), *loops]
    hem = min(n["hem"], n["inside"] * 0.2)
    strokes.append(pair("stitch", line(made.side[-1].to(0, -hem), made.inseam[-1].to(0, -hem))))
    strokes.append(one("seam", line((0, made.band), (0, made.fork.y))))
    strokes += _back_details(n, made) if back else _front_details(n, made)
    spans = _back_spans(n, made) if back else _front_spans(n, made)
    return View("Back" if back else "Front", tuple(strokes), spans, made.edge, made.spots, laid=(_laid(made),))


def _laid(made: Legs) -> Laid:
    """Half, from the middle of the leg at the knee: there the sizes lie on each other as a pattern's do."""
    middle = (made.spots["knee"].x + made.spots["knee in"].x) / 2
    return Laid("Half front, from the middle of the leg", moved((*made.edge, made.edge[0]), -middle, 0))


def _waistband(n: Numbers, made: Legs) -> tuple[list[Stroke], list[Stroke]]:
    """The band with its seam, parallel to its upper edge; and the belt loops, if there are any."""
    high = n["waistband"]
    low = tuple(p.to(0, high) for p in made.waist)
    low = (*low[:-1], Point(level(made.side, low[-1].y), low[-1].y))
    found = [one("cloth", band(low, made.waist), part="waistband"), one("seam", across(low), part="waistband")]
    loops: list[Stroke] = []
    if n.features.belt_loops:
        wide = n["loop"] / 2
        for part in (0.36, 0.8):
            p = made.waist[0].toward(made.waist[-1], part)
            loop = line(
                (p.x - wide, p.y - 0.4),
                (p.x + wide, p.y - 0.4),
                (p.x + wide, p.y + high + 0.4),
                (p.x - wide, p.y + high + 0.4),
            )
            loops += of("waistband", pair("cloth", loop), pair("seam", (*loop, loop[0])))
    return found, loops


def _front_details(n: Numbers, made: Legs) -> list[Stroke]:
    """Fly with its curved stitching, slanted pockets as long as they are, and creases."""
    found = []
    if n.features.fly:
        end, wide = made.band + n["fly"], 3.6
        bend = curve(Point(wide, end - 5), Point(wide, end - 1), Point(wide * 0.6, end), Point(0, end))
        found.append(one("stitch", (Point(wide, made.band), *bend)))
    if n.features.slanted_pockets:
        found.append(pair("seam", slanted_pocket(n, made)))
    if n.features.creases:
        top = (made.fork.x + n["thigh"] * 0.5, made.fork.y + 6)
        found.append(pair("fold", line(made.side[-1].toward(made.inseam[-1], 0.5), top)))
    return found


def slanted_pocket(n: Numbers, made: Legs) -> tuple[Point, ...]:
    """The opening of the right front pocket, from the waistband seam to the side seam if it is long enough."""
    start = Point(n["waist"] / 2 * 0.76, made.side[0].y + n["waistband"])
    reach = n["front pocket"] * 1.5
    ways = [at(made.side, n["waistband"] + reach * step / 40) for step in range(41)]
    end = min(ways, key=lambda p: abs(p.distance(start) - n["front pocket"]))
    size = max(start.distance(end), 0.1)
    return (start, start.toward(end, n["front pocket"] / size))


def _back_details(n: Numbers, made: Legs) -> list[Stroke]:
    """Welt pockets, each under a dart."""
    if not n.features.back_pockets:
        return []
    middle, top, wide = n["waist"] / 2 * 0.54, made.side[0].y + n["waistband"] + 7, n["back pocket"] / 2
    welt = line((middle - wide, top), (middle + wide, top), (middle + wide, top + 1.2), (middle - wide, top + 1.2))
    dart = line((middle, top), (middle, made.side[0].y + n["waistband"]))
    return [pair("seam", (*welt, welt[0])), pair("seam", dart)]


def _front_spans(n: Numbers, made: Legs) -> tuple[Span, ...]:
    top, hip = made.side[0], made.spots["hip"]
    pocket = slanted_pocket(n, made)
    hip_line = line((-hip.x, hip.y), made.spots["hip middle"], hip)
    return (
        Span("waist", line((-top.x, top.y), top), 1.2),
        Span("hip", hip_line),
        Span("thigh", line(made.spots["thigh"].to(-n["thigh"], 0), made.spots["thigh"])),
        Span("knee", line(made.spots["knee in"], made.spots["knee"])),
        Span("calf", line(made.spots["calf in"], made.spots["calf"])),
        Span("leg", line(made.inseam[-1], made.side[-1]), -1),
        Span("inside", made.inseam, 1).turned(),
        Span("outside", made.side, 1.4).turned(),
        Span("waistband", line(top, (top.x, top.y + n["waistband"])), 1),
        Span("fly", line((0, made.band), (0, made.band + n["fly"])), -1),
        Span("front pocket", pocket, 0.9),
        Span("hem", line(made.side[-1].to(0, -n["hem"]), made.side[-1]), 1),
    )


def _back_spans(n: Numbers, made: Legs) -> tuple[Span, ...]:
    middle, top, wide = n["waist"] / 2 * 0.54, made.side[0].y + n["waistband"] + 7, n["back pocket"] / 2
    loop = made.waist[0].toward(made.waist[-1], 0.36)
    return (
        Span("back pocket", line((middle - wide, top + 1.2), (middle + wide, top + 1.2)), -0.8),
        Span("loop", line((loop.x - n["loop"] / 2, loop.y - 0.4), (loop.x + n["loop"] / 2, loop.y - 0.4)), 0.6),
    )


def gusset(n: Numbers) -> View:
    """The gusset, a long diamond, by itself."""
    half, wide = n["gusset"] / 2, n["gusset"] * math.tan(math.radians(22)) / 2
    shape = line((-half, 0), (0, -wide), (half, 0), (0, wide), (-half, 0))
    span = Span("gusset", line((-half, 0), (half, 0)))
    return View("gusset, laid flat", (one("cloth", shape), one("outline", shape)), (span,), zoom=2)


def _rises(n: Numbers) -> View:
    """The seam from the front's waist through the crotch to the back's, as it runs seen from the side.

    A half circle with straight arms; the crotch lies where the back's waist stands the usual bit above the front's.
    """
    front, behind = n["front rise"], n["back rise"]
    radius = max(min(n["hip"] * _THICK, front / math.pi, behind / math.pi), 0.05)
    turn = (_BACK_HIGHER + front - behind + radius * math.pi) / (2 * radius)
    turn = min(max(turn, 0.3), math.pi - 0.3)
    fore = _arm(radius, turn, front - radius * turn, -1)
    back = _arm(radius, math.pi - turn, behind - radius * (math.pi - turn), 1)
    waist = (fore[0], back[0])
    crotch = fore[-1]
    mark = line((crotch.x, crotch.y), (crotch.x, crotch.y + 2))
    return View(
        "rises, from the side",
        (one("outline", fore + back[::-1]), one("fold", waist), one("seam", mark)),
        (Span("front rise", fore, -1.2), Span("back rise", back, 1.2)),
    )


def _arm(radius: float, turn: float, straight: float, side: int) -> tuple[Point, ...]:
    """From the waist down one arm and around the circle, whose center is zero, to the crotch."""
    bend = [Point(side * radius * math.cos(turn * i / 24), radius * math.sin(turn * i / 24)) for i in range(25)]
    return (Point(side * radius, -max(straight, 0)), *bend)
