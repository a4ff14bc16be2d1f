"""The pack on paper of a file: what stands in it and what the program draws of it, typeset."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture
from sheetgen.pack.content import Content, content_of
from sheetgen.pack.left_out import LEFT_OUT, declared
from sheetgen.pack.pages import PORTFOLIO
from sheetgen.pack.taking import Source
from sheetgen.pack.typeset import typeset, without_glyph
from sheetgen.style.diagrams import artist
from sheetgen.style.marks import CALLOUTS, with_marks
from sheetgen.workbook.exchange.accept import take_back_drawings
from sheetgen.workbook.model.pictures import with_vector
from sheetgen.workbook.model.values import Values, with_words
from sheetgen.workbook.read.found import Returned


class Pack(NamedTuple):
    """A PDF, what stands in it, for which purpose, and the characters that no font at hand could draw."""

    data: bytes
    content: Content
    purpose: str
    missing: dict[str, Place]

    @property
    def titles(self) -> list[str]:
        """Titles of its pages, in order."""
        return [str(page["title"]) for page in self.content.document["pages"]]


def content_for(got: Source, purpose: str | None, only: tuple[str, ...] = ()) -> tuple[Content, str]:
    """What stands on the pages of a file for a purpose, that of the file if not given; and which that is.

    Drawings of the program's own are made anew for a file that was read; a copy as it is written holds them.
    """
    asked = purpose or str(got.typed.get(Place(got.ready.book.about.purpose)) or "quote")
    return content_of(got, asked, only, _pictures(got, asked) if isinstance(got, Returned) else None), asked


def _pictures(got: Returned, asked: str) -> Values:
    """The pictures of a file that was read, as paper has them: drawn anew by the program, the brand's own with their lines;
    for a portfolio the flats have no callouts on them."""
    values = dict(got.typed)
    take_back_drawings(got, values)
    values |= {place: with_vector(value) for place, value in values.items() if isinstance(value, Picture)}
    if asked == PORTFOLIO:
        values = {place: value for place, value in values.items() if not place.entry.startswith(CALLOUTS)}
    shown = {place: value for place, value in values.items() if isinstance(value, Picture)}
    # Only where the clean one is in the file: what a copy shows has its callouts already.
    clean = {place for place, value in shown.items() if value != got.typed.get(place)}
    marked = {place: value for place, value in with_marks(values).items() if place in clean}
    drawer = artist(got.ready, values)
    return {**shown, **marked, **(drawer.draw(got.shown) if drawer else {})}


def pack_of(got: Source, purpose: str | None = None, only: tuple[str, ...] = (), fonts: Path | None = None) -> Pack:
    """The pack of a working file, a copy or a return; without pages where nothing stands on any."""
    content, asked = content_for(got, purpose, only)
    data = typeset(content, fonts) if content.document["pages"] else b""
    return Pack(data, content, asked, without_glyph(content, fonts))


def left_out(got: Source, content: Content) -> dict[str, str]:
    """What is filled in a file and stands on none of these pages as declared: sheet and heading, with the reason."""
    found: dict[str, str] = {}
    for place, value in got.typed.items():
        column = got.ready.book.entries.get(place.entry)
        if (
            value in (None, "")
            or column is None
            or place in content.taken
            or column.entry.private
            or column.sheet.private
        ):
            continue
        if address := declared(place.entry, column.entry):
            heading = with_words(column.entry.heading, got.ready.shape) if address.count(".") else ""
            found.setdefault(", ".join(filter(None, (column.sheet.title, heading))), LEFT_OUT[address])
    return found
