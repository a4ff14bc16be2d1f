"""OUTLINES of cut pieces."""

OUTLINES = ("rectangle",)
