"""Fiber names for labels.

Used for the composition of materials and of labels. Each name stands in Annex I of Regulation (EU) No 1007/2011, which
the UK keeps (SI 2012/1102), or among the names of 16 CFR 303.7, 303.6 and 300 (ISO 2076:2013 by reference). Markets
differ (elastane, spandex): label texts stay drafts for the responsible person.
"""

from typing import Final

FIBER_CHOICES: Final = (
    *("cotton", "wool", "silk", "linen", "flax", "ramie", "hemp", "cashmere", "mohair", "alpaca"),
    *("viscose", "rayon", "modal", "lyocell", "cupro", "acetate", "triacetate"),
    *("polyester", "polyamide", "nylon", "acrylic", "modacrylic", "elastane", "spandex"),
    *(
        "polypropylene",
        "polyethylene",
        "polyurethane",
        "polylactide",
        "elastomultiester",
        "aramid",
        "metallic",
    ),
)
"""What a drop-down offers: the names used in clothing, both markets; which of them clothing uses is common practice."""
FLAME_EXEMPT: Final = ("acrylic", "modacrylic", "nylon", "polyamide", "polyester", "polypropylene", "wool")
"""Fabrics of these alone are exempt from the test for burning, whatever they weigh: 16 CFR 1610.1(d)(2)."""
