"""Styles of every size, filled at random with whatever a cell can hold."""

import datetime
import random

from hypothesis import strategies as st

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Kind, Value
from sheetgen.declare.parts import Book
from sheetgen.workbook.model.values import Values, ready, row_refs, shape_of

REFUSALS = {
    "must not hold control characters",
    "must not hold _x000D_ or x005F_, which workbook files keep for themselves",
    "must be at most 255 characters",
}
"""Why a text may be refused: nothing else keeps one out of a cell."""

AWKWARD = (
    "=1+1", "=SUM(A1:A9)", "+1", "-1", "@x", "'quoted", '"', "a\nb", "\n", "\t", " lead", "trail ", "  ", "_x0041_", "_x000a_", "_X0041_",
    "a _x20AC_ b", "\U0001f9f5\U0001f468\u200d\U0001f469\u200d\U0001f467", "e\u0301", "\ufeffmark", "\u2028", "\x85", "\x7f", "\xa0", "#N/A",
    "#REF!", "TRUE", "1e5", "007", "2026-01-01", "12 3/8", "{unit}", "{size}", "{currency}", "&amp;", "<b>", "]]>", "x" * 32767, "yes", "picture",
    "M1", "Z9", "insert rows above", "Ref", "sheetgen record", "a\r\nb", "_x000D_", "_x005F_x0041_", "\x00", "\ufffe",
)  # fmt: skip

texts = st.one_of(st.text(max_size=40), st.sampled_from(AWKWARD), st.text(alphabet="_x0041DF\n= \"'", max_size=12))
numbers = st.one_of(
    st.integers(-(10**15) + 1, 10**15 - 1),
    st.floats(-1e12, 1e12, allow_subnormal=False).map(lambda value: float(f"{value:.15g}")),
    st.decimals(-1000, 1000, places=4).map(float),
    st.sampled_from([0, 0.1, 0.05, 1 / 3 and 0.333333333333333, 1e-9, 123456789012345, 0.5]),
)
dates = st.dates(datetime.date(1990, 1, 1), datetime.date(2100, 12, 31))


class Filler:
    """Gives values out of the pools that one example drew."""

    def __init__(
        self, chance: random.Random, words: list[str], figures: list[float], days: list[datetime.date]
    ) -> None:
        self.chance, self.words, self.figures, self.days = chance, words, figures, days
        self.long_ones = 1

    def value(self, kind: Kind) -> Value:
        """A value of the kind; None where the one that came up may not stand there."""
        if kind.name == "picture":
            return None
        if kind.name == "date":
            value: Value = self.chance.choice(self.days)
        elif kind.is_number:
            value = self.figure(kind)
        elif kind.name == "color":
            value = f"#{self.chance.randrange(16**6):06X}"
        elif kind.choices and not kind.open:
            value = self.chance.choice(kind.choices)
        else:
            value = self.chance.choice(self.words)
            if len(value) > 255:  # one is enough to show that it survives, a hundred only take time
                self.long_ones -= 1
                if self.long_ones < 0:
                    return None
            wrong = kind.wrong(value)
            assert wrong is None or wrong in REFUSALS, (value, wrong)
            return None if wrong else value
        return None if kind.wrong(value) else value

    def figure(self, kind: Kind) -> float:
        value = self.chance.choice(self.figures)
        if kind.name == "whole":
            value = int(value)
        if kind.least is not None or kind.most is not None:
            low = kind.least if kind.least is not None else -1e9
            high = kind.most if kind.most is not None else 1e9
            if not low <= value <= high:
                value = self.chance.choice([low, high, (low + high) / 2])
        return int(value) if kind.name == "whole" else value


@st.composite
def styles(draw: st.DrawFn, book: Book, rows: dict[str, tuple[int, int]]) -> Values:
    """Values for the book: `rows` says how many rows a table has at least and at most; most entries filled, some not."""
    fill = Filler(
        random.Random(draw(st.integers(0, 2**32))),  # one draw for a whole style: thousands of them would take minutes
        draw(st.lists(texts, min_size=1, max_size=25)),
        draw(st.lists(numbers, min_size=1, max_size=15)),
        draw(st.lists(dates, min_size=1, max_size=5)),
    )
    density = draw(st.sampled_from([0.05, 0.3, 0.9]))
    values: Values = {}
    for address, (_, table) in book.tables.items():
        if not table.mirrors and not table.rows:
            key = next(entry for entry in table.entries if entry.name == table.key)
            for number in range(1, draw(st.integers(*rows.get(address, (0, 3)))) + 1):
                if key.who in {"designer", "vendor"}:
                    name = fill.value(key.kind) or f"Row {number}"
                    short = name[:60] if isinstance(name, str) else name
                    values[Place(f"{address}.{table.key}", f"{table.ref}{number}")] = short
    for unit in ("cm", "mm", "in"):
        if fill.chance.random() < 0.4:
            values[Place("style.unit")] = unit
    made = ready(book, shape_of(book, values))
    refs = row_refs(made, values)
    for address, column in made.book.entries.items():
        if column.entry.who not in {"designer", "vendor"} or address == "style.unit":
            continue
        is_key = column.table is not None and column.entry.name == column.table.key
        for row in refs[address.rpartition(".")[0]] if column.table else [""]:
            keyless = (
                column.table is not None
                and Place(f"{address.rpartition('.')[0]}.{column.table.key}", row) not in values
            )
            axis = address.rpartition(".")[0] in book.axes.values()
            if is_key or (axis and keyless) or fill.chance.random() > density:
                continue
            value = fill.value(column.entry.kind)
            if value not in (None, ""):
                values[Place(address, row)] = value
    return values
