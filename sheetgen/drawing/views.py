"""Views: what stands in a drawing before it has a scale: strokes and the lines that are measured, in centimeters."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal, NamedTuple, TypeAlias

from sheetgen.drawing.shapes import Path, Point, mirrored

Part: TypeAlias = Literal[
    "body",
    "sleeve",
    "cuff",
    "rib",
    "collar",
    "hood",
    "pocket",
    "yoke",
    "waistband",
    "button",
    "zip",
    "stitch",
    "inside",
]
"""What a stroke belongs to: a component that can have a color of its own."""


@dataclass(frozen=True)
class Stroke:
    """Paths drawn alike. `kind` is outline, cloth, seam, armhole, stitch, fold, rib or inside; see svg.STYLES."""

    kind: str
    paths: tuple[Path, ...]
    part: Part = "body"

    def turned(self) -> Stroke:
        """The same on the other side."""
        return replace(self, paths=tuple(mirrored(path) for path in self.paths))


@dataclass(frozen=True)
class Span:
    """A measured line: what it measures, where it runs, and in which lane beside it is drawn.

    Lane 0 is on the spot; 1, 2 ... ever farther above a path that runs right (right of one that runs down), -1, -2
    ... on its other side.
    """

    key: str
    path: Path
    lane: float = 0

    def turned(self) -> Span:
        """The same on the other side."""
        return replace(self, path=mirrored(self.path), lane=-self.lane)


class Laid(NamedTuple):
    """Half a piece of a garment by itself, as all sizes of it lie on each other: from its own axis at 0, down from 0.

    `words` say what it is; `halves` that its like on the other side may be drawn beside it.
    """

    words: str
    path: Path
    halves: bool = False


@dataclass(frozen=True)
class View:
    """One side of a garment or one detail of it, `zoom` times the scale of the drawing.

    `silhouette` is the right half's edge from the center line at the top to the center line at the bottom; `spots`
    are its named corners; `laid` are its pieces apart, where sizes are to lie on each other.
    """

    title: str
    strokes: tuple[Stroke, ...]
    spans: tuple[Span, ...] = ()
    silhouette: Path = ()
    spots: Mapping[str, Point] = field(default_factory=dict)
    zoom: float = 1
    laid: tuple[Laid, ...] = ()


def pair(kind: str, *paths: Path, part: Part = "body") -> Stroke:
    """Paths and their like on the other side."""
    return Stroke(kind, paths + tuple(mirrored(path) for path in paths), part)


def one(kind: str, *paths: Path, part: Part = "body") -> Stroke:
    """Paths as they are."""
    return Stroke(kind, paths, part)


def of(part: Part, *strokes: Stroke) -> tuple[Stroke, ...]:
    """Strokes that belong to a part."""
    return tuple(replace(stroke, part=part) for stroke in strokes)
