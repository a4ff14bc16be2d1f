"""Writes the files of the present form that stay in the tests for ever: `python -m tests.forms.make` in a new folder.

One small invented style: its working file, the vendor's copy with its receipt, and a return with faults. Run it once for
each form, before the form changes; what is there already is never written over.
"""

from __future__ import annotations

import datetime
import io
import json
from pathlib import Path

from PIL import Image

from sheetgen import api
from sheetgen.audit import RULES
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture
from sheetgen.sheets import BOOK
from sheetgen.testing.answers import generated
from sheetgen.testing.edit import Edit, edited_bytes
from sheetgen.workbook.exchange.issue import issue
from sheetgen.workbook.model.packing import FORM
from sheetgen.workbook.model.values import Values, ready, shape_of
from sheetgen.workbook.read.file import read
from sheetgen.workbook.write.file import workbook_bytes

FOLDER = Path(__file__).parent
KEPT_ROWS = {"style.sizes": 2, "measurements.points": 5, "materials.bom": 5, "yield.pieces": 3, "construction.callouts": 4,
             "labels.items": 3, "quality.tests": 2, "quality.defects": 2, "approvals.items": 2, "order.calendar": 3}  # fmt: skip
FAULTS = (
    Edit("measurements.points[P1].plus", "type", 9.0),
    Edit("materials.bom.item", "heading", "Article"),
    Edit("materials.bom[M2].price", "type", "2,50"),
    Edit("quote.make_cost", "type", 3.0),
    Edit("construction.callouts[N1].instruction", "look", {"ink": "FFFFFF", "fill": "FFFFFF"}),
    Edit("materials.bom[M1]", "stray", "ask Ines"),
)


def values() -> Values:
    """A vest of two sizes with two small pictures."""
    rows: dict[str, list[str]] = {}
    found: Values = {}
    for place, value in api.start("vest").values.items():
        table = place.entry.rpartition(".")[0]
        known = rows.setdefault(table, [])
        if place.row and place.row not in known:
            known.append(place.row)
        if not place.row or known.index(place.row) < KEPT_ROWS.get(table, 99):
            found[place] = value
    found[Place("style.sample_size")] = found[Place("style.sizes.name", "Z1")]
    texts = {"number": "QV-28S-VE-003", "name": "Ledge vest", "vendor": "Corda Alta", "purpose": "sample"}
    found.update({Place(f"style.{name}"): text for name, text in texts.items()})
    found[Place("style.front")] = found[Place("construction.flat_front")] = Picture(_small())
    return found


def _small() -> bytes:
    target = io.BytesIO()
    Image.new("RGB", (40, 30), (90, 120, 90)).save(target, "PNG")
    return target.getvalue()


def as_text(value: object) -> str:
    """A value as the kept list has it: 68 and 68.0 are one number."""
    return f"{value:.12g}" if isinstance(value, int | float) else str(value)


def main() -> None:
    """Write the files of this form."""
    folder = FOLDER / f"form_{FORM}"
    folder.mkdir()
    style = values()
    working, copy, returned = (folder / f"{name}.xlsx" for name in ("working", "issued", "returned"))
    working.write_bytes(workbook_bytes(ready(BOOK, shape_of(BOOK, style)), style, {"kind": "working"}))
    issued = issue(BOOK, style, {}, datetime.date(2026, 11, 26))
    copy.write_bytes(issued.data)
    (folder / "issued.receipt.json").write_text(issued.receipt.text, "utf-8")
    got = read(BOOK, copy)
    answers = [Edit(str(place), "type", value) for place, value in generated(got, {}).items()]
    returned.write_bytes(edited_bytes(got, copy.read_bytes(), [*answers, *FAULTS]))
    says = sorted(finding.short for finding in api.audit(returned).findings)
    known = {"rules": sorted(rule.name for rule in RULES), "findings": says}
    (folder / "audited.json").write_text(json.dumps(known, indent=1) + "\n", "utf-8")
    typed = {str(place): as_text(value) for place, value in style.items() if not isinstance(value, Picture)}
    (folder / "typed.json").write_text(json.dumps(typed, indent=0, ensure_ascii=False, sort_keys=True) + "\n", "utf-8")


if __name__ == "__main__":
    main()
