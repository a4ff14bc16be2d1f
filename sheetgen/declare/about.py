"""What the machinery must know of a book whose sheets it does not know: which fields say what a file is called by."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class About:
    """Addresses of the fields that name a style, say what an issue is for, and decide how figures and pages look.

    A book that lacks one leaves it empty. `wanted` is where the brand says which sheets it wants to see, `{}` for the sheet.
    """

    number: str = ""
    name: str = ""
    company: str = ""
    revision: str = ""
    purpose: str = ""
    stage: str = ""
    vendor: str = ""
    due: str = ""
    unit: str = ""
    currency: str = ""
    fractions: str = ""
    paper: str = ""
    footer: str = ""
    wanted: str = ""
    accent: str = ""
