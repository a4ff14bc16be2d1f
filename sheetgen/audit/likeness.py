"""Answers that only look like answers: a word that is another to a machine, two currencies of one supplier, far-off dates."""

from __future__ import annotations

import datetime
import re
import unicodedata
from collections import Counter, defaultdict
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.placeholders import UNSEEN, is_placeholder
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.declare.entry import Entry, Place
from sheetgen.texts import say

_CURRENCIES = "materials.rates.code"
"""Lists the others: the style's own currency has no rate, and is one all the same."""
_ENDS = "quote.valid_until"
"""Has a rule of its own where it is past, and may be as late as a vendor likes."""
_LATIN = str.maketrans("АВЕКМНОРСТУХІЈЅаеорсухіјѕΑΒΕΖΗΙΚΜΝΟΡΤΥΧο", "ABEKMHOPCTYXIJSaeopcyxijsABEZHIKMNOPTYXo")
"""Cyrillic and Greek letters that are drawn as Latin ones (Unicode, confusables)."""


def plain(text: str) -> str:
    """A text as people see it: look-alike letters as Latin ones, without case, unseen signs and spare blanks."""
    seen = UNSEEN.sub("", unicodedata.normalize("NFKC", text)).translate(_LATIN)
    return re.sub(r"\s+", " ", seen).strip().casefold()


def meant_word(value: object, known: list[str]) -> str:
    """The known word that a text only looks like; empty where it is one of them (case does not matter) or like none."""
    if not isinstance(value, str) or value == "" or value.casefold() in {word.casefold() for word in known}:
        return ""
    return next((word for word in known if plain(word) == plain(value)), "")


def _odd(value: str, word: str) -> str:
    """What in a text makes it another word, by name: `Cyrillic capital letter ie`."""
    odd = next((sign for sign in value if ord(sign) > 126 and sign not in word), "")
    if odd:
        return unicodedata.name(odd, say("a sign without a name")).capitalize()
    return say("a blank too many")


def _offered(case: Case, entry: Entry) -> list[str]:
    if entry.kind.choices:
        return list(entry.kind.choices)
    source = entry.kind.source
    values = (case.value(place.entry, place.row) for place, _ in case.got.where.places(source)) if source else ()
    own = [case.value("style.currency")] if source == _CURRENCIES else []
    return [value for value in (*own, *values) if isinstance(value, str) and value]


@rule(
    title="A word only looks like one of the list",
    level="fix",
    source="Unicode Technical Standard 39: confusable characters",
    message="{place} is “{found}”: it looks like {expected}, and is another word to a machine.",
    why="What is looked up by this word is not found, and drops out of the sums.",
    fix="Choose the word from the list of {cell} again.",
    bad=(
        Example(
            "a Cyrillic letter in a currency",
            {"materials.bom[M2].currency": "ЕUR"},
            ("word-alike materials.bom[M2].currency",),
        ),
        Example(
            "a blank behind it", {"materials.bom[M2].currency": "USD "}, ("word-alike materials.bom[M2].currency",)
        ),
        Example(
            "a sign of no width",
            {"materials.bom[M2].currency": "EUR\u200b"},
            ("word-alike materials.bom[M2].currency",),
        ),
    ),
    fine=(Example("the word in small letters", {"materials.bom[M2].currency": "eur"}),),
)
def word_alike(case: Case) -> Iterator[Fault]:
    for place, entry, value in case.typed_by_filler():
        if (entry.kind.choices or entry.kind.source) and isinstance(value, str):
            word = meant_word(value, _offered(case, entry))
            if word:
                yield Fault(place, word, f"{value} ({_odd(value, word)})")


@rule(
    title="One supplier in two currencies",
    level="query",
    source="common practice: a supplier's price list is in one currency",
    message="{place} is {found}; the other lines of this supplier are in {expected}.",
    why="A price in the wrong currency is wrong by the rate, and looks like any other.",
    asked="Say whether this price is meant in {expected}.",
    fix="Ask whether this price is meant in {expected}.",
    bad=(
        Example(
            "a line of the label maker's in dollars",
            {"materials.bom[M9].currency": "USD"},
            ("currency-mixed materials.bom[M9].currency",),
        ),
    ),
    fine=(Example("another supplier in dollars", {"materials.bom[M5].currency": "USD"}),),
)
def currency_mixed(case: Case) -> Iterator[Fault]:
    if case.own:
        return
    own = str(case.value("style.currency") or "")
    known = {own.upper(), *(str(case.value(_CURRENCIES, ref)).upper() for ref in case.rows("materials.rates"))}
    by_supplier: dict[str, dict[str, str]] = defaultdict(dict)
    for ref in case.rows("materials.bom"):
        supplier, price = (
            case.got.typed.get(Place("materials.bom.supplier", ref)),
            case.number("materials.bom.price", ref),
        )
        place = Place("materials.bom.currency", ref)
        code = case.got.typed.get(place) or own
        if str(code).upper() not in known:
            continue  # what is no currency of this file has a rule of its own
        if isinstance(supplier, str) and not is_placeholder(supplier) and price is not None:
            by_supplier[plain(supplier)][ref] = plain(str(code)).upper()
    for codes in by_supplier.values():
        usual, count = Counter(codes.values()).most_common(1)[0]
        for ref, code in codes.items():
            if code != usual and count > len(codes) / 2:
                yield Fault(Place("materials.bom.currency", ref), usual, code)


@rule(
    title="A date far from this order",
    level="query",
    limits=("days_off",),
    source="common practice",
    message="{place} is {found}; this copy left on {expected}.",
    why="A year or a month typed wrong moves every date that follows from it.",
    fix="Correct the date, or say why it is so far off.",
    bad=(
        Example(
            "a lab dip sent twenty years ago",
            {"colorways.dips[D1].sent": datetime.date(2006, 12, 7)},
            ("date-far-off colorways.dips[D1].sent",),
        ),
        Example(
            "a sample sent a hundred years from now",
            {"fit.rounds[R1].sent": datetime.date(2126, 12, 7)},
            ("date-far-off fit.rounds[R1].sent",),
        ),
    ),
    fine=(Example("a quote that holds until after the delivery", {"quote.valid_until": datetime.date(2027, 12, 31)}),),
)
def date_far_off(case: Case) -> Iterator[Fault]:
    if case.own or case.wanted is None:
        return
    left = datetime.date.fromisoformat(case.wanted.issued)
    delivery = case.day("style.delivery_until") or case.day("style.delivery")
    apart = datetime.timedelta(days=case.limits["days_off"])
    last = max(left, delivery or left) + apart
    for place, _, value in case.typed_by_filler():
        if not isinstance(value, datetime.date) or case.is_doubtful(place) or place.entry == _ENDS:
            continue
        if not left - apart <= _day(value) <= last:
            yield Fault(place, left.isoformat(), _day(value).isoformat())


def _day(value: datetime.date) -> datetime.date:
    return value.date() if isinstance(value, datetime.datetime) else value


RULES = (word_alike, currency_mixed, date_far_off)
