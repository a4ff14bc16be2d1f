"""The book: all sheets in their order. One file a sheet; Guide and Checks are made from the others."""

from __future__ import annotations

from types import MappingProxyType

from sheetgen.declare.about import About
from sheetgen.declare.parts import Book

from .approvals import APPROVALS
from .artwork import ARTWORK
from .chart import CHART
from .checks import checks
from .colorways import COLORWAYS
from .construction import CONSTRUCTION
from .cutting import CUTTING
from .ease import EASE
from .fit import FIT
from .grade import GRADE
from .growing import with_new_rows
from .guide import guide
from .labels import LABELS
from .lengths import LENGTHS
from .lists import LISTS
from .markers import MARKERS
from .materials import MATERIALS
from .measurements import MEASUREMENTS
from .order import ORDER
from .pricing import PRICING
from .quality import QUALITY
from .questions import QUESTIONS
from .quote import QUOTE
from .revisions import REVISIONS
from .style import STYLE
from .thread import THREAD
from .workings import WORKINGS
from .workings.references import with_references
from .yield_ import YIELD

ABOUT = About(
    number="style.number", name="style.name", company="style.company", revision="style.revision", purpose="style.purpose",
    stage="style.stage", vendor="style.vendor", due="style.due", unit="style.unit", currency="style.currency",
    fractions="style.fractions", paper="style.paper", footer="style.footer", wanted="guide.show_{}", accent="style.accent",
)  # fmt: skip
BOOK = Book(
    about=ABOUT,
    sheets=with_new_rows(with_references((
        STYLE, COLORWAYS, CONSTRUCTION, THREAD, ARTWORK, LABELS, MEASUREMENTS, GRADE, LENGTHS, EASE, FIT, CHART,
        MATERIALS, YIELD, MARKERS, QUOTE, PRICING, ORDER, CUTTING, APPROVALS, QUALITY, QUESTIONS, REVISIONS, LISTS, WORKINGS,
    ))),
    axes=MappingProxyType({"size": "style.sizes", "colorway": "colorways.list", "round": "fit.rounds", "length": "style.lengths"}),
    optional_axes=frozenset({"length"}),
    derived=(checks, guide),
    order=(
        "guide", "style", "colorways", "construction", "thread", "artwork", "labels", "measurements", "grade", "lengths", "fit", "ease", "chart",
        "materials", "yield", "markers", "quote", "pricing", "order", "cutting", "approvals", "quality", "questions", "checks",
        "revisions", "lists", "workings",
    ),
)  # fmt: skip
