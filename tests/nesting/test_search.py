"""The search: the same again for the same seed whatever the machine does, told of, and ended with whoever started it."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import NamedTuple

import pytest

from sheetgen.nesting import lanes, nest, search

from .conftest import MIX, T_SHIRTS

ROOT = Path(__file__).parents[2]
LAID = """
import json, sys
from sheetgen.nesting import nest
from tests.nesting.conftest import MIX, T_SHIRTS
marker = nest(T_SHIRTS, MIX, 180, nap="two ways", gap_cm=0.2, seconds=float(sys.argv[1]), seed=11)
print(json.dumps([marker.length_cm, [(one.ref, one.size, one.turned, one.polygon) for one in marker.placed]]))
"""


def elsewhere(seconds: float, **options) -> subprocess.Popen:
    return subprocess.Popen(
        [sys.executable, "-c", LAID, str(seconds)], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, **options
    )


def test_the_same_seed_gives_the_same_marker_on_a_busy_machine_too():
    alone = nest(T_SHIRTS, MIX, 180, nap="two ways", gap_cm=0.2, seconds=0.7, seed=11)
    # Searches side by side take each other's time: one that ended by the clock would end elsewhere in its work.
    others = [elsewhere(0.7) for _ in range(2)]
    again = nest(
        T_SHIRTS, MIX, 180, nap="two ways", gap_cm=0.2, seconds=0.7, seed=11, progress=lambda _: time.sleep(0.01)
    )
    assert again == alone
    for other in others:
        out, complaint = other.communicate(timeout=120)
        length, placed = json.loads(out or "[0, []]")
        assert length == alone.length_cm, complaint
        assert placed == [[one.ref, one.size, one.turned, [[*p] for p in one.polygon]] for one in alone.placed]


def test_another_seed_gives_another_marker():
    first, second = (nest(T_SHIRTS, MIX, 180, seconds=0.05, seed=seed) for seed in (1, 2))
    assert first.placed != second.placed
    assert (first.seed, second.seed) == (1, 2)


class Told(NamedTuple):
    """A packing as a report tells of it."""

    width: float


def test_a_search_ends_after_its_work_and_starts_again_from_the_next_seed(monkeypatch):
    kinds = search.spyrrow.ReportType
    told = {
        7: [(kinds.ExplFeas, Told(90)), (kinds.ExplImproving, Told(10)), (kinds.CmprFeas, Told(80)), (kinds.Final, Told(80))],
        10: [(kinds.ExplFeas, Told(95)), (kinds.ExplInfeas, Told(20)), (kinds.ExplFeas, Told(70)), (kinds.Final, Told(70))],
        13: [(kinds.ExplFeas, Told(75)), (kinds.ExplImproving, Told(75)), (kinds.ExplFeas, Told(60))],
    }  # fmt: skip
    begun = []

    def reports(_instance, _apart, seed):
        begun.append(seed)
        yield from told[seed]

    monkeypatch.setattr(search, "_reports", reports)
    shape = {"points": [(0, 0), (10, 0), (10, 20)], "count": 1, "turns": [0.0]}
    task = {"shapes": [shape], "height": 50.0, "apart": 0.1, "seed": 7, "step": 3}

    def found(seconds: float) -> tuple[float, list[int]]:
        begun.clear()
        return search.search({**task, "seconds": seconds}, lambda _: None).width, [*begun]

    # An improvement is one step, a failed separation and the end of a search are 20 each; a search counts in seconds
    # as the square of its steps in seventies. A packing in which shapes overlap is none; what comes too late counts
    # no more.
    assert found(0.9**2 / 70**2) == (90, [7])
    assert found(1.9**2 / 70**2) == (80, [7])
    assert found((21**2 + 19**2) / 70**2) == (80, [7, 10])
    assert found((21**2 + 20.9**2) / 70**2) == (70, [7, 10])
    assert found((21**2 + 40**2 + 0.5**2) / 70**2) == (70, [7, 10, 13])


def test_progress_grows_from_the_start_to_the_end_in_the_callers_thread():
    import threading

    told = []
    nest(T_SHIRTS, MIX, 180, seconds=0.5, progress=lambda part: told.append((part, threading.get_ident())))
    parts = [part for part, _ in told]
    assert parts == sorted(parts)
    assert len(parts) > 3
    assert 0 <= parts[0] < 0.5
    assert parts[-1] == 1
    assert {thread for _, thread in told} == {threading.get_ident()}


def running(group: int) -> bool:
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return False
    return True


def waited(condition, seconds: float = 10) -> bool:
    end = time.monotonic() + seconds
    while not condition() and time.monotonic() < end:
        time.sleep(0.05)
    return condition()


def hear_ctrl_c() -> None:
    """Whoever runs the tests in the background may have made all processes deaf to it."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def test_ctrl_c_ends_the_search_and_all_that_it_started():
    process = elsewhere(3600, start_new_session=True, preexec_fn=hear_ctrl_c)
    try:
        children = Path(f"/proc/{process.pid}/task/{process.pid}/children")
        assert waited(lambda: len(children.read_text().split()) == 2)
        time.sleep(0.5)
        os.killpg(process.pid, signal.SIGINT)  # as a terminal does: the searches get it too
        _, complaint = process.communicate(timeout=20)
        assert complaint.splitlines()[-1] == b"KeyboardInterrupt"
        assert waited(lambda: not running(process.pid))
    finally:
        if running(process.pid):
            os.killpg(process.pid, signal.SIGKILL)


def test_an_error_of_the_caller_ends_the_search(monkeypatch):
    started = []
    process = lanes._process
    monkeypatch.setattr(lanes, "_process", lambda complaints: started.append(process(complaints)) or started[-1])

    def fail(_: float) -> None:
        raise OSError("no more paper")

    with pytest.raises(OSError, match="no more paper"):
        nest(T_SHIRTS, MIX, 180, seconds=3600, progress=fail)
    assert len(started) == 2
    assert all(one.poll() is not None for one in started)


def test_the_shortest_packing_counts_and_of_equal_ones_the_first(tmp_path, monkeypatch):
    path = tmp_path / "search.py"
    path.write_text(
        "import json, sys\ntask = json.loads(sys.stdin.readline())\n"
        "print(json.dumps({'done': 1.0, 'length': task['height'], 'lies': [[task['seed'], 0, 0, 0]]}))",
        "utf-8",
    )
    monkeypatch.setattr(lanes, "_PROGRAM", path)
    told = []
    found = lanes.best_of(
        [{"height": 5.0, "seed": 1}, {"height": 4.0, "seed": 2}, {"height": 4.0, "seed": 3}], told.append
    )
    assert found == {"done": 1.0, "length": 4.0, "lies": [[2, 0, 0, 0]]}
    assert told == pytest.approx([1 / 3, 2 / 3, 1])


@pytest.mark.parametrize(
    ("program", "why"),
    [
        ("import sys; sys.stdin.readline(); raise OSError('out of thread')", "OSError: out of thread"),
        ("", "no word of why"),
        ("print('{')", "no word of why"),
        ("import no_such_library", "ModuleNotFoundError: No module named 'no_such_library'"),
    ],
)
def test_a_search_that_breaks_down_says_why(program, why, tmp_path, monkeypatch):
    path = tmp_path / "search.py"
    path.write_text(program, "utf-8")
    monkeypatch.setattr(lanes, "_PROGRAM", path)
    with pytest.raises(RuntimeError) as broken:
        nest(T_SHIRTS, MIX, 180, seconds=1)
    assert str(broken.value) == f"the search for a marker broke down: {why}"


def test_a_panic_of_the_library_is_a_break_down_too():
    task = {
        "shapes": [{"points": [(0, 0), (10, 0), (10, 20), (0, 20)], "count": 1, "turns": [0.0]}],
        "height": 19.0, "apart": 0.1, "seconds": 1.0, "seed": 1, "step": 1,
    }  # fmt: skip
    with pytest.raises(RuntimeError, match=r"broke down: .*PanicException: .*does not seem to fit into the strip"):
        lanes.best_of([task], lambda _: None)


def test_importing_the_package_loads_no_heavy_library():
    code = "import sys, sheetgen.nesting; print({'spyrrow', 'shapely', 'numpy'} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"
