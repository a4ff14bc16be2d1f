"""Small pieces: collars, cuffs, waistbands, facings and pockets, in shares of their boxes.

A band is drawn lying, its length from left to right; `outlines` stands it up where its box is longer than wide.
"""

from __future__ import annotations

from sheetgen.drawing.shapes import Path, Point, both, curve, line
from sheetgen.nesting.shares import STEPS, Drawn, Shares


def rectangle(_: Shares) -> Path:
    """A rectangle."""
    return line((0, 0), (1, 0), (1, 1), (0, 1))


def cuff(_: Shares) -> Path:
    """A buttoned cuff with two rounded corners; a ribbed one is a rectangle."""
    return both(
        (
            *line((0, 0), (0.5, 0)),
            *curve(Point(0.5, 0.8), Point(0.5, 0.95), Point(0.48, 1), Point(0.44, 1), 3),
            Point(0, 1),
        )
    )


def collar(_: Shares) -> Path:
    """A collar leaf: its points above at both ends, the seam to the stand below, shorter and slightly hollow."""
    fall = curve(Point(0, 0.06), Point(0.25, 0.06), Point(0.4, 0.04), Point(0.5, 0), STEPS // 2)
    seam = curve(Point(0.455, 1), Point(0.35, 0.95), Point(0.2, 0.92), Point(0, 0.92), STEPS // 2)
    return both(fall + seam)


def collar_stand(_: Shares) -> Path:
    """A collar stand: rounded at both ends, which bend up a little."""
    upper = curve(Point(0, 0.2), Point(0.22, 0.2), Point(0.36, 0.12), Point(0.44, 0.02), STEPS // 2)
    end = curve(Point(0.46, 0), Point(0.49, 0.02), Point(0.5, 0.3), Point(0.5, 0.66), STEPS // 2)
    lower = curve(Point(0.5, 0.76), Point(0.36, 0.92), Point(0.2, 1), Point(0, 1), STEPS // 2)
    return both(upper + end + lower)


def curved_waistband(_: Shares) -> Path:
    """A waistband shaped to the body: both edges bend, the upper one shorter."""
    upper = curve(Point(0, 0.34), Point(0.18, 0.34), Point(0.34, 0.2), Point(0.482, 0), STEPS)
    lower = curve(Point(0.5, 0.6), Point(0.35, 0.84), Point(0.18, 1), Point(0, 1), STEPS)
    return both(upper + lower)


def front_facing(s: Shares) -> Path:
    """The facing of an open front: straight edge on the left, wider above, where it takes the neck and the shoulder."""
    drop = s.along("neck drop", 0.12, 0.01, 0.4)
    neck = 0.58
    return (
        *curve(Point(0, drop), Point(neck * 0.65, drop), Point(neck, drop * 0.42), Point(neck, 0), STEPS),
        *line((0.97, 0.008), (1, 0.06)),
        *curve(Point(1, 0.06), Point(1, drop + 0.1), Point(0.66, drop + 0.14), Point(0.6, drop + 0.32), STEPS)[1:],
        *line((0.56, 1), (0, 1)),
    )


def neck_facing(_: Shares) -> Path:
    """A shaped facing of a round neck: a band that follows the neck seam up to both shoulders."""
    inner = curve(Point(0, 0.52), Point(0.2, 0.52), Point(0.31, 0.3), Point(0.31, 0), STEPS)
    outer = curve(Point(0.5, 0.05), Point(0.5, 0.6), Point(0.32, 1), Point(0, 1), STEPS)
    return both(inner + outer)


def armhole_facing(_: Shares) -> Path:
    """A facing of a whole armhole, closed at the underarm: front above, shoulder midway, side seams at both ends.

    Its hollow edge, on the right, is the armhole, hollower in front.
    """
    front, back, shoulder = Point(0.34, 0.27), Point(0.42, 0.73), Point(0.52, 0.5)
    into = curve(Point(1, 0.08), Point(0.66, 0.08), Point(0.34, 0.14), front, STEPS)
    over = curve(front, Point(0.34, 0.36), Point(0.5, 0.43), shoulder, STEPS // 2)
    down = curve(shoulder, Point(0.54, 0.57), Point(0.42, 0.65), back, STEPS // 2)
    out = curve(back, Point(0.42, 0.86), Point(0.7, 0.92), Point(1, 0.92), STEPS)
    behind = curve(Point(1, 1), Point(0.5, 1), Point(0.08, 0.9), Point(0.08, 0.73), STEPS)
    across = curve(behind[-1], Point(0.08, 0.64), Point(0.18, 0.57), Point(0.18, 0.5), STEPS // 2)
    ahead = curve(across[-1], Point(0.18, 0.43), Point(0, 0.36), Point(0, 0.27), STEPS // 2)
    up = curve(ahead[-1], Point(0, 0.1), Point(0.45, 0), Point(1, 0), STEPS)
    return (*into, *over[1:], *down[1:], *out[1:], *behind, *across[1:], *ahead[1:], *up[1:])


def patch_pocket(_: Shares) -> Path:
    """A patch pocket: straight opening above, a blunt point below."""
    return both(line((0, 0), (0.5, 0), (0.5, 0.84), (0, 1)))


def kangaroo_pocket(_: Shares) -> Path:
    """A front pocket of a sweatshirt: slanted openings on both sides."""
    return both(line((0, 0), (0.32, 0), (0.34, 0.08), (0.5, 0.62), (0.5, 1), (0, 1)))


def pocket_bag(_: Shares) -> Path:
    """A pocket bag: slanted at the opening, round at its foot."""
    left = curve(Point(0, 0.74), Point(0, 0.92), Point(0.14, 1), Point(0.34, 1), STEPS // 2)
    right = curve(Point(0.66, 1), Point(0.88, 1), Point(1, 0.92), Point(1, 0.74), STEPS // 2)
    return (*left, *right, *line((1, 0.26), (0.74, 0), (0, 0)))


def pocket_flap(_: Shares) -> Path:
    """A pocket flap with a blunt point below."""
    return both(line((0, 0), (0.5, 0), (0.49, 0.72), (0, 1)))


SHAPES = {
    "rectangle": Drawn(rectangle),
    "cuff": Drawn(cuff, band=True),
    "collar": Drawn(collar, band=True),
    "collar stand": Drawn(collar_stand, band=True),
    "front facing": Drawn(front_facing),
    "neck facing": Drawn(neck_facing),
    "armhole facing": Drawn(armhole_facing),
    "patch pocket": Drawn(patch_pocket),
    "kangaroo pocket": Drawn(kangaroo_pocket),
    "pocket bag": Drawn(pocket_bag),
    "pocket flap": Drawn(pocket_flap),
    "waistband": Drawn(rectangle, band=True),
    "curved waistband": Drawn(curved_waistband, band=True),
}
