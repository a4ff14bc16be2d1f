"""What was asked of a vendor in earlier rounds and has no answer in the file that came back."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.declare.entry import Place
from sheetgen.texts import say
from sheetgen.workbook.model.values import refs
from sheetgen.workbook.read.found import Returned

_COMMENTS = "fit.comments"


def still_open(got: Returned) -> Iterator[str]:
    """Comments of rounds before the one that is asked now that are neither closed nor answered, a sentence each."""
    now = got.typed.get(Place("fit.round_now"))

    def said(name: str, ref: str) -> str:
        return str(got.typed.get(Place(f"{_COMMENTS}.{name}", ref)) or "")

    for ref in refs(_COMMENTS, got.typed):
        seen, of = said("seen", ref), said("round", ref)
        if seen and of and of != now and not said("closed", ref) and not said("answer", ref):
            change = said("change", ref)
            yield say("{ref}, {round}: {seen}", ref=ref, round=of, seen="; ".join(filter(None, (seen, change))))
