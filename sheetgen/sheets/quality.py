"""Quality: tests, defects, needle control, packing and barcodes, and the usual cautions where a garment can hurt someone."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per, vendor
from sheetgen.declare.kinds import choice, picture, text, yes_no
from sheetgen.declare.parts import Caution, Form, Pictures, Section, Sheet, Table
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


def _any(*kinds: str) -> str:
    return "+".join(_count(kind=kind) for kind in kinds)


def _says(*words: str) -> str:
    """How many of these words the name and the description of the style hold."""
    return "+".join(f"workings.says_{word}" for word in words)


_CORD_NECK = _count(kind="cord", zone="hood or neck")
_CORD_WAIST = _count(kind="cord", zone="waist")
_CORD_HEM = _count(kind="cord", zone="hem")
_CORD_SLEEVE = _count(kind="cord", zone="sleeve")
_FABRICS = _count(group="fabric")
_SMALL = "workings.small_parts"

_APPLIES = {
    "hood-cord-us": f"IF(AND({_CHILD},{_OUTER},{_US}),{_CORD_NECK},0)",
    "waist-cord-us": f"IF(AND({_CHILD},{_OUTER},{_US}),{_CORD_WAIST}+{_CORD_HEM},0)",
    "neck-cord-eu-young": f"IF(AND({_CHILD},{_EU_UK},OR({_HEIGHT},style.height_to<=134)),{_CORD_NECK},0)",
    "neck-cord-eu-older": f'IF(AND({_CHILD},{_EU_UK},style.height_to<>"",style.height_to>134),{_CORD_NECK},0)',
    "waist-cord-eu": f"IF(AND({_CHILD},{_EU_UK}),{_CORD_WAIST},0)",
    "hem-cord-eu": f"IF(AND({_CHILD},{_EU_UK}),{_CORD_HEM}+{_CORD_SLEEVE},0)",
    "hood-cord-uk": f"IF(AND({_CHILD},{_OUTER},{_UK}),{_CORD_NECK},0)",
    "small-parts-us": f"IF(AND({_CHILD},{_US}),{_SMALL},0)",
    "attached-parts-eu": f"IF(AND({_CHILD},{_EU_UK}),{_SMALL},0)",
    "sleepwear-us": f"IF(AND({_CHILD},{_NIGHT},{_US}),1,0)",
    "nightwear-uk": f"IF(AND({_CHILD},{_NIGHT},{_UK}),1,0)",
    "flammability-us": f'IF({_US},COUNTIFS(materials.bom.group,"fabric",materials.bom.weight,"<88.2")+{_says("brushed", "fleece", "napped")},0)',
    "lead-us": f"IF(AND({_CHILD},{_US}),{_SMALL}+{_count(kind='print')},0)",
    "phthalates-us": f"IF(AND({_CHILD},{_US}),{_count(kind='print')},0)",
    "certificate-us": f"IF(AND({_CHILD},{_US}),1,0)",
    "nickel-eu": f"IF({_EU_UK},{_any('snap', 'zip', 'button')},0)",
    "azo-dyes-eu": f"IF({_EU_UK},{_FABRICS}+{_count(kind='leather')},0)",
    "chromium-eu": f"IF({_EU_UK},{_count(kind='leather')},0)",
    "animal-parts": _any("leather", "down"),
    "needle-control": f"IF({_CHILD},1,0)",
    "claims": _says("organic", "recycled", "flame", "waterproof", "uv"),
}
"""When each of the trade's cautions applies, from the data of the style: never from its name alone."""

QUALITY = Sheet("quality", "Quality", purpose="What is tested, what counts as a defect, how it is packed. Cautions stand on the Checks sheet.", parts=(
    Form("In the factory", (
        designer("needle", "Needle control", text(60), need="bulk"),
        designer("metal", "Metal detection", text(60), need="bulk"),
        designer("lot", "Lot and tracking marks", text(60), need="bulk"),
        designer("certificates", "Certificates asked for", text(60), need="bulk"),
        vendor("certificate_numbers", "Certificate numbers", text(60), need="bulk"),
        designer("substitution", "Substitutes", text(60), need="quote", help="What may be replaced by something equal, and who decides."),
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
        designer("defect", "Defect", text(44), need="bulk"),
        designer("severity", "Class", choice("critical", "major", "minor"), need="bulk"),
        designer("note", "Note", text(40)),
    )),
    Table("tests", "Tests", ref="T", key="test", spare=3, columns=(
        designer("test", "Test", text(26), need="sample"),
        designer("method", "Method", text(20), need="sample"),
        designer("limit", "Must reach", text(24), need="sample"),
        designer("laboratory", "Tested by", text(18), need="sample"),
        vendor("result", "Result", text(18), need="bulk"),
        vendor("report", "Report number", text(16), need="bulk"),
        designer("accepted", "Accepted", yes_no(9)),
    )),
), cautions=tuple(
    Caution(rule.id, rule.sentence, _APPLIES[rule.id], f"{rule.source} ({rule.provenance})") for rule in trade.CAUTIONS
))  # fmt: skip
