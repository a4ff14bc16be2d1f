"""The pieces of a formula's text: what stands where, and what is said of what cannot stand there."""

import pytest

from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.tokens import Token, tokens


def test_pieces_with_their_sorts():
    assert tokens('(net)* SUM(lines.net:1.5)&"a ""b"""<>x') == (
        Token("sign", "("), Token("name", "net"), Token("sign", ")"), Token("sign", "*"), Token("function", "SUM"), Token("sign", "("),
        Token("name", "lines.net"), Token("sign", ":"), Token("number", "1.5"), Token("sign", ")"), Token("sign", "&"),
        Token("text", '"a ""b"""'), Token("sign", "<>"), Token("name", "x"),
    )  # fmt: skip


@pytest.mark.parametrize("second", ['"x"', "SUM(b)", "b", "2"])
@pytest.mark.parametrize("first", ["a", "2", '"y"', "(a)", "{1}"])
def test_two_values_without_a_sign_between_them(first, second):
    with pytest.raises(DeclarationError, match="a sign is missing before it"):
        tokens(f"{first} {second}")


@pytest.mark.parametrize(
    ("formula", "says"),
    [
        ("SUM({1,2", "'{' is not closed"),
        ("{SUM(1,2", "'[(]' is not closed"),
        ("a)", "'[)]' closes nothing"),
        ("(a}", "'}' closes nothing"),
        ("sum(a)", "'sum' before a bracket: functions are written in capital letters"),
        ("a ? b", "cannot read '[?] b' in"),
        ("a SUM", "cannot read 'SUM' in"),
    ],
)
def test_what_cannot_be_read(formula, says):
    with pytest.raises(DeclarationError, match=says):
        tokens(formula)


def test_a_bracket_at_the_start_is_no_function_call():
    assert tokens("(a)*b")[-1] == Token("name", "b")
