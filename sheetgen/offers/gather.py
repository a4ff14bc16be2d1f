"""Gathering: a style's working workbook and its returns as offers that fit together, or one sentence that says why not."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from sheetgen.audit import RULES
from sheetgen.audit.run import Audit, audit
from sheetgen.declare.entry import Place
from sheetgen.declare.judgment import USUAL, Limits
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.texts import say
from sheetgen.workbook.exchange.accept import carried, was_put_in
from sheetgen.workbook.exchange.receipts import Receipt
from sheetgen.workbook.model.calculation import shown_by
from sheetgen.workbook.model.look import shortened
from sheetgen.workbook.model.values import Values, ready, shape_of
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned

MOST_NAME = 30
"""So much of a vendor's name stands above its columns."""
_OTHER_COPY = frozenset({"another-issue", "wrong-style", "wrong-vendor"})


@dataclass(frozen=True)
class Offer:
    """One vendor's return: what it answers, which answers cannot be used, and what the style's book gives with them."""

    vendor: str
    audit: Audit
    answers: Values
    unusable: dict[Place, Value]
    shown: Values = field(repr=False)


@dataclass(frozen=True)
class Gathered:
    """A style's own values, and the offers for it in the order in which they were named."""

    values: Values
    offers: tuple[Offer, ...]


def gather(
    working: Path, returned: Sequence[Path], audited: Collection[Audit] = (), limits: Limits = USUAL
) -> Gathered:
    """Read all files; those that were `audited` already are not read again.

    UserError if one is another style's, another revision's, a second one of a vendor or unusable.
    """
    got = read(BOOK, working)
    if got.ready.shape.audience == "vendor":
        raise UserError(
            say(
                "{working}: is a vendor's copy; name the style's working workbook first, then the returns.",
                working=working,
            )
        )
    values, _ = carried(got)
    known = {result.file: result for result in audited}
    offers: dict[str, Offer] = {}
    for path in returned:
        offer = _offer(values, working, known.get(path) or audit(BOOK, RULES, path, limits=limits))
        if offer.vendor in offers:
            first = offers[offer.vendor].audit.file
            raise UserError(
                say(
                    "{path}: is a return of {vendor}, as {other} is; name one return of each vendor.",
                    path=path,
                    vendor=offer.vendor,
                    other=first,
                )
            )
        offers[offer.vendor] = offer
    return Gathered(values, tuple(offers.values()))


def _offer(values: Values, working: Path, result: Audit) -> Offer:
    path = result.file
    if result.got.ready.shape.audience != "vendor":
        raise UserError(
            say("{path}: is a working workbook; after the first file name only returns of vendors.", path=path)
        )
    sent = result.sent
    if sent is None:
        raise UserError(say("{path}: its receipt is not beside it; put it there.", path=path))
    _refuse_other(values, working, path, result, sent)
    answers, unusable = _answers(result.got, sent)
    own = {place: value for place, value in values.items() if not _is_answer(place)}
    return Offer(shortened(sent.vendor or path.stem, MOST_NAME), result, answers, unusable, _shown({**own, **answers}))


def _refuse_other(values: Values, working: Path, path: Path, result: Audit, sent: Receipt) -> None:
    style, revision = (str(values.get(Place(f"style.{name}")) or "") for name in ("number", "revision"))
    if sent.style != style:
        raise UserError(
            say(
                "{path}: answers style {style}, {working} is style {own}; name returns of that style.",
                path=path,
                style=sent.style,
                working=working,
                own=style,
            )
        )
    other = next((finding for finding in result.findings if finding.rule in _OTHER_COPY), None)
    if other is not None:
        raise UserError(
            say("{path}: cannot be compared: {message} {action}", path=path, message=other.message, action=other.action)
        )
    if sent.revision != revision:
        raise UserError(
            say(
                "{path}: answers revision {answered}, {working} is revision {revision}; name the "
                "working workbook of revision {answered}, or a return of revision {revision}.",
                path=path,
                answered=sent.revision,
                working=working,
                revision=revision,
            )
        )


def _is_answer(place: Place) -> bool:
    """Whether a place is the vendor's to fill; families (the sizes' measured values) answer nothing that is priced."""
    column = BOOK.entries.get(place.entry)
    return column is not None and column.entry.who == "vendor"


def _answers(got: Returned, sent: Receipt) -> tuple[Values, dict[Place, Value]]:
    """What the vendor filled in rows that were asked: what can be used, and what cannot (a text for a number)."""
    usable: Values = {}
    unusable: dict[Place, Value] = {}
    for place, value in _filled(got, sent):
        kind = got.ready.book.entries[place.entry].entry.kind
        if kind.wrong(value) is None:
            usable[place] = value
        else:
            unusable[place] = value
    return usable, unusable


def _filled(got: Returned, sent: Receipt) -> Iterator[tuple[Place, Value]]:
    for place, value in got.typed.items():
        if value not in (None, "") and _is_answer(place) and not was_put_in(place, sent, got):
            yield place, value


def _shown(values: Values) -> Values:
    """All that the style's book works out from these values."""
    return shown_by(ready(BOOK, shape_of(BOOK, values)), values)
