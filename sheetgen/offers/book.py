"""The second book: the offers of several vendors for one style, with a column or a line for each vendor."""

from __future__ import annotations

from types import MappingProxyType

from sheetgen.declare.parts import Book
from sheetgen.offers.carry import AXIS
from sheetgen.offers.front import OFFERS
from sheetgen.offers.gaps import CHANGED, MISSING
from sheetgen.offers.landed import LANDED
from sheetgen.offers.lines import LINES
from sheetgen.offers.making import MAKING
from sheetgen.offers.picture import PICTURE

OFFERS_BOOK = Book(
    sheets=(OFFERS, PICTURE, LINES, MAKING, LANDED, MISSING, CHANGED),
    axes=MappingProxyType({AXIS: "picture.vendors"}),
    order=("offers", "picture", "lines", "making", "landed", "missing", "changed"),
    name="offers",
)
