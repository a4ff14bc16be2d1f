"""Dress: woven, waist seam, darts, zip at the center back; with sleeves if they are measured."""

from sheetgen.garments.declaration import Features, Garment, Point

GARMENT = Garment(
    word="dress",
    place=60,
    base="women's M",
    fabric="woven",
    body="women",
    features=Features("with a waist seam", sleeves="where measured"),
    starting={"back neck drop": 3, "slope": 3.5},
    points=(
        Point("front length from high shoulder point", "neck seam to hem", "full", "length", 96, 1.5, 1.3),
        Point("center back length", "center back neck seam to hem", "full", "length", 93, 1.5, 1.3),
        Point("bust width", "edge to edge 2.5 cm below armhole", "half", "width", 48, 2.5, 1),
        Point("waist position", "high shoulder point to waist seam", "full", "length", 41, 0.75, 0.6),
        Point("waist width", "edge to edge at waist seam", "half", "width", 39, 2.5, 1),
        Point("hip position", "waist seam down to hip line", "full", "length", 20, 0, 0.5),
        Point("hip width", "edge to edge at hip line", "half", "width", 51, 2.5, 1),
        Point("bottom sweep", "edge to edge along hem", "half", "width", 60, 2.5, 1.3),
        Point("across shoulder", "seam to seam", "full", "width", 38, 1, 0.6),
        Point("across front", "midway of armhole", "full", "width", 34, 1, 0.6),
        Point("across back", "midway of armhole", "full", "width", 36, 1, 0.6),
        Point("armhole straight", "shoulder point to underarm", "half", "length", 20.5, 0.75, 0.5),
        Point("sleeve length", "shoulder point to edge", "full", "length", 60, 0.75, 1),
        Point("sleeve width at biceps", "2.5 cm below armhole", "half", "width", 17, 0.75, 0.5),
        Point("sleeve opening", "edge to edge", "half", "width", 11, 0.4, 0.5),
        Point("neck width", "high shoulder point to high shoulder point", "full", "width", 20, 0.5, 0.5),
        Point("front neck drop", "line between high shoulder points to neck edge", "full", "length", 12, 0.3, 0.5),
        Point("bust dart position", "high shoulder point to dart tip", "full", "length", 27, 0.5, 0.5),
    ),
)  # fmt: skip
