"""The care words that a starter may use, step by step.

Steps in the order of ISO 3758 (2012, 2023): wash tub, triangle, square, iron, circle. Temperatures are those of the
standard, seen in a stored source: wash 30 to 95, tumble 60 and 80, iron 110, 150, 200 degrees Celsius. Letters P, F, W
from memory; the wording is common practice.
"""

CARE = {
    "wash": (
        *("machine wash 30 C", "machine wash 30 C, mild", "machine wash 30 C, very mild"),
        *("machine wash 40 C", "machine wash 40 C, mild", "machine wash 40 C, very mild"),
        *("machine wash 50 C", "machine wash 60 C", "machine wash 70 C", "machine wash 95 C"),
        *("hand wash", "do not wash"),
    ),
    "bleach": ("any bleach", "only non-chlorine bleach when needed", "do not bleach"),
    "dry": (
        *("tumble dry low (60 C)", "tumble dry medium (80 C)", "do not tumble dry"),
        *("line dry", "line dry in shade", "dry flat", "drip dry"),
    ),
    "iron": (
        *("iron low (110 C)", "iron low (110 C), no steam", "iron medium (150 C)", "iron high (200 C)"),
        "do not iron",
    ),
    "professional": (
        *("dry-clean (P)", "dry-clean, mild (P)", "dry-clean (F)", "wet-clean (W)"),
        "do not dry-clean",
    ),
}
