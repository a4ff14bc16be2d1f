"""Revisions: what changed, when, why and by whom."""

from __future__ import annotations

from sheetgen.declare.entry import designer
from sheetgen.declare.kinds import date, text, whole
from sheetgen.declare.parts import Sheet, Table

REVISIONS = Sheet("revisions", "Revisions", purpose="The newest revision stands last.", parts=(
    Table("log", "Revisions", ref="W", key="what", spare=6, columns=(
        designer("what", "What changed", text(60), need="quote"),
        designer("revision", "Revision", whole(least=1), need="quote"),
        designer("date", "Date", date(), need="quote"),
        designer("why", "Why", text(40)),
        designer("by", "By", text(16), need="quote"),
        designer("anyway", "Sent out all the same, because", text(40), private=True, help="Brand only: why it left although something was to put right."),
    )),
))  # fmt: skip
