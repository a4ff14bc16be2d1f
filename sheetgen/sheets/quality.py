"""Quality: tests, defects, needle control, packing and barcodes, and the usual cautions where a garment can hurt someone."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per, vendor
from sheetgen.declare.kinds import choice, length, pick, picture, text, whole, yes_no
from sheetgen.declare.parts import Caution, Check, Form, Pictures, Section, Sheet, Table
from sheetgen.sheets.tight_fit import TIGHT_CHECKS, TIGHT_FIT
from sheetgen.sheets.workings.cautions import PLACES, WORDS, flag
from sheetgen.trade import cautions as trade

# A condition that is still blank could be met: only a word that rules a caution out silences it.
_CHILD = 'style.age_group&""<>"adult"'
_OUTER = 'style.outerwear&""<>"no"'
_NIGHT = 'style.nightwear&""<>"no"'
_US, _UK = 'style.market_us&""<>"no"', 'style.market_uk&""<>"no"'
_EU_UK = f'OR(style.market_eu&""<>"no",{_UK})'
_HEIGHT = 'style.height_to=""'


def _count(**wanted: str) -> str:
    """How many materials are of this kind, in this zone."""
    pairs = ",".join(f'materials.bom.{column},"{value}"' for column, value in wanted.items())
    return f"COUNTIFS({pairs})"


def _cords(place: str, rule: str) -> str:
    """Cords there that a rule speaks of: those with a row, by what it says, and those among the materials without one."""
    return f"SUM(quality.cords.{rule})+SUM(workings.cautious.at_{place})"


_NECK_US, _NECK_EU = _cords("neck", "us_neck"), _cords("neck", "at_neck")
_WAIST_US = f"{_cords('waist', 'us_waist')}+SUM(workings.cautious.at_hem)"
_WAIST_EU = _cords("waist", "eu_waist")
_HEM_EU = f"{_cords('hem', 'eu_hem')}+SUM(workings.cautious.at_sleeve)"
_FABRICS = _count(group="fabric")
_SMALL = "workings.small_parts"

_APPLIES = {
    "hood-cord-us": f"IF(AND({_CHILD},{_OUTER},{_US}),{_NECK_US},0)",
    "waist-cord-us": f"IF(AND({_CHILD},{_OUTER},{_US}),{_WAIST_US},0)",
    "neck-cord-eu-young": f"IF(AND({_CHILD},{_EU_UK},OR({_HEIGHT},style.height_to<=134)),{_NECK_EU},0)",
    "neck-cord-eu-older": f'IF(AND({_CHILD},{_EU_UK},style.height_to<>"",style.height_to>134),{_NECK_EU},0)',
    "waist-cord-eu": f"IF(AND({_CHILD},{_EU_UK}),{_WAIST_EU},0)",
    "hem-cord-eu": f"IF(AND({_CHILD},{_EU_UK}),{_HEM_EU},0)",
    "hood-cord-uk": f"IF(AND({_CHILD},{_OUTER},{_UK}),{_NECK_EU},0)",
    "small-parts-us": f"IF(AND({_CHILD},{_US}),{_SMALL},0)",
    "attached-parts-eu": f"IF(AND({_CHILD},{_EU_UK}),{_SMALL},0)",
    "sleepwear-us": f"IF(AND({_CHILD},{_NIGHT},{_US}),1,0)",
    "nightwear-uk": f"IF(AND({_CHILD},{_NIGHT},{_UK}),1,0)",
    "flammability-us": f"IF({_US},SUM(workings.cautious.burns)+workings.says_raised,0)",
    "lead-us": f"IF(AND({_CHILD},{_US}),{_SMALL}+{_count(kind='print')},0)",
    "phthalates-us": f"IF(AND({_CHILD},{_US}),{_count(kind='print')},0)",
    "certificate-us": f"IF(AND({_CHILD},{_US}),1,0)",
    "nickel-eu": f"IF({_EU_UK},SUM(workings.cautious.metal),0)",
    "azo-dyes-eu": f"IF({_EU_UK},{_FABRICS}+{_count(kind='leather')},0)",
    "chromium-eu": f"IF({_EU_UK},{_count(kind='leather')},0)",
    "animal-parts": "SUM(workings.cautious.animal)",
    "needle-control": f"IF({_CHILD},1,0)",
    "claims": "workings.says_claims+SUM(workings.cautious.claims)+"
    + "+".join(f"workings.says_{word}" for word in WORDS),
}
"""When each of the trade's cautions applies, from the data of the style: never from its name alone."""

_AT = {"neck": "At hood or neck", "waist": "At the waist", "hem": "At the hem", "sleeve": "At the sleeve"}

QUALITY = Sheet("quality", "Quality", seen="sample", goes=("quote", "bulk"), main="tests",
                purpose="What is tested, what counts as a defect, how it is packed. Cautions stand on the Checks sheet.", parts=(
    Table("tests", "Tests", ref="T", key="test", spare=3, says=("method", "limit"), columns=(
        designer("test", "Test", text(26), need="sample"),
        designer("method", "Method", text(20), need="sample"),
        designer("limit", "Must reach", text(22), need="sample"),
        designer("laboratory", "Tested by", text(14), need="sample"),
        vendor("result", "Result", text(16), need="bulk"),
        vendor("report", "Report number", text(16)),
        designer("accepted", "Accepted", yes_no(9)),
    )),
    Form("In the factory", (
        designer("needle", "Needle control", text(60), need="bulk"),
        designer("metal", "Metal detection", text(60), need="bulk"),
        designer("lot", "Lot and tracking marks", text(60), need="bulk"),
        designer("certificates", "Certificates asked for", text(60), need="bulk"),
        vendor("certificate_numbers", "Certificate numbers", text(60), need="bulk"),
        designer("substitution", "Substitutes", text(60), need="quote", help="What may be replaced by something equal, and who decides."),
        designer("fabric_inspection", "Fabric inspection", text(60), help="By which system, to which limit, how much of each lot."),
        designer("sealed", "Sealed sample", text(60), help="Where it lies, and who signs it."),
        designer("changes", "A change is told", text(60), help="Who may change the specification, and how it reaches the floor."),
        designer("late", "Later than agreed", text(60), help="From when it needs a yes, and what it costs."),
        designer("documents", "Forwarder and documents", text(60)),
        designer("tight_fit", "Tight-fitting sleepwear, US", yes_no(),
                 help="Children's: meant to be so tight that it needs no flame test. Its points stand below.",
                 blank="no"),
    )),
    Form("Folding and packing", (
        designer("folding", "Folding", text(60), need="bulk"),
        designer("bag", "Bag", text(60), need="bulk"),
        designer("bag_warning", "Warning on the bag", text(60), need="bulk"),
        designer("carton_marks", "Carton marks", text(60), need="bulk"),
    )),
    Pictures("Folding", (designer("fold_picture", "How it is folded", picture()),), height=180),
    Table("barcodes", "Barcodes", ref="Z", key="size", mirrors="style.sizes", columns=(
        computed("size", "Size", text(26), 'IFERROR(INDEX(style.sizes.name,MATCH(ref,style.sizes.ref,0))&"","")'),
        Section("Number on the sticker", (per("colorway", designer("barcode", "{colorway}", text(18), need="bulk")),)),
    )),
    Table("defects", "Defects by class", ref="H", key="defect", spare=3, columns=(
        designer("defect", "Defect", text(36), need="bulk"),
        designer("severity", "Class", choice("critical", "major", "minor"), need="bulk"),
        designer("note", "Note", text(28)),
        vendor("photo", "Photo", picture(14)),
    )),
    Table("cords", "Cords, drawstrings and ties", ref="E", key="place", spare=3,
          note="Each by itself. What is blank could be anything, and a caution then applies; local law and accredited testing decide.", columns=(
        designer("place", "Where", choice("hood", "neck", "waist", "hem", "sleeve", "leg", "back", open=True, width=12)),
        designer("material", "Material", pick("materials.bom.ref", 9), help="The ref in Materials, as M7."),
        designer("free", "Hangs out, {unit}", length(least=0), help="Longest end outside its channel, the garment opened to its full width."),
        designer("ends", "At its ends", choice("nothing", "toggle", "knot", "tassel", "other", open=True, width=12)),
        designer("one_piece", "One string", yes_no(8), help="It runs through from one end to the other."),
        designer("tacked", "Tacked", yes_no(8), help="Bar-tacked in the middle of its channel."),
        designer("drawn_in", "Draws back", yes_no(8), help="By itself, so that nothing hangs out: no drawstring by 16 CFR 1120.2(c)."),
        designer("hangs", "Below edge", yes_no(8), help="It can hang below the edge of the hem or the sleeve."),
        designer("age_from", "Worn from age", whole(least=0, width=9), help="Of the smallest size.", blank="any age"),
        designer("note", "Note", text(18)),
        Section("What the rules look at", printed=False, columns=(
            *(flag(f"at_{place}", heading, "place", *PLACES[place]) for place, heading in _AT.items()),
            computed("us_neck", "US, hood or neck", whole(), 'IF(AND(at_neck=1,drawn_in&""<>"yes",N(age_from)<=12),1,0)',
                     may_be_blank=("drawn_in", "age_from")),
            computed("short_us", "At most 3 in out", whole(), 'IF(AND(free<>"",N(free)*style.unit_in_meters<=0.0762),1,0)', may_be_blank=("free",)),
            computed("tied", "Ends and tack", whole(),
                     'IF(AND(ends&""="nothing",OR(one_piece&""="no",tacked&""="yes")),1,0)', may_be_blank=("ends", "one_piece", "tacked")),
            computed("us_waist", "US, waist or hem", whole(),
                     'IF(AND(OR(at_waist=1,at_hem=1),drawn_in&""<>"yes",N(age_from)<=16,short_us*tied=0),1,0)', may_be_blank=("drawn_in", "age_from")),
            computed("eu_waist", "EU and UK, waist", whole(),
                     'IF(AND(at_waist=1,drawn_in&""<>"yes",OR(free="",N(free)*style.unit_in_meters>0.14)),1,0)', may_be_blank=("drawn_in", "free")),
            computed("eu_hem", "EU and UK, hem or sleeve", whole(), 'IF(AND(OR(at_hem=1,at_sleeve=1),drawn_in&""<>"yes",hangs&""<>"no"),1,0)',
                     may_be_blank=("drawn_in", "hangs")),
        )),
    )),
    TIGHT_FIT,
), checks=(
    *TIGHT_CHECKS,
    Check("cords", "Cords of a child's garment that have no row of their own", f"IF({_CHILD},SUM(workings.cautious.loose),0)",
          fix="Say in the table of cords where each is, how far it hangs out and what is at its ends."),
), cautions=tuple(
    Caution(rule.id, rule.sentence, _APPLIES[rule.id], f"{rule.source} ({rule.provenance})") for rule in trade.CAUTIONS
))  # fmt: skip
