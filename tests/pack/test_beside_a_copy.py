"""The pages that go out with a copy: the copy's own figures, their digest in its receipt."""

from __future__ import annotations

import json
from hashlib import sha256

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import place_of
from sheetgen.jobs.packs import pack_of
from tests.loop import fresh_loop


def test_issue_writes_the_pages_that_pack_would_make_of_the_copy(tmp_path, capsys):
    fresh_loop(tmp_path)
    copy = tmp_path / "sent.xlsx"
    assert main(["issue", str(tmp_path / "a-working.xlsx"), "--out", str(copy)]) == 0
    pages = (tmp_path / "sent-pack.pdf").read_bytes()
    assert pages == pack_of(api.read(copy)).data
    receipt = json.loads((tmp_path / "sent.receipt.json").read_text("utf-8"))
    assert receipt["pack"] == sha256(pages).hexdigest()
    assert "on paper" in capsys.readouterr().out
    assert main(["audit", str(copy)]) == 1
    assert "record-altered" not in capsys.readouterr().out, "the copy's own record does not know the pages"


@pytest.mark.long
def test_what_no_font_can_set_is_said(tmp_path, capsys):
    made = api.from_values(
        {**api.build(fresh_loop(tmp_path) / "a-working.xlsx").values, place_of("style.name"): "Overshirt 外套"}
    )
    (tmp_path / "w.xlsx").write_bytes(made.data)
    assert main(["issue", str(tmp_path / "w.xlsx"), "--out", str(tmp_path / "sent.xlsx"), "--anyway", "the name"]) == 0
    assert "No font at hand has 外 套" in " ".join(capsys.readouterr().out.split())


def test_without_if_asked(tmp_path):
    fresh_loop(tmp_path)
    assert main(["issue", str(tmp_path / "a-working.xlsx"), "--out", str(tmp_path / "sent.xlsx"), "--no-pack"]) == 0
    assert not list(tmp_path.glob("*.pdf"))
    assert "pack" not in json.loads((tmp_path / "sent.receipt.json").read_text("utf-8"))
