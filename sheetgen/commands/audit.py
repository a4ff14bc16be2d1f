"""`sheetgen audit`."""

from __future__ import annotations

import datetime
import traceback
from collections.abc import Iterable, Mapping
from contextlib import nullcontext
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import click

from sheetgen import api
from sheetgen.api.brands import brand_for
from sheetgen.audit.run import Audit
from sheetgen.commands.many import jobs_option, spread
from sheetgen.commands.options import (
    FILE,
    console,
    one_brand,
    quoted,
    receipt_option,
    replace_option,
    second_opinion_option,
    tell_second_opinion,
)
from sheetgen.declare.entry import place_of
from sheetgen.errors import UserError
from sheetgen.jobs.asked_again import Became, became
from sheetgen.jobs.returns import files_of
from sheetgen.jobs.still_open import still_open
from sheetgen.report.letter import letter_words
from sheetgen.report.machine import as_json, as_json_line
from sheetgen.report.outcome import Outcome, Unusable
from sheetgen.report.page import html_page
from sheetgen.report.reply import reply_text
from sheetgen.report.terminal import print_audit, print_summary
from sheetgen.texts import say
from sheetgen.workbook.exchange.receipts import RECEIPT_ENDING, refuse_other_issue
from sheetgen.workbook.write.save import save_together

if TYPE_CHECKING:
    from sheetgen.workbook.exchange.issue import Issued


@click.command(
    "audit", epilog="Example: sheetgen audit HV-27A-OS-014-returned.xlsx --html audit.html --reply reply.txt"
)
@click.argument("named", type=FILE, nargs=-1, required=True, metavar="FILES|FOLDERS...")
@receipt_option
@click.option(
    "--for",
    "purpose",
    type=click.Choice(["quote", "sample", "bulk"]),
    help="Judge a working workbook for this purpose, as sheetgen issue does; as in the file if not given.",
)
@click.option("--html", type=FILE, default=None, help="Also write the report as one HTML page.")
@click.option(
    "--list",
    "listed",
    type=FILE,
    default=None,
    help="Also write all findings as a workbook (.xlsx) to work through: what is done is ticked off.",
)
@click.option("--reply", type=FILE, default=None, help="Also write a letter to the vendor with the questions.")
@click.option(
    "--query",
    type=FILE,
    default=None,
    help="Also write the vendor's own file anew, what is asked marked in its cells and listed on Questions; and its receipt.",
)
@click.option("--json", "as_object", is_flag=True, help="Print one JSON object and nothing else.")
@click.option(
    "--json-lines", "as_lines", is_flag=True, help="Print one JSON object a line for each file, and nothing else."
)
@click.option(
    "--brand",
    type=FILE,
    multiple=True,
    callback=one_brand,
    help="The brand file whose limits ([judgment]) and letter's words ([letter]) count; brand.toml beside the file if not given.",
)
@second_opinion_option
@jobs_option
@replace_option
def command(
    named: tuple[Path, ...],
    receipt: Path | None,
    purpose: str | None,
    reply: Path | None,
    query: Path | None,
    *,
    as_object: bool,
    as_lines: bool,
    second_opinion: bool,
    jobs: int,
    replace: bool,
    **said: Path | None,
) -> int:
    """Say what is wrong with a file that came back, or with a working workbook before it leaves, cell by cell.

    Of a folder all returns in it and below are audited; a pattern as returns/*.xlsx names several. One that cannot be used
    stops none of the others, and a table at the end says whose turn it is.

    Exit status: 0 nothing to fix, 1 something to fix or engines that do not agree, 3 a file that cannot be used.
    """
    files = files_of(named)
    _refuse_together(
        files, receipt, {"--reply": reply, "--query": query}, opinion=second_opinion and (as_object or as_lines)
    )
    how = _How(receipt, purpose, said["brand"], many=len(files) > 1)
    told = _audited(how, files, jobs, quiet=as_object or as_lines)
    outcomes = [one.outcome for one in told]
    written = _reports(outcomes, reply, query, said)
    if written:
        save_together(written, replace=replace)
    if as_object:
        click.echo(as_json(outcomes))
    elif as_lines:
        for outcome in outcomes:
            click.echo(as_json_line(outcome))
    else:
        _print(told, written, replied=bool(reply or query))
    usable = [outcome.file for outcome in outcomes if not isinstance(outcome, Unusable)]
    agreed = [tell_second_opinion(file) for file in usable if second_opinion]
    return max(_status(outcomes), 0 if all(agreed) else 1)


def _reports(
    outcomes: list[Outcome], reply: Path | None, query: Path | None, said: Mapping[str, Path | None]
) -> dict[Path, bytes]:
    """What else was asked for: a page, a worklist, a letter, a copy with the questions; and where each is to be written."""
    written: dict[Path, bytes] = {}
    if (html := said["html"]) is not None:
        written[html] = html_page(outcomes, title="Audit").encode()
    if (listed := said["listed"]) is not None:
        written[listed] = import_module("sheetgen.report.worklist").worklist(outcomes)
    if reply is not None and not isinstance(outcomes[0], Unusable):
        written[reply] = _letter(outcomes[0], said["brand"]).encode()
    if query is not None and not isinstance(outcomes[0], Unusable):
        written |= _query_copy(outcomes[0], query)
    return written


def _refuse_together(
    files: list[Path], receipt: Path | None, targets: Mapping[str, Path | None], *, opinion: bool
) -> None:
    """UserError for options that do not go together."""
    if opinion:
        raise UserError(say("--second-opinion is written for people; leave --json or --json-lines out."))
    if receipt is not None and len(files) > 1:
        raise UserError(
            say("--receipt goes with one file; audit the files one by one, or put each receipt beside its file.")
        )
    for option, target in targets.items():
        if target is not None and len(files) > 1:
            raise UserError(say("{option} goes with one file; audit the files one by one.", option=option))


def _letter(result: Audit, brand: Path | None) -> str:
    """The letter in the brand's words: those of the brand file that is named, else of one beside the file."""
    source = brand_for(result.file, brand)
    contact = str(result.got.typed.get(place_of("style.contact")) or "")
    try:  # brands are loaded when a letter is asked for
        given = import_module("sheetgen.style.brand").load_brand(source).letter if source else {}
        words = letter_words(given, result.purpose)
    except ValueError as error:
        raise UserError(f"{source}: {error}.") from None
    return reply_text(result, contact=contact, words=words, still_open=list(still_open(result.got)))


def _print(told: list[_Told], written: Iterable[Path], *, replied: bool) -> None:
    screen = console()
    for outcome, of in told:
        print_audit(screen, outcome, next_step=_next(outcome, replied=replied))
        if of is not None:
            screen.print(_became(of), soft_wrap=True, markup=False)
    if len(told) > 1:
        print_summary(screen, [one.outcome for one in told])
    for path in written:
        screen.print(say("Written: {path}", path=path), soft_wrap=True, markup=False)


def _query_copy(result: Audit, target: Path) -> dict[Path, bytes]:
    """The vendor's file with the questions, and its receipt. What builds a workbook is loaded when one is asked for."""
    made: Issued = import_module("sheetgen.jobs.asking_back").query_copy(result, datetime.date.today())
    receipt = target.with_name(target.stem + RECEIPT_ENDING)
    refuse_other_issue(receipt, made.receipt)
    return {target: made.data, receipt: made.receipt.text.encode()}


def _became(of: Became) -> str:
    """What became of the questions that this copy asked."""
    said = say(
        "Of {count} questions in this copy: {resolved} resolved, {answered} answered without a change, {open} open; {new} new.",
        count=len(of.resolved) + len(of.answered) + len(of.open), resolved=len(of.resolved), answered=len(of.answered),
        open=len(of.open), new=of.new,
    )  # fmt: skip
    rows = ", ".join((*of.answered, *of.open))
    return said + (" " + say("Look at {rows} on Questions.", rows=rows) if rows else "")


class _Told(NamedTuple):
    """What came of a file, and what became of the questions that its copy asked."""

    outcome: Outcome
    became: Became | None = None


@dataclass(frozen=True)
class _How:
    """How each of the files is audited; of `many`, nothing is kept that no report says."""

    receipt: Path | None
    purpose: str | None
    brand: Path | None
    many: bool

    def __call__(self, path: Path) -> _Told:
        try:
            result = api.audit(path, self.receipt, self.purpose, self.brand)
            return _Told(result.without_cells() if self.many else result, became(result))
        except UserError as error:
            if error.status != 3:
                raise
            return _Told(Unusable(path, str(error)))
        except Exception as error:  # the one boundary: whatever a file does to us, the others are still audited
            return _Told(Unusable(path, _failed(path, error)))


def _audited(how: _How, files: list[Path], jobs: int, *, quiet: bool) -> list[_Told]:
    screen = console()
    showing = screen.is_terminal and not quiet
    told: list[_Told] = []
    with screen.status("") if showing else nullcontext() as status:
        results = spread(how, files, jobs)
        for number, path in enumerate(files, 1):
            if status is not None:
                status.update(
                    say("Auditing {number} of {count}: {name}", number=number, count=len(files), name=path.name)
                )
            told.append(next(results))
    return told


def _next(outcome: Outcome, *, replied: bool) -> str:
    if isinstance(outcome, Unusable):
        return ""
    if not outcome.issue_id:
        return say("sheetgen issue {file}", file=quoted(outcome.file))
    if outcome.must_fix:
        return "" if replied else say("sheetgen audit {file} --reply reply.txt", file=quoted(outcome.file))
    return say("sheetgen accept WORKING.xlsx {file}", file=quoted(outcome.file))


def _failed(path: Path, error: Exception) -> str:
    """A file on which the audit itself fails, with what whoever mends it must know and nothing that the file holds."""
    trace = traceback.extract_tb(error.__traceback__)[-1]
    return say(
        "{path}: could not be audited ({error} in {name} line {line}); the other files are. Ask for it to be saved again.",
        path=path,
        error=type(error).__name__,
        name=Path(trace.filename).name,
        line=trace.lineno,
    )


def _status(outcomes: list[Outcome]) -> int:
    if any(isinstance(outcome, Unusable) for outcome in outcomes):
        return 3
    return 1 if any(not isinstance(outcome, Unusable) and outcome.must_fix for outcome in outcomes) else 0
