"""Pictures that leave carry their pixels, their way up and their colors, and nothing else.

Metadata as EXIF 2.32 (CIPA DC-008), XMP (ISO 16684-1), PNG text chunks (ISO/IEC 15948) have it, written by Pillow.
"""

from __future__ import annotations

import io
import struct
import zlib

import pytest
from PIL import Image, ImageCms, PngImagePlugin

from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.workbook.model.marks import marks_kept
from sheetgen.workbook.model.traces import without_traces

OWNER = b"Ines Valmora, at home"
PROFILE = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def photo(mode: str = "RGB", size: tuple[int, int] = (96, 64)) -> Image.Image:
    """Red at the left, blue at the right, as soft as photos are."""
    red, blue = Image.linear_gradient("L").rotate(90).resize(size), Image.linear_gradient("L").rotate(-90).resize(size)
    return Image.merge("RGB", (blue, Image.new("L", size, 40), red)).convert(mode)


def saved(image: Image.Image, kind: str, **options: object) -> bytes:
    target = io.BytesIO()
    image.save(target, kind, **options)  # type: ignore[arg-type]
    return target.getvalue()


def exif(orientation: int = 1) -> bytes:
    tags = Image.Exif()
    tags[0x0112], tags[0x013B] = orientation, OWNER.decode()
    tags.get_ifd(0x8825)[2] = (41.0, 9.0, 0.0)
    return tags.tobytes()


def text_chunk() -> PngImagePlugin.PngInfo:
    info = PngImagePlugin.PngInfo()
    info.add_text("Author", OWNER.decode())
    return info


CASES = {
    "phone": saved(photo(), "JPEG", exif=exif(), quality=88, icc_profile=PROFILE),
    "comment": saved(photo(), "JPEG", comment=OWNER),
    "four inks": saved(photo("CMYK"), "JPEG", exif=exif()),
    "in steps": saved(photo(), "JPEG", exif=exif(), progressive=True),
    "grey": saved(photo("L"), "JPEG", exif=exif()),
    "text": saved(photo(), "PNG", pnginfo=text_chunk(), icc_profile=PROFILE),
    "palette": saved(photo("P"), "PNG", pnginfo=text_chunk()),
    "see-through": saved(photo("RGBA"), "PNG", pnginfo=text_chunk()),
    "deep": saved(Image.new("I;16", (8, 8), 40000), "PNG", pnginfo=text_chunk()),
    "moving": saved(photo(), "PNG", save_all=True, append_images=[photo().rotate(90)], pnginfo=text_chunk()),
    "behind the end": saved(photo(), "PNG") + OWNER,
    "behind the end of a photo": saved(photo(), "JPEG") + OWNER,
}


@pytest.mark.parametrize("data", CASES.values(), ids=CASES)
def test_nothing_but_the_picture_leaves(data: bytes) -> None:
    assert OWNER in data
    bare = without_traces(Picture(data), "style.front").data
    assert OWNER not in bare and b"Exif" not in bare and b"tEXt" not in bare
    before, after = Image.open(io.BytesIO(data)), Image.open(io.BytesIO(bare))
    assert (after.mode, after.size, after.info.get("icc_profile")) == (
        before.mode,
        before.size,
        before.info.get("icc_profile"),
    )
    assert len(bare) < 1.1 * len(data)
    one, other = before.convert("RGB").tobytes(), after.convert("RGB").tobytes()
    most, mean = (0, 0) if before.format == "PNG" else (8, 1.5)
    apart = [abs(a - b) for a, b in zip(one, other, strict=True)]
    assert max(apart) <= most and sum(apart) / len(apart) <= mean
    assert without_traces(Picture(bare), "style.front").data == bare  # what is bare stays as it is


def test_a_photo_that_lies_on_its_side_leaves_upright() -> None:
    data = saved(photo(), "JPEG", exif=exif(6), quality=95, subsampling=0)
    bare = without_traces(Picture(data), "style.front").data
    shown = Image.open(io.BytesIO(bare))
    assert shown.size == (64, 96) and OWNER not in bare
    top, foot = shown.getpixel((32, 2)), shown.getpixel((32, 93))
    assert isinstance(top, tuple) and isinstance(foot, tuple)
    assert top[0] > 200 > top[2] and foot[2] > 200 > foot[0]


def test_a_picture_that_cannot_be_written_anew_is_one_sentence() -> None:
    with pytest.raises(UserError, match=r"^style\.front: the picture cannot be written"):
        without_traces(Picture(CASES["phone"][:200]), "style.front")


def marked(text: str) -> bytes:
    """A picture of ours with a text where marks are kept: right after its header."""
    image = saved(photo(), "PNG")
    chunk = b"tEXtRows\0" + text.encode()
    return image[:33] + struct.pack(">I", len(chunk) - 4) + chunk + struct.pack(">I", zlib.crc32(chunk)) + image[33:]


def test_where_the_refs_of_rows_stand_goes_along():
    """It says what the picture shows, and the pages made of a copy need it."""
    data = marked("N1 0.10000 0.20000 0.05000 0.05000;N12 0.90000 0.20000 0.05000 0.05000")
    assert [mark.ref for mark in marks_kept(data)] == ["N1", "N12"]
    Image.open(io.BytesIO(data)).load()
    assert without_traces(Picture(data), "here").data == data


@pytest.mark.parametrize("text", [
    OWNER.decode(), f"N1 0.10000 0.20000 0.05000 0.05000;{OWNER.decode()}", f"N1 0.10000 0.20000 0.05000 0.05000 {OWNER.decode()}",
])  # fmt: skip
def test_what_somebody_else_put_in_its_place_does_not(text):
    data = marked(text)
    assert marks_kept(data) == ()
    assert OWNER not in without_traces(Picture(data), "here").data
