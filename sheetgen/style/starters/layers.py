"""Layers of a brief: one laid over another, entry by entry and row by row.

Used to put a starter together. A row is named by its first entry: a row of the same name is laid over it, another
one is added, and `drop = true` takes it out.
"""

from __future__ import annotations

from typing import Final, TypeAlias

Data: TypeAlias = dict[str, object]
Rows: TypeAlias = list[Data]

OPTIONS: Final = ("hood", "child", "hood_child")
"""Tables of a file that hold no data of the brief but what an option changes in it."""


def together(common: Data, own: Data, wanted: list[str]) -> Data:
    """The common data with the garment's own over them, both as the wanted options change them.

    The garment's own rows stand first, those that an option adds behind them, the common ones last. What a garment says
    of an option goes before what is common to all.
    """
    options = [(common.pop(name, {}), own.pop(name, {})) for name in OPTIONS if name in wanted]
    for name in OPTIONS:
        common.pop(name, None)
        own.pop(name, None)
    for pair in options:
        for layer in pair:
            if isinstance(layer, dict):
                own = _over(own, layer)
    return _finished(_over(common, own, new_first=True))


def _finished(data: Data) -> Data:
    """Without the rows to drop."""
    for content in data.values():
        if isinstance(content, dict):
            for key, value in content.items():
                if isinstance(value, list):
                    content[key] = [row for row in value if not row.get("drop")]
    return data


def section(data: Data, name: str) -> Data:
    """The entries of one sheet, made if there are none yet."""
    content = data.setdefault(name, {})
    if not isinstance(content, dict):
        raise TypeError(f"{name} is no table")
    return content


def rows(data: Data, address: str) -> Rows:
    """The rows of a table, as `style.sizes`; none if it is not there."""
    sheet, _, table = address.partition(".")
    content = data.get(sheet, {})
    found = content.get(table, []) if isinstance(content, dict) else None
    if not isinstance(found, list):
        raise TypeError(f"{address} are no rows")
    return found


def put(data: Data, address: str, new: Rows) -> None:
    """Put rows in place of a table's."""
    sheet, _, table = address.partition(".")
    section(data, sheet)[table] = new


def _over(base: Data, layer: Data, *, new_first: bool = False) -> Data:
    for key, value in layer.items():
        there = base.get(key)
        if isinstance(value, dict) and isinstance(there, dict):
            base[key] = _over(there, value, new_first=new_first)
        elif isinstance(value, list) and isinstance(there, list):
            base[key] = _rows_over(there, value, new_first)
        else:
            base[key] = value
    return base


def _rows_over(base: Rows, layer: Rows, new_first: bool) -> Rows:
    there = {_name(row): row for row in base}
    new = []
    for row in layer:
        if _name(row) in there:
            there[_name(row)].update(row)
        else:
            new.append(row)
    return [*new, *base] if new_first else [*base, *new]


def _name(row: Data) -> tuple[str, object]:
    return next(iter(row.items()))
