"""Several files to one command: each as if it were named alone, one after the other or on several cores."""

from __future__ import annotations

import io
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import redirect_stderr, redirect_stdout
from functools import partial, wraps
from importlib import import_module
from multiprocessing import get_context
from pathlib import Path
from typing import Any

import click

from sheetgen.commands.options import FILE
from sheetgen.errors import UserError
from sheetgen.texts import say

Work = Callable[..., int]
FOR_ONE = ("out", "as_object")
"""Options that go with one file alone."""


def each_of(name: str, metavar: str) -> Callable[[Work], Callable[..., int]]:
    """Make a command over the file `name` one over several: one that fails stops none of the others, and the worst exit status
    is that of all."""

    def over(work: Work) -> Callable[..., int]:
        @click.argument(name, type=FILE, nargs=-1, required=True, metavar=metavar)
        @click.option("--jobs", type=click.IntRange(1, 64), default=1, help="So many files at a time; 1 if not given.")
        @wraps(work)
        def command(*, jobs: int, **given: Any) -> int:
            files = list(_files(given.pop(name)))
            if len(files) == 1:
                return work(**{name: files[0]}, **given)
            if any(given.get(option) for option in FOR_ONE):
                raise UserError(say("--out and --json go with one file; name the files one by one."))
            return max(_outcomes(work, name, files, given, jobs))

        return command

    return over


def _files(named: Sequence[Path]) -> Iterator[Path]:
    """Each once; patterns that the shell did not open are opened here. UserError for one that names nothing."""
    found: dict[Path, None] = {}
    for path in named:
        some = sorted(path.parent.glob(path.name)) if "*" in path.name else [path]
        if not some:
            raise UserError(say("{path}: no file is called so.", path=path), 2)
        found.update(dict.fromkeys(some))
    yield from found


def _outcomes(work: Work, name: str, files: Sequence[Path], given: Mapping[str, Any], jobs: int) -> Iterator[int]:
    one = partial(_one, work.__module__, name, dict(given))
    if jobs == 1:
        for number, path in enumerate(files, 1):
            _say_which(number, len(files), path)
            yield _told(work, name, path, given)
        return
    # Begun anew, not forked: what calculates and draws has threads of its own, and a fork of them may wait for ever.
    with ProcessPoolExecutor(min(jobs, len(files)), mp_context=get_context("spawn")) as pool:
        for number, (path, (status, said, wrong)) in enumerate(zip(files, pool.map(one, files), strict=True), 1):
            _say_which(number, len(files), path)
            click.echo(said, nl=False)
            click.echo(wrong, nl=False, err=True)
            yield status


def _say_which(number: int, count: int, path: Path) -> None:
    click.echo(say("{number} of {count}: {path}", number=number, count=count, path=path))


def _told(work: Work, name: str, path: Path, given: Mapping[str, Any]) -> int:
    """One file; a person's mistake in it is said and stops nothing else."""
    try:
        return work(**{name: path}, **given)
    except UserError as error:
        print(f"sheetgen: {error}", file=sys.stderr)
        return error.status
    except OSError as error:
        print(say("sheetgen: {path}: {error}", path=path, error=error.strerror or error), file=sys.stderr)
        return 3


def _one(module: str, name: str, given: Mapping[str, Any], path: Path) -> tuple[int, str, str]:
    """The same in a process of its own: exit status, and what it wrote on its two outputs."""
    work: Work = import_module(module).command.callback.__wrapped__
    said, wrong = io.StringIO(), io.StringIO()
    with redirect_stdout(said), redirect_stderr(wrong):
        status = _told(work, name, path, given)
    return status, said.getvalue(), wrong.getvalue()
