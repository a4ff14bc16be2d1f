"""The lines of a brand's own drawing: what is seen of it and nothing else, believed only where they draw the same picture."""

import io
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from sheetgen import store
from sheetgen.workbook.model.lines import lines_kept, with_lines_kept, without_lines
from sheetgen.workbook.model.marks import Mark, marks_kept, with_marks_kept, without_marks
from sheetgen.workbook.model.pictures import drawn_over, load, with_shapes, with_vector
from sheetgen.workbook.model.traces import without_traces

SAMPLES = sorted((Path(__file__).parents[2] / "sample_inputs").glob("*/pictures/*.svg"))
SEEN = '<path d="M20 20H180V180H20Z" fill="#3a5a40"/><circle cx="60" cy="60" r="20" fill="none" stroke="#000"/>'
SECRET = "7f3c19"
"""A color, a name and a length that stand in nothing that is seen."""
HIDDEN = {
    "a remark": f"<!-- cost {SECRET} -->",
    "a title": f"<title>{SECRET}</title><desc>{SECRET}</desc><metadata>{SECRET}</metadata>",
    "another program's own": f'<x:view xmlns:x="urn:x" x:note="{SECRET}"><x:guide at="{SECRET}"/></x:view>',
    "a layer put away": f'<g display="none"><path d="M1 1H9" stroke="#{SECRET}"/></g>',
    "a layer put away by its style": f'<g style="display:none"><path d="M1 1H9" stroke="#{SECRET}"/></g>',
    "not visible": f'<g visibility="hidden"><path d="M1 1H9" stroke="#{SECRET}"/></g>',
    "beside the page": f'<path d="M300 20H380V60H300Z" fill="#{SECRET}"/>',
    "without color": f'<path d="M30 30H40" fill="none" stroke="none" stroke-width="{int(SECRET, 16)}"/>',
    "seen through wholly": f'<path d="M30 30H40V40H30Z" fill="#{SECRET}" opacity="0"/>',
    "cut away": f'<clipPath id="c{SECRET}"><path d="M0 0H10V10H0Z"/></clipPath>'
                f'<g clip-path="url(#c{SECRET})"><path d="M50 50H90V90H50Z" fill="#{SECRET}"/></g>',
    "in the definitions": f'<defs><path id="{SECRET}" d="M1 1H9" stroke="#{SECRET}"/></defs>',
    "shared, and used by nothing": f'<defs><clipPath id="a"><path d="M{SECRET[0]} {int(SECRET, 16)}H9"/></clipPath>'
                                   f'<linearGradient id="b"><stop stop-color="#{SECRET}"/></linearGradient></defs>',
    "shared, and used by what is put away":
        f'<linearGradient id="{SECRET}"><stop stop-color="#{SECRET}"/></linearGradient>'
        f'<linearGradient id="l{SECRET}" href="#{SECRET}"/><path d="M300 1H400V9H300Z" fill="url(#l{SECRET})"/>',
    "names": f'<g id="{SECRET}" class="{SECRET}" data-note="{SECRET}"><path id="p{SECRET}" d="M30 90H170V95H30Z"/></g>',
    "a style that nothing has": f"<style>.k{SECRET}{{fill:#{SECRET}}} /* {SECRET} */</style>",
}  # fmt: skip


def drawing(*parts: str, under: str = "", root: str = 'viewBox="0 0 200 200"') -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {root}><rect width="200" height="200" fill="#fff"/>{under}{SEEN}{"".join(parts)}</svg>'


def loaded(folder: Path, svg: str):
    (folder / "own.svg").write_text(svg, "utf-8")
    return load(folder / "own.svg")


@pytest.mark.parametrize("hidden", HIDDEN)
def test_what_is_not_seen_is_in_no_line(tmp_path, hidden):
    picture = loaded(tmp_path, drawing(HIDDEN[hidden]))
    lines = lines_kept(picture.data)
    assert lines and SECRET not in lines and str(int(SECRET, 16)) not in lines
    assert "3a5a40" in lines and "stroke" in lines
    assert without_lines(picture.data) == without_lines(loaded(tmp_path, drawing(HIDDEN[hidden])).data)


def test_what_lies_under_other_shapes_is_in_no_line(tmp_path):
    under = f'<path d="M60 100H90V120H60Z" fill="#{SECRET}"/>'
    lines = lines_kept(loaded(tmp_path, drawing(under=under)).data)
    assert lines and SECRET not in lines
    # What is seen through stays, with what is seen through it.
    sheer = drawing('<path d="M0 0H200V200H0Z" fill="#fff" fill-opacity="0.5"/>')
    assert lines_kept(loaded(tmp_path, sheer).data).count("<path") == 2


@pytest.mark.parametrize("more", [
    "<text x='20' y='60'>SECRET</text>", "<use href='#a'/><defs><path id='a' d='M1 1H9'/></defs>",
    "<image width='9' height='9' href='data:image/png;base64,iVBORw0KGgo='/>",
    "<filter id='f'><feGaussianBlur stdDeviation='2'/></filter><g filter='url(#f)'><path d='M1 1H99V99H1Z'/></g>",
    "<style>path{fill:#123456}</style>", "<style>@import url(x.css);</style>", "<switch><path d='M1 1H9V9H1Z'/></switch>",
])  # fmt: skip
def test_a_drawing_that_is_more_than_shapes_is_pixels_alone(tmp_path, more):
    picture = loaded(tmp_path, drawing(more))
    assert not lines_kept(picture.data) and not picture.vector


def test_what_is_shared_and_used_goes_along_by_names_of_ours(tmp_path):
    used = (
        f'<defs><linearGradient id="{SECRET}"><stop stop-color="#aa0000"/><stop offset="1" stop-color="#0000aa"/></linearGradient>'
        f'<linearGradient id="idle"><stop stop-color="#00ff00"/></linearGradient>'
        f'<linearGradient id="my-{SECRET}" xmlns:xlink="http://www.w3.org/1999/xlink" xlink:href="#{SECRET}" x2="0" y2="1"/></defs>'
        f'<path d="M40 90H160V170H40Z" fill="url(#my-{SECRET})"/>'
    )
    picture = loaded(tmp_path, drawing(used))
    assert picture.vector and SECRET not in picture.vector and "00ff00" not in picture.vector
    assert re.findall(r'id="([^"]*)"', picture.vector) == ["s1", "s2"]
    with Image.open(io.BytesIO(picture.data)) as image:
        assert image.convert("RGB").getpixel((400, 378))[0] > 140 > image.convert("RGB").getpixel((400, 654))[0]


def test_entities_are_not_opened(tmp_path):
    bomb = '<!DOCTYPE svg [<!ENTITY a "M1 1H9"><!ENTITY b "&a;&a;&a;&a;">]>' + drawing('<path d="&b;"/>')
    assert not lines_kept(loaded(tmp_path, bomb).data)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: f"{path.parts[-3]} {path.stem}")
def test_the_lines_of_a_sample_draw_its_very_pixels_and_are_shapes(path, monkeypatch):
    monkeypatch.setenv(store.SETTING, "off")
    picture = load(path)
    has_words = "<text" in path.read_text("utf-8")
    assert bool(picture.vector) != has_words
    if not has_words:
        assert with_shapes(replace(picture, vector="")) == picture == with_vector(replace(picture, vector=""))
        assert with_shapes(replace(picture, vector="")).vector == picture.vector
        assert {element.tag.rpartition("}")[2] for element in ET.fromstring(picture.vector).iter()} <= {
            "svg", "g", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon",
            "clipPath", "linearGradient", "radialGradient", "stop",
        }  # fmt: skip


@pytest.mark.parametrize("root", [
    'width="200" height="200"', 'width="200px" height="200px"', 'viewBox="0 0 200 200" width="80mm" height="80mm"',
    'viewBox="0 0 200 200" preserveAspectRatio="xMidYMid meet" width="100%"', 'viewBox="-50 -50 300 400"',
])  # fmt: skip
def test_a_page_of_any_size_has_lines(tmp_path, root):
    picture = loaded(tmp_path, drawing(root=root))
    assert with_vector(replace(picture, vector="")).vector
    assert not re.search(r"<svg[^>]* (width|height)=", picture.vector)


def test_classes_and_styles_look_as_they_did(tmp_path):
    said = '<style type="text/css">.a,.b{fill:none;stroke:#aa0000}.b{stroke-width:4}</style><path class="b" style="stroke-dasharray:3 2" d="M30 30H170"/>'
    lines = lines_kept(loaded(tmp_path, drawing(said)).data)
    assert 'stroke="#aa0000"' in lines and 'stroke-width="4"' in lines and 'stroke-dasharray="3 2"' in lines


def other(picture):
    """Another picture of the same size."""
    made = io.BytesIO()
    with Image.open(io.BytesIO(picture.data)) as image:
        Image.new("RGB", image.size, "#c0ffee").save(made, "PNG")
    return replace(picture, data=made.getvalue(), vector="")


def test_lines_that_draw_something_else_are_not_believed(tmp_path):
    picture = loaded(tmp_path, drawing())
    forged = replace(other(picture), data=with_lines_kept(other(picture).data, picture.vector))
    assert lines_kept(forged.data) and not with_vector(forged).vector
    assert lines_kept(without_traces(forged, "style.front").data) == ""
    broken = replace(picture, data=with_lines_kept(without_lines(picture.data), "<svg"), vector="")
    assert not with_vector(broken).vector and not lines_kept(without_traces(broken, "style.front").data)


def test_lines_with_more_in_them_than_is_seen_do_not_leave(tmp_path):
    picture = loaded(tmp_path, drawing())
    more = picture.vector.replace("</svg>", f'<path d="M900 1H95{SECRET[0]}" stroke="#{SECRET}"/></svg>')
    planted = replace(picture, data=with_lines_kept(without_lines(picture.data), more), vector="")
    assert with_vector(planted).vector == more, "it draws the same"
    left = without_traces(planted, "style.front")
    assert SECRET not in lines_kept(left.data) + left.vector and without_lines(left.data) == without_lines(picture.data)
    assert without_traces(replace(picture, vector=""), "style.front") == picture, "the true ones do"


def test_marks_are_drawn_over_lines_and_both_travel(tmp_path):
    picture = loaded(tmp_path, drawing())
    circle = '<circle data-row="N1" cx="210" cy="50" r="10" fill="#fff" stroke="#222"/><text x="210" y="53" font-size="9">N1</text>'
    over = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="-20 0 1300 1100">{circle}</svg>'
    marked = drawn_over(picture, over, (-20, 0, 1280, 1100), 1300)
    assert [one.ref for one in marks_kept(marked.data)] == ["N1"]
    assert lines_kept(marked.data) == marked.vector and ">N1</text>" in marked.vector
    back = with_vector(replace(without_traces(marked, "construction.flat_front"), vector=""))
    assert back.data == marked.data and back.vector == marked.vector
    with Image.open(io.BytesIO(marked.data)) as image:
        assert max(image.size) == 1300


@pytest.mark.parametrize("more", [
    "<use href='#a'/>", "<filter id='f'/>", "<image href='x.png'/>", "<foreignObject/>", "<script>1</script>", "<!-- x -->",
    "<?x?>", "<x:y xmlns:x='urn:x'/>", "<pattern id='p'/>", "< use/>",
])  # fmt: skip
def test_lines_such_as_we_do_not_write_are_not_even_drawn(tmp_path, monkeypatch, more):
    picture = loaded(tmp_path, drawing())
    planted = with_lines_kept(without_lines(picture.data), picture.vector.replace("</svg>", f"{more}</svg>"))
    monkeypatch.setattr("sheetgen.workbook.model.pictures.drawn", lambda *_: pytest.fail("it was drawn"))
    assert not with_vector(replace(picture, data=planted, vector="")).vector


@given(st.booleans(), st.text(st.characters(codec="utf-8", exclude_characters="\0<"), max_size=300))
@settings(max_examples=60)
def test_lines_and_marks_are_taken_out_as_they_were_put_in(marked, said):
    made = io.BytesIO()
    Image.new("RGB", (3, 2), "white").save(made, "PNG")
    png = made.getvalue()
    start = with_marks_kept(png, [Mark("N1", 0.1, 0.1, 0.2, 0.2)] if marked else [])
    kept = with_lines_kept(start, said)
    assert (lines_kept(kept), without_lines(kept), len(marks_kept(kept))) == (said, start, int(marked))
    assert without_marks(without_lines(kept)) == png
    with Image.open(io.BytesIO(kept)) as image:
        image.load()
