"""The list of long tests names tests that are there, and no more than it says."""

from pathlib import Path

import pytest

from tests.scheduling import LONG, is_long

ROOT = Path(__file__).parents[1]


@pytest.mark.parametrize("name", LONG)
def test_a_long_test_is_there(name):
    path, _, test = name.partition("::")
    assert f"def {test or 'test_'}" in (ROOT / path).read_text("utf-8")


def test_its_examples_are_long_too_and_others_are_not():
    assert is_long("tests/jobs/test_demo.py::test_any")
    assert is_long("tests/test_killed.py::test_a_command_writes_all_its_files_in_one_step[build]")
    assert not is_long("tests/test_killed.py::test_a_command_writes_all_its_files_in_one_step_more")
