"""Judges slips: each in a process of its own, forked from one that has everything loaded, by the tests of its module.

A slip is found when a test fails, or when the tests take far longer than they should (an endless loop).
"""

from __future__ import annotations

import contextlib
import io
import os
import resource
import signal
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal, NamedTuple

import pytest

from tests.mutation.patch import forget, put_in
from tests.mutation.slips import Slip

Verdict = Literal["found", "found by time", "survived"]
_FOUND, _SURVIVED = 1, 0
_PATIENCE = 20.0
"""Seconds of waiting, beside those of computing, after which a process is not coming back."""


class Judged(NamedTuple):
    """A slip and what the tests said."""

    slip: Slip
    verdict: Verdict


@dataclass
class Watch:
    """A plugin of pytest: how long each test takes, and whether one failed."""

    seconds: dict[str, float] = field(default_factory=dict)
    failed: list[str] = field(default_factory=list)
    first: dict[str, float] = field(default_factory=dict)

    def pytest_runtest_logreport(self, report: Any) -> None:
        """Add up the parts of a test; a failure in any of them counts."""
        self.seconds[report.nodeid] = self.seconds.get(report.nodeid, 0.0) + report.duration
        if report.failed:
            self.failed.append(report.nodeid)

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[Any]) -> None:
        """The quickest tests first: most slips are found by one of them."""
        items.sort(key=lambda item: self.first.get(item.nodeid, 0.0))


class Judge:
    """The tests of one module, run once without a slip, and then with one after another."""

    def __init__(self, module: str, source: str, tests: Sequence[str]) -> None:
        self.module, self.source, self.tests = module, source, list(tests)
        self.known = Watch()
        started = time.process_time()
        status, said = _run(self.tests, self.known)
        if status != 0:
            raise RuntimeError(f"the tests of {module} fail without any slip:\n{said}")
        self.seconds = time.process_time() - started

    def verdicts(self, slips: Sequence[Slip], workers: int, tell: Callable[[Judged], None]) -> list[Judged]:
        """Judge the slips, as many at a time as there are workers; `tell` hears each as it is done."""
        waiting, running, done = list(slips), dict[int, tuple[Slip, float]](), list[Judged]()
        while waiting or running:
            while waiting and len(running) < workers:
                slip = waiting.pop(0)
                running[self._forked(slip)] = (slip, time.monotonic())
            pid, status = os.waitpid(-1, os.WNOHANG)
            if pid == 0:
                self._end_what_hangs(running)
                time.sleep(0.01)
                continue
            slip, _ = running.pop(pid)
            done.append(Judged(slip, _verdict(status)))
            tell(done[-1])
        return sorted(done)

    def _forked(self, slip: Slip) -> int:
        pid = os.fork()
        if pid == 0:
            status = _FOUND
            try:
                limit = int(3 * self.seconds) + 5
                resource.setrlimit(resource.RLIMIT_CPU, (limit, limit + 1))
                put_in(self.module, self.source, slip)
                status, _ = _run(["-x", *self.tests], Watch(first=self.known.seconds))
            finally:
                # A process that was forked must not run its parent's endings.
                os._exit(_SURVIVED if status == 0 else _FOUND)
        return pid

    def _end_what_hangs(self, running: dict[int, tuple[Slip, float]]) -> None:
        for pid, (_, since) in running.items():
            if time.monotonic() - since > 30 * self.seconds + _PATIENCE:
                os.kill(pid, signal.SIGXCPU)


def _verdict(status: int) -> Verdict:
    if os.WIFSIGNALED(status):
        return "found by time"
    return "survived" if os.WEXITSTATUS(status) == _SURVIVED else "found"


def _run(words: Sequence[str], watch: Watch) -> tuple[int, str]:
    """Run tests in this process; pytest's status and what it said."""
    said = io.StringIO()
    forget()
    quiet = ["-q", "-p", "no:cacheprovider", "-p", "no:xdist", "--no-header", "--hypothesis-seed=0"]
    with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
        status = int(pytest.main([*quiet, *words], plugins=[watch]))
    return status, said.getvalue()
