"""References: whether each cell that points at a row of another table points at one that is there and is filled.

Made from the declarations: a table here for every table with such columns, and a check for every such entry.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sheetgen.declare.entry import REF, Entry, computed
from sheetgen.declare.kinds import text, whole
from sheetgen.declare.parts import Check, Sheet, Table, addresses

_FIX = "Choose one that is there, or clear the cell."


def with_references(sheets: tuple[Sheet, ...], workings: str = "workings") -> tuple[Sheet, ...]:
    """The sheets with a check for every entry that points at a row, and the tables that it counts in the workings."""
    keys = {
        f"{sheet.name}.{part.name}": part.key for sheet in sheets for part in sheet.parts if isinstance(part, Table)
    }
    tables = tuple(
        _standing(sheet, part, keys) for sheet in sheets for part in sheet.parts
        if isinstance(part, Table) and _pointing(part)
    )  # fmt: skip
    checked = (replace(sheet, checks=(*sheet.checks, *_checks(sheet, workings, keys))) for sheet in sheets)
    return tuple(
        replace(sheet, parts=(*sheet.parts, *tables)) if sheet.name == workings else sheet for sheet in checked
    )


def _pointing(table: Table) -> list[Entry]:
    return [entry for entry in table.entries if entry.kind.must_stand]


def _name(sheet: Sheet, table: Table) -> str:
    return f"of_{sheet.name}_{table.name}"


def _standing(sheet: Sheet, table: Table, keys: dict[str, str]) -> Table:
    """One row for each row of the table, one column for each entry that points: 1 where nothing stands there."""
    address = f"{sheet.name}.{table.name}"
    own = sheet.private
    columns = (
        computed("row", "Row", text(26), f'IFERROR(INDEX({address}.{table.key},MATCH(ref,{address}.ref,0))&"","")', private=own),
        computed("line", "Line", whole(), f"MATCH(ref,{address}.ref,0)", private=own),
        *(
            computed(entry.name, entry.heading, whole(width=11), _astray(f"INDEX({address}.{entry.name},line)", entry, keys),
                     private=own or entry.private)
            for entry in _pointing(table)
        ),
    )  # fmt: skip
    return Table(_name(sheet, table), f"Points at nothing: {sheet.title}, {table.title}", table.ref, "row", columns,
                 spare=0, mirrors=table.mirrors or address)  # fmt: skip


def _astray(cell: str, entry: Entry, keys: dict[str, str]) -> str:
    """1 where a cell holds something and no filled row is called so."""
    table, _, column = entry.kind.source.rpartition(".")
    if column != REF and column == keys[table]:
        # A size that is called by a number may be typed as one, beside names that are texts.
        return f'IF({cell}="",0,IF(SUMPRODUCT(({entry.kind.source}&""={cell}&"")*1)=0,1,0))'
    found = f"MATCH({cell},{entry.kind.source},0)"
    stands = f"INDEX({table}.{keys[table]},{found})" if column == REF else f"INDEX({entry.kind.source},{found})"
    return f'IF({cell}="",0,IF(IFERROR({stands}&"","")="",1,0))'


def _checks(sheet: Sheet, workings: str, keys: dict[str, str]) -> Iterator[Check]:
    for part in sheet.parts:
        if isinstance(part, Table):
            for entry in _pointing(part):
                column = f"{workings}.{_name(sheet, part)}.{entry.name}"
                refs = f"{workings}.{_name(sheet, part)}.ref"
                yield _check(sheet, f"{part.name}_{entry.name}", entry, f"SUM({column})",
                             f'IFERROR(INDEX({refs},MATCH(1,{column},0)),"")')  # fmt: skip
    for address, field in addresses(sheet):
        if field.table is None and field.entry.kind.must_stand:
            yield _check(sheet, field.entry.name, field.entry, _astray(address, field.entry, keys), "")


def _check(sheet: Sheet, name: str, entry: Entry, formula: str, where: str) -> Check:
    title = f"{entry.heading}: names a row that is not there"
    return Check(
        f"astray_{name}", title, formula, fix=_FIX, private=sheet.private or entry.private, where=where, stops="quote"
    )
