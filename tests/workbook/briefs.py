"""Pictures and briefs for the tests."""

import io
from pathlib import Path

from PIL import Image

from sheetgen.errors import UserError
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.exchange.toml import read_toml
from sheetgen.workbook.model.values import Values

from .small import SMALL


def png(shade: tuple[int, int, int] = (200, 30, 30), size: tuple[int, int] = (40, 30), form: str = "PNG") -> bytes:
    buffer = io.BytesIO()
    Image.new("RGB", size, shade).save(buffer, form)
    return buffer.getvalue()


def loaded(folder: Path, text: str, known: Values | None = None, book=SMALL) -> Values:
    """The values of a brief with this text."""
    path = folder / "brief.toml"
    path.write_text(text, "utf-8")
    return values_of(book, read_toml(path), path, known)


def problems(folder: Path, text: str, known: Values | None = None) -> list[str]:
    """What the loader finds wrong with it, line by line, after checking the sentence above them."""
    try:
        loaded(folder, text, known)
    except UserError as error:
        assert error.status == 2
        first, *lines = str(error).split("\n")
        count = "one thing" if len(lines) == 1 else f"{len(lines)} things"
        assert first == f"{folder / 'brief.toml'}: {count} to put right:"
        return [line.removeprefix("  ") for line in lines]
    return []
