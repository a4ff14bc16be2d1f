"""Classes of tampering: what somebody could do to one cell of a return, and by which rules it must be found.

Most are what a spreadsheet's user does by mistake; the rest is what somebody does who wants to get past the audit.
"""

from __future__ import annotations

from typing import NamedTuple

from tests.tampering.doing import (
    Work,
    as_formula,
    below_nought,
    beside,
    choices,
    comma,
    flat_row,
    hidden_column,
    hidden_row,
    link,
    literal,
    look,
    mark,
    message,
    moved_references,
    narrow_column,
    number_of,
    one_letter,
    overlay,
    placeholder,
    put,
    set_to,
    stored,
    swapped,
    swapped_refs,
    whole,
)

_NUMBERS = ("asked number", "worked number", "answered number")
_WORDS = ("asked words", "worked words", "answered words", "our words")
_BRANDS = ("asked number", "asked words")
_WORKED = ("worked number", "worked words")
_ANSWERS = ("answered number", "answered words")
_SEEN = (*_NUMBERS, *_WORDS)
_IDENTITY = frozenset({"wrong-style", "wrong-vendor", "another-issue"})
_CHANGED = frozenset({"locked-value-changed", "row-gone", "row-added", "words-changed"}) | _IDENTITY
_REPLACED = frozenset({"formula-replaced"})
_ALTERED = frozenset({"formula-altered"})
_FORMULA = frozenset({"formula-in-place", "formula-altered", "answer-by-formula", "words-changed"}) | _IDENTITY
_ALARM = frozenset({"formula-alarming"})
_WRONG = frozenset({"wrong-kind", "number-as-text", "date-as-text", "placeholder", "decimal-comma", "currency-in-cell",
                    "out-of-range", "locked-value-changed", "words-changed"})  # fmt: skip


class Tamper(NamedTuple):
    """One class: which cells it is done to, what is done, the rules of which one must speak, and how near its cell."""

    sorts: tuple[str, ...]
    work: Work
    rules: frozenset[str]
    near: str = "cell"


_SENT = ("asked number", "asked words", "our words")
_MESSAGED = ("to answer", "answered number", "answered words", "asked number", "asked words")
_OUT = frozenset({"sample-out-of-tolerance", "size-set-out"})
_LAID = frozenset({"laid-over", "drawing-added"})
_SEEN_BADLY, _ROW_OR = frozenset({"hard-to-see"}), frozenset({"hard-to-see", "row-gone"})
_STRAY = frozenset({"stray-text", "formula-alarming", "row-added", "locked-value-changed", "formula-replaced"})
_PUT_IN = frozenset({"format-put-in"})

CLASSES: dict[str, Tamper] = {
    # what was asked
    "a number a hundredth larger": Tamper(("asked number",), put(lambda t: number_of(t) * 1.01 or 0.01), _CHANGED),
    "a number one less": Tamper(("asked number",), put(lambda t: number_of(t) - 1), _CHANGED),
    "a number ten times": Tamper(("asked number",), put(lambda t: number_of(t) * 10 or 10), _CHANGED),
    "a number turned to nought": Tamper(("asked number",), put(lambda t: 0 if number_of(t) else 1), _CHANGED),
    "a number with the other sign": Tamper(("asked number",), put(lambda t: -number_of(t) or -1), _CHANGED),
    "a number in the other unit": Tamper(("asked number",), put(lambda t: number_of(t) / 2.54 or 0.4), _CHANGED),
    "a number as text": Tamper(("asked number",), put(lambda t: str(t.value)), _WRONG | _CHANGED),
    "a number with a comma": Tamper(("asked number",), put(comma), _WRONG | _CHANGED),
    "a number and its unit": Tamper(("asked number",), put(lambda t: f"{t.value} cm"), _WRONG | _CHANGED),
    "an error typed": Tamper(_BRANDS, put(lambda _: "#N/A"), _CHANGED | {"error-value"}),
    "asked, cleared": Tamper(_BRANDS, put(lambda _: None), _CHANGED),
    "asked words, one letter": Tamper(("asked words",), put(one_letter), _CHANGED),
    "asked words, others": Tamper(("asked words",), put(lambda _: "something else"), _CHANGED),
    "asked words, more": Tamper(("asked words",), put(lambda t: f"{t.value} (or similar)"), _CHANGED),
    "asked words, a number": Tamper(("asked words",), put(lambda _: 7), _CHANGED),
    "a word where nothing was asked": Tamper(("asked blank",), put(lambda _: "added"), _CHANGED | _WRONG, "row"),
    "a number where nothing was asked": Tamper(("asked blank",), put(lambda _: 3), _CHANGED | _WRONG, "row"),
    "exchanged with the cell below": Tamper(_SENT, swapped, _CHANGED | {"row-doubled"}),
    # formulas where values belong
    "asked, as a formula that gives the same": Tamper(_BRANDS, as_formula(literal), _FORMULA),
    "asked, another figure after a day": Tamper(
        ("asked number",), as_formula(lambda t: f"IF(TODAY()>99999,9.9,{t.value!r})"), _FORMULA | _ALARM
    ),
    "asked, another figure by chance": Tamper(
        ("asked number",), as_formula(lambda t: f"{t.value!r}+IF(RAND()>2,1,0)"), _ALARM
    ),
    "asked, fetched from the net": Tamper(_BRANDS, as_formula(lambda _: 'WEBSERVICE("https://example.org")'), _ALARM),
    "asked, from another file": Tamper(_BRANDS, as_formula(lambda _: "[1]Sheet1!$A$1"), _ALARM),
    "asked, a formula with another stored value": Tamper(
        ("asked number",), as_formula(lambda t: f"{number_of(t) + 1!r}"), _FORMULA
    ),
    "our words by a formula": Tamper(("our words",), as_formula(literal), _CHANGED),
    "answered, by a formula": Tamper(_ANSWERS, as_formula(literal), _FORMULA),
    "answered, by a formula that gives another figure": Tamper(
        ("answered number",), as_formula(lambda t: f"{number_of(t) + 1!r}"), frozenset({"answer-forged"})
    ),
    "answered, by the day": Tamper(("answered number",), as_formula(lambda t: f"{t.value!r}+0*NOW()"), _ALARM),
    "answered, from the net": Tamper(_ANSWERS, as_formula(lambda _: 'HYPERLINK("https://example.org","x")'), _ALARM),
    # formulas
    "a formula cleared": Tamper((*_WORKED, "worked blank"), set_to(lambda _: None), _REPLACED),
    "a formula's value pasted": Tamper(_WORKED, set_to(lambda t: t.value), _REPLACED),
    "a formula's value rounded": Tamper(("worked number",), set_to(lambda t: round(number_of(t), 1)), _REPLACED),
    "a formula typed over": Tamper(("worked number",), put(lambda t: number_of(t) * 1.1 + 1), _REPLACED),
    "a formula's blank typed over": Tamper(("worked blank",), put(lambda _: 1), _REPLACED),
    "a formula's blank, a word": Tamper(("worked blank",), put(lambda _: "ok"), _REPLACED),
    "a formula and a tenth": Tamper(("worked number",), as_formula(lambda t: f"({t.formula[1:]})*1.1"), _ALTERED),
    "a formula and a little": Tamper(("worked number",), as_formula(lambda t: f"({t.formula[1:]})+0.01"), _ALTERED),
    "a formula that reads a row further": Tamper(
        (*_WORKED, "worked blank"), as_formula(moved_references), _ALTERED
    ),
    "a formula switched off by the day": Tamper(
        _WORKED, as_formula(lambda t: f"IF(TODAY()>99999,0,{t.formula[1:]})"), _ALTERED | _ALARM
    ),
    "a formula switched off": Tamper(_WORKED, as_formula(lambda t: f"IF(1=2,0,{t.formula[1:]})"), _ALTERED),
    "a formula that is a constant": Tamper(_WORKED, as_formula(literal), _ALTERED),
    "another stored value": Tamper(
        ("worked number",), stored(lambda t: number_of(t) * 1.1 + 1), frozenset({"total-stale"})
    ),
    "another stored word": Tamper(("worked words",), stored(lambda _: "fine"), frozenset({"total-stale"})),
    "a stored figure where blank follows": Tamper(("worked blank",), stored(lambda _: 12.5), frozenset({"total-stale"})),
    # what a person sees
    "a format that shows nothing": Tamper(_SEEN, look(number_format=";;;"), frozenset({"shown-otherwise"})),
    "a format that shows another figure": Tamper(_NUMBERS, look(number_format='"9.9"'), frozenset({"shown-otherwise"})),
    "a format that shows other words": Tamper(_WORDS, look(number_format='0;0;0;"as before"'), frozenset({"shown-otherwise"})),
    "a format that rounds": Tamper(
        ("asked number", "worked number"),
        look(lambda t: not whole(t) and t.kind != "date" and abs(number_of(t)) < 1000, number_format='0"."0'),
        frozenset({"shown-otherwise"}),
    ),
    "white on white": Tamper(_SEEN, look(ink="FFFFFF", fill="FFFFFF"), _SEEN_BADLY),
    "the color of its ground": Tamper(_SEEN, look(ink="F2F2F2", fill="F4F4F4"), _SEEN_BADLY),
    "black on black": Tamper(_SEEN, look(ink="000000", fill="000000"), _SEEN_BADLY),
    "struck through": Tamper(_SEEN, look(struck=True), _SEEN_BADLY),
    "letters one point high": Tamper(_SEEN, look(points=1), _SEEN_BADLY),
    "a lock taken off": Tamper((*_BRANDS, *_WORKED, "our words"), look(locked=False), frozenset({"cell-unlocked"})),
    "a text box over it": Tamper(_SEEN, overlay, _LAID),
    "a condition that writes another figure": Tamper(_NUMBERS, mark('"9.9"'), _PUT_IN),
    "a condition that hides": Tamper(_SEEN, mark(";;;"), _PUT_IN),
    "a link on it": Tamper(_SEEN, link, frozenset({"link-put-in"})),
    "its row hidden": Tamper(_SEEN, hidden_row, _SEEN_BADLY, "row"),
    "its row without height": Tamper(_SEEN, flat_row, _SEEN_BADLY, "row"),
    "its column hidden": Tamper(("asked number", "answered number"), hidden_column, _SEEN_BADLY, "column"),
    "its column without width": Tamper(("asked number", "answered number"), narrow_column, _SEEN_BADLY, "column"),
    "another input message": Tamper(_MESSAGED, message, frozenset({"message-changed"})),
    "other choices": Tamper(_MESSAGED, choices, frozenset({"message-changed"})),
    # words of the sheet
    "our words, cleared": Tamper(("our words",), put(lambda _: None), _CHANGED | {"column-gone"}),
    "our words, one letter": Tamper(("our words",), put(one_letter), _CHANGED | {"column-gone"}),
    "our words, others": Tamper(("our words",), put(lambda _: "Half of it"), _CHANGED | {"column-gone"}),
    "our words, more": Tamper(("our words",), put(lambda t: f"{t.value}, about"), _CHANGED | {"column-gone"}),
    "our words, a number": Tamper(("our words",), put(lambda _: 12), _CHANGED | {"column-gone"}),
    "two rows' refs exchanged": Tamper(("ref",), swapped_refs, _CHANGED | {"row-doubled", "total-stale"}, "row"),
    "a row's ref cleared": Tamper(("ref",), put(lambda _: None), _CHANGED, "row"),
    "a row's ref, another": Tamper(("ref",), put(lambda t: f"{str(t.value)[:1]}99"), _CHANGED | {"row-doubled"}, "row"),
    # beside the tables
    "a word beside the table": Tamper(("asked words", "our words"), beside("please call"), _STRAY, "row"),
    "a formula beside the table": Tamper(("asked words", "our words"), beside("", "1+1"), _STRAY, "row"),
    "a formula beside the table that reaches outside": Tamper(
        ("asked words", "our words"), beside("", 'WEBSERVICE("https://example.org")'), _ALARM, "row"
    ),
    # answers
    "answered, a placeholder": Tamper(_ANSWERS, placeholder, _WRONG),
    "answered, with a comma": Tamper(("answered number",), put(comma), _WRONG),
    "answered, with a currency": Tamper(("answered number",), put(lambda t: f"{t.value} EUR"), _WRONG),
    "answered, a word": Tamper(("answered number",), put(lambda _: "as before"), _WRONG),
    "answered, below nought": Tamper(("answered number",), below_nought, _WRONG | _OUT),
    "answered, an error": Tamper(_ANSWERS, put(lambda _: "#REF!"), _WRONG | {"error-value"}),
}  # fmt: skip
