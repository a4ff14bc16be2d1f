"""Styles: how the cells of a file are written out and drawn, and how conditional formats change that."""

from __future__ import annotations

import colorsys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sheetgen.workbook.model.written import Style
from sheetgen.workbook.read.hardened import BrokenError, odd, parse

_MOST_STYLES = 66_000
"""More than the file format allows (64,000 formats of cells)."""
_BUILT_IN = {
    0: "General", 1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00", 12: "# ?/?",
    13: "# ??/??", 14: "mm-dd-yy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm AM/PM", 19: "h:mm:ss AM/PM",
    20: "h:mm", 21: "h:mm:ss", 22: "m/d/yy h:mm", 37: "#,##0 ;(#,##0)", 38: "#,##0 ;[Red](#,##0)",
    39: "#,##0.00;(#,##0.00)", 40: "#,##0.00;[Red](#,##0.00)", 45: "mm:ss", 46: "[h]:mm:ss", 47: "mmss.0",
    48: "##0.0E+0", 49: "@",
}  # fmt: skip
"""Number formats that files name by their number (ECMA-376 part 1, 18.8.30)."""
_INDEXED = (
    "000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF 000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF "
    "800000 008000 000080 808000 800080 008080 C0C0C0 808080 9999FF 993366 FFFFCC CCFFFF 660066 FF8080 0066CC CCCCFF "
    "000080 FF00FF FFFF00 00FFFF 800080 800000 008080 0000FF 00CCFF CCFFFF CCFFCC FFFF99 99CCFF FF99CC CC99FF FFCC99 "
    "3366FF 33CCCC 99CC00 FFCC00 FF9900 FF6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333"
).split()
"""The palette that files name by numbers (ECMA-376 part 1, 18.8.27)."""
_THEME = ("FFFFFF", "000000", "E7E6E6", "44546A", "4472C4", "ED7D31", "A5A5A5", "FFC000", "5B9BD5", "70AD47")
"""A theme's first ten colors where the file brings none of its own."""
_LISTS = frozenset({"fonts", "fills", "cellXfs", "dxfs", "numFmts"})


@dataclass
class _Font:
    ink: str = ""
    struck: bool = False
    points: float = 11.0


@dataclass
class Styles:
    """Looks of cells and of conditional formats, by their numbers."""

    cells: Sequence[Style] = (Style(),)
    marks: Sequence[Style] = ()


@dataclass
class _Pass:
    theme: Sequence[str]
    codes: dict[int, str] = field(default_factory=dict)
    fonts: list[_Font] = field(default_factory=list)
    fills: list[str] = field(default_factory=list)
    forms: list[dict[str, Any]] = field(default_factory=list)
    marks: list[dict[str, Any]] = field(default_factory=list)
    inside: list[str] = field(default_factory=list)
    mark: dict[str, Any] | None = None

    def start(self, name: str, attributes: Mapping[str, str]) -> None:
        if name in _LISTS:
            self.inside.append(name)
        elif name == "dxf":
            self.mark = {"ink": "", "fill": "", "struck": False, "code": "General"}
            self.marks.append(self.mark)
        elif name == "numFmt":
            self._number_format(attributes)
        elif name == "font" and self.mark is None:
            self.fonts.append(_Font())
        elif name == "fill" and self.mark is None:
            self.fills.append("")
        elif name == "xf" and self.inside[-1:] == ["cellXfs"]:
            self.forms.append({**attributes, "locked": True})
        elif name == "protection" and self.inside[-1:] == ["cellXfs"] and self.forms:
            self.forms[-1]["locked"] = attributes.get("locked", "1") not in {"0", "false"}
        else:
            self._property(name, attributes)
        if max(len(self.forms), len(self.fonts), len(self.fills), len(self.marks), len(self.codes)) > _MOST_STYLES:
            raise odd()

    def end(self, name: str) -> None:
        if name in _LISTS and self.inside:
            self.inside.pop()
        elif name == "dxf":
            self.mark = None

    def _number_format(self, attributes: Mapping[str, str]) -> None:
        if self.mark is not None:
            self.mark["code"] = attributes.get("formatCode", "General")
        elif attributes.get("numFmtId", "").isdigit():
            self.codes[int(attributes["numFmtId"])] = attributes.get("formatCode", "General")

    def _property(self, name: str, attributes: Mapping[str, str]) -> None:
        font = self.fonts[-1] if self.fonts and self.inside[-1:] == ["fonts"] else None
        if name == "color":
            if self.mark is not None:
                self.mark["ink"] = self._color(attributes)
            elif font:
                font.ink = self._color(attributes)
        elif name == "strike":
            struck = attributes.get("val", "1") not in {"0", "false"}
            if self.mark is not None:
                self.mark["struck"] = struck
            elif font:
                font.struck = struck
        elif name == "sz" and font:
            font.points = _decimal(attributes.get("val", ""), 11.0)
        elif name in {"fgColor", "bgColor"}:
            self._fill(name, attributes)
        elif name == "patternFill" and self.mark is None and self.fills:
            self.fills[-1] = "" if attributes.get("patternType", "none") != "solid" else "solid"

    def _fill(self, name: str, attributes: Mapping[str, str]) -> None:
        if self.mark is not None:
            if name == "bgColor" or not self.mark["fill"]:
                self.mark["fill"] = self._color(attributes)
        elif name == "fgColor" and self.fills and self.fills[-1] == "solid":
            self.fills[-1] = self._color(attributes)

    def _color(self, attributes: Mapping[str, str]) -> str:
        if "rgb" in attributes:
            return attributes["rgb"][-6:].upper()
        if attributes.get("indexed", "").isdigit():
            number = int(attributes["indexed"])
            return _INDEXED[number] if number < len(_INDEXED) else ""
        if attributes.get("theme", "").isdigit():
            number = int(attributes["theme"])
            color = self.theme[number] if number < len(self.theme) else ""
            return _tinted(color, _decimal(attributes.get("tint", ""), 0.0)) if color else ""
        return ""

    def styles(self) -> Styles:
        return Styles(
            tuple(map(self._style, self.forms)) or (Style(),),
            tuple(Style(one["code"], True, one["ink"], one["fill"], one["struck"]) for one in self.marks),
        )

    def _style(self, form: Mapping[str, Any]) -> Style:
        code, font, fill = (_whole(form.get(name, "0")) for name in ("numFmtId", "fontId", "fillId"))
        letters = self.fonts[font] if font < len(self.fonts) else _Font()
        ground = self.fills[fill] if fill < len(self.fills) else ""
        shown = self.codes.get(code, _BUILT_IN.get(code, "General"))
        return Style(
            shown,
            bool(form["locked"]),
            letters.ink,
            "" if ground == "solid" else ground,
            letters.struck,
            letters.points,
        )


def styles_in(content: bytes, theme: bytes = b"") -> Styles:
    """The styles of a file; plain ones where they cannot be read. UnsafeError if the part must not be opened."""
    reading = _Pass(_theme_colors(theme))
    try:
        parse(content, reading.start, reading.end)
    except BrokenError:
        return Styles()
    return reading.styles()


def _theme_colors(content: bytes) -> Sequence[str]:
    """A theme's colors in the order in which cells number them: ground and ink come exchanged."""
    found: list[str] = []
    inside = False

    def start(name: str, attributes: Mapping[str, str]) -> None:
        nonlocal inside
        inside = inside or name == "clrScheme"
        if inside and name in {"srgbClr", "sysClr"}:
            found.append((attributes.get("lastClr") or attributes.get("val", ""))[-6:].upper())

    def end(name: str) -> None:
        nonlocal inside
        inside = inside and name != "clrScheme"

    try:
        if content:
            parse(content, start, end)
    except BrokenError:
        return _THEME
    if len(found) < len(_THEME):
        return _THEME
    return (found[1], found[0], found[3], found[2], *found[4:])


def _tinted(color: str, tint: float) -> str:
    """A theme's color made lighter or darker (ECMA-376 part 1, 18.3.1.15)."""
    try:
        red, green, blue = (int(color[at : at + 2], 16) / 255 for at in (0, 2, 4))
    except ValueError:
        return ""
    hue, light, saturation = colorsys.rgb_to_hls(red, green, blue)
    tint = max(-1.0, min(1.0, tint))
    light = light * (1 + tint) if tint < 0 else light * (1 - tint) + tint
    return "".join(f"{round(255 * part):02X}" for part in colorsys.hls_to_rgb(hue, light, saturation))


def _decimal(text: str, otherwise: float) -> float:
    try:
        return float(text)
    except ValueError:
        return otherwise


def _whole(text: str) -> int:
    return int(text) if text.isdigit() and len(text) < 9 else 0
