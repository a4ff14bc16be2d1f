"""The benchmarks' own tools: what they record, count, fit, compare and write."""

import io
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.model.values import refs, shape_of
from tests.benchmarks import measuring
from tests.benchmarks.figures import Figure, Measured, compared, load, save, worse
from tests.benchmarks.measuring import growth_name, least_size
from tests.benchmarks.recording import Recorder
from tests.benchmarks.run import chosen, named
from tests.benchmarks.stage import ROOT, Stage
from tests.benchmarks.styles import grown, put_style, toml
from tests.benchmarks.tables import PAGE, put, table, tables, taken
from tests.benchmarks.timing import Cost, Program, exponent, in_turns, not_counted

SAMPLES = ROOT / "sample_inputs"


def test_the_bare_script_writes_the_bytes_that_the_build_writes(tmp_path):
    stage = Stage(ROOT, tmp_path)
    (tmp_path / "bare").mkdir()
    brief = str(SAMPLES / "sweatshirt" / "brief.toml")
    stage.script("recording.py", "build", "build", brief, "--out", "built.xlsx").run()
    bare = (sys.executable, "-I", str(ROOT / "tests/benchmarks/bare.py"), "write=build.calls::bare")
    Program(bare, tmp_path).run()
    assert (tmp_path / "bare" / "0.xlsx").read_bytes() == (tmp_path / "built.xlsx").read_bytes()


def test_a_shortcut_that_the_bare_script_lacks_is_refused():
    class Quick(Worksheet):
        def _write_formula(self, *_):
            return 0

        def write_number(self, *_):
            return 0

    recorder = Recorder()
    with pytest.raises(RuntimeError, match=r"changes \['_write_formula', 'write_number'\]"):
        recorder.record(lambda: xlsxwriter.Workbook(io.BytesIO()).add_worksheet("A", Quick))


def test_only_outermost_calls_are_recorded_with_the_things_that_they_made():
    def work():
        book = xlsxwriter.Workbook(io.BytesIO(), {"in_memory": True})
        bold = book.add_format({"bold": True})
        sheet = book.add_worksheet("A")
        sheet.write(0, 0, 5, bold)  # calls write_number itself
        book.close()

    recorder = Recorder()
    recorder.record(work)
    assert recorder.books == [
        (
            {"in_memory": True},
            [
                (0, "add_format", True, ({"bold": True},), {}, True),
                (0, "add_worksheet", True, ("A",), {}, True),
                (2, "write", False, (0, 0, 5, ("made", 1)), {}, False),
                (0, "close", True, (), {}, False),
            ],
        )
    ]


@pytest.mark.parametrize(
    ("counts", "seconds", "power"),
    [((1, 10, 100), (2, 20, 200), 1.0), ((2, 4, 8), (5, 20, 80), 2.0), ((6, 30), (7, 7), 0.0), ((1, 4), (3, 6), 0.5)],
)
def test_the_exponent_of_a_power_law_is_found(counts, seconds, power):
    assert exponent(counts, seconds) == pytest.approx(power)


def test_the_exponent_is_that_of_the_best_line_where_the_points_lie_on_none():
    # logarithms by base 10: (0, 0), (1, 1), (2, 0): the level line through 1/3 fits best
    assert exponent((1, 10, 100), (1, 10, 1)) == pytest.approx(0.0)


BURNS = "import time\nwhile time.process_time() < 0.3: pass"
STARTS = f"import subprocess, sys; subprocess.run([sys.executable, '-c', {BURNS!r}], check=True)"


def test_processor_seconds_count_what_a_program_starts():
    assert Program((sys.executable, "-c", STARTS), Path.cwd()).run().processor >= 0.3


def test_what_a_bare_script_spends_on_its_recording_is_taken_off():
    said = 'any words\nnot counted: {"processor": 0.25, "wall": 0.5}\n'
    assert not_counted(said) == Cost(0.25, 0.5)
    assert not_counted("any words\n") == Cost(0, 0)
    spends = Program((sys.executable, "-c", f"{BURNS}\nprint({said!r})"), Path.cwd())
    assert 0.05 <= spends.run().processor < 0.3


def test_a_program_that_fails_is_no_measurement():
    program = Program((sys.executable, "-c", "print('no such brief'); raise SystemExit(2)"), Path.cwd())
    with pytest.raises(RuntimeError, match="ended with 2\nno such brief"):
        program.run()


def test_each_has_one_turn_in_a_round_and_one_before(tmp_path):
    def noting(word):
        return Program((sys.executable, "-c", f"open('turns', 'a').write({word!r})"), tmp_path)

    both = {"ours": noting("o"), "peer": noting("p")}
    assert list(in_turns(both, 2)) == ["ours", "peer"]
    assert (tmp_path / "turns").read_text() == "opopop"
    in_turns(both, 1, warm=True)
    assert (tmp_path / "turns").read_text() == "opopopop"


def measured(**amounts):
    return Measured({name: Figure(*held) for name, held in amounts.items()}, "a machine", "1 round")


@pytest.mark.parametrize(("now", "marked"), [(1.0, False), (1.09, False), (1.12, True), (0.5, False)])
def test_a_figure_that_is_more_than_a_tenth_worse_is_noticed(now, marked):
    then = measured(build=(1.0, "s"))
    assert worse(measured(build=(now, "s")), then) == (["build"] if marked else [])
    assert ("WORSE by 12%" in compared(measured(build=(now, "s")), then)[0]) == marked


def test_seconds_are_compared_as_if_the_machine_had_the_same_pace():
    then = Measured({"build": Figure(2.0, pace=0.2), "file": Figure(100, "KB", pace=0.2)}, "", "")
    slow = Measured({"build": Figure(4.2, pace=0.4), "file": Figure(105, "KB", pace=0.4)}, "", "")
    assert worse(slow, then) == []
    worse_file = Measured({"build": Figure(4.6, pace=0.4), "file": Figure(112, "KB", pace=0.4)}, "", "")
    assert worse(worse_file, then) == ["build", "file"]


def test_what_was_measured_is_kept_and_found_again(tmp_path):
    figure = Figure(1.5, "s", 2.5, {"xlsxwriter": 0.5, "another": 0.25}, 1.25, "2026-11-20", "abc1234", 0.3)
    whole = Measured({"build": figure, "receipt": Figure(74.0, "KB")}, "two cores", "7 rounds", "def5678", 61.5)
    save(whole, tmp_path / "kept.json")
    assert load(tmp_path / "kept.json") == whole
    assert load(tmp_path / "none.json") is None
    assert figure.least == ("another", 0.25)
    assert figure.ratio == 6.0


def test_figures_that_a_run_leaves_out_stay_with_their_day():
    last = Measured(
        {"build": Figure(1.0, commit="a"), "demo": Figure(60.0, commit="a"), "x": Figure(1.0)}, "", "7", "o", 9
    )
    now = Measured({"demo": Figure(50.0, commit="b")}, "", "3", "", 1).with_last(last)
    assert {name: figure.commit for name, figure in now.figures.items()} == {"demo": "b", "build": "a", "x": ""}
    assert (now.rounds, now.took, now.other) == ("7", 9, "o")


def test_two_other_checkouts_do_not_mix():
    last = Measured({"build": Figure(1.0, before=2.0), "help": Figure(1.0)}, "", "7", "old")
    again = Measured({"help": Figure(0.5, before=0.6)}, "", "3", "older").with_last(last)
    assert [again.figures[name].before for name in ("help", "build")] == [0.6, None]
    assert again.other == "older"


def test_a_table_is_put_between_its_markers_and_read_back():
    page = "Words.\n<!-- a -->\nold\n<!-- /a -->\nbetween\n<!-- b -->\n<!-- /b -->\nend\n"
    rows = [["build", "1.50 s"], ["a \\1 group", ""]]
    written = put(page, {"a": table(("what", "takes"), rows), "b": ""})
    assert taken(written, "a") == rows
    assert taken(written, "b") == []
    assert written.startswith("Words.\n<!-- a -->\n| what | takes |\n| --- | --- |\n| build | 1.50 s |\n")
    assert written.endswith("<!-- /a -->\nbetween\n<!-- b -->\n<!-- /b -->\nend\n")
    assert put(written, {"a": "old", "b": ""}) == page
    with pytest.raises(KeyError, match="no place for the table c"):
        put(page, {"c": "x"})


def test_the_page_has_a_place_for_each_table_and_shows_what_was_measured():
    grows = {growth_name("build", count, "materials"): Figure(count / 10) for count in (16, 100, 500)}
    build = Figure(3.0, "s", 4.0, {"bare": 1.5}, 6.0)
    whole = Measured({"build": build, **grows, "receipt": Figure(50.0, "KB", None, {"tight": 40.0})}, "m", "r", "abc")
    page = put(PAGE.read_text("utf-8"), tables(whole))
    assert taken(page, "commands")[0][2:] == ["3.00 s", "4.00 s", "bare", "1.50 s", "2.0"]
    assert taken(page, "growth") == [["build", "1.60 s", "10.0 s", "50.0 s", "1.00", "100 ms", "100 ms"]]
    assert taken(page, "sizes") == [["receipt", "50.0 KB", "tight", "40.0 KB", "1.25"]]
    assert taken(page, "before") == [["build", "6.00 s", "3.00 s", "0.50"]]


@pytest.fixture(scope="module")
def sample():
    folder = SAMPLES / "sweatshirt"
    return [tomllib.loads((folder / name).read_text("utf-8")) for name in ("brief.toml", "answers-clean.toml")]


@pytest.mark.parametrize(
    ("axis", "count", "grows"),
    [
        ("materials", 100, (100, 20, 6, 3)),
        ("points", 200, (15, 200, 6, 3)),
        ("sizes", 30, (15, 20, 30, 3)),
        ("colorways", 20, (15, 20, 6, 20)),
        ("colorways", 2, (15, 20, 6, 2)),
    ],
)
def test_a_style_grows_in_one_thing_and_its_answers_with_it(sample, tmp_path, axis, count, grows):
    brief, answers = grown(*sample, axis, count)
    path = put_style(SAMPLES, "sweatshirt", brief, tmp_path)
    assert tomllib.loads(path.read_text("utf-8")) == brief
    values = values_of(BOOK, brief, path)
    axes = dict(shape_of(BOOK, values).axes)
    rows = [len(refs(table, values)) for table in ("materials.bom", "measurements.points")]
    assert (*rows, len(axes["size"]), len(axes["colorway"])) == grows
    # An answer for a row, a size or a colorway that there is not would be refused.
    given = values_of(BOOK, tomllib.loads(toml(answers)), path, values)
    assert Place("materials.bom.price", f"M{grows[0]}") in given


def test_a_part_is_chosen_by_its_name_or_its_first_word():
    assert named("audit, help") == {"audit clean", "audit faulty", "audit again", "help"}
    assert chosen("", "demo,install") == chosen("", "") - {"demo", "install"}
    assert named("growth") == {f"growth {axis}" for axis in ("materials", "points", "sizes", "colorways")}
    with pytest.raises(SystemExit, match="biuld: is no part; there are build, "):
        named("biuld")


def test_theleast_size_is_that_of_the_same_content(tmp_path):
    loose = tmp_path / "loose.xlsx"
    with zipfile.ZipFile(loose, "w", zipfile.ZIP_STORED) as target:
        target.writestr("part", "a" * 10_000)
    assert least_size(loose) < 300
    (tmp_path / "receipt.json").write_text('{\n "a": [1, 2]\n}\n', "utf-8")
    assert least_size(tmp_path / "receipt.json") == len('{"a":[1,2]}')


def test_the_installation_is_asked_of_its_own_script(tmp_path, monkeypatch):
    script = tmp_path / "install.py"
    monkeypatch.setattr(measuring, "INSTALL", script)
    assert measuring.installed() == {}
    told = {"seconds": 31.5, "megabytes": 129, "packages": {"small": 0.5, "big": 24.0, "bigger": 36}}
    script.write_text(f"import json, sys\nassert sys.argv[1:] == ['--json']\nprint(json.dumps({told!r}))\n", "utf-8")
    assert [(name, figure.amount, figure.unit) for name, figure in measuring.installed().items()] == [
        ("install", 31.5, "s wall"),
        ("install size", 129.0, "MB"),
        ("install bigger", 36.0, "MB"),
        ("install big", 24.0, "MB"),
    ]


def test_the_help_of_the_script_names_its_options():
    said = subprocess.run(
        [sys.executable, str(ROOT / "tests/benchmarks/run.py"), "--help"], capture_output=True, text=True, check=True
    ).stdout
    assert all(option in said for option in ("--write", "--only", "--quick", "--checkout", "--profile"))
