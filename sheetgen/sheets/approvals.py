"""Approvals: everything that waits for a yes: asked, due, sent, received, decided, and what it holds up.

A round, a dip, a strike-off or a test is decided in its own row, and read here; what has no row of its own (a trims
card, a sealed reference) is decided here.
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, vendor
from sheetgen.declare.kinds import choice, date, number, text, whole, yes_no
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table
from sheetgen.sheets.workings.given import CHANGED, STANDS_AT

_YES = ("approved", "approved with comments", "approved to try in bulk", "dropped", "yes")
_NO = ("rejected", "resubmit", "no")
"""What the rows that are decided elsewhere can say."""


_TABLES = ("fit.rounds", "colorways.dips", "artwork.pieces", "quality.tests")


def _row(column: str) -> str:
    """What stands in another table's column, in the row that is named here; an error where there is none."""
    return f'INDEX({column},MATCH(about,{column.rpartition(".")[0]}.ref,0))&""'


def _one_of(words: tuple[str, ...]) -> str:
    return "OR(" + ",".join(f'decided="{word}"' for word in words) + ")"


APPROVALS = Sheet("approvals", "Approvals", seen="sample", purpose="What waits for a decision, and what stops bulk until it has one.", main="items", parts=(
    Table("items", "To approve", ref="V", key="item", columns=(
        designer("item", "Item", text(24), need="sample"),
        designer("kind", "Kind",
                 choice("lab dip", "strike-off", "trims card", "proto", "fit sample", "size set", "pre-production sample", "sealed reference", "test report",
                        open=True, width=14), need="sample"),
        designer("blocks", "Stops bulk", yes_no(8), need="sample", blank="it does"),
        designer("asked", "Asked", date(), need="sample"),
        designer("due", "Due", date(), need="sample"),
        vendor("sent", "Sent", date(), need="bulk"),
        vendor("courier", "Sent by, number", text(12)),
        designer("received", "Received", date()),
        designer("about", "Decided at", text(8),
                 help="The ref of the round (R1), lab dip (D1), artwork (A1) or test (T1) where it is decided.", blank="it is decided here"),
        designer("decision", "Decision", choice("approved", "approved with comments", "rejected", width=14),
                 help="Only for what has no row of its own."),
        designer("by", "By", text(11)),
        designer("comment", "Comment", text(18)),
        computed("state", "State", text(11), f'IF({_one_of(_YES)},"done",IF({_one_of(_NO)},"open, again",late_or_open))',
                 may_be_blank=("decided",)),
        computed("since", "Since then", text(11), f'IF(given="","",IFERROR(IF(ABS(given-N(now))>0.0005,"{CHANGED}","the same"),"{CHANGED}"))',
                 private=True, help="Whether what it was given to is what stands here now."),
        Section("What it was given to, and steps", printed=False, columns=(
            designer("given", "Given to", number(4, width=18), private=True, blank="as it stands at the next build",
                     help="Kept when it is approved. Clear it to give the approval again to what stands here now."),
            designer("given_revision", "As revision", whole(least=1), private=True, blank="as it stands at the next build"),
            *STANDS_AT,
            computed("at_sample", "At a sample", text(14), f'IFERROR({_row("fit.rounds.decision")},IFERROR({_row("colorways.dips.decision")},""))'),
            computed("at_proof", "At a proof", text(14), f'IFERROR({_row("artwork.pieces.decision")},IFERROR({_row("quality.tests.accepted")},""))'),
            computed("stands", "Stands", whole(), " + ".join(f"COUNTIF({table}.ref,about)" for table in _TABLES).replace(" ", "")),
            computed("decided", "Decided", text(18), 'IF(about="",decision&"",at_sample&""&at_proof&"")'),
            computed("stops", "Stops bulk still", whole(), 'IF(AND(blocks&""<>"no",LEFT(state,4)="open"),1,0)'),
            computed("late_or_open", "If open", text(10), 'IF(AND(due<>"",style.date<>"",due<style.date),"open, late","open")'),
        )),
    )),
    Form("In short", (
        computed("blocking", "Still stops bulk", whole(), "SUM(items.stops)"),
        computed("late", "Late", whole(), 'COUNTIF(items.state,"open, late")'),
    )),
), checks=(
    Check("blocking", "Approvals that still stop bulk", "approvals.blocking", fix="Decide them before cutting.", stops="bulk"),
    Check("twice", "Decided in two places", 'SUMPRODUCT((approvals.items.about<>"")*(approvals.items.decision<>""))',
          fix="Clear the decision here: it is decided in the row that is named."),
    Check("about", "Decided at a row that is not there", 'SUMPRODUCT((approvals.items.about<>"")*(approvals.items.stands=0))',
          fix="Name a round, lab dip, artwork or test that is there, or clear the cell."),
    Check("older", "Approvals given to an older version", f'COUNTIF(approvals.items.since,"{CHANGED}")',
          private=True, fix="Look at what changed since: approve it anew (clear Given to), or change it back.",
          where=f'IFERROR(INDEX(approvals.items.ref,MATCH("{CHANGED}",approvals.items.since,0)),"")', stops="bulk"),
    Check("late", "Approvals past their due date", "approvals.late", fix="Ask for them, or set a new date."),
))  # fmt: skip
