"""Formulas of OpenDocument files: any tree, written as either standard writes it, is read as the same formula.

Sources: OpenFormula, ISO/IEC 26300-2 (5.8 references, 5.13 inline arrays), and ECMA-376 part 1, 18.17.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from hypothesis import given
from hypothesis import strategies as st

from sheetgen.workbook.read.open_formula import area_of, excel_formula

_PLAIN = re.compile(r"[A-Za-z_]\w*\Z", re.ASCII)
_LOOKS_LIKE_A_CELL = re.compile(r"[A-Za-z]{1,3}\d+\Z|[RrCc]\d*\Z")


class Both(NamedTuple):
    """One formula as both standards write it."""

    opened: str
    shown: str


_COLUMNS = st.sampled_from(("A", "$B", "Z", "$AA", "XFD"))
_ROWS = st.sampled_from(("1", "$7", "1048576"))
_CELLS = st.builds(lambda column, row: column + row, _COLUMNS, _ROWS)
_TITLES = st.sampled_from(("Z9", "abc12", "R1", "c", "Fit")) | st.text("abZ 09'.-!ü%", min_size=1, max_size=8).filter(
    lambda title: title.strip("' ") == title
)


def _open_title(title: str) -> str:
    return "$'" + title.replace("'", "''") + "'"


def _shown_title(title: str) -> str:
    bare = _PLAIN.match(title) and not _LOOKS_LIKE_A_CELL.match(title)
    return title if bare else "'" + title.replace("'", "''") + "'"


@st.composite
def _references(draw: st.DrawFn) -> Both:
    title, first, last = draw(st.none() | _TITLES), draw(_CELLS), draw(st.none() | _CELLS)
    ends = (f":.{last}", f":{last}") if last else ("", "")
    if title is None:
        return Both(f"[.{first}{ends[0]}]", first + ends[1])
    return Both(f"[{_open_title(title)}.{first}{ends[0]}]", f"{_shown_title(title)}!{first}{ends[1]}")


def _texts() -> st.SearchStrategy[Both]:
    inside = st.text('[].;|{}a"$ ü', max_size=8).map(lambda text: '"' + text.replace('"', '""') + '"')
    return inside.map(lambda text: Both(text, text))


_NUMBERS = st.sampled_from(("0", "1", "2.5", "1E+07")).map(lambda text: Both(text, text))
_ARRAYS = st.lists(
    st.lists(st.sampled_from(("1", "2", '"a;b|c"')), min_size=2, max_size=2), min_size=1, max_size=3
).map(
    lambda rows: Both(
        "{" + "|".join(";".join(row) for row in rows) + "}", "{" + ";".join(",".join(row) for row in rows) + "}"
    )
)


def _grown(inner: st.SearchStrategy[Both]) -> st.SearchStrategy[Both]:
    call = st.builds(
        lambda name, parts: Both(
            f"{name}({';'.join(part.opened for part in parts)})", f"{name}({','.join(part.shown for part in parts)})"
        ),
        st.sampled_from(("SUM", "IF", "ISO.CEILING", "COUNTIFS")),
        st.lists(inner, max_size=3),
    )
    sign = st.builds(
        lambda one, sign, other: Both(one.opened + sign + other.opened, one.shown + sign + other.shown),
        inner, st.sampled_from(("+", "-", "&", "<>", "<=", "/", "^")), inner,
    )  # fmt: skip
    return call | sign


_FORMULAS = st.recursive(_references() | _texts() | _NUMBERS | _ARRAYS, _grown, max_leaves=12)


@given(_FORMULAS, st.sampled_from(("of:=", "oooc:=", "msoxl:=", "=")))
def test_a_formula_is_the_same_in_either_standard(formula: Both, start: str) -> None:
    assert excel_formula(start + formula.opened) == "=" + formula.shown


@given(_TITLES, _CELLS, st.none() | _CELLS)
def test_a_range_is_the_same_in_either_standard(title: str, first: str, last: str | None) -> None:
    end = f":.{last}" if last else ""
    assert area_of(f"{_open_title(title)}.{first}{end}") == (title, first + (f":{last}" if last else ""))
