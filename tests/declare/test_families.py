"""One entry per size or colorway becomes ordinary entries, and formulas speak of them by their names."""

import pytest

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.expansion import expand
from sheetgen.declare.kinds import length, text
from sheetgen.declare.parts import Book, Caution, Check, Form, Ledger, Line, Section, Sheet, Table, Words

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
        ("SUM(step.all)", ["SUM(step_z2:step_z3)"] * 3),
        ("SUM(width.all)", ["SUM(width_z1:width_z3)"] * 3),
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
        computed("most", "Most", length(), "MAX(0,step.all)"),
        computed("least", "Least", length(), "MIN(0,step.all,9)"),
    )
    made = expand(book, {"size": ("One size",)})
    assert "points.list.step_z2" not in made.entries
    assert formulas(made) == {"points.list.most": "MAX(0)", "points.list.least": "MIN(0,9)"}


def test_checks_and_cautions_speak_of_members_too():
    book = points(per("size", designer("width", "{size}", length())))
    checked = Book((SIZES, Sheet("points", "Points", book.sheets[1].parts, checks=(
        Check("odd", "Odd", "COUNT(points.list.width.all)"),
    ), cautions=(Caution("wide", "Wide.", "MAX(points.list.width.last)", "invented"),))), axes=book.axes)  # fmt: skip
    made = expand(checked, {"size": ("S", "M")})
    assert made.sheet("points").checks[0].formula == "COUNT(points.list.width_z1:points.list.width_z2)"
    assert made.sheet("points").cautions[0].formula == "MAX(points.list.width_z2)"


def test_a_section_with_an_axis_is_repeated_whole():
    section = Section("Round {size}", axis="size", columns=(
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


def test_a_ledger_opens_into_a_column_for_each_member():
    width = per("size", designer("width", "Width {size}", length()))
    widest = computed("widest", "Widest", length(), "MAX(width.all)")
    ledger = Ledger("By size", ("", "{size}", "Widest"), (30, 12, 14), (Line(("Width",), (width, widest)),))
    book = expand(Book((SIZES, Sheet("widths", "Widths", (ledger,))), axes={"size": "style.sizes"}), THREE)
    (opened,) = book.sheet("widths").parts
    assert opened.headings == ("", "S", "M", "L", "Widest")
    assert opened.widths == (30, 12, 12, 12, 14)
    assert [entry.name for entry in opened.lines[0].entries] == ["width_z1", "width_z2", "width_z3", "widest"]
    assert book.entries["widths.widest"].entry.formula == "MAX(width_z1:width_z3)"
