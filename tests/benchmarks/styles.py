"""Styles of any size, made from the sweatshirt of the sample inputs: more materials, points, sizes or colorways. Invented."""

from __future__ import annotations

import datetime
import json
import re
import shutil
from collections.abc import Mapping, Sequence
from copy import deepcopy
from pathlib import Path
from typing import Any

Toml = dict[str, Any]

TABLES = {"materials": ("materials", "bom", "item", "M"), "points": ("measurements", "points", "point", "P")}
"""What grows by rows: sheet, table, the entry that names a row, the letter of its ref."""
NAMES = {"sizes": ("style", "sizes"), "colorways": ("colorways", "list")}
"""What grows by columns: the table that names them."""
ANSWERED = {"materials": ("materials", "bom"), "points": ("fit", "points")}
"""Where the vendor answers for a row that was added."""
REPEATED = {"materials": slice(2, None), "points": slice(0, None)}
"""The rows that are repeated: trims and packing, for a style has few main fabrics; all points."""
_DIPS = ("colorways", "dips")


def grown(brief: Toml, answers: Toml, axis: str, count: int) -> tuple[Toml, Toml]:
    """The style with so many materials, points, sizes or colorways, and the vendor's answers to it."""
    brief, answers = deepcopy(brief), deepcopy(answers)
    if axis in TABLES:
        _with_rows(brief, answers, axis, count)
        return brief, answers
    sheet, table = NAMES[axis]
    rows: list[Toml] = brief[sheet][table]
    old = [str(row["name"]) for row in rows]
    new = _names(old, count)
    brief[sheet][table] = [{**rows[number % len(rows)], "name": name} for number, name in enumerate(new)]
    for row in brief[sheet][table][len(old) :]:
        row.pop("code", None)
    brief, answers = _renamed(brief, old, new), _renamed(answers, old, new)
    if axis == "colorways":
        dips = brief[_DIPS[0]][_DIPS[1]]
        kept = [number for number, row in enumerate(dips) if row["colorway"] in new]
        brief[_DIPS[0]][_DIPS[1]] = [dips[number] for number in kept]
        _renumber_dips(answers, kept)
    return brief, answers


def renumbered(brief: Toml, number: int) -> Toml:
    """The same style under another number, with colorways of other names: in a season no two are alike."""
    brief = deepcopy(brief)
    brief["style"].update(number=f"HV-27A-SW-{number:03}", name=f"Slack Tide {number}")
    sheet, table = NAMES["colorways"]
    old = [str(row["name"]) for row in brief[sheet][table]]
    new = [f"{name} {number}" for name in old]
    brief[sheet][table] = [{**row, "name": name} for row, name in zip(brief[sheet][table], new, strict=True)]
    called = dict(zip(old, new, strict=True))
    for dip in brief[_DIPS[0]][_DIPS[1]]:
        dip["colorway"] = called[dip["colorway"]]
    return _renamed(brief, old, new)


def _with_rows(brief: Toml, answers: Toml, axis: str, count: int) -> None:
    sheet, table, name, letter = TABLES[axis]
    rows: list[Toml] = brief[sheet][table]
    models = list(range(len(rows)))[REPEATED[axis]]
    answered = {str(row["row"]): row for row in answers[ANSWERED[axis][0]][ANSWERED[axis][1]]}
    for number in range(len(rows) + 1, count + 1):
        model = models[number % len(models)]
        rows.append({**rows[model], name: f"{rows[model][name]} {number}"})
        if f"{letter}{model + 1}" in answered:
            answered[f"{letter}{number}"] = {**answered[f"{letter}{model + 1}"], "row": f"{letter}{number}"}
    answers[ANSWERED[axis][0]][ANSWERED[axis][1]] = list(answered.values())


def _names(old: Sequence[str], count: int) -> list[str]:
    return [*old[:count], *(f"{old[number % len(old)]} {number + 1}" for number in range(len(old), count))]


def _renamed(value: Any, old: Sequence[str], new: Sequence[str]) -> Any:
    """The same with what is told for each old name told for each new one, and rows of old names so too."""
    if isinstance(value, list):
        rows = [_renamed(one, old, new) for one in value]
        if any(isinstance(row, Mapping) and row.get("row") in old for row in rows):
            rows = [{**_row_of(rows, old[new.index(name) % len(old)]), "row": name} for name in new]
        return rows
    if not isinstance(value, dict):
        return value
    if value and set(value) <= set(old):
        return {
            name: value[old[number % len(old)]] for number, name in enumerate(new) if old[number % len(old)] in value
        }
    return {key: _renamed(one, old, new) for key, one in value.items()}


def _row_of(rows: Sequence[Toml], name: str) -> Toml:
    return next((row for row in rows if row.get("row") == name), {})


def _renumber_dips(answers: Toml, kept: Sequence[int]) -> None:
    refs = {f"D{number + 1}": f"D{place}" for place, number in enumerate(kept, 1)}
    rows = answers.get(_DIPS[0], {}).get(_DIPS[1], [])
    if rows:
        answers[_DIPS[0]][_DIPS[1]] = [{**row, "row": refs[row["row"]]} for row in rows if row["row"] in refs]


def put_style(samples: Path, style: str, brief: Toml, folder: Path) -> Path:
    """Write a brief into a folder of its own, with the pictures that it names; returns the brief's path."""
    shutil.copytree(samples / style / "pictures", folder / "pictures", dirs_exist_ok=True)
    path = folder / "brief.toml"
    path.write_text(toml(brief), "utf-8")
    return path


def toml(data: Toml) -> str:
    """Sheets with fields and tables of rows as TOML."""
    lines: list[str] = []
    for sheet, content in data.items():
        if not isinstance(content, Mapping):
            lines.insert(0, f"{_key(sheet)} = {_value(content)}")
            continue
        lines.append(f"[{_key(sheet)}]")
        tables = {key: rows for key, rows in content.items() if _is_table(rows)}
        lines += [f"{_key(key)} = {_value(one)}" for key, one in content.items() if key not in tables]
        for key, rows in tables.items():
            for row in rows:
                lines.append(f"[[{_key(sheet)}.{_key(key)}]]")
                lines += [f"{_key(name)} = {_value(one)}" for name, one in row.items()]
    return "\n".join(lines) + "\n"


def _is_table(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(row, Mapping) for row in value)


def _key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else _value(key)


def _value(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{_key(str(key))} = {_value(one)}" for key, one in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(_value, value)) + "]"
    return str(value)
