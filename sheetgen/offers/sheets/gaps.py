"""Missing and Changed: what each vendor left open, what came back otherwise than it was sent, and what else the audit says."""

from __future__ import annotations

from sheetgen.declare.entry import fixed, per
from sheetgen.declare.kinds import text
from sheetgen.declare.parts import Sheet, Table
from sheetgen.offers.sheets.carry import AXIS

MISSING = Sheet("missing", "Missing", purpose="Required entries that one vendor or another left open, or filled with something that cannot be used.", parts=(
    Table("items", "Left open", ref="N", key="entry", spare=0,
          note="An empty list means that every vendor filled all that was asked. What cannot be used is counted as missing.", columns=(
        fixed("entry", "Entry", text(30)),
        fixed("row", "Line", text(46)),
        fixed("sheet", "Sheet", text(14)),
        fixed("cell", "Cell", text(8)),
        per(AXIS, fixed("state", "{vendor}", text(18))),
    )),
))  # fmt: skip
CHANGED = Sheet("changed", "Changed", purpose="What came back otherwise than it was sent, and what else the audit of each return says.", parts=(
    Table("items", "Locked cells, rows and formulas that came back changed", ref="G", key="who", spare=0,
          note="An empty list means that nothing was changed. The comparison counts with what was sent; what a vendor offers instead is not in the prices.",
          columns=(
        fixed("who", "Vendor", text(22)),
        fixed("what", "What", text(26)),
        fixed("line", "Line", text(26)),
        fixed("entry", "Entry", text(20)),
        fixed("cell", "Cell", text(16)),
        fixed("sent", "Sent", text(30)),
        fixed("came", "Came back", text(30)),
    )),
    Table("findings", "What else the audit says", ref="F", key="who_else", spare=0,
          note="Without what is missing or changed; empty where nothing else was found.", columns=(
        fixed("who_else", "Vendor", text(22)),
        fixed("rule", "What", text(26)),
        fixed("about", "Line", text(26)),
        fixed("heading", "Entry", text(20)),
        fixed("at", "Cell", text(16)),
        fixed("expected", "Expected", text(30)),
        fixed("found", "Found", text(30)),
    )),
))  # fmt: skip
