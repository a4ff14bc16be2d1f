"""The picture: every piece once, named by ref and size, its words within it, its figures those of the marker."""

import io
import re
import xml.etree.ElementTree as ET
from collections import Counter
from dataclasses import replace

import font_source_sans_pro
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageFont
from shapely import Polygon, box

from sheetgen.drawing import palette
from sheetgen.drawing.shapes import Point
from sheetgen.nesting import Marker, Piece, Placed, outline, picture
from sheetgen.nesting.labels import LEAST, Label, label
from sheetgen.nesting.picture import TINTS, caption
from sheetgen.workbook.model.pictures import from_svg

SVG = "{http://www.w3.org/2000/svg}"


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ET.fromstring(svg).iter(f"{SVG}text")]


def labels(svg: str) -> list[str]:
    groups = [group for group in ET.fromstring(svg).iter(f"{SVG}g") if group.get("class") == "label"]
    return [group.findtext(f"{SVG}text") for group in groups]


def pieces(svg: str) -> list[ET.Element]:
    return [path for path in ET.fromstring(svg).iter(f"{SVG}path") if path.get("class") == "piece"]


def long_marker(count: int, size: str = "M") -> Marker:
    """Panels of one meter in a row."""
    panel = Piece("Y1", "Panel", "rectangle", 100, 100, size=size)
    placed = tuple(
        Placed(panel, False, False, tuple(point.to(100 * n, 0) for point in outline(panel))) for n in range(count)
    )
    return Marker(100, 100 * count, placed, {size: count}, "one way", 0, 1, 1)


def side_of(one: Placed) -> str:
    """Of a pair which of the two it is: the mirrored one is called the right."""
    return (" rt" if one.mirrored else " lt") if one.piece.mirrored else ""


def test_every_piece_is_drawn_and_named_once_by_ref_and_size(marker):
    svg = picture(marker)
    assert Counter(labels(svg)) == Counter(f"{one.ref} {one.size}{side_of(one)}" for one in marker.placed)
    drawn = Counter((path.get("data-ref"), path.get("data-size")) for path in pieces(svg))
    assert set(drawn) == {(one.ref, one.size) for one in marker.placed}
    assert sum(drawn.values()) >= len(marker.placed)  # in rows, a piece that is cut off is drawn in both


def test_the_figures_are_those_of_the_marker(two_ways):
    words = texts(picture(two_ways, fabric="M1 Single jersey"))
    assert words[0] == "Marker: M1 Single jersey"
    assert words[1] == (
        f"Width 180.0 cm · length {two_ways.length_cm:.1f} cm · efficiency {two_ways.efficiency * 100:.1f} % · "
        f"3 garments (S x 1, M x 1, L x 1) · {two_ways.length_cm / 3:.1f} cm each · two ways · gap 0.3 cm · seed 3"
    )


def test_in_inches_the_figures_the_ruler_and_the_bar_are_in_inches():
    marker = replace(long_marker(1), width_cm=101.6, gap_cm=0.254)
    assert caption(marker, "in") == (
        "Width 40.0 in · length 39.4 in · efficiency 98.4 % · 1 garment (M x 1) · 39.4 in each · one way · "
        "gap 0.1 in · seed 1"
    )
    words = texts(picture(marker, unit="in"))
    assert {"0 in", "10", "20", "30", "4 in"} <= set(words)
    with pytest.raises(ValueError, match="a marker is shown in cm or in, not 'mm'"):
        picture(marker, unit="mm")


def test_sizes_have_tints_of_their_own_and_are_told_in_words(one_way):
    svg = picture(one_way)
    fills = {path.get("data-size"): path.get("fill") for path in pieces(svg)}
    assert len(set(fills.values())) == 3
    assert {"S x 1", "M x 1", "L x 1", "Y1 Front", "Y5 Neck tape", "heavy lines: selvedges"} <= set(texts(svg))


def luminance(color: str) -> float:
    """WCAG 2: relative luminance."""
    parts = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("tint", TINTS)
def test_words_stand_out_from_every_tint(tint):
    assert (luminance(tint) + 0.05) / (luminance(palette.INK) + 0.05) >= 7  # WCAG 2, level AAA


def test_more_sizes_than_tints_are_still_told_apart_by_name():
    names = [f"{number}" for number in range(32, 32 + len(TINTS) + 2)]
    panels = [Piece("Y1", "Panel", "rectangle", 30, 100, size=name) for name in names]
    placed = tuple(
        Placed(one, False, False, tuple(point.to(30 * n, 0) for point in outline(one))) for n, one in enumerate(panels)
    )
    svg = picture(Marker(100, 30 * len(names), placed, dict.fromkeys(names, 1), "one way", 0, 1, 1))
    assert labels(svg) == [f"Y1 {name}" for name in names]
    assert {f"{name} x 1" for name in names} <= set(texts(svg))


@pytest.mark.parametrize(("meters", "rows"), [(1, 1), (5, 1), (6, 2), (12, 3), (60, 5)])
def test_a_long_marker_is_shown_in_rows_and_each_piece_named_once(meters, rows):
    svg = picture(long_marker(meters))
    assert len(re.findall("<clipPath ", svg)) == rows
    assert labels(svg) == ["Y1 M"] * meters
    assert len(re.findall('class="selvedge"', svg)) == 2 * rows


def test_the_arrow_points_to_the_top_of_the_piece():
    piece = Piece("Y1", "Panel", "rectangle", 100, 100, size="M")
    for turned in (False, True):
        placed = (Placed(piece, False, turned, outline(piece)),)
        svg = picture(Marker(100, 100, placed, {"M": 1}, "two ways", 0, 1, 1))
        tail, tip = map(float, re.search(r'd="M([\d.]+) [\d.]+ L([\d.]+) [\d.]+"[^>]*class="grain"', svg).groups())
        assert (tip > tail) is turned


def block(found: Label) -> Polygon:
    """The place that words take."""
    wide, high = (found.high, found.wide) if found.upright else (found.wide, found.high)
    x, y = found.middle
    return box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)


def test_words_are_no_wider_than_their_room():
    [bold] = [file for file in font_source_sans_pro.font_files_ttf.values() if file.endswith("SourceSansPro-Bold.ttf")]
    path = outline(Piece("Y1", "", "rectangle", 400, 300))
    for words in ("Y1 M", "Y12 XXL", "Y3 34 long", "Front", "Waistband", "Sleeve placket"):
        found = label(path, [(words,)], -1e9, 1e9)
        real = ImageFont.truetype(bold, 200).getlength(words) / 200 * found.size
        assert real <= found.wide <= 1.35 * real + 6, words


def test_words_lie_within_their_piece_where_there_is_room(marker):
    scale = 5.0
    outside = 0
    for one in marker.placed:
        path = tuple(Point(point.x * scale, point.y * scale) for point in one.polygon)
        found = label(path, [(f"{one.ref} {one.size}", one.piece.name), (f"{one.ref} {one.size}",)], -1e9, 1e9)
        if not found.fits:
            outside += 1
            continue
        assert Polygon(path).contains(block(found)), one
    assert outside <= len(marker.placed) / 4  # tapes and collar stands, narrower than words are high


@settings(max_examples=60, deadline=None)
@given(
    length=st.floats(0.1, 300),
    width=st.floats(0.1, 300),
    kind=st.sampled_from(["rectangle", "curved waistband", "neck facing", "front", "gusset"]),
    left=st.floats(0, 1),
    right=st.floats(0, 1),
)
def test_a_label_is_found_for_every_piece_and_stays_in_its_row(length, width, kind, left, right):
    path = tuple(Point(5 * x, 5 * y) for x, y in outline(Piece("Y1", "", kind, length, width)))
    left, right = sorted((left * 5 * length, right * 5 * length))
    found = label(path, [("Y1 M", "Front"), ("Y1 M",)], left, right)
    assert found.size >= LEAST
    assert left - 0.01 <= found.middle.x <= right + 0.01
    assert -0.01 <= found.middle.y <= 5 * width + 0.01
    if found.fits:
        assert Polygon(path).contains(block(found))
        assert left <= block(found).bounds[0]
        assert block(found).bounds[2] <= right


def test_names_from_outside_are_made_safe():
    odd = 'M<&>"\x00'
    marker = replace(long_marker(1, odd), placed=(replace(long_marker(1, odd).placed[0]),))
    svg = picture(marker, fabric="<script>&")
    assert texts(svg)[0] == "Marker: <script>&"
    assert pieces(svg)[0].get("data-size") == 'M<&>" '


def dark(image: Image.Image, left: float, top: float, right: float, bottom: float) -> int:
    """How many pixels of a part of the drawing, in its units, are dark."""
    part = image.convert("L").crop((int(left), int(top), int(right), int(bottom)))
    return sum(count for value, count in enumerate(part.histogram()) if value < 110)


def test_title_figures_and_labels_are_there_when_it_is_rendered(two_ways):
    with Image.open(io.BytesIO(from_svg(picture(two_ways, fabric="M1 Single jersey")).data)) as image:
        assert image.width == 1600
        assert dark(image, 40, 18, 700, 50) > 300
        assert dark(image, 40, 60, 1000, 84) > 300
        one = next(one for one in two_ways.placed if one.ref == "Y1")
        scale = 900 / 180
        middle = [sum(point[axis] for point in one.polygon) / len(one.polygon) * scale for axis in (0, 1)]
        found = dark(image, 40 + middle[0] - 90, 112 + middle[1] - 70, 40 + middle[0] + 90, 112 + middle[1] + 70)
        assert found > 60
