"""Records the calls that a command makes of xlsxwriter, so that a bare script can make the same ones and nothing else.

As a program: `python recording.py TARGET build brief.toml --out x.xlsx` runs `sheetgen build ...` and writes TARGET.calls,
and TARGET.programs: what it started and told something on the standard input, as the search for a marker.
"""

from __future__ import annotations

import io
import json
import pickle
import subprocess
import sys
from collections.abc import Callable
from contextlib import ExitStack
from copy import deepcopy
from pathlib import Path
from typing import IO, Any, ClassVar
from unittest.mock import patch

import xlsxwriter
from xlsxwriter.chart import Chart
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from sheetgen.workbook.write.recording import RecordingSheet

MADE, IMAGE, OWN_SHEET = "made", "image", "sheet with the shortcuts"
"""What stands in an argument's place: a thing that an earlier call made, a picture's bytes, sheetgen's kind of sheet."""
SHORTCUTS = {"_prepare_formula", "_write_formula", "_escape_attributes"}
"""What sheetgen's sheet does otherwise than the library, and bare.py too; that it keeps what it writes makes it slower, not quicker."""
Argument = Any
Call = tuple[int, str, bool, tuple[Argument, ...], dict[str, Argument], bool]
"""Thing (0 is the book, then in the order in which they are made), method, whether its arguments can be passed as they
are, arguments by place and by name, whether it makes a thing."""
Recording = list[tuple[dict[str, Any], list[Call]]]
"""For each book its options and its calls."""


class Recorder:
    """Notes every outermost call of a public method of xlsxwriter's books, sheets and charts."""

    def __init__(self) -> None:
        self.books: Recording = []
        self._depth = 0
        self._kept: list[object] = []  # else another thing could take the place, and so the id, of one that is gone
        self._things: dict[int, tuple[int, int]] = {}
        self._counts: list[int] = []

    def record(self, work: Callable[[], Any]) -> Any:
        """Do the work, note its calls, and return what it returns."""
        with ExitStack() as stack:
            for kind in (xlsxwriter.Workbook, Worksheet, Chart):
                for name, method in list(vars(kind).items()):
                    if callable(method) and not isinstance(method, type) and not name.startswith("_"):
                        stack.enter_context(patch.object(kind, name, self._noting(name, method)))
            begin = xlsxwriter.Workbook.__init__
            stack.enter_context(patch.object(xlsxwriter.Workbook, "__init__", self._beginning(begin)))
            return work()

    def _beginning(self, begin: Callable[..., None]) -> Callable[..., None]:
        def begins(book: xlsxwriter.Workbook, file: object, options: dict[str, Any] | None = None) -> None:
            self.books.append((deepcopy(options or {}), []))  # xlsxwriter changes what it is given
            self._counts.append(0)
            self._keep(book, len(self.books) - 1)
            self._depth += 1
            begin(book, file, options)
            self._depth -= 1

        return begins

    def _keep(self, thing: object, book: int) -> None:
        self._kept.append(thing)
        self._things[id(thing)] = (book, self._counts[book])
        self._counts[book] += 1

    def _noting(self, name: str, method: Callable[..., Any]) -> Callable[..., Any]:
        def noted(own: Any, *args: Any, **named: Any) -> Any:
            # What is given is written down first: a call may change it.
            given = None if self._depth else (_plain(args, self._things), _plain(named, self._things))
            self._depth += 1
            try:
                result = method(own, *args, **named)
            finally:
                self._depth -= 1
            if given is not None:
                book, thing = self._things[id(own)]
                makes = isinstance(result, Format | Worksheet | Chart)
                plain = not _holds_marks(given)
                self.books[book][1].append((thing, name, plain, *given, makes))
                if makes:
                    self._keep(result, book)
            return result

        return noted


def _plain(value: Argument, things: dict[int, tuple[int, int]]) -> Argument:
    """An argument as it can be written to a file."""
    if isinstance(value, tuple):
        return tuple(_plain(one, things) for one in value)
    if isinstance(value, list):
        return [_plain(one, things) for one in value]
    if isinstance(value, dict):
        return {key: _plain(one, things) for key, one in value.items()}
    if isinstance(value, Format | Chart):
        return (MADE, things[id(value)][1])
    if isinstance(value, io.BytesIO):
        return (IMAGE, value.getvalue())
    if isinstance(value, type) and issubclass(value, Worksheet):
        changed = {name for name, held in vars(value).items() if callable(held)}
        if value is RecordingSheet:
            changed = {name for name in changed if name.startswith("_") and not name.startswith("__")}
        if changed != SHORTCUTS:
            raise RuntimeError(f"sheetgen's sheet changes {sorted(changed)}: give bare.py the same shortcuts.")
        return (OWN_SHEET, None)
    return value


def _holds_marks(value: Argument) -> bool:
    if isinstance(value, dict):
        return any(_holds_marks(one) for one in value.values())
    if isinstance(value, tuple | list):
        return value[:1] in ((MADE,), (IMAGE,), (OWN_SHEET,)) or any(_holds_marks(one) for one in value)
    return False


class _Heard:
    """A program's standard input that remembers what it was told."""

    def __init__(self, pipe: IO[str], told: list[str]) -> None:
        self._pipe, self._told = pipe, told

    def write(self, text: str) -> int:
        self._told.append(text)
        return self._pipe.write(text)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._pipe, name)


class Started(subprocess.Popen[str]):
    """Notes each program that is told something on its standard input: its words, its environment, what it was told."""

    programs: ClassVar[list[tuple[list[str], dict[str, str], list[str]]]] = []

    def __init__(self, words: Any, *args: Any, **named: Any) -> None:
        super().__init__(words, *args, **named)
        if self.stdin is not None:
            told: list[str] = []
            self.programs.append(([str(word) for word in words], dict(named.get("env") or {}), told))
            self.stdin = _Heard(self.stdin, told)  # type: ignore[assignment]


def main(target: str, *words: str) -> int:
    """Run a command of sheetgen's; write what it asked of xlsxwriter, and what programs it started and told something."""
    from sheetgen.cli import main as sheetgen  # the sheetgen that PYTHONPATH names

    recorder = Recorder()
    with patch.object(subprocess, "Popen", Started):
        status: int = recorder.record(lambda: sheetgen(list(words)))
    Path(f"{target}.calls").write_bytes(pickle.dumps(recorder.books, pickle.HIGHEST_PROTOCOL))
    Path(f"{target}.programs").write_text(json.dumps(Started.programs), "utf-8")
    return status


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
