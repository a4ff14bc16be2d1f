"""Artwork: every print, embroidery and patch: what it looks like, where it stands from two named points, how large."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per, vendor
from sheetgen.declare.kinds import choice, date, length, picture, text, whole, yes_no
from sheetgen.declare.parts import Section, Sheet, Table
from sheetgen.sheets.questions import asked_about

ARTWORK = Sheet("artwork", "Artwork", purpose="Prints, embroideries and patches. The artwork file decides; the picture shows which one.", main="pieces", parts=(
    Table("pieces", "Artwork", ref="A", key="name", spare=2, row_height=96, says=("technique", "width", "height"), columns=(
        designer("name", "Artwork", text(18)),
        designer("picture", "Picture", picture(22), need="sample"),
        designer("technique", "Technique",
                 choice("screen print", "digital print", "heat transfer", "embroidery", "woven patch", "puff print", "reflective transfer", "appliqué",
                        open=True, width=14), need="quote"),
        designer("file", "File", text(14), need="sample"),
        designer("placement", "Placement", text(20), need="quote"),
        designer("point_across", "Across, measured from", text(16), need="sample"),
        designer("across", "Across, {unit}", length(), need="sample"),
        designer("point_down", "Down, measured from", text(16), need="sample"),
        designer("down", "Down, {unit}", length(), need="sample"),
        designer("width", "Width, {unit}", length(least=0), need="quote"),
        designer("height", "Height, {unit}", length(least=0), need="quote"),
        designer("colors_count", "Colors", whole(least=1), need="quote"),
        designer("colors", "Which colors", text(18), need="sample"),
        Section("Width by garment size, {unit}", printed=False, folded=False, columns=(
            designer("grows", "Grows with size", yes_no(8), need="sample"),
            designer("width_step", "Step, {unit}", length()),
            per("size", computed("width_at", "{size}", length(),
                                 'IF(grows&""<>"yes",width,IF(width_step="","",IFERROR(width+width_step*(mine-style.sample_number),"")))')),
        )),
        Section("Down by garment size, {unit}", printed=False, folded=False, columns=(
            designer("down_step", "Step, {unit}", length(), help="How much lower it stands in each larger size.", blank="the same in all sizes"),
            per("size", computed("down_at", "{size}", length(), 'IF(down_step="",down,IFERROR(down+down_step*(mine-style.sample_number),""))')),
        )),
        Section("Strike-off", printed=False, folded=False, columns=(
            designer("due", "Due", date(), need="sample"),
            vendor("sent", "Sent", date()),
            vendor("remark", "Vendor's remark", text(14)),
            asked_about(),
            designer("decision", "Decision", choice("approved", "resubmit", "dropped")),
            designer("comment", "Comment", text(14)),
        )),
    )),
))  # fmt: skip
