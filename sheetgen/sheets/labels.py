"""Labels: every label, tag, sticker and bag with its wording; the composition and the care text they carry."""

from __future__ import annotations

from sheetgen.declare.entry import Entry, computed, designer, vendor
from sheetgen.declare.kinds import choice, date, length, percent, pick, picture, suggest, text, whole
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table
from sheetgen.sheets.questions import asked_about
from sheetgen.sheets.workings.compositions import NAMED

_NOT_IN_EU = ("spandex", "rayon")
"""Names that Annex I of Regulation (EU) No 1007/2011 does not know: elastane and viscose there."""


def _fibers() -> tuple[Entry, ...]:
    """Name and share for each of five fibers: the law names every fiber, and few cloths have more."""
    return tuple(
        entry
        for number in NAMED
        for entry in (
            designer(
                f"fiber_{number}",
                f"Fiber {number}",
                suggest("lists.fibers.fiber", 12),
                need="sample" if number == 1 else "",
            ),
            designer(f"share_{number}", "Share", percent(), need="sample" if number == 1 else ""),
        )
    )


_NAMED_SO = "+".join(
    f'COUNTIF(labels.composition.fiber_{NAMED[0]}:labels.composition.share_{NAMED[-1]},"{name}")' for name in _NOT_IN_EU
)

MAIN_LABEL = "main label"
LABELS = Sheet("labels", "Labels", purpose="Drafts for the responsible person to confirm: local law decides what a label must say.", main="items", parts=(
    Table("items", "Labels, tags and bags", ref="L", key="label", row_height=40, says=("material", "width", "height", "wording"), columns=(
        designer("label", "Label",
                 choice(MAIN_LABEL, "size label", "care label", "origin label", "hang tag", "price sticker", "polybag", "bag sticker", "carton mark",
                        "warning label", open=True, width=13), need="quote"),
        designer("picture", "Picture", picture(12)),
        designer("material", "Material", text(14), need="quote"),
        designer("width", "Width, {unit}", length(least=0), need="sample"),
        designer("height", "Height, {unit}", length(least=0), need="sample"),
        designer("placement", "Placement", text(16), need="sample"),
        designer("fold", "Fold", choice("center fold", "end fold", "loop fold", "flat", "none", open=True), need="sample"),
        designer("attachment", "Attached", text(13), need="sample"),
        designer("colors", "Colors", text(12), need="sample"),
        designer("wording", "Wording", text(40), need="sample", help="Word for word, in every language that it carries."),
        designer("count", "Per garment", whole(least=0), need="quote"),
        vendor("article", "Vendor's article", text(13)),
        asked_about(),
    )),
    Form("Care and origin", (
        designer("supplied_by", "Labels and tags come from", text(60)),
        designer("wash", "Wash", text(), need="sample"),
        designer("bleach", "Bleach", text(), need="sample"),
        designer("dry", "Dry", text(), need="sample"),
        designer("iron", "Iron", text(), need="sample"),
        designer("professional", "Professional care", text(), need="sample"),
        designer("care_extra", "Further words", text()),
        computed("care_text", "Care label, draft", text(60), 'wash&"; "&bleach&"; "&dry&"; "&iron&"; "&professional&IF(care_extra="","","; "&care_extra)'),
        computed("composition_text", "Whole garment, draft", text(60), 'IF(workings.unread>0,"",workings.whole_garment&"")',
                 help="Of all fabrics by weight, from Materials; 100 % together. Law often wants each part by itself: see below."),
        computed("composition_text_us", "The same for the US, draft", text(60), 'IF(workings.unread>0,"",workings.whole_garment_us&"")',
                 help="16 CFR 303: fibers under 5 % together as other fiber, wool never; one that has a purpose may be named instead."),
        computed("composition_waits", "Drafts wait for", text(60),
                 'IF(workings.unread=0,"",workings.unread&" without a weight or not understood, first "&workings.first_unread&" on Materials")'),
        computed("origin_text", "Origin, draft", text(), '"Made in "&style.origin'),
    )),
    Table("composition", "Composition by weight", ref="F", key="part", spare=2, note="Largest share first. Each part adds up to 100 %.", columns=(
        designer("part", "Part", text(13), need="sample", help="Shell, lining, rib, filling."),
        designer("material", "From material", pick("materials.bom.ref", 9), help="The ref in Materials: its composition is shown beside."),
        *_fibers(),
        computed("sum", "Sum", percent(0), "+".join(f"N(share_{n})" for n in NAMED)),
        Section("How it reads", printed=False, folded=False, columns=(
        computed("of_material", "That material is", text(26),
                 'IF(material="","",IFERROR(INDEX(workings.read.words,MATCH(material,workings.read.ref,0))&"",""))'),
        computed("wording", "Label text, draft", text(44),
                 'part&": "&IF(N(share_1)=0,of_material&"",INDEX(workings.labeled.words,MATCH(ref,workings.labeled.ref,0)))'),
        )),
    )),
    Table("texts", "Texts as confirmed", ref="K", key="market", spare=2,
          note="One for each market, by the person who answers for it there. Local law decides what it must say, and in which language.", columns=(
        designer("market", "Market", choice("EU", "UK", "US", open=True, width=13)),
        designer("confirmed", "Text", text(17)),
        designer("by", "Confirmed by", text(17)),
        designer("on", "On", date()),
    )),
), checks=(
    Check("composition_sum", "Composition does not add up to 100 %",
          'SUMPRODUCT((labels.composition.part<>"")*1)-COUNTIFS(labels.composition.sum,">0.9995",labels.composition.sum,"<1.0005")',
          fix="Correct the shares of that part.", stops="quote"),
    Check("contradicts", "A composition for the label that is not that of its material",
          "SUM(workings.labeled.against)",
          fix="Correct the shares, or the composition on Materials."),
    Check("fiber_name", "A fiber's name that labels in the EU or UK may not use",
          f'IF(OR(style.market_eu&""="yes",style.market_uk&""="yes"),{_NAMED_SO},0)',
          fix="Regulation (EU) No 1007/2011, Annex I: elastane for spandex, viscose for rayon."),
    Check("care_label", "No care label", 'IF(COUNTIF(labels.items.label,"care label")=0,1,0)', fix="Add a row for it."),
    Check("size_label", "No size label", 'IF(COUNTIF(labels.items.label,"size label")=0,1,0)', fix="Add a row for it."),
))  # fmt: skip
