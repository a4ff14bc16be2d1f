"""Entries: what had to be filled is filled, with a value of the right kind and no placeholder."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.placeholders import is_placeholder
from sheetgen.audit.ranges import is_outside
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.declare.entry import Place, Who
from sheetgen.declare.kinds import Kind
from sheetgen.texts import say
from sheetgen.workbook.model.asked import is_asked as is_asked_of
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.model.engine import is_error
from sheetgen.workbook.read.taking import as_length

_DECIMAL_COMMA = re.compile(r"\s*-?\d+,\d+\s*\Z")
_THOUSANDS = re.compile(r"\s*-?(\d{1,3}(,\d{3})+(\.\d+)?|\d{1,3}([. \u00a0]\d{3})+,\d+)\s*\Z")
_CURRENCY = re.compile(r"[€$£¥₺₫]|\b(?:EUR|USD|GBP|CHF|JPY|CNY|TRY|VND|Euro|Dollar)s?\b", re.IGNORECASE)
_HAS_NUMBER = re.compile(r"\d")


def is_asked(case: Case, place: Place) -> bool:
    """Whether a place must be filled now by the person who returns this file."""
    who: Who = "designer" if case.own else "vendor"
    return not case.is_new_row(place) and is_asked_of(case.got.ready, place, case.value, case.stage, who)


@rule(
    title="Still to fill",
    level="fix",
    source="common practice",
    message="{place} is still to fill.",
    why="Without it the quote or the sample cannot be judged, and a question goes back and forth.",
    fix="Fill {cell} on the sheet {sheet}.",
    bad=(
        Example("a price left blank", {"materials.bom[M2].price": None}, ("entry-missing materials.bom[M2].price",)),
        Example("a lead time left blank", {"materials.bom[M4].lead": None}, ("entry-missing materials.bom[M4].lead",)),
        Example(
            "the season left blank in the designer's file",
            {"style.season": None},
            ("entry-missing style.season",),
            own=True,
        ),
    ),
    fine=(
        Example("a remark left blank", {"quote.remark": None}),
        Example("the vendor's answers not in yet: the designer's file asks for the designer's own", own=True),
    ),
)
def entry_missing(case: Case) -> Iterator[Fault]:
    for address in case.got.ready.needed:
        for place, _ in case.got.where.places(address):
            if is_asked(case, place) and case.got.typed.get(place) in (None, "") and place not in case.got.formulas:
                yield Fault(place, "", say("nothing"))


@rule(
    title="A placeholder instead of an answer",
    level="fix",
    source="common practice: vague words in a specification pack",
    message="{place} says only “{found}”.",
    why="The cell counts as filled, and the question is still open.",
    fix="Write the answer; if there is none, say so in words that a stranger understands.",
    bad=(
        Example(
            "TBC for a supplier", {"materials.bom[M3].supplier": "TBC"}, ("placeholder materials.bom[M3].supplier",)
        ),
        Example(
            "a blank that shows nothing",
            {"materials.bom[M3].supplier": " "},
            ("placeholder materials.bom[M3].supplier",),
        ),
        Example(
            "same as before, which nobody here can look up",
            {"materials.bom[M3].supplier": "same as before"},
            ("placeholder materials.bom[M3].supplier",),
        ),
        Example("a dash for a number", {"quote.minimum_style": "-"}, ("placeholder quote.minimum_style",)),
        Example("to be confirmed, for a date", {"quote.valid_until": "t.b.c."}, ("placeholder quote.valid_until",)),
    ),
    fine=(
        Example("a real supplier", {"materials.bom[M3].supplier": "Interlinings of Aldoar"}),
        Example("no article, in words", {"materials.bom[M3].supplier_ref": "own production, no number"}),
        Example("a remark that may say anything", {"quote.remark": "-"}),
    ),
)
def placeholder(case: Case) -> Iterator[Fault]:
    for place, entry, value in case.typed_by_filler():
        open_text = entry.kind.name == "text" and not entry.need
        if is_placeholder(value) and not open_text and value not in entry.kind.choices:
            yield Fault(place, "", str(value))


def _numbers_as_text(case: Case) -> Iterator[tuple[Place, Kind, str]]:
    for place, entry, value in case.typed_by_filler():
        if isinstance(value, str) and entry.kind.is_number and not is_placeholder(value) and not is_error(value):
            yield place, entry.kind, value


def _is_currency(kind: Kind, text: str) -> bool:
    return kind.name == "money" and bool(_CURRENCY.search(text)) and bool(_HAS_NUMBER.search(text))


@rule(
    title="Decimal comma or thousands comma as text",
    level="fix",
    source="common practice",
    message="{place} is the text “{found}”, not a number.",
    why="A text is worth nothing in a sum: the total is short by it, without a word.",
    fix="Type the number with your program's own decimal sign; a number stands to the right in its cell.",
    bad=(
        Example("2,50 typed as text", {"materials.bom[M2].price": "2,50"}, ("decimal-comma materials.bom[M2].price",)),
        Example("1.250,00 typed as text", {"quote.wages": "71.400,00"}, ("decimal-comma quote.wages",)),
    ),
    fine=(Example("2.5 as a number", {"materials.bom[M2].price": 2.5}),),
)
def decimal_comma(case: Case) -> Iterator[Fault]:
    for place, kind, text in _numbers_as_text(case):
        if not _is_currency(kind, text) and (_DECIMAL_COMMA.match(text) or _THOUSANDS.match(text)):
            yield Fault(place, kind.noun, text)


@rule(
    title="A currency in the cell",
    level="fix",
    source="common practice",
    message="{place} holds “{found}”: the currency does not belong in the cell.",
    why="With it the cell is a text: no sum counts it, and no rate is applied.",
    fix="Type the number alone; the currency has its own column or stands in the heading.",
    bad=(
        Example(
            "USD 2.5 in a price", {"materials.bom[M2].price": "USD 2.5"}, ("currency-in-cell materials.bom[M2].price",)
        ),
    ),
    fine=(Example("number and currency apart", {"materials.bom[M2].price": 2.5, "materials.bom[M2].currency": "USD"}),),
)
def currency_in_cell(case: Case) -> Iterator[Fault]:
    for place, kind, text in _numbers_as_text(case):
        if _is_currency(kind, text):
            yield Fault(place, kind.noun, text)


@rule(
    title="A text where a number belongs",
    level="fix",
    source="common practice",
    message="{place} holds “{found}”; it {expected}.",
    why="A text is worth nothing in a sum and in a comparison.",
    fix="Type the number alone; words go into a remark.",
    bad=(
        Example("a unit behind the number", {"quote.lead_time": "45 days"}, ("number-as-text quote.lead_time",)),
        Example("a number stored as text", {"quote.sew_minutes": "38"}, ("number-as-text quote.sew_minutes",)),
    ),
    fine=(Example("a number", {"quote.lead_time": 45}),),
)
def number_as_text(case: Case) -> Iterator[Fault]:
    unit = dict(case.got.ready.shape.words)["{unit}"]
    for place, kind, text in _numbers_as_text(case):
        if _is_currency(kind, text) or _DECIMAL_COMMA.match(text) or _THOUSANDS.match(text):
            continue
        hint = say("must be {noun}", noun=kind.noun)
        if kind.name == "length" and (read := as_length(text, unit)) is not None:
            hint = say("must be a number: {read:g} {unit}", read=read, unit=unit)
        yield Fault(place, hint, text)


@rule(
    title="A date as text",
    level="fix",
    source="common practice",
    message="{place} is the text “{found}”, not a date.",
    why="It cannot be compared with the due date, and 03/04 is March in one country and April in another.",
    fix="Type the date so that the program knows it as one: 2026-12-07.",
    bad=(
        Example("a date in words", {"colorways.dips[D1].sent": "07.12.26"}, ("date-as-text colorways.dips[D1].sent",)),
    ),
    fine=(Example("a date", {"colorways.dips[D1].sent": datetime.date(2026, 12, 8)}),),
)
def date_as_text(case: Case) -> Iterator[Fault]:
    for place, entry, value in case.typed_by_filler():
        if entry.kind.name == "date" and isinstance(value, str) and not is_placeholder(value):
            yield Fault(place, entry.kind.noun, value)


@rule(
    title="Something of another kind",
    level="fix",
    source="common practice; programs that turn 2.5 or 3-4 into a day on their own",
    message="{place} is {found}; it {expected}.",
    why="What reads the cell cannot use it.",
    fix="Choose from the list in the cell, or type what is asked.",
    bad=(
        Example(
            "a day in a number's place",
            {"quote.lead_time": datetime.date(2027, 5, 1)},
            ("wrong-kind quote.lead_time",),
        ),
        Example(
            "half a piece",
            {"quote.minimum_style": 400.5},
            ("wrong-kind quote.minimum_style",),
        ),
        Example(
            "a number for a day",
            {"quote.valid_until": 30},
            ("answers-contradict checks.wrong_quote_valid_short", "wrong-kind quote.valid_until"),
        ),
        Example(
            "a decision that is not on the list",
            {"colorways.dips[D1].decision": "nearly"},
            ("wrong-kind colorways.dips[D1].decision",),
            own=True,
        ),
    ),
    fine=(
        Example("a whole number", {"quote.lead_time": 50}),
        Example("an article that is all digits", {"materials.bom[M2].supplier_ref": 4711}),
    ),
)
def wrong_kind(case: Case) -> Iterator[Fault]:
    for place, entry, value in case.typed_by_filler():
        kind = entry.kind
        if (
            is_placeholder(value)
            or is_error(value)
            or (isinstance(value, str) and (kind.is_number or kind.name == "date"))
        ):
            continue
        if isinstance(value, int | float):
            # A number in a text's place (a supplier's article 4711) is what programs make of it: no fault.
            open_text = kind.name in {"text", "choice"} and not (kind.choices and not kind.open)
            if open_text or (kind.is_number and is_outside(kind, float(value))):
                continue
        wrong = kind.wrong(value)
        if wrong:
            yield Fault(place, wrong, shown_text(value))


RULES = (entry_missing, placeholder, decimal_comma, currency_in_cell, number_as_text, date_as_text, wrong_kind)
