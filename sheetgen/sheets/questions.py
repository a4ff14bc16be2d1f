"""Questions: what the vendor asks and the brand answers, each about a row of another sheet or about the style as a whole.

They stand in one place and not in a remark beside each row, so that none is overlooked and Tab goes on row by row; the
row itself says that it was asked about.
"""

from __future__ import annotations

from sheetgen.declare.entry import Entry, computed, designer, looking_through, vendor
from sheetgen.declare.kinds import date, picture, text
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table

ABOUT = (
    ("in_materials", "On Materials", "materials.bom.item"),
    ("in_construction", "On Construction", "construction.callouts.area"),
    ("in_artwork", "On Artwork", "artwork.pieces.name"),
    ("in_points", "On Measurements", "measurements.points.point"),
    ("in_rounds", "On Fit", "fit.rounds.round"),
    ("in_labels", "On Labels", "labels.items.label"),
    ("in_components", "On Colorways", "colorways.components.component"),
    ("in_tests", "On Quality, tests", "quality.tests.test"),
    ("in_defects", "On Quality, defects", "quality.defects.defect"),
)
"""The tables whose rows a question can be about, by what their rows are called; their refs are all different.

Each has a step of its own: a copy without that sheet finds nothing there.
"""


def _named(column: str) -> str:
    """What the row is called that `about` names in that table; blank where it is none of its rows."""
    return f'IF(about="","",IFERROR(INDEX({column},MATCH(about,{column.rpartition(".")[0]}.ref,0)),"")&"")'


def asked_about() -> Entry:
    """A column for a table whose rows can be asked about: whether one was, and whether it is answered."""
    mine, states = "questions.asked.about,ref", 'questions.asked.state,"open"'
    return computed(
        "question", "Question", text(9),
        f'IF(COUNTIF({mine})=0,"",IF(COUNTIFS({mine},{states})>0,"open","answered"))',
        help="Whether this row is asked about on Questions.",
    )  # fmt: skip


QUESTIONS = Sheet("questions", "Questions", seen="answers", seen_with="questions.asked.question",
                  purpose="Ask here, a row for each question: the answer comes with the next copy.", main="asked", parts=(
    Table("asked", "Questions and answers", ref="QN", key="question", spare=12, columns=(
        vendor("question", "Question", text(36), help="One question in a row."),
        vendor("about", "About row", text(9), help="The ref of the row that it is about, as M3, P5, N2, A1.", blank="the style as a whole"),
        computed("what", "That is", text(20), 'IF(about="","",IF(found="","not there",found))', may_be_blank=("about", "found")),
        vendor("asked_on", "Asked on", date()),
        vendor("waits", "Holds up", text(16), help="What cannot go on without the answer."),
        designer("answer", "Answer", text(36)),
        designer("answered_on", "Answered on", date()),
        computed("state", "State", text(10), 'IF(answer="","open","answered")', may_be_blank=("answer",)),
        vendor("picture", "Photo", picture(12)),
        Section("Steps", printed=False, columns=(
            *(looking_through(computed(name, heading, text(16), _named(column))) for name, heading, column in ABOUT),
            computed("found", "Found", text(16), "&".join(f'{name}&""' for name, _, _ in ABOUT)),
        )),
    )),
    Table("queries", "What we ask about your return", ref="QY", key="found", spare=0, note="Marked in its cell: correct it there, or answer here.", columns=(
        designer("found", "What we found", text(36)),
        designer("at", "At", text(16)),
        vendor("reply", "Your answer", text(36), help="Where the figure is right as it stands: why.", blank="the cell was corrected"),
        Section("What was asked", printed=False, columns=(designer("rule", "Rule", text(16)), designer("places", "Places", text(16)))),
    )),
    Form("In short", (
        computed("open", "Not answered yet", text(), 'COUNTIF(asked.state,"open")&" of "&SUMPRODUCT((asked.question<>"")*1)'),
    )),
), checks=(
    Check("open", "Questions of the vendor without an answer", 'COUNTIF(questions.asked.state,"open")', fix="Answer them before the next copy goes out.",
          where='IFERROR(INDEX(questions.asked.ref,MATCH("open",questions.asked.state,0)),"")'),
    Check("nowhere", "Questions about a row that is not there", 'COUNTIF(questions.asked.what,"not there")', who="vendor",
          fix="Name a row by its ref, as it stands at the row's beginning, or clear the cell.",
          where='IFERROR(INDEX(questions.asked.ref,MATCH("not there",questions.asked.what,0)),"")'),
))  # fmt: skip
