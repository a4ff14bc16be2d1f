"""Lanes: searches as processes side by side, told how far they are, ended with whoever started them."""

from __future__ import annotations

import json
import os
import queue
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import IO, TYPE_CHECKING

if TYPE_CHECKING:
    from sheetgen.nesting.search import Answer, Task

_PROGRAM = Path(__file__).with_name("search.py")
_BLINK = 0.5
"""Seconds between two looks at the keyboard: on some systems waiting for an answer hides Ctrl-C."""
_Answers = queue.SimpleQueue["tuple[int, Answer | None]"]


@dataclass(frozen=True)
class _Lane:
    """One search that runs, and what it says when it breaks down."""

    process: subprocess.Popen[str]
    complaints: IO[str]

    def end(self) -> None:
        """End the search, whether it is done or not."""
        self.process.kill()
        self.process.wait()

    def complaint(self) -> str:
        """What it said last."""
        self.process.wait()
        self.complaints.seek(0)
        return next((line.strip() for line in reversed([*self.complaints]) if line.strip()), "no word of why")


def best_of(tasks: Sequence[Task], tell: Callable[[float], None]) -> Answer:
    """The answer with the shortest packing, of equal ones the first; all searches run at once.

    `tell` gets the part of all work that is done. RuntimeError if a search breaks down; whatever happens, none goes on.
    """
    answers: _Answers = queue.SimpleQueue()
    with ExitStack() as running:
        lanes = []
        for index, task in enumerate(tasks):
            complaints = running.enter_context(tempfile.TemporaryFile("w+", encoding="utf-8", errors="replace"))
            lane = _Lane(_process(complaints), complaints)
            running.callback(lane.end)
            threading.Thread(target=_converse, args=(lane.process, task, index, answers), daemon=True).start()
            lanes.append(lane)
        found = _awaited(lanes, answers, tell)
    return min(found, key=lambda answer: answer["length"])


def _process(complaints: IO[str]) -> subprocess.Popen[str]:
    path = os.pathsep.join(place for place in sys.path if place)
    quiet = {"RUST_BACKTRACE": "0", "RAYON_NUM_THREADS": "1"}
    return subprocess.Popen(
        [sys.executable, "-P", str(_PROGRAM)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=complaints,
        encoding="utf-8",
        env={**os.environ, **quiet, "PYTHONPATH": path},
    )


def _converse(process: subprocess.Popen[str], task: Task, index: int, answers: _Answers) -> None:
    """Hand over the task, pass on all answers, and None after the last."""
    try:
        if process.stdin and process.stdout:
            process.stdin.write(json.dumps(task) + "\n")
            process.stdin.close()
            for line in process.stdout:
                answers.put((index, json.loads(line)))
    except (OSError, ValueError):
        pass  # it broke down or was ended: then no last answer comes, and the one who waits sees that
    finally:
        answers.put((index, None))


def _awaited(lanes: Sequence[_Lane], answers: _Answers, tell: Callable[[float], None]) -> list[Answer]:
    """The last answer of each lane, in their order."""
    last: list[Answer] = [{"done": 0.0} for _ in lanes]
    while not all("lies" in answer for answer in last):
        try:
            index, answer = answers.get(timeout=_BLINK)
        except queue.Empty:
            continue
        if answer is not None:
            last[index] = answer
            tell(sum(one["done"] for one in last) / len(last))
        elif "lies" not in last[index]:
            raise RuntimeError(f"the search for a marker broke down: {lanes[index].complaint()}")
    return last
