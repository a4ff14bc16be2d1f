"""The shapes of a drawing that are seen, and nothing else that its file holds.

A drawing program leaves much in an SVG file that nobody sees: names, notes, layers put away, what lies beside the page or under
other shapes. Pixels have none of it, and lines that go along with them shall not either. Of a drawing with words, photos or
effects in it only the pixels are used.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from xml.etree import ElementTree as ET

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import fromstring

_SVG = "{http://www.w3.org/2000/svg}"
_LINK = "{http://www.w3.org/1999/xlink}href"
_LEAVES = frozenset(("path", "rect", "circle", "ellipse", "line", "polyline", "polygon"))
_GROUPS = frozenset(("svg", "g"))
_SHARED = frozenset(("clipPath", "linearGradient", "radialGradient"))
_SILENT = frozenset(("title", "desc", "metadata", "style"))
"""What draws nothing."""
_KEPT = frozenset({
    "d", "x", "y", "width", "height", "cx", "cy", "r", "rx", "ry", "x1", "y1", "x2", "y2", "points", "transform",
    "viewBox", "preserveAspectRatio", "offset", "gradientUnits", "gradientTransform", "spreadMethod", "fx", "fy",
    "clipPathUnits",
})  # fmt: skip
_LOOKS = frozenset({
    "fill", "fill-rule", "fill-opacity", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin",
    "stroke-miterlimit", "stroke-dasharray", "stroke-dashoffset", "stroke-opacity", "opacity", "clip-path",
    "clip-rule", "stop-color", "stop-opacity", "display", "visibility", "color",
})  # fmt: skip
_RULE = re.compile(r"\s*(\.[\w-]+(?:\s*,\s*\.[\w-]+)*)\s*\{([^{}]*)\}\s*")
_REMARK = re.compile(r"/\*.*?\*/", re.DOTALL)
_POINTS_TO = re.compile(r"url\(\s*[\"']?#([^\"')]+)[\"']?\s*\)")
_NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")
_CLEAR = 1 / 255
"""What is less opaque is not seen: a pixel has so many shades."""
_PIXELS = re.compile(r"\d+(?:\.\d+)?(?:px)?")
_MOST = 4_000
"""Shapes; a drawing of more is a scanned one, and pixels are enough."""
_MOST_ASKED = 24
"""Shapes that may be unseen and are asked about one by one: each time all of it is drawn."""
Draw = Callable[[str], bytes]
Seen = Callable[[str], frozenset[int]]
"""The colors, as numbers, that a drawing shows."""


class _NotOnlyShapesError(Exception):
    """Something is in the drawing that is no shape, or cannot be told."""


def shapes_seen(svg: str, draw: Draw, small: Draw, colors: Seen) -> str:
    """The drawing with its seen shapes alone, which draws the same pixels; empty where it is more than shapes.

    `small` draws it in fewer pixels: a shape that is seen there is seen, and most that are asked about are.
    """
    try:
        whole = _Cleaned.of(svg)
    except (_NotOnlyShapesError, DefusedXmlException, ET.ParseError, ValueError, RecursionError):
        return ""
    asked = draw(svg)
    unseen = _hidden(whole, colors)
    found = _written(whole.root, unseen)
    if draw(found) == asked:
        return found
    if len(unseen) > _MOST_ASKED:
        return ""
    asked_small = small(svg)
    without = {one: _written(whole.root, frozenset((one,))) for one in unseen}
    unseen = frozenset(one for one, rest in without.items() if small(rest) == asked_small and draw(rest) == asked)
    found = _written(whole.root, unseen)
    return found if draw(found) == asked else ""


@dataclass
class _Cleaned:
    """A drawing of which only shapes, and how they look, are taken over."""

    root: ET.Element
    rules: Mapping[str, Mapping[str, str]]
    leaves: list[ET.Element] = field(default_factory=list)

    @classmethod
    def of(cls, svg: str) -> _Cleaned:
        parsed = fromstring(svg)
        if parsed.tag != f"{_SVG}svg":
            raise _NotOnlyShapesError
        made = cls(ET.Element("svg"), _rules(parsed))
        made.root = made._taken(parsed, shared=False)
        made.root.attrib = {"xmlns": "http://www.w3.org/2000/svg", **_page(made.root.attrib)}
        if len(made.leaves) > _MOST:
            raise _NotOnlyShapesError
        return made

    def _taken(self, element: ET.Element, *, shared: bool) -> ET.Element:
        tag = element.tag.removeprefix(_SVG)
        taken = ET.Element(tag, self._attributes(element))
        if tag in _SHARED and element.get("id"):
            taken.set("id", element.get("id", ""))
        if tag in _LEAVES and not shared:
            self.leaves.append(taken)
            return taken
        for inner in element:
            self._take_inner(taken, inner, shared=shared or tag in _SHARED)
        return taken

    def _take_inner(self, into: ET.Element, inner: ET.Element, *, shared: bool) -> None:
        if not isinstance(inner.tag, str) or not inner.tag.startswith(_SVG):
            return  # a remark, or another program's own
        tag = inner.tag.removeprefix(_SVG)
        if tag in _SILENT:
            return
        if tag == "defs":
            for one in inner:
                if isinstance(one.tag, str) and one.tag.removeprefix(_SVG) in _SHARED:
                    into.append(self._taken(one, shared=True))
            return
        if tag not in _LEAVES | _GROUPS | _SHARED and not (tag == "stop" and shared):
            raise _NotOnlyShapesError
        into.append(self._taken(inner, shared=shared))

    def _attributes(self, element: ET.Element) -> dict[str, str]:
        looks = {name: value for name, value in element.attrib.items() if name in _LOOKS}
        for word in element.get("class", "").split():
            looks |= self.rules.get(word, {})
        looks |= _declared(element.get("style", ""))
        found = {name: value for name, value in element.attrib.items() if name in _KEPT} | looks
        link = element.get("href") or element.get(_LINK)
        if link and element.tag.removeprefix(_SVG) in _SHARED:
            found["href"] = link
        return found


def _page(said: Mapping[str, str]) -> dict[str, str]:
    """What is said of the page: its box in the drawing's plane, never how large it is printed."""
    width, height = said.get("width", ""), said.get("height", "")
    if "viewBox" not in said and not (_PIXELS.fullmatch(width) and _PIXELS.fullmatch(height)):
        raise _NotOnlyShapesError
    box = said.get("viewBox") or f"0 0 {width.removesuffix('px')} {height.removesuffix('px')}"
    return {**{name: value for name, value in said.items() if name not in {"width", "height"}}, "viewBox": box}


def _rules(root: ET.Element) -> dict[str, dict[str, str]]:
    """How each class looks, where that is said in the plainest way."""
    found: dict[str, dict[str, str]] = {}
    for style in root.iter(f"{_SVG}style"):
        text = _REMARK.sub("", style.text or "")
        if _RULE.sub("", text).strip():
            raise _NotOnlyShapesError
        for names, said in _RULE.findall(text):
            for name in names.split(","):
                found.setdefault(name.strip()[1:], {}).update(_declared(said))
    return found


def _declared(style: str) -> dict[str, str]:
    """What is said of the looks in a style."""
    pairs = (one.partition(":") for one in style.split(";"))
    return {name.strip(): value.strip() for name, _, value in pairs if name.strip() in _LOOKS}


def _hidden(whole: _Cleaned, colors: Seen) -> frozenset[int]:
    """Shapes of which no pixel is seen where each has a color of its own and hides what is below it."""
    told = {id(leaf): number for number, leaf in enumerate(whole.leaves, 1)}
    clear = {element.get("id") for element in whole.root.iter() if any(one.get("stop-opacity") for one in element)}
    sheer: dict[int, float] = {}
    there = colors(_written(_in_colors(whole.root, told, clear, _Looks(), sheer), frozenset()))
    return frozenset(told.values()) - there - {number for number, opacity in sheer.items() if opacity >= _CLEAR}


@dataclass(frozen=True)
class _Looks:
    """What a shape has from the groups around it."""

    fill: str = "black"
    stroke: str = "none"
    opacity: float = 1.0
    is_sheer: bool = False

    def inside(self, element: ET.Element, clear: set[str | None]) -> _Looks:
        fill, stroke = element.get("fill", self.fill), element.get("stroke", self.stroke)
        through = any(
            element.get(name, "1") not in {"1", "1.0"} for name in ("opacity", "fill-opacity", "stroke-opacity")
        )
        through |= any(f"url(#{name})" in fill + stroke for name in clear if name)
        said = _NUMBER.match(element.get("opacity", "1"))
        return _Looks(fill, stroke, self.opacity * float(said[0] if said else 1), self.is_sheer or through)


def _in_colors(
    element: ET.Element, told: Mapping[int, int], clear: set[str | None], looks: _Looks, sheer: dict[int, float]
) -> ET.Element:  # fmt: skip
    """The drawing with a color of its own for each shape, without those through which others are seen: these are put into
    `sheer`, with how opaque they are."""
    mine = looks.inside(element, clear)
    kept = ("opacity", "fill-opacity", "stroke-opacity", "color")
    made = ET.Element(element.tag, {name: value for name, value in element.items() if name not in kept})
    number = told.get(id(element))
    if number is not None:
        if mine.is_sheer:
            sheer[number] = mine.opacity
        color = f"#{number:06x}"
        made.set("fill", "none" if mine.fill == "none" or mine.is_sheer else color)
        made.set("stroke", "none" if mine.stroke == "none" or mine.is_sheer else color)
    if element.tag == "svg":
        made.set("shape-rendering", "crispEdges")
    made.extend(_in_colors(inner, told, clear, mine, sheer) for inner in element)
    return made


def _written(root: ET.Element, without: frozenset[int]) -> str:
    """The drawing as a file, without some of its shapes, counted as they come, and what only these use."""
    count = 0

    def copied(element: ET.Element, *, shared: bool) -> ET.Element | None:
        nonlocal count
        if element.tag in _LEAVES and not shared:
            count += 1
            if count in without:
                return None
        made = ET.Element(element.tag, dict(element.items()))
        inner = (copied(one, shared=shared or element.tag in _SHARED) for one in element)
        made.extend(one for one in inner if one is not None)
        return None if element.tag == "g" and not len(made) else made

    whole = copied(root, shared=False)
    if whole is None:
        return ""
    while _thrown_away(whole, _used(whole)):
        pass
    return ET.tostring(_renamed(whole), "unicode")


def _thrown_away(element: ET.Element, used: Collection[str]) -> bool:
    """Take out what is shared and nothing uses; whether there was any."""
    idle = [one for one in element if one.tag in _SHARED and one.get("id") not in used]
    for one in idle:
        element.remove(one)
    return any([bool(idle), *(_thrown_away(one, used) for one in element)])


def _used(root: ET.Element) -> list[str]:
    """Names of what is shared, in the order in which it is used."""
    found = (
        name
        for element in root.iter()
        for key, value in element.items()
        for name in ([value[1:]] if key == "href" else _POINTS_TO.findall(value))
    )
    return list(dict.fromkeys(found))


def _renamed(root: ET.Element) -> ET.Element:
    """The same with names of ours for what is shared: the file's may say something."""
    ours = {name: f"s{number}" for number, name in enumerate(_used(root), 1)}
    for element in root.iter():
        for key, value in element.attrib.items():
            if key == "id":
                element.set(key, ours[value])
            elif key == "href":
                element.set(key, f"#{ours[value[1:]]}")
            else:
                element.set(key, _POINTS_TO.sub(lambda to: f"url(#{ours[to[1]]})", value))
    return root
