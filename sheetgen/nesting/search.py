"""Search: one process that packs outlines into a strip; run as a program, it reads a task and tells what it found.

A task is one line of JSON on standard input, answers are lines of JSON on standard output: how far the search is, and
last where the shapes lie. The library that packs ends its search by the clock, so that a result would depend on the
speed of the machine. It tells of every step, though, in an order that only its seed decides: here the search ends
after so many steps, whenever that is, and its clock is set never to run out. A process of its own can be ended at any
moment; a call into the library could not.

The packing is sparrow, doi:10.48550/arXiv.2509.13329, through spyrrow.
"""

from __future__ import annotations

import json
import os
import queue
import signal
import sys
import threading
import time
import traceback
from collections.abc import Callable, Iterator, Sequence
from typing import NotRequired, TypedDict

import spyrrow

_FAILURE = 20
"""A separation that fails, in steps: an improvement is one, and so much sooner found."""
_PACE = 70
"""A search takes in seconds about the square of its steps, in seventies: the shorter a packing already is, the longer
it takes to the next improvement. Measured on one machine with two cores over markers of 6 to 120 pieces: half to double
there, at the worst four times."""
_NEVER = 1_000_000
"""Seconds that no search takes."""
_PAUSE = 0.02
"""Seconds between two looks at what the library has to tell."""
_EVERY = 0.1
"""Seconds between two words on how far the search is."""
_Report = tuple[spyrrow.ReportType, spyrrow.StripPackingSolution]


class Shape(TypedDict):
    """An outline in cm, how many of it there are and by which angles it may lie turned."""

    points: Sequence[tuple[float, float]]
    count: int
    turns: list[float]


class Task(TypedDict):
    """What to pack: shapes, the strip's height and the room between shapes in cm; effort; first seed and next ones' step."""

    shapes: list[Shape]
    height: float
    apart: float
    seconds: float
    seed: int
    step: int


class Answer(TypedDict):
    """The part of the work that is done; with the last one the packing's length, and each shape's number, angle, place."""

    done: float
    length: NotRequired[float]
    lies: NotRequired[Sequence[tuple[int, float, float, float]]]


def search(task: Task, tell: Callable[[float], None]) -> spyrrow.StripPackingSolution:
    """The shortest packing found with so much effort; a search that ends before starts again with the next seed."""
    instance = spyrrow.StripPackingInstance(
        "marker",
        task["height"],
        [
            spyrrow.Item(str(number), [(x, y) for x, y in shape["points"]], shape["count"], shape["turns"])
            for number, shape in enumerate(task["shapes"])
        ],
    )
    best: spyrrow.StripPackingSolution | None = None
    seed, before = task["seed"], 0.0
    while True:
        steps = 0
        for kind, found in _reports(instance, task["apart"], seed):
            steps += _steps(kind)
            if kind not in _UNFIT and (best is None or found.width < best.width):
                best = found
            spent = before + (steps / _PACE) ** 2
            tell(min(spent / task["seconds"], 1.0))
            if best is not None and spent >= task["seconds"]:
                return best
        seed, before = seed + task["step"], before + (steps / _PACE) ** 2


_UNFIT = (spyrrow.ReportType.ExplInfeas, spyrrow.ReportType.ExplImproving)
"""Reports of packings in which shapes still overlap."""


def _steps(kind: spyrrow.ReportType) -> int:
    if kind in (spyrrow.ReportType.ExplInfeas, spyrrow.ReportType.Final):
        return _FAILURE
    return 1 if kind == spyrrow.ReportType.ExplImproving else 0


def _reports(instance: spyrrow.StripPackingInstance, apart: float, seed: int) -> Iterator[_Report]:
    """All reports of one search in their order, as they come."""
    # One worker, since searches run side by side as it is; the usual number would be that of the machine's cores.
    config = spyrrow.StripPackingConfig(
        early_termination=True,
        min_items_separation=apart,
        total_computation_time=None,
        exploration_time=_NEVER,
        compression_time=_NEVER,
        num_workers=1,
        seed=seed,
    )
    reports, failed = spyrrow.ProgressQueue(), queue.SimpleQueue[BaseException]()

    def solve() -> None:
        try:
            instance.solve(config, reports)
        except BaseException as error:  # a panic of the library is no Exception
            failed.put(error)

    thread = threading.Thread(target=solve, daemon=True)
    thread.start()
    while thread.is_alive():
        time.sleep(_PAUSE)
        yield from reports.drain()
    yield from reports.drain()
    if not failed.empty():
        raise failed.get()


def main() -> None:
    """Read a task, search, tell."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # who started the search ends it
    task: Task = json.loads(sys.stdin.readline())
    told = 0.0

    def tell(done: float) -> None:
        nonlocal told
        if time.monotonic() >= told + _EVERY:
            told = time.monotonic()
            _say({"done": done})

    found = search(task, tell)
    lies = [(int(one.id), one.rotation, *one.translation) for one in found.placed_items]
    _say({"done": 1.0, "length": found.width, "lies": lies})


def _say(answer: Answer) -> None:
    print(json.dumps(answer), flush=True)


if __name__ == "__main__":
    try:
        main()
    except BaseException:
        traceback.print_exc()
        os._exit(1)
    # Not the usual end: it would wait for the library, which knows no end.
    os._exit(0)
