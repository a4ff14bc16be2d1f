"""Several files to one command: the same as one by one, and one that fails stops none."""

from __future__ import annotations

import gc
import io
import pickle
import subprocess
import sys
import weakref
from pathlib import Path
from shutil import copytree

import pytest
from rich.console import Console

from sheetgen import api
from sheetgen.cli import main
from sheetgen.commands.many import spread
from sheetgen.declare.entry import Place
from sheetgen.report.machine import as_json
from sheetgen.report.page import html_page
from sheetgen.report.terminal import print_audit, print_summary
from tests.loop import fresh_loop

GARMENTS = ("t-shirt", "skirt", "vest")


@pytest.fixture(scope="module")
def started(tmp_path_factory):
    folder = tmp_path_factory.mktemp("started")
    for word in GARMENTS:
        values = {**api.start(word).values, Place("style.number"): f"AB-{word}"}
        (folder / f"{word}.xlsx").write_bytes(api.from_values(values).data)
    return folder


@pytest.fixture
def folder(started, tmp_path):
    return copytree(started, tmp_path / "styles")


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_each_file_is_what_it_would_be_alone(folder, capsys, jobs):
    alone = {}
    for word in GARMENTS:
        assert main(["build", str(folder / f"{word}.xlsx"), "--out", str(folder / "one.xlsx"), "--replace"]) == 0
        alone[word] = (folder / "one.xlsx").read_bytes()
    (folder / "one.xlsx").unlink()
    capsys.readouterr()
    assert main(["build", *(str(folder / f"{word}.xlsx") for word in GARMENTS), "--jobs", jobs]) == 0
    said = capsys.readouterr().out
    assert [said.index(f"{number} of 3: ") for number in (1, 2, 3)] == sorted(
        said.index(f"{number} of 3: ") for number in (1, 2, 3)
    )
    for word in GARMENTS:
        assert (folder / f"AB-{word}-working.xlsx").read_bytes() == alone[word]


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_one_that_fails_stops_none_and_sets_the_exit_status(folder, capsys, jobs):
    (folder / "skirt.xlsx").write_text("no workbook")
    assert main(["pack", str(folder / "*.xlsx"), "--jobs", jobs]) == 3
    told = capsys.readouterr()
    assert "skirt.xlsx: is not a workbook" in told.err
    assert {path.name for path in folder.glob("*.pdf")} == {"t-shirt-pack.pdf", "vest-pack.pdf"}


def test_what_goes_with_one_file_alone_is_refused(folder, capsys):
    files = [str(folder / f"{word}.xlsx") for word in GARMENTS]
    assert main(["build", *files, "--out", str(folder / "x.xlsx")]) == 2
    assert "--out and --json go with one file" in capsys.readouterr().err
    assert main(["pack", str(folder / "none-*.xlsx")]) == 2
    assert "no file is called so" in capsys.readouterr().err


def test_a_folder_stands_for_the_newest_workbook_of_each_style(folder, capsys):
    """Folders below it too; what is no working workbook is passed over, and so is an older revision."""
    (folder / "below").mkdir()
    (folder / "vest.xlsx").rename(folder / "below" / "vest.xlsx")
    skirt = {**api.start("skirt").values, Place("style.number"): "AB-skirt", Place("style.revision"): 2}
    (folder / "skirt-rev2.xlsx").write_bytes(api.from_values(skirt).data)
    (folder / "notes.xlsx").write_text("no workbook")
    assert main(["pack", str(folder)]) == 0
    assert {str(path.relative_to(folder)) for path in folder.rglob("*.pdf")} == {
        "t-shirt-pack.pdf", "skirt-rev2-pack.pdf", "below/vest-pack.pdf",
    }  # fmt: skip
    assert "3 of 3: " in capsys.readouterr().out
    empty = folder / "empty"
    empty.mkdir()
    assert main(["pack", str(empty)]) == 3
    assert "no working workbook lies in it" in capsys.readouterr().err


def test_all_answers_of_a_folder_are_accepted_as_each_would_be_alone(tmp_path, capsys):
    alone, folder = fresh_loop(tmp_path / "alone", "sweatshirt"), tmp_path / "season"
    for style in ("overshirt", "sweatshirt"):
        fresh_loop(folder / style, style)
    (fresh_loop(folder / "waiting", "jacket") / "a-returned.xlsx").unlink()
    main(["accept", str(alone / "a-working.xlsx"), str(alone / "a-returned.xlsx"), "--by", "Ines"])
    capsys.readouterr()
    assert main(["accept", str(folder), "--by", "Ines", "--jobs", "2"]) == 0
    assert "2 of 2: " in capsys.readouterr().out
    assert (folder / "sweatshirt" / "a-rev2.xlsx").read_bytes() == (alone / "a-rev2.xlsx").read_bytes()
    assert sorted(path.parent.name for path in folder.rglob("*-rev2.xlsx")) == ["overshirt", "sweatshirt"]
    assert main(["accept", str(folder)]) == 2
    assert "no answer to the last copy" in capsys.readouterr().err
    assert main(["accept", str(folder), "--out", "x.xlsx"]) == 2
    assert main(["accept", str(folder / "sweatshirt" / "a-working.xlsx")]) == 2
    assert "name the return too" in capsys.readouterr().err


@pytest.fixture
def returns(tmp_path):
    """Three returns beside their receipts, and a file that is none."""
    for style in ("overshirt", "sweatshirt", "jacket"):
        fresh_loop(tmp_path / style, style)
    (tmp_path / "sweatshirt" / "b-returned.xlsx").write_text("no workbook")
    return tmp_path


@pytest.mark.parametrize("words", [(), ("--json-lines",)])
def test_several_audits_say_the_same_whether_one_after_the_other_or_at_a_time(returns, capsys, words):
    said = []
    for jobs in ("1", "2"):
        assert (
            main(["audit", str(returns), str(returns / "sweatshirt" / "b-returned.xlsx"), *words, "--jobs", jobs]) == 3
        )
        said.append(capsys.readouterr())
    assert said[0] == said[1]
    alone = returns / "jacket" / "a-returned.xlsx"
    main(["audit", str(alone), *words])
    one = capsys.readouterr().out
    told = one.split("\n") if words else one.split("accounted for")[0].split("\n")[1:]
    assert all(line in said[0].out for line in told)


def test_of_many_audits_nothing_is_kept_that_no_report_says(returns):
    """A file is some thirty megabytes in memory: a season's would not fit."""
    whole = api.audit(returns / "jacket" / "a-returned.xlsx")
    kept = whole.without_cells()
    assert len(pickle.dumps(kept)) < 300_000 < len(pickle.dumps(whole.got.loaded))
    assert html_page([kept], title="A") == html_page([whole], title="A")
    assert as_json([kept]) == as_json([whole])
    screens = [Console(file=io.StringIO(), width=100) for _ in range(2)]
    for screen, one in zip(screens, (kept, whole), strict=True):
        print_audit(screen, one, next_step="")
        print_summary(screen, [one])
    assert screens[0].file.getvalue() == screens[1].file.getvalue()


def test_sheets_that_are_put_away_are_named_without_the_cells_too(returns):
    working = next((returns / "overshirt").glob("*-working.xlsx"))
    whole = api.audit(working, None, "bulk")
    screens = [Console(file=io.StringIO(), width=100) for _ in range(2)]
    for screen, one in zip(screens, (whole.without_cells(), whole), strict=True):
        print_audit(screen, one, next_step="")
    assert screens[0].file.getvalue() == screens[1].file.getvalue()


def test_what_one_workbook_left_is_gone_before_the_next(monkeypatch):
    """Objects that refer to each other stay until somebody looks for them, and looking is rare while a command runs."""

    class Ring:
        def __init__(self) -> None:
            self.itself = self

    there = []

    def work(_: int) -> int:
        there.append(weakref.ref(Ring()))
        return sum(one() is not None for one in there)

    gc.disable()
    try:
        assert list(spread(work, [1, 2, 3], 1)) == [1, 1, 1]
    finally:
        gc.enable()


def test_documents_that_were_set_before_are_let_go(tmp_path):
    """Each left fifty megabytes, up to half a gigabyte."""
    fresh_loop(tmp_path, "sweatshirt")
    script = """
import dataclasses, json, sys
from pathlib import Path
from sheetgen.jobs.packs import content_for
from sheetgen.pack.typeset import typeset
from sheetgen import api

content = content_for(api.read(Path(sys.argv[1])), None, ())[0]
said = json.dumps(content.document, ensure_ascii=False)
for number in range(6):
    typeset(dataclasses.replace(content, document=json.loads(said.replace("Slack Tide", f"Style {number}"))))
    print(int(Path("/proc/self/statm").read_text().split()[1]) * 4 // 1024)
"""
    if not Path("/proc/self/statm").exists():
        pytest.skip("only this system says how much memory a program has")
    words = [sys.executable, "-c", script, str(tmp_path / "a-working.xlsx")]
    said = subprocess.run(words, capture_output=True, text=True, check=True).stdout.split()
    megabytes = [int(one) for one in said]
    assert max(megabytes[2:]) - megabytes[1] < 60, megabytes
