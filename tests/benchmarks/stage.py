"""A stage: the files on which a checkout's commands are measured, made by that checkout's own commands."""

from __future__ import annotations

import shutil
import sys
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.benchmarks.styles import grown, put_style, renumbered, toml
from tests.benchmarks.timing import Program

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
STYLE = "sweatshirt"
BRAND = "inputs/brand/brand.toml"
SEASON, ISSUED, BACK = 10, 5, 3
"""Styles in the season's folder, how many of them are issued, and how many of those are back."""


@dataclass(frozen=True)
class Stage:
    """A checkout of sheetgen and the folder with its files."""

    checkout: Path
    folder: Path

    def sheetgen(
        self, *words: str, folder: Path | None = None, statuses: tuple[int, ...] = (0,), anew: tuple[str, ...] = ()
    ) -> Program:
        """A command of this checkout."""
        return self._program("-m", "sheetgen", *words, folder=folder, statuses=statuses, anew=anew)

    def script(self, name: str, *words: str, folder: Path | None = None) -> Program:
        """One of the scripts beside this file, with this checkout's sheetgen."""
        return self._program(str(HERE / name), *words, folder=folder)

    def _program(
        self, *words: str, folder: Path | None, statuses: tuple[int, ...] = (0,), anew: tuple[str, ...] = ()
    ) -> Program:
        environment = {"PYTHONPATH": str(self.checkout), "SHEETGEN_STORE": str(self.folder / "store")}
        return Program((sys.executable, *words), folder or self.folder, environment, statuses, anew)

    def answers(self, name: str) -> str:
        """The file of a vendor's answers, of the sample inputs."""
        return f"inputs/{STYLE}/answers-{name}.toml"

    def brief(self) -> dict[str, Any]:
        """The sample style's brief."""
        return tomllib.loads((self.folder / f"inputs/{STYLE}/brief.toml").read_text("utf-8"))

    def prepare(self) -> None:
        """The sample style built, issued, and come back with care and without."""
        self.folder.mkdir(parents=True)
        shutil.copytree(self.checkout / "sample_inputs", self.folder / "inputs")
        self.sheetgen("build", f"inputs/{STYLE}/brief.toml", "--out", "working.xlsx").run()
        self.sheetgen("issue", "working.xlsx", "--out", "issued.xlsx").run()
        vendor = [BRAND, f"inputs/{STYLE}/brief.toml", "issued.xlsx", self.answers("clean"), "returned-clean.xlsx"]
        self.script("vendor.py", *vendor, self.answers("faulty"), "returned-faulty.xlsx").run()

    def prepare_season(self) -> None:
        """A folder of styles, some of them issued, some of these back."""
        place = self.folder / "season"
        brief = self.brief()
        for number in range(SEASON):
            brief["style"].update(number=f"HV-27A-SW-{101 + number}", name=f"Slack Tide {number + 1}")
            path = put_style(self.folder / "inputs", STYLE, brief, self.folder / "season-briefs")
            name = f"season/style-{number + 1}"
            self.sheetgen("build", str(path), "--brand", BRAND, "--out", f"{name}-working.xlsx").run()
            if number < ISSUED:
                self.sheetgen("issue", f"{name}-working.xlsx", "--out", f"{name}-issued.xlsx").run()
            if number < BACK:
                shutil.copy(place / f"style-{number + 1}-issued.xlsx", place / f"style-{number + 1}-returned.xlsx")

    def prepare_many(self, count: int) -> Path:
        """A folder with so many briefs, each of another number and with colorways of other names, and their pictures."""
        place = self.folder / f"many-{count}"
        shutil.copytree(self.checkout / f"sample_inputs/{STYLE}/pictures", place / "pictures")
        for number in range(count):
            (place / f"style-{number:03}.toml").write_text(toml(renumbered(self.brief(), number)), "utf-8")
        return place

    def prepare_grown(self, counts: Mapping[str, int], place: Path, *, answered: bool = True) -> Path:
        """A folder with a style of so many materials, points, sizes and colorways: built, issued and come back, with the
        vendor's answers where they are wanted."""
        brief = self.brief()
        answers = tomllib.loads((self.folder / self.answers("clean")).read_text("utf-8"))
        for axis, count in counts.items():
            brief, answers = grown(brief, answers, axis, count)
        place.mkdir()
        put_style(self.folder / "inputs", STYLE, brief, place)
        (place / "answers.toml").write_text(toml(answers), "utf-8")
        brand = str(self.folder / BRAND)
        self.sheetgen("build", "brief.toml", "--brand", brand, "--out", "working.xlsx", folder=place).run()
        self.sheetgen("issue", "working.xlsx", "--out", "issued.xlsx", folder=place).run()
        if answered:
            vendor = [brand, "brief.toml", "issued.xlsx", "answers.toml", "returned.xlsx"]
            self.script("vendor.py", *vendor, folder=place).run()
        else:
            shutil.copy(place / "issued.xlsx", place / "returned.xlsx")
        return place
