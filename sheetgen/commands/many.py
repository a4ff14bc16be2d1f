"""Several files to one command: each as if it were named alone, one after the other or on several cores."""

from __future__ import annotations

import gc
import io
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import redirect_stderr, redirect_stdout
from functools import partial, wraps
from importlib import import_module
from pathlib import Path
from typing import Any, TypeVar

import click

from sheetgen.commands.options import FILE
from sheetgen.console import tell_trouble
from sheetgen.errors import UserError
from sheetgen.texts import say

Work = Callable[..., int]
Given = TypeVar("Given")
Made = TypeVar("Made")
Call = Mapping[str, Any]
"""What a command is given for one of the files."""
FOR_ONE = ("out", "as_object")
FOR_ONE_ANSWER = ("out", "receipt", "take", "leave")
"""Options that go with one file alone, and with one answer alone."""
jobs_option = click.option(
    "--jobs", type=click.IntRange(1, 64), default=1, help="So many files at a time; 1 if not given."
)


def each_of(name: str, metavar: str) -> Callable[[Work], Callable[..., int]]:
    """Make a command over the file `name` one over several, and over the newest working workbooks of a folder: one that fails
    stops none of the others, and the worst exit status is that of all."""

    def over(work: Work) -> Callable[..., int]:
        @click.argument(name, type=FILE, nargs=-1, required=True, metavar=metavar)
        @jobs_option
        @wraps(work)
        def command(*, jobs: int, **given: Any) -> int:
            files = list(_files(given.pop(name)))
            if len(files) == 1:
                return work(**{name: files[0]}, **given)
            if any(given.get(option) for option in FOR_ONE):
                raise UserError(say("--out and --json go with one file; name the files one by one."))
            return worst_of(work, [(path, {name: path, **given}) for path in files], jobs)

        return command

    return over


def each_answer(work: Work) -> Callable[..., int]:
    """Make a command over a working workbook and a return one over all answers that lie in a folder, too."""

    @click.argument("working", type=FILE)
    @click.argument("returned", type=FILE, required=False)
    @jobs_option
    @wraps(work)
    def command(*, working: Path, returned: Path | None, jobs: int, **given: Any) -> int:
        if returned is not None:
            return work(working=working, returned=returned, **given)
        if not working.is_dir():
            raise UserError(
                say("{path}: name the return too, behind it; or a folder, for all answers in it.", path=working)
            )
        if any(given.get(option) for option in FOR_ONE_ANSWER):
            raise UserError(say("--out, --receipt, --take and --leave go with one return; name its two files."))
        from sheetgen.jobs.standing import answered_below  # noqa: PLC0415 - it loads what reads files

        pairs = answered_below(working)
        if not pairs:
            words = say("{path}: no answer to the last copy of a working workbook lies in this folder.", path=working)
            raise UserError(words)
        calls = [(answer, {"working": newest, "returned": answer, **given}) for newest, answer in pairs]
        return worst_of(work, calls, jobs)

    return command


def _files(named: Sequence[Path]) -> Iterator[Path]:
    """Each once; patterns that the shell did not open are opened here, and folders. UserError for one that names nothing."""
    found: dict[Path, None] = {}
    for path in named:
        if path.is_dir():
            from sheetgen.jobs.standing import newest_below  # noqa: PLC0415 - it loads what reads files

            some = newest_below(path)
            if not some:
                raise UserError(say("{path}: is a folder, and no working workbook lies in it.", path=path), 3)
        else:
            some = sorted(path.parent.glob(path.name)) if "*" in path.name else [path]
        if not some:
            raise UserError(say("{path}: no file is called so.", path=path), 2)
        found.update(dict.fromkeys(some))
    yield from found


def worst_of(work: Work, calls: Sequence[tuple[Path, Call]], jobs: int) -> int:
    """Call a command for each file, so many at a time, and say which it is; the worst exit status."""
    return max(_outcomes(work, calls, jobs))


def _outcomes(work: Work, calls: Sequence[tuple[Path, Call]], jobs: int) -> Iterator[int]:
    if jobs == 1:
        statuses = spread(partial(_told, work), [given for _, given in calls], 1)
        for number, (path, _) in enumerate(calls, 1):
            _say_which(number, len(calls), path)
            yield next(statuses)
        return
    answers = spread(partial(_one, work.__module__), [given for _, given in calls], jobs)
    for number, ((path, _), (status, said, wrong)) in enumerate(zip(calls, answers, strict=True), 1):
        _say_which(number, len(calls), path)
        click.echo(said, nl=False)
        click.echo(wrong, nl=False, err=True)
        yield status


def spread(work: Callable[[Given], Made], given: Sequence[Given], jobs: int) -> Iterator[Made]:
    """What `work` makes of each, in their order: here, or so many at a time in processes of their own."""
    if jobs == 1 or len(given) == 1:
        for one in given:
            yield work(one)
            if len(given) > 1:
                tidy_up()
        return
    from concurrent.futures import ProcessPoolExecutor  # noqa: PLC0415 - most commands start no other process
    from multiprocessing import get_context  # noqa: PLC0415

    # Begun anew, not forked: what calculates and draws has threads of its own, and a fork of them may wait for ever.
    with ProcessPoolExecutor(min(jobs, len(given)), mp_context=get_context("spawn")) as pool:
        yield from pool.map(partial(_tidily, work), given)


def _tidily(work: Callable[[Given], Made], given: Given) -> Made:
    made = work(given)
    tidy_up()
    return made


def _say_which(number: int, count: int, path: Path) -> None:
    click.echo(say("{number} of {count}: {path}", number=number, count=count, path=path))


def tidy_up() -> None:
    """Let go of the workbook that was there: much of one refers to itself, and would stay until all files are done.

    What is there after the first file (modules, the declared book) stays, and is not looked through again.
    """
    gc.collect()
    if not gc.get_freeze_count():
        gc.freeze()


def _told(work: Work, given: Call) -> int:
    """One file; a person's mistake in it is said and stops nothing else."""
    try:
        return work(**given)
    except (UserError, OSError) as error:
        return tell_trouble(error)


def _one(module: str, given: Call) -> tuple[int, str, str]:
    """The same in a process of its own: exit status, and what it wrote on its two outputs."""
    work: Work = import_module(module).command.callback.__wrapped__
    said, wrong = io.StringIO(), io.StringIO()
    with redirect_stdout(said), redirect_stderr(wrong):
        status = _told(work, given)
    return status, said.getvalue(), wrong.getvalue()
