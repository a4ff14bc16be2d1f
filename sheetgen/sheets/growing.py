"""Growing: rows that people put in or paste have no ref yet; a check of each sheet counts them until the file is built."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sheetgen.declare.parts import END_OF_TABLE, Check, Sheet, Table, grows

_FIX = "Save, then sheetgen build FILE: each gets its ref, its formulas and its place in all sums."


def with_new_rows(sheets: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    """The sheets with a check for rows without a ref where people put rows in."""
    return tuple(replace(sheet, checks=(*sheet.checks, *_checks(sheet))) for sheet in sheets)


def _checks(sheet: Sheet) -> Iterator[Check]:
    """Rows whose key is filled and whose ref is none; the line that closes the table counts when it was typed over."""
    for table in sheet.parts:
        if isinstance(table, Table) and grows(table):
            address = f"{sheet.name}.{table.name}"
            counted = f'SUMPRODUCT(({address}.{table.key}<>"")*(({address}.ref="")+({address}.ref="{END_OF_TABLE}")))'
            title = f"{table.title}: rows without a ref, build once"
            yield Check(f"new_{table.name}", title, counted, fix=_FIX, private=True)  # only the brand builds the file
