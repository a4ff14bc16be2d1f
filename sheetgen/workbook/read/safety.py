"""Is this file safe to open at all? One pass over all its parts before any library sees it; else one sentence, status 3.

What the pass has read on its way is kept for the reader, so that nothing is read twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.model.pictures import width_and_height
from sheetgen.workbook.read.drawings import digester, drawings_in, old_shapes_in
from sheetgen.workbook.read.hardened import CHILD, BrokenError, UnsafeError, attribute, odd, parse
from sheetgen.workbook.read.loaded import Drawing
from sheetgen.workbook.read.package import Package, checked, open_package, unusable
from sheetgen.workbook.read.scanning import Scanned, scan
from sheetgen.workbook.read.styles import Styles, styles_in

MOST_SHEETS = 500
MOST_NAMES = 30_000
MOST_DRAWN = 2_000
NAMES = frozenset({"definedNames"})
"""The element of the workbook's own part that the pass reads whole."""


@dataclass
class Pass:
    """What one hardened pass over a package found."""

    package: Package
    titles: dict[str, str] = field(default_factory=dict)
    """Sheets: title -> the part that holds it."""
    names: dict[str, str] = field(default_factory=dict)
    sheets: dict[str, Scanned] = field(default_factory=dict)
    """By part."""
    styles: Styles = field(default_factory=Styles)
    cuts: list[tuple[int, int]] = field(default_factory=list)
    """Where in the workbook's own part the names stand: openpyxl need not read them again."""

    def sheet(self, title: str) -> Scanned:
        """What was found on a sheet; nothing for one that has no part."""
        return self.sheets.get(self.titles.get(title, ""), Scanned())

    def has_mark(self, mark: str) -> bool:
        """Whether these words stand in any cell."""
        wanted = mark.encode()
        cells = (name for name in self.package.parts if name.endswith("sharedStrings.xml") or name in self.sheets)
        return any(wanted in self.package.parts[name] for name in cells)

    def stored(self, kind: str, text: str) -> Any:
        """What a formula shows, from the type and the text that are stored for it; None if nothing is."""
        if text == "":
            return None
        if kind in {"str", "e"}:
            return text
        if kind == "b":
            return text in {"1", "true"}
        if kind == "s":
            return None  # a formula's text stands with it, never in the list of shared ones
        try:
            return float(text) if any(sign in text for sign in ".eE") else int(text)
        except ValueError:
            return text

    def links(self, title: str) -> tuple[tuple[tuple[int, int], str], ...]:
        """Where the links of a sheet lead."""
        relations = self.package.relations(self.titles.get(title, ""))
        found = []
        for at, location, relation in self.sheet(title).links:
            one = relations.get(relation)
            outside = one.target if one else ""
            found.append((at, f"{outside}#{location}" if outside and location else outside or location))
        return tuple(found)

    def drawings(self, title: str) -> tuple[Drawing, ...]:
        """All that lies over the cells of a sheet."""
        part = self.titles.get(title, "")
        relations = self.package.relations(part)
        found: list[Drawing] = []
        for sort, relation in self.sheet(title).drawings:
            target = relations[relation].target if relation in relations else ""
            if target not in self.package.parts:
                continue
            if sort == "drawing":
                found.extend(drawings_in(self.package, target, self._digest))
            else:
                found.extend(old_shapes_in(self.package.parts[target]))
        if len(found) > MOST_DRAWN:
            raise unusable(self.package.path, str(odd()))
        return tuple(found)

    @cached_property
    def _digest(self) -> Any:
        return digester(self.package)

    @cached_property
    def _media(self) -> Mapping[str, str]:
        return {self._digest(name): name for name in self.package.parts if name.startswith("xl/media/")}

    def picture(self, digest: str) -> bytes | None:
        """A picture by its digest; None if it is none that can be opened."""
        part = self._media.get(digest)
        if part is None:
            return None
        data = self.package.parts[part]
        try:
            width_and_height(part, data)
        except UserError:
            return None
        return data


def passed(path: Path) -> Pass:
    """One pass over a file. UserError (status 3) with one sentence if it cannot or must not be opened."""
    package = open_package(path)
    found = Pass(package)
    try:
        _workbook(found)
        for part in dict.fromkeys(found.titles.values()):
            if part in package.parts:
                found.sheets[part] = scan(package.parts[part])
        found.styles = styles_in(
            _part_of(package, "styles", "xl/styles.xml"), _part_of(package, "theme", "xl/theme/theme1.xml")
        )
    except UnsafeError as error:
        raise unusable(path, str(error)) from None
    except BrokenError:
        raise unusable(path, say("is damaged; ask for it to be sent again")) from None
    checked(package, frozenset(found.sheets))
    return found


def first_look(path: Path) -> Pass:
    """The sheets and names of a workbook, and nothing of what stands in it. UserError (status 3) for what cannot be opened."""
    found = Pass(open_package(path))
    try:
        _workbook(found)
    except (UnsafeError, BrokenError) as error:
        raise unusable(path, str(error)) from None
    return found


def _part_of(package: Package, sort: str, otherwise: str) -> bytes:
    target = next((one.target for one in package.relations(package.workbook).values() if one.sort == sort), otherwise)
    return package.parts.get(target) or package.parts.get(otherwise, b"")


def _workbook(found: Pass) -> None:
    """The sheets and names that the workbook's own part lists."""
    package = found.package
    relations = package.relations(package.workbook)
    name, words, depth, are_names = "", [""], 0, False

    def start(element: str, attributes: Mapping[str, str]) -> None:
        nonlocal name, depth, are_names
        depth += 1
        if element == "sheet":
            relation = relations.get(attribute(attributes, "id"))
            found.titles[attributes.get("name", "")] = relation.target if relation else ""
        elif depth == CHILD:
            are_names = element in NAMES
        elif element == "definedName" and are_names:  # extensions have names of their own, called the same
            name = attributes.get("name", "") if "localSheetId" not in attributes else ""
            words.clear()
        if len(found.titles) > MOST_SHEETS or len(found.names) > MOST_NAMES:
            raise odd()

    def end(element: str) -> None:
        nonlocal name, depth
        depth -= 1
        if element == "definedName" and name:
            found.names[name] = "".join(words)
            name = ""

    content = package.parts.get(package.workbook, b"")
    found.cuts = parse(content, start, end, words.append, NAMES)
