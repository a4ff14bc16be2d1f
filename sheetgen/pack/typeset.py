"""Typesetting: the pack's data and pictures as one PDF. The only door to the typesetting library.

Fonts of the machine are left out, so that two machines give the same bytes; `fonts` brings others for scripts that ours lacks.
"""

from __future__ import annotations

import json
import tempfile
from collections.abc import Iterator
from functools import cache, partial
from importlib.resources import files
from itertools import count
from pathlib import Path
from typing import Any

import font_source_sans_pro
import typst
from fontTools.ttLib import TTFont

from sheetgen.declare.entry import Place
from sheetgen.errors import UserError
from sheetgen.pack.content import Content
from sheetgen.texts import say

_FONTS = Path(font_source_sans_pro.__file__).parent / "files"
_FAMILY = "Source Sans Pro"
_FACE = "SourceSansPro-Regular.ttf"
"""What is not in it is in none of its weights."""
_ENDINGS = {".ttf", ".otf", ".ttc"}


_KEPT_FOR = 10
"""So many documents long the library keeps what it worked out for one: fifty megabytes of each of ours, which have nothing of it
in common."""
_documents = count()
"""How many this process has set."""


def typeset(content: Content, fonts: Path | None = None) -> bytes:
    """The PDF; the same content gives the same bytes. UserError if the folder of fonts holds none."""
    if next(_documents):
        _let_go()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        document = {**content.document, "fonts": [_FAMILY, *_families(fonts)]}
        (folder / "pack.json").write_text(json.dumps(document, ensure_ascii=False), "utf-8")
        for picture, data in content.pictures.items():
            (folder / picture).write_bytes(data)
        template = folder / "pack.typ"
        template.write_bytes((files("sheetgen.pack") / "pack.typ").read_bytes())
        return _compiled(template, [str(_FONTS), *([str(fonts)] if _others(fonts) else [])])


def _let_go() -> None:
    """Make the library let go of earlier documents: by setting nothing as often as it takes."""
    for _ in range(_KEPT_FOR + 1):
        typst.compile(b" ", ignore_system_fonts=True)


def _compiled(template: Path, fonts: list[str]) -> bytes:
    """As a document that can be read aloud (PDF/UA-1); that is refused to one with a character that no font has."""
    compiler = partial(
        typst.compile, str(template), root=str(template.parent), font_paths=fonts, ignore_system_fonts=True
    )
    try:
        made = compiler(pdf_standards="ua-1")
    except typst.TypstError as error:
        if "PDF/UA" not in str(error):
            raise
        made = compiler()
    assert isinstance(made, bytes)  # one document, no target: the library gives its bytes
    return made


def without_glyph(content: Content, fonts: Path | None = None) -> dict[str, Place]:
    """Characters that no font at hand can draw, each with the first place where it stands."""
    known = _drawn((_FONTS / _FACE, *_others(fonts)))
    found: dict[str, Place] = {}
    for text, place in content.texts:
        for sign in text:
            if ord(sign) > 31 and ord(sign) not in known:
                found.setdefault(sign, place)
    return found


def _families(fonts: Path | None) -> list[str]:
    """The names of the fonts that were brought: they go before those that the library has of its own."""
    tables: Iterator[Any] = (TTFont(path, fontNumber=0, lazy=True)["name"] for path in _others(fonts))
    names = (table.getBestFamilyName() for table in tables)
    return sorted({str(name) for name in names if name})


def _others(fonts: Path | None) -> list[Path]:
    if fonts is None:
        return []
    found = sorted(path for path in fonts.glob("*") if path.suffix.lower() in _ENDINGS) if fonts.is_dir() else []
    if not found:
        raise UserError(say("{folder}: is no folder with fonts; name one that holds .ttf or .otf files.", folder=fonts))
    return found


@cache
def _drawn(paths: tuple[Path, ...]) -> frozenset[int]:
    """The characters that these fonts can draw."""
    found: set[int] = set()
    for path in paths:
        found |= set(TTFont(path, fontNumber=0, lazy=True).getBestCmap() or ())
    return frozenset(found)
