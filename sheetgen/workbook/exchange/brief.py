"""A brief: a style's data as a TOML file, whose tables and keys are the addresses of the book.

`[style]` holds fields, `[[materials.bom]]` rows; a family's entry takes one value for all members or one for each
by name (`color = { Moss = "Moss", Slate = "Slate" }`); rows of a mirrored or fixed table say which by `row = "M"`.
All that is wrong in a file is told at once.
"""

from __future__ import annotations

import datetime
import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from pathlib import Path

from sheetgen.declare.entry import REF, Entry, Place
from sheetgen.declare.kinds import Kind, Picture, Value
from sheetgen.declare.parts import Book, Table
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.trade.lengths import parse_length
from sheetgen.workbook.exchange.toml import Toml
from sheetgen.workbook.model import pictures
from sheetgen.workbook.model.references import as_word, astray, standing
from sheetgen.workbook.model.values import Ready, Values, only_shaped, row_refs, shape_of

_LONGEST_NAME = 60
"""Headings carry the names of sizes and colorways."""
_PERCENT = re.compile(r"\s*(-?\d+(?:[.,]\d+)?)\s*%\s*\Z")


def values_of(book: Book, data: Toml, path: Path, known: Values | None = None) -> Values:
    """The values that a brief's data give; UserError with every wrong key and value in it.

    `known` are the values of the style that the data add to (a vendor's answers): its sizes, colorways and unit hold.
    """
    known = known or {}
    unit = str(known.get(Place(book.about.unit)) or "")
    reader = _Reader(book, path, unit or _unit(book, data))
    values = reader.read(data, known)
    whole = {**known, **values}
    reader.problems += [points_nowhere(book, place, value, whole) for place, value in astray(book, whole)]
    if reader.problems:
        listed = "\n".join(f"  {problem}" for problem in reader.problems)
        count = len(reader.problems)
        raise UserError(
            say(
                "{path}: {things} to put right:\n{listed}",
                path=path,
                things=say("one thing") if count == 1 else say("{count} things", count=count),
                listed=listed,
            )
        )
    return values


def points_nowhere(book: Book, place: Place, value: Value, values: Values) -> str:
    """What is wrong with a cell that points at a row that is not there, with the row that may be meant."""
    source = book.entries[place.entry].entry.kind.source
    near = get_close_matches(as_word(value), standing(book, source, values), 1)
    named = near[0].upper() if near and source.endswith(f".{REF}") else "".join(near)
    return say(
        "no filled row of {table} is called {value!r}{hint} @ {place}",
        table=source.rpartition(".")[0], value=value, place=place, hint=say("; is it {near!r}?", near=named) if named else "",
    )  # fmt: skip


def _unit(book: Book, data: Toml) -> str:
    sheet, _, entry = book.about.unit.partition(".")
    unit = _inner(data, sheet, entry)
    return unit if unit in {"cm", "mm", "in"} else "cm"


class _Reader:
    """Goes through the data once for what rows are called (sizes, colorways, those that others name) and once for everything."""

    def __init__(self, book: Book, path: Path, unit: str) -> None:
        self.book, self.path, self.unit = book, path, unit
        self.problems: list[str] = []

    def read(self, data: Toml, known: Values) -> Values:
        """Values of all entries that the data hold; what is wrong with them gathers in `problems`."""
        named = {
            *self.book.axes.values(),
            *(table.mirrors for _, table in self.book.tables.values() if table.mirrors),
        }
        first: Values = dict(known)
        declared = Ready(self.book, {}, shape_of(self.book, {}))
        for address in sorted(address for address in named if not self.book.tables[address][1].rows):
            sheet, _, table = address.partition(".")
            first.update(self._rows_named(declared, address, _inner(data, sheet, table), first))
        self.problems.clear()
        whole = only_shaped(self.book, shape_of(self.book, first))
        values: Values = {}
        for sheet_name, content in data.items():
            if sheet_name not in {sheet.name for sheet in whole.book.sheets}:
                self._unknown(sheet_name, [sheet.name for sheet in whole.book.sheets], sheet_name)
            elif not isinstance(content, Mapping):
                self.problems.append(say("must be a table of entries @ {sheet_name}", sheet_name=sheet_name))
            else:
                values.update(self._sheet(whole, sheet_name, content, first))
        self._long_names(values)
        return values

    def _rows_named(self, declared: Ready, address: str, rows: object, known: Values) -> Values:
        """The rows of a table that hold anything, with what they are called: that asks for no sizes and no colorways."""
        table = self.book.tables[address][1]
        key = f"{address}.{table.key}"
        found: Values = {}
        for number, row in enumerate(rows if isinstance(rows, list) else (), 1):
            if isinstance(row, Mapping) and any(map(_is_given, (row[name] for name in row if name != "row"))):
                ref = self._ref(declared, table, address, row, number, known)
                if ref is not None:
                    name, wrong = self._value(self.book.entries[key].entry.kind, row.get(table.key, ""))
                    found[Place(key, ref)] = known.get(Place(key, ref)) if wrong or name is None else name
        return found

    def _long_names(self, values: Values) -> None:
        keys = {f"{address}.{self.book.tables[address][1].key}" for address in self.book.axes.values()}
        for place, value in values.items():
            if place.entry in keys and len(str(value)) > _LONGEST_NAME:
                self.problems.append(
                    say("must be at most {longest_name} characters @ {place}", longest_name=_LONGEST_NAME, place=place)
                )

    def _sheet(self, whole: Ready, sheet: str, content: Toml, known: Values) -> Values:
        values: Values = {}
        tables = {
            address.partition(".")[2]: address for address in whole.book.tables if address.startswith(f"{sheet}.")
        }
        fields = {
            address.partition(".")[2]: column.entry
            for address, column in whole.book.entries.items()
            if address.startswith(f"{sheet}.") and column.table is None
        }
        families = _families(fields)
        for key, value in content.items():
            address = f"{sheet}.{key}"
            if key in tables:
                values.update(self._table(whole, tables[key], value, {**known, **values}))
            elif key in families:
                values.update(self._entry(address, sheet, families[key], value, ""))
            else:
                self._unknown(key, [*tables, *families], address)
        return values

    def _table(self, whole: Ready, address: str, rows: object, known: Values) -> Values:
        if not isinstance(rows, list) or not all(isinstance(row, Mapping) for row in rows):
            self.problems.append(say("must be rows, written as [[{address}]] @ {address}", address=address))
            return {}
        table = whole.book.tables[address][1]
        entries = _families({entry.name: entry for entry in table.entries})
        values: Values = {}
        seen: set[str] = set()
        for number, row in enumerate(rows, 1):
            ref = self._ref(whole, table, address, row, number, known)
            if ref is None:
                continue
            if ref in seen:
                self.problems.append(
                    say("row {ref} is given twice @ {address}[{number}]", ref=ref, address=address, number=number)
                )
            seen.add(ref)
            for key, value in row.items():
                place = f"{address}[{ref}].{key}"
                if key == "row":
                    continue
                if key in entries:
                    values.update(self._entry(place, address, entries[key], value, ref))
                else:
                    self._unknown(key, list(entries), place)
        return values

    def _ref(self, whole: Ready, table: Table, address: str, row: Toml, number: int, known: Values) -> str | None:
        """The row's ref; None if it names no row that there is."""
        named = row.get("row")
        if named is None:
            if table.mirrors or table.rows:
                self.problems.append(
                    say(
                        'each row must say which it is, as row = "..." @ {address}[{number}]',
                        address=address,
                        number=number,
                    )
                )
                return None
            return f"{table.ref}{number}"
        given = table.mirrors or table.rows
        ref_form = re.compile(re.escape(table.ref) + "[1-9][0-9]*")
        if (
            isinstance(named, str)
            and ref_form.fullmatch(named)
            and (not given or named in row_refs(whole, known)[address])
        ):
            return named
        for ref, key in _keys(whole, table, address, known):
            if key == named:
                return ref
        self.problems.append(
            say("no row is called {named!r} @ {address}[{number}].row", named=named, address=address, number=number)
        )
        return None

    def _entry(self, place: str, home: str, members: list[Entry], value: object, ref: str) -> Values:
        given: dict[str, object]
        if members[0].family:
            names = [entry.member_title for entry in members]
            if isinstance(value, Mapping):
                for name in value:
                    if name not in names:
                        self._unknown(str(name), names, f"{place}.{name}")
                given = {entry.name: value[entry.member_title] for entry in members if entry.member_title in value}
            else:
                given = {entry.name: value for entry in members}
        else:
            given = {members[0].name: value}
        values: Values = {}
        for entry in members:
            if entry.name not in given:
                continue
            if entry.who not in {"designer", "vendor"}:
                self.problems.append(say("is worked out by the workbook: take it out @ {place}", place=place))
                continue
            held, wrong = self._value(entry.kind, given[entry.name])
            if wrong:
                self.problems.append(f"{wrong} @ {place}")
            elif held is not None:
                values[Place(f"{home}.{entry.name}", ref)] = held
        return values

    def _value(self, kind: Kind, value: object) -> tuple[Value, str | None]:
        """A TOML value as the cell's value, or what is wrong with it."""
        if isinstance(value, str):
            value = value.replace("\r\n", "\n").replace("\r", "\n")
        if value == "":
            return None, None
        if kind.name == "picture":
            if not isinstance(value, str):
                return None, say("must be the path of a picture")
            try:
                return pictures.load((self.path.parent / value).resolve()), None
            except UserError as error:
                return None, str(error)
            except ValueError:
                return None, say("must be the path of a picture")
        held: object = value
        if isinstance(value, str) and kind.name == "length":
            held = parse_length(value, self.unit)
            if held is None:
                return None, say("{value!r} is no length, as 12 3/8 or 31.4 cm", value=value)
        elif isinstance(value, str) and kind.name == "percent" and (match := _PERCENT.match(value)):
            held = float(match.group(1).replace(",", ".")) / 100
        if isinstance(held, datetime.datetime):
            held = held.date()
        if isinstance(held, bool) or not isinstance(held, str | int | float | datetime.date | Picture):
            return None, say("must be {noun}", noun=kind.noun)
        return held, kind.wrong(held)

    def _unknown(self, word: str, known: list[str], place: str) -> None:
        near = get_close_matches(word, known, 1)
        self.problems.append(
            say(
                "nothing is called {word!r}{hint} @ {place}",
                word=word,
                hint=say("; is it {near!r}?", near=near[0]) if near else "",
                place=place,
            )
        )


def _is_given(value: object) -> bool:
    return any(map(_is_given, value.values())) if isinstance(value, Mapping) else value != ""


def _inner(data: Toml, sheet: str, table: str) -> object:
    content = data.get(sheet)
    return content.get(table) if isinstance(content, Mapping) else None


def _families(entries: Mapping[str, Entry]) -> dict[str, list[Entry]]:
    """Entries under the name that a brief uses: a family's members under the family's."""
    found: dict[str, list[Entry]] = defaultdict(list)
    for entry in entries.values():
        found[entry.family or entry.name].append(entry)
    return found


def _keys(whole: Ready, table: Table, address: str, known: Values) -> Iterator[tuple[str, Value]]:
    """Refs and key texts of the rows that a mirrored or fixed table has."""
    if table.rows:
        yield from ((f"{table.ref}{number}", row[table.key]) for number, row in enumerate(table.rows, 1))
        return
    source = table.mirrors or address
    key = f"{source}.{whole.book.tables[source][1].key}"
    yield from ((place.row, value) for place, value in known.items() if place.entry == key)
