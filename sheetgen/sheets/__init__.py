"""The book: all sheets in their order. One file a sheet; Guide and Checks are made from the others."""

from __future__ import annotations

from types import MappingProxyType

from sheetgen.declare.parts import Book

from .approvals import APPROVALS
from .artwork import ARTWORK
from .chart import CHART
from .checks import checks
from .colorways import COLORWAYS
from .construction import CONSTRUCTION
from .ease import EASE
from .fit import FIT
from .guide import guide
from .labels import LABELS
from .lengths import LENGTHS
from .lists import LISTS
from .materials import MATERIALS
from .measurements import MEASUREMENTS
from .order import ORDER
from .pricing import PRICING
from .quality import QUALITY
from .quote import QUOTE
from .revisions import REVISIONS
from .style import STYLE
from .yield_ import YIELD

BOOK = Book(
    sheets=(
        STYLE, COLORWAYS, CONSTRUCTION, ARTWORK, LABELS, MEASUREMENTS, LENGTHS, EASE, FIT, CHART, MATERIALS, YIELD, QUOTE, PRICING, ORDER,
        APPROVALS, QUALITY, REVISIONS, LISTS,
    ),
    axes=MappingProxyType({"size": "style.sizes", "colorway": "colorways.list", "round": "fit.rounds", "length": "style.lengths"}),
    optional_axes=frozenset({"length"}),
    derived=(checks, guide),
    order=(
        "guide", "style", "colorways", "construction", "artwork", "labels", "measurements", "lengths", "fit", "ease", "chart", "materials", "yield",
        "quote", "pricing", "order", "approvals", "quality", "checks", "revisions", "lists",
    ),
)  # fmt: skip
