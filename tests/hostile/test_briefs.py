"""Briefs that are wrong reach nobody as a traceback: one UserError of status 2 that names the file."""

import pytest

from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style


def refusal(path, data: bytes, load=lambda path: load_style(BOOK, path, None)) -> str:
    path.write_bytes(data)
    with pytest.raises(UserError) as caught:
        load(path)
    assert caught.value.status == 2
    assert str(caught.value).startswith(f"{path}: ")
    return str(caught.value).removeprefix(f"{path}: ")


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (
            b"[style]\nnumbr = 'A'",
            "one thing to put right:\n  nothing is called 'numbr'; is it 'number'? @ style.numbr",
        ),
        (b"[style]\ndue = 'soon'", "one thing to put right:\n  must be a date, as 2026-03-31 @ style.due"),
        (b"[[materials.bom]]\nwaste = 5", "one thing to put right:\n  must be at most 50 % @ materials.bom[M1].waste"),
        (b"[style]\nnumber = ", "Invalid value (at end of document); correct that line."),
        ("[style]\nname = 'é'".encode("utf-16"), "cannot be read as text; save it as UTF-8."),
        (b"\x00\x01\x02", "Invalid statement (at line 1, column 1); correct that line."),
        (b"PK\x03\x04\xff\xfe", "cannot be read as text; save it as UTF-8."),
    ],
)
def test_a_wrong_brief(tmp_path, data, says):
    assert refusal(tmp_path / "brief.toml", data) == says
    assert [path.name for path in tmp_path.iterdir()] == ["brief.toml"]


NESTED = b"a = " + b"[" * 50_000


@pytest.mark.parametrize(
    "data", [b"\xff", NESTED, b"a = " + b"9" * 10_000, b"a = 1e999999", b"[a]\n[a]", b"=", b"a.b.c = 1\na.b = 2"]
)
@pytest.mark.parametrize("load", [load_brand, lambda path: load_style(BOOK, path, None)], ids=["brand", "brief"])
def test_nothing_that_toml_can_hold_is_a_traceback(tmp_path, data, load):
    assert refusal(tmp_path / "file.toml", data, load)


@pytest.mark.parametrize(
    "data",
    [
        b"style = 1", b"style = []", b"[style]\nsizes = {}", b"[[style]]", b"[style.sizes]\nname = 1", b"[[style.sizes]]\nname = {}",
        b"[[style.sizes]]\nname = []", b"[colorways]\nlist = [[1]]", b"[[fit.rounds]]\nrow = []\nsize = 1", b"[checks]\nto_fill = 1",
        b"[[materials.bom]]\nrow = ''\nitem = 'x'\n[[materials.bom]]\nrow = 1.5", b"[guide]\nnumber = 'x'", b"[[order.sizes]]\nrow = 'XXL'",
        b"size_range = 3", b"size_range = {}", b"size_range = []", b"[lists]\nterms = 3", b"'' = 1", b"[style]\n'' = 1",
        b"[[style.sizes]]\nname = 'S'\nrow = 'S'",
    ],
)  # fmt: skip
def test_a_value_of_another_shape_than_expected(tmp_path, data):
    assert refusal(tmp_path / "brief.toml", data)
