"""One entry per size or colorway becomes ordinary entries; and the vendor's book is the book without the brand's own."""

import pytest

from sheetgen.declare.entry import computed, designer, fixed, per, vendor
from sheetgen.declare.families import expand, for_vendor
from sheetgen.declare.formula import DeclarationError
from sheetgen.declare.kinds import length, money, number, text
from sheetgen.declare.parts import Book, Check, Form, Ledger, Line, Section, Sheet, Table, Words

SIZES = Sheet(
    "style", "Style", (Table("sizes", "Sizes", ref="Z", key="name", columns=(designer("name", "Size", text()),)),)
)
THREE = {"size": ("S", "M", "L")}


def points(*columns, more: tuple[Sheet, ...] = (), fields: tuple = ()) -> Book:
    sheet = Sheet("points", "Points", (
        *((Form("Sums", fields),) if fields else ()),
        Table("list", "Points", ref="P", key="point", columns=(designer("point", "Point", text()), *columns)),
    ))  # fmt: skip
    return Book((SIZES, sheet, *more), axes={"size": "style.sizes"})


def formulas(book: Book, sheet: str = "points") -> dict[str, str]:
    return {a: c.entry.formula for a, c in book.entries.items() if c.entry.formula and a.startswith(sheet)}


STEP = per("size", designer("step", "to {size}", length()), skip_first=True)


def test_members_are_numbered_and_carry_their_name():
    book = expand(points(per("size", designer("width", "Width {size}", length()))), THREE)
    members = [book.entries[f"points.list.width_z{number}"].entry for number in (1, 2, 3)]
    assert [one.heading for one in members] == ["Width S", "Width M", "Width L"]
    assert [one.member_title for one in members] == ["S", "M", "L"]
    assert {one.family for one in members} == {"width"}
    assert "points.list.width" not in book.entries


def test_skip_first_leaves_the_first_member_out_and_keeps_the_numbers():
    book = expand(points(STEP), THREE)
    assert [a for a in book.entries if "step" in a] == ["points.list.step_z2", "points.list.step_z3"]


@pytest.mark.parametrize(
    ("formula", "expanded"),
    [
        ("width.mine*mine", ["width_z1*1", "width_z2*2", "width_z3*3"]),
        ("SUM(step.row)", ["SUM(step_z2:step_z3)"] * 3),
        ("SUM(width.row)", ["SUM(width_z1:width_z3)"] * 3),
        ('IF(point="mine width.mine",1,2)', ['IF(point="mine width.mine",1,2)'] * 3),
        ("SUM(points.list.width.all)", ["SUM(points.list.width_z1:points.list.width_z3)"] * 3),
        ("SUM(list.width.all)", ["SUM(list.width_z1:list.width_z3)"] * 3),
    ],
)
def test_family_words_in_a_members_formula(formula, expanded):
    book = points(
        per("size", designer("width", "{size}", length())),
        STEP,
        per("size", computed("sum", "{size}", length(), formula)),
    )
    assert list(formulas(expand(book, THREE)).values()) == expanded


def test_a_family_word_after_what_is_no_family():
    with pytest.raises(DeclarationError) as caught:
        expand(points(per("size", computed("sum", "{size}", length(), "point.mine"))), THREE)
    assert str(caught.value) == "'point' is no family of entries"


def test_prev_reads_the_member_before_and_first_has_a_formula_of_its_own():
    reach = per("size", computed("reach", "{size}", length(), "reach.prev+step.mine", first="0*1"))
    assert formulas(expand(points(STEP, reach), THREE)) == {
        "points.list.reach_z1": "0*1",
        "points.list.reach_z2": "reach_z1+step_z2",
        "points.list.reach_z3": "reach_z2+step_z3",
    }


def test_one_size_has_no_steps_and_their_range_falls_out_of_its_list():
    book = points(
        STEP,
        computed("most", "Most", length(), "MAX(0,step.row)"),
        computed("least", "Least", length(), "MIN(0,step.row,9)"),
    )
    made = expand(book, {"size": ("One size",)})
    assert "points.list.step_z2" not in made.entries
    assert formulas(made) == {"points.list.most": "MAX(0)", "points.list.least": "MIN(0,9)"}


def test_each_adds_up_over_the_members_in_fields_and_in_checks():
    book = points(
        per("size", designer("width", "{size}", length())),
        computed("sum", "Sum", length(), "2*EACH(size, width.mine*(mine+1))"),
    )
    checked = Book((SIZES, Sheet("points", "Points", book.sheets[1].parts, checks=(
        Check("odd", "Odd", "EACH(size,COUNT(points.list.width.mine))"),
    ))), axes=book.axes)  # fmt: skip
    made = expand(checked, {"size": ("S", "M")})
    assert formulas(made)["points.list.sum"] == "2*(width_z1*(1+1)+width_z2*(2+1))"
    assert made.sheet("points").checks[0].formula == "(COUNT(points.list.width_z1)+COUNT(points.list.width_z2))"


def test_in_each_the_member_around_is_called_outer():
    book = points(
        per("size", designer("width", "{size}", length())),
        per("size", computed("sum", "Sum {size}", length(), "EACH(size, width.mine*width.outer*outer)")),
    )
    assert formulas(expand(book, {"size": ("S", "M")})) == {
        "points.list.sum_z1": "(width_z1*width_z1*1+width_z2*width_z1*1)",
        "points.list.sum_z2": "(width_z1*width_z2*2+width_z2*width_z2*2)",
    }


def test_one_each_inside_another_is_refused():
    book = points(computed("sum", "Sum", length(), "EACH(size,EACH(size,mine))"))
    with pytest.raises(DeclarationError) as caught:
        expand(book, THREE)
    assert str(caught.value) == (
        "one EACH inside another: `mine` would mean two things; use a column for the inner sum"
    )


def test_a_section_with_an_axis_is_repeated_whole():
    section = Section("Round {size}", axis="size", new_page=True, columns=(
        designer("asked", "Asked", length()), computed("off", "Off", length(), "asked.mine*mine"),
    ))  # fmt: skip
    made = expand(points(section), {"size": ("S", "M")})
    table = made.tables["points.list"][1]
    sections = [column for column in table.columns if isinstance(column, Section)]
    assert [(one.title, [entry.name for entry in one.columns]) for one in sections] == [
        ("Round S", ["asked_z1", "off_z1"]),
        ("Round M", ["asked_z2", "off_z2"]),
    ]
    assert [entry.formula for one in sections for entry in one.columns] == ["", "asked_z1*1", "", "asked_z2*2"]


def test_a_section_left_without_columns_is_left_out():
    made = expand(points(Section("Steps", (STEP,))), {"size": ("One size",)})
    assert [
        getattr(column, "title", column.name if hasattr(column, "name") else "")
        for column in made.tables["points.list"][1].columns
    ] == ["point"]


def test_a_family_of_fields_and_one_of_another_sheet():
    other = Sheet("sums", "Sums", (Form("Sums", (
        per("size", computed("widest", "Widest {size}", length(), "MAX(points.list.width.mine)")),
        computed("all", "All", length(), "SUM(points.list.width.all)"),
    )),))  # fmt: skip
    made = expand(points(per("size", designer("width", "{size}", length())), more=(other,)), {"size": ("S", "M")})
    assert formulas(made, "sums") == {
        "sums.widest_z1": "MAX(points.list.width_z1)",
        "sums.widest_z2": "MAX(points.list.width_z2)",
        "sums.all": "SUM(points.list.width_z1:points.list.width_z2)",
    }


def test_derived_sheets_are_made_from_the_plain_book_and_stand_in_the_books_order():
    def census(book: Book) -> Sheet:
        return Sheet("census", "Census", (Words("", tuple(book.entries)),))

    book = Book(
        points(per("size", designer("width", "{size}", length()))).sheets,
        {"size": "style.sizes"},
        (census,),
        ("census", "points", "style"),
    )
    made = expand(book, {"size": ("S",)})
    assert [sheet.name for sheet in made.sheets] == ["census", "points", "style"]
    assert made.sheet("census").parts == (Words("", ("style.sizes.name", "points.list.point", "points.list.width_z1")),)
    assert made.sheet("census").derived


def test_the_vendors_book_has_nothing_of_the_brands_own():
    book = Book((
        Sheet("goods", "Goods", (
            Form("Mixed", (designer("shared", "Shared", text()), designer("secret", "Secret", text(), private=True))),
            Form("Secret form", (designer("ceiling", "Ceiling", money(), private=True),)),
            Table("lines", "Lines", ref="L", key="item", columns=(
                designer("item", "Item", text()),
                Section("Secret section", (designer("target", "Target", money(), private=True),)),
                Section("Half", (vendor("price", "Price", money()), computed("gain", "Gain", number(), "price", private=True))),
            )),
            Table("secrets", "Secret table", ref="S", key="who", columns=(designer("who", "Who", text(), private=True),)),
            Words("Note", ("for all",)),
        ), checks=(Check("open", "Open", "0"), Check("hidden", "Hidden", "0", private=True))),
        Sheet("pricing", "Pricing", (Form("", (fixed("tax", "Tax", number()),)),), private=True),
    ), axes={})  # fmt: skip
    made = for_vendor(book)
    assert list(made.entries) == ["goods.shared", "goods.lines.item", "goods.lines.price"]
    assert [part.title for part in made.sheet("goods").parts] == ["Mixed", "Lines", "Note"]
    assert [column.title for column in made.tables["goods.lines"][1].columns if isinstance(column, Section)] == ["Half"]
    assert [check.name for check in made.sheet("goods").checks] == ["open"]
    assert made.audience == "vendor"


def test_a_ledger_opens_into_a_column_for_each_member():
    width = per("size", designer("width", "Width {size}", length()))
    widest = computed("widest", "Widest", length(), "MAX(width.row)")
    ledger = Ledger("By size", ("", "{size}", "Widest"), (30, 12, 14), (Line(("Width",), (width, widest)),))
    book = expand(Book((SIZES, Sheet("widths", "Widths", (ledger,))), axes={"size": "style.sizes"}), THREE)
    (opened,) = book.sheet("widths").parts
    assert opened.headings == ("", "S", "M", "L", "Widest")
    assert opened.widths == (30, 12, 12, 12, 14)
    assert [entry.name for entry in opened.lines[0].entries] == ["width_z1", "width_z2", "width_z3", "widest"]
    assert book.entries["widths.widest"].entry.formula == "MAX(width_z1:width_z3)"
