"""Styles of OpenDocument files: how cells are written out and drawn, in the words of the other open standard.

Number formats come as elements (ISO/IEC 26300-1, 16.29) and become format codes (ECMA-376 part 1, 18.8.31).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from sheetgen.workbook.model.written import Style
from sheetgen.workbook.read.hardened import BrokenError, odd, parse

_MOST_STYLES = 66_000
_MOST_PARENTS = 20
_DATA_STYLES = frozenset(
    {"number-style", "percentage-style", "currency-style", "date-style", "time-style", "text-style", "boolean-style"}
)
_PARTS = frozenset(
    {"number", "fraction", "scientific-number", "text", "currency-symbol", "text-content", "year", "month", "day",
     "day-of-week", "hours", "minutes", "seconds", "am-pm", "era", "quarter", "week-of-year", "boolean"}
)  # fmt: skip
_CONDITION = re.compile(r"value\(\)\s*(<=|>=|!=|<|>|=)\s*(-?[\d.]+)\Z")


@dataclass
class DataStyle:
    """A number format: its code as far as it is read, and the formats that take its place under conditions."""

    code: str = ""
    maps: list[tuple[str, str]] = field(default_factory=list)


@dataclass
class NamedStyle:
    """A style by its name: what it sets, and where it takes the rest from."""

    family: str
    parent: str = ""
    data: str = ""
    master: str = ""
    set: dict[str, str] = field(default_factory=dict)


@dataclass
class OpenStyles:
    """All styles of a file, the automatic ones over the named ones."""

    styles: dict[tuple[str, str], NamedStyle] = field(default_factory=dict)
    data: dict[str, DataStyle] = field(default_factory=dict)
    headers: dict[str, tuple[str, str]] = field(default_factory=dict)
    numbered: dict[Style, int] = field(default_factory=lambda: {Style(points=10.0): 0})
    by_name: dict[str, int] = field(default_factory=dict)

    def read(self, content: bytes) -> None:
        """Take in the styles of one part."""
        reading = _Pass(self)
        try:
            parse(content, reading.start, reading.end, reading.text)
        except BrokenError:
            return

    def number(self, name: str) -> int:
        """A cell style's place among the looks of the file."""
        if name not in self.by_name:
            look = self.look(name)
            self.by_name[name] = self.numbered.setdefault(look, len(self.numbered))
        return self.by_name[name]

    def look(self, name: str) -> Style:
        """How a cell of that style is written out and drawn."""
        found = self.chain("table-cell", name)
        fill, ink = found.get("background-color", ""), found.get("color", "")
        if found.get("use-window-font-color") == "true":
            ink = ""
        protect = found.get("cell-protect", "protected")
        return Style(
            self.code(found.get("data", "")),
            protect not in {"none", "formula-hidden"},
            ink.removeprefix("#").upper(),
            "" if fill in {"", "transparent"} else fill.removeprefix("#").upper(),
            found.get("text-line-through-style", "none") != "none",
            _points(found.get("font-size", "")),
        )

    def chain(self, family: str, name: str) -> dict[str, str]:
        """All that a style sets, its parents' first."""
        names: list[str] = []
        while name and name not in names and len(names) < _MOST_PARENTS and (family, name) in self.styles:
            names.append(name)
            name = self.styles[family, name].parent
        found = dict(self.styles[family, ""].set) if (family, "") in self.styles else {}
        for one in reversed(names):
            style = self.styles[family, one]
            found.update(style.set)
            if style.data:
                found["data"] = style.data
        return found

    def code(self, name: str) -> str:
        """A number format's code."""
        style = self.data.get(name)
        if style is None:
            return "General"
        sections = []
        for condition, other in style.maps:
            match = _CONDITION.match(condition)
            mapped = self.data.get(other)
            if match and mapped:
                sign = "<>" if match.group(1) == "!=" else match.group(1)
                sections.append(f"[{sign}{match.group(2)}]{mapped.code}")
        return ";".join([*sections, style.code or "General"])


class _Pass:
    def __init__(self, styles: OpenStyles) -> None:
        self.styles = styles
        self.style: NamedStyle | None = None
        self.data: DataStyle | None = None
        self.master = self.region = self.keeping = ""
        self.words: list[str] = []

    def start(self, name: str, attributes: Mapping[str, str]) -> None:
        local = {key.rpartition(":")[2]: value for key, value in attributes.items()}
        if name in {"style", "default-style"}:
            self.style = NamedStyle(
                local.get("family", ""), local.get("parent-style-name", ""), local.get("data-style-name", ""),
                local.get("master-page-name", ""),
            )  # fmt: skip
            key = self.style.family, "" if name == "default-style" else local.get("name", "")
            self.styles.styles[key] = self.style
        elif name.endswith("-properties") and self.style is not None:
            self.style.set.update(local)
        elif name in _DATA_STYLES:
            self.data = DataStyle()
            self.styles.data[local.get("name", "")] = self.data
        elif name == "map" and self.data is not None:
            self.data.maps.append((local.get("condition", ""), local.get("apply-style-name", "")))
        elif name in _PARTS and self.data is not None:
            self.data.code += _part(name, local)
            self.keeping = name if name in {"text", "currency-symbol"} else ""
            self.words = []
        else:
            self._of_a_page(name, local)
        if len(self.styles.styles) + len(self.styles.data) > _MOST_STYLES:
            raise odd()

    def _of_a_page(self, name: str, local: Mapping[str, str]) -> None:
        if name == "master-page":
            self.master = local.get("name", "")
            self.styles.headers[self.master] = ("", "")
        elif self.master and name in {"header", "footer", "header-first", "footer-first", "header-left", "footer-left"}:
            self.region = "" if local.get("display") == "false" else name.partition("-")[0]
        elif self.region and name in {"page-number", "page-count", "sheet-name"}:
            self._say({"page-number": "&P", "page-count": "&N", "sheet-name": "&A"}[name])
            self.keeping = "field"
        elif self.region and name in {"p", "s", "tab", "region-left", "region-center", "region-right"}:
            self._say(" ")

    def text(self, words: str) -> None:
        if self.data is not None and self.keeping in {"text", "currency-symbol"}:
            self.words.append(words)
        elif self.region and self.keeping != "field":
            self._say(words.replace("&", "&&"))

    def _say(self, words: str) -> None:
        header, footer = self.styles.headers[self.master]
        self.styles.headers[self.master] = (
            (header + words, footer) if self.region == "header" else (header, footer + words)
        )

    def end(self, name: str) -> None:
        if name in {"style", "default-style"}:
            self.style = None
        elif self.data is not None and name == self.keeping:
            self.data.code += _quoted("".join(self.words))
            self.keeping = ""
        elif name in _DATA_STYLES:
            self.data = None
        elif name == "master-page":
            self.master = ""
        elif name in {"header", "footer", "header-first", "footer-first", "header-left", "footer-left"}:
            self.region = ""
        elif name in {"page-number", "page-count", "sheet-name"}:
            self.keeping = ""


def _quoted(text: str) -> str:
    """A literal in a code; a lone percent sign means percent."""
    if text in {"%", " ", "-", "/", ":", ".", ",", "(", ")"}:
        return text if text == "%" else f"\\{text}"
    return f'"{text}"' if text else ""


def _part(name: str, local: Mapping[str, str]) -> str:
    long = local.get("style") == "long"
    if name == "number":
        return _decimal(local)
    if name == "scientific-number":
        return _decimal(local) + "E+" + "0" * _whole(local.get("min-exponent-digits"), 2)
    if name == "fraction":
        return _fraction(local)
    if name == "month":
        textual = local.get("textual") == "true"
        return ("mmmm" if long else "mmm") if textual else "mm" if long else "m"
    plain = {
        "year": "yyyy" if long else "yy", "day": "dd" if long else "d", "day-of-week": "dddd" if long else "ddd",
        "hours": "hh" if long else "h", "minutes": "mm" if long else "m", "seconds": "ss" if long else "s",
        "am-pm": "AM/PM", "text-content": "@",
    }  # fmt: skip
    return plain.get(name, "")


def _decimal(local: Mapping[str, str]) -> str:
    if "decimal-places" not in local and local.get("grouping") != "true":
        return (
            "General"
            if _whole(local.get("min-integer-digits"), 1) <= 1
            else "0" * _whole(local.get("min-integer-digits"), 1)
        )
    places = min(_whole(local.get("decimal-places"), 0), 30)
    least = min(_whole(local.get("min-decimal-places"), places), places)
    whole = "0" * _whole(local.get("min-integer-digits"), 1) or "#"
    if local.get("grouping") == "true":
        whole = "#," + whole.rjust(3, "#")
    return whole + ("." + "0" * least + "#" * (places - least) if places else "")


def _fraction(local: Mapping[str, str]) -> str:
    above = "?" * max(1, _whole(local.get("min-numerator-digits"), 1))
    fixed = local.get("denominator-value")
    below = fixed or "?" * max(1, _whole(local.get("min-denominator-digits"), 1))
    return ("# " if "min-integer-digits" in local else "") + f"{above}/{below}"


def _whole(text: str | None, otherwise: int) -> int:
    return int(text) if text is not None and text.isdigit() and len(text) < 4 else otherwise


def _points(text: str) -> float:
    try:
        return float(text.removesuffix("pt")) if text.endswith("pt") else 10.0
    except ValueError:
        return 10.0
