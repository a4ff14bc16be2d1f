"""Seam classes 1 to 8 of ISO 4916:1991, with the older letters of US Fed-Std-751a / ASTM D6193.

Used for the seam choices of the construction sheet. Class names seen in a stored source (a thread maker's seam bulletin
and a textile-school page), letters from memory. Two public pages name classes 7 and 8 differently (applied / others);
in the older letters 7 is a part of LS and BS, and 8 a part of EF.
"""

from typing import Final

SEAM_CHOICES: Final = (
    "1 superimposed (SS)",
    "2 lapped (LS)",
    "3 bound (BS)",
    "4 flat (FS)",
    "5 decorative stitching (OS)",
    "6 edge finishing (EF)",
    "7 attaching a separate item",
    "8 single component",
)
"""What a drop-down offers."""
