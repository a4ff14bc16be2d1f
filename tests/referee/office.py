"""LibreOffice without a window and with a profile of its own, in which every opened file is calculated anew."""

import json
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

SOFFICE = shutil.which("soffice") or shutil.which("libreoffice")
BRIDGE = Path("/usr/bin/python3")
"""The system's Python, which has LibreOffice's bridge (uno)."""
_PATIENCE = 120
_PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop>
</item>
</oor:items>
"""


def needs_office() -> None:
    """Skip where there is no LibreOffice."""
    if SOFFICE is None:
        pytest.skip("LibreOffice is not on this machine (no soffice on the path)")


def needs_bridge() -> None:
    """Skip where LibreOffice cannot be driven."""
    needs_office()
    if not BRIDGE.exists() or subprocess.run([BRIDGE, "-c", "import uno"], capture_output=True, check=False).returncode:
        pytest.skip(f"LibreOffice's Python bridge is not on this machine ({BRIDGE} has no uno)")


def profile(folder: Path) -> str:
    """A fresh profile that recalculates always, as soffice takes it."""
    (folder / "user").mkdir(parents=True)
    (folder / "user" / "registrymodifications.xcu").write_text(_PROFILE, "utf-8")
    return f"-env:UserInstallation={folder.as_uri()}"


def recalculated(files: Sequence[Path], folder: Path) -> list[Path]:
    """The files as LibreOffice opens, calculates and saves them."""
    out = folder / "saved"
    words = [
        str(SOFFICE),
        profile(folder / "profile"),
        "--headless",
        "--norestore",
        "--convert-to",
        "xlsx",
        "--outdir",
        str(out),
    ]
    subprocess.run([*words, *map(str, files)], check=True, capture_output=True, timeout=_PATIENCE)
    return [out / file.name for file in files]


def driven(source: Path, steps: Sequence[dict[str, Any]], target: Path, folder: Path) -> dict[str, Any]:
    """Open a file, do the steps as a person would, save it as another; what the steps named `show` showed."""
    job = {
        "soffice": str(SOFFICE), "profile": profile(folder / "profile"), "source": source.as_uri(),
        "target": target.as_uri(), "steps": list(steps),
    }  # fmt: skip
    script = Path(__file__).with_name("typist.py")
    done = subprocess.run(
        [BRIDGE, script], input=json.dumps(job), capture_output=True, text=True, check=False, timeout=_PATIENCE
    )
    assert done.returncode == 0, done.stderr
    shown = json.loads(done.stdout)
    assert isinstance(shown, dict)
    return shown
