"""The demonstration does the whole job, also from the installed package outside the checkout."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from sheetgen.cli import main
from sheetgen.jobs import demo

ROOT = Path(__file__).parents[2]
ENDINGS = (
    "working.xlsx", "issued.xlsx", "issued.receipt.json", "pack.pdf", "returned-clean.xlsx", "returned-faulty.xlsx",
    "audit-clean.html", "audit-clean.json", "audit-clean.reply.txt",
    "audit-faulty.html", "audit-faulty.json", "audit-faulty.reply.txt", "next.xlsx",
)  # fmt: skip


OFFERS = (
    "overshirt-returned-second.xlsx", "overshirt-issued-second.receipt.json", "overshirt-returned-third.xlsx",
    "overshirt-issued-third.receipt.json", "overshirt-offers.xlsx",
)  # fmt: skip


@pytest.fixture(scope="module")
def out(tmp_path_factory):
    folder = tmp_path_factory.mktemp("demo")
    assert main(["demo", "--out", str(folder)]) == 0
    return folder


def test_it_writes_every_file_of_every_style(out):
    assert sorted(path.name for path in out.iterdir()) == sorted(
        [*(f"{style}-{ending}" for style in demo.STYLES for ending in ENDINGS), *OFFERS]
    )


@pytest.mark.parametrize("style", demo.STYLES)
def test_clean_and_faulty_are_told_apart(out, style, capsys):
    assert main(["audit", str(out / f"{style}-returned-clean.xlsx"), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["files"][0]["findings"] == []
    faulty = json.loads((out / f"{style}-audit-faulty.json").read_text("utf-8"))["files"][0]["findings"]
    assert len(faulty) >= 25


def test_the_offers_of_three_vendors_can_be_compared_again(out, tmp_path, capsys):
    files = [
        str(out / f"overshirt-{name}.xlsx")
        for name in ("working", "returned-clean", "returned-second", "returned-third")
    ]
    assert main(["compare", *files, "--out", str(tmp_path / "offers.xlsx")]) == 0
    assert "Cheapest: Ambelora Garments" in capsys.readouterr().out
    assert (tmp_path / "offers.xlsx").read_bytes() == (out / "overshirt-offers.xlsx").read_bytes()


def test_the_folder_then_says_what_comes_next(out, capsys, monkeypatch):
    monkeypatch.chdir(out)
    assert main([]) == 0
    shown = capsys.readouterr().out
    assert shown.count("next: sheetgen issue") == 3  # the accepted revision 2 of each style is not issued yet


def test_it_runs_as_an_installed_package_elsewhere(tmp_path):
    """A wheel carries the sample inputs, and finds them where it is installed."""
    subprocess.run(
        [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", str(tmp_path), str(ROOT)],
        check=True,
        capture_output=True,
    )
    (wheel,) = tmp_path.glob("*.whl")
    target = tmp_path / "site"
    subprocess.run(
        [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--target", str(target), str(wheel)],
        check=True,
        capture_output=True,
    )
    script = "import sys; sys.path.insert(0, sys.argv[1]); from sheetgen.jobs.demo import sample_inputs; print(sample_inputs())"
    done = subprocess.run(
        [sys.executable, "-I", "-c", script, str(target)], capture_output=True, text=True, cwd=tmp_path, check=True
    )
    folder = Path(done.stdout.strip())
    assert folder == target / "sheetgen" / "sample_inputs"
    assert (folder / "overshirt" / "brief.toml").is_file()
    assert (folder / "jacket" / "pictures" / "flat_front.svg").is_file()
