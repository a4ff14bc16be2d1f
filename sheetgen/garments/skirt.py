"""Skirt: woven, waistband, darts, zip and vent at the center back."""

from sheetgen.garments.declaration import Features, Garment, Point

GARMENT = Garment(
    word="skirt",
    place=50,
    base="women's M (EU 40 approx.)",
    fabric="woven",
    features=Features("waist to hem"),
    points=(
        Point("waist width", "edge to edge along waistband top, closed", "half", "width", 37, 2, 1),
        Point("high hip width", "9 cm below waist seam", "half", "width", 45, 2, 1),
        Point("hip width", "edge to edge 20 cm below waist seam", "half", "width", 50.5, 2, 1),
        Point("bottom sweep", "edge to edge along the hem", "half", "width", 52, 2, 1),
        Point("center back length", "waist seam or top edge to hem", "full", "length", 60, 1, 1),
        Point("side seam length", "top edge to hem along the side", "full", "length", 60.5, 1, 1),
        Point("waistband height", "edge to seam", "full", "length", 3.5, 0, 0.2),
        Point("zip opening length", "top to bottom stop", "full", "length", 18, 0, 0.5),
        Point("vent length", "top of opening to hem", "full", "length", 18, 0, 0.5),
        Point("hem height", "edge to stitching", "full", "length", 3, 0, 0.3),
    ),
)  # fmt: skip
