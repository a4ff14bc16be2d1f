"""Fiber names by market and the words of care labels, in the order they are printed.

Used for the composition and care tables and by their rules. Label texts stay drafts for the responsible
person: each name carries the law it comes from and whether that row was seen or is from memory.
"""

from typing import Final, NamedTuple

MARKETS: Final = ("EU", "UK", "US")
"""Markets with a list of fiber names here; the UK keeps the EU list (SI 2012/1102)."""


class Fiber(NamedTuple):
    """One name a market's law knows, with the row or section of the law, and whether that row was seen."""

    name: str
    ref: str
    provenance: str


EU_SOURCE: Final = "Regulation (EU) No 1007/2011, Annex I (as amended by 286/2012 and 2018/122)"
US_SOURCE: Final = "16 CFR 303.7 and 303.6; Wool Products Labeling Act rules, 16 CFR 300; ISO 2076:2013 by reference"

_HAIRS: Final = (
    *("alpaca", "llama", "camel", "cashmere", "mohair", "angora"),
    *("vicuna", "yak", "guanaco", "cashgora", "beaver", "otter"),
)
# Annex I by number; a row with several names lists them all, the first one being the one to offer.
_EU: Final[dict[int, tuple[str, ...]]] = {
    1: ("wool",),
    2: (*_HAIRS, *(f"{hair} {word}" for hair in _HAIRS for word in ("wool", "hair"))),
    3: ("animal hair", "horsehair"),
    4: ("silk",),
    5: ("cotton",),
    6: ("kapok",),
    7: ("flax", "linen"),
    8: ("true hemp", "hemp"),
    9: ("jute",),
    10: ("abaca", "manila hemp"),
    11: ("alfa",),
    12: ("coir", "coconut"),
    13: ("broom",),
    14: ("ramie",),
    15: ("sisal",),
    16: ("sunn",),
    17: ("henequen",),
    18: ("maguey",),
    19: ("acetate",),
    20: ("alginate",),
    21: ("cupro",),
    22: ("modal",),
    23: ("protein", "regenerated protein"),
    24: ("triacetate",),
    25: ("viscose",),
    26: ("acrylic",),
    27: ("chlorofibre",),
    28: ("fluorofibre",),
    29: ("modacrylic",),
    30: ("polyamide", "nylon"),
    31: ("aramid",),
    32: ("polyimide",),
    33: ("lyocell",),
    34: ("polylactide",),
    35: ("polyester",),
    36: ("polyethylene",),
    37: ("polypropylene",),
    38: ("polycarbamide",),
    39: ("polyurethane",),
    40: ("vinylal",),
    41: ("trivinyl",),
    42: ("elastodiene",),
    43: ("elastane",),
    44: ("glass fibre",),
    45: ("elastomultiester",),
    46: ("elastolefin",),
    47: ("melamine",),
    48: ("metal", "metallic", "metallised", "paper", "asbestos"),
    49: ("polypropylene/polyamide bicomponent",),
    50: ("polyacrylate",),
}
_EU_SEEN: Final = frozenset({*range(1, 21), 50})

_US: Final[tuple[tuple[str, tuple[str, ...], bool], ...]] = (
    ("303.7(a)", ("acrylic",), False),
    ("303.7(b)", ("modacrylic",), False),
    ("303.7(c)", ("polyester", "elasterell-p", "triexta"), True),
    ("303.7(d)", ("rayon", "lyocell", "viscose", "modal", "cupro"), False),
    ("303.7(e)", ("acetate", "triacetate"), False),
    ("303.7(f)", ("saran",), False),
    ("303.7(g)", ("azlon",), False),
    ("303.7(h)", ("nytril",), False),
    ("303.7(i)", ("nylon",), False),
    ("303.7(j)", ("rubber", "lastrile"), False),
    ("303.7(k)", ("spandex",), False),
    ("303.7(l)", ("vinal",), False),
    ("303.7(m)", ("olefin", "lastol"), False),
    ("303.7(n)", ("vinyon",), False),
    ("303.7(o)", ("metallic",), False),
    ("303.7(p)", ("glass",), False),
    ("303.7(q)", ("anidex",), False),
    ("303.7(r)", ("novoloid",), False),
    ("303.7(s)", ("aramid",), False),
    ("303.7(t)", ("sulfar",), False),
    ("303.7(u)", ("PBI",), False),
    ("303.7(v)", ("elastoester",), True),
    ("303.7(w)", ("melamine",), True),
    ("303.7(x)", ("fluoropolymer",), True),
    ("303.7(y)", ("PLA",), False),
    ("303.6", ("cotton", "linen", "flax", "silk"), True),
    ("16 CFR 300", ("wool", "recycled wool"), True),
    ("303.6", ("ramie", "hemp", "jute"), False),
    ("16 CFR 300", ("cashmere", "mohair", "camel", "alpaca", "llama", "vicuna"), False),
    ("16 CFR 300", ("fur fiber",), True),
    ("303.7, ISO 2076:2013", ("chitin", "ceramic", "polybenzimidazol", "polycarbamide"), True),
    ("303.7, ISO 2076:2013", ("polypropylene/polyamide bicomponent", "protein", "trivinyl"), True),
)

US_EU_PAIRS: Final = (
    ("spandex", "elastane"),
    ("nylon", "polyamide"),
    ("rayon", "viscose"),
    ("olefin", "polypropylene"),
    ("olefin", "polyethylene"),
    ("PLA", "polylactide"),
    ("fluoropolymer", "fluorofibre"),
    ("rubber", "elastodiene"),
    ("linen", "flax"),
    ("elasterell-p", "elastomultiester"),
    ("lastol", "elastolefin"),
)
"""Nearest names, US then EU; the editors' pairs, from memory. Each market wants its own word."""

OTHER_FIBERS: Final = {
    "US": ("other fiber", "other fibers"),
    "EU": ("other fibres",),
    "UK": ("other fibres",),
}
"""Words for small rests; allowed on a label, always last, and no fiber name (16 CFR 303.3; 1007/2011 Art.
9)."""
NO_FIBER_NAMES: Final = {"bamboo": "in neither list: it is viscose or rayon made from bamboo (from memory)"}
"""Words met on labels that are no fiber name, with the reason."""


def _named(ref: str, names: tuple[str, ...], seen: bool) -> tuple[Fiber, ...]:
    return tuple(Fiber(name, ref, "seen in a stored source" if seen else "from memory") for name in names)


_EU_FIBERS: Final = tuple(
    fiber for row, names in _EU.items() for fiber in _named(f"Annex I row {row}", names, row in _EU_SEEN)
)
FIBERS: Final = {
    "EU": _EU_FIBERS,
    "UK": _EU_FIBERS,
    "US": tuple(fiber for ref, names, seen in _US for fiber in _named(ref, names, seen)),
}
"""Every name each market's law knows, in the order of the law."""
_KNOWN: Final = {market: frozenset(fiber.name.casefold() for fiber in fibers) for market, fibers in FIBERS.items()}


def known_fibre(name: str, market: str) -> bool:
    """Whether `name` stands in the list of fiber names of "EU", "UK" or "US"; case does not matter.

    "Other fiber" and trade marks are not in the lists. Raises ValueError for another market.
    """
    if market not in MARKETS:
        raise ValueError(f"no list of fiber names for {market!r}; known: {', '.join(MARKETS)}")
    return " ".join(name.split()).casefold() in _KNOWN[market]


def counterpart(name: str, to_market: str) -> tuple[str, ...]:
    """The nearest names in `to_market` for a name of the other system; empty when there is no pair.

    Raises ValueError for another market than those of MARKETS.
    """
    if to_market not in MARKETS:
        raise ValueError(f"no list of fiber names for {to_market!r}; known: {', '.join(MARKETS)}")
    wanted = " ".join(name.split()).casefold()
    if to_market == "US":
        return tuple(us for us, eu in US_EU_PAIRS if eu.casefold() == wanted)
    return tuple(eu for us, eu in US_EU_PAIRS if us.casefold() == wanted)


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
"""What a drop-down offers: the names used in clothing, both markets; which of them clothing uses is common
practice."""

# Care: order and limits from ISO 3758 (2012, 2023), seen in a stored source. The US rule (16 CFR 423.6) lists
# the same steps and fixes no order. Letters P, F, W: from memory; the wording of a choice: common practice.
CARE_ORDER: Final = ("wash", "bleach", "dry", "iron", "professional care")
"""The five steps, in the order of ISO 3758."""
CARE_ELEMENTS_US: Final = ("washing", "bleaching", "drying", "ironing", "warnings")
"""What 16 CFR 423.6(b)(1) names, in customary order; washing or dry-cleaning is enough if both are safe."""

WASH_C: Final = (95, 70, 60, 50, 40, 30)
"""Highest wash temperatures of ISO 3758, in degrees Celsius; hand wash is 30 or 40 by edition."""
IRON_C: Final = {1: 110, 2: 150, 3: 200}
"""Highest sole temperature by dots, in degrees Celsius (ISO 3758)."""
TUMBLE_C: Final = {1: 60, 2: 80}
"""Highest tumble-dry temperature by dots, in degrees Celsius (ISO 3758)."""

CARE_CHOICES: Final[dict[str, tuple[str, ...]]] = {
    "wash": (
        "machine wash 30 C",
        "machine wash 30 C, mild",
        "machine wash 30 C, very mild",
        "machine wash 40 C",
        "machine wash 40 C, mild",
        "machine wash 40 C, very mild",
        "machine wash 50 C",
        "machine wash 60 C",
        "machine wash 70 C",
        "machine wash 95 C",
        "hand wash",
        "do not wash",
    ),
    "bleach": ("any bleach", "only non-chlorine bleach when needed", "do not bleach"),
    "dry": (
        "tumble dry low (60 C)",
        "tumble dry medium (80 C)",
        "line dry",
        "line dry in shade",
        "dry flat",
        "drip dry",
        "do not tumble dry",
    ),
    "iron": (
        "iron low (110 C)",
        "iron low (110 C), no steam",
        "iron medium (150 C)",
        "iron high (200 C)",
        "do not iron",
    ),
    "professional care": (
        "dry-clean (P)",
        "dry-clean, mild (P)",
        "dry-clean (F)",
        "wet-clean (W)",
        "do not dry-clean",
    ),
}
"""What a drop-down offers for each step of CARE_ORDER."""
WARNING_CHOICES: Final = (
    "wash with like colors",
    "wash before first wear",
    "wash inside out",
    "close zippers before washing",
    "do not wring",
    "remove promptly",
    "do not iron print",
)
"""Warnings that may follow; common practice."""
