"""Issuing: the vendor's copy without anything private, and the receipt that remembers all that was sent."""

from __future__ import annotations

import datetime
import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, PictureMark, Value
from sheetgen.declare.parts import Book
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.model.geometry import Geometry
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.leaving_out import given_values, left_out
from sheetgen.workbook.model.packing import FORM, NewerFormError, UnreadableError, refuse_newer, unpacked
from sheetgen.workbook.model.traces import without_traces
from sheetgen.workbook.model.values import Ready, Shape, Values, fixed_values, ready, shape_of
from sheetgen.workbook.model.visible import hidden_sheets
from sheetgen.workbook.model.written import Written
from sheetgen.workbook.write.file import Artist, calculated, finished

RECEIPT_ENDING = ".receipt.json"


@dataclass(frozen=True)
class Receipt:
    """All that was sent: who, what for, until when, every shared value, and (packed) every cell as it was written; `pack` is
    the sha-256 of the pages that were written with it."""

    issue_id: str
    style: str
    revision: str
    purpose: str
    vendor: str
    due: str
    issued: str
    shape: Shape
    values: Mapping[Place, Value | PictureMark]
    form: int = FORM
    pack: str = ""
    written: str = field(default="", repr=False, compare=False)

    @cached_property
    def account(self) -> Written | None:
        """Every cell as it was written; None if the receipt is of the first form, which did not keep it."""
        try:
            return unpacked(self.written)
        except UnreadableError:
            return None

    def to_json(self) -> dict[str, Any]:
        """As plain JSON data."""
        return {
            "sheetgen_receipt": self.form,
            "issue_id": self.issue_id,
            "style": self.style,
            "revision": self.revision,
            "purpose": self.purpose,
            "vendor": self.vendor,
            "due": self.due,
            "issued": self.issued,
            "axes": {axis: list(names) for axis, names in self.shape.axes},
            "words": dict(self.shape.words),
            "values": [[place.entry, place.row, _to_json(value)] for place, value in self.values.items()],
            **({"pack": self.pack} if self.pack else {}),
            **({"written": self.written} if self.written else {}),
        }


class Laid(NamedTuple):
    """What stands in a copy and where, as a reader of it would find."""

    ready: Ready
    typed: Values
    shown: Values
    where: Geometry


@dataclass(frozen=True)
class Issued:
    """A vendor's copy and its receipt; `at_home` are the titles of the sheets that its purpose does not need, `laid` is what
    stands in it."""

    data: bytes
    receipt: Receipt
    at_home: tuple[str, ...] = ()
    laid: Laid | None = field(default=None, repr=False, compare=False)

    @property
    def receipt_text(self) -> str:
        """The receipt file's text: a line for each thing that it says, so that people can look into it."""
        said = self.receipt.to_json()
        values = ",\n  ".join(json.dumps(value, ensure_ascii=False) for value in said.pop("values"))
        lines = [f' "{key}": {json.dumps(value, ensure_ascii=False)}' for key, value in said.items()]
        return "{\n" + ",\n".join([*lines, f' "values": [\n  {values}\n ]']) + "\n}\n"


def issue(
    book: Book, values: Values, changes: Values, issued: datetime.date,
    artist: Callable[[Ready, Values], Artist | None] | None = None, again: Again | None = None,
) -> Issued:  # fmt: skip
    """Make the vendor's copy of these values; `changes` are what this issue sets (purpose, due date, vendor).

    `artist` says who draws the pictures that the program draws itself; `again` that it is a copy that came back.
    """
    vendor_ready, sent, unseen, at_home = going(book, {**values, **changes}, again.sent if again else None)
    shared = {
        place: without_traces(value, str(place)) if isinstance(value, Picture) else value
        for place, value in sent.items()
    }
    receipt = _receipt(vendor_ready, shared, issued)
    if again is not None:
        receipt = replace(receipt, values=_without_answers(vendor_ready, receipt.values, again.sent))
    record = {"issue_id": receipt.issue_id, "receipt": receipt.to_json()}
    drawer = artist(vendor_ready, shared) if artist else None
    made = finished(vendor_ready, shared, record, drawer, unseen, again.asked if again else {})
    laid = Laid(vendor_ready, made.values, made.shown, made.where)
    return Issued(made.data, replace(receipt, written=made.written), at_home, laid)


class Again(NamedTuple):
    """A copy that goes out once more: what was sent the first time, and in which cells something is asked (a word for it)."""

    sent: Receipt
    asked: Mapping[Place, str]


def _without_answers(
    vendor_ready: Ready, values: Mapping[Place, Value | PictureMark], first: Receipt
) -> dict[Place, Value | PictureMark]:  # fmt: skip
    """What was sent of the brand's, and of the vendor's only what stood in the first copy: its answers are still to accept."""
    own = {
        place: value for place, value in values.items() if vendor_ready.book.entries[place.entry].entry.who != "vendor"
    }
    before = {
        place: value for place, value in first.values.items()
        if place.entry in vendor_ready.book.entries and vendor_ready.book.entries[place.entry].entry.who == "vendor"
    }  # fmt: skip
    return own | before


class Going(NamedTuple):
    """The vendor's book with only what its purpose needs, all that is typed or given in it, its sheets that are not seen, and
    the titles of those that stay at home."""

    ready: Ready
    values: Values
    unseen: frozenset[str]
    at_home: tuple[str, ...]


def going(book: Book, values: Values, like: Receipt | None = None) -> Going:
    """What goes to the vendor of these values; the sheets and given figures of an earlier copy that it is `like`."""
    whole = ready(book, shape_of(book, values, "vendor"))
    shared = {**shared_values(whole, values), **fixed_values(whole)}
    where = plan(whole, shared)[1]
    shown = calculated(whole, shared, where)[1]
    unseen = _unseen_in(like, whole) if like else hidden_sheets(whole, {**values, **shared, **shown}, where)
    kept, given = left_out(whole, unseen)
    names = {sheet.name for sheet in kept.book.sheets}
    at_home = tuple(one.title for one in whole.book.sheets if one.name not in names and one.seen != "never")
    going_along = shared_values(kept, values)  # first: rows stand in the order of what is typed in them
    for place, value in given_values(given, kept, shown).items():
        going_along.setdefault(place, value)
    return Going(kept, going_along, unseen, at_home)


def _unseen_in(sent: Receipt, whole: Ready) -> frozenset[str]:
    account = sent.account
    hidden = {sheet.title for sheet in account.sheets if sheet.hidden} if account else set()
    seen = {sheet.name for sheet in account.ready.book.sheets if sheet.title not in hidden} if account else set()
    return frozenset(sheet.name for sheet in whole.book.sheets if sheet.name not in seen)


def shared_values(vendor_ready: Ready, values: Values) -> Values:
    """Only what the vendor's book has entries for."""
    entries = vendor_ready.book.entries
    return {place: value for place, value in values.items() if place.entry in entries}


def _receipt(vendor_ready: Ready, shared: Values, issued: datetime.date) -> Receipt:
    def words(address: str) -> str:
        value = shared.get(Place(address))
        return "" if value is None else str(value)

    sent: dict[Place, Value | PictureMark] = {
        place: PictureMark(value.digest) if isinstance(value, Picture) else value for place, value in shared.items()
    }
    about = vendor_ready.book.about
    number, revision, purpose = words(about.number), words(about.revision), words(about.purpose)
    listed = json.dumps([[*place, _to_json(value)] for place, value in sent.items()], ensure_ascii=True)
    mark = sha256(f"{listed}|{issued}".encode()).hexdigest()[:6]
    return Receipt(
        f"{number} rev {revision} {purpose} {mark}",
        number, revision, purpose, words(about.vendor), words(about.due), issued.isoformat(),
        vendor_ready.shape, sent,
    )  # fmt: skip


def _to_json(value: Value | PictureMark) -> Any:
    if isinstance(value, PictureMark):
        return {"picture": value.digest}
    if isinstance(value, datetime.date):
        return {"date": value.isoformat()}
    return value


def _from_json(value: Any) -> Value | PictureMark:
    if isinstance(value, dict):
        if "picture" in value:
            return PictureMark(str(value["picture"]))
        return datetime.date.fromisoformat(str(value["date"]))
    return value if isinstance(value, str | int | float) else None


def receipt_from_json(data: Mapping[str, Any]) -> Receipt:
    """A receipt from its JSON data; ValueError if it is none, NewerFormError if a later program wrote it."""
    try:
        form = int(data["sheetgen_receipt"])
        refuse_newer(form)
        shape = Shape(
            tuple((axis, tuple(names)) for axis, names in data["axes"].items()),
            tuple(data["words"].items()),
            "vendor",
        )
        values = {Place(entry, row): _from_json(value) for entry, row, value in data["values"]}
        words = [str(data[key]) for key in ("issue_id", "style", "revision", "purpose", "vendor", "due", "issued")]
    except (KeyError, TypeError, AttributeError, ValueError) as error:
        raise ValueError(say("no receipt: {error}", error=error)) from None
    return Receipt(
        words[0], words[1], words[2], words[3], words[4], words[5], words[6], shape, values, form,
        str(data.get("pack") or ""), str(data.get("written") or ""),
    )  # fmt: skip


def load_receipt(path: Path) -> Receipt:
    """A receipt file; UserError (status 3) in one sentence if it is none."""
    try:
        return receipt_from_json(json.loads(path.read_text("utf-8")))
    except NewerFormError as error:
        raise UserError(f"{path}: {error}.", status=3) from None
    except FileNotFoundError:
        raise UserError(say("{path}: there is no such receipt; check the name.", path=path), status=2) from None
    except (OSError, ValueError, RecursionError):
        raise UserError(
            say("{path}: is no receipt of an issue; name the file that sheetgen issue wrote.", path=path), status=3
        ) from None


def refuse_other_issue(path: Path, receipt: Receipt) -> None:
    """UserError if the receipt of another issue lies there: without it that copy could not be audited when it is back."""
    try:
        other = load_receipt(path).issue_id if path.exists() else receipt.issue_id
    except UserError:
        return
    if other != receipt.issue_id:
        raise UserError(
            say(
                "{path}: is the receipt of issue {other}, which may still come back; give this issue another name with --out.",
                path=path,
                other=other,
            )
        )


def find_receipt(workbook: Path, issue_id: str) -> Path | None:
    """The receipt of that issue among those beside the workbook."""
    for path in sorted(workbook.parent.glob(f"*{RECEIPT_ENDING}")):
        try:
            if load_receipt(path).issue_id == issue_id:
                return path
        except UserError:
            continue
    return None


def receipts_beside(workbook: Path) -> Iterator[Receipt]:
    """All receipts in the workbook's folder; what cannot be read as one is passed over."""
    for path in sorted(workbook.parent.glob(f"*{RECEIPT_ENDING}")):
        with suppress(UserError):
            yield load_receipt(path)


def fixed_and_sent(vendor_ready: Ready, receipt: Receipt) -> dict[Place, Value | PictureMark]:
    """Sent values together with what the declaration fills."""
    return {**fixed_values(vendor_ready), **receipt.values}
