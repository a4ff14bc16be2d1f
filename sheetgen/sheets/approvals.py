"""Approvals: everything that waits for a yes: asked, due, sent, received, decided, and what it holds up."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, vendor
from sheetgen.declare.kinds import choice, date, text, whole, yes_no
from sheetgen.declare.parts import Check, Form, Sheet, Table

APPROVALS = Sheet("approvals", "Approvals", purpose="What waits for a decision, and what stops bulk until it has one.", parts=(
    Form("In short", (
        computed("blocking", "Still stops bulk", whole(), 'COUNTIFS(items.blocks,"yes",items.state,"open*")'),
        computed("late", "Late", whole(), 'COUNTIF(items.state,"open, late")'),
    )),
    Table("items", "To approve", ref="V", key="item", columns=(
        designer("item", "Item", text(26), need="sample"),
        designer("kind", "Kind",
                 choice("lab dip", "strike-off", "trims card", "proto", "fit sample", "size set", "pre-production sample", "sealed reference", "test report",
                        open=True, width=16), need="sample"),
        designer("blocks", "Stops bulk", yes_no(8), need="sample"),
        designer("asked", "Asked", date(), need="sample"),
        designer("due", "Due", date(), need="sample"),
        vendor("sent", "Sent", date(), need="bulk"),
        vendor("courier", "Sent by, number", text(16)),
        designer("received", "Received", date()),
        designer("decision", "Decision", choice("approved", "approved with comments", "rejected", width=18)),
        designer("by", "By", text(12)),
        designer("comment", "Comment", text(28)),
        computed("state", "State", text(16),
                 'IF(decision="approved","done",IF(decision="approved with comments","done",'
                 'IF(decision="rejected","open, again",IF(AND(due<>"",style.date<>"",due<style.date),"open, late","open"))))',
                 may_be_blank=("decision",)),
    )),
), checks=(
    Check("blocking", "Approvals that still stop bulk", "IF(style.stage=3,approvals.blocking,0)", fix="Decide them before cutting."),
    Check("late", "Approvals past their due date", "approvals.late", fix="Ask for them, or set a new date."),
))  # fmt: skip
