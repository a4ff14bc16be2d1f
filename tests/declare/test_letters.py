"""How wide words are: against Adobe's published metrics, as reportlab carries them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth

from sheetgen.declare.letters import lines_in, pixels_wide
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.page import PlacedTable
from sheetgen.workbook.model.values import ready, shape_of, with_words
from tests.workbook.test_layout import MANY

PIXELS_PER_POINT = 96 / 72
ASCII = st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=60)


@given(ASCII, st.booleans())
def test_a_line_is_as_wide_as_in_the_published_metrics(text, bold):
    font = "Helvetica-Bold" if bold else "Helvetica"
    assert pixels_wide(text, bold=bold) == pytest.approx(stringWidth(text, font, 10) * PIXELS_PER_POINT, abs=0.01)


@given(ASCII, st.floats(16, 400))
def test_lines_are_as_many_as_a_plain_filling_takes(text, room):
    """Words set one after the other by the referee's widths, a new line where one does not fit: never more than we count."""
    lines, used = 1, 0.0
    for word in text.split():
        wide = stringWidth(word, "Helvetica", 10) * PIXELS_PER_POINT
        blank = stringWidth(" ", "Helvetica", 10) * PIXELS_PER_POINT if used else 0.0
        if used and used + blank + wide > room - 0.01:
            lines, used, blank = lines + 1, 0.0, 0.0
        used += blank + wide
        while used > room + 0.01:
            lines, used = lines + 1, used - room
    assert lines <= lines_in(text, room) + 1e-9


@pytest.mark.parametrize(("text", "lines"), [("", 1), ("a\nb", 2), ("襟ぐり幅を平らに置いて測る", 3)])
def test_lines(text, lines):
    assert lines_in(text, 70) == lines


def test_no_word_of_any_heading_breaks():
    """Of all tables, with three colorways and eight sizes; names that people give may be longer than a column."""
    made = ready(BOOK, shape_of(BOOK, MANY))
    names = {name for _, members in made.shape.axes for name in members}
    for page in plan(made, MANY)[0]:
        for part in page.parts:
            for entry, column in part.columns if isinstance(part, PlacedTable) else ():
                for word in with_words(entry.heading, made.shape).replace("-", "- ").split():
                    if word not in names:
                        room = 7 * page.widths[column - 1] + 1
                        assert stringWidth(word, "Helvetica-Bold", 10) * PIXELS_PER_POINT <= room, (
                            part.address,
                            entry.heading,
                        )
