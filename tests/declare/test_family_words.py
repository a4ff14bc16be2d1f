"""The words by which formulas speak of families: what they become, and what is said where they say nothing."""

from dataclasses import replace

import pytest

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.expansion import expand
from sheetgen.declare.kinds import length, text
from sheetgen.declare.mistakes import DeclarationError, concerning
from sheetgen.declare.parts import Book, Caution, Chart, Check, Form, Ledger, Line, Pictures, Section, Sheet, Table
from sheetgen.declare.proof import proven
from sheetgen.declare.tokens import tokens

AXES = {"size": ("S", "M"), "colorway": ("Red", "Blue")}
SIZES = Sheet(
    "style", "Style", (Table("sizes", "Sizes", ref="Z", key="name", columns=(designer("name", "S", text()),)),)
)
FAMILIES = (
    per("size", designer("width", "{size}", length())),
    per("size", designer("step", "{size}", length()), skip_first=True),
    per("colorway", designer("shade", "{colorway}", length())),
    Section("{size}", axis="size", columns=(designer("asked", "A", length()), designer("got", "G", length()))),
    Section("{size}", axis="size", columns=(per("colorway", designer("both", "{colorway}", length())),)),
)


def book(*columns, fields=(), **of_sheet) -> Book:
    table = Table(
        "list", "Points", ref="P", key="point", columns=(designer("point", "Point", text()), *FAMILIES, *columns)
    )
    form = Form("Sums", (per("size", designer("sum_of", "{size}", length())), *fields))
    return Book((SIZES, Sheet("points", "Points", (form, table), **of_sheet)), axes={"size": "style.sizes"})


def formulas(made: Book, start: str) -> list[str]:
    return [column.entry.formula for address, column in made.entries.items() if address.startswith(start)]


def of_column(formula: str, axis: str = "") -> list[str]:
    entry = computed("new", "New", length(), formula)
    return formulas(expand(book(per(axis, entry) if axis else entry), AXES), "points.list.new")


def in_section(formula: str) -> Section:
    """One for each size in the section of each colorway."""
    return Section("{colorway}", axis="colorway", columns=(per("size", computed("new", "{size}", length(), formula)),))


NO_SIZE_AROUND = (
    "is one for each size, and no size is around: give what is made of it an entry of its own for each size, and read the "
    "block of those (.all)"
)


def refusal(made: Book) -> str:
    with pytest.raises(DeclarationError) as caught:
        proven(expand(made, AXES))
    return str(caught.value)


def said_of(formula: str, axis: str = "") -> str:
    entry = computed("new", "New", length(), formula)
    return refusal(book(per(axis, entry) if axis else entry))


@pytest.mark.parametrize(
    ("formula", "axis", "plain"),
    [
        ("width.mine*shade.last", "size", ["width_z1*shade_c2", "width_z2*shade_c2"]),
        ("mine.size*mine", "size", ["1*1", "2*2"]),
        # what stands in a text is no word of the language
        ('IF(point="width.mine)",width.mine,0)', "size",
         ['IF(point="width.mine)",width_z1,0)', 'IF(point="width.mine)",width_z2,0)']),
    ],
)  # fmt: skip
def test_words_about_members(formula, axis, plain):
    assert of_column(formula, axis) == plain


@pytest.mark.parametrize(
    ("formula", "plain"),
    [
        # each family goes by its own axis
        ("width.mine*shade.mine", ["width_z1*shade_c1", "width_z2*shade_c1", "width_z1*shade_c2", "width_z2*shade_c2"]),
        ("mine.size-mine.colorway", ["1-1", "2-1", "1-2", "2-2"]),
        ("both.mine", ["both_z1_c1", "both_z2_c1", "both_z1_c2", "both_z2_c2"]),
        ("SUM(width.all)", ["SUM(width_z1:width_z2)"] * 4),
    ],
)
def test_words_about_members_in_the_section_of_another_axis(formula, plain):
    assert formulas(expand(book(in_section(formula)), AXES), "points.list.new") == plain


def test_a_single_member_is_a_block_too():
    made = expand(
        book(computed("new", "New", length(), "MAX(0,width.all,step.all)")), {"size": ("S",), "colorway": ("Red",)}
    )
    assert formulas(made, "points.list.new") == ["MAX(0,width_z1:width_z1)"]


@pytest.mark.parametrize(
    ("formula", "axis", "says"),
    [
        ("MAX(0,width.mine", "size", "'(' is not closed in 'MAX(0,width.mine'"),
        ("each(size, width.mine)", "", "'each' before a bracket: functions are written in capital letters"),
        ("mine*2", "", "'mine' stands in no family"),
        ("mine.size", "colorway", "no size is around 'mine.size'"),
        ("mine.sice", "size", "'sice' is no axis; is it 'size'?"),
        ("width.mine", "", f"'width' {NO_SIZE_AROUND}"),
        ("width.mine", "colorway", f"'width' {NO_SIZE_AROUND}"),
        ("both.mine", "colorway", f"'both' {NO_SIZE_AROUND}"),
        ("both.mine", "size",
         "'both' is one for each colorway, and no colorway is around: give what is made of it an entry of its own for each "
         "colorway, and read the block of those (.all)"),
        ("widht.mine", "size", "'widht' is no family of entries; is it 'width'?"),
        ("point.mine", "size", "'point' is no family of entries"),
        ("width.mien", "size", "'mien' says nothing about a family; is it 'mine'?"),
        ("width*2", "size", "'width' is a family: say width.mine, .prev, .last or .all"),
        ("width.prev", "size", "'width' has no member 0: give the first member a formula of its own (`first`)"),
        ("step.mine", "size", "'step' has no member 1: give the first member a formula of its own (`first`)"),
        ("SUM(asked.all)", "",
         "the members of 'asked' do not stand side by side: give them an entry of its own for each size, whose members do"),
        ("SUM(sum_of.all)", "",
         "the members of 'sum_of' do not stand side by side: give them an entry of its own for each size, whose members do"),
        ("SUM(both.all)", "", "'both' is one for each size and colorway: only both.mine can be said"),
    ],
)  # fmt: skip
def test_a_word_that_says_nothing_names_its_entry_and_the_way_out(formula, axis, says):
    member = {"": "new", "size": "new_z1", "colorway": "new_c1"}[axis]
    assert said_of(formula, axis) == f"points.list.{member}: {says}"


def test_mine_alone_says_nothing_where_two_axes_are_around():
    assert refusal(book(in_section("mine*2"))) == (
        "points.list.new_c1_z1: 'mine' could be two numbers here: say mine.colorway or mine.size"
    )


def test_the_way_out_of_members_that_stand_apart():
    copied = per("size", computed("copied", "{size}", length(), "asked.mine"))
    made = expand(book(copied, computed("new", "New", length(), "SUM(copied.all)")), AXES)
    assert formulas(made, "points.list.copied") == ["asked_z1", "asked_z2"]
    assert formulas(made, "points.list.new") == ["SUM(copied_z1:copied_z2)"]
    assert "points.list.new" in proven(made)


@pytest.mark.parametrize("formula", ["SUM(step.all)", "step.all", "(step.all)+1"])
def test_a_family_without_members_cannot_stand_alone(formula):
    made = book(computed("most", "Most", length(), formula))
    with pytest.raises(DeclarationError) as caught:
        expand(made, {"size": ("One size",), "colorway": ("Red",)})
    says = "'step.all' has no members here and stands alone in its brackets: add a 0"
    assert str(caught.value) == f"points.list.most: {says}"
    last = book(computed("most", "Most", length(), "step.last"))
    with pytest.raises(DeclarationError) as caught:
        expand(last, {"size": ("One size",), "colorway": ("Red",)})
    assert str(caught.value) == "points.list.most: 'step' has no members here, and so no last one"


def test_errors_of_fields_checks_cautions_and_charts_name_them():
    wrong = "widht.mine"
    assert refusal(book(fields=(computed("x", "X", length(), wrong),))).startswith("points.x: 'widht' is no family")
    assert refusal(book(checks=(Check("odd", "Odd", "list.width.mine"),))).startswith(
        "points, check 'odd': 'list.width' is one"
    )
    caution = Caution("cord", "Take care.", "mine.sise", "invented")
    assert refusal(book(cautions=(caution,))) == "points, caution 'cord': 'sise' is no axis; is it 'size'?"
    made = book()
    points = made.sheets[1]
    chart = Chart("Widths", "bars", ("list.widht.all",), "cm", "list.point")
    drawn = replace(made, sheets=(SIZES, replace(points, parts=(*points.parts, chart))))
    assert refusal(drawn) == "points, chart 'Widths': 'list.widht' is no family of entries; is it 'list.width'?"


def test_an_axis_that_is_none():
    assert refusal(book(per("sise", designer("x", "X", length())))) == "points.list.x: 'sise' is no axis; is it 'size'?"
    section = Section("{sise}", axis="sise", columns=(designer("x", "X", length()),))
    assert refusal(book(section)) == "points, section '{sise}': 'sise' is no axis; is it 'size'?"


def test_an_entry_may_not_be_called_as_a_word_of_the_language():
    assert refusal(book(designer("last", "Last", length()))) == (
        "points.list.last: 'last' is a word of the formulas' language and no name for an entry"
    )


def test_pictures_and_ledgers_open_too():
    pictures = Pictures("Views", (per("colorway", designer("view", "View {colorway}", length())),))
    ledger = Ledger("Sums", ("", "{size}", "All"), (9, 9, 9), (
        Line(("a",), (per("size", designer("a", "A", length())), computed("b", "B", length(), "SUM(a.all)"))),
    ))  # fmt: skip
    made = expand(Book((SIZES, Sheet("x", "X", (pictures, ledger))), axes={"size": "style.sizes"}), AXES)
    assert [address for address in made.entries if address.startswith("x.")] == [
        "x.view_c1",
        "x.view_c2",
        "x.a_z1",
        "x.a_z2",
        "x.b",
    ]
    assert made.entries["x.b"].entry.formula == "SUM(a_z1:a_z2)"


def test_members_that_the_declaration_names_are_its_own():
    rows = ({"name": "S"}, {"name": "M"})
    sizes = Sheet(
        "style",
        "Style",
        (Table("sizes", "Sizes", ref="Z", key="name", columns=(designer("name", "S", text()),), rows=rows),),
    )
    made = expand(
        Book((sizes, book().sheets[1]), axes={"size": "style.sizes"}), {"size": ("other",), "colorway": ("Red",)}
    )
    assert [c.entry.heading for a, c in made.entries.items() if "list.width" in a] == ["S", "M"]


@pytest.mark.parametrize(
    ("formula", "says"),
    [
        ("SUM(a", "'(' is not closed in 'SUM(a'"),
        ("a)", "')' closes nothing in 'a)'"),
        ("{1,2)", "')' closes nothing in '{1,2)'"),
        ("net waste", "cannot read 'waste' in 'net waste': a sign is missing before it"),
        ("SUM(a) 2", "cannot read '2' in 'SUM(a) 2': a sign is missing before it"),
        ("sum(a)", "'sum' before a bracket: functions are written in capital letters"),
    ],
)
def test_brackets_and_signs_are_looked_at_when_a_formula_is_split(formula, says):
    with pytest.raises(DeclarationError) as caught:
        tokens(formula)
    assert str(caught.value) == says


def test_concerning_names_what_an_error_is_about_and_leaves_other_errors_alone():
    with pytest.raises(DeclarationError) as caught, concerning("goods.cost"):
        raise DeclarationError("wrong")
    assert str(caught.value) == "goods.cost: wrong"
    with pytest.raises(ValueError, match=r"\Aother\Z"), concerning("goods.cost"):
        raise ValueError("other")
