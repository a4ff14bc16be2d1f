"""Formulas of other programs: when two mean the same, and what in one should alarm.

Compared as parsed trees: spaces, case, `$`, needless brackets and quotes, and how a number is written have no weight.
"""

from __future__ import annotations

import math
import re
from functools import lru_cache
from importlib import import_module
from typing import Any

from sheetgen.declare.a1 import plain

_RELATIVE = 1e-12
_FUTURE = re.compile(r"_xl(?:fn|ws|udf)\.(?:_xlws\.)?", re.IGNORECASE)
_RENAMED = re.compile(r"\bRANK\.EQ\(", re.IGNORECASE)
"""The newer name of RANK (Open Packaging formulas of 2010, [MS-XLSX] 2.2.3: from memory); some programs write it."""
_ONE_CELL = re.compile(r"\A((?:.*!)?)([A-Z]{1,3}[1-9]\d*):\2\Z")
_OUTSIDE = re.compile(r"\[\d+\]|'file:|https?:|\\\\|\||\.(?:xls[xmb]?+|ods|csv)['\]#]|#\$", re.IGNORECASE)
_QUOTED = re.compile(r'"(?:[^"]|"")*"')
_ALARMING = frozenset(
    "NOW TODAY RAND RANDBETWEEN RANDARRAY OFFSET INDIRECT INFO CELL WEBSERVICE FILTERXML ENCODEURL HYPERLINK RTD DDE "
    "IMPORTXML IMPORTDATA IMPORTHTML IMPORTFEED IMPORTRANGE IMAGE STOCKHISTORY CALL REGISTER REGISTER.ID EXEC EVALUATE "
    "GETPIVOTDATA CUBEVALUE CUBEMEMBER SQL.REQUEST EUROCONVERT STYLE LAMBDA GET.CELL GET.WORKBOOK FILES RUN".split()
)
"""Functions that depend on the day, on chance or on another place, or that fetch or run something (ECMA-376 part 1,
18.17.7, and OpenFormula part 2, of ISO/IEC 26300; the later ones from memory)."""
_FUNCTION = re.compile(r"(?<![A-Za-z0-9_.])([A-Za-z_][A-Za-z0-9_.]*+)\s*+\(")


def same_formula(found: str, expected: str, title: str = "") -> bool:
    """Whether two formulas mean the same; `title` is the sheet that they stand on."""
    if found == expected or plain(found) == plain(expected):
        return True
    one, other = _tree(_RENAMED.sub("RANK(", _FUTURE.sub("", found)), title), _tree(expected, title)
    return one is not None and other is not None and _same(one, other)


@lru_cache(maxsize=4096)
def alarming(formula: str) -> str | None:
    """What in a formula's text depends on the day, on chance or on something outside the file; None if nothing does."""
    bare = _QUOTED.sub('""', formula)
    for match in _FUNCTION.finditer(bare):
        name = _FUTURE.sub("", match.group(1)).upper()
        if name in _ALARMING or name.startswith("COM."):
            return name
    outside = _OUTSIDE.search(bare)
    return outside.group() if outside else None


@lru_cache(maxsize=20_000)
def _tree(formula: str, title: str) -> Any:
    """A formula as nested tuples, None if it cannot be parsed."""
    library: Any = import_module("formualizer")
    try:
        return _plain_node(library.parse(formula if formula.startswith("=") else f"={formula}").to_dict(), title)
    except Exception:  # whatever a formula that is none makes of the parser
        return None


def _plain_node(node: Any, title: str) -> Any:
    make = _NODES.get(node["node_type"])
    return (
        make(node, title) if make else (node["node_type"], repr(sorted((key, str(one)) for key, one in node.items())))
    )


def _literal(node: Any, _: str) -> Any:
    value = node["value"]
    return ("text", value) if isinstance(value, str) else ("number", float(value or 0))


def _reference(node: Any, title: str) -> Any:
    return ("reference", _plain_reference(str(node["reference"]), title))


def _unary(node: Any, title: str) -> Any:
    inner = _plain_node(node["operand"], title)
    if node["operator"] == "+":
        return inner
    return (
        ("number", -inner[1])
        if node["operator"] == "-" and inner[0] == "number"
        else ("unary", node["operator"], inner)
    )


def _binary(node: Any, title: str) -> Any:
    return ("binary", node["operator"], _plain_node(node["left"], title), _plain_node(node["right"], title))


def _function(node: Any, title: str) -> Any:
    name = str(node["name"]).upper()
    if name in {"TRUE", "FALSE"} and not node["args"]:
        return ("number", float(name == "TRUE"))
    return ("function", name, *(_plain_node(argument, title) for argument in node["args"]))


_NODES = {
    "Literal": _literal, "Reference": _reference, "UnaryOp": _unary, "BinaryOp": _binary, "Function": _function,
}  # fmt: skip


def _plain_reference(text: str, title: str) -> str:
    sheet, mark, area = text.rpartition("!")
    sheet = sheet.strip("'").replace("''", "'").casefold()
    area = area.replace("$", "").upper()
    match = _ONE_CELL.match(area)
    area = match.group(2) if match else area
    return area if not mark or sheet == title.casefold() else f"{sheet}!{area}"


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_same, one, other))
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=_RELATIVE, abs_tol=1e-300)
    return bool(one == other)
