"""Edits a file as a person with a spreadsheet program would: types, clears, overwrites formulas, spoils sheets.

The demonstration and the rules' examples use it. Places are names, never addresses; afterwards all formulas are
calculated again and their values stored, as a spreadsheet program does on saving.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import formualizer

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Book
from sheetgen.errors import UserError
from sheetgen.testing.actions import ACTIONS, AFTER, Desk, Edit
from sheetgen.testing.package import Package
from sheetgen.workbook.exchange.toml import read_toml
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned

__all__ = ["Edit", "PlantedFault", "edited", "edited_bytes", "load_faults", "typed_in"]


@dataclass(frozen=True)
class PlantedFault:
    """A fault to plant in a vendor's return: in words, as an edit, and the findings (rule and place) it leads to."""

    says: str
    edit: Edit
    finds: tuple[str, ...]


def edited(book: Book, source: Path, edits: Sequence[Edit], target: Path) -> None:
    """Copy `source` to `target` with the edits made and all values calculated again; KeyError on an unknown place."""
    target.write_bytes(edited_bytes(read(book, source), source.read_bytes(), edits))


def edited_bytes(got: Returned, data: bytes, edits: Sequence[Edit]) -> bytes:
    """The same for a file that was read already: `got` is what was found in `data`."""
    desk = Desk(got, Package(data))
    now = [edit for edit in edits if edit.action not in AFTER]
    for edit in now:
        ACTIONS[edit.action](desk, edit)
    finished = bytes(formualizer.recalculate_xlsx_bytes(desk.package.data())["bytes"])
    after = [edit for edit in edits if edit.action in AFTER]
    if after:
        desk = Desk(got, Package(finished))
        for edit in after:
            ACTIONS[edit.action](desk, edit)
        finished = desk.package.data()
    return finished


def typed_in(book: Book, source: Path, values: Mapping[Place, Value], target: Path) -> None:
    """Copy `source` to `target` with these values typed in and everything calculated again."""
    edited(book, source, [Edit(str(place), "type", value) for place, value in values.items()], target)


def load_faults(path: Path) -> list[PlantedFault]:
    """The planted faults of a file; UserError that names the fault and the word if one is not understood."""
    listed = read_toml(path).get("faults", [])
    if not isinstance(listed, list):
        raise UserError(f"{path}: faults are a list; begin each with [[faults]].")
    return [_fault(path, number, item) for number, item in enumerate(listed, 1)]


def _fault(path: Path, number: int, item: dict[str, Any]) -> PlantedFault:
    unknown = sorted(set(item) - {"says", "place", "action", "value", "finds"})
    action = item.get("action", "type")
    wrong = [
        *(f"unknown key {key}" for key in unknown),
        *(f"no {key}" for key in ("says", "place", "finds") if key not in item),
        *([f"unknown action {action}"] if action not in ACTIONS else []),
    ]
    if wrong:
        raise UserError(f"{path}: fault {number}: {'; '.join(wrong)}; correct it in the file.")
    return PlantedFault(item["says"], Edit(item["place"], action, item.get("value")), tuple(item["finds"]))
