"""Revisions: what changed, when, why and by whom; and what each change costs and takes, which the vendor says."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, vendor
from sheetgen.declare.kinds import date, money, text, whole
from sheetgen.declare.parts import Section, Sheet, Table

REVISIONS = Sheet("revisions", "Revisions", seen="sample", goes_with="style.revised", purpose="The newest revision stands last.", main="log", parts=(
    Table("log", "Revisions", ref="W", key="what", spare=6, columns=(
        designer("what", "What changed", text(36), need="quote"),
        designer("before", "Before", text(14)),
        designer("after", "After", text(14)),
        designer("revision", "Revision", whole(least=1), need="quote"),
        designer("date", "Date", date(), need="sample"),
        designer("why", "Why", text(24)),
        designer("by", "By", text(14), need="sample"),
        vendor("cost", "Changes the price by, {currency}", money(4, None), need="quote", unless="no_change", width=13,
               help="Per garment; 0 for nothing, below 0 where it gets cheaper."),
        vendor("days", "Changes the delivery by, days", whole(-365, 365), need="quote", unless="no_change", width=13,
               help="0 for nothing, below 0 where it is sooner."),
        designer("anyway", "Sent out all the same, because", text(30), private=True, help="Brand only: why it left although something was to put right."),
        Section("Steps", printed=False, columns=(
            computed("no_change", "No change of a cell", text(10), 'IF(AND(before="",after=""),"none","")', may_be_blank=("before", "after")),
        )),
    )),
))  # fmt: skip
