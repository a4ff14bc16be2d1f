"""Slips that no test can find, each with the reason: they change nothing that anybody could see."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import NamedTuple

EXPLAINED = Path(__file__).with_name("explained.toml")


class Explained(NamedTuple):
    """A line of code as it stands there, the slips in it that change nothing, and why."""

    line: str
    slips: tuple[str, ...]
    why: str


def load_explained() -> dict[str, list[Explained]]:
    """What is explained, by module."""
    data = tomllib.loads(EXPLAINED.read_text("utf-8"))
    return {
        path: [Explained(one["line"], tuple(one["slips"]), one["why"]) for one in listed]
        for path, listed in data.items()
    }
