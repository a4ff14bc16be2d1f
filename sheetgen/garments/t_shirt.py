"""T-shirt: knit, ribbed crew neck, set-in short sleeves."""

from sheetgen.garments.declaration import Features, Garment, Point

GARMENT = Garment(
    word="t-shirt",
    place=10,
    base="men's/unisex M",
    fabric="knit",
    body="men",
    for_children=True,
    features=Features("top"),
    starting={"waist position": 43},
    points=(
        Point("front length from high shoulder point", "high shoulder point (neck seam) straight down to bottom edge", "full", "length", 72, 2, 1),
        Point("center back length", "center back neck seam to bottom edge", "full", "length", 70, 2, 1),
        Point("chest width", "edge to edge, 2.5 cm below armhole", "half", "width", 53, 2.5, 1),
        Point("bottom width", "edge to edge along the hem, relaxed", "half", "width", 53, 2.5, 1),
        Point("across shoulder", "shoulder point to shoulder point, seam to seam", "full", "width", 46, 1.5, 1),
        Point("across front", "armhole seam to seam, midway of armhole (about 15 cm below high shoulder point)", "full", "width", 40, 1.5, 0.75),
        Point("across back", "armhole seam to seam, midway of armhole", "full", "width", 42, 1.5, 0.75),
        Point("armhole straight", "shoulder point to underarm point, straight", "half", "length", 23, 1, 0.6),
        Point("sleeve length", "shoulder point along the fold to the sleeve edge", "full", "length", 21, 0.75, 0.6),
        Point("sleeve width at biceps", "fold to underarm seam, 2.5 cm below armhole, square to the fold", "half", "width", 19.5, 0.75, 0.5),
        Point("sleeve opening", "edge to edge along the sleeve hem", "half", "width", 17.5, 0.75, 0.5),
        Point("neck width", "neck seam to neck seam at high shoulder points", "full", "width", 18, 0.5, 0.5),
        Point("front neck drop", "imaginary line between high shoulder points to front neck seam at center", "full", "length", 10, 0.3, 0.5),
        Point("back neck drop", "same line to back neck seam at center", "full", "length", 2, 0, 0.3),
        Point("neck rib height", "neck seam to rib edge at center front", "full", "length", 2, 0, 0.2),
        Point("minimum neck stretch", "neck edge fully stretched, edge to edge", "half", "other", 31, 0.5, 0),
        Point("shoulder slope", "drop from high shoulder point level to shoulder point", "full", "length", 4.5, 0, 0.3),
    ),
)  # fmt: skip
