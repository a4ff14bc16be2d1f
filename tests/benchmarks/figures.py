"""Figures that were measured, kept as JSON beside the tables, so that a later run can be held against them."""

from __future__ import annotations

import datetime
import json
import os
import platform
import subprocess
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace
from importlib.metadata import version
from pathlib import Path
from typing import Any

KEPT = Path(__file__).with_name("measured.json")
LIBRARIES = ("click", "formualizer", "openpyxl", "python-calamine", "resvg-py", "rich", "spyrrow", "xlsxwriter")
WORSE = 1.1
"""A figure that is more than a tenth above the last written one is said to be worse."""


@dataclass(frozen=True)
class Figure:
    """A figure: seconds of the processor ("s"), "KB" or "MB"; less is better."""

    amount: float
    unit: str = "s"
    wall: float | None = None
    peers: Mapping[str, float] = field(default_factory=dict)
    """Each peer's amount, by its name."""
    before: float | None = None
    """The other checkout's, measured in turns with this one."""
    date: str = ""
    commit: str = ""
    pace: float = 1.0
    """What a fixed piece of work cost in that run, in seconds: how fast the machine was."""

    @property
    def least(self) -> tuple[str, float] | None:
        """The cheapest peer; None if there is none."""
        return min(self.peers.items(), key=lambda peer: peer[1], default=None)

    @property
    def ratio(self) -> float | None:
        """How many times the cheapest peer; None if there is none."""
        return self.amount / self.least[1] if self.least and self.least[1] > 0 else None


@dataclass(frozen=True)
class Measured:
    """All figures, where and how they were measured; the commit of the other checkout; how many seconds it took."""

    figures: Mapping[str, Figure]
    machine: str
    rounds: str
    other: str = ""
    took: float = 0.0

    def with_last(self, last: Measured | None) -> Measured:
        """With the figures of the last written run that were not measured in this one, at the end."""
        if last is None:
            return self
        kept = {name: figure for name, figure in last.figures.items() if name not in self.figures}
        if self.other not in ("", last.other):
            kept = {name: replace(figure, before=None) for name, figure in kept.items()}
        # What is said of the run is said of the one that measured most.
        run = last if len(kept) > len(self.figures) else self
        return replace(run, figures={**self.figures, **kept}, machine=self.machine, other=self.other or last.other)


def save(measured: Measured, path: Path = KEPT) -> None:
    """Write them, one figure a line."""
    data = asdict(measured)
    lines = [f"{json.dumps(name)}: {json.dumps(figure)}" for name, figure in data.pop("figures").items()]
    head = json.dumps(data, ensure_ascii=False, indent=1).removesuffix("\n}")
    path.write_text(head + ',\n "figures": {\n  ' + ",\n  ".join(lines) + "\n }\n}\n", "utf-8")


def load(path: Path = KEPT) -> Measured | None:
    """What was written last; None if nothing was."""
    if not path.is_file():
        return None
    data: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return Measured(**{**data, "figures": {name: Figure(**figure) for name, figure in data["figures"].items()}})


def change(now: Figure, then: Figure) -> float:
    """How many times the last figure this one is; seconds as if the machine had the pace of then."""
    return now.amount / then.amount / (now.pace / then.pace if now.unit == "s" else 1.0)


def worse(measured: Measured, last: Measured | None) -> list[str]:
    """The names of the figures that are more than a tenth above the last written ones."""
    known = last.figures if last else {}
    return [name for name, figure in measured.figures.items() if name in known and change(figure, known[name]) > WORSE]


def compared(measured: Measured, last: Measured | None) -> list[str]:
    """A line for each figure: beside the least, beside the other checkout, against the last written one."""
    return [_line(name, figure, last.figures.get(name) if last else None) for name, figure in measured.figures.items()]


def _line(name: str, figure: Figure, then: Figure | None) -> str:
    line = f"{name:26} {in_words(figure.amount, figure.unit):>10}"
    if figure.wall is not None:
        line += f"  wall {in_words(figure.wall):>9}"
    if figure.ratio is not None:
        line += f"  {figure.ratio:6.2f} times the least"
    if figure.before is not None:
        line += f"  other checkout {in_words(figure.before, figure.unit):>9}{_word(figure.amount / figure.before)}"
    if then is not None:
        line += f"  last {in_words(then.amount, then.unit):>9}{_word(change(figure, then))}"
    return line


def _word(times: float) -> str:
    return f"  WORSE by {times - 1:.0%}" if times > WORSE else f"  {times - 1:+.0%}"


def in_words(amount: float, unit: str = "s") -> str:
    """A figure with as many digits as it deserves."""
    size = abs(amount)
    digits = 0 if size >= 100 else 1 if size >= 10 else 2 if size >= 1 else 3
    return f"{amount:.{digits}f} {unit}"


def machine() -> str:
    """The machine and the libraries, in one line."""
    libraries = ", ".join(f"{name} {version(name)}" for name in LIBRARIES)
    return (
        f"{os.cpu_count()} cores ({_processor()}), {platform.system()}, Python {platform.python_version()}; {libraries}"
    )


def _processor() -> str:
    cpus = Path("/proc/cpuinfo")
    lines = cpus.read_text("utf-8").splitlines() if cpus.is_file() else []
    named = next((line for line in lines if line.startswith("model name")), "")
    return named.partition(": ")[2] or platform.machine()


def commit_of(checkout: Path) -> str:
    """The commit of a checkout, with a plus if files in it are changed; empty if it is none."""

    def git(*words: str) -> str:
        return subprocess.run(["git", "-C", str(checkout), *words], capture_output=True, text=True, check=False).stdout

    changed = git("status", "--porcelain", "--", "sheetgen", "sample_inputs").strip()
    return git("rev-parse", "--short", "HEAD").strip() + ("+" if changed else "")


def today() -> str:
    """The day of measuring."""
    return datetime.date.today().isoformat()
