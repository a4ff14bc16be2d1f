"""The library of points of measure is whole; its values are common practice and are not judged here."""

import subprocess
import sys

import pytest

from sheetgen.trade.points import GARMENTS, points


@pytest.mark.parametrize(
    ("garment", "count"),
    [
        ("T-shirt", 17),
        ("hooded sweatshirt", 17),
        ("shirt", 20),
        ("trousers", 15),
        ("skirt", 10),
        ("dress", 18),
        ("jacket", 16),
        ("leggings", 12),
    ],
)
def test_each_garment_has_all_its_points(garment: str, count: int) -> None:
    found = points(garment)
    assert len(found) == len({row.point for row in found}) == count
    assert len({(row.base, row.fabric) for row in found}) == 1


def test_every_garment_is_listed() -> None:
    assert sum(len(points(garment)) for garment in GARMENTS) == 125


def test_each_point_can_be_measured() -> None:
    for row in (row for garment in GARMENTS for row in points(garment)):
        assert row.how, row
        assert row.half_or_full in ("half", "full"), row
        assert row.base_cm > 0, row
        assert row.step_cm >= 0, row
        assert (row.tolerance_cm == 0) == row.is_minimum, row


def test_a_point_holds_what_the_table_says() -> None:
    chest = next(row for row in points("T-shirt") if row.point == "chest width")
    assert chest.how == "edge to edge, 2.5 cm below armhole"
    assert (chest.half_or_full, chest.base_cm, chest.step_cm, chest.tolerance_cm) == ("half", 53, 2.5, 1)


def test_another_garment_is_refused() -> None:
    with pytest.raises(ValueError, match="kilt"):
        points("kilt")


def test_importing_reads_no_table_and_no_heavy_library() -> None:
    code = (
        "import sys, sheetgen.trade.points as p; "
        "assert p._library.cache_info().currsize == 0; assert not {'pandas', 'numpy'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
