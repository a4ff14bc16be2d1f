"""Lists: the published tables that drop-downs and formulas look things up in."""

from __future__ import annotations

from sheetgen.declare.entry import fixed
from sheetgen.declare.kinds import number, text, whole
from sheetgen.declare.parts import Sheet, Table
from sheetgen.trade import sampling
from sheetgen.trade.labels import FIBER_CHOICES
from sheetgen.trade.seams import SEAM_CHOICES
from sheetgen.trade.stitches import STITCHES, TABLES
from sheetgen.trade.terms import TERMS

_AQLS = {"10": 1.0, "15": 1.5, "25": 2.5, "40": 4.0, "65": 6.5}


def _plans() -> list[dict[str, str | int]]:
    rows = []
    for band in sampling.CODE_LETTERS:
        row: dict[str, str | int] = {"lot_from": band.lot_from}
        for name, aql in _AQLS.items():
            plan = next(one for one in sampling.plan_rows("II", aql) if one.lot_from == band.lot_from)
            row[f"n_{name}"], row[f"ac_{name}"] = plan.n, plan.accept
        rows.append(row)
    return rows


LISTS = Sheet("lists", "Lists", purpose="Nothing to fill. The other sheets look things up here.", parts=(
    Table("terms", "Delivery terms (Incoterms 2020)", ref="I", key="term", spare=0,
          rows=tuple({"term": term.code, "name": term.name, "mode": term.mode, "carriage": term.main_carriage} for term in TERMS), columns=(
        fixed("term", "Term", text(26)),
        fixed("name", "Name", text(30)),
        fixed("mode", "Transport", text(12)),
        fixed("carriage", "Main carriage paid by", text(16)),
    )),
    Table("seams", "Seams (ISO 4916)", ref="G", key="seam", spare=0, rows=tuple({"seam": seam} for seam in SEAM_CHOICES), columns=(
        fixed("seam", "Seam", text(26)),
    )),
    Table("fibers", "Fibers", ref="J", key="fiber", spare=0, note="Names differ between markets (elastane, spandex): local law decides.",
          rows=tuple({"fiber": fiber} for fiber in FIBER_CHOICES), columns=(
        fixed("fiber", "Fiber", text(26)),
    )),
    Table("plans", "Sampling plans (ISO 2859-1, level II, normal)", ref="O", key="lot_from", spare=0, rows=tuple(_plans()), columns=(
        fixed("lot_from", "Lot from", whole(width=26)),
        *(entry for name, aql in _AQLS.items() for entry in (
            fixed(f"n_{name}", f"Inspect, AQL {aql}", whole(width=11)),
            fixed(f"ac_{name}", f"Accept, AQL {aql}", whole(width=11)),
        )),
    )),
    Table("stitches", "Stitches (ISO 4915)", ref="Q", key="stitch", spare=0, note="Thread per metre of seam: A and B are " + "; ".join(f"{key}: {value}" for key, value in TABLES.items()) + ". Estimates.",
          rows=tuple({"stitch": f"{one.code} {one.name}", "threads": one.threads, "ratio": one.thread_m_per_m, "table": one.table, "use": one.use} for one in STITCHES), columns=(
        fixed("stitch", "Stitch", text(34)),
        fixed("threads", "Threads", whole()),
        fixed("ratio", "Thread, m per m", number(2)),
        fixed("table", "Table", text(12)),
        fixed("use", "Used for", text(44)),
    )),
))  # fmt: skip
