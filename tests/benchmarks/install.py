"""What an installation takes: an empty virtual environment, this project, seconds, and the weight of each package.

`python tests/benchmarks/install.py [PYTHON]` prints them; no test runs it, for it asks a package index. What is already in
pip's cache is not downloaded again: `--no-cache` leaves the cache out. `--json` prints one JSON object for the benchmarks.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).parents[2]
MEGABYTE = 1_000_000
SHOWN = 12
_WEIGH = """
from importlib.metadata import distributions
for one in distributions():
    print(one.metadata["Name"], sum(path.stat().st_size for file in one.files or () if (path := one.locate_file(file)).is_file()))
"""


def installed(folder: Path, python: str, cached: bool) -> tuple[float, Path]:
    """Seconds that it takes to install the project into a new environment, and that environment's Python."""
    subprocess.run([python, "-m", "venv", str(folder)], check=True)
    inner = folder / ("Scripts" if sys.platform == "win32" else "bin") / "python"
    options = [] if cached else ["--no-cache-dir"]
    began = time.perf_counter()
    subprocess.run([str(inner), "-m", "pip", "install", "-q", *options, str(ROOT)], check=True)
    return time.perf_counter() - began, inner


def weights(python: Path) -> Iterator[tuple[str, int]]:
    """Each package with the bytes of its files, as its own list names them, the heaviest first."""
    said = subprocess.run([str(python), "-I", "-c", _WEIGH], check=True, capture_output=True, text=True).stdout
    found = [(name, int(weight)) for name, weight in (line.rsplit(" ", 1) for line in said.splitlines())]
    return iter(sorted(found, key=lambda one: -one[1]))


def size(folder: Path) -> int:
    """Bytes of all files below a folder."""
    return sum(path.stat().st_size for path in folder.rglob("*") if path.is_file() and not path.is_symlink())


def main() -> None:
    """Print the table, or all of it as JSON."""
    options = {word for word in sys.argv[1:] if word.startswith("--")}
    words = [word for word in sys.argv[1:] if word not in options]
    with TemporaryDirectory() as name:
        folder = Path(name) / "environment"
        seconds, python = installed(folder, words[0] if words else sys.executable, "--no-cache" not in options)
        subprocess.run([str(python), "-m", "sheetgen", "--version"], check=True, cwd=name, capture_output=True)
        megabytes, packages = size(folder) / MEGABYTE, list(weights(python))
    if "--json" in options:
        sizes = {package: round(weight / MEGABYTE, 1) for package, weight in packages}
        print(json.dumps({"seconds": round(seconds, 1), "megabytes": round(megabytes, 1), "packages": sizes}))
        return
    print(f"{seconds:.0f} s, {megabytes:.0f} MB with pip itself and what Python compiled")
    for package, weight in packages[:SHOWN]:
        print(f"{weight / MEGABYTE:8.1f} MB  {package}")


if __name__ == "__main__":
    main()
