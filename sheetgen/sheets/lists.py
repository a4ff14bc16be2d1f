"""Lists: the published tables that drop-downs and formulas look things up in."""

from __future__ import annotations

from sheetgen.declare.entry import fixed
from sheetgen.declare.kinds import Value, number, percent, text, whole
from sheetgen.declare.parts import Sheet, Table
from sheetgen.garments import OUTLINES
from sheetgen.trade import sampling
from sheetgen.trade.labels import FIBER_CHOICES, FLAME_EXEMPT
from sheetgen.trade.outlines import USUAL_FILL
from sheetgen.trade.seams import SEAM_CHOICES
from sheetgen.trade.sleepwear import MOST_CM, PLACES, SEEN, SOURCE
from sheetgen.trade.stitches import STITCHES, TABLES, Stitch, thread_m_per_m
from sheetgen.trade.terms import TERMS
from sheetgen.trade.thread_models import model
from sheetgen.trade.weights import USE_UNITS, WEIGHT_UNITS

AQL_COLUMNS = {"10": 1.0, "15": 1.5, "25": 2.5, "40": 4.0, "65": 6.5}
LEVEL_COLUMNS = {"i": "I", "ii": "II", "iii": "III"}


def _plans() -> list[dict[str, Value]]:
    rows: list[dict[str, Value]] = []
    for letter, own in sampling.SAMPLE_SIZES.items():
        row: dict[str, Value] = {"letter": letter, "own": own}
        for name, aql in AQL_COLUMNS.items():
            plan = sampling.plan_of_letter(letter, aql)
            row[f"n_{name}"], row[f"ac_{name}"] = plan.n, plan.accept
        rows.append(row)
    return rows


def _letters() -> list[dict[str, Value]]:
    return [
        {
            "lot_from": band.lot_from,
            **{name: band.letters[sampling.LEVELS.index(level)] for name, level in LEVEL_COLUMNS.items()},
        }
        for band in sampling.CODE_LETTERS
    ]


def _digits(factor: float) -> float:
    """Fourteen digits: spreadsheet programs write no more than fifteen when they save."""
    return float(f"{factor:.14g}")


def _stitch(one: Stitch) -> dict[str, Value]:
    geometry = model(one.code)
    row: dict[str, Value] = {"stitch": f"{one.code} {one.name}", "threads": one.threads, "use": one.use}
    row |= {f"ratio_{table.lower()}": thread_m_per_m(one.code, table) for table in TABLES}
    row |= {"ratio": one.thread_m_per_m, "table": one.table, "needle": 1.0 if one.threads == 1 else one.needle_share}
    if geometry is not None:
        row |= {"base": geometry.base, "per_thickness": geometry.per_thickness, "per_width": geometry.per_width}
    return {name: value for name, value in row.items() if value not in (None, "")}


def _word(place: str) -> str:
    return place.replace(" ", "_")


LISTS = Sheet("lists", "Lists", seen="never", purpose="Nothing to fill. The other sheets look things up here.", printed=False, parts=(
    Table("terms", "Delivery terms (Incoterms 2020)", ref="I", key="term", spare=0,
          rows=tuple({"term": term.code, "name": term.name, "mode": term.mode, "carriage": term.main_carriage, "insures": term.must_insure} for term in TERMS),
          columns=(
        fixed("term", "Term", text(26)),
        fixed("name", "Name", text(30)),
        fixed("mode", "Transport", text(12)),
        fixed("carriage", "Main carriage paid by", text(16)),
        fixed("insures", "Must insure", text(12)),
    )),
    Table("tight", f"Tight-fitting children's sleepwear, at most all round, cm ({SOURCE})", ref="J", key="size", spare=0,
          rows=tuple({"size": size, **{_word(place): figures[place] for place in PLACES},
                      "memory": ", ".join(place for place in PLACES if (size, place) not in SEEN)} for size, figures in MOST_CM.items()),
          columns=(
        fixed("size", "Size", text(26)),
        *(fixed(_word(place), place.capitalize(), number(1)) for place in PLACES),
        fixed("memory", "From memory", text(24)),
    )),
    Table("seams", "Seams (ISO 4916)", ref="G", key="seam", spare=0, rows=tuple({"seam": seam} for seam in SEAM_CHOICES), columns=(
        fixed("seam", "Seam", text(26)),
    )),
    Table("fibers", "Fibers", ref="J", key="fiber", spare=0, note="Names differ between markets (elastane, spandex): local law decides.",
          rows=tuple({"fiber": fiber, "place": place} for place, fiber in enumerate(FIBER_CHOICES, 1)), columns=(
        fixed("fiber", "Fiber", text(26)),
        fixed("place", "Number", whole()),
    )),
    Table("exempt", "Fibers exempt from the test for burning", ref="D", key="fiber", spare=0,
          note="16 CFR 1610.1(d)(2): fabrics made entirely of these, in the US; a raised surface is asked about all the same.",
          rows=tuple({"fiber": fiber} for fiber in FLAME_EXEMPT), columns=(
        fixed("fiber", "Fiber", text(26)),
    )),
    Table("outlines", "Outlines of cut pieces", ref="K", key="outline", spare=0,
          note="A half piece is cut open at the center, the others run from side to side; a rib, a binding or a placket is a rectangle.",
          rows=tuple({"outline": outline, "fills": USUAL_FILL.get(outline, 1.0)} for outline in OUTLINES), columns=(
        fixed("outline", "Outline", text(26)),
        fixed("fills", "Usually fills", percent(0, width=10)),
    )),
    Table("weights", "Weights of materials", ref="S", key="unit", spare=0,
          note="Grams are factor times the number, or factor divided by it where that says yes.",
          rows=tuple({"unit": one.unit, "of": one.of, "factor": _digits(one.factor), "inverse": "yes" if one.inverse else "no"} for one in WEIGHT_UNITS),
          columns=(
        fixed("unit", "Unit", text(26)),
        fixed("of", "Of one", text(12)),
        fixed("factor", "Factor, g", number(8, width=12)),
        fixed("inverse", "Divided", text(8)),
    )),
    Table("units", "Units of use", ref="E", key="unit", spare=0,
          rows=tuple({"unit": one.unit, "of": one.of, "factor": _digits(one.factor)} for one in USE_UNITS), columns=(
        fixed("unit", "Unit", text(26)),
        fixed("of", "Counts", text(12)),
        fixed("factor", "m, m², g or pieces", number(6, width=14)),
    )),
    Table("letters", "Code letters (ISO 2859-1, general levels)", ref="D", key="lot_from", spare=0, rows=tuple(_letters()), columns=(
        fixed("lot_from", "Lot from", whole(width=26)),
        *(fixed(name, f"Level {level}", text(9)) for name, level in LEVEL_COLUMNS.items()),
    )),
    Table("plans", "Sampling plans (ISO 2859-1, single, normal)", ref="O", key="letter", spare=0, rows=tuple(_plans()),
          note="Arrows of the printed table are followed: the letter's plan, or the one that the arrow leads to.", columns=(
        fixed("letter", "Code letter", text(26)),
        fixed("own", "Its sample", whole(width=11)),
        *(entry for name, aql in AQL_COLUMNS.items() for entry in (
            fixed(f"n_{name}", f"Inspect, AQL {aql}", whole(width=11)),
            fixed(f"ac_{name}", f"Accept, AQL {aql}", whole(width=11)),
        )),
    )),
    Table("stitches", "Stitches (ISO 4915) and the thread they take", ref="Q", key="stitch", spare=0,
          note="Thread per metre of seam by table: " + "; ".join(f"{key}: {value}" for key, value in TABLES.items())
          + ". Geometry: base + density x (thickness + width, with their factors), a machine maker's formulas. All are estimates.",
          rows=tuple(map(_stitch, STITCHES)), columns=(
        fixed("stitch", "Stitch", text(34)),
        fixed("threads", "Threads", whole()),
        fixed("ratio", "Thread, m per m", number(2)),
        fixed("table", "Table", text(7)),
        *(fixed(f"ratio_{table.lower()}", f"Table {table}", number(2)) for table in TABLES),
        fixed("needle", "In the needles", number(2)),
        fixed("base", "Base", number(0, width=6)),
        fixed("per_thickness", "Thickness", number(0)),
        fixed("per_width", "Width", number(0, width=6)),
        fixed("use", "Used for", text(44)),
    )),
    Table("ratio_tables", "Tables of thread per metre of seam", ref="R", key="table", spare=0,
          rows=tuple({"table": table, "words": words} for table, words in TABLES.items()), columns=(
        fixed("table", "Table", text(26)),
        fixed("words", "That is", text(44)),
    )),
))  # fmt: skip
