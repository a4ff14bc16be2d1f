"""Growing: rows that people put in or paste have no ref yet, and rows whose name was cleared count nowhere.

A check of each table counts either: the first until the file is built, the second until the row is named or cleared whole.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sheetgen.declare.parts import END_OF_TABLE, Check, Section, Sheet, Table, grows

_NAME = "Name the row again, or clear all of it: without its {key} it counts nowhere."
_TYPED = frozenset({"designer", "vendor"})
_FIX = "Save, then sheetgen build FILE: each gets its ref, its formulas and its place in all sums."


def with_new_rows(sheets: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    """The sheets with a check for rows without a ref where people put rows in, and for rows that lost their name."""
    return tuple(replace(sheet, checks=(*sheet.checks, *_checks(sheet), *_nameless(sheet))) for sheet in sheets)


def _checks(sheet: Sheet) -> Iterator[Check]:
    """Rows whose key is filled and whose ref is none; the line that closes the table counts when it was typed over."""
    for table in sheet.parts:
        if isinstance(table, Table) and grows(table):
            address = f"{sheet.name}.{table.name}"
            counted = f'SUMPRODUCT(({address}.{table.key}<>"")*(({address}.ref="")+({address}.ref="{END_OF_TABLE}")))'
            title = f"{table.title}: rows without a ref, build once"
            yield Check(f"new_{table.name}", title, counted, fix=_FIX, private=True)  # only the brand builds the file


def _nameless(sheet: Sheet) -> Iterator[Check]:
    """Cells that are filled in rows whose key is blank: from the first to the last column, and families side by side."""
    for table in sheet.parts:
        if not isinstance(table, Table) or not any(entry.who in _TYPED for entry in table.entries):
            continue
        address, key = f"{sheet.name}.{table.name}", next(one for one in table.entries if one.name == table.key)
        single, families = _columns(table)
        blocks = [f"{address}.{single[0]}:{address}.{single[-1]}", *(f"{address}.{name}.all" for name in families)]
        counted = "+".join(f'SUMPRODUCT(({address}.{table.key}="")*({block}<>""))' for block in blocks)
        heading = key.heading.lower()
        yield Check(f"nameless_{table.name}", f"{table.title}: cells of a row without its {heading}", counted,
                    fix=_NAME.format(key=heading), private=True)  # fmt: skip


def _columns(table: Table) -> tuple[list[str], list[str]]:
    """Columns that are no family's, in their order, and the typed families after the last of them that stand side by side."""
    single: list[str] = []
    families: list[str] = []
    for column in table.columns:
        if isinstance(column, Section) and column.axis:
            continue
        for entry in column.columns if isinstance(column, Section) else (column,):
            if not entry.axis:
                single, families = [*single, entry.name], []
            elif entry.who in _TYPED:
                families.append(entry.name)
    return single, families
