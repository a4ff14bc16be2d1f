"""Structure: sheets, tables, rows and columns gone, doubled, added or hidden. Moved and inserted blank ones are no findings."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.declare.entry import Place
from sheetgen.texts import say
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.values import with_words


@rule(
    title="A sheet is gone",
    level="fix",
    source="common practice",
    message="The sheet {expected} is missing.",
    why="What was asked on it is unanswered, and formulas that read it have lost their figures.",
    fix="Put the answers into a fresh copy of the file and return it whole.",
    bad=(Example("a sheet deleted", {"approvals": Do("drop-sheet")}, ("sheet-gone Approvals",)),),
    fine=(Example("all sheets there"),),
)
def sheet_gone(case: Case) -> Iterator[Fault]:
    for lost in case.got.lost:
        if lost.what == "sheet":
            title = case.got.ready.book.sheet(lost.address).title
            yield Fault(None, title, sheet=title)


@rule(
    title="A column, table or field is gone",
    level="fix",
    source="common practice",
    message="{found} is missing from the sheet {sheet}.",
    why="Its values are lost, and what is worked out from them no longer is.",
    fix="Undo the deletion, or put the answers into a fresh copy of the file.",
    bad=(
        Example("a column deleted", {"materials.bom.lead": Do("drop-column")}, ("column-gone materials.bom.lead",)),
        Example(
            "a column deleted that half the sheet reads: what follows from it is no fault of its own",
            {"materials.bom.price": Do("drop-column")},
            ("column-gone materials.bom.price",),
        ),
    ),
    fine=(Example("all columns there"),),
)
def column_gone(case: Case) -> Iterator[Fault]:
    book = case.got.ready.book
    for lost in case.got.lost:
        if lost.what in {"column", "field"}:
            column = book.entries[lost.address]
            heading = with_words(column.entry.heading, case.got.ready.shape)
            title = case.got.where.titles.get(column.sheet.name, column.sheet.title)
            yield Fault(
                Place(lost.address),
                heading,
                say("The {what} “{heading}”", what=lost.what, heading=heading),
                sheet=title,
            )
        elif lost.what == "table":
            sheet, table = book.tables[lost.address]
            title = case.got.where.titles.get(sheet.name, sheet.title)
            yield Fault(None, table.title, say("The table “{title}”", title=table.title), sheet=title)


def lost_rows(case: Case) -> list[Place]:
    """Rows that were sent with something in them and are not there any more."""
    rows: dict[tuple[str, str], None] = {}
    for place in case.sent:
        table = place.entry.rpartition(".")[0]
        where = case.got.where.tables.get(table)
        if place.row and where is not None and place.row not in where.rows:
            rows[table, place.row] = None
    return [Place(f"{table}.ref", row) for table, row in rows]


@rule(
    title="A row is gone",
    level="fix",
    source="common practice",
    message="The row {expected} of {sheet} is missing.",
    why="The article, point or step of that row would be forgotten in the next revision.",
    fix="Put the row {expected} back.",
    bad=(
        Example(
            "a row's cells emptied, ref and all",
            {"quality.tests[T2]": Do("clear-row")},
            ("row-gone quality.tests[T2].ref",),
        ),
    ),
    fine=(Example("all rows there"),),
)
def row_gone(case: Case) -> Iterator[Fault]:
    for place in lost_rows(case):
        table = place.entry.rpartition(".")[0]
        title = case.got.where.tables[table].sheet
        key = f"{table}.{case.got.ready.book.tables[table][1].key}"
        words = case.sent.get(Place(key, place.row))
        named = f"{place.row} ({words})" if isinstance(words, str) else place.row
        yield Fault(place, named, "nothing", sheet=title, cell=_where_it_stood(case, table, place.row))


def _where_it_stood(case: Case, table: str, ref: str) -> str:
    """The cell that held a row's ref, as long as the lines around it are there."""
    sent = case.got.written.where.tables.get(table) if case.got.written else None
    alignment = case.got.alignments.get(sent.sheet) if sent else None
    cell = alignment.cell((sent.rows[ref], sent.ref_column)) if sent and alignment and ref in sent.rows else None
    return cell.address if cell else ""


@rule(
    title="A row was put in",
    level="query",
    source="common practice",
    message="A row was added to {sheet}: {found}.",
    why="Something that was not asked for may be a good idea or a misunderstanding.",
    fix="Take it over on acceptance, or ask what it is for.",
    owner="designer",
    bad=(
        Example(
            "a courier's number in a spare row",
            {"approvals.items": Do("add-row", {"courier": "by hand"})},
            ("row-added approvals.items[V10].ref",),
        ),
        Example(
            "a material in a row that has no ref: what is missing in it is asked once it is wanted",
            {"materials.bom": Do("add-nameless-row", {"item": "Locker loop, twill tape", "price": 0.02})},
            ("row-added materials.bom[M17].ref",),
        ),
        Example(
            "a material put in with a decimal comma: the row is read like any other",
            {"materials.bom": Do("add-nameless-row", {"item": "Locker loop, twill tape", "price": "0,02"})},
            ("decimal-comma materials.bom[M17].price", "row-added materials.bom[M17].ref"),
        ),
    ),
    fine=(
        Example("spare rows left blank"),
        Example(
            "a price for one quantity more", {"quote.ladder": Do("add-row", {"from_quantity": 5000, "price": 24.5})}
        ),
    ),
)
def row_added(case: Case) -> Iterator[Fault]:
    held: dict[Place, list[str]] = {}
    for place, value in case.got.typed.items():
        row = Place(f"{place.entry.rpartition('.')[0]}.ref", place.row)
        if case.is_new_row(place) and row not in case.got.doubled_rows:
            held.setdefault(row, []).append(shown_text(value))
    for row, words in held.items():
        where = case.got.where.tables[row.entry.rpartition(".")[0]]
        yield Fault(row, "", ", ".join(words[:4]), sheet=where.sheet)


@rule(
    title="A row's ref occurs twice",
    level="fix",
    source="common practice",
    message="The ref {found} occurs a second time in {sheet}.",
    why="Two rows of one name cannot be told apart: one of them would be lost.",
    fix="Delete the copied row, or clear its ref so that it gets one of its own.",
    bad=(
        Example(
            "a row copied over a spare one",
            {"approvals.items[V1]": Do("double-row")},
            ("row-doubled approvals.items[V10].ref",),
        ),
    ),
    fine=(Example("every ref once"),),
)
def row_doubled(case: Case) -> Iterator[Fault]:
    for place, ref in case.got.doubled_rows.items():
        yield Fault(place, "", ref, sheet=case.got.where.tables[place.entry.rpartition(".")[0]].sheet)


@rule(
    title="A sheet was added",
    level="query",
    source="common practice",
    message="The sheet {found} is not one of ours; it is not carried over.",
    why="What stands on it reaches nobody when the next revision is made.",
    fix="Read it and move what matters to its place.",
    owner="designer",
    bad=(Example("a sheet of notes", {"Notes": Do("add-sheet", "We can start in March")}, ("sheet-added Notes",)),),
    fine=(Example("only our sheets"),),
)
def sheet_added(case: Case) -> Iterator[Fault]:
    for title in case.got.added_sheets:
        yield Fault(None, "", title, sheet=title)


@rule(
    title="A sheet was hidden",
    level="note",
    source="ICAEW Twenty principles for good spreadsheet practice: hidden content is a known failure",
    message="The sheet {found} is hidden.",
    why="A reader does not see what is on it.",
    fix="Show the sheet again.",
    bad=(Example("a sheet hidden", {"quality": Do("hide-sheet")}, ("sheet-hidden Quality",)),),
    fine=(Example("all sheets visible"),),
)
def sheet_hidden(case: Case) -> Iterator[Fault]:
    written = case.got.written.sheets if case.got.written else ()
    as_sent = {sheet.title for sheet in written if sheet.hidden}
    for title in case.got.hidden if not case.own else ():
        if title not in as_sent:
            yield Fault(None, "", title, sheet=title)


@rule(
    title="Something stands outside the tables",
    level="query",
    source="common practice",
    message="{cell} holds “{found}”, where nothing belongs; accepting it brings it onto Questions.",
    why="A remark beside a table is easily overlooked, and lost in the next revision.",
    fix="Read it; answer it on Questions.",
    owner="designer",
    bad=(
        Example(
            "a word beside a table",
            {"materials.bom[M1]": Do("stray", "ask Ines")},
            ("stray-text materials.bom[M1].ref",),
        ),
        Example("a word beside a field", {"quote.valid_until": Do("stray", "see mail")}, ("stray-text quote.tier",)),
    ),
    fine=(Example("nothing outside"),),
)
def stray_text(case: Case) -> Iterator[Fault]:
    # Where a whole table has lost its name, all that it holds stands outside: that is said once, by column_gone.
    spoiled = {lost.address.partition(".")[0] for lost in case.got.lost if lost.what in {"table", "field"}}
    titles = {case.got.where.titles.get(sheet) for sheet in spoiled}
    for stray in case.got.strays:
        if stray.cell.sheet not in titles:
            yield Fault(beside(case, stray.cell), "", stray.value, sheet=stray.cell.sheet, cell=stray.cell.address)


def beside(case: Case, cell: Cell) -> Place | None:
    """The row or field in whose line a cell stands."""
    for address, table in case.got.where.tables.items():
        for ref, row in table.rows.items():
            if (table.sheet, row) == (cell.sheet, cell.row):
                return Place(f"{address}.ref", ref)
    fields = case.got.where.fields.items()
    left = [(at.column, address) for address, at in fields if at[:2] == cell[:2] and at.column < cell.column]
    return Place(max(left)[1]) if left else None


RULES = (sheet_gone, column_gone, row_gone, row_added, row_doubled, sheet_added, sheet_hidden, stray_text)
