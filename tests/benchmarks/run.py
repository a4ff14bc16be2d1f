"""How long a build, an audit and `--help` take, as multiples of the least that such a job can take on this machine.

`python tests/benchmarks/run.py` prints the ratios; with `--profile` also where the time of a build and an audit goes.
"""

import cProfile
import datetime
import io
import pstats
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import ExitStack
from copy import deepcopy
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any
from unittest.mock import patch

import openpyxl
import xlsxwriter
from xlsxwriter.chart import Chart
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from sheetgen.audit import RULES  # noqa: E402 - the script runs from a checkout, before an installation
from sheetgen.audit.run import audit  # noqa: E402
from sheetgen.sheets import BOOK  # noqa: E402
from sheetgen.style.brand import load_brand, load_style  # noqa: E402
from sheetgen.testing.edit import typed_in  # noqa: E402
from sheetgen.workbook.exchange.brief import read_toml, values_of  # noqa: E402
from sheetgen.workbook.exchange.issue import issue  # noqa: E402
from sheetgen.workbook.model.values import Values, ready, shape_of  # noqa: E402
from sheetgen.workbook.write.file import workbook_bytes  # noqa: E402

SAMPLES = ROOT / "sample_inputs"
STYLE = "sweatshirt"
ROUNDS, STARTS = 15, 25
GOALS = {"build": "1.5", "audit": "1.5", "help": "3.0", "click": "none: what the command line stands on"}
Thing = tuple[str, int]
Call = tuple[Thing, str, tuple[Any, ...], dict[str, Any]]


class Recorder:
    """Every call that a build makes of xlsxwriter, so that a bare script can make the same ones."""

    def __init__(self) -> None:
        self.calls: list[Call] = []
        self.options: dict[str, Any] = {}
        self._depth = 0
        self._kept: list[object] = []  # else another thing could take the place, and so the id, of one that is gone
        self._things: dict[int, Thing] = {}

    def record(self, build: Callable[[], bytes]) -> bytes:
        with ExitStack() as stack:
            for kind in (xlsxwriter.Workbook, Worksheet, Chart):
                for name, method in list(vars(kind).items()):
                    if callable(method) and not isinstance(method, type) and not name.startswith("_"):
                        stack.enter_context(patch.object(kind, name, self._noting(name, method)))
            begin = xlsxwriter.Workbook.__init__
            stack.enter_context(patch.object(xlsxwriter.Workbook, "__init__", self._beginning(begin)))
            return build()

    def _beginning(self, begin: Callable[..., None]) -> Callable[..., None]:
        def begins(book: xlsxwriter.Workbook, file: io.BytesIO, options: dict[str, Any]) -> None:
            self.options = deepcopy(options)  # xlsxwriter changes what it is given
            self._depth += 1
            begin(book, file, options)
            self._depth -= 1
            self._things[id(book)] = ("book", -1)

        return begins

    def _noting(self, name: str, method: Callable[..., Any]) -> Callable[..., Any]:
        def noted(own: Any, *args: Any, **named: Any) -> Any:
            self._depth += 1
            try:
                result = method(own, *args, **named)
            finally:
                self._depth -= 1
            if self._depth == 0:
                thing = self._things[id(own)]
                self.calls.append(
                    (
                        thing,
                        name,
                        tuple(self._plain(one) for one in args),
                        {k: self._plain(v) for k, v in named.items()},
                    )
                )
                kind = kind_of(result)
                if kind:
                    self._kept.append(result)
                    self._things[id(result)] = (kind, sum(kind == other for other, _ in self._things.values()))
            return result

        return noted

    def _plain(self, value: Any) -> Any:
        if isinstance(value, Format | Chart):
            return Made(self._things[id(value)])
        if isinstance(value, io.BytesIO):
            return Image(value.getvalue())
        return {key: self._plain(held) for key, held in value.items()} if isinstance(value, dict) else value


class Made(tuple[str, int]):
    """A format or a chart by its kind and number."""


def kind_of(thing: object) -> str:
    """What a call made, if calls of its own follow or other calls are given it."""
    kinds = {Format: "format", Worksheet: "sheet", Chart: "chart"}
    return next((word for kind, word in kinds.items() if isinstance(thing, kind)), "")


class Image(bytes):
    """A picture's bytes."""


def bare(recorder: Recorder) -> bytes:
    """The same calls and nothing else."""
    buffer = io.BytesIO()
    book = xlsxwriter.Workbook(buffer, deepcopy(recorder.options))
    made: dict[Thing, Any] = {("book", -1): book}

    def again(value: Any) -> Any:
        if isinstance(value, Made):
            return made[value]
        if isinstance(value, Image):
            return io.BytesIO(value)
        return {key: again(held) for key, held in value.items()} if isinstance(value, dict) else value

    for thing, name, args, named in recorder.calls:
        given = args[:1] if name == "add_worksheet" else args  # xlsxwriter's own kind of sheet, not ours
        result = getattr(made[thing], name)(*map(again, given), **{key: again(value) for key, value in named.items()})
        if kind := kind_of(result):
            made[kind, sum(kind == other for other, _ in made)] = result
    return buffer.getvalue()


def seconds(job: Callable[[], object]) -> float:
    start = time.perf_counter()
    job()
    return time.perf_counter() - start


def compared(name: str, ours: Callable[[], object], least: Callable[[], object], rounds: int) -> None:
    """Both in turn, so that a busy machine slows both; the medians and their ratio."""
    ours(), least()
    times = [(seconds(ours), seconds(least)) for _ in range(rounds)]
    own, other = median(first for first, _ in times), median(second for _, second in times)
    print(
        f"{name:6} {own * 1000:8.1f} ms   least {other * 1000:8.1f} ms   ratio {own / other:5.2f}   goal {GOALS[name]}"
    )


def profiled(name: str, job: Callable[[], object]) -> None:
    profile = cProfile.Profile()
    profile.runcall(job)
    print(f"\n{name}: where the time goes")
    pstats.Stats(profile).sort_stats("tottime").print_stats(18)
    pstats.Stats(profile).sort_stats("cumtime").print_stats("sheetgen", 22)


def returned(values: Values, folder: Path) -> Path:
    """A vendor's copy of the style, filled in as it comes back."""
    made = issue(BOOK, values, {}, datetime.date(2026, 11, 20))
    copy, target = folder / "copy.xlsx", folder / "returned.xlsx"
    copy.write_bytes(made.data)
    (folder / "copy.receipt.json").write_text(made.receipt_text, "utf-8")
    answers = SAMPLES / STYLE / "answers-clean.toml"
    typed_in(BOOK, copy, values_of(BOOK, read_toml(answers), answers, values), target)
    return target


def main() -> None:
    values = load_style(BOOK, SAMPLES / STYLE / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))

    def build() -> bytes:
        return workbook_bytes(ready(BOOK, shape_of(BOOK, values)), values, {"kind": "working"})

    recorder = Recorder()
    data = recorder.record(build)
    same = "the same bytes" if bare(recorder) == data else "NOT the same bytes"
    print(f"{STYLE}: {len(recorder.calls)} calls of xlsxwriter, {len(data) // 1024} KB; the bare script writes {same}")
    compared("build", build, lambda: bare(recorder), ROUNDS)
    with TemporaryDirectory() as folder:
        path = returned(values, Path(folder))
        compared("audit", lambda: audit(BOOK, RULES, path), lambda: openpyxl.load_workbook(path), ROUNDS)
        if "--profile" in sys.argv:
            profiled("build", build)
            profiled("audit", lambda: audit(BOOK, RULES, path))

    def start(*words: str) -> Callable[[], object]:
        return lambda: subprocess.run([sys.executable, *words], cwd=ROOT, capture_output=True, check=True)

    compared("help", start("-m", "sheetgen", "--help"), start("-c", "pass"), STARTS)
    compared("click", start("-c", "import click"), start("-c", "pass"), STARTS)


if __name__ == "__main__":
    main()
