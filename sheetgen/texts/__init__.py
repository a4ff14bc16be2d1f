"""The gate of all sentences: what a rule, a command or a report says to a person goes through `say`.

Texts are in the form of gettext: whole sentences with named holes, English as the key. English is the only catalog for
now; `speak` puts another one in. What the sheets say (headings, help, choices) goes through the gate of the book, in
`declare.wording`; both take their words from one catalog.
"""

from __future__ import annotations

from contextvars import ContextVar

TYPE_CHECKING = False  # as the checkers of types read it; loading `typing` for it takes longer than all the rest here
if TYPE_CHECKING:
    from gettext import NullTranslations

__all__ = ["marked", "say", "say_many", "speak", "translated"]

_spoken: ContextVar[NullTranslations | None] = ContextVar("spoken", default=None)
"""The catalog in force; none is English as it stands in the code."""


def speak(catalog: NullTranslations | None) -> None:
    """Let all sentences from now on be those of a catalog, in this thread or task; None is English again."""
    _spoken.set(catalog)


def translated(text: str) -> str:
    """A text in the language that is spoken now; an empty one stays empty (gettext keeps its own header there)."""
    catalog = _spoken.get()
    return text if catalog is None or not text else catalog.gettext(text)


def say(text: str, /, **holes: object) -> str:
    """A sentence in the language that is spoken now, its holes filled. Without holes, braces are braces."""
    sentence = translated(text)
    return sentence.format(**holes) if holes else sentence


def say_many(one: str, many: str, count: int, /, **holes: object) -> str:
    """The sentence for that many, `{count}` filled in: which form a number takes is the language's to decide."""
    catalog = _spoken.get()
    english = one if count == 1 else many
    sentence = english if catalog is None else catalog.ngettext(one, many, count)
    return sentence.format(count=count, **holes)


def marked(text: str) -> str:
    """A text that is declared here and said later, by `say`: unchanged, but found by whoever gathers texts."""
    return text
