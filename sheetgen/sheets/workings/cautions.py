"""Steps of the cautions: what the style says of itself, and what its materials are, by their data and not by one word of a list."""

from __future__ import annotations

from sheetgen.declare.entry import Entry, computed
from sheetgen.declare.kinds import text, whole
from sheetgen.declare.parts import Form, Table
from sheetgen.sheets.lookups import material

WORDS = {"flame": "flame", "waterproof": "waterproof", "uv": "UV "}
"""Name of the step -> the word that is looked for in the style's name and description."""
_CLAIMED = ("organic", "recycled")
_RAISED = ("brushed", "fleece", "napped", "pile", "velour", "terry")
"""Words for a surface that burns faster than a plain one."""
SMALL_PARTS = ("button", "snap", "zip", "cord stopper")
_METALS = ("metal", "brass", "zinc", "alloy", "steel", "nickel", "copper")
LIGHT = 88.2
"""g/m2: plain fabrics from 2.6 oz/yd2 on are exempt, 16 CFR 1610.1(d)(1)."""
PLACES = {
    "neck": ("hood", "neck", "collar"), "waist": ("waist",), "hem": ("hem", "bottom", "leg", "ankle"), "sleeve": ("sleeve", "cuff", "arm"),
}  # fmt: skip
"""Where a cord can be -> the words that say so."""

# With &"" a blank cell is an empty text: one that is not filled yet must not silence the cautions that the others raise.
_SAID = 'style.name&""&" "&style.description&""'


def holds(words: str, *wanted: str) -> str:
    """Whether a text holds one of these, in whatever case and among whatever else."""
    return "NOT(AND(" + ",".join(f'ISERROR(SEARCH("{one}",{words}))' for one in wanted) + "))"


def flag(name: str, heading: str, words: str, *wanted: str) -> Entry:
    """1 where a text holds one of these."""
    return computed(name, heading, whole(), f"IF({holds(words, *wanted)},1,0)")


FOR_CAUTIONS = Form("For the cautions", (
    *(computed(f"says_{name}", f"The style's words hold: {word.strip()}", whole(), f'IF(ISERROR(SEARCH("{word}",{_SAID})),0,1)')
      for name, word in WORDS.items()),
    computed("says_claims", "The style's words claim something of its fibers", whole(), f"IF({holds('style_words', *_CLAIMED)},1,0)"),
    computed("style_words", "Its words", text(40), _SAID),
    computed("says_raised", "The style's words hold a raised surface", whole(), f"IF({holds('style_words', *_RAISED)},1,0)"),
    computed("small_parts", "Buttons, snaps, zips, stoppers", whole(),
             "+".join(f'COUNTIFS(materials.bom.kind,"{kind}")' for kind in SMALL_PARTS)),
))  # fmt: skip

CAUTIOUS = Table("cautious", "Materials, for the cautions", ref="M", key="item", mirrors="materials.bom",
                 note="What is blank could be anything.", columns=(
    computed("item", "Item", text(26), f'IFERROR({material("item")}&"","")'),
    computed("group", "Group", text(9), f'{material("group")}&""'),
    computed("kind", "Kind", text(12), f'IF({material("kind")}&""="",item&"",{material("kind")})', may_be_blank=("item",)),
    computed("zone", "Where", text(12), f'{material("zone")}&""'),
    computed("all_words", "All that is said of it", text(30), f'item&" "&{material("composition")}&" "&{material("note")}'),
    computed("made_of", "Composition", text(20), f'{material("composition")}&""'),
    computed("worn", "Stays on the garment", whole(), 'IF(OR(group="packing",group="label",group="thread"),0,1)'),
    flag("corded", "Called a cord", "kind", "cord", "string", "lace"),
    flag("fastener", "Called what holds one", "kind", "stopper", "lock", "end"),
    flag("surface", "Called raised", "all_words", *_RAISED),
    flag("hardware", "Called what is often of metal", "kind", "snap", "zip", "button", "eyelet", "rivet", "buckle"),
    flag("metallic", "Made of metal", "made_of", *_METALS),
    flag("furry", "Called after an animal", "kind", "leather", "down", "fur", "horn", "feather"),
    flag("claimed", "Called so", "all_words", *_CLAIMED),
    computed("cord", "A cord", whole(), "IF(AND(worn=1,corded=1,fastener=0),1,0)"),
    computed("loose", "A cord without a row on Quality", whole(), 'IF(cord=0,0,IF(COUNTIF(quality.cords.material,ref)=0,1,0))'),
    *(flag(f"says_{place}", f"Said to be there: {place}", "zone", *words) for place, words in PLACES.items()),
    *(computed(f"at_{place}", f"Such a cord, {place}", whole(), f'IF(AND(loose=1,OR(zone="",zone="all",says_{place}=1)),1,0)',
               may_be_blank=("zone", f"says_{place}")) for place in PLACES),
    computed("light", "A light fabric", whole(),
             f'IF(AND(group="fabric",OR({material("base")}="",AND({material("weight_of")}="area",{material("base")}<{LIGHT}))),1,0)',
             help="One whose weight is not known could be."),
    computed("exempt", "Of exempt fibers alone", whole(), "IF(INDEX(read.exempt,MATCH(ref,read.ref,0))=1,1,0)"),
    computed("burns", "To be tested for burning", whole(), 'IF(AND(group="fabric",OR(AND(light=1,exempt=0),surface=1)),1,0)',
             may_be_blank=("light", "surface")),
    computed("metal", "Could be of metal", whole(), 'IF(AND(hardware=1,OR(made_of="",metallic=1)),1,0)',
             may_be_blank=("made_of", "metallic", "hardware")),
    computed("animal", "Of an animal", whole(), "IF(AND(worn=1,furry=1),1,0)"),
    computed("claims", "Claims something of its fibers", whole(), "IF(AND(worn=1,claimed=1),1,0)"),
))  # fmt: skip
