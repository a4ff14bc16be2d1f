"""The brand file: what all styles of a brand share: company, defaults, size ranges, tolerances, the number scheme, limits."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from sheetgen.declare.entry import Place
from sheetgen.declare.judgment import TABLE, USUAL, Limits, limits_of
from sheetgen.declare.parts import Book
from sheetgen.errors import UserError
from sheetgen.style.numbering import NumberPart, NumberScheme
from sheetgen.texts import say
from sheetgen.trade.lengths import convert
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.exchange.toml import read_toml
from sheetgen.workbook.model.values import Values

_UNITS = {"style.unit", "construction.density_unit"}
"""What a starter's own figures are in."""
_KNOWN = {"company", "defaults", "size_ranges", "tolerances", "numbering", "letter", TABLE}


@dataclass(frozen=True)
class Tolerance:
    """Default tolerances for points whose name holds one of the words."""

    words: tuple[str, ...]
    minus: float
    plus: float
    unit: str


@dataclass(frozen=True)
class Brand:
    """A brand file that has been read."""

    path: Path
    defaults: Mapping[str, object] = field(default_factory=dict)
    size_ranges: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    tolerances: tuple[Tolerance, ...] = ()
    numbering: NumberScheme | None = None
    letter: Mapping[str, object] = field(default_factory=dict)
    limits: Limits = USUAL


def load_brand(path: Path) -> Brand:
    """Read a brand file; UserError names the file and the key."""
    data = read_toml(path)
    for key in data:
        if key not in _KNOWN:
            raise UserError(
                say(
                    "{path}: nothing is called {key!r}; a brand file has {listed}.",
                    path=path,
                    key=key,
                    listed=", ".join(sorted(_KNOWN)),
                )
            )
    try:
        company = _table(data, "company")
        defaults = dict(_table(data, "defaults"))
        if "name" in company:
            defaults.setdefault("style.company", company["name"])
        if "accent" in company:
            defaults.setdefault("style.accent", company["accent"])
        if "mark" in company:
            defaults.setdefault("style.mark", str((path.parent / str(company["mark"])).resolve()))
        ranges = {
            name: tuple(str(size) for size in _list(sizes)) for name, sizes in _table(data, "size_ranges").items()
        }
        limits = limits_of(_table(data, TABLE))
        tolerances = tuple(_tolerance(row) for row in _list(data.get("tolerances", [])))
        return Brand(path, defaults, ranges, tolerances, _scheme(data), _table(data, "letter"), limits)
    except (TypeError, ValueError) as error:
        raise UserError(
            say("{path}: {error}; see the sample brand file for its form.", path=path, error=error)
        ) from None


def _table(data: Mapping[str, object], key: str) -> Mapping[str, object]:
    found = data.get(key, {})
    if not isinstance(found, Mapping):
        raise TypeError(say("{key!r} must be a table", key=key))
    return found


def _list(value: object) -> list[object]:
    if not isinstance(value, list):
        raise TypeError(say("{value!r} must be a list", value=value))
    return value


def _tolerance(row: object) -> Tolerance:
    if not isinstance(row, Mapping):
        raise TypeError(say("each of [[tolerances]] must be a table"))
    unknown = set(row) - {"words", "minus", "plus", "unit"}
    if unknown:
        raise ValueError(say("[[tolerances]] knows no {key!r}", key=sorted(unknown)[0]))
    _need(row, "tolerances", "words", "minus", "plus")
    unit = str(row.get("unit", "cm"))
    if unit not in {"cm", "mm", "in"}:
        raise ValueError(say("[[tolerances]] unit must be cm, mm or in, not {unit!r}", unit=unit))
    words = tuple(str(word).lower() for word in _list(row["words"]))
    return Tolerance(words, float(row["minus"]), float(row["plus"]), unit)


def _need(row: Mapping[str, object], table: str, *keys: str) -> None:
    missing = next((key for key in keys if key not in row), None)
    if missing:
        raise ValueError(say("[[{table}]] needs {missing!r}", table=table, missing=missing))


def _scheme(data: Mapping[str, object]) -> NumberScheme | None:
    numbering = _table(data, "numbering")
    if not numbering:
        return None
    parts = []
    for row in _list(numbering.get("parts", [])):
        if not isinstance(row, Mapping):
            raise TypeError(say("each of [[numbering.parts]] must be a table"))
        _need(row, "numbering.parts", "name")
        codes = row.get("codes", {})
        if not isinstance(codes, Mapping):
            raise TypeError(say("codes must be a table"))
        parts.append(
            NumberPart(str(row["name"]), {str(k): str(v) for k, v in codes.items()}, int(row.get("digits", 0)))
        )
    return NumberScheme(tuple(parts), str(numbering.get("join", "-")))


def load_style(book: Book, path: Path, brand: Brand | None) -> Values:
    """A brief's values with the brand's defaults where the brief says nothing; UserError as `values_of`."""
    return style_of(book, read_toml(path), path, brand)


def starter_style(book: Book, data: dict[str, object], path: Path, brand: Brand | None) -> Values:
    """The values of a starter's data: what the brand says goes before what the starter suggests, but for units."""
    if brand is not None:
        _put_defaults(data, brand, set(brand.defaults) - _UNITS)
    return style_of(book, data, path, brand)


def style_of(book: Book, data: dict[str, object], path: Path, brand: Brand | None) -> Values:
    """The values of a brief's data; `path` is where they come from. The style number is checked against the brand's scheme."""
    size_range = data.pop("size_range", None)
    if size_range is not None:
        _put_sizes(data, size_range, path, brand)
    if brand is not None:
        _put_defaults(data, brand)
    _put_beginnings(data, book)
    values = values_of(book, data, path)
    if brand is not None:
        _put_tolerances(values, brand)
        _check_number(values, brand, path)
    return values


def with_brand(book: Book, values: Values, brand: Brand) -> list[str]:
    """Fill what a style leaves blank with the brand's defaults; says in words which entries were filled and which were left.

    What is typed in a workbook is never written over.
    """
    data: dict[str, object] = {}
    for address, value in brand.defaults.items():
        sheet, _, entry = address.partition(".")
        content = data.setdefault(sheet, {})
        if isinstance(content, dict):
            content[entry] = value
    given = values_of(book, data, brand.path, values)
    filled = [place for place in given if values.get(place) in (None, "")]
    left = [place for place in given if place not in filled and values[place] != given[place]]
    values.update({place: given[place] for place in filled})
    notes = []
    if filled:
        notes.append(say("{brand} fills: {places}.", brand=brand.path.name, places=", ".join(map(str, filled))))
    if left:
        others = ", ".join(map(str, left))
        notes.append(say("{brand} says otherwise, and was not asked: {places}.", brand=brand.path.name, places=others))
    return notes


def _put_sizes(data: dict[str, object], name: object, path: Path, brand: Brand | None) -> None:
    ranges = brand.size_ranges if brand else {}
    if not isinstance(name, str) or name not in ranges:
        raise UserError(
            say(
                "{path}: the brand file has no size range {name!r}; it has {known}.",
                path=path,
                name=name,
                known=", ".join(ranges) or say("none"),
            )
        )
    style = data.setdefault("style", {})
    if isinstance(style, dict):
        style.setdefault("sizes", [{"name": size} for size in ranges[name]])
        style.setdefault("size_range", name)


def _put_beginnings(data: dict[str, object], book: Book) -> None:
    """The rows that tables begin with, where a style says nothing of them."""
    for address, (_, table) in book.tables.items():
        sheet, _, name = address.partition(".")
        content = data.setdefault(sheet, {}) if table.begins else None
        if isinstance(content, dict):
            content.setdefault(name, [dict(row) for row in table.begins])


def _put_defaults(data: dict[str, object], brand: Brand, over: Collection[str] = ()) -> None:
    """The brand's defaults where the data say nothing; those in `over` also where they do."""
    for address, value in brand.defaults.items():
        sheet, _, entry = address.partition(".")
        content = data.setdefault(sheet, {})
        if isinstance(content, dict):
            if address in over:
                content[entry] = value
            content.setdefault(entry, value)


def _put_tolerances(values: Values, brand: Brand) -> None:
    unit = str(values.get(Place("style.unit")) or "cm")
    for place, name in list(values.items()):
        if place.entry != "measurements.points.point":
            continue
        rule = next((rule for rule in brand.tolerances if any(word in str(name).lower() for word in rule.words)), None)
        if rule is None:
            continue
        for side in ("minus", "plus"):
            where = Place(f"measurements.points.{side}", place.row)
            if where not in values:
                amount = rule.minus if side == "minus" else rule.plus
                values[where] = round(convert(amount, rule.unit, unit), 6)


def _check_number(values: Values, brand: Brand, path: Path) -> None:
    number = values.get(Place("style.number"))
    if brand.numbering is not None and number is not None:
        try:
            brand.numbering.decode(str(number))
        except ValueError as error:
            raise UserError(say("{path}: {error} @ style.number", path=path, error=error)) from None
