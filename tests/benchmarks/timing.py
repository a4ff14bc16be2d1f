"""What a program costs: processor seconds of the child and all that it started, and the seconds on the wall beside it."""

from __future__ import annotations

import json
import math
import os
import subprocess
import tempfile
import time
import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median

NOT_COUNTED = "not counted: "
"""A bare script ends its output with these words and the JSON of what it spent on reading its recorded calls."""


@dataclass(frozen=True)
class Cost:
    """Seconds: of the processor (user and system, with all children that were waited for), and on the wall; and the most
    megabytes of memory that one process took."""

    processor: float
    wall: float
    megabytes: float = 0.0


@dataclass(frozen=True)
class Program:
    """A program as it is started: its words, its folder, what it adds to the environment, its allowed exit statuses.

    Workbooks that are `anew` have other bytes each time it is started, and hold the same: as if somebody had typed in them.
    """

    words: tuple[str, ...]
    folder: Path
    environment: Mapping[str, str] = field(default_factory=dict)
    statuses: tuple[int, ...] = (0,)
    anew: tuple[str, ...] = ()

    @property
    def whole_environment(self) -> dict[str, str]:
        """The environment that it is started with: as where it is installed, modules are compiled once and stay so."""
        usual = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        return {**usual, **self.environment}

    def run(self) -> Cost:
        """Start it, wait for it, and say what it cost; RuntimeError with what it said if it fails."""
        for name in self.anew:
            give_other_bytes(self.folder / name)
        with tempfile.TemporaryFile() as said:
            start = time.perf_counter()
            process = subprocess.Popen(
                self.words, cwd=self.folder, env=self.whole_environment,
                stdin=subprocess.DEVNULL, stdout=said, stderr=subprocess.STDOUT,
            )  # fmt: skip
            _, status, used = os.wait4(process.pid, 0)
            wall = time.perf_counter() - start
            process.returncode = os.waitstatus_to_exitcode(status)
            said.seek(0)
            text = said.read().decode("utf-8", "replace")
        if process.returncode not in self.statuses:
            raise RuntimeError(f"{' '.join(self.words)}: ended with {process.returncode}\n{text}")
        spent = not_counted(text)
        return Cost(used.ru_utime + used.ru_stime - spent.processor, wall - spent.wall, used.ru_maxrss / 1024)


def give_other_bytes(path: Path) -> None:
    """Change a remark of the package that no program reads."""
    with zipfile.ZipFile(path, "a") as package:
        package.comment = str(int(package.comment or b"0") + 1).encode()


def not_counted(text: str) -> Cost:
    """What a bare script says that it spent on reading its recorded calls; nothing if it says nothing."""
    last = text.rstrip().rpartition("\n")[2]
    if not last.startswith(NOT_COUNTED):
        return Cost(0, 0)
    return Cost(**json.loads(last.removeprefix(NOT_COUNTED)))


def in_turns(programs: Mapping[str, Program], rounds: int, *, warm: bool = False) -> dict[str, Cost]:
    """The medians of so many rounds. In a round each has one turn, so that a busy machine slows all alike.

    Unless all are `warm`, one turn of each goes before and counts for nothing: it fills the caches.
    """
    if not warm:
        for program in programs.values():
            program.run()
    costs: dict[str, list[Cost]] = {name: [] for name in programs}
    for _ in range(rounds):
        for name, program in programs.items():
            costs[name].append(program.run())
    return {
        name: Cost(median(one.processor for one in all_of), median(one.wall for one in all_of))
        for name, all_of in costs.items()
    }


def exponent(counts: Sequence[float], seconds: Sequence[float]) -> float:
    """The b of seconds = a * count ** b that fits best: the slope of the least squares line through the logarithms."""
    across, up = [math.log(count) for count in counts], [math.log(one) for one in seconds]
    middle, level = sum(across) / len(across), sum(up) / len(up)
    rise = sum((x - middle) * (y - level) for x, y in zip(across, up, strict=True))
    return rise / sum((x - middle) ** 2 for x in across)
