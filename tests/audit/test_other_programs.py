"""Returns that another program saved: nothing that saving changes is a finding, and every planted fault stays one."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from sheetgen.audit import RULES
from sheetgen.audit.run import Audit, audit
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import edited_bytes, load_faults
from tests.audit.made import STYLES, Made, shorts
from tests.loop import SAMPLES

OFFICE = shutil.which("soffice")
REPAIRED = {"macro-inside", "outside-link", "object-inside"}
"""What saving in another program takes away by nature: parts that it cannot use. It calculates only what is newly typed."""

pytestmark = [
    pytest.mark.long,
    pytest.mark.libreoffice,
    pytest.mark.skipif(OFFICE is None, reason="LibreOffice Calc (soffice) is not installed"),
]


def saved_again(files: list[Path], folder: Path) -> list[Path]:
    """The files as LibreOffice saves them, opened and saved in one run of it."""
    target = folder / "saved"
    command = [
        str(OFFICE), f"-env:UserInstallation={(folder / 'profile').as_uri()}", "--headless", "--convert-to", "xlsx",
        "--outdir", str(target), *map(str, files),
    ]  # fmt: skip
    subprocess.run(command, check=True, capture_output=True, timeout=300)
    return [target / file.name for file in files]


@pytest.fixture(scope="module")
def saved(made: Callable[[str], Made], tmp_path_factory: pytest.TempPathFactory) -> dict[tuple[str, str], Audit]:
    """The audits of all styles' clean and faulty returns after LibreOffice saved them."""
    folder = tmp_path_factory.mktemp("libreoffice")
    files, names = [], []
    for style in STYLES:
        faults = load_faults(SAMPLES / style / "answers-faulty.toml")
        data = made(style).clean.read_bytes()
        for kind, edits in (("clean", []), ("faulty", [fault.edit for fault in faults])):
            file = folder / f"{style}-{kind}.xlsx"
            file.write_bytes(edited_bytes(made(style).found(), data, edits))
            files.append(file)
            names.append((style, kind))
    again = saved_again(files, folder)
    return {name: audit(BOOK, RULES, file, made(name[0]).receipt) for name, file in zip(names, again, strict=True)}


@pytest.mark.parametrize("style", STYLES)
def test_a_clean_return_that_another_program_saved_has_no_findings(
    style: str, saved: dict[tuple[str, str], Audit]
) -> None:
    assert shorts(saved[style, "clean"]) == []


@pytest.mark.parametrize("style", STYLES)
def test_every_planted_fault_survives_saving_but_those_that_it_repairs(
    style: str, saved: dict[tuple[str, str], Audit]
) -> None:
    faults = load_faults(SAMPLES / style / "answers-faulty.toml")
    planted = sorted(short for fault in faults for short in fault.finds if short.partition(" ")[0] not in REPAIRED)
    assert shorts(saved[style, "faulty"]) == planted
