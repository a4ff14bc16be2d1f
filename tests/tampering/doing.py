"""What is done to a cell: another value, a formula, another look, something laid over it, its row or column hidden."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from sheetgen.declare.a1 import letters
from sheetgen.testing import dressing
from sheetgen.testing.package import Package
from tests.tampering.targets import Target

Work = Callable[[Package, Target, random.Random], bool]
"""Does it to a cell; False where this cell gives nothing to do."""


def put(change: Callable[[Target], object]) -> Work:
    def work(package: Package, target: Target, _: random.Random) -> bool:
        value = change(target)
        if value == target.value:
            return False
        package.sheet(target.cell.sheet).set(*target.cell[1:], value)  # type: ignore[arg-type]
        return True

    return work


def set_to(change: Callable[[Target], object]) -> Work:
    """A value in place of what stands there, be it the same to look at."""

    def work(package: Package, target: Target, _: random.Random) -> bool:
        package.sheet(target.cell.sheet).set(*target.cell[1:], change(target))  # type: ignore[arg-type]
        return True

    return work


def as_formula(text: Callable[[Target], str], stored: Callable[[Target], object] = lambda target: target.value) -> Work:
    def work(package: Package, target: Target, _: random.Random) -> bool:
        formula = text(target)
        if not formula or re.sub(r"\.0$", "", formula) == target.formula.removeprefix("="):
            return False
        package.sheet(target.cell.sheet).set(*target.cell[1:], None, formula, stored(target))  # type: ignore[arg-type]
        return True

    return work


def stored(change: Callable[[Target], object]) -> Work:
    """The formula left alone, another value stored under it."""

    def work(package: Package, target: Target, _: random.Random) -> bool:
        package.sheet(target.cell.sheet).set(*target.cell[1:], None, target.formula, change(target))  # type: ignore[arg-type]
        return True

    return work


def look(fits: Callable[[Target], bool] = lambda _: True, **look: object) -> Work:
    def work(package: Package, target: Target, _: random.Random) -> bool:
        if not fits(target):
            return False
        dressing.dress(package, target.cell, look)
        return True

    return work


def number_of(target: Target) -> float:
    assert isinstance(target.value, int | float)
    return target.value


def quoted(target: Target) -> str:
    return '"' + str(target.value).replace('"', '""') + '"'


def literal(target: Target) -> str:
    if isinstance(target.value, str):
        return quoted(target) if len(target.value) < 200 and "\n" not in target.value else ""
    return repr(target.value)


def moved_references(target: Target) -> str:
    """Every reference one row further down."""
    inner = target.formula.removeprefix("=")
    return re.sub(r"(?<![A-Za-z_!\"])(\$?[A-Z]{1,2}\$?)(\d+)(?![\d(])", lambda hit: f"{hit[1]}{int(hit[2]) + 1}", inner)


def swapped(package: Package, target: Target, _: random.Random) -> bool:
    """What stands in the cell and what stands below it, exchanged."""
    part, (_title, row, column) = package.sheet(target.cell.sheet), target.cell
    upper, lower = part.inner(row, column), part.inner(row + 1, column)
    full = [sum(1 for one in part.rows[at][1] if part.inner(at, one)) for at in (row, row + 1) if at in part.rows]
    if not lower or upper == lower or "<f>" in upper + lower or max(full) < 2:
        return False  # two lines of one cell each that change places are lines that were moved
    first, second = part.rows[row][1][column], part.rows[row + 1][1][column]
    at, below = f'r="{letters(column)}{row}"', f'r="{letters(column)}{row + 1}"'
    part.rows[row][1][column] = second.replace(below, at, 1)
    part.rows[row + 1][1][column] = first.replace(at, below, 1)
    return True


def swapped_refs(package: Package, target: Target, chance: random.Random) -> bool:
    """Where both rows are the brand's and hold something: of two spare ones nobody can tell which is which."""
    if target.kind != "designer":
        return False
    rows = package.sheet(target.cell.sheet).rows
    lines = (rows.get(row, ("", {}))[1] for row in (target.cell.row, target.cell.row + 1))
    typed = [
        any(
            "<f>" not in cell and ("<v>" in cell or "<is>" in cell)
            for at, cell in line.items()
            if at > target.cell.column
        )
        for line in lines
    ]
    return all(typed) and swapped(package, target, chance)


def hidden_row(package: Package, target: Target, _: random.Random) -> bool:
    part, row = package.sheet(target.cell.sheet), target.cell.row
    attributes, cells = part.rows[row]
    part.rows[row] = (f'{attributes} hidden="1"', cells)
    return "hidden" not in attributes


def flat_row(package: Package, target: Target, _: random.Random) -> bool:
    part, row = package.sheet(target.cell.sheet), target.cell.row
    attributes, cells = part.rows[row]
    part.rows[row] = (re.sub(r' (ht|customHeight)="[^"]*"', "", attributes) + ' ht="0" customHeight="1"', cells)
    return True


def narrow_column(package: Package, target: Target, _: random.Random) -> bool:
    part, column = package.sheet(target.cell.sheet), target.cell.column
    found = re.search(rf'<col min="{column}" max="{column}"[^>]*/>', part.head)
    if found is None:
        return False
    part.head = part.head.replace(found.group(), re.sub(r' width="[^"]*"', ' width="0"', found.group()), 1)
    return True


def hidden_column(package: Package, target: Target, _: random.Random) -> bool:
    part, column = package.sheet(target.cell.sheet), target.cell.column
    found = re.search(rf'<col min="{column}" max="{column}"[^>]*/>', part.head)
    if found is None or "hidden" in found.group():
        return False
    part.head = part.head.replace(found.group(), found.group().replace("/>", ' hidden="1"/>'), 1)
    return True


def beside(words: str, formula: str = "") -> Work:
    """Something in the first free cell to the right of all that the sheet holds in that row."""

    def work(package: Package, target: Target, _: random.Random) -> bool:
        part = package.sheet(target.cell.sheet)
        last = max((column for column in part.rows.get(target.cell.row, ("", {}))[1]), default=1)
        stored = 1.0 if formula else None
        part.set(target.cell.row, last + 2, None if formula else words, formula, stored)
        return True

    return work


def message(package: Package, target: Target, _: random.Random) -> bool:
    try:
        dressing.message(package, target.cell, "Take what you like")
    except KeyError:
        return False
    return True


def choices(package: Package, target: Target, _: random.Random) -> bool:
    """Other choices in the list of this cell alone."""
    part = package.sheet(target.cell.sheet)
    for match in re.finditer(r"<dataValidation [^>]*type=\"list\"[^>]*>.*?</dataValidation>", part.tail, re.DOTALL):
        area = re.search(r'sqref="([^"]*)"', match.group())
        if area and re.split(r"[: ]", area.group(1))[0] == target.cell.address and '"' in match.group():
            changed = re.sub(
                r"<formula1>.*?</formula1>", '<formula1>"yes,no,perhaps"</formula1>', match.group(), flags=re.DOTALL
            )
            part.tail = part.tail.replace(match.group(), changed, 1)
            return True
    return False


def overlay(package: Package, target: Target, _: random.Random) -> bool:
    dressing.text_box(package, target.cell, "9.9")
    return True


def link(package: Package, target: Target, _: random.Random) -> bool:
    dressing.link(package, target.cell, "https://example.org/elsewhere")
    return True


def mark(number_format: str) -> Work:
    def work(package: Package, target: Target, _: random.Random) -> bool:
        dressing.mark(package, target.cell, "TRUE", {"number_format": number_format})
        return True

    return work


def one_letter(target: Target) -> str:
    text = str(target.value)
    place = next((at for at, letter in enumerate(text) if letter.isalpha()), 0)
    return text[:place] + ("e" if text[place : place + 1] != "e" else "a") + text[place + 1 :]


def whole(target: Target) -> bool:
    return abs(number_of(target) - round(number_of(target))) < 1e-9


def placeholder(package: Package, target: Target, chance: random.Random) -> bool:
    """Not where anything may be said: a remark is no answer that somebody waits for."""
    return target.kind != "text" and put(lambda _: "tbc")(package, target, chance)


def below_nought(package: Package, target: Target, chance: random.Random) -> bool:
    """Not where figures below 0 are usual: coordinates of a color."""
    return target.kind != "number" and put(lambda one: -abs(number_of(one)) - 5000)(package, target, chance)


def comma(target: Target) -> object:
    return f"{number_of(target):.2f}".replace(".", ",")
