"""Construction: the flats with numbered callouts, and for each callout how it is sewn and how much thread it takes."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, drawn, drawn_on
from sheetgen.declare.kinds import choice, length, number, percent, pick, picture, suggest, text
from sheetgen.declare.parts import Check, Form, Pictures, Section, Sheet, Table
from sheetgen.sheets.lookups import at_least
from sheetgen.sheets.questions import asked_about

LEFT_BLANK = "left blank"
_DENSITIES = ("stitches per cm", "stitches per 3 cm", "stitches per inch")
_RATIO = 'IFERROR(INDEX(thread.seams.ratio,MATCH(ref,thread.seams.ref,0)),"")'

CONSTRUCTION = Sheet("construction", "Construction", main="callouts",
                     purpose="How the garment is made. The flats below show where each callout is.", parts=(
    Table("callouts", "Callouts", ref="N", key="area", columns=(
        designer("area", "Area", text(20), need="quote"),
        designer("instruction", "Instruction", text(78), need="quote"),
        designer("stitch", "Stitch (ISO 4915)", suggest("lists.stitches.stitch", 21), need="quote"),
        designer("seam", "Seam (ISO 4916)", suggest("lists.seams.seam", 18), need="sample"),
        designer("density", "Density", number(1, 0), need="sample"),
        designer("allowance", "Allowance, {unit}", length(least=0, width=10), need="sample"),
        designer("thread_type", "Thread", text(17), need="sample"),
        asked_about(),
        Section("Where on the drawing", printed=False, folded=False, columns=(
            designer("drawing", "Drawing", choice("front", "back", width=8), blank="the front"),
            designer("across", "From the left", percent(0), help="In percent of the drawing's width; the next build draws it there.",
                     blank="no mark is drawn"),
            designer("down", "From the top", percent(0), help="In percent of the drawing's height.", blank="no mark is drawn"),
        )),
        Section("How long the seam is", printed=False, columns=(
            designer("from_point", "Length of point", pick("measurements.points.ref", 9),
                     help="The ref of a point of measure, as P3.", blank="only the extra length"),
            designer("times", "Times", number(1, 0), help="How many times that point is sewn.", blank="once"),
            designer("extra", "Extra, {unit}", length(least=0), help="Added to it, or the whole seam where no point fits.", blank="nothing is added"),
            computed("seam_length", "Seam length, {unit}", length(),
                     'IF(AND(from_point="",extra=""),"",'
                     'IFERROR(IF(from_point="",0,INDEX(measurements.points.now,MATCH(from_point,measurements.points.ref,0))'
                     '*IF(times="",1,times))+N(extra),""))',
                     help="At the sample size."),
            computed("thread", "Thread, m", number(2), f'IF(N({_RATIO})=0,"",seam_length*style.unit_in_meters*{_RATIO})',
                     help="An estimate; the Thread sheet says by which table."),
        )),
    )),
    Form("Making, in general", (
        designer("density_unit", "Stitch density counts", choice(*_DENSITIES, open=True, width=20), need="quote",
                 help="Stitches per cm, per 3 cm, or per inch: say which."),
        designer("flats", "Where no drawings are put in", choice("drawn", LEFT_BLANK, width=20), blank="drawn from the measurements",
                 help="Flats and views of a garment that can be drawn; your own take their place."),
        designer("pressing", "Pressing and finishing", text(60), need="sample"),
        designer("matching", "Grain, nap and matching", text(60), need="sample", help="One-way fabric, stripes, checks."),
        designer("washing", "Garment wash", text(60), help="Washed as a garment: which wash, how long."),
        designer("machines", "Machines and folders", text(60), help="What not every sewing line has: for which seam."),
        computed("thread_net", "Thread in a garment, m", number(1), "SUM(callouts.thread)+SUM(thread.counted.meters)"),
        computed("thread_known", "Seams counted", text(), at_least("COUNT(callouts.thread)", "COUNT(callouts.seam_length)"),
                 help="At least, where a stitch has no ratio yet: see Thread."),
        computed("thread_gross", "Thread with waste, m", number(1), "thread_net*(1+style.thread_waste)"),
    )),
    Pictures("Flats", (
        drawn_on("workings.clean_front", designer("flat_front", "Flat, front", picture(), need="quote")),
        drawn_on("workings.clean_back", designer("flat_back", "Flat, back", picture(), need="quote")),
    ), height=360),
    Table("details", "Details, to scale", ref="DT", key="detail", spare=2, row_height=110, columns=(
        designer("detail", "Detail", text(20)),
        designer("shown", "Drawing", picture(42)),
        designer("note", "Note", text(17)),
        designer("drawn_width", "The drawing's width is, {unit}", length(least=0, width=16),
                 help="What the whole picture measures from its left to its right edge: the pack prints it to scale.", blank="not to scale"),
        designer("callout", "Callout", pick("construction.callouts.ref", 8), blank="none"),
    )),
    Pictures("Close-ups", (drawn("closeups", "Details with their dimensions", picture()),), height=380, across=1, printed=False,
             note="Drawn from the figures at every build. The pack has them on paper. A detail of your own above takes the place of the one called alike."),
), checks=(
    Check("half_placed", "Callouts with half a place on the drawing",
          'SUMPRODUCT(((construction.callouts.across="")*1<>(construction.callouts.down="")*1)*1)', fix="Give both: from the left and from the top."),
    Check("unplaced", "Callouts without a place on a drawing, where others have one",
          'IF(COUNT(construction.callouts.down)=0,0,SUMPRODUCT((construction.callouts.area<>"")*(construction.callouts.across="")))',
          fix="Say where each points, in percent of the drawing's width and height."),
))  # fmt: skip
