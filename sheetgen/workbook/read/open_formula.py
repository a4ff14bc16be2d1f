"""Formulas of OpenDocument files in the words of the other open standard (OpenFormula, ISO/IEC 26300-2, against
ECMA-376 part 1, 18.17).

References lose their brackets, semicolons become commas, array rows and columns their signs, and names that only one side
has get those of the other.
"""

from __future__ import annotations

import re
from functools import lru_cache

from sheetgen.declare.a1 import quoted

_START = re.compile(r"\A(?:of|oooc|msoxl):=?|\A=")
_TOKEN = re.compile(
    r'(?P<text>"(?:[^"]|"")*+")|\[(?P<reference>(?:\'(?:[^\']|\'\')*+\'|[^\]\[\'])*+)\]|(?P<open>[({])|(?P<close>[)}])'
    r"|(?P<name>[A-Za-z_][\w.]*+(?=\())|(?P<word>[\w.]++)|(?P<sign>.)",
    re.DOTALL,
)
_CELLS = re.compile(
    r"(?P<sheet>\$?(?:'(?:[^']|'')*'|[^.'$#:]*))\.(?P<first>\$?[A-Z]{0,3}\$?\d*|#REF!)"
    r"(?::(?P<other>\$?(?:'(?:[^']|'')*'|[^.'$#:]*))\.(?P<last>\$?[A-Z]{0,3}\$?\d*|#REF!))?\Z",
    re.IGNORECASE,
)
_RENAMED = {"COM.MICROSOFT.CEILING": "CEILING", "COM.MICROSOFT.FLOOR": "FLOOR", "LEGACY.RANK": "RANK"}
"""Functions that programs write under a longer name for the sake of the other standard (measured with LibreOffice 7.4)."""


@lru_cache(maxsize=20_000)
def excel_formula(text: str) -> str:
    """The formula as a workbook of the other standard writes it; what cannot be read stays as it is."""
    body = _START.sub("", text, count=1)
    out: list[str] = ["="]
    inside: list[str] = []
    for match in _TOKEN.finditer(body):
        sort = str(match.lastgroup)
        piece = match.group(sort)
        if sort == "reference":
            out.append(_reference(piece))
        elif sort == "open":
            inside.append(piece)
            out.append(piece)
        elif sort == "close":
            if inside:
                inside.pop()
            out.append(piece)
        elif sort == "name":
            out.append(_RENAMED.get(piece.upper(), piece))
        elif sort == "sign":
            in_array = inside[-1:] == ["{"]
            out.append({";": ",", "|": ";" if in_array else "|"}.get(piece, piece))
        else:
            out.append(piece)
    return "".join(out)


def _reference(text: str) -> str:
    match = _CELLS.match(text)
    if match is None:
        return f"[{text}]" if "#" in text or "/" in text else text
    sheet = _sheet(match["sheet"])
    if match["last"] is None:
        return f"{sheet}{match['first']}"
    other = _sheet(match["other"])
    if other and other != sheet:
        return f"{sheet.removesuffix('!')}:{other}{match['first']}:{match['last']}"
    return f"{sheet}{match['first']}:{match['last']}"


def _sheet(text: str | None) -> str:
    name = (text or "").removeprefix("$")
    if not name:
        return ""
    plain = name[1:-1].replace("''", "'") if name.startswith("'") else name
    return f"{quoted(plain)}!"


def area_of(text: str) -> tuple[str, str]:
    """A range's address (`$Sheet.$A$1:.$B$2`) as the sheet's title and the area (`$A$1:$B$2`); both empty if it is none."""
    match = _CELLS.match(text)
    if match is None or match["first"] in {"", "#REF!"}:
        return "", ""
    title = _sheet(match["sheet"]).removesuffix("!")
    title = title[1:-1].replace("''", "'") if title.startswith("'") else title
    return title, match["first"] + (f":{match['last']}" if match["last"] else "")
