"""Which tests a worker gets together: those that share what takes long to make, the longest first.

Without it the tests are dealt out one by one, and both workers make the same demonstration, comparison and LibreOffice.
"""

from __future__ import annotations

from pathlib import Path
from zlib import crc32

from xdist.scheduler import LoadScopeScheduling

FIRST = (
    "tests/jobs/test_demo.py",
    "tests/referee/test_second_engine.py",
    "tests/offers",
    "tests/cut_planning",
    "tests/referee/test_in_libreoffice.py",
    "tests/referee/test_recalculated.py",
    "tests/audit/test_other_programs.py",
    "tests/audit/test_rules.py",
    "tests/laws",
)
"""Files and folders of tests that stay together, the longest first: the short ones then fill what is left."""
SINGLE = {"tests/style/test_grades.py": 4}
"""Files whose tests share only files that are kept for the whole run -> into how many parts they may be divided."""
SLOW = tuple(Path(__file__).with_name("slow.txt").read_text("utf-8").split())
"""Files and tests that run with `-m slow`, for their time alone; the test command has six minutes."""


def scope(nodeid: str) -> str:
    """The name of the group that a test belongs to."""
    path = nodeid.partition("::")[0]
    if path in SINGLE:
        return f"{path} {crc32(nodeid.encode()) % SINGLE[path]}"
    return next((first for first in FIRST if path.startswith(first)), path)


def rank(nodeid: str) -> tuple[int, str]:
    """Where a test's group comes: as in FIRST, then those that are divided, then the others. Within one nothing moves."""
    group = scope(nodeid)
    if group in FIRST:
        return FIRST.index(group), group
    return len(FIRST) + (nodeid.partition("::")[0] not in SINGLE), group


def is_slow(nodeid: str) -> bool:
    """Whether a test stands in SLOW."""
    return nodeid.partition("[")[0] in SLOW or nodeid.partition("::")[0] in SLOW


class Together(LoadScopeScheduling):
    """Gives a worker one group after another, in the order in which they were collected."""

    def schedule(self) -> None:
        """The longest groups first, not those of most tests."""
        self.config.option.loadscopereorder = False
        super().schedule()

    def _split_scope(self, nodeid: str) -> str:
        return scope(nodeid)
