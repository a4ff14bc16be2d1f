"""Pictures: PNG and JPEG as they are, SVG drawn with its text, everything else refused in one sentence."""

import base64
import io
import random
import re

import pytest
from PIL import Image, ImageChops

from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.workbook.model.pictures import drawn_over, from_svg, load, width_and_height
from sheetgen.workbook.model.raster import raw, smaller

from .briefs import png

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '


def drawn(folder, body: str, size: str = 'viewBox="0 0 200 100"') -> Image.Image:
    path = folder / "drawing.svg"
    path.write_text(f"{HEAD}{size}>{body}</svg>", "utf-8")
    return Image.open(io.BytesIO(load(path).data)).convert("RGBA")


def refusal(path) -> str:
    with pytest.raises(UserError) as caught:
        load(path)
    assert str(caught.value).startswith(f"{path}: ")
    assert "\n" not in str(caught.value)
    return str(caught.value).removeprefix(f"{path}: ")


@pytest.mark.parametrize("form", ["PNG", "JPEG"])
def test_png_and_jpeg_are_taken_byte_for_byte(tmp_path, form):
    path = tmp_path / "photo.jpg"
    path.write_bytes(png(form=form))
    assert load(path) == Picture(png(form=form))
    assert width_and_height("x", png(form=form)) == (40, 30)


@pytest.mark.parametrize(
    ("size", "pixels"),
    [
        ('viewBox="0 0 200 100"', (800, 400)),
        ("viewBox='0 0 100 200'", (400, 800)),
        ('viewBox="0 0 210 105" width="210mm" height="105mm"', (800, 400)),
        ('viewBox="0 0 100 100" width="20000" height="20000"', (800, 800)),
        ('width="60000" height="60000"', (800, 800)),
        ('width="1" height="100000000"', (1, 800)),
    ],
)
def test_a_drawing_comes_out_equally_sharp_whatever_size_it_says(tmp_path, size, pixels):
    assert drawn(tmp_path, '<rect width="9" height="9"/>', size).size == pixels


@pytest.mark.parametrize(
    "font",
    [
        'font-family="No Such Face"',
        "font-family='Arial, sans-serif'",
        "style=\"font-family:'No Such';font-size:40px\"",
        "",
    ],
)
def test_text_is_in_the_drawing_whatever_font_it_names(tmp_path, font):
    blank = drawn(tmp_path, "")
    lettered = drawn(tmp_path, f'<text x="10" y="70" font-size="40" {font}>A1</text>')
    left, top, right, bottom = ImageChops.difference(blank, lettered).getbbox() or (0, 0, 0, 0)
    # two letters of 40 units on 200 x 100: over a tenth of the width and a quarter of the height, right of x = 10
    assert 50 < left < 100
    assert right - left > 110
    assert bottom - top > 100
    assert bottom < 400


@pytest.mark.parametrize(
    "body",
    [
        '<image href="photo.png" width="9" height="9"/>',
        '<image xlink:href="../secret.png" width="9" height="9"/>',
        "<image href = 'http://example.com/a.png' width='9' height='9'/>",
        '<image href="/etc/hostname" width="9" height="9"/>',
        '<use href="other.svg#a"/>',
        '<image href="&#104;ttp://example.com/a.png"/>',
    ],
)
def test_a_drawing_that_points_outside_itself(tmp_path, body):
    path = tmp_path / "drawing.svg"
    path.write_text(f"{HEAD}>{body}</svg>")
    assert refusal(path) == "the drawing points to a file outside itself; embed that picture and save again."


def test_links_within_the_drawing_and_words_about_links_are_fine(tmp_path):
    picture = drawn(tmp_path, '<rect id="a" width="200" height="100"/><use href="#a"/><desc>src="a.png"</desc>')
    assert picture.getpixel((550, 275)) == (0, 0, 0, 255)


def test_a_drawing_with_groups_without_end(tmp_path):
    path = tmp_path / "drawing.svg"
    path.write_text(f"{HEAD}>" + "<g>" * 100_000 + "</g>" * 100_000 + "</svg>")
    assert refusal(path) == "the drawing has more than 200 groups within groups; ungroup it and save again."


@pytest.mark.parametrize("content", ["no drawing", "", "<html/>", f"{HEAD}", f'{HEAD}width="0" height="5"/>'])
def test_an_svg_that_is_none(tmp_path, content):
    path = tmp_path / "drawing.svg"
    path.write_text(content)
    assert refusal(path) == "is no SVG drawing; save it as SVG, PNG or JPEG."


@pytest.mark.parametrize(
    "content", [b"", b"not a picture", b"GIF89a" + b"\0" * 30, b"\x89PNG\r\n\x1a\nand then nothing"]
)
def test_a_png_that_is_none(tmp_path, content):
    path = tmp_path / "photo.png"
    path.write_bytes(content)
    assert refusal(path) == "is no PNG, JPEG or SVG picture; save it as one of these."


def test_a_picture_of_a_kind_we_do_not_take(tmp_path):
    path = tmp_path / "photo.png"
    path.write_bytes(png(form="BMP"))
    assert refusal(path) == "is no PNG, JPEG or SVG picture; save it as one of these."


@pytest.mark.parametrize("form", ["PNG", "JPEG"])
def test_a_picture_that_is_cut_off(tmp_path, form):
    noise = Image.effect_noise((300, 300), 90)
    buffer = io.BytesIO()
    noise.save(buffer, form)
    path = tmp_path / "photo.png"
    path.write_bytes(buffer.getvalue()[: len(buffer.getvalue()) // 2])
    assert refusal(path) == "is damaged or cut off; save the picture again."


def test_a_picture_of_too_many_pixels(tmp_path):
    path = tmp_path / "photo.png"
    path.write_bytes(png(size=(10_000, 5_001)))
    assert refusal(path) == "10000 x 5001 pixels are too many; save a smaller picture."


def test_a_picture_of_too_many_bytes(tmp_path):
    path = tmp_path / "photo.png"
    path.write_bytes(png() + b"\0" * 12_000_000)
    assert refusal(path) == "larger than 12 MB; save a smaller picture."


def test_a_missing_picture(tmp_path):
    assert refusal(tmp_path / "no.png") == "there is no such picture; correct the path or leave the entry out."


def test_a_picture_saved_anew_is_loaded_anew(tmp_path):
    path = tmp_path / "drawing.svg"
    for shade in ("#ff0000", "#0000ff"):
        path.write_text(f'{HEAD}viewBox="0 0 9 9"><rect width="9" height="9" fill="{shade}"/></svg>')
        pixel = Image.open(io.BytesIO(load(path).data)).convert("RGB").getpixel((500, 500))
        assert re.sub(r"0x", "#", "#" + "".join(f"{part:02x}" for part in pixel)) == shade


AREAS = {"#5b6b4a": "0 0", "#5b6b4b": "50 0", "#f4f6f7": "100 0", "#ffffff": "150 0"}


def test_the_colors_of_areas_are_exact_and_a_palette_holds_the_rest(tmp_path):
    """Two greens that differ by one step, a gray near white, and four hundred edges in all directions between them."""
    areas = "".join(
        f'<rect x="{at.split()[0]}" y="0" width="50" height="100" fill="{color}"/>' for color, at in AREAS.items()
    )
    edges = "".join(
        f'<path d="M{x} 0L{200 - x} 100" stroke="#14{x:02x}30" stroke-width="0.2"/>' for x in range(0, 200, 9)
    )
    image = drawn(tmp_path, areas + edges).convert("RGB")
    path = tmp_path / "drawing.svg"
    assert Image.open(io.BytesIO(load(path).data)).mode == "P"
    often = [color for _, color in sorted(image.getcolors(10_000), reverse=True)]
    wanted = {tuple(bytes.fromhex(color[1:])) for color in AREAS}
    assert {(91, 107, 74), (244, 246, 247), (255, 255, 255)} <= set(often[:4])
    assert all(
        min(sum(abs(a - b) for a, b in zip(color, one, strict=True)) for one in wanted) <= 1 for color in often[:3]
    )


def test_a_gray_drawing_keeps_the_shades_of_its_areas(tmp_path):
    image = drawn(
        tmp_path, '<rect width="200" height="100" fill="#f2f2f2"/><circle cx="50" cy="50" r="30" fill="#858585"/>'
    )
    assert {(0xF2,) * 3 + (255,), (0x85,) * 3 + (255,)} <= {color for _, color in image.getcolors(10_000)}
    assert Image.open(io.BytesIO(load(tmp_path / "drawing.svg").data)).mode in {"L", "P"}


def test_a_drawing_without_a_ground_has_a_palette_too_and_stays_sheer(tmp_path):
    """White print on nothing, as artwork for a dark garment comes; its edges are half there."""
    shapes = (
        '<circle cx="60" cy="50" r="30" fill="#ffffff"/><rect x="120" y="20" width="40" height="60" fill="#9c3b2e"/>'
    )
    edges = "".join(
        f'<path d="M{x} 0L{200 - x} 100" stroke="#14{x:02x}30" stroke-width="0.3"/>' for x in range(0, 200, 9)
    )
    image = drawn(tmp_path, shapes + edges)
    kept = Image.open(io.BytesIO(load(tmp_path / "drawing.svg").data))
    assert kept.mode == "P" and len(kept.getpalette()) <= 3 * 256
    exact = Image.open(io.BytesIO(raw((tmp_path / "drawing.svg").read_text(), max(kept.size))))
    often = [color for _, color in sorted(exact.getcolors(100_000), reverse=True)[:3]]
    assert {(0, 0, 0, 0), (255, 255, 255, 255), (0x9C, 0x3B, 0x2E, 255)} == set(often)
    assert image.size == exact.size
    for color in often:
        assert count_of(image, color) >= count_of(exact, color)
    for ground in ("white", "black"):
        off = ImageChops.difference(over(ground, image), over(ground, exact))
        far = sum(off.convert("L").histogram()[24:])
        assert far < image.width * image.height / 100, f"on {ground}: edges have the nearest of the palette's colors"


def over(ground: str, image: Image.Image) -> Image.Image:
    sheet = Image.new("RGBA", image.size, ground)
    sheet.alpha_composite(image)
    return sheet.convert("RGB")


def count_of(image: Image.Image, color: tuple[int, int, int, int]) -> int:
    return next((count for count, one in image.getcolors(100_000) if one == color), 0)


def test_an_edge_that_covers_a_part_of_its_pixels_is_no_transparency(tmp_path):
    svg = f'{HEAD}viewBox="0 0 1100 700.5"><rect width="1100" height="700.5" fill="#e8e0d0"/></svg>'
    edge = Image.open(io.BytesIO(raw(svg, 1100))).getchannel("A").getextrema()
    assert edge[0] < 255, "the drawing library leaves the last row half there"
    image = Image.open(io.BytesIO(smaller(raw(svg, 1100))))
    assert image.mode == "P" and "transparency" not in image.info
    colors = image.convert("RGB").getcolors()
    assert max(colors)[1] == (0xE8, 0xE0, 0xD0)
    assert all(abs(one - other) <= 1 for _, color in colors for one, other in zip(color, max(colors)[1], strict=True))


def test_a_photo_within_a_drawing_keeps_its_colors(tmp_path):
    chance = random.Random(4)
    photo = Image.new("RGB", (200, 100))
    photo.putdata([(chance.randrange(256), chance.randrange(256), chance.randrange(256)) for _ in range(20_000)])
    buffer = io.BytesIO()
    photo.save(buffer, "PNG")
    held = base64.b64encode(buffer.getvalue()).decode()
    image = drawn(tmp_path, f'<image width="200" height="100" href="data:image/png;base64,{held}"/>')
    assert image.convert("RGB").getcolors(16_384) is None


@pytest.mark.parametrize("form", ["PNG", "JPEG"])
def test_what_is_drawn_over_a_picture_stands_where_the_drawing_library_would_put_it(form):
    """The picture within the drawing, drawn as a whole by resvg, is the referee."""
    under = Image.new("RGB", (60, 40), "white")
    under.paste((200, 30, 30), (10, 10, 30, 30))
    buffer = io.BytesIO()
    under.save(buffer, form, quality=95)
    frame, circle = (-20.0, -10.0, 80.0, 50.0), '<circle cx="70" cy="20" r="8" fill="#222"/>'
    head = f'{HEAD}viewBox="-20 -10 100 60">'
    over = drawn_over(Picture(buffer.getvalue()), f"{head}{circle}</svg>", frame, 500)
    held = base64.b64encode(buffer.getvalue()).decode()
    image = f'<image width="60" height="40" href="data:image/{form.lower()};base64,{held}"/>'
    whole = from_svg(f'{head}<rect x="-20" y="-10" width="100" height="60" fill="#fff"/>{image}{circle}</svg>', 500)
    ours, theirs = (Image.open(io.BytesIO(one.data)).convert("RGB") for one in (over, whole))
    assert ours.size == theirs.size == (500, 300)
    difference = ImageChops.difference(ours, theirs).convert("L")
    assert sum(difference.histogram()[40:]) < 0.005 * 500 * 300  # edges, which the two smooth otherwise
    assert not ImageChops.difference(ours, Image.new("RGB", ours.size, "white")).crop((0, 0, 90, 40)).getbbox()
