"""Vest: woven, lined, without sleeves, stand collar, front zip, welt pockets, armholes faced."""

from sheetgen.garments.declaration import Features, Garment, Point

GARMENT = Garment(
    word="vest",
    place=90,
    base="men's M",
    fabric="woven",
    body="men",
    for_children=True,
    features=Features("top", neck="stand collar", front="zipped", pockets="welts", sleeves="none"),
    outlines=("armhole facing",),
    starting={
        "back neck drop": 2, "slope": 4.5, "waist position": 44, "neck drop": 9, "yoke": 10, "hood height": 36,
        "hood width": 26, "hood opening": 38,
    },
    points=(
        Point("center back length", "collar seam to hem", "full", "length", 68, 1.5, 1),
        Point("front length from high shoulder point", "neck seam to hem", "full", "length", 70, 1.5, 1),
        Point("chest width", "edge to edge 2.5 cm below armhole, closed", "half", "width", 56, 2.5, 1.3),
        Point("waist width", "edge to edge about 44 cm below high shoulder point, closed", "half", "width", 54, 2.5, 1.3),
        Point("bottom width", "edge to edge at hem, closed", "half", "width", 55, 2.5, 1.3),
        Point("across shoulder", "armhole edge to armhole edge at the shoulder seams", "full", "width", 42, 1.25, 0.75),
        Point("across front", "armhole edge to armhole edge, midway of armhole", "full", "width", 37, 1.25, 0.75),
        Point("across back", "armhole edge to armhole edge, midway of armhole", "full", "width", 39, 1.25, 0.75),
        Point("armhole straight", "shoulder point to underarm point, edge to edge", "half", "length", 27, 1, 0.6),
        Point("neck width", "collar seam to collar seam at high shoulder points", "full", "width", 18.5, 0.5, 0.5),
        Point("collar length at seam", "neck seam end to end", "full", "other", 47, 1.5, 0.6),
        Point("collar height at center back", "seam to edge", "full", "length", 6.5, 0, 0.3),
        Point("front zip length", "bottom stop to top stop", "full", "length", 65, 1.5, 0.6),
        Point("pocket opening", "along the opening", "full", "other", 16, 0, 0.5),
        Point("hem height", "edge to stitching", "full", "length", 2.5, 0, 0.2),
    ),
)  # fmt: skip
