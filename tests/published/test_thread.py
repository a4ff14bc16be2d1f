"""Thread of seams through the Thread sheet: published ratios, a machine maker's formulas, whole garments and cones.

Rows are those of tests/data/thread_examples_2.csv and thread_formulas.csv, which name the source of each.
"""

import csv
import json

import pytest

from sheetgen.trade.lengths import INCH_CM
from tests.lists import stitch
from tests.published.book import Shown, published
from tests.trade.tables import DATA

EXAMPLES = "thread_examples_2.csv"
FORMULAS = list(csv.DictReader((DATA / "thread_formulas.csv").open(encoding="utf-8")))
MM = INCH_CM * 10


def seam(code: str, thick: float, per_inch: float, width: float = 0) -> float:
    """Thread per seam length by geometry; thickness and width in inches, density per inch."""
    book = Shown(
        construction={
            "density_unit": "stitches per inch",
            "callouts": [{"area": "Seam", "stitch": stitch(code), "extra": 100, "density": per_inch}],
        },
        thread={
            "thread_table": "geometry",
            "seams": [{"row": "N1", "thick": thick * MM, "bight": width * MM}],
        },
    )
    assert book.number("construction.callouts[N1].thread") == pytest.approx(book.number("thread.seams[N1].by_geometry"))
    return book.number("thread.seams[N1].by_geometry")


@pytest.mark.parametrize("row", FORMULAS, ids=lambda row: f"{row['iso_4915_type']} T {row['T_in']}")
def test_the_machine_makers_formulas(row: dict[str, str]) -> None:
    got = seam(row["iso_4915_type"], float(row["T_in"]), float(row["S_spi"]), float(row["W_in"]))
    assert got == pytest.approx(float(row["value"]), abs=5e-5)


@pytest.mark.parametrize(
    ("case", "code"),
    # TH01, TH02: worked problems; US01 to US05: a machine maker's chart of 401 at 8 stitches an inch.
    [("TH01", "101"), ("TH02", "301"), ("US01", "401"), ("US02", "401"), ("US04", "401"), ("US05", "401")],
)
def test_published_problems_by_geometry(case: str, code: str) -> None:
    row = published(EXAMPLES)[case]
    given = json.loads(row["inputs_json"])
    assert seam(code, given["T"], given["S"]) == pytest.approx(float(row["published_answer"]), abs=0.005)


@pytest.mark.parametrize(("case", "code"), [("TH10", "301"), ("TH11", "401")])
def test_published_problems_by_ratio(case: str, code: str) -> None:
    row = published(EXAMPLES)[case]
    book = Shown(construction={"callouts": [{"area": "Seam", "stitch": stitch(code), "extra": 220}]})
    assert book.number("construction.callouts[N1].thread") * 100 == pytest.approx(float(row["published_answer"]))


def test_a_seam_taken_apart_is_an_own_ratio_and_its_split() -> None:
    # TH04, TH05: 401, 15 cm taken apart gave 19.5 cm of needle and 62.0 cm of looper; the page rounds to 1.3 and 4.1.
    book = Shown(
        construction={"callouts": [{"area": "Seam", "stitch": stitch("401"), "extra": 100}]},
        materials={"bom": [{"item": "Needle", "group": "thread", "unit": "m"}, {"item": "Looper", "group": "thread", "unit": "m"}]},
        thread={
            "seams": [{"row": "N1", "own_ratio": 1.3 + 4.1, "own_needle": 1.3 / 5.4, "needle_thread": "M1", "looper_thread": "M2"}],
            "articles": [{"material": "M1"}, {"material": "M2"}],
        },
    )  # fmt: skip
    assert book.number("construction.callouts[N1].thread") * 100 == pytest.approx(
        float(published(EXAMPLES)["TH05"]["published_answer"])
    )
    assert book.number("thread.articles[H1].needle") * 100 == pytest.approx(130)
    assert book.number("thread.articles[H2].looper") * 100 == pytest.approx(410)
    assert book.number("materials.bom[M2].use") == pytest.approx(4.1)


def test_cones_are_rounded_up() -> None:
    # FS05, FS06: 75.96 m with waste for each of 500 shirts are 37,980 m: 12.66 cones of 3,000 m, so 13.
    assert published(EXAMPLES)["FS06"]["published_answer"] == "13"
    book = Shown(
        style={"thread_waste": 0.2},
        order={"sizes": [{"row": "M", "pieces": 500}]},
        construction={"callouts": [{"area": "All", "stitch": stitch("101"), "extra": 100}]},
        materials={"bom": [{"item": "Thread", "group": "thread", "unit": "m", "waste": 0.2, "color": "Ecru"}]},
        thread={
            "seams": [{"row": "N1", "own_ratio": 63.3, "needle_thread": "M1"}],
            "articles": [{"material": "M1", "cone": 3000}],
        },
    )
    assert book.number("thread.articles[H1].with_waste") == pytest.approx(75.96)
    assert book.number("thread.articles[H1].cones") == 13


def test_the_table_in_use_is_named() -> None:
    # Published tables differ on 101 (4.0 and 5) and 504 (14 and 9): what is counted says by which.
    for table, metres in (("A", 4.0), ("B", 5.0)):
        book = Shown(
            construction={"callouts": [{"area": "Seam", "stitch": stitch("101"), "extra": 100}]},
            thread={"thread_table": table},
        )
        assert book.number("construction.callouts[N1].thread") == pytest.approx(metres)
        assert {"A": "Carr & Latham", "B": "thread maker"}[table] in str(book["thread.table_named"])


def test_a_seam_without_a_thread_of_its_own_counts_to_the_first_article() -> None:
    # By hand, made-up lengths: 301 at 2.5 m per m, half in the needle; 2 m to M1, 1 m to M2 with the bobbin of M1.
    seams = [{"area": area, "stitch": stitch("301"), "extra": extra} for area, extra in (("Side", 200), ("Hem", 100))]
    book = Shown(
        construction={"callouts": seams},
        materials={"bom": [{"item": item, "group": "thread", "unit": "m"} for item in ("Thread", "Topstitch thread")]},
        thread={
            "seams": [{"row": "N2", "needle_thread": "M2", "looper_thread": "M1"}],
            "articles": [{"material": "M1"}, {"material": "M2"}],
        },
    )
    assert (book.number("thread.articles[H1].needle"), book.number("thread.articles[H1].looper")) == (2.5, 3.75)
    assert (book.number("thread.articles[H2].needle"), book.number("thread.articles[H2].looper")) == (1.25, 0)
    assert book.number("checks.wrong_thread_thread_ref") == 0


def test_buttonholes_bartacks_and_buttons_are_counted() -> None:
    # By hand; metres of each are common practice, from memory: 8 x 1.2 + 8 x 0.5 + 4 x 0.6 = 16; a measured one of 0.9 is 7.2.
    counted = [
        {"what": "buttonhole", "count": 8},
        {"what": "button sewn on", "count": 8},
        {"what": "bartack", "count": 4, "thread": "M2"},
    ]
    bom = [{"item": name, "group": "thread", "unit": "m", "waste": 0.1} for name in ("Thread", "Other thread")]
    callouts = [{"area": "Seam", "stitch": stitch("301"), "extra": 100}]

    def book(counted: list[dict[str, object]]) -> Shown:
        articles = [{"material": "M1"}, {"material": "M2"}]
        return Shown(
            style={"thread_waste": 0.15}, materials={"bom": bom}, construction={"callouts": callouts},
            thread={"articles": articles, "counted": counted},
        )  # fmt: skip

    shown = book(counted)
    assert shown.number("thread.articles[H1].counted") == pytest.approx(13.6)
    assert shown.number("thread.articles[H2].counted") == pytest.approx(2.4)
    assert shown.number("construction.thread_net") == pytest.approx(2.5 + 16)
    assert shown.number("materials.bom[M1].use") == pytest.approx(2.5 + 13.6)
    assert shown.number("thread.articles[H1].with_waste") == pytest.approx((2.5 + 13.6) * 1.1)
    measured = book([{**counted[0], "each": 0.9}, {"what": "eyelet", "count": 2}])
    assert measured.number("thread.articles[H1].counted") == pytest.approx(7.2)
