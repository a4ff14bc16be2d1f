"""Cautions about hurting someone and about chemicals, metal, claims: what sets each off and what it says.

Used by the checks and the audit, which show the sentence when the data fit the trigger. A caution never
blocks: local law and an accredited laboratory decide, and every sentence says so.
"""

from dataclasses import dataclass
from typing import Final

DEFERENCE: Final = "This is a caution, not advice; local law and testing by an accredited laboratory decide."
"""How every sentence ends."""
SEEN: Final = "seen in a stored source"
FROM_MEMORY: Final = "from memory"


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: `id` in plain words, what sets it off, what the rule says, and the sentence shown.

    Figures stand in the units of the law quoted; `provenance` tells what of them was seen and what is from
    memory.
    """

    id: str
    area: str
    trigger: str
    rule: str
    sentence: str
    source: str
    provenance: str


def _caution(name: str, area: str, trigger: str, rule: str, says: str, source: str, provenance: str) -> Caution:
    return Caution(name, area, trigger, rule, f"{says} {DEFERENCE}", source, provenance)


CAUTIONS: Final = (
    _caution(
        "hood-cord-us",
        "drawstring US, hood/neck",
        "children's upper outerwear, size 2T-12 or equivalent, and any cord at hood or neck",
        "not permitted (substantial product hazard)",
        "Hood and neck drawstrings on children's outerwear sizes 2T to 12 are treated as a "
        "substantial product hazard in the US; remove the cord.",
        "16 CFR 1120.3(b), 76 FR 42502 (19 July 2011); ASTM F1816-97; CPSC business guidance",
        SEEN,
    ),
    _caution(
        "waist-cord-us",
        "drawstring US, waist/bottom",
        "children's upper outerwear, size 2T-16, and a cord at waist or hem",
        "at most 3 in (76 mm) outside the channel at full width; no toggles, knots or attachments"
        " on free ends; one-piece string bar-tacked",
        "Waist or hem cords on sizes 2T to 16 may show at most 3 in outside the channel at full "
        "width, carry nothing on the ends and be bar-tacked if continuous.",
        "16 CFR 1120.3(b), 76 FR 42502 (19 July 2011); ASTM F1816-97; CPSC business guidance",
        SEEN,
    ),
    _caution(
        "neck-cord-eu-young",
        "cords EU/UK, young child",
        "age under 7 or height up to 134 cm, and any drawstring or tie cord at hood, head, neck",
        "not permitted",
        "EN 14682 allows no drawstrings or tie cords at hood, head or neck on clothing for "
        "children under 7 years (up to 134 cm).",
        "EN 14682:2014; Finnish safety agency page",
        SEEN,
    ),
    _caution(
        "neck-cord-eu-older",
        "cords EU/UK, older child",
        "age 7-14 (girls to 176 cm, boys to 182 cm) and cord at hood or neck",
        "no free ends; loops limited",
        "EN 14682 allows no free-ended drawstrings at hood or neck for older children.",
        "EN 14682:2014; public summaries",
        "ages, heights, free ends seen in a stored source; loops from memory",
    ),
    _caution(
        "waist-cord-eu",
        "cords EU/UK, waist",
        "drawstring at waist, child up to 14",
        "protruding end at most 140 mm; tied belt or sash at most 360 mm",
        "Check protruding waist cord length against EN 14682 (140 mm; sashes 360 mm).",
        "EN 14682:2014 clauses by zone",
        FROM_MEMORY,
    ),
    _caution(
        "hem-cord-eu",
        "cords EU/UK, hem, ankle, sleeve",
        "cord at lower hem, ankle or long sleeve end, child up to 14",
        "may not hang below a hem that is below the crotch; ankle and sleeve-end cords inside the garment",
        "Cords at lower hems and ankles must not hang below the edge (EN 14682).",
        "EN 14682:2014",
        FROM_MEMORY,
    ),
    _caution(
        "hood-cord-uk",
        "hood cords UK",
        "child's outer garment, hood with cord, chest flat up to 44 cm",
        "not permitted",
        "UK 1976 rules ban hood cords on small children's outer garments.",
        "The Children's Clothing (Hood Cords) Regulations 1976 (SI 1976/2)",
        FROM_MEMORY,
    ),
    _caution(
        "small-parts-us",
        "small parts US",
        "product for under 3 with snaps, buttons, sequins, appliques",
        "children's clothing and accessories such as buttons are EXEMPT from 16 CFR 1501; a toy "
        "attached to clothing is not",
        "US small-parts rule exempts clothing and buttons, but detachable trims are still a "
        "choking hazard; specify attachment strength and test it.",
        "16 CFR 1501.1, 1501.3(d)",
        "exemption seen in a stored source; toy clause from memory",
    ),
    _caution(
        "attached-parts-eu",
        "attached components EU/UK",
        "buttons, snaps, zips, labels on clothing up to 14 years",
        "attachment tested; customary pull 70 N (small) to 90 N for 10 s",
        "State a pull-test value for attached parts on children's wear.",
        "EN 17394 parts 1-4; CEN/TR 16792; BS 7907",
        FROM_MEMORY,
    ),
    _caution(
        "sleepwear-us",
        "sleepwear US",
        "nightwear, robes sizes above 9 months to 14 (0-6X and 7-14), not tight-fitting",
        "fabric, seams and trim must pass 16 CFR 1615 / 1616",
        "Children's sleepwear needs flame-resistance testing unless sized 9 months or under or "
        "meeting the tight-fitting dimensions and labels.",
        "16 CFR 1615, 1616 (1616.2(a)); 61 FR 47634",
        SEEN,
    ),
    _caution(
        "nightwear-uk",
        "nightwear UK",
        "children's nightwear",
        "flammability performance or warning label",
        "UK nightwear rules require performance or a KEEP AWAY FROM FIRE label.",
        "Nightwear (Safety) Regulations 1985; BS 5722 / BS EN 14878",
        FROM_MEMORY,
    ),
    _caution(
        "flammability-us",
        "flammability US general",
        "any apparel fabric",
        "Class 1, 2 or 3; class 3 not permitted. No test needed: plain-surface fabric of 2.6 "
        "oz/yd2 (88.2 g/m2) or more, or any fabric wholly of acrylic, modacrylic, nylon, olefin, "
        "polyester, wool",
        "Light plain fabrics under 2.6 oz/yd2 and raised-surface fabrics of cotton, rayon, silk "
        "or blends need a flammability test.",
        "16 CFR 1610, 1610.1(d)",
        "from memory; three classes seen in a stored source",
    ),
    _caution(
        "lead-us",
        "lead US",
        "accessible metal, plastic or coated part on an item for children 12 and under",
        "100 ppm total lead; 90 ppm in paint or surface coating; textiles generally determined not to exceed",
        "Ask for lead results on zips, snaps, prints and coatings.",
        "CPSIA s.101; 16 CFR 1303, 1500.88-91",
        FROM_MEMORY,
    ),
    _caution(
        "phthalates-us",
        "phthalates US",
        "plastisol print, vinyl or soft plastic on sleepwear or child-care items for 3 and under",
        "0.1 % each of eight phthalates",
        "Ask for phthalate results on plastisol prints and soft plastic trims.",
        "CPSIA s.108; 16 CFR 1307",
        FROM_MEMORY,
    ),
    _caution(
        "certificate-us",
        "certificate US",
        "any children's product (12 and under)",
        "third-party test at an accepted laboratory, children's product certificate, tracking label",
        "Children's items need a certificate and a tracking label (maker, place, date, batch).",
        "CPSIA s.102, 103; 16 CFR 1107, 1110",
        FROM_MEMORY,
    ),
    _caution(
        "nickel-eu",
        "nickel EU/UK",
        "metal rivet, rivet button, zip, tightener, mark in skin contact",
        "release at most 0.5 ug/cm2/week (0.2 for piercing posts); coated parts must hold for 2 years",
        "Specify nickel-safe metal trims and ask for EN 1811 / EN 12472 results.",
        "REACH Annex XVII entry 27; EN 1811",
        SEEN,
    ),
    _caution(
        "azo-dyes-eu",
        "azo dyes EU/UK",
        "dyed textile or leather in prolonged skin contact",
        "no listed aromatic amine above 30 mg/kg",
        "Ask the dye house for an azo declaration (EN ISO 14362-1).",
        "REACH Annex XVII entry 43",
        "seen in a stored source; limit value from memory",
    ),
    _caution(
        "chromium-eu",
        "chromium VI EU/UK",
        "leather parts touching skin",
        "3 mg/kg of dry leather",
        "Ask for a chromium VI result on leather patches.",
        "REACH Annex XVII entry 47",
        FROM_MEMORY,
    ),
    _caution(
        "animal-parts",
        "down, fur, animal parts",
        "down, fur, leather, horn, shell, bone in the bill of materials",
        "EU/UK phrase (EU-07); US fur act and species permits may apply",
        "Animal-origin parts need their label phrase and may need permits.",
        "Reg. 1007/2011 Art. 12; Fur Products Labeling Act 16 CFR 301",
        SEEN,
    ),
    _caution(
        "needle-control",
        "needles and metal",
        "any children's or infant garment",
        "broken-needle log and metal detection",
        "Ask the factory for needle control and metal detection on infant wear.",
        "buyer practice",
        "common practice",
    ),
    _caution(
        "claims",
        "claims",
        "organic, recycled, flame resistant, UV, waterproof in the text",
        "each claim needs evidence",
        "A performance or environmental claim needs a certificate or test report.",
        "16 CFR 260 (Green Guides); Unfair Commercial Practices Directive 2005/29/EC",
        FROM_MEMORY,
    ),
)
"""All cautions, drawcords first."""
