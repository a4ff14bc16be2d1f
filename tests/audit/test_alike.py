"""Results of two programs that mean the same are no finding: figures to their digits, texts whatever LOWER makes of É."""

import pytest

from sheetgen.audit.integrity import alike


@pytest.mark.parametrize(
    ("shown", "follows", "same"),
    [
        ("élasthanne 5%", "Élasthanne 5%", True),
        ("GRÖSSE ", "GRöSSE", True),
        ("Moss", "moss", False),
        ("5 % élasthanne", "6 % élasthanne", False),
        (1.0000000001, 1.0, True),
        (1.001, 1.0, False),
        (None, "", True),
    ],
)
def test_what_two_programs_show(shown, follows, same):
    assert alike(shown, follows) is same
