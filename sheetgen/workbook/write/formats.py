"""Cell formats, made once each, from role, kind and state."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sheetgen.declare.kinds import Kind
from sheetgen.workbook.model import look
from sheetgen.workbook.model.written import Style

if TYPE_CHECKING:
    from xlsxwriter import Workbook
    from xlsxwriter.format import Format

_LEFT_KINDS = {"text", "choice", "color"}
_HEAVY = 5
"""The frame of a cell about which something is asked."""
TEXT_INDENT = 1
"""Words stand a little in, so that they never touch a number in the cell before them."""
_NARROW = 9
"""A pick no wider than this, a ref mostly, stands in the middle: at the left it would touch a number before it."""


class Formats:
    """Gives out formats of one workbook; asks for the same thing twice give the same format."""

    def __init__(self, book: Workbook, unit: str, parts: str, accent: look.Accent) -> None:
        self._book, self._unit, self._parts, self.accent = book, unit, parts, accent
        self._made: dict[tuple[object, ...], Format] = {}
        self._styles: dict[int, Style] = {}

    def get(self, **properties: Any) -> Format:
        """A format with the house font and these xlsxwriter properties."""
        key = tuple(sorted(properties.items()))
        if key not in self._made:
            base = {"font_name": look.FONT, "font_size": 10, "font_color": look.INK, "valign": "top"}
            self._made[key] = self._added({**base, **properties})
        return self._made[key]

    def mark(self, **properties: Any) -> Format:
        """The look of a conditional format: these properties and nothing else."""
        key = ("mark", *sorted(properties.items()))
        if key not in self._made:
            self._made[key] = self._added(properties)
        return self._made[key]

    def style(self, form: Format | None) -> Style:
        """How a format writes and draws a cell."""
        return self._styles.get(id(form), Style())

    def _added(self, properties: dict[str, Any]) -> Format:
        form = self._book.add_format(properties)
        self._styles[id(form)] = Style(
            properties.get("num_format", "General"),
            bool(properties.get("locked", True)),
            properties.get("font_color", "").removeprefix("#").upper(),
            properties.get("bg_color", "").removeprefix("#").upper(),
            points=float(properties.get("font_size", 10)),
        )
        return form

    def value(
        self, kind: Kind, role: str, *, locked: bool, small: bool = False, indent: int = 0, asked: bool = False
    ) -> Format:
        """The format of a value's cell; a heavy frame where something is `asked` about it."""
        centered = kind.name in {"date", "picture"} or bool(kind.source and kind.width <= _NARROW)
        key = ("value", kind.name, kind.digits, role, locked, small, indent, centered, asked)
        if key not in self._made:
            left = kind.name in _LEFT_KINDS
            self._made[key] = self.get(
                bg_color=look.ROLES[role].filled,
                border=_HEAVY if asked else 1,
                border_color=look.ASKED if asked else look.ROLES[role].frame,
                locked=locked,
                num_format=look.number_format(kind, self._unit, self._parts),
                align="center" if centered else "left" if left else "right",
                text_wrap=left,
                indent=0 if centered else TEXT_INDENT if left else indent,
                # A picture lies over the word that says that it is there.
                **({"font_color": look.FAINT, "valign": "vcenter"} if small else {}),
            )
        return self._made[key]

    def swatch(self, color: str, *, locked: bool) -> Format:
        """A cell filled with the color it names, the text in black or white, whichever reads better."""
        return self.get(
            bg_color=color,
            font_color=look.ink_on(color),
            border=1,
            border_color=look.RULE,
            locked=locked,
        )

    @property
    def label(self) -> Format:
        """A form's label."""
        return self.get(bg_color=look.HEADING, border=1, border_color=look.RULE, text_wrap=True)

    @property
    def part_title(self) -> Format:
        """The title of a form, table or ledger."""
        return self.get(
            bold=True,
            font_size=12,
            font_color=self.accent.titles,
            bottom=2,
            bottom_color=self.accent.band,
            valign="vcenter",
        )

    @property
    def heading(self) -> Format:
        """A column's heading."""
        return self.get(
            bold=True,
            bg_color=look.HEADING,
            border=1,
            border_color=look.RULE,
            text_wrap=True,
            valign="vcenter",
            align="center",
        )

    @property
    def section(self) -> Format:
        """The title over a group of columns."""
        return self.get(
            bold=True,
            bg_color=look.SECTION,
            border=1,
            border_color=look.RULE,
            align="center",
            valign="vcenter",
        )

    @property
    def note(self) -> Format:
        """A faint sentence."""
        return self.get(font_color=look.FAINT, italic=True)

    def role_word(self, role: str) -> Format:
        """The little word over a column that says who fills it."""
        return self.get(
            bg_color=look.ROLES[role].to_fill,
            border=1,
            border_color=look.RULE,
            align="left",
            valign="vcenter",
        )

    @property
    def link(self) -> Format:
        """A link to another sheet."""
        return self.get(font_color=self.accent.titles, underline=1, border=1, border_color=look.RULE, text_wrap=True)

    @property
    def words(self) -> Format:
        """A ledger's fixed words."""
        return self.get(border=1, border_color=look.RULE, text_wrap=True)
