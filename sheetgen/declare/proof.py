"""Proof: what stops a wrong book before anyone opens a sheet: names, circles, leaks, ranges used as one value.

`words` proves the words in quotes, on the book as it is declared.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from .audience import private_in
from .blocks import read_by
from .branches import refuse_unreached
from .charts import read_chart
from .entry import REF
from .families import ENDINGS
from .formula import RANGE_FUNCTIONS, SAFE_FUNCTIONS, Formula, Reference, read_formula, resolve
from .kinds import MAX_CHOICE
from .limits import refuse_long, refuse_unreadable
from .mistakes import DeclarationError, concerning, meant
from .parts import Book, Chart, Column, Form, Ledger, Pictures, Section, Sheet, Table, addresses
from .tokens import Token, tokens


def proven(book: Book) -> dict[str, Formula]:
    """All formulas of an expanded book, read and proven; DeclarationError names the entry and what is wrong with it."""
    formulas = formulas_of(book)
    refuse_unsound(book, formulas)
    return formulas


def formulas_of(book: Book) -> dict[str, Formula]:
    """All formulas of an expanded book, read; DeclarationError for what cannot be read."""
    formulas: dict[str, Formula] = {}
    for address, column in book.entries.items():
        if column.entry.who == "computed":
            with concerning(address):
                formulas[address] = read_formula(book, column)
    return formulas


def refuse_unsound(book: Book, formulas: Mapping[str, Formula]) -> None:
    """DeclarationError for the first entry, table, sheet, chart or check with which something is wrong."""
    _refuse_doubles(book)
    _refuse_private(book)
    reads: dict[str, Sequence[str]] = {}
    for address, column in book.entries.items():
        with concerning(address):
            _refuse_wrong_source(book, column)
            _refuse_strays(book, column)
            _refuse_split_choices(column)
            if column.entry.who != "computed":
                continue
            formula = formulas[address]
            _refuse_unsafe(formula)
            _refuse_ranges_as_values(book, formula)
            reads[address] = [read.address for read in read_by(book, formula)]
            _refuse_leaks(book, column.sheet, reads[address], private=column.entry.private)
    _refuse_circles(reads)
    refuse_unreached(book, formulas)
    _refuse_torn_paper(book)
    _refuse_wrong_tables(book)
    _refuse_wrong_main(book)
    _refuse_wrong_charts(book)
    _refuse_wrong_checks(book)
    refuse_unreadable(book, derived=True)
    refuse_long(book, formulas)


def _refuse_private(book: Book) -> None:
    """A vendor's book holds nothing that is marked as the brand's own."""
    left = list(private_in(book)) if book.audience == "vendor" else []
    if left:
        raise DeclarationError(f"the vendor's book still holds the brand's own: {', '.join(left)}")


def _refuse_split_choices(column: Column) -> None:
    """A list that is written into its cells is parted by commas: a choice with one would be offered as two."""
    choices = column.entry.kind.choices
    split = [choice for choice in choices if "," in choice]
    if split and len(",".join(choices)) <= MAX_CHOICE:
        raise DeclarationError(f"the list of its cell would be parted at the comma of {split[0]!r}: say it without one")


def _refuse_strays(book: Book, column: Column) -> None:
    """What an entry names beside its formula must be in this book; and no entry is called as a word of the language is."""
    sheet, table, entry = column
    if entry.name in ENDINGS:
        raise DeclarationError(f"{entry.name!r} is a word of the formulas' language and no name for an entry")
    beside = f"{sheet.name}.{table.name}." if table else f"{sheet.name}."
    for word, address in (
        ("unless", entry.unless and beside + entry.unless),
        ("keeps", entry.keeps and beside + entry.keeps),
        ("asked_by", entry.asked_by),
    ):
        if address and address not in book.entries:
            names = {known.rpartition(".")[2] for known in book.entries}
            near = meant(address.rpartition(".")[2], names)
            raise DeclarationError(f"{word} names {address}, which is not in this book{near}")


def _refuse_torn_paper(book: Book) -> None:
    """What is not printed stands last on its sheet: paper ends there."""
    for sheet in book.sheets:
        left_out = ""
        for part in sheet.parts:
            if isinstance(part, Form | Ledger | Table | Pictures) and not part.printed:
                left_out = part.title
            elif left_out:
                raise DeclarationError(
                    f"sheet {sheet.name}: {left_out!r} is not printed, and what follows it is: paper ends there"
                )


def _refuse_wrong_tables(book: Book) -> None:
    for address, (_, table) in book.tables.items():
        with concerning(f"table {address}"):
            names = {entry.name for entry in table.entries}
            _refuse_torn_table(table)
            if table.key not in names:
                raise DeclarationError(f"its key {table.key!r} is not among its columns" + meant(table.key, names))
            if table.mirrors and table.mirrors not in book.tables:
                raise DeclarationError(f"it mirrors {table.mirrors}, which is not in this book")
            strays = {name for row in table.rows for name in row} - names
            if strays:
                raise DeclarationError(f"its rows fill {', '.join(sorted(strays))}, which are not among its columns")
    for axis, address in book.axes.items():
        if address not in book.tables:
            raise DeclarationError(f"axis {axis}: its members are the rows of {address}, which is not in this book")


def _refuse_torn_table(table: Table) -> None:
    """What is not printed stands last, and what is folded away last of that."""
    hidden = folded = ""
    for one in table.columns:
        section = one if isinstance(one, Section) else Section("", (one,))
        if hidden and section.printed:
            raise DeclarationError(f"its section {hidden!r} is not printed, and what follows it is: paper ends there")
        in_sight = section.printed or not section.folded
        if folded and in_sight:
            raise DeclarationError(f"its section {folded!r} is folded away, and what follows it is not: it stands last")
        hidden = hidden or ("" if section.printed else section.title)
        folded = folded or ("" if in_sight else section.title)


def _refuse_wrong_checks(book: Book) -> None:
    """What checks and cautions read must be there, whether or not a derived sheet counts them, and shared with shared ones."""
    for sheet in book.sheets:
        named = [(f"{sheet.name}, check {check.name!r}", check.formula, check.private) for check in sheet.checks]
        named += [(f"{sheet.name}, caution {one.name!r}", one.formula, False) for one in sheet.cautions]
        for name, formula, private in named:
            with concerning(name):
                words = (token.text for token in tokens(formula) if token.sort == "name")
                reads = [resolve(book, sheet, None, word).address for word in words]
                _refuse_leaks(book, sheet, reads, private=private)


def _refuse_wrong_main(book: Book) -> None:
    for sheet in book.sheets:
        first = sheet.parts[0] if sheet.parts else None
        if sheet.main and not (isinstance(first, Table) and first.name == sheet.main):
            raise DeclarationError(
                f"{sheet.name}: its main table {sheet.main!r} is not its first part, and would scroll away"
            )


def _refuse_wrong_charts(book: Book) -> None:
    for sheet in book.sheets:
        for part in sheet.parts:
            if not isinstance(part, Chart):
                continue
            with concerning(f"{sheet.name}, chart {part.title!r}"):
                _refuse_leaks(book, sheet, read_chart(book, sheet, part).reads, private=part.private)


def _refuse_doubles(book: Book) -> None:
    counted = Counter(address for sheet in book.sheets for address, _ in addresses(sheet))
    counted.update(f"table {address}" for sheet in book.sheets for address in _table_addresses(sheet.name, sheet.parts))
    counted.update(f"sheet titled {sheet.title}" for sheet in book.sheets)
    doubled = [address for address, count in counted.items() if count > 1]
    if doubled:
        raise DeclarationError(f"declared twice: {', '.join(doubled)}")


def _table_addresses(sheet: str, parts: tuple[object, ...]) -> Iterator[str]:
    return (f"{sheet}.{part.name}" for part in parts if isinstance(part, Table))


def _refuse_unsafe(formula: Formula) -> None:
    for token in formula.tokens:
        if token.sort == "function" and token.text not in SAFE_FUNCTIONS:
            raise DeclarationError(f"{token.text} is not on the safe list")


def _refuse_ranges_as_values(book: Book, formula: Formula) -> None:
    open_functions: list[str] = []
    for index, token in enumerate(formula.tokens):
        if token.text == "(":
            before = formula.tokens[index - 1] if index else Token("", "")
            open_functions.append(before.text if before.sort == "function" else "")
        elif token.text == ")" and open_functions:
            open_functions.pop()
        reference = formula.references[index]
        if reference is not None:
            _refuse_range(book, formula, index, reference, open_functions)


def _refuse_range(book: Book, formula: Formula, index: int, reference: Reference, inside: list[str]) -> None:
    name = formula.tokens[index].text
    around = [formula.tokens[near].text for near in (index - 1, index + 1) if 0 <= near < len(formula.tokens)]
    nearest = next((function for function in reversed(inside) if function), "")
    if ":" in around:
        if nearest not in RANGE_FUNCTIONS:
            raise DeclarationError(f"{name} is an end of a block, used as one value")
        return
    if reference.sort == "column":
        if nearest not in RANGE_FUNCTIONS:
            raise DeclarationError(f"{name} is a whole column, used as one value")
        multiplied = "*" in around or "/" in around
        computed_column = reference.address in book.entries and book.entries[reference.address].entry.who == "computed"
        if "SUMPRODUCT" in inside and multiplied and computed_column:
            # A computed cell that shows blank holds "", and "" times a number is an error.
            raise DeclarationError(f"{name} is computed and may be blank: give SUMPRODUCT it as an argument of its own")
    elif around == ["(", ")"] and nearest in {"SUM", "SUMPRODUCT", "COUNT", "COUNTA"}:
        raise DeclarationError(f"{nearest}({name}) adds up one cell; the column is <table>.{name}")


def _refuse_leaks(book: Book, sheet: Sheet, reads: Iterable[str], *, private: bool) -> None:
    # A derived sheet is made anew for each audience, from what that audience may see.
    if sheet.private or private or sheet.derived:
        return
    for address in reads:
        other = book.entries.get(address)
        if other is not None and (other.sheet.private or other.entry.private):
            raise DeclarationError(f"shared, but reads the brand's own {address}")


def _refuse_wrong_source(book: Book, column: Column) -> None:
    """A list of choices must be a column of the book, and a shared one may not be the brand's own."""
    source = column.entry.kind.source
    if not source:
        return
    table, _, name = source.rpartition(".")
    if table not in book.tables or (name != REF and source not in book.entries):
        raise DeclarationError(f"its choices are {source}, which is no column of the book")
    own = book.tables[table][0].private or (name != REF and book.entries[source].entry.private)
    if own and not (column.sheet.private or column.entry.private):
        raise DeclarationError(f"shared, but its choices are the brand's own {source}")


def _refuse_circles(reads: Mapping[str, Sequence[str]]) -> None:
    done: set[str] = set()

    def visit(address: str, trail: tuple[str, ...]) -> None:
        if address in done:
            return
        if address in trail:
            raise DeclarationError(" -> ".join((*trail[trail.index(address) :], address)) + ": a circle")
        for read in reads.get(address, ()):
            visit(read, (*trail, address))
        done.add(address)

    for address in reads:
        visit(address, ())
