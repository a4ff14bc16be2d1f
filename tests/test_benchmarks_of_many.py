"""The benchmarks of many files and of a style at the limits: how they count, and that every command goes through."""

import sys
import tomllib
import zipfile

import pytest
import xlsxwriter

from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.model.values import shape_of
from tests.benchmarks.figures import Figure, Measured
from tests.benchmarks.measuring import AT_LIMITS, MANY, MANY_OF, at_the_limits, many_name
from tests.benchmarks.stage import ROOT, Stage
from tests.benchmarks.styles import renumbered
from tests.benchmarks.tables import PAGE, put, tables, taken
from tests.benchmarks.timing import Program

SAMPLES = ROOT / "sample_inputs"


def test_a_file_that_nobody_read_has_other_bytes_each_time_and_says_the_same(tmp_path):
    path = tmp_path / "a.xlsx"
    book = xlsxwriter.Workbook(path)
    book.add_worksheet("A").write(0, 0, "words")
    book.close()
    script = "import hashlib, pathlib; print(hashlib.sha256(pathlib.Path('a.xlsx').read_bytes()).hexdigest(), file=open('seen', 'a'))"
    program = Program((sys.executable, "-c", script), tmp_path, anew=("a.xlsx",))
    parts = zipfile.ZipFile(path).read("xl/sharedStrings.xml")
    for _ in range(11):
        assert program.run().megabytes > 1
    assert len(set((tmp_path / "seen").read_text().split())) == 11
    assert zipfile.ZipFile(path).read("xl/sharedStrings.xml") == parts


def test_one_of_many_is_held_against_one_alone():
    figures = {}
    for count in MANY:
        for command in MANY_OF:
            figures[many_name(command, "alone", count)] = Figure(2.0)
            figures[many_name(command, "", count)] = Figure(1.0 * count)
            figures[many_name(command, "memory", count)] = Figure(100.0 + count, "MB")
    page = put(PAGE.read_text("utf-8"), tables(Measured(figures, "m", "r")))
    assert taken(page, "many")[0] == [
        "build",
        "2.00 s",
        *("1.00 s" for _ in MANY),
        "0.50",
        "1.00",
        *(f"{100 + count} MB" for count in MANY),
    ]


def test_styles_of_a_season_differ_and_are_whole():
    brief = tomllib.loads((SAMPLES / "sweatshirt" / "brief.toml").read_text("utf-8"))
    made = [values_of(BOOK, renumbered(brief, number), SAMPLES / "sweatshirt" / "brief.toml") for number in (1, 2)]
    numbers, names = ([str(values[Place(at)]) for values in made] for at in ("style.number", "style.name"))
    assert len(set(numbers)) == len(set(names)) == 2
    one, other = (shape_of(BOOK, values).axes for values in made)
    assert one != other
    assert [len(values) for values in made] == [len(values_of(BOOK, brief, SAMPLES / "sweatshirt" / "brief.toml"))] * 2


@pytest.mark.story
def test_a_style_at_the_limits_goes_through_every_command(tmp_path):
    """500 materials, 200 points, 30 sizes, 20 colorways: what no season has, and nothing may break on."""
    stage = Stage(ROOT, tmp_path / "stage")
    stage.prepare()
    figures = dict(at_the_limits(stage, lambda _: None))
    assert {name for name in figures if "memory" not in name} == {f"limits, {command}" for command in AT_LIMITS}
    assert max(one.amount for one in figures.values() if one.unit == "MB") < 3_000
