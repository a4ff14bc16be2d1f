"""Charts: native and live, drawn from the cells that they name, in the workbook's own colors and font."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate
from typing import TYPE_CHECKING, Any

from sheetgen.declare.charts import Plot, category_heading, read_chart
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Kind, Value
from sheetgen.declare.parts import Chart
from sheetgen.texts import say
from sheetgen.workbook.model import look
from sheetgen.workbook.model.geometry import Geometry, TablePlace
from sheetgen.workbook.model.page import Page, PlacedCharts, Span
from sheetgen.workbook.model.values import Ready, with_words
from sheetgen.workbook.write.chart_space import Space, lying, standing, width_of

if TYPE_CHECKING:
    from xlsxwriter import Workbook
    from xlsxwriter.worksheet import Worksheet

_MARKERS = ("circle", "square", "diamond", "triangle", "x", "star", "long_dash", "plus")
_DASHES = ("solid", "dash", "square_dot", "long_dash_dot")
_PATTERNS = ("wide_upward_diagonal", "wide_downward_diagonal", "large_grid")
"""What a series is told apart by, beside its name, when the colors begin again."""
_COLORS = tuple(color for pair in zip(look.DARK, look.LIGHT, strict=True) for color in pair)
_LABEL_HEIGHT = 17
"""Pixels that a number needs in a segment, one above another."""
_EDGE = 4


def add_charts(
    book: Workbook, sheet: Worksheet, page: Page, ready: Ready, where: Geometry, known: Mapping[Place, Value]
) -> None:
    """All charts of one sheet, each in its frame; `known` are the typed and the calculated values."""
    for part in page.parts:
        if isinstance(part, PlacedCharts):
            for chart, span in part.frames:
                writer = _ChartWriter(book, page, ready, where, known, chart, span)
                options = {
                    "x_offset": _EDGE,
                    "y_offset": _EDGE,
                    "object_position": 1,
                    "description": writer.in_words(),
                }
                if sheet.insert_chart(span.row - 1, span.first - 1, writer.drawn(), options):
                    raise RuntimeError(f"sheet {page.sheet.title}: the chart {chart.title} could not be written")


@dataclass
class _ChartWriter:
    """Draws one chart: fields as lying bars, columns as standing ones or as lines."""

    book: Workbook
    page: Page
    ready: Ready
    where: Geometry
    known: Mapping[Place, Value]
    chart: Chart
    span: Span

    @cached_property
    def plot(self) -> Plot:
        """What the chart's names mean."""
        return read_chart(self.ready.book, self.page.sheet, self.chart)

    @property
    def lying(self) -> bool:
        """Whether it draws fields: one bar, or a bar each, one under another."""
        return not self.plot.categories

    @property
    def is_line(self) -> bool:
        """Whether it draws lines."""
        return self.chart.sort == "line"

    @property
    def stacked(self) -> bool:
        """Whether the series stand on each other."""
        return self.chart.sort == "stacked bars"

    @cached_property
    def space(self) -> Space:
        """How much room there is, and what goes where."""
        wide = sum(int(7 * width + 5) for width in self.page.widths[self.span.first - 1 : self.span.last]) - 2 * _EDGE
        high = int(self.page.heights[self.span.row] * 4 / 3) - 2 * _EDGE
        names = [self._words(name) for _, name in self.plot.series]
        if self.lying:
            return lying(wide, high, names, self._longest, beside=not self.stacked)
        categories = [str(self.known.get(Place(self.plot.categories, ref), "")) for ref, _ in self.rows]
        return standing(wide, high, names, self._longest, categories)

    @cached_property
    def rows(self) -> list[tuple[str, int]]:
        """Refs and rows that are drawn of a table: all, or as far as computed lines have something to show."""
        rows = list(self._table.rows.items())
        series = [address for address, _ in self.plot.series]
        if not self.is_line or all(self.ready.book.entries[address].entry.who != "computed" for address in series):
            return rows
        filled = [
            index
            for index, (ref, _) in enumerate(rows)
            if any(self._number(Place(address, ref)) is not None for address in series)
        ]
        return rows[filled[0] : filled[-1] + 1] if filled else rows

    @property
    def _table(self) -> TablePlace:
        return self.where.tables[self.plot.categories.rpartition(".")[0]]

    def _number(self, place: Place) -> float | None:
        value = self.known.get(place)
        return value if isinstance(value, int | float) else None

    def _numbers(self) -> list[list[float]]:
        """What is drawn, row by row (all fields are one row), as the values are now."""
        refs = [ref for ref, _ in self.rows] if self.plot.categories else [""]
        found = [[self._number(Place(address, ref)) for address, _ in self.plot.series] for ref in refs]
        return [numbers for row in found if (numbers := [number for number in row if number is not None])]

    @property
    def _most(self) -> float:
        return max((sum(map(abs, row)) for row in self._numbers()), default=0)

    @property
    def _longest(self) -> str:
        """A number as long as any that is shown."""
        return f"-{self._most:.2%}" if self._kind.name == "percent" else f"-{self._most:,.2f}"

    def in_words(self) -> str:
        """The text alternative: what it shows, and of what."""
        *names, last = (self._words(name) for _, name in self.plot.series)
        listed = say("{listed} and {last}", listed=", ".join(names), last=last) if names else last
        heading = self._words(category_heading(self.ready.book, self.plot))
        along = say(", by {heading}", heading=heading) if heading else ""
        head = self._words(self.chart.description or self.chart.title).rstrip(".")
        return f"{head}: {self.chart.sort}, {listed}, {self._words(self.chart.unit)}{along}."

    def drawn(self) -> Any:
        """The finished drawing."""
        sort = "line" if self.is_line else "bar" if self.lying else "column"
        options = {"type": sort, "name": self._words(self.chart.title)}
        drawing: Any = self.book.add_chart({**options, "subtype": "stacked"} if self.stacked else options)
        beside = self.lying and not self.stacked
        series = list(enumerate(self.plot.series))
        # Programs draw lying bars, and the legend beside them, from below.
        for index, (address, name) in reversed(series) if beside else series:
            drawing.add_series(self._series(index, address, name))
        self._axes(drawing)
        drawing.set_legend({"position": "right" if beside else "bottom", "font": _font(9)})
        title = {"name": options["name"], "name_font": {**_font(12, look.BAND), "bold": True}}
        drawing.set_title({**title, "layout": {"x": 0.01, "y": round(8 / self.space.high, 4)}})
        drawing.set_chartarea({"border": {"color": look.RULE}, "fill": {"color": "#FFFFFF"}})
        drawing.set_plotarea({"layout": self.space.layout})
        drawing.set_size({"width": self.space.wide, "height": self.space.high})
        return drawing

    def _series(self, index: int, address: str, name: str) -> dict[str, Any]:
        options: dict[str, Any] = {"name": self._words(name), "values": self._range(address), "gap": 40}
        if self.plot.categories:
            options["categories"] = self._range(self.plot.categories)
        color = _COLORS[index % len(_COLORS)]
        round_ = index // len(_COLORS)
        if self.is_line:
            options.update(_line(index))
        elif round_:
            pattern = _PATTERNS[(round_ - 1) % len(_PATTERNS)]
            options["pattern"] = {"pattern": pattern, "fg_color": color, "bg_color": "#FFFFFF"}
            color = "#FFFFFF"
        else:
            options["fill"] = {"color": color}
        if not self.is_line:
            options["border"] = {"color": look.FAINT, "width": 0.5}
        labels = self._labels(color)
        return {**options, "data_labels": labels} if labels else options

    def _range(self, address: str) -> list[str | int]:
        if self.lying:
            field = self.where.fields[address]
            return [field.sheet, field.row - 1, field.column - 1, field.row - 1, field.column - 1]
        table = self._table
        column = table.columns.get(address.rpartition(".")[2], table.ref_column) - 1
        first, last = (self.rows[0][1], self.rows[-1][1]) if self.rows else (table.first, table.first)
        return [table.sheet, first - 1, column, last - 1, column]

    def _labels(self, color: str) -> dict[str, Any]:
        """A number on each bar, segment or point that has room for it, and no 0 where a cell is blank."""
        form = self._form(self._kind)
        if self.stacked:
            least = self._least_segment()
            shown = f"[>={least:.4f}]{form};[<0]-{form};" if least else f"{form};-{form};"
            return {"value": True, "num_format": shown, "position": "center", "font": _font(8, look.ink_on(color))}
        series = len(self.plot.series)
        count = 0 if self.lying else series * len(self.rows)
        if count * (width_of(self._longest) + 8) > self.space.inner[0] or (self.is_line and series > 1):
            return {}
        position = "above" if self.is_line else "outside_end"
        return {"value": True, "num_format": f"{form};-{form};", "position": position, "font": _font(8)}

    def _least_segment(self) -> float:
        """The smallest segment that has room for its number, as the values are now."""
        inner_wide, inner_high = self.space.inner
        share = (width_of(self._longest) + 8) / inner_wide if self.lying else _LABEL_HEIGHT / inner_high
        return self._most * share

    @property
    def _kind(self) -> Kind:
        return self.ready.book.entries[self.plot.series[0][0]].entry.kind

    def _form(self, kind: Kind) -> str:
        """The number format: as in the cells, with at most two digits."""
        words = dict(self.ready.shape.words)
        return look.number_format(replace(kind, digits=min(kind.digits, 2)), words["{unit}"], words["{parts}"])

    def _axes(self, drawing: Any) -> None:
        values: dict[str, Any] = {
            "name": self._words(self.chart.unit), "name_font": _font(9, look.FAINT), "num_font": _font(9),
            "num_format": self._form(self._kind), "line": {"none": True},
            "major_gridlines": {"visible": True, "line": {"color": look.RULE, "width": 0.75}},
        }  # fmt: skip
        names: dict[str, Any] = {
            "num_font": _font(9), "line": {"color": look.FAINT}, "label_position": "low", "major_tick_mark": "none",
        }  # fmt: skip
        ends = [end for row in self._numbers() for end in (accumulate(row) if self.stacked else row)]
        if not self.is_line and ends and min(ends) > 0.7 * max(ends):
            # Programs let bars of nearly one length begin anywhere, and a small difference looks large.
            values["min"] = 0
        if self.lying:
            drawing.set_x_axis(values)
            drawing.set_y_axis({**names, "visible": False})
            return
        if heading := self._words(category_heading(self.ready.book, self.plot)):
            names |= {"name": heading, "name_font": _font(9, look.FAINT)}
        along = self.ready.book.entries.get(self.plot.categories)
        if along is not None and along.entry.kind.is_number:
            names["num_format"] = self._form(along.entry.kind)
        drawing.set_x_axis(names)
        drawing.set_y_axis(values)

    def _words(self, text: str) -> str:
        # xlsxwriter takes a name that looks like an address (a colorway Red!A1) for one.
        return with_words(text, self.ready.shape).replace("!", "! ").strip()


def _font(size: int, color: str = look.INK) -> dict[str, Any]:
    return {"name": look.FONT, "size": size, "color": color, "bold": False}


def _line(index: int) -> dict[str, Any]:
    """A line in a dark color: light ones are lost on white; marker and dash tell lines apart without color."""
    color = look.DARK[index % len(look.DARK)]
    dash = _DASHES[index // len(look.DARK) % len(_DASHES)]
    marker = _MARKERS[index % len(_MARKERS)]
    return {
        "line": {"color": color, "width": 1.75, "dash_type": dash},
        "marker": {"type": marker, "size": 6, "border": {"color": color}, "fill": {"color": color}},
    }
