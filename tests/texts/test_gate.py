"""All that the program says to a person goes through one gate, so that another language is one catalog more."""

from __future__ import annotations

import ast
import re
import string
from contextvars import copy_context
from gettext import NullTranslations
from pathlib import Path

import pytest

from sheetgen.audit import RULES
from sheetgen.audit.run import audit
from sheetgen.report.reply import reply_text
from sheetgen.sheets import BOOK
from sheetgen.texts import marked, say, say_many, speak, translated
from tests.loop import fresh_loop
from tests.texts.gathered import (
    DECLARED,
    FOR_DEVELOPERS,
    GATES,
    PACKAGE,
    Text,
    is_read_by_a_person,
    rooms,
    spoken,
    texts,
)

NOT_SPOKEN = {
    "bold red": "a style of the terminal", "bold green": "likewise", "bold yellow": "likewise", "bold underline": "likewise",
    "stacked bars": "a kind of chart, as the sheets declare it",
    "sheetgen record": "the mark of the hidden record; it is read back",
    "open, late": "a result of a formula, compared with what a cell shows", "order below": "likewise",
    "as laid": "likewise", "the same": "likewise",
    "sheetgen: {}": "the program's name before a sentence",
    "font-family:{}": "part of a drawing",
    "one way": "a choice of the sheets", "two ways": "likewise", "any way": "likewise",
    "{} rev {} {} {}": "an issue's id",
    "h:mm AM/PM": "a number format", "h:mm:ss AM/PM": "likewise", "m/d/yy h:mm": "likewise",
    "{}: no hole is called {}": "for whoever writes a rule", "{}: no limit is called {}": "likewise",
    "{}: needs an example that fails and one that passes": "likewise",
}  # fmt: skip
"""Texts that look like words and are none, with the reason."""
PLACEHOLDERS = "audit/placeholders.py"
"""Words that vendors type; they are compared, not said."""


class Bracketed(NullTranslations):
    """A catalog in which every text is itself in brackets: what has none was said beside the gate."""

    def gettext(self, message: str) -> str:
        return f"⟦{message}⟧"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"⟦{msgid1 if n == 1 else msgid2}⟧"


def test_english_is_what_stands_in_the_code() -> None:
    assert say("Written: {path}", path="a.xlsx") == "Written: a.xlsx"
    assert say("[[tolerances]] has {braces} of its own") == "[[tolerances]] has {braces} of its own"
    assert say("{share:.0%} of {name!r}", share=0.5, name="x") == "50% of 'x'"
    assert [say_many("{count} cell", "{count:,} cells", n) for n in (0, 1, 1200)] == [
        "0 cells",
        "1 cell",
        "1,200 cells",
    ]
    assert marked("kept") == "kept" and translated("") == ""


def test_a_catalog_holds_for_its_own_task_alone() -> None:
    def elsewhere() -> tuple[str, str, str]:
        speak(Bracketed())
        return say("to {whom}", whom="you"), say_many("{count} cell", "{count} cells", 2), say("")

    assert copy_context().run(elsewhere) == ("⟦to you⟧", "⟦2 cells⟧", "")
    assert say("to {whom}", whom="you") == "to you"


def beside_the_gate(text: Text) -> bool:
    if set(text.calls) & (GATES | FOR_DEVELOPERS | DECLARED):
        return False
    return text.words not in NOT_SPOKEN and text.file != PLACEHOLDERS


@pytest.mark.parametrize("path", rooms(), ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_no_text_that_a_person_reads_stands_beside_the_gate(path: Path) -> None:
    loose = [f"{text.file}:{text.line} {text.words!r}" for text in spoken(path) if beside_the_gate(text)]
    assert loose == [], "say it through sheetgen.texts.say (or `marked` where it is declared), or say why it is no text"


def test_the_look_for_loose_texts_finds_them(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.texts.gathered.PACKAGE", tmp_path)
    path = tmp_path / "x.py"
    path.write_text(
        '"""A docstring of words."""\n'
        'A = "loose words"\n'
        'B = marked("kept words")\n'
        "def f(x):\n"
        '    raise UserError(f"{x} is lost")\n'
        '    say("told words")\n'
        '    re.compile(r"\\\\d+ of these")\n'
        '    return "=SUM(a, b)", x == "some words", {"key of words": 1}, "word", f"{x}, size {x}"\n'
    )
    assert [text.words for text in spoken(path) if beside_the_gate(text)] == [
        "loose words",
        "{} is lost",
        "{}, size {}",
    ]


def test_what_stands_in_a_gate_is_one_text_with_named_holes() -> None:
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if not (
                isinstance(node, ast.Call) and ast.unparse(node.func) in {"say", "say_many", "marked"} and node.args
            ):
                continue
            where = f"{path.relative_to(PACKAGE).as_posix()}:{node.lineno}"
            wholes = node.args[: 2 if ast.unparse(node.func) == "say_many" else 1]
            assert not any(isinstance(one, ast.JoinedStr) for one in wholes), (
                f"{where}: give the holes by name, not as an f-string"
            )
            given = {keyword.arg for keyword in node.keywords} | (
                {"count"} if ast.unparse(node.func) == "say_many" else set()
            )
            for one in wholes:
                if (
                    isinstance(one, ast.Constant)
                    and (given or ast.unparse(node.func) == "say_many")
                    and None not in given
                ):
                    holes = {hole for _, hole, _, _ in string.Formatter().parse(one.value) if hole is not None}
                    assert holes <= given, f"{where}: {holes - given} is not given"
                    assert ast.unparse(node.func) == "say_many" or given <= holes, (
                        f"{where}: {given - holes} is not used"
                    )


def test_every_sentence_of_an_audit_goes_through_the_gate(tmp_path: Path) -> None:
    folder = fresh_loop(tmp_path)
    (folder / "a-issued.receipt.json").unlink()  # so that a warning is said too

    def bracketed() -> list[str]:
        speak(Bracketed())
        result = audit(BOOK, RULES, folder / "a-issued.xlsx")
        assert result.findings and result.warnings
        letter = reply_text(result, contact="Vesna Oru")
        assert "⟦Dear" in letter and "⟦To do:" in letter
        return [*result.warnings, *(words for one in result.findings for words in (one.message, one.why, one.action))]

    for words in copy_context().run(bracketed):
        bare = re.sub(r"⟦[^⟦⟧]*⟧", "", _innermost_out(words))
        assert not is_read_by_a_person(bare.replace("\n", " ")), bare


def _innermost_out(words: str) -> str:
    """Brackets within brackets taken out, so that what stands in no bracket is left."""
    depth, kept = 0, []
    for sign in words:
        depth += (sign == "⟦") - (sign == "⟧")
        if depth == 0 and sign != "⟧":
            kept.append(sign)
    return "".join(kept)


def test_the_gate_is_the_only_place_where_a_catalog_is_asked() -> None:
    asked = [
        text.file for path in sorted(PACKAGE.rglob("*.py")) for text in texts(path) if "gettext" in " ".join(text.calls)
    ]
    assert set(asked) <= {"texts/__init__.py"}
