"""Conditional formats as other programs write them: one for each column, and with rows that moved."""

import pytest

from sheetgen.audit.appearance import signature
from sheetgen.workbook.model.written import Mark, Style


def mark(areas: str, formula: str) -> Mark:
    return Mark(areas, "expression", (formula,), Style())


SENT = mark("C9:F10", 'AND(C9="",style__stage>=1,$B9<>"")')


@pytest.mark.parametrize(
    "now",
    [
        mark("E9:E10", 'AND(E9="",style__stage>=1,$B9<>"")'),
        mark("C12:F13", 'AND( c12="" , style__stage>=1,$B12<>"")'),
        mark("AA9:AA10", 'AND(AA9="",style__stage>=1,$B9<>"")'),
    ],
)
def test_the_same_condition_of_another_column_or_row_is_known(now):
    assert signature(now) == signature(SENT)


@pytest.mark.parametrize(
    "now",
    [
        mark("E9:E10", 'AND(D9="",style__stage>=1,$B9<>"")'),
        mark("C9:F10", 'AND(C9="",style__stage>=1,$C9<>"")'),
        mark("C9:F10", "TRUE"),
    ],
)
def test_another_condition_is_not(now):
    assert signature(now) != signature(SENT)
