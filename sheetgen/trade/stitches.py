"""Stitch types of ISO 4915:1991 and the thread they use.

Used for the stitch choices of the construction sheet and for thread per garment. Numbers as taught on public course
pages and in a thread maker's guide. Thread figures are estimates that hide a thickness and a density; sources
disagree, so every figure names its table and the user may type another.
"""

from typing import Final, NamedTuple

TABLES: Final = {
    "A": "Carr & Latham, The Technology of Clothing Manufacture, as restated in a course hand-out",
    "B": "a thread maker's stitch type classification guide (approximate)",
    "C": "rule of thumb in a published full-shirt example",
}
"""Where thread figures come from. Totals seen in a stored source; needle shares of table A from memory, 301
seen."""
DEFAULT_TABLE: Final = "A"


class Stitch(NamedTuple):
    """One stitch type; thread in meters for each meter of seam, None where no table gives it.

    `needle_share` is the part of that thread in the needles (0 to 1); the rest is bobbin, looper and cover
    thread. `table` is the key in TABLES of both figures, empty without one.
    """

    code: str
    name: str
    threads: int
    use: str
    thread_m_per_m: float | None = None
    needle_share: float | None = None
    table: str = ""


STITCHES: Final = (
    Stitch("101", "single-thread chainstitch", 1, "basting, bag closing, button sewing", 4.0, 1.0, "A"),
    Stitch("103", "single-thread blind chainstitch", 1, "blind hems", 4.5, None, "B"),
    Stitch("104", "saddle-look chainstitch", 1, "decorative topstitch"),
    Stitch("107", "single-thread zigzag chainstitch", 1, "button sewing, temporary"),
    Stitch("202", "back stitch (hand)", 1, "hand tailoring"),
    Stitch("204", "cross or catch stitch (hand)", 1, "hand hems, lapels"),
    Stitch("205", "back-stitch variant (hand)", 1, "hand tailoring"),
    Stitch("209", "saddle stitch", 1, "pick-stitched edges"),
    Stitch("301", "lockstitch", 2, "general seaming, topstitching, collars, cuffs, pockets", 2.5, 0.5, "A"),
    Stitch("304", "zigzag lockstitch", 2, "lace, applique, bartacks, buttonholes", 7.0, 0.5, "A"),
    Stitch("306", "blind lockstitch", 2, "secure blind hems"),
    Stitch("308", "two-step zigzag lockstitch", 2, "elastic attaching"),
    Stitch("315", "three-step zigzag lockstitch", 2, "lingerie, elastic"),
    Stitch("401", "two-thread chainstitch", 2, "seams that stretch, waistbands, legs", 5.5, 0.25, "A"),
    Stitch("404", "zigzag chainstitch", 2, "decorative, lingerie, elastic"),
    Stitch("406", "two-needle bottom coverstitch", 3, "knit hems, belt loops, binding, elastic", 18.0, 0.3, "A"),
    Stitch("407", "three-needle bottom coverstitch", 4, "elastic on underwear"),
    Stitch("501", "one-thread overedge", 1, "break-open and fur seams"),
    Stitch("502", "two-thread overedge (bag seam)", 2, "bag seams"),
    Stitch("503", "two-thread overedge", 2, "serging one ply, blind hems on knits", 12.0, 0.55, "A"),
    Stitch("504", "three-thread overedge", 3, "knit seams, edge neatening", 14.0, 0.2, "A"),
    Stitch("505", "three-thread overedge (box edge)", 3, "serging, bulky edges"),
    Stitch("512", "four-thread mock safety", 4, "stretch seams on knits", 18.0, 0.25, "A"),
    Stitch("514", "four-thread overedge", 4, "shoulder, side, armhole seams on knits"),
    Stitch("515", "four-thread safety stitch (401 + 503)", 4, "woven seams joined and neatened"),
    Stitch("516", "five-thread safety stitch (401 + 504)", 5, "shirts, trousers, workwear", 20.0, 0.2, "A"),
    Stitch("602", "two-needle four-thread coverstitch", 4, "knit hems, neck coverseam", 25.0, 0.2, "A"),
    Stitch("605", "three-needle five-thread coverstitch", 5, "active wear, underwear", 28.0, 0.3, "A"),
    Stitch("606", "four-needle nine-thread flat seam", 9, "butted flat seams", 32.0, None, "A"),
    Stitch("607", "four-needle six-thread flat seam", 6, "flat seams in underwear and active wear"),
)
"""By code. Types and names were seen in a stored source, but for 104, 107, 202, 204, 205, 306, 308, 315, 404, 501, 502,
505, 512 and 606, which are from memory, as are some uses. 308 and 315 are named two-step and three-step; one gathering
called 308 three-step."""

OTHER_THREAD_M_PER_M: Final = {("101", "B"): 5.0, ("301", "B"): 2.5, ("304", "B"): 5.5, ("504", "C"): 9.0}
"""Figures of the tables that STITCHES does not take, by code and table; meters for each meter of seam, all
seen."""


def stitch(text: str) -> Stitch | None:
    """The stitch of a code ('301') or of a choice ('301 lockstitch'); None if this list does not have it."""
    code = text.strip().partition(" ")[0]
    return next((row for row in STITCHES if row.code == code), None)


def thread_m_per_m(code: str, table: str = DEFAULT_TABLE) -> float | None:
    """Meters of thread for one meter of seam by one of TABLES; None where that table has no figure.

    Raises ValueError for an unknown table.
    """
    if table not in TABLES:
        raise ValueError(f"unknown thread table {table!r}; known: {', '.join(TABLES)}")
    found = stitch(code)
    if found is not None and found.table == table:
        return found.thread_m_per_m
    return OTHER_THREAD_M_PER_M.get((code, table))
