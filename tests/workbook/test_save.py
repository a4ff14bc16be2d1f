"""Saving under names and paths as people have them; what only Windows does is played by the errors that it gives."""

from __future__ import annotations

import errno
import tempfile
from pathlib import Path

import pytest

from sheetgen.errors import UserError
from sheetgen.workbook.write.names import file_stem
from sheetgen.workbook.write.save import save


def refusal(path: Path, **options: bool) -> str:
    with pytest.raises(UserError) as caught:
        save(b"new", path, **options)
    return str(caught.value)


# Microsoft, "Naming Files, Paths, and Namespaces": device names are reserved with any ending, in any case.
@pytest.mark.parametrize(
    "name", ["con.xlsx", "PRN.xlsx", "Aux.tar.xlsx", "nul", "COM1.xlsx", "lpt9.xlsx", "com¹.xlsx", "CON .xlsx"]
)
def test_a_device_of_windows_is_no_name_of_a_file(tmp_path, name):
    assert "for a device; choose another name." in refusal(tmp_path / name)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["console.xlsx", "com10.xlsx", "com0.xlsx", "lpt.xlsx", "a.con.xlsx", "nulled.xlsx"])
def test_a_name_that_only_begins_like_a_device_is_taken(tmp_path, name):
    save(b"new", tmp_path / name)
    assert (tmp_path / name).read_bytes() == b"new"


# By the same source: < > : " / \ | ? * and control characters, and no space or dot at the end.
@pytest.mark.parametrize("name", ["a<b.xlsx", "a:b.xlsx", 'a"b.xlsx', "what?.xlsx", "a*.xlsx", "a|b.xlsx", "a\tb.xlsx"])
def test_signs_that_windows_refuses_are_refused_everywhere(tmp_path, name):
    assert "which Windows does not take" in refusal(tmp_path / name)


@pytest.mark.parametrize("name", ["a.xlsx.", "a.xlsx "])
def test_an_ending_that_windows_takes_away_is_refused(tmp_path, name):
    assert "which Windows takes away" in refusal(tmp_path / name)


def test_a_name_too_long_is_said_without_its_three_hundred_letters(tmp_path):
    said = refusal(tmp_path / ("a" * 300 + ".xlsx"))
    assert said.endswith("the name is too long; choose a shorter one.") and len(said) < 120
    save(b"new", tmp_path / ("a" * 250 + ".xlsx"))  # 255 bytes: the most that the file system takes


def test_a_path_too_long_is_one_sentence(tmp_path, monkeypatch):
    def too_long(**_: object) -> tuple[int, str]:
        error = OSError(errno.ENOENT, "The filename or extension is too long")
        error.winerror = 206  # so Windows refuses a path over 260 characters
        raise error

    monkeypatch.setattr(tempfile, "mkstemp", too_long)
    assert refusal(tmp_path / "a.xlsx").endswith(
        "the path is too long; choose a shorter name or a folder nearer to the top."
    )


@pytest.mark.parametrize("winerror", [None, 32, 33, 5])
def test_a_file_that_a_program_holds_open_stays_as_it_was(tmp_path, monkeypatch, winerror):
    path = tmp_path / "a.xlsx"
    path.write_bytes(b"old")

    def held(*_: object) -> None:
        error = PermissionError(errno.EACCES, "The process cannot access the file")
        error.winerror = winerror
        raise error

    monkeypatch.setattr(Path, "replace", held)
    assert "another program holds it open" in refusal(path, replace=True)
    assert path.read_bytes() == b"old" and [one.name for one in tmp_path.iterdir()] == ["a.xlsx"]


@pytest.mark.parametrize("lock", [".~lock.a.xlsx#", "~$a.xlsx"])
def test_a_file_that_a_spreadsheet_program_has_locked_is_not_replaced(tmp_path, lock):
    (tmp_path / "a.xlsx").write_bytes(b"old")
    (tmp_path / lock).write_text("someone")
    assert f"delete {lock} if it is not" in refusal(tmp_path / "a.xlsx", replace=True)


@pytest.mark.parametrize(("number", "stem"), [
    ("HV-27A-OS-014", "HV-27A-OS-014"), ("A/B 1", "A-B-1"), ("", "style"), ("nul", "style-nul"), ("Aux", "style-Aux"), ("NUL.1", "NUL-1"),
    ("x" * 400, "x" * 42),
])  # fmt: skip
def test_a_style_number_makes_a_name_that_every_system_takes(tmp_path, number, stem):
    assert file_stem(number) == stem
    save(b"new", tmp_path / f"{file_stem(number)}-working.xlsx")
