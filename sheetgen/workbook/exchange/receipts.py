"""The receipt: a file that remembers all that was sent with one copy, beside which the copy that comes back is laid."""

from __future__ import annotations

import datetime
import json
import os
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields
from functools import cached_property, lru_cache
from operator import attrgetter
from pathlib import Path
from typing import Any

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import PictureMark, Value
from sheetgen.errors import UserError
from sheetgen.store import told
from sheetgen.texts import say
from sheetgen.workbook.model.packing import FORM, NewerFormError, UnreadableError, refuse_newer, unpacked
from sheetgen.workbook.model.values import Ready, Shape, fixed_values
from sheetgen.workbook.model.written import Written

RECEIPT_ENDING = ".receipt.json"


@dataclass(frozen=True)
class Head:
    """Which issue a receipt is of: who, what for, until when."""

    issue_id: str
    style: str
    revision: str
    purpose: str
    vendor: str
    due: str
    issued: str


@dataclass(frozen=True)
class Receipt(Head):
    """All that was sent: beside its head every shared value, and (packed) every cell as it was written; `pack` is the sha-256
    of the pages that were written with it."""

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
            "values": [[place.entry, place.row, value_to_json(value)] for place, value in self.values.items()],
            **({"pack": self.pack} if self.pack else {}),
            **({"written": self.written} if self.written else {}),
        }

    @property
    def text(self) -> str:
        """The receipt file's text: a line for each thing that it says, so that people can look into it."""
        said = self.to_json()
        values = ",\n  ".join(json.dumps(value, ensure_ascii=False) for value in said.pop("values"))
        lines = [f' "{key}": {json.dumps(value, ensure_ascii=False)}' for key, value in said.items()]
        return "{\n" + ",\n".join([*lines, f' "values": [\n  {values}\n ]']) + "\n}\n"


def value_to_json(value: Value | PictureMark) -> Any:
    """One value as JSON data, as a receipt keeps it."""
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


def heads_in(folder: Path) -> Iterator[tuple[Head, Path]]:
    """Of all receipts in a folder; what cannot be read as one is passed over. A season's are hundreds: each is read once."""
    try:
        with os.scandir(folder) as entries:
            receipts = sorted((one for one in entries if one.name.endswith(RECEIPT_ENDING)), key=attrgetter("name"))
    except OSError:
        return
    for entry in receipts:
        try:
            file = entry.stat()
        except OSError:  # it has just gone
            continue
        words = _head(entry.path, (file.st_ino, file.st_size, file.st_mtime_ns))
        if words:
            yield Head(*words), Path(entry.path)


@lru_cache(maxsize=4_000)  # an audit asks for all that lie beside its file, and many may be audited
def _head(path: str, _: tuple[int, ...]) -> Sequence[str]:
    words: Sequence[str] = told("head", Path(path), _head_of)
    return words


def _head_of(path: Path) -> list[str]:
    try:
        receipt = load_receipt(path)
    except UserError:
        return []
    return [getattr(receipt, one.name) for one in fields(Head)]


def find_receipt(workbook: Path, issue_id: str) -> Path | None:
    """The receipt of that issue among those beside the workbook."""
    return next((path for head, path in heads_in(workbook.parent) if head.issue_id == issue_id), None)


def fixed_and_sent(vendor_ready: Ready, receipt: Receipt) -> dict[Place, Value | PictureMark]:
    """Sent values together with what the declaration fills."""
    return {**fixed_values(vendor_ready), **receipt.values}
