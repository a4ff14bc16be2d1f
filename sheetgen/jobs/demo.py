"""The demonstration: three invented styles once round the loop, from brief to accepted revision, all files kept."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib import resources
from pathlib import Path

from sheetgen import api
from sheetgen.audit.run import Audit
from sheetgen.errors import UserError
from sheetgen.jobs.cut_plan import Limits, planned
from sheetgen.jobs.marker_tasks import Request
from sheetgen.jobs.markers import lay_markers
from sheetgen.jobs.packs import pack_of
from sheetgen.report.machine import as_json
from sheetgen.report.page import html_page
from sheetgen.report.reply import reply_text
from sheetgen.sheets import BOOK
from sheetgen.testing.answers import answer
from sheetgen.testing.edit import edited, load_faults
from sheetgen.texts import say
from sheetgen.workbook.exchange.receipts import RECEIPT_ENDING
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.write.save import save, save_together

STYLES = ("overshirt", "sweatshirt", "jacket")
OTHER_VENDORS = {
    "overshirt": {"second": ("Ambelora Garments", "Ira Sen"), "third": ("Trevanu Confecții", "Dana Ilieva")}
}
"""The style that goes on to bulk, quoted by more vendors (invented): the ending of their answers' file, and who answers there."""
ISSUED_ON = datetime.date(2026, 11, 20)
ACCEPTED_ON = datetime.date(2026, 12, 14)
"""Fixed days, so that two demonstrations give the same working files byte for byte."""
MARKER_EFFORT = 2.0
"""Seconds, about: enough to see what a marker is."""
LIMITS = Limits(plies=60, garments=6, over=0.02, material="M1")
"""What the invented cutting rooms can do."""


@dataclass(frozen=True)
class Round:
    """What one style's round gave."""

    style: str
    files: tuple[Path, ...]
    clean: Audit
    faulty: Audit
    planted: int
    taken: int


def sample_inputs() -> Path:
    """The folder of the sample inputs: in the installed package, or in the checkout."""
    installed = Path(str(resources.files("sheetgen"))) / "sample_inputs"
    for folder in (installed, Path(__file__).resolve().parents[2] / "sample_inputs"):
        if (folder / "brand" / "brand.toml").is_file():
            return folder
    raise UserError(say("the sample inputs are missing from this installation; install sheetgen again."))


def run(out: Path, tell: Callable[[str], None]) -> Iterator[Round]:
    """Go round with each style, writing into `out`; `tell` hears what is being done."""
    if out.exists() and not out.is_dir():
        raise UserError(say("{out}: is a file; name a folder for the demonstration.", out=out))
    for style in STYLES:
        yield _round(style, sample_inputs(), out, tell)


def _round(style: str, inputs: Path, out: Path, tell: Callable[[str], None]) -> Round:
    def path(ending: str) -> Path:
        return out / f"{style}-{ending}"

    working, issued = path("working.xlsx"), path("issued.xlsx")
    tell(say("{style}: building the working workbook from its brief", style=style))
    built = api.build(inputs / style / "brief.toml", inputs / "brand" / "brand.toml")
    save(built.data, working, replace=True)
    tell(say("{style}: issuing the vendor's copy", style=style))
    copy = api.issue(working, issued=ISSUED_ON)
    receipt = path("issued" + RECEIPT_ENDING)
    save_together({issued: copy.data, receipt: copy.receipt.text.encode()}, replace=True)
    tell(say("{style}: typesetting the pack for the factory's table", style=style))
    pack = path("pack.pdf")
    save(pack_of(api.read(issued)).data, pack, replace=True)

    clean, faulty = path("returned-clean.xlsx"), path("returned-faulty.xlsx")
    tell(say("{style}: playing the vendor, once with care and once without", style=style))
    _tell_of(style, answer(BOOK, issued, inputs / style / "answers-clean.toml", built.values, clean), tell)
    faults = load_faults(inputs / style / "answers-faulty.toml")
    edited(BOOK, clean, [fault.edit for fault in faults], faulty)

    reports: list[Path] = []
    audits = []
    for name, returned in (("clean", clean), ("faulty", faulty)):
        tell(say("{style}: auditing the {name} return", style=style, name=name))
        audits.append(api.audit(returned, receipt))
        reports += _reports(audits[-1], built.text("style.contact"), path(f"audit-{name}"))

    tell(say("{style}: accepting the clean return into the next revision", style=style))
    accepted = api.accept(working, clean, receipt=receipt, by=built.text("style.contact"), date=ACCEPTED_ON)
    save(accepted.built.data, path("next.xlsx"), replace=True)
    offers: list[Path] = []
    if style in OTHER_VENDORS:
        _prepare_bulk(style, path("next.xlsx"), tell)
        tell(say("{style}: comparing the offers of {count} vendors", style=style, count=len(OTHER_VENDORS[style]) + 1))
        offers = _offers(style, inputs, out, built, audits[0])
    files = (working, issued, receipt, pack, clean, faulty, *reports, path("next.xlsx"), *offers)
    return Round(style, files, audits[0], audits[1], len(faults), len(accepted.acceptance.of("taken")))


def _tell_of(style: str, made: Values, tell: Callable[[str], None]) -> None:
    """Say which entries have answers that nobody wrote."""
    entries = sorted({place.entry for place in made})
    if entries:
        tell(
            say(
                "{style}: generating answers for {entries}, which its answers' file does not know",
                style=style,
                entries=", ".join(entries),
            )
        )


def _prepare_bulk(style: str, working: Path, tell: Callable[[str], None]) -> None:
    """A marker of the main fabric and the lays that cut the order, put into a working workbook."""
    tell(say("{style}: laying the pieces of its main fabric", style=style))
    built, _ = lay_markers(working, Request(["M1"], effort=MARKER_EFFORT), made_on=ACCEPTED_ON)
    save(built.data, working, replace=True)
    tell(say("{style}: planning the lays that cut its order", style=style))
    save(planned(working, LIMITS).built.data, working, replace=True)


def _reports(result: Audit, contact: str, stem: Path) -> list[Path]:
    """An audit as a page, as data and as a letter to the vendor."""
    written = []
    for ending, text in (
        ("html", html_page([result], title=say("Audit: {name}", name=result.file.name))),
        ("json", as_json([result])),
        ("reply.txt", reply_text(result, contact=contact)),
    ):
        written.append(stem.with_name(f"{stem.name}.{ending}"))
        save(text.encode(), written[-1], replace=True)
    return written


def _offers(style: str, inputs: Path, out: Path, built: api.Built, first: Audit) -> list[Path]:
    """The other vendors' copies, issued for a quote and filled in, and all offers side by side."""
    written: list[Path] = []
    returned = [first.file]
    working = out / f"{style}-working.xlsx"
    for name, (vendor, contact) in OTHER_VENDORS[style].items():
        copy = api.issue(working, purpose="quote", vendor=vendor, contact=contact, issued=ISSUED_ON)
        path, receipt = out / f"{style}-returned-{name}.xlsx", out / f"{style}-issued-{name}{RECEIPT_ENDING}"
        save_together({path: copy.data, receipt: copy.receipt.text.encode()}, replace=True)
        answer(BOOK, path, inputs / style / f"answers-{name}.toml", built.values, path)
        returned.append(path)
        written += [path, receipt]
    compared = api.compare_offers(working, returned, (first,))
    save(compared.data, out / f"{style}-offers.xlsx", replace=True)
    return [*written, out / f"{style}-offers.xlsx"]
