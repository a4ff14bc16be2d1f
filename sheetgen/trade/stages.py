"""Sample stages in their order, and the usual steps from released pack to warehouse with their days.

Used by the approvals and fit sheets, and for dates counted back from delivery. Order of the stages seen in
several stored sources; quantities and moments from memory. Days are common practice and editable.
"""

from typing import Final, NamedTuple


class Stage(NamedTuple):
    """One kind of sample, in order of making; `optional` where a style may go without it."""

    order: int
    name: str
    phase: str
    purpose: str
    sizes: str
    materials: str
    quantity: str
    moment: str
    optional: bool


STAGE_SOURCE: Final = "course articles on sampling stages (order and purpose); quantities and moments from memory"

STAGES: Final = (
    Stage(
        1,
        "Proto",
        "development",
        "shows the design idea; fit and exact fabric not judged",
        "base size",
        "substitute fabric allowed",
        "1-2",
        "before costing is final",
        optional=False,
    ),
    Stage(
        2,
        "Fit",
        "development",
        "fit on model or form; measurements and pattern corrected",
        "base size",
        "substitute with like behavior allowed",
        "1-2 a round, 1-2 rounds",
        "after proto approval",
        optional=False,
    ),
    Stage(
        3,
        "Salesman or photo",
        "development",
        "selling and photographs",
        "base size",
        "actual fabric and trims",
        "as ordered",
        "before bulk orders",
        optional=True,
    ),
    Stage(
        4,
        "Size set",
        "development",
        "grading checked; often jump sizes such as S, L, XXL",
        "all or jump sizes",
        "actual fabric",
        "1 a size",
        "after fit approval, before pre-production",
        optional=False,
    ),
    Stage(
        5,
        "Performance test",
        "development",
        "wash, color, seam and trim tests",
        "any",
        "actual fabric and trims",
        "as the laboratory asks",
        "before or with pre-production",
        optional=True,
    ),
    Stage(
        6,
        "Pre-production",
        "pre-production",
        "made with bulk materials on the production line; approval releases cutting",
        "base or two sizes",
        "bulk",
        "1-3",
        "after bulk fabric in-house, before cutting",
        optional=False,
    ),
    Stage(
        7,
        "Sealed reference",
        "pre-production",
        "the approved pre-production sample, kept by both sides",
        "as pre-production",
        "bulk",
        "2",
        "at pre-production approval",
        optional=True,
    ),
    Stage(
        8,
        "Top of production",
        "production",
        "first pieces off the line, checked against the sealed reference",
        "as asked",
        "bulk",
        "2-5",
        "first output of the line",
        optional=False,
    ),
    Stage(
        9,
        "Shipment",
        "production",
        "packed as shipped; kept for claims",
        "as asked",
        "bulk",
        "1-3",
        "at packing, before or at ex-factory",
        optional=False,
    ),
)
"""In order of making. Small brands may let one sample serve two neighboring stages."""

STAGE_CHOICES: Final = tuple(stage.name for stage in STAGES)
"""What a drop-down offers."""


class Step(NamedTuple):
    """One step of the time-and-action calendar: the days it usually takes, the steps it waits for."""

    number: int
    name: str
    after: tuple[int, ...]
    days_low: int
    days_high: int


STEP_SOURCE: Final = "time-and-action practice; public course pages give 45 to 90 days from order to shipment"
STEP_PROVENANCE: Final = "totals seen in a stored source; days of each step common practice"

STEPS: Final = (
    Step(1, "style and specification pack released", (), 0, 0),
    Step(2, "fabric, color standard, trim sourcing", (1,), 7, 14),
    Step(3, "lab dip or print strike-off submitted", (2,), 7, 10),
    Step(4, "lab dip or strike-off approved", (3,), 3, 5),
    Step(5, "first (proto) sample", (1,), 10, 14),
    Step(6, "fit sample round 1, comments", (5,), 7, 10),
    Step(7, "fit sample round 2, sealed", (6,), 7, 10),
    Step(8, "costing agreed, purchase order issued", (5,), 3, 5),
    Step(9, "fabric and trims booked", (8, 4), 1, 3),
    Step(10, "bulk fabric made, tested, in-house", (9,), 20, 35),
    Step(11, "trims and labels in-house", (9,), 14, 25),
    Step(12, "size set, graded samples", (7,), 7, 10),
    Step(13, "pre-production sample in bulk fabric", (10, 11, 12), 5, 7),
    Step(14, "pre-production approval and meeting", (13,), 2, 4),
    Step(15, "marker, cut plan, cutting", (14,), 2, 5),
    Step(16, "sewing start, first-output check", (15,), 1, 2),
    Step(17, "sewing and in-line inspection", (16,), 7, 15),
    Step(18, "finishing, pressing, packing", (17,), 3, 5),
    Step(19, "final random inspection", (18,), 1, 2),
    Step(20, "ex-factory", (19,), 1, 2),
    Step(21, "main transport", (20,), 20, 40),
    Step(22, "customs, delivery to warehouse", (21,), 3, 7),
)
"""A step waits for the ones named in `after`, all of which stand before it. Main transport is given by
sea."""

TRANSPORT_STEP: Final = 21
TRANSPORT_DAYS: Final = {"sea": (20, 40), "air": (4, 8)}
"""Fewest and most days of main transport; common practice. Other ways of transport have no figure here."""
