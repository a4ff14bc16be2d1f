"""Jacket: woven, lined, stand collar, front zip, welt pockets."""

from sheetgen.garments.declaration import Features, Garment, Point

GARMENT = Garment(
    word="jacket",
    place=70,
    base="men's M",
    fabric="woven",
    body="men",
    for_children=True,
    features=Features("top", neck="stand collar", front="zipped", pockets="welts"),
    starting={
        "back neck drop": 2, "slope": 4.5, "waist position": 44, "neck": 18.5, "neck drop": 9, "hem": 2.5,
        "yoke": 10, "cuff height": 5, "hood height": 36, "hood width": 26, "hood opening": 38,
    },
    points=(
        Point("center back length", "collar seam to hem", "full", "length", 72, 1.5, 1),
        Point("front length from high shoulder point", "neck seam to hem", "full", "length", 74, 1.5, 1),
        Point("chest width", "edge to edge 2.5 cm below armhole, closed", "half", "width", 58, 2.5, 1.3),
        Point("waist width", "at stated distance below high shoulder point", "half", "width", 55, 2.5, 1.3),
        Point("bottom width", "edge to edge at hem, closed", "half", "width", 56, 2.5, 1.3),
        Point("across shoulder", "seam to seam", "full", "width", 48, 1.5, 1),
        Point("across back", "midway of armhole", "full", "width", 46, 1.5, 1),
        Point("across front", "midway of armhole", "full", "width", 42, 1.5, 1),
        Point("armhole straight", "shoulder point to underarm", "half", "length", 27, 1, 0.6),
        Point("sleeve length from shoulder", "shoulder point to edge", "full", "length", 66, 1.25, 1),
        Point("sleeve width at biceps", "2.5 cm below armhole", "half", "width", 23.5, 1, 0.6),
        Point("cuff opening", "edge to edge", "half", "width", 13.5, 0.5, 0.5),
        Point("collar length at seam", "neck seam end to end", "full", "other", 48, 1.5, 0.6),
        Point("collar height at center back", "seam to edge", "full", "length", 7, 0, 0.3),
        Point("front zip length", "bottom stop to top stop", "full", "length", 66, 1.5, 0.6),
        Point("pocket opening", "along the opening", "full", "other", 17, 0, 0.5),
    ),
)  # fmt: skip
