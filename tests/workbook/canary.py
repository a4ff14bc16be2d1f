"""Values that stand nowhere else, for every private entry, and a search for them in all that is sent."""

import datetime
import io
import json
import zipfile
from html import escape

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, Value
from sheetgen.declare.parts import Column
from sheetgen.workbook.model.engine import cell_value
from sheetgen.workbook.model.values import Ready, Values, row_refs, with_words

from .briefs import png


def is_private(column: Column) -> bool:
    return column.sheet.private or column.entry.private


def canaries(ready: Ready, values: Values) -> Values:
    """The values, with one of its own in every private place that somebody fills."""
    found: Values = {}
    refs = row_refs(ready, values)
    number = 0
    for address, column in ready.book.entries.items():
        if not is_private(column) or column.entry.who not in {"designer", "vendor"}:
            continue
        table = address.rpartition(".")[0]
        for row in refs[table] if column.table else [""]:
            number += 1
            found[Place(address, row)] = _canary(column, number)
    return {**values, **found}


def _canary(column: Column, number: int) -> Value:
    kind = column.entry.kind
    if kind.name == "date":
        return datetime.date(2071, 3, 1) + datetime.timedelta(days=number)
    if kind.name == "whole":
        return 7_310_000 + number
    if kind.is_number:
        return round(0.4173 + number / 1_000_000, 6)
    if kind.name == "color":
        return f"#C7{number:04X}"
    if kind.name == "picture":
        return Picture(png((number % 250, 7, 199), (31, 37)))
    if kind.choices and not kind.open:
        return kind.choices[0]
    return f"canary {number} é&<sings>"


def needles(values: Values, ready: Ready) -> dict[str, list[bytes]]:
    """How each private value would stand in a file, by place. A word of a closed list is no secret of its own."""
    found: dict[str, list[bytes]] = {}
    for place, value in values.items():
        column = ready.book.entries[place.entry]
        if not is_private(column) or (column.entry.kind.choices and not column.entry.kind.open):
            continue
        if isinstance(value, Picture):
            forms = [value.data, value.digest.encode()]
        elif isinstance(value, str):
            forms = [escape(value, quote=False).encode(), json.dumps(value)[1:-1].encode(), value.encode()]
        elif isinstance(value, datetime.date):
            forms = [f">{cell_value(value)}<".encode(), value.isoformat().encode()]
        else:
            forms = [f"{value:.15g}".encode()]
        found[str(place)] = forms
    return found


def parts_of(data: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        return {name: package.read(name) for name in package.namelist()}


def found_in(parts: dict[str, bytes], forms: list[bytes]) -> list[str]:
    """The parts that hold any of these."""
    return [name for name, content in parts.items() if any(form in content for form in forms)]


def own_words(ready: Ready) -> dict[str, list[bytes]]:
    """Headings and titles that only private entries, tables and sheets have: how a cell's or an attribute's text begins."""
    book = ready.book
    shared: list[str] = []
    own: list[str] = []
    for sheet in book.sheets:
        if not sheet.derived:
            (own if sheet.private else shared).append(sheet.title)
            (own if sheet.private else shared).append(sheet.purpose)
            (own if sheet.private else shared).extend(part.title for part in sheet.parts)
    for column in book.entries.values():
        if not column.sheet.derived:
            words = own if is_private(column) else shared
            words.append(column.entry.heading)
            if column.entry.who in {"designer", "vendor"}:
                words.append(column.entry.help)  # it stands in the input message
    everything_shared = "\n".join(with_words(word, ready.shape) for word in shared)
    own = [with_words(word, ready.shape) for word in own]
    return {
        word: [mark + escape(word, quote=False).encode() for mark in (b">", b'"')]
        for word in own
        if len(word) > 8 and word not in everything_shared
    }
