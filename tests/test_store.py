"""The store: what it keeps it gives back, and whatever is wrong with it costs time alone."""

import itertools
import os
import subprocess
import sys

import pytest

from sheetgen import store

MADE = b"made"


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv(store.SETTING, str(tmp_path / "kept"))
    return tmp_path / "kept"


def kept_in(folder):
    return [path for path in folder.iterdir() if path.name != "secret"]


def times_made(kind: str = "kind", said: bytes = b"said") -> int:
    """How often it had to be made when it was asked for once."""
    made = []

    def make() -> bytes:
        made.append(said)
        return MADE

    assert store.kept(kind, said, make) == MADE
    return len(made)


def test_the_second_time_it_is_there(folder):
    assert [times_made(), times_made(), times_made("other kind"), times_made(said=b"other")] == [1, 0, 1, 1]
    assert len(kept_in(folder)) == 3
    if os.name == "posix":
        assert folder.stat().st_mode & 0o77 == 0, "nobody else may look into it"


@pytest.mark.parametrize("spoilt", [b"", b"x", b"x" * 100, MADE])
def test_what_was_damaged_or_half_written_is_made_again(folder, spoilt):
    times_made()
    for path in folder.iterdir():
        path.write_bytes(spoilt)
    assert [times_made(), times_made()] == [1, 0]


def test_what_was_kept_under_another_name_is_not_taken_for_this(folder):
    store.kept("kind", b"foreign", lambda: b"something else")
    (foreign,) = kept_in(folder)
    times_made()
    (mine,) = set(kept_in(folder)) - {foreign}
    mine.write_bytes(foreign.read_bytes())
    assert times_made() == 1


def test_what_another_user_kept_and_what_was_put_there_is_not_taken(folder, tmp_path, monkeypatch):
    times_made()
    (mine,) = kept_in(folder)
    theirs = tmp_path / "theirs"
    monkeypatch.setenv(store.SETTING, str(theirs))
    times_made(said=b"other")
    (theirs / mine.name).write_bytes(mine.read_bytes())
    assert [times_made(), times_made()] == [1, 0], "sealed with the secret of another folder"
    (theirs / mine.name).write_bytes(bytes(32) + b"forged")
    assert times_made() == 1


def test_without_its_secret_all_is_made_again(folder):
    times_made()
    store._secret.cache_clear()
    (folder / "secret").unlink()
    assert [times_made(), times_made()] == [1, 0]
    store._secret.cache_clear()
    assert times_made() == 0, "the new secret was kept"


def test_another_version_keeps_its_own(folder, monkeypatch):
    times_made()
    monkeypatch.setattr(store, "_version", lambda: b"a later one")
    assert times_made() == 1


def test_it_can_be_done_without(folder, monkeypatch):
    monkeypatch.setenv(store.SETTING, "off")
    assert [times_made(), times_made()] == [1, 1]
    assert not folder.exists()


def test_a_folder_that_cannot_be_made_or_is_somebody_elses(tmp_path, monkeypatch):
    (tmp_path / "file").write_text("")
    monkeypatch.setenv(store.SETTING, str(tmp_path / "file"))
    assert [times_made(), times_made()] == [1, 1]
    monkeypatch.setenv(store.SETTING, str(tmp_path / "file" / "below"))
    assert [times_made(), times_made()] == [1, 1]
    if hasattr(os, "getuid"):
        monkeypatch.setenv(store.SETTING, str(tmp_path / "theirs"))
        monkeypatch.setattr(store.os, "getuid", lambda: 12345)
        assert [times_made(), times_made()] == [1, 1]


def test_a_user_who_has_no_home_goes_without(monkeypatch):
    def homeless() -> None:
        raise RuntimeError("Could not determine home directory.")

    monkeypatch.delenv(store.SETTING)
    monkeypatch.setattr(store, "_usual_folder", homeless)
    assert [times_made(), times_made()] == [1, 1]


def test_what_was_not_asked_for_longest_goes(folder, monkeypatch):
    monkeypatch.setattr(store, "MOST_FILES", 4)
    monkeypatch.setattr(store, "TIDIED_EVERY", 1)
    for number in range(4):
        times_made(said=str(number).encode())
    for number, path in enumerate(sorted(folder.iterdir(), key=lambda one: one.stat().st_mtime_ns)):
        os.utime(path, (number, number))
    times_made(said=b"0")  # asked for again
    times_made(said=b"4")
    assert len(kept_in(folder)) == 2
    assert [times_made(said=b"0"), times_made(said=b"4"), times_made(said=b"1")] == [0, 0, 1]


def test_a_build_is_the_same_byte_for_byte_with_it_and_without(tmp_path):
    made = []
    for setting in ("off", str(tmp_path / "kept"), str(tmp_path / "kept")):
        out = tmp_path / f"{len(made)}.xlsx"
        command = [sys.executable, "-m", "sheetgen", "build", "sample_inputs/overshirt/brief.toml", "--out", str(out)]
        subprocess.run(command, check=True, capture_output=True, env={**os.environ, store.SETTING: setting})
        made.append(out.read_bytes())
    assert made[0] == made[1] == made[2]


def test_what_is_told_of_a_file_is_told_once_for_the_same_bytes(folder, tmp_path):
    path, asked = tmp_path / "a.txt", []

    def tell(one):
        asked.append(one)
        return {"said": one.read_text(), "list": [1, 2.5, None]}

    path.write_text("first")
    for _ in range(2):
        assert store.told("words", path, tell) == {"said": "first", "list": [1, 2.5, None]}
    assert len(asked) == 1
    path.write_text("other")
    assert store.told("words", path, tell)["said"] == "other"
    path.write_text("first")
    assert store.told("words", path, tell)["said"] == "first"
    assert store.told("other words", path, tell)["said"] == "first"
    assert len(asked) == 3


def test_of_a_file_of_which_there_is_nothing_to_say_nothing_is_kept(folder, tmp_path, monkeypatch):
    path = tmp_path / "a.txt"
    assert store.told("words", path, lambda _: {}) == {}
    path.write_text("large")
    assert store.told("words", path, lambda _: {}) == {}
    monkeypatch.setattr(store, "MOST_BYTES_OF_A_FILE", 3)
    assert store.told("words", path, lambda _: {"a": 1}) == {"a": 1}
    assert not folder.exists() or kept_in(folder) == []


def test_a_run_looks_through_the_folder_for_its_first_thing_and_seldom_after(folder, monkeypatch):
    looked = []
    monkeypatch.setattr(store, "_tidy", looked.append)
    monkeypatch.setattr(store, "_writes", itertools.count())
    for number in range(store.TIDIED_EVERY + 1):
        times_made(said=str(number).encode())
    assert looked == [folder, folder]
