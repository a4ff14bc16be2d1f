"""The letter in the brand's words: filled, bounded, and nothing that is filled in works."""

import pytest

from sheetgen import api, cli
from sheetgen.declare.entry import place_of
from sheetgen.report.letter import MOST_LETTERS, LetterWords, letter_words
from sheetgen.report.reply import reply_text
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import typed_in
from tests.loop import ISSUED, fresh_loop, loop

from .made import audited, finding

WORDS = letter_words(
    {
        "greeting": "Hello {vendor}!",
        "opening": "{points} stand in the way of {purpose}.",
        "questions": "We only ask {points}.",
        "closing": "{contact}\n{contact}",
    }
)


def test_the_brands_words_stand_around_the_points() -> None:
    letter = reply_text(audited(finding(), vendor="Vend"), contact="Ada", words=WORDS)
    assert "Hello Vend!\n\nthe point below stand in the way of quote.\n" in letter
    assert letter.endswith("\n\nAda\nAda\n")
    assert "1. Price per unit" in letter
    assert "We only ask the point below." in reply_text(audited(finding(level="query")), contact="", words=WORDS)
    assert LetterWords().thanks.split("{")[0] in reply_text(audited(), contact="", words=WORDS)


def test_what_is_filled_in_is_text() -> None:
    letter = reply_text(audited(finding(), vendor="{contact}\n\x1b[31mBcc: all"), contact="SECRET", words=WORDS)
    assert "Hello {contact}" in letter
    assert "\x1b" not in letter
    assert not any(line.startswith("Bcc") for line in letter.splitlines())


@pytest.mark.parametrize(
    ("given", "wrong"),
    [
        ({"salutation": "x"}, "knows no 'salutation'; it has closing, greeting"),
        ({"greeting": 3}, f"a text of at most {MOST_LETTERS} letters"),
        ({"greeting": " "}, f"a text of at most {MOST_LETTERS} letters"),
        ({"greeting": "x" * (MOST_LETTERS + 1)}, f"a text of at most {MOST_LETTERS} letters"),
        ({"greeting": "Dear {name}"}, "'name' is no hole; there are {vendor}, {what}"),
        ({"greeting": "Dear {vendor.__class__}"}, "is no hole"),
        ({"greeting": "Dear {vendor!r}"}, "is no hole"),
        ({"greeting": "Dear {vendor:>99999}"}, "is no hole"),
        ({"greeting": "Dear {"}, "is no hole"),
        ({"greeting": "Dear {}"}, "is no hole"),
    ],
)
def test_words_that_cannot_be(given: dict[str, object], wrong: str) -> None:
    with pytest.raises(ValueError, match=r"\[letter\]") as caught:
        letter_words(given)
    assert wrong in str(caught.value)


def test_each_purpose_may_have_words_of_its_own() -> None:
    given = {"greeting": "Dear {vendor},", "closing": "{contact}", "sample": {"greeting": "Hello {vendor},"}}
    assert [letter_words(given, purpose).greeting for purpose in ("quote", "sample", "bulk")] == [
        "Dear {vendor},", "Hello {vendor},", "Dear {vendor},",
    ]  # fmt: skip
    assert letter_words(given, "sample").closing == "{contact}"


@pytest.mark.parametrize(
    ("given", "wrong"),
    [
        ({"sample": {"salutation": "x"}}, "[letter.sample] knows no 'salutation'"),
        ({"bulk": {"greeting": "Dear {name}"}}, "[letter.bulk] greeting: 'name' is no hole"),
        ({"quote": "x"}, "[letter.quote] must be a table"),
        ({"proto": {}}, "[letter] knows no 'proto'"),
    ],
)
def test_words_for_a_purpose_that_cannot_be_are_said_whatever_is_written_now(
    given: dict[str, object], wrong: str
) -> None:
    with pytest.raises(ValueError, match=r"\[letter") as caught:
        letter_words(given, "quote")
    assert wrong in str(caught.value)


def test_a_brand_file_beside_the_return_or_named_gives_the_words(tmp_path, capsys) -> None:
    fresh_loop(tmp_path)
    returned, reply = tmp_path / "a-returned.xlsx", tmp_path / "reply.txt"
    (tmp_path / "brand.toml").write_text('[letter]\ngreeting = "Good day {vendor},"\n', "utf-8")
    assert cli.main(["audit", str(returned), "--reply", str(reply)]) == 0
    assert "Good day Valmora Confecções," in reply.read_text("utf-8")
    (tmp_path / "other.toml").write_text('[letter]\ngreeting = "Hi {who}"\n', "utf-8")
    assert (
        cli.main(["audit", str(returned), "--reply", str(reply), "--replace", "--brand", str(tmp_path / "other.toml")])
        == 2
    )
    assert "other.toml: [letter] greeting: 'who' is no hole" in capsys.readouterr().err


def test_what_was_asked_in_earlier_rounds_and_has_no_answer_is_said_again(tmp_path) -> None:
    seen = {
        "fit.comments[F1].seen": "The collar stands away at the back", "fit.comments[F1].round": "Fit",
        "fit.comments[F1].change": "Lower the stand by 3 mm",
        "fit.comments[F2].seen": "Sleeves twist", "fit.comments[F2].round": "Fit", "fit.comments[F2].closed": "Fit",
        "fit.comments[F3].seen": "Pocket low", "fit.comments[F3].round": "Fit",
        "fit.comments[F4].seen": "Of this round", "fit.comments[F4].round": "Proto",
    }  # fmt: skip
    working, copy, asked = (tmp_path / f"{name}.xlsx" for name in ("working", "copy", "asked"))
    style = api.build(loop() / "a-working.xlsx").values
    working.write_bytes(api.from_values({**style, **{place_of(at): value for at, value in seen.items()}}).data)
    copy.write_bytes(api.issue(working, issued=ISSUED, anyway="measured").data)
    typed_in(BOOK, copy, {place_of("fit.comments[F3].answer"): "Moved"}, asked)
    cli.main(["audit", str(asked), "--reply", str(tmp_path / "reply.txt")])
    letter = (tmp_path / "reply.txt").read_text("utf-8")
    assert (
        "Still open from earlier rounds:\n\n- F1, Fit: The collar stands away at the back; Lower the stand by 3 mm\n"
        in letter
    )
    assert all(words not in letter.split("Still open")[1] for words in ("Sleeves twist", "Pocket low", "Of this round"))
