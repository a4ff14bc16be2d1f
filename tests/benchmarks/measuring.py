"""Measures: commands beside their peers, commands on styles that grow, files' sizes, the installation."""

from __future__ import annotations

import io
import json
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from statistics import mean, median

from tests.benchmarks.cases import CASES, Case, Peer
from tests.benchmarks.figures import Figure, commit_of, today
from tests.benchmarks.stage import HERE, ROOT, Stage
from tests.benchmarks.timing import Cost, Program, give_other_bytes, in_turns

GROWTH: Mapping[str, tuple[int, ...]] = {
    "materials": (16, 100, 500), "points": (20, 100, 200), "sizes": (6, 30), "colorways": (2, 20),
}  # fmt: skip
"""How many of what: the first is about that of the sample style."""
GROWING: Mapping[str, tuple[tuple[str, ...], tuple[int, ...], tuple[str, ...]]] = {
    "build": (("build", "brief.toml", "--brand", "../inputs/brand/brand.toml", "--out", "again.xlsx", "--replace"), (0,), ()),
    "issue": (("issue", "working.xlsx", "--out", "again.xlsx", "--replace"), (0,), ("working.xlsx",)),
    "audit": (("audit", "returned.xlsx", "--receipt", "issued.receipt.json"), (0, 1), ("returned.xlsx",)),
}  # fmt: skip
"""The commands that are measured on them, their exit statuses, and the file that nobody read before."""
MANY = (10, 100, 1000)
"""Styles of a season's folder."""
MANY_OF: Mapping[str, tuple[tuple[str, ...], str, tuple[int, ...]]] = {
    "build": (("build", "--brand", "../inputs/brand/brand.toml", "--replace"), "style-*.toml", (0,)),
    "issue": (("issue", "--replace"), "*-working.xlsx", (0,)),
    "audit": (("audit",), "*-returned.xlsx", (0, 1)),
}
"""The commands that are measured on them, on which files, and their exit statuses."""
LIMITS: Mapping[str, int] = {"materials": 500, "points": 200, "sizes": 30, "colorways": 20}
"""A style larger than any, in all ways at once."""
AT_LIMITS: Mapping[str, tuple[tuple[str, ...], tuple[int, ...]]] = {
    "build": (("build", "brief.toml", "--brand", "../inputs/brand/brand.toml", "--out", "again.xlsx", "--replace"), (0,)),
    "build from itself": (("build", "working.xlsx", "--out", "again.xlsx", "--replace"), (0,)),
    "issue": (("issue", "working.xlsx", "--out", "again-issued.xlsx", "--replace"), (0,)),
    "audit": (("audit", "returned.xlsx", "--receipt", "issued.receipt.json", "--html", "a.html", "--list", "a.xlsx", "--reply", "a.txt",
               "--query", "query.xlsx", "--replace"), (0, 1)),
    "audit of one's own": (("audit", "working.xlsx", "--for", "bulk"), (0, 1)),
    "accept": (("accept", "working.xlsx", "returned.xlsx", "--receipt", "issued.receipt.json", "--out", "next.xlsx", "--replace"), (0,)),
    "join": (("join", "working.xlsx", "working.xlsx", "next.xlsx", "--out", "joined.xlsx", "--replace"), (0,)),
    "compare revisions": (("compare", "working.xlsx", "next.xlsx"), (0,)),
    "compare offers": (("compare", "working.xlsx", "returned.xlsx", "--out", "offers.xlsx", "--replace"), (0,)),
    "pack": (("pack", "working.xlsx", "--replace"), (0,)),
    "marker": (("marker", "working.xlsx", "--material", "M1", "--effort", "2", "--out", "marked.xlsx", "--replace"), (0,)),
    "cutplan": (("cutplan", "working.xlsx", "--plies", "60", "--garments", "6", "--over", "2%", "--material", "M1", "--out",
                 "planned.xlsx", "--replace"), (0, 1)),
    "season": (("season", "."), (0,)),
    "look": ((), (0,)),
}  # fmt: skip
"""Every command on such a style, each on the files of those above it, and their exit statuses."""
SIZES = {"working file": "working.xlsx", "vendor's copy": "issued.xlsx", "receipt": "issued.receipt.json"}
PARTS = (*(case.name for case in CASES), *(f"growth {axis}" for axis in GROWTH), "many", "limits", "size", "install")
"""What can be measured; `audit` means both audits, `growth` all that grows."""
INSTALL = HERE / "install.py"
_HEAVY = 1.0
"""Megabytes from which on a package has a line of its own."""
_SEASONS = {"season", "look"}


@dataclass
class Bench:
    """Stages of this checkout and, perhaps, another one; how many rounds; what a fixed piece of work cost in between."""

    stage: Stage
    other: Stage | None
    rounds: int
    growth_rounds: int
    tell: Callable[[str], None]
    paces: list[float] = field(default_factory=list)

    @property
    def stages(self) -> dict[str, Stage]:
        """By the word for it: ours, before."""
        return {"ours": self.stage} | ({"before": self.other} if self.other else {})

    def measure(self, parts: Collection[str]) -> dict[str, Figure]:
        """The figures of these parts, by name, in the order of the tables."""
        figures: dict[str, Figure] = {}
        cases = [case for case in CASES if case.name in parts]
        growing = [axis for axis in GROWTH if f"growth {axis}" in parts]
        if cases or growing or {"size", "many", "limits"} & set(parts):
            for stage in self.stages.values():
                self.tell(f"preparing {stage.checkout}")
                stage.prepare()
                if _SEASONS & set(parts):
                    stage.prepare_season()
        for case in cases:
            self.tell(case.name)
            figures[case.name] = self._case(case)
        for axis in growing:
            figures.update(self._growth(axis, GROWTH[axis]))
        if "many" in parts:
            for count in MANY:
                self.tell(f"{count} styles")
                figures.update(self._many(count))
        if "limits" in parts:
            figures.update(at_the_limits(self.stage, self.tell))
        if "size" in parts:
            figures.update(self._sizes())
        if "install" in parts:
            self.tell("install")
            figures.update(installed())
        if not self.paces:
            self._pace_now(ROOT)
        commit, pace = commit_of(self.stage.checkout), median(self.paces)
        return {name: replace(figure, date=today(), commit=commit, pace=pace) for name, figure in figures.items()}

    def _pace_now(self, folder: Path) -> None:
        self.paces.append(Peer("", lambda _: ("fixed",)).program(folder).run().processor)

    def _in_turns(self, programs: Mapping[str, Program], rounds: int, *, warm: bool) -> dict[str, Cost]:
        costs = in_turns(programs, rounds, warm=warm)
        self._pace_now(self.stage.folder)
        return costs

    def _case(self, case: Case) -> Figure:
        if case.recorded:
            case.record(self.stage)
        programs = {name: case.program(stage) for name, stage in self.stages.items()}
        peers = {peer.name: peer.program(self.stage.folder) for peer in case.peers}
        costs = self._in_turns(programs | peers, min(self.rounds, case.most_rounds), warm=case.recorded)
        return _figure(costs, peers={name: costs[name].processor for name in peers})

    def _growth(self, axis: str, counts: Sequence[int]) -> Iterator[tuple[str, Figure]]:
        for count in counts:
            self.tell(f"{count} {axis}")
            places = {
                name: stage.prepare_grown({axis: count}, stage.folder / f"{axis}-{count}")
                for name, stage in self.stages.items()
            }
            for command, (words, statuses, anew) in GROWING.items():
                programs = {
                    name: stage.sheetgen(*words, folder=places[name], statuses=statuses, anew=anew)
                    for name, stage in self.stages.items()
                }
                costs = self._in_turns(programs, self.growth_rounds, warm=True)
                yield growth_name(command, count, axis), _figure(costs)
            sizes = {name: place / "working.xlsx" for name, place in places.items()}
            yield growth_name("working file", count, axis), _size(sizes)

    def _many(self, count: int) -> Iterator[tuple[str, Figure]]:
        """What each command takes over so many styles at once, and over one alone; once each, for it takes minutes."""
        place = self.stage.prepare_many(count)
        for command, (words, pattern, statuses) in MANY_OF.items():
            if command == "audit":
                for path in sorted(place.glob("*-issued.xlsx")):
                    shutil.copy(path, path.with_name(path.name.replace("-issued", "-returned")))
            files = sorted(path.name for path in place.glob(pattern))
            if len(files) != count:
                raise RuntimeError(f"{place}: {len(files)} files, not {count}")
            once = self.stage.sheetgen(*words, files[0], folder=place, statuses=statuses)
            costs = [once.run()]
            if command != "build":
                give_other_bytes(place / files[0])
            cost = self.stage.sheetgen(*words, *files, folder=place, statuses=statuses).run()
            if command != "build":
                give_other_bytes(place / files[0])
            costs.append(once.run())  # before and after: the machine is not always as fast
            self._pace_now(self.stage.folder)
            alone = Figure(mean(one.processor for one in costs), "s", mean(one.wall for one in costs))
            yield many_name(command, "alone", count), alone
            yield many_name(command, "", count), Figure(cost.processor, "s", cost.wall)
            yield many_name(command, "memory", count), Figure(cost.megabytes, "MB")

    def _sizes(self) -> dict[str, Figure]:
        return {
            name: _size({own: stage.folder / file for own, stage in self.stages.items()}, least=True)
            for name, file in SIZES.items()
        }


def growth_name(command: str, count: int, axis: str) -> str:
    """The name of a figure of a growth table."""
    return f"{command}, {count} {axis}"


def at_the_limits(stage: Stage, tell: Callable[[str], None]) -> Iterator[tuple[str, Figure]]:
    """What each command takes on a style at the limits; RuntimeError with what it said for one that does not go through."""
    place = stage.prepare_grown(LIMITS, stage.folder / "limits", answered=False)
    for command, (words, statuses) in AT_LIMITS.items():
        tell(f"limits: {command}")
        cost = stage.sheetgen(*words, folder=place, statuses=statuses).run()
        yield f"limits, {command}", Figure(cost.processor, "s", cost.wall)
        yield f"limits, {command}, memory", Figure(cost.megabytes, "MB")


def many_name(command: str, what: str, count: int) -> str:
    """The name of a figure of the table of many styles."""
    return ", ".join(filter(None, (command, what, f"{count} styles")))


def _figure(costs: Mapping[str, Cost], peers: Mapping[str, float] | None = None) -> Figure:
    ours, before = costs["ours"], costs.get("before")
    return Figure(ours.processor, "s", ours.wall, peers or {}, before.processor if before else None)


def _size(paths: Mapping[str, Path], *, least: bool = False) -> Figure:
    kilobytes = {name: path.stat().st_size / 1024 for name, path in paths.items()}
    peers = {_LEAST_SIZE[paths["ours"].suffix]: least_size(paths["ours"]) / 1024} if least else {}
    return Figure(kilobytes["ours"], "KB", None, peers, kilobytes.get("before"))


_LEAST_SIZE = {".xlsx": "its parts packed at zip's highest level", ".json": "the same JSON without white space"}


def least_size(path: Path) -> int:
    """Bytes of the same content, packed as tightly as the format allows."""
    if path.suffix == ".json":
        return len(json.dumps(json.loads(path.read_text("utf-8")), ensure_ascii=False, separators=(",", ":")).encode())
    buffer = io.BytesIO()
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as target:
        for entry in source.infolist():
            target.writestr(entry.filename, source.read(entry))
    return len(buffer.getvalue())


def installed() -> dict[str, Figure]:
    """What an installation into an empty environment takes; nothing if the script for it is not there."""
    if not INSTALL.is_file():
        return {}
    said = subprocess.run([sys.executable, str(INSTALL), "--json"], capture_output=True, text=True, check=True).stdout
    told = json.loads(said)
    heavy = {name: float(size) for name, size in told["packages"].items() if size >= _HEAVY}
    return {
        "install": Figure(float(told["seconds"]), "s wall"),
        "install size": Figure(float(told["megabytes"]), "MB"),
        **{f"install {name}": Figure(heavy[name], "MB") for name in sorted(heavy, key=lambda one: -heavy[one])},
    }
