"""A file that was read before, byte for byte, is not taken apart again: what was found in it is kept in the store.

Between issue and accept, and between audit and accept, nothing changes a file; reading one is half of what these take. Kept
is the plain account of a file that was let through, as JSON, never a refusal; its pictures stay in the file.
"""

from __future__ import annotations

import contextlib
import datetime
import json
import zipfile
import zlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import astuple
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import Any

from sheetgen.declare.kinds import Picture
from sheetgen.store import digest_of, found, keep
from sheetgen.workbook.model.written import Mark, Message, Style
from sheetgen.workbook.read.loaded import Area, Contents, Drawing, Held, Loaded, LoadedSheet

_KIND = "loaded"
_MEDIA = ("xl/media/", "Pictures/")
_AS_IT_IS = frozenset({str, int, float, bool, type(None)})
_WRITTEN = {datetime.datetime: "datetime", datetime.date: "date", datetime.time: "time"}
_READ: Mapping[str, Callable[[str], Any]] = {
    "datetime": datetime.datetime.fromisoformat,
    "date": datetime.date.fromisoformat,
    "time": datetime.time.fromisoformat,
}
_SECONDS = "seconds"


class _UnkeepableError(Exception):
    """A cell holds what has no plain form; its file is read each time."""


def read_before(path: Path, load: Callable[[Path], Loaded]) -> Loaded:
    """What `load` finds in a file, or found in one of the same bytes and ending. UserError (status 3) as `load` raises it."""
    known = digest_of(path)
    if not known:
        return load(path)  # which says what is wrong with it
    said = known + path.suffix.lower().encode("utf-8", "surrogatepass")
    before = found(_KIND, said)
    loaded = _from_kept(path, before) if before is not None else None
    if loaded is None:
        loaded = load(path)
        with contextlib.suppress(_UnkeepableError):
            keep(_KIND, said, partial(_to_keep, loaded))
    return loaded


def _to_keep(loaded: Loaded) -> bytes:
    data = {
        "sheets": [_sheet(sheet) for sheet in loaded.sheets.values()],
        "names": loaded.names,
        "styles": loaded.styles,
        "contents": astuple(loaded.contents),
        "missing": loaded.missing,
        "typed_only": loaded.typed_only,
    }
    return zlib.compress(json.dumps(data, separators=(",", ":")).encode(), 1)


def _from_kept(path: Path, kept: bytes) -> Loaded | None:
    """The account as it was kept; None where a picture of it cannot be found in the file."""
    data = json.loads(zlib.decompress(kept))
    pictures = _pictures_in(path) if any(sheet["pictures"] for sheet in data["sheets"]) else {}
    try:
        sheets = [_thawed(sheet, pictures) for sheet in data["sheets"]]
    except KeyError:
        return None
    return Loaded(
        {sheet.title: sheet for sheet in sheets},
        {name: Area(*area) for name, area in data["names"].items()},
        tuple(Style(*style) for style in data["styles"]),
        Contents(*data["contents"]),
        tuple(data["missing"]),
        data["typed_only"],
    )


def _pictures_in(path: Path) -> Mapping[str, bytes]:
    """A file's pictures by their digest."""
    with zipfile.ZipFile(path) as package:
        parts = (package.read(name) for name in package.namelist() if name.startswith(_MEDIA))
        return {sha256(part).hexdigest(): part for part in parts}


def _sheet(sheet: LoadedSheet) -> dict[str, Any]:
    held = list(sheet.cells.values())
    return {
        "rows": [row for row, _ in sheet.cells],
        "columns": [column for _, column in sheet.cells],
        "values": [_typed(one) for one in held],
        "formulas": [one.formula for one in held],
        "comments": _seldom([one.comment for one in held]),
        "errors": _seldom([one.is_error for one in held]),
        "shown": [_plain(one.shown) for one in held],
        "looks": [one.style for one in held],
        "settings": [sheet.title, sheet.last_row, sheet.last_column, sheet.is_visible, sheet.is_protected],
        "pictures": [[at, picture.digest] for at, picture in sheet.pictures],
        "drawings": sheet.drawings,
        "hidden": [sorted(sheet.hidden_rows), sorted(sheet.hidden_columns)],
        "words": [sheet.header, sheet.footer],
        "messages": sheet.messages,
        "marks": sheet.marks,
        "links": sheet.links,
    }


def _thawed(data: Mapping[str, Any], pictures: Mapping[str, bytes]) -> LoadedSheet:
    title, last_row, last_column, is_visible, is_protected = data["settings"]
    values = [
        formula if value is None else _value(value) if isinstance(value, dict) else value
        for value, formula in zip(data["values"], data["formulas"], strict=True)
    ]
    shown = [_value(one) if isinstance(one, dict) else one for one in data["shown"]]
    comments, errors = _each(data["comments"], len(values), None), _each(data["errors"], len(values), False)
    held = map(Held._make, zip(values, data["formulas"], comments, errors, shown, data["looks"], strict=True))
    hidden_rows, hidden_columns = data["hidden"]
    header, footer = data["words"]
    return LoadedSheet(
        title,
        dict(zip(zip(data["rows"], data["columns"], strict=True), held, strict=True)),
        last_row,
        last_column,
        is_visible,
        is_protected,
        tuple(((row, column), Picture(pictures[digest])) for (row, column), digest in data["pictures"]),
        tuple(_drawing(*one) for one in data["drawings"]),
        frozenset(hidden_rows),
        frozenset(hidden_columns),
        header,
        footer,
        tuple(Message(*one) for one in data["messages"]),
        tuple(Mark(areas, sort, tuple(formulas), Style(*look)) for areas, sort, formulas, look in data["marks"]),
        tuple(((row, column), target) for (row, column), target in data["links"]),
    )


def _seldom(each: Sequence[Any]) -> list[tuple[int, Any]]:
    """What few cells have, with the number of the cell."""
    return [(number, one) for number, one in enumerate(each) if one not in (None, False)]


def _each(seldom: Sequence[Sequence[Any]], count: int, otherwise: Any) -> list[Any]:
    found = [otherwise] * count
    for number, one in seldom:
        found[number] = one
    return found


def _drawing(kind: Any, first: Sequence[int], last: Sequence[int], *rest: Any) -> Drawing:
    return Drawing(kind, (first[0], first[1]), (last[0], last[1]), *rest)


def _typed(held: Held) -> Any:
    """What was typed; nothing for a formula, which stands beside it."""
    if held.value == held.formula:
        return None
    if held.value is None:
        raise _UnkeepableError
    return _plain(held.value)


def _plain(value: Any) -> Any:
    """A cell's value as JSON has it: a day or a time as a mapping, the rest as it is."""
    kind = type(value)
    if kind in _AS_IT_IS:
        return value
    if kind in _WRITTEN:
        return {_WRITTEN[kind]: value.isoformat()}
    if kind is datetime.timedelta:
        return {_SECONDS: [value.days, value.seconds, value.microseconds]}
    raise _UnkeepableError


def _value(data: Mapping[str, Any]) -> Any:
    ((kind, text),) = data.items()
    return datetime.timedelta(*text) if kind == _SECONDS else _READ[kind](text)
