from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.audit.made import Made, make


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Made]:
    """A style's files, made when first asked for and then kept."""
    kept: dict[str, Made] = {}

    def of(style: str) -> Made:
        if style not in kept:
            kept[style] = make(style, tmp_path_factory.mktemp(style))
        return kept[style]

    return of


@pytest.fixture(scope="session")
def overshirt(made: Callable[[str], Made]) -> Made:
    return made("overshirt")
