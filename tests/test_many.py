"""Several files to one command: the same as one by one, and one that fails stops none."""

from __future__ import annotations

from shutil import copytree

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place
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
