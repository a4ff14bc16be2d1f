"""Contrast: how well a text or a line stands out from its ground."""

from __future__ import annotations

from functools import lru_cache


@lru_cache(maxsize=2000)
def contrast(ink: str, ground: str) -> float:
    """The contrast of two colors (RRGGBB), from 1 to 21 (W3C, Web Content Accessibility Guidelines 2.1: contrast ratio)."""
    dark, light = sorted((luminance(ink), luminance(ground)))
    return (light + 0.05) / (dark + 0.05)


def luminance(color: str) -> float:
    """Relative luminance as the guidelines define it; a color that cannot be read counts as black."""
    try:
        parts = [int(color[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    except ValueError:
        parts = [0.0, 0.0, 0.0]
    red, green, blue = (part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
