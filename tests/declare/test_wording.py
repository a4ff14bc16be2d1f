"""The gate: a book in other words is the same book, and no text that people read goes past it."""

from dataclasses import fields, is_dataclass, replace
from typing import get_args, get_type_hints

import pytest

from sheetgen.declare import entry, kinds, parts
from sheetgen.declare.entry import Place, computed, designer, fixed, per
from sheetgen.declare.expansion import expand
from sheetgen.declare.kinds import Kind, choice, number, pick, text
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import (
    Book,
    Caution,
    Chart,
    Check,
    Form,
    Ledger,
    Line,
    Pictures,
    Section,
    Sheet,
    Table,
    Words,
    as_it_is,
)
from sheetgen.declare.wording import HELD, READ_BY_PEOPLE, ROWS, is_text, reworded, texts_of, worded
from sheetgen.declare.words import words_also_typed

NO_TEXTS = {
    "Sheet": {"name", "only_with", "main", "seen", "seen_with", "goes", "goes_with"},
    "Section": {"axis"},
    "Chart": {"sort", "series", "categories"},
    "Line": {"link"},
    "Table": {"name", "ref", "key", "mirrors", "says"},
    "Check": {"name", "formula", "who", "where", "stops"},
    "Caution": {"name", "formula"},
    "Entry": {
        "name", "who", "need", "formula", "first", "axis", "family", "asked_by", "unless", "keeps", "member_title",
        "may_be_blank", "zero", "original",
    },
    "Kind": {"name", "source"},
}  # fmt: skip
"""Words of declarations that nobody reads: names, addresses, formulas (whose words in quotes have a way of their own).
`member_title` is the member's own name."""
NO_DECLARATIONS = {"Place", "Column", "Book", "Picture", "PictureMark"}
"""Not inside of a sheet's declaration, or data."""

DECLARATIONS = {
    one
    for module in (parts, entry, kinds)
    for one in vars(module).values()
    if isinstance(one, type)
    and one.__module__ == module.__name__
    and one.__name__ not in NO_DECLARATIONS
    and is_dataclass(one)
}


def in_brackets(words: str) -> str:
    return f"<{words}>"


@pytest.mark.parametrize("one", sorted(DECLARATIONS, key=lambda one: one.__name__), ids=lambda one: one.__name__)
def test_every_word_of_a_declaration_is_known_as_text_or_as_none(one):
    hints = get_type_hints(one, {**vars(parts), **vars(entry), **vars(kinds)})
    wordy = {
        field.name for field in fields(one) if "str" in str(hints[field.name]) or "Literal" in str(hints[field.name])
    }
    if one is Table:
        wordy -= set(ROWS)  # their words go by `_rows`
    read, none = set(READ_BY_PEOPLE[one]), NO_TEXTS.get(one.__name__, set())
    assert read | none == wordy
    assert not read & none


@pytest.mark.parametrize("one", sorted(DECLARATIONS, key=lambda one: one.__name__), ids=lambda one: one.__name__)
def test_every_declaration_inside_of_another_is_gone_into(one):
    hints = get_type_hints(one, {**vars(parts), **vars(entry), **vars(kinds)})
    names = {other.__name__ for other in DECLARATIONS}
    holding = {name for name, hint in hints.items() if any(f".{other}" in str(hint) for other in names) or hint is Kind}
    assert holding == set(HELD.get(one, ()))
    assert set(get_args(parts.Part)) < set(READ_BY_PEOPLE)


UNITS = Table("units", "Units", ref="E", key="unit", columns=(fixed("unit", "Unit", text()), fixed("of", "Of", text())), rows=(
    {"unit": "m", "of": "length"}, {"unit": "kg", "of": "weight"},
))  # fmt: skip
FORM = Form("Sums, {currency}", (
    designer("unit", "Unit", choice("m", "kg"), help="Of use."),
    designer("other", "Other", pick("goods.units.unit")),
    designer("remark", "Remark", text()),
    per("size", designer("width", "Width {size}", number()), asked_by="goods.unit", asked_when="kg"),
    computed("sort", "Sort", text(), 'INDEX(units.of,MATCH(unit,units.unit,0))&""'),
    computed("heavy", "Heavy", text(), 'IF(sort="weight","too heavy",IF(unit&""<>"m",unit,"m"))'),
), note="A note.")  # fmt: skip
PARTS = (
    FORM, UNITS, Pictures("Views", (), note="Two."), Words("How", ("Fill it.", "Send it.")),
    Chart("Money", "bars", ("width.all",), "{currency}", description="Part by part"),
    Ledger("Counts", ("What", "Count"), (9, 9), (Line(("Widths",), (computed("n", "Widths", number(), "0"),)),), note="Live.", mark_open="Count"),
    Table("lines", "Lines", ref="L", key="item", columns=(designer("item", "Item", text()), Section("More, {unit}", (designer("x", "X", number()),)))),
)  # fmt: skip
CHECKS = (Check("heavy", "It is heavy", 'IF(goods.unit="kg",1,0)', fix="Use metres."),)
CAUTIONS = (Caution("cord", "Take care.", 'COUNTIF(goods.units.of,"weight")', "A law"),)


def derived(book: Book) -> Sheet:
    words = Words(book.say("How"), (book.say("of {what}").format(what=book.sheets[0].title),))
    return Sheet(
        "own", book.say("Own"), (words, *((Words(book.say("Return it"), ()),) if book.audience == "vendor" else ()))
    )


BOOK = Book(
    (Sheet("goods", "Goods", PARTS, purpose="What is bought.", checks=CHECKS, cautions=CAUTIONS),),
    axes={"size": "goods.lines"},
    derived=(derived,),
)


def test_with_the_identity_the_book_is_equal():
    made = worded(BOOK, as_it_is)
    assert made.sheets == BOOK.sheets
    assert expand(made, {"size": ("S",)}).sheets == expand(BOOK, {"size": ("S",)}).sheets


def test_texts_are_listed_once_with_all_places():
    found = {one.words: one.places for one in texts_of(BOOK)}
    assert len(found) == len(texts_of(BOOK))
    assert found["Goods"] == ("goods title",)
    assert found["Sums, {currency}"] == ("goods title",)
    assert found["Width {size}"] == ("goods.width heading",)
    assert found["kg"] == (
        "goods.unit choices",
        "goods.width asked_when",
        "goods.units.unit row",
        "goods, check 'heavy' formula",
    )
    assert found["weight"] == ("goods.heavy formula", "goods.units.of row", "goods, caution 'cord' formula")
    assert found["Use metres."] == ("goods, check 'heavy' fix",)
    assert found["of {what}"] == ("derived sheets",)
    assert found["Return it"] == ("derived sheets",)
    assert found["How"] == ("goods title", "derived sheets")
    assert not {"", "{currency}", "too heavy", "unit"} & set(found)


def test_other_words_stand_everywhere():
    made = expand(worded(BOOK, in_brackets), {"size": ("S",)})
    form, units, views, how, chart, counts, lines = made.sheet("goods").parts
    assert (made.sheet("goods").title, made.sheet("goods").purpose) == ("<Goods>", "<What is bought.>")
    assert (form.title, form.note, form.entries[0].heading, form.entries[0].help) == (
        "<Sums, {currency}>",
        "<A note.>",
        "<Unit>",
        "<Of use.>",
    )
    assert (form.entries[3].heading, form.entries[3].asked_when) == ("<Width S>", "<kg>")
    assert form.entries[0].kind.choices == ("<m>", "<kg>")
    assert units.rows == ({"unit": "<m>", "of": "<length>"}, {"unit": "<kg>", "of": "<weight>"})
    assert (views.note, how.lines) == ("<Two.>", ("<Fill it.>", "<Send it.>"))
    assert (chart.title, chart.unit, chart.description, chart.series) == (
        "<Money>",
        "{currency}",
        "<Part by part>",
        ("width_z1",),
    )
    assert (counts.headings, counts.mark_open, counts.lines[0].words) == (
        ("<What>", "<Count>"),
        "<Count>",
        ("<Widths>",),
    )
    assert lines.columns[1].title == "<More, {unit}>"
    assert made.sheet("own").title == "<Own>"
    assert made.sheet("own").parts[0].lines == ("<of <Goods>>",)


def test_words_in_quotes_change_with_the_choices_and_no_others():
    made = worded(BOOK, in_brackets)
    assert made.entries["goods.heavy"].entry.formula == 'IF(sort="<weight>","too heavy",IF(unit&""<>"<m>",unit,"<m>"))'
    assert made.entries["goods.sort"].entry.formula == 'INDEX(units.of,MATCH(unit,units.unit,0))&""'
    assert made.sheets[0].checks[0].formula == 'IF(goods.unit="<kg>",1,0)'
    assert made.sheets[0].cautions[0].formula == 'COUNTIF(goods.units.of,"<weight>")'


def test_the_formula_of_a_first_member_has_words_too():
    first = per("size", computed("new", "New", text(), "mine", first='IF(goods.unit="kg",1,0)'))
    book = replace(BOOK, sheets=(*BOOK.sheets, Sheet("more", "More", (Form("More", (first,)),))))
    assert worded(book, in_brackets).entries["more.new"].entry.first == 'IF(goods.unit="<kg>",1,0)'


def test_a_translation_with_quotes_stays_one_word():
    made = worded(BOOK, lambda words: 'a "kilo"' if words == "kg" else words)
    assert made.sheets[0].checks[0].formula == 'IF(goods.unit="a ""kilo""",1,0)'
    assert made.entries["goods.unit"].entry.kind.choices == ("m", 'a "kilo"')


def test_what_people_chose_goes_with_it():
    plain = expand(BOOK, {"size": ("S",)})
    values = {
        Place("goods.unit"): "kg",
        Place("goods.other"): "m",
        Place("goods.remark"): "kg",
        Place("goods.width_z1"): 3,
        Place("gone.x"): "kg",
    }
    copy = expand(worded(BOOK, in_brackets), {"size": ("S",)})
    typed = reworded(values, plain, copy)
    assert list(typed.values()) == ["<kg>", "<m>", "kg", 3, "kg"]
    assert reworded(typed, copy, plain) == values


def test_a_choice_that_is_compared_with_what_people_type_keeps_its_words():
    rates = Table("rates", "Rates", ref="X", key="code", columns=(designer("code", "Code", text()),))
    form = Form("Sums", (
        designer("currency", "Currency", choice("EUR", "USD")), designer("paid", "Paid in", pick("goods.rates.code")),
        computed("same", "Same", text(), 'IF(currency=paid,"same",currency)'),
    ))  # fmt: skip
    book = Book((Sheet("goods", "Goods", (form, rates)),), axes={})
    assert words_also_typed(book) == {"EUR", "USD"}
    made = worded(book, in_brackets)
    assert made.entries["goods.currency"].entry.kind.choices == ("EUR", "USD")
    assert made.entries["goods.currency"].entry.heading == "<Currency>"
    assert not {"EUR", "USD"} & {one.words for one in texts_of(book)}
    assert words_also_typed(BOOK) == frozenset()


def test_what_is_read_out_of_a_longer_text_does_not_keep_its_words():
    form = Form("Sums", (
        designer("said", "Said", text()), computed("word", "Word", text(), "MID(said,5,9)"),
        computed("known", "Known", text(), 'IFERROR(INDEX(units.unit,MATCH(word,units.unit,0)),"")'),
        computed("whole", "Whole", text(), 'IF(said="","",said)'),
    ))  # fmt: skip
    assert words_also_typed(Book((Sheet("goods", "Goods", (form, UNITS)),), axes={})) == frozenset()
    passed_on = Form("More", (computed("at", "At", number(), "MATCH(whole,units.unit,0)"),))
    assert words_also_typed(Book((Sheet("goods", "Goods", (form, passed_on, UNITS)),), axes={})) == {"m", "kg"}


@pytest.mark.parametrize(
    ("translate", "says"),
    [
        (lambda words: words.replace("{size}", ""), "'Width ' has not the same holes as 'Width {size}'"),
        (lambda words: words.replace("Fill", "{fill}"), "'{fill} it.' has not the same holes as 'Fill it.'"),
        (lambda words: "M" if words == "kg" else words, "goods.unit: two words become one in m, M"),
        (
            lambda words: "Length" if words == "weight" else words,
            "goods.units.of: two words become one in length, Length",
        ),
    ],
)
def test_a_translation_that_would_break_the_book_is_refused(translate, says):
    with pytest.raises(DeclarationError) as caught:
        worded(BOOK, translate)
    assert str(caught.value) == says


@pytest.mark.parametrize(
    ("words", "text_of_people"), [("Width {size}", True), ("{size}", False), ("+10 %", False), ("", False), ("m", True)]
)
def test_a_text_has_a_letter_outside_of_its_holes(words, text_of_people):
    assert is_text(words) is text_of_people


def test_the_book_is_not_changed():
    before = replace(BOOK)
    worded(BOOK, in_brackets)
    texts_of(BOOK)
    assert before.sheets == BOOK.sheets
