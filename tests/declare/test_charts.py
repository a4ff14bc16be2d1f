"""Charts by name: what they draw is resolved as in a formula, and a chart that could not be drawn stops the book."""

import pytest

from sheetgen.declare.audience import for_vendor
from sheetgen.declare.charts import category_heading, read_chart
from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.expansion import expand
from sheetgen.declare.kinds import money, number, percent, text
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Chart, Form, Section, Sheet, Table, Words
from sheetgen.declare.proof import proven

COSTS = Form("Costs", (
    designer("freight", "Freight", money(4)),
    designer("duty", "Duty", money(4)),
    designer("rate", "Rate", percent()),
    designer("note", "Note", text()),
    designer("ceiling", "Ceiling", money(4), private=True),
))  # fmt: skip
STEPS = Table("steps", "Steps", ref="U", key="pieces", columns=(
    designer("pieces", "From pieces", number(0)),
    designer("price", "Price", money(4)),
    Section("Sea", (designer("sea", "Landed", money(4)),)),
    Section("Air", (designer("air", "Landed", money(4)),)),
))  # fmt: skip
COLORS = Sheet("colors", "Colors", (
    Table("list", "Colors", ref="C", key="name", columns=(designer("name", "Name", text()),)),
))  # fmt: skip
OWN = Sheet("own", "Own", (Form("Own", (designer("margin", "Margin", money(4)),)),), private=True)
TWO = {"colorway": ("Indigo", "Stone")}


def chart(*series: str, sort="bars", **words) -> Chart:
    return Chart("Money", sort, series, "{currency}", **words)


def book(*parts, private: bool = False) -> Book:
    sheet = Sheet("pricing", "Pricing", (COSTS, STEPS, *parts), private=private)
    return Book((COLORS, sheet, OWN), axes={"colorway": "colors.list"})


def plot_of(drawn: Chart):
    made = book(drawn)
    return read_chart(made, made.sheet("pricing"), drawn)


def refusal(drawn: Chart) -> str:
    with pytest.raises(DeclarationError) as caught:
        proven(book(drawn))
    return str(caught.value)


def test_fields_are_series_under_their_headings():
    plot = plot_of(chart("freight", "pricing.duty", "own.margin", sort="stacked bars", private=True))
    assert plot.series == (("pricing.freight", "Freight"), ("pricing.duty", "Duty"), ("own.margin", "Margin"))
    assert plot.categories == ""
    assert list(plot.reads) == ["pricing.freight", "pricing.duty", "own.margin"]


def test_columns_are_series_along_their_categories():
    made = book()
    plot = read_chart(made, made.sheet("pricing"), chart("steps.price", sort="line", categories="pricing.steps.pieces"))
    assert (plot.series, plot.categories) == ((("pricing.steps.price", "Price"),), "pricing.steps.pieces")
    assert list(plot.reads) == ["pricing.steps.price", "pricing.steps.pieces"]
    assert category_heading(made, plot) == "From pieces"
    by_ref = read_chart(made, made.sheet("pricing"), chart("steps.price", categories="steps.ref"))
    assert (by_ref.categories, category_heading(made, by_ref)) == ("pricing.steps.ref", "")


def test_headings_that_are_alike_take_the_title_of_their_section():
    plot = plot_of(chart("steps.price", "steps.sea", "steps.air", categories="steps.pieces"))
    assert [name for _, name in plot.series] == ["Price", "Sea: Landed", "Air: Landed"]


def test_two_members_of_one_name_are_told_apart_by_number():
    drawn = chart("landed_in.all")
    form = Form("By color", (per("colorway", designer("landed_in", "Landed: {colorway}", money(4))),))
    made = expand(book(form, drawn), {"colorway": ("Indigo", "Indigo")})
    plot = read_chart(made, made.sheet("pricing"), made.sheet("pricing").parts[-1])
    assert [name for _, name in plot.series] == ["Landed: Indigo (1)", "Landed: Indigo (2)"]


@pytest.mark.parametrize(
    ("drawn", "says"),
    [
        (chart("freigth"), "nothing is called 'freigth'; is it 'freight'?"),
        (chart("steps.price", categories="steps.piece"), "nothing is called 'steps.piece'; is it 'pieces'?"),
        (chart(), "it has no series"),
        (chart("freight", "freight"), "a series is in it twice"),
        (chart("freight", "note"), "pricing.note holds no numbers"),
        (chart("steps.ref", categories="steps.pieces"), "pricing.steps.ref holds no numbers"),
        (
            chart("freight", "rate"),
            "pricing.freight and pricing.rate have different units, and a chart has one axis",
        ),
        (chart("freight", "steps.price", categories="steps.pieces"), "fields and columns do not go into one chart"),
        (
            chart("freight", sort="line"),
            "fields stand side by side in bars, without categories; a line goes over columns",
        ),
        (
            chart("freight", categories="steps.pieces"),
            "fields stand side by side in bars, without categories; a line goes over columns",
        ),
        (chart("steps.price"), "columns need categories: the column that stands along the axis"),
        (
            chart("steps.price", categories="colors.list.name"),
            "all its columns must be of one table, not of colors.list and pricing.steps",
        ),
        (chart("freight", "own.margin"), "shared, but reads the brand's own own.margin"),
        (chart("freight", "ceiling"), "shared, but reads the brand's own pricing.ceiling"),
    ],
    ids=lambda value: "" if isinstance(value, str) else " ".join(value.series),
)
def test_a_chart_that_could_not_be_drawn_or_would_leak(drawn, says):
    assert refusal(drawn) == f"pricing, chart 'Money': {says}"


@pytest.mark.parametrize("where", ["chart", "sheet"])
def test_the_brands_own_chart_may_read_what_is_the_brands_own(where):
    drawn = chart("freight", "own.margin", "ceiling", private=where == "chart")
    assert proven(book(drawn, private=where == "sheet")) == {}


def test_the_vendors_book_keeps_shared_charts_only():
    shared, own = chart("freight"), chart("ceiling", private=True)
    made = for_vendor(book(shared, own, Words("", ("a",))))
    assert [part for part in made.sheet("pricing").parts if isinstance(part, Chart)] == [shared]
    assert proven(made) == {}


def test_a_familys_members_are_a_series_each():
    columns = per("colorway", designer("landed_of", "Landed: {colorway}", money(4)))
    table = Table("ladder", "Ladder", ref="L", key="pieces", columns=(
        designer("pieces", "Pieces", number(0)), designer("price", "Price", money(4)), columns,
        per("colorway", computed("more", "More: {colorway}", money(4), "landed_of.mine-price"), skip_first=True),
    ))  # fmt: skip
    drawn = chart(
        "ladder.price", "ladder.landed_of.all", "pricing.ladder.more.all", sort="line", categories="ladder.pieces"
    )
    made = expand(book(table, drawn), TWO)
    assert made.sheet("pricing").parts[-1].series == (
        "ladder.price", "ladder.landed_of_c1", "ladder.landed_of_c2", "pricing.ladder.more_c2",
    )  # fmt: skip
    assert list(proven(made)) == ["pricing.ladder.more_c2"]


def test_a_chart_of_a_family_without_members_is_left_out():
    form = Form("By color", (per("colorway", designer("landed_in", "Landed: {colorway}", money(4))),))
    steps = Table("more", "More", ref="L", key="pieces", columns=(
        designer("pieces", "Pieces", number(0)), per("colorway", designer("step", "To {colorway}", money(4)), skip_first=True),
    ))  # fmt: skip
    gone, kept = chart("more.step.all", categories="more.pieces"), chart("landed_in.all")
    made = expand(book(form, steps, gone, kept), {"colorway": ("Indigo",)})
    assert [part.series for part in made.sheet("pricing").parts if isinstance(part, Chart)] == [("landed_in_c1",)]


def test_all_after_what_is_no_family():
    with pytest.raises(DeclarationError) as caught:
        expand(book(chart("freight.all")), TWO)
    assert str(caught.value) == "pricing, chart 'Money': 'freight' is no family of entries"
