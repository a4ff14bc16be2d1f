"""The list of slow tests names tests that are there, and no more than it says."""

from pathlib import Path

import pytest

from tests.scheduling import SLOW, is_slow

ROOT = Path(__file__).parents[1]


@pytest.mark.parametrize("name", SLOW)
def test_a_slow_test_is_there(name):
    path, _, test = name.partition("::")
    assert f"def {test or 'test_'}" in (ROOT / path).read_text("utf-8")


def test_its_examples_are_slow_too_and_others_are_not():
    assert is_slow("tests/jobs/test_demo.py::test_any")
    assert is_slow("tests/test_killed.py::test_a_command_writes_all_its_files_in_one_step[build]")
    assert not is_slow("tests/test_killed.py::test_a_command_writes_all_its_files_in_one_step_more")
