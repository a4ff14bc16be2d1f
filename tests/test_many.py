"""Several files to one command: the same as one by one, and one that fails stops none."""

from __future__ import annotations

from shutil import copytree

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place

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
