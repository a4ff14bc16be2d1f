"""Nothing that is the brand's own stands in anything that leaves: copy, receipt, pack, query copy, letter, a return's report.

The overshirt with a value that stands nowhere else in each private entry; a faulty return of its copy goes through the whole
program.
"""

from __future__ import annotations

import io
import json
import zipfile
from pathlib import Path

import pytest

from sheetgen import api, cli
from sheetgen.jobs.packs import content_for
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from sheetgen.workbook.model.values import Values, ready, shape_of
from tests.edits import edited
from tests.loop import SAMPLES
from tests.workbook.canary import canaries, needles

WRONG = {"quote.fob": 41.0, "fit.points[P1].value_r1": 22.75, "materials.bom[M3].price": "1,80"}


@pytest.fixture(scope="module")
def left(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Values]:
    """The folder with all that went out, and the values of the working file."""
    folder = tmp_path_factory.mktemp("canaries")
    style = api.build(SAMPLES / "overshirt" / "brief.toml").values
    values = canaries(ready(BOOK, shape_of(BOOK, style)), style)
    working = folder / "private" / "working.xlsx"
    working.parent.mkdir()
    working.write_bytes(api.from_values(values).data)
    copy = folder / "copy.xlsx"
    assert cli.main(["issue", str(working), "--out", str(copy), "--anyway", "canary reason"]) == 0
    edited(BOOK, copy, [Edit(place, "type", value) for place, value in WRONG.items()], folder / "back.xlsx")
    (folder / "back.xlsx").replace(folder / "private" / "back.xlsx")
    back = str(folder / "private" / "back.xlsx")
    asked = [
        "--html",
        str(folder / "audit.html"),
        "--reply",
        str(folder / "reply.txt"),
        "--query",
        str(folder / "query.xlsx"),
        "--receipt",
        str(folder / "copy.receipt.json"),
    ]
    assert cli.main(["audit", back, *asked]) == 1
    return folder, values


def texts(path: Path) -> bytes:
    """All that stands in a file, its parts unpacked, and the words of a page."""
    data = path.read_bytes()
    if path.suffix == ".xlsx":
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            return b"\n".join(package.read(name) for name in package.namelist())
    if path.suffix == ".pdf":  # its words, as they are set; a PDF's own are compressed
        content, _ = content_for(api.read(path.with_name("copy.xlsx")), None)
        return data + json.dumps(content.document, ensure_ascii=False, default=str).encode()
    return data


def test_what_is_the_brands_own_stands_in_nothing_that_leaves(left):
    folder, values = left
    secrets = needles(values, ready(BOOK, shape_of(BOOK, values)))
    ours = texts(folder / "private" / "working.xlsx")
    assert sum(any(form in ours for form in forms) for forms in secrets.values()) > 0.9 * len(secrets) > 50
    gone = [path for path in folder.iterdir() if path.is_file()]
    assert {path.suffix for path in gone} == {".xlsx", ".json", ".pdf", ".txt", ".html"}
    for path in gone:
        held = texts(path)
        assert [place for place, forms in secrets.items() if any(form in held for form in forms)] == [], path.name
        assert b"canary reason" not in held, path.name
