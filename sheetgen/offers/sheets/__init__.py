"""The second book: the offers of several vendors for one style, with a column or a line for each vendor."""

from __future__ import annotations

from types import MappingProxyType

from sheetgen.declare.parts import Book
from sheetgen.offers.sheets.carry import AXIS
from sheetgen.offers.sheets.gaps import CHANGED, MISSING
from sheetgen.offers.sheets.landed import LANDED
from sheetgen.offers.sheets.lines import LINES
from sheetgen.offers.sheets.making import MAKING
from sheetgen.offers.sheets.offers import OFFERS
from sheetgen.offers.sheets.picture import PICTURE
from sheetgen.offers.sheets.quantity import QUANTITY
from sheetgen.sheets import ABOUT

OFFERS_BOOK = Book(
    about=ABOUT,
    sheets=(OFFERS, PICTURE, LINES, MAKING, QUANTITY, LANDED, MISSING, CHANGED),
    axes=MappingProxyType({AXIS: "picture.vendors"}),
    order=("offers", "picture", "lines", "making", "quantity", "landed", "missing", "changed"),
    name="offers",
)
