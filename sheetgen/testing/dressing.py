"""Dressing: how cells look and what lies over them, changed in a package as a person with a spreadsheet program would."""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import escape

from sheetgen.declare.a1 import letters
from sheetgen.testing.package import Package
from sheetgen.workbook.model.geometry import Cell

_STYLES = "xl/styles.xml"
_FIRST_OWN_FORMAT = 164
"""Number formats below this are built in (ECMA-376 part 1, 18.8.30)."""
_RELATIONSHIPS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_DRAWING = "http://schemas.openxmlformats.org/drawingml/2006"
_BOX = (
    '<xdr:twoCellAnchor><xdr:from><xdr:col>{left}</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>{top}</xdr:row>'
    "<xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:to><xdr:col>{right}</xdr:col><xdr:colOff>0</xdr:colOff>"
    "<xdr:row>{bottom}</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to><xdr:sp macro=\"\" textlink=\"\"><xdr:nvSpPr>"
    '<xdr:cNvPr id="9001" name="Box 9001"/><xdr:cNvSpPr txBox="1"/></xdr:nvSpPr><xdr:spPr><a:prstGeom prst="rect">'
    "<a:avLst/></a:prstGeom></xdr:spPr><xdr:txBody><a:bodyPr/><a:p><a:r><a:t>{words}</a:t></a:r></a:p></xdr:txBody>"
    "</xdr:sp><xdr:clientData/></xdr:twoCellAnchor>"
)  # fmt: skip


def dress(package: Package, cell: Cell, look: Mapping[str, object]) -> None:
    """Give a cell another look: `number_format`, `ink`, `fill` (RRGGBB), `struck`, `points`, `locked`."""
    part = package.sheet(cell.sheet)
    found = re.search(r"\d+", part.style(cell.row, cell.column))
    number = _restyled(package, int(found.group()) if found else 0, look)
    part.set_style(cell.row, cell.column, f's="{number}"')


def _restyled(package: Package, number: int, look: Mapping[str, object]) -> int:
    styles = package.text(_STYLES)
    start = styles.index("<cellXfs")
    end = styles.index("</cellXfs>")
    forms = re.findall(r"<xf [^>]*?/>|<xf .*?</xf>", styles[start:end], re.DOTALL)
    form = forms[number]
    if "number_format" in look:
        styles, code = _appended(
            styles, "numFmts", f'<numFmt numFmtId="{{id}}" formatCode="{escape(str(look["number_format"]))}"/>'
        )
        form = re.sub(r'numFmtId="\d+"', f'numFmtId="{code}"', form, count=1)
    if {"ink", "struck", "points"} & look.keys():
        ink, points = look.get("ink", "000000"), look.get("points", 10)
        struck = "<strike/>" if look.get("struck") else ""
        styles, font = _appended(
            styles, "fonts", f'<font>{struck}<sz val="{points}"/><color rgb="FF{ink}"/><name val="Arial"/></font>'
        )
        form = re.sub(r'fontId="\d+"', f'fontId="{font}"', form, count=1)
    if "fill" in look:
        styles, fill = _appended(
            styles,
            "fills",
            f'<fill><patternFill patternType="solid"><fgColor rgb="FF{look["fill"]}"/></patternFill></fill>',
        )
        form = re.sub(r'fillId="\d+"', f'fillId="{fill}"', form, count=1)
    if "locked" in look:
        plain = re.sub(r"<protection[^>]*/>", "", form)
        opening = plain.removesuffix("/>") + ">" if plain.endswith("/>") else plain.removesuffix("</xf>")
        form = f'{opening}<protection locked="{int(bool(look["locked"]))}"/></xf>'
    styles, made = _appended(styles, "cellXfs", form)
    package.add(_STYLES, styles.encode())
    return made


def _appended(styles: str, name: str, item: str) -> tuple[str, int]:
    """One item more in a list of the styles; its number there (a number format's own)."""
    match = re.search(rf'<{name} count="(\d+)"[^>]*>', styles)
    if match is None:
        styles = re.sub(r"(<styleSheet[^>]*>)", rf'\1<{name} count="0"></{name}>', styles, count=1)
        match = re.search(rf'<{name} count="(\d+)"[^>]*>', styles)
        assert match is not None
    count = int(match.group(1))
    number = count
    if name == "numFmts":
        number = max([_FIRST_OWN_FORMAT, *map(int, re.findall(r'<numFmt numFmtId="(\d+)"', styles))]) + 1
        item = item.replace("{id}", str(number))
    styles = styles.replace(match.group(), match.group().replace(f'"{count}"', f'"{count + 1}"', 1), 1)
    return styles.replace(f"</{name}>", f"{item}</{name}>", 1), number


def mark(package: Package, cell: Cell, formula: str, look: Mapping[str, object]) -> None:
    """A conditional format put in at one cell."""
    number_format = escape(str(look.get("number_format", "General")))
    item = f'<dxf><numFmt numFmtId="999" formatCode="{number_format}"/></dxf>'
    styles = package.text(_STYLES)
    if '<dxfs count="0"/>' in styles:
        styles = styles.replace('<dxfs count="0"/>', '<dxfs count="0"></dxfs>')
    styles, number = _appended(styles, "dxfs", item)
    package.add(_STYLES, styles.encode())
    rule = (
        f'<conditionalFormatting sqref="{cell.address}"><cfRule type="expression" dxfId="{number}" priority="1">'
        f"<formula>{escape(formula)}</formula></cfRule></conditionalFormatting>"
    )
    _before(
        package,
        cell.sheet,
        rule,
        "conditionalFormatting",
        "dataValidations",
        "hyperlinks",
        "printOptions",
        "pageMargins",
    )


def link(package: Package, cell: Cell, target: str) -> None:
    """A link put on a cell."""
    relation = package.relate(cell.sheet, f"{_RELATIONSHIPS}/hyperlink", target, outside=True)
    item = f'<hyperlink ref="{cell.address}" r:id="{relation}"/>'
    part = package.sheet(cell.sheet)
    if "<hyperlinks>" in part.tail:
        part.tail = part.tail.replace("<hyperlinks>", f"<hyperlinks>{item}", 1)
    else:
        _before(package, cell.sheet, f"<hyperlinks>{item}</hyperlinks>", "printOptions", "pageMargins")


def message(package: Package, cell: Cell, words: str) -> None:
    """Another input message at a cell; KeyError if it has none."""
    part = package.sheet(cell.sheet)
    for match in re.finditer(r"<dataValidation [^>]*>", part.tail):
        area = re.search(r'sqref="([^"]*)"', match.group())
        if area and re.split(r"[: ]", area.group(1))[0] == cell.address:
            changed = re.sub(r'prompt="[^"]*"', f'prompt="{escape(words)}"', match.group())
            part.tail = part.tail.replace(match.group(), changed, 1)
            return
    raise KeyError(f"{cell.address} has no message")


def text_box(package: Package, cell: Cell, words: str) -> None:
    """A text box over a cell and the one to its right."""
    box = _BOX.format(
        left=cell.column - 1, right=cell.column + 1, top=cell.row - 1, bottom=cell.row, words=escape(words)
    )
    name = package.drawing_of(cell.sheet)
    if name is None:
        name = "xl/drawings/drawing900.xml"
        package.add(
            name, f'<xdr:wsDr xmlns:xdr="{_DRAWING}/spreadsheetDrawing" xmlns:a="{_DRAWING}/main"></xdr:wsDr>'.encode()
        )
        package.declare(name, "application/vnd.openxmlformats-officedocument.drawing+xml")
        relation = package.relate(cell.sheet, f"{_RELATIONSHIPS}/drawing", "../drawings/drawing900.xml")
        part = package.sheet(cell.sheet)
        part.tail = part.tail.replace("</worksheet>", f'<drawing r:id="{relation}"/></worksheet>', 1)
    package.add(name, package.text(name).replace("</xdr:wsDr>", f"{box}</xdr:wsDr>", 1).encode())


def mirror(package: Package, cell: Cell) -> None:
    """The first picture that begins in a cell's row, mirrored; KeyError if there is none."""
    name = package.drawing_of(cell.sheet)
    text = package.text(name) if name else ""
    for match in re.finditer(r"<xdr:(?:one|two)CellAnchor.*?</xdr:(?:one|two)CellAnchor>", text, re.DOTALL):
        if f"<xdr:row>{cell.row - 1}</xdr:row>" in match.group() and "<xdr:pic>" in match.group() and name:
            turned = match.group().replace("<a:xfrm>", '<a:xfrm flipH="1">', 1)
            package.add(name, text.replace(match.group(), turned, 1).encode())
            return
    raise KeyError(f"{letters(cell.column)}{cell.row} holds no picture")


def _before(package: Package, title: str, item: str, *followers: str) -> None:
    """Put an element where the file format wants it: before the first of those that follow it."""
    part = package.sheet(title)
    places = [at for name in followers if (at := part.tail.find(f"<{name}")) >= 0]
    at = min(places, default=part.tail.index("</worksheet>"))
    part.tail = part.tail[:at] + item + part.tail[at:]
