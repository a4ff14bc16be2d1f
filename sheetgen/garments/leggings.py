"""Leggings: knit, broad waistband, gusset."""

from sheetgen.garments.declaration import Features, Garment, Point

GARMENT = Garment(
    word="leggings",
    place=80,
    base="women's M",
    fabric="knit",
    features=Features("two legs", hip_above_crotch_cm=10),
    starting={"hem": 2},
    points=(
        Point("waist width, relaxed", "edge to edge along waistband top", "half", "width", 31, 2, 1.3),
        Point("waist width, stretched (minimum)", "edge to edge fully stretched", "half", "other", 48, 2, 0),
        Point("waistband height", "edge to seam", "full", "length", 6, 0, 0.3),
        Point("hip width", "edge to edge, 3-point, 10 cm above crotch", "half", "width", 40, 2, 1.3),
        Point("thigh width", "fold to fold 2.5 cm below crotch", "half", "width", 23, 1, 0.6),
        Point("knee width", "at half the inside leg less 5 cm", "half", "width", 16.5, 0.6, 0.6),
        Point("calf width", "at stated distance from crotch", "half", "width", 15, 0.6, 0.6),
        Point("leg opening", "edge to edge", "half", "width", 10, 0.4, 0.5),
        Point("front rise", "crotch seam to waistband top", "full", "length", 25, 0.6, 0.6),
        Point("back rise", "crotch seam to waistband top", "full", "length", 31, 0.6, 0.6),
        Point("inside leg length", "crotch seam to hem", "full", "length", 70, 0, 1.3),
        Point("gusset length", "end to end", "full", "length", 12, 0.3, 0.5),
    ),
)  # fmt: skip
