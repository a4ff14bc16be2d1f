"""Shirt: woven, collar on a band, buttoned front, yoke, buttoned cuffs and a hem with a tail."""

from sheetgen.garments.declaration import Features, Garment, Point

GARMENT = Garment(
    word="shirt",
    place=30,
    base="men's M (neck 39-40)",
    fabric="woven",
    body="men",
    for_children=True,
    features=Features(
        "top", neck="collar on a band", front="buttoned", pockets="on the chest", yoke=True, cuffs="buttoned", hem="tail"
    ),
    starting={
        "back neck drop": 2, "slope": 4.5, "waist position": 43, "neck": 17, "neck drop": 8.5, "opening": 11.3,
        "yoke": 9, "length": 79, "pocket flap": 6, "pocket position": 21,
    },
    points=(
        Point("collar length, buttoned", "center of button to far end of buttonhole along the band", "full", "other", 40, 1.5, 0.5),
        Point("chest width", "edge to edge, 2.5 cm below armhole, buttoned", "half", "width", 55, 2.5, 1),
        Point("waist width", "edge to edge at the narrowest point (about 43 cm below high shoulder point)", "half", "width", 52.5, 2.5, 1),
        Point("bottom width", "edge to edge at the hem side seams", "half", "width", 54, 2.5, 1),
        Point("center back length", "collar-band seam to hem at center back", "full", "length", 77, 1.5, 1),
        Point("across shoulder (yoke width)", "armhole seam to armhole seam at shoulder", "full", "width", 46.5, 1.5, 0.75),
        Point("across back", "seam to seam midway of armhole", "full", "width", 45, 1.5, 0.75),
        Point("across front", "seam to seam midway of armhole", "full", "width", 41.5, 1.5, 0.75),
        Point("armhole straight", "shoulder seam to underarm seam", "half", "length", 24.5, 1, 0.6),
        Point("sleeve length from shoulder, cuff included", "shoulder point to cuff edge", "full", "length", 64.5, 1, 1),
        Point("sleeve length from center back", "center back neck over shoulder point to cuff edge", "full", "length", 87.5, 1.75, 1.2),
        Point("sleeve width at biceps", "2.5 cm below armhole", "half", "width", 20.5, 1, 0.6),
        Point("cuff length, flat open", "edge to edge", "full", "other", 24.5, 0.75, 0.5),
        Point("cuff height", "seam to edge", "full", "length", 6.5, 0, 0.3),
        Point("collar point length", "band seam to tip", "full", "length", 7, 0, 0.2),
        Point("collar height at center back", "band seam to fold edge", "full", "length", 4.3, 0, 0.2),
        Point("collar band height at center back", "neck seam to band top", "full", "length", 3.3, 0, 0.2),
        Point("placket width", "fold to edge", "full", "width", 3.3, 0, 0.2),
        Point("chest pocket width", "edge to edge", "full", "width", 12, 0, 0.3),
        Point("chest pocket height", "opening to point", "full", "length", 14, 0, 0.3),
    ),
)  # fmt: skip
