"""Trousers: woven, waistband with belt loops, fly, slanted pockets, welt pockets behind."""

from sheetgen.garments.declaration import Features, Garment, Point

GARMENT = Garment(
    word="trousers",
    place=40,
    base="men's waist 32 in / M",
    fabric="woven",
    features=Features(
        "two legs", fly=True, belt_loops=True, slanted_pockets=True, back_pockets=True, creases=True, hip_above_crotch_cm=8
    ),
    starting={"calf": 21},
    points=(
        Point("waist width, straight", "edge to edge along waistband top, closed", "half", "width", 43, 2.5, 1),
        Point("waistband height", "top edge to seam", "full", "length", 4, 0, 0.2),
        Point("hip width (seat)", "edge to edge, 3-point, at the given distance above crotch (about 8 cm)", "half", "width", 54, 2.5, 1),
        Point("thigh width", "fold to fold 2.5 cm below crotch, square to the grain", "half", "width", 32, 1.25, 0.6),
        Point("knee width", "at half the inside leg less 5 cm (state the distance)", "half", "width", 23, 0.75, 0.6),
        Point("leg opening", "edge to edge at hem", "half", "width", 19.5, 0.5, 0.5),
        Point("front rise", "crotch seam along the front to waistband top", "full", "length", 27, 0.75, 0.6),
        Point("back rise", "crotch seam along the back to waistband top", "full", "length", 37.5, 0.75, 0.6),
        Point("inside leg length", "crotch seam to hem along the inside leg", "full", "length", 81, 0, 1.3),
        Point("outside leg length", "waistband top to hem along the side seam", "full", "length", 106, 0.75, 1.3),
        Point("fly length", "waistband seam to end of opening", "full", "length", 16, 0.5, 0.5),
        Point("front pocket opening", "along the opening", "full", "other", 16, 0, 0.5),
        Point("back pocket width", "edge to edge", "full", "width", 14, 0, 0.3),
        Point("belt loop width", "edge to edge", "full", "width", 1.2, 0, 0.2),
        Point("hem height", "edge to stitching", "full", "length", 3, 0, 0.2),
    ),
)  # fmt: skip
