"""The faulty return of each sample style: every planted fault is found, and nothing else is said."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from sheetgen.testing.edit import load_faults
from tests.audit.made import STYLES, Made, shorts
from tests.loop import SAMPLES


@pytest.mark.parametrize("style", STYLES)
def test_every_planted_fault_is_found_and_nothing_else(style: str, made: Callable[[str], Made]) -> None:
    faults = load_faults(SAMPLES / style / "answers-faulty.toml")
    result = made(style).audited([fault.edit for fault in faults], "faulty")
    assert shorts(result) == sorted(short for fault in faults for short in fault.finds)


@pytest.mark.parametrize("style", STYLES)
def test_a_faulty_return_holds_many_faults_of_many_rules(style: str) -> None:
    faults = load_faults(SAMPLES / style / "answers-faulty.toml")
    assert len(faults) >= 27
    assert len({short.partition(" ")[0] for fault in faults for short in fault.finds}) >= 27
