"""Workings: intermediate steps that other sheets' figures rest on. Nothing to fill, not printed.

A table here has the rows of the table that it works for, under the same refs; `line` is a row's place in that table.
"""

from __future__ import annotations

from sheetgen.declare.parts import Sheet

from .as_built import AS_BUILT, CHECKS, CLEAN, CLEAN_OF
from .cautions import CAUTIOUS, FOR_CAUTIONS
from .compositions import GARMENT, LABELED, LARGEST, READ, UNREAD, WHOLE
from .fabrics import BY_SIZE, CLOTHS, SIZED, THREADS
from .given import GIVEN
from .landed import LADDER, SWINGS
from .measures import GRADING, NO_STEP, ROUNDS
from .shares import BY_COLORWAY, COLORS, DAYS, SPLIT, WEEK

WORKINGS = Sheet("workings", "Workings", seen="never",
                 purpose="Nothing to fill: steps on the way to figures of other sheets. Not printed.", printed=False, parts=(
    READ, GARMENT, UNREAD, LARGEST, WHOLE, LABELED, GRADING, NO_STEP, ROUNDS, BY_SIZE, CLOTHS, SIZED, THREADS, SPLIT, BY_COLORWAY, COLORS,
    WEEK, DAYS, FOR_CAUTIONS, CAUTIOUS, SWINGS, LADDER, AS_BUILT, CLEAN, CLEAN_OF, *GIVEN,
), checks=CHECKS)  # fmt: skip
