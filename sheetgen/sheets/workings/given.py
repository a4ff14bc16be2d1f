"""What an approval was given to: a mark of everything that it covers, which is another one when something of that changes.

A mark is a sum over letters, digits and figures, each row with its own weight: no proof that two texts are the same, but a
change that leaves it as it was has to be made on purpose. It is worked out live, in plain cells, alike in all programs.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from string import ascii_lowercase, ascii_uppercase, digits

from sheetgen.declare.entry import Entry, Place, computed, or_zero, per
from sheetgen.declare.kinds import Value, number, text, whole
from sheetgen.declare.parts import Form, Ledger, Line, Part, Section, Table

_ITEMS = "approvals.items"
CHANGED = "changed since"
"""What is said of an approval that was given to something else than what stands there now."""
_WEIGHTS = tuple(number for number in range(2, 300) if all(number % part for part in range(2, number)))
"""Primes: no few letters weigh as much as few others."""
_WEIGHED = tuple(zip(ascii_lowercase + digits + ascii_uppercase, _WEIGHTS, strict=True))
_IN_A_STEP = 7
"""So many letters a formula can weigh and still be read."""


def _line(of: str) -> Entry:
    return computed("line", "Line", whole(), f"MATCH(ref,{of}.ref,0)")


def _said(of: str, *columns: str) -> Iterator[Entry]:
    """Numbers as texts of four digits after the point, which all programs write alike; what is blank or no number, as it is."""
    for column in columns:
        it = f"INDEX({of}.{column},line)"
        formula = f'IF({it}="","",IFERROR(ROUND({it},4),{it})&"")'
        yield computed(f"said_{column}", f"Said: {column.replace('_', ' ')}", text(12), formula)


def _text(of: str, *columns: str) -> Entry:
    """The columns of a row in one text, each as it stands there or, `said_` before its name, as it is said above."""
    said = tuple(column for column in columns if column.startswith("said_"))
    words = (column if column in said else f"INDEX({of}.{column},line)" for column in columns)
    return computed("words", "What counts", text(40), '&"/"&'.join(words), may_be_blank=said)


def _named(of: str, column: str, heading: str) -> Entry:
    return computed(column, heading, text(26), f'IFERROR(INDEX({of}.{column},MATCH(ref,{of}.ref,0))&"","")')


def _marked() -> Iterator[Entry]:
    """Of a row's words: the sum of what is left when each letter or digit is taken out of them, each with its weight.

    No engine but a spreadsheet's takes SUBSTITUTE letter by letter inside SUMPRODUCT, so that every letter is a term; and
    LOWER is not alike in all of them beyond A to Z (measured), so that small and capital letters are terms of their own.
    """
    steps = [_WEIGHED[at : at + _IN_A_STEP] for at in range(0, len(_WEIGHED), _IN_A_STEP)]
    for step, some in enumerate(steps, 1):
        terms = "+".join(f'{weight}*LEN(SUBSTITUTE(words,"{letter}",""))' for letter, weight in some)
        yield computed(f"signs_{step}", f"Signs {some[0][0]} to {some[-1][0]}", whole(), terms)
    yield computed(
        "mark", "Mark", whole(width=16), f"line*({'+'.join(f'signs_{n}' for n in range(1, len(steps) + 1))})"
    )


MATERIAL_MARKS = Table("material_marks", "Marks of materials", ref="M", key="item", mirrors="materials.bom", columns=(
    _named("materials.bom", "item", "Item"),
    _line("materials.bom"),
    *_said("materials.bom", "weight", "width"),
    _text("materials.bom", "item", "composition", "said_weight", "said_width", "supplier_ref"),
    *_marked(),
))  # fmt: skip

ARTWORK_MARKS = Table("artwork_marks", "Marks of artwork", ref="A", key="name", mirrors="artwork.pieces", columns=(
    _named("artwork.pieces", "name", "Artwork"),
    _line("artwork.pieces"),
    *_said("artwork.pieces", "width", "height"),
    _text("artwork.pieces", "name", "technique", "said_width", "said_height", "colors", "placement"),
    *_marked(),
))  # fmt: skip

LABEL_MARKS = Table("label_marks", "Marks of labels", ref="L", key="label", mirrors="labels.items", columns=(
    _named("labels.items", "label", "Label"),
    _line("labels.items"),
    _text("labels.items", "label", "material", "wording"),
    *_marked(),
))  # fmt: skip

PART_MARKS = Table("part_marks", "Marks of compositions", ref="F", key="part", mirrors="labels.composition", columns=(
    _named("labels.composition", "part", "Part"),
    _line("labels.composition"),
    _text("labels.composition", "wording"),
    *_marked(),
))  # fmt: skip

COLOR_MARKS = Table("color_marks", "Marks of colors", ref="K", key="component", mirrors="colorways.components", columns=(
    _named("colorways.components", "component", "Component"),
    _line("colorways.components"),
    Section("Color and reference", (
        per("colorway", computed("shade", "{colorway}", text(24),
                                 'INDEX(colorways.components.color.mine,line)&"/"&INDEX(colorways.components.reference.mine,line)')),
    )),
    Section("All colorways", (
        per("colorway", computed("so_far", "up to {colorway}", text(24), 'so_far.prev&"/"&shade.mine', first='component&"/"&shade.mine')),
        computed("words", "What counts", text(40), "so_far.last"),
        *_marked(),
    )),
))  # fmt: skip

_TARGETS = ("target_l", "target_a", "target_b", "limit")
DIP_MARKS = Table("dip_marks", "Marks of lab dips", ref="D", key="component", mirrors="colorways.dips", columns=(
    _named("colorways.dips", "component", "Component"),
    _line("colorways.dips"),
    computed("color", "Its color", text(24),
             "IFERROR(INDEX(color_marks.shade.all,MATCH(component,color_marks.component,0),"
             'MATCH(INDEX(colorways.dips.colorway,line)&"",colorways.list.name,0))&"","")'),
    *_said("colorways.dips", *_TARGETS),
    replace(_text("colorways.dips", "colorway", *(f"said_{target}" for target in _TARGETS)), name="targets", heading="Targets"),
    computed("words", "What counts", text(40), 'component&"/"&color&"/"&targets'),
    *_marked(),
))  # fmt: skip

_A_MARK = "a mark: what counts is only whether it changes"
POINT_MARKS = Table("point_marks", "Marks of measurements", ref="P", key="point", mirrors="measurements.points", columns=(
    _named("measurements.points", "point", "Point of measure"),
    _line("measurements.points"),
    or_zero(_A_MARK, computed("beside", "Tolerance and grade", number(4, width=18), "+".join(
        f"{weight}*N(INDEX(measurements.points.{column},line))"
        for column, weight in (("minus", 0.37), ("plus", 0.73), ("reach.last", 0.19), ("by_hand", 0.11))
    ))),
    or_zero(_A_MARK, computed("mark", "Mark", number(4, width=18), "line*(N(INDEX(measurements.points.current,line))+beside)")),
    Section("As asked in each round", (
        per("round", or_zero(_A_MARK, computed("asked", "{round}", number(4, width=18), "line*(N(INDEX(fit.points.start.mine,line))+beside)"))),
    )),
))  # fmt: skip

ASKED_MARKS = Ledger("Marks of what was asked, round by round", ("Mark", "{round}"), (32, 14), (
    Line(("Sum of what was asked",), (per("round", computed("asked_mark", "Sum of what was asked", number(4), "SUM(point_marks.asked.mine)")),)),
))  # fmt: skip

ALL_MARKS = Form("Marks", (
    computed("mark_colors", "Colors", number(2), "SUM(color_marks.mark)+SUM(dip_marks.mark)"),
    computed("mark_artwork", "Artwork", number(2), "SUM(artwork_marks.mark)"),
    computed("mark_materials", "Materials and labels", number(2), "SUM(material_marks.mark)+SUM(label_marks.mark)+SUM(part_marks.mark)"),
    computed("mark_points", "Measurements", number(4), "SUM(point_marks.mark)"),
    computed("mark_all", "All", number(4), "mark_colors+mark_artwork+mark_materials+mark_points"),
))  # fmt: skip


def _own(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    return tuple(replace(entry, private=True) for entry in entries)


def _brand_only(table: Table) -> Table:
    """The same with every column the brand's own: a copy has no use for it."""
    columns = (
        replace(one, columns=_own(one.columns)) if isinstance(one, Section) else replace(one, private=True)
        for one in table.columns
    )
    return replace(table, columns=tuple(columns))


_MARKS = (MATERIAL_MARKS, ARTWORK_MARKS, LABEL_MARKS, PART_MARKS, COLOR_MARKS, DIP_MARKS, POINT_MARKS)
GIVEN: tuple[Part, ...] = (
    *map(_brand_only, _MARKS),
    replace(ASKED_MARKS, lines=tuple(replace(line, entries=_own(line.entries)) for line in ASKED_MARKS.lines)),
    replace(ALL_MARKS, entries=_own(ALL_MARKS.entries)),
)

STANDS_AT = _own((
    computed("at_round", "Mark: round", number(4, width=18), 'IFERROR(INDEX(workings.asked_mark.all,MATCH(about,fit.rounds.ref,0)),"")'),
    computed("at_dip", "Mark: lab dip", number(2, width=18), 'IFERROR(INDEX(workings.dip_marks.mark,MATCH(about,workings.dip_marks.ref,0)),"")'),
    computed("at_artwork", "Mark: artwork", number(2, width=18), 'IFERROR(INDEX(workings.artwork_marks.mark,MATCH(about,workings.artwork_marks.ref,0)),"")'),
    computed("at_kind", "Mark: its kind", number(4, width=18),
             'IF(kind&""="lab dip",workings.mark_colors,IF(kind&""="strike-off",workings.mark_artwork,'
             'IF(OR(kind&""="trims card",kind&""="test report"),workings.mark_materials,workings.mark_all)))'),
    computed("now", "It stands at", number(4, width=18),
             'IF(N(at_round)<>0,N(at_round),IF(N(at_dip)<>0,N(at_dip),IF(N(at_artwork)<>0,N(at_artwork),at_kind)))'),
))  # fmt: skip
"""What an approval covers now: its round's measurements, its dip, its artwork; else by its kind; else all of the style."""


def given_now(values: Mapping[Place, Value], shown: Mapping[Place, Value]) -> dict[Place, Value]:
    """What a build keeps or forgets of approvals: those newly given, with what they cover, and those taken back (None)."""
    found: dict[Place, Value] = {}
    for place in values:
        if place.entry != f"{_ITEMS}.item":
            continue
        state, mark, revision = (Place(f"{_ITEMS}.{name}", place.row) for name in ("state", "given", "given_revision"))
        says, kept = str(shown.get(state) or ""), values.get(mark)
        if says == "done" and kept in (None, ""):
            found[mark] = shown.get(Place(f"{_ITEMS}.now", place.row))
            found[revision] = values.get(Place("style.revision"))
        elif kept not in (None, "") and says != "done":
            found |= {mark: None, revision: None}
    return found
