"""A drawing of the same figures is drawn once, and kept between runs."""

from __future__ import annotations

from collections.abc import Callable

from sheetgen.store import kept


def drawn_once(draw: Callable[..., str], *of: object, **more: object) -> str:
    """The SVG that `draw` makes of these, as an earlier run kept it or drawn now. Their `repr` says all of them."""
    said = f"{draw.__module__}.{draw.__qualname__} {of!r} {sorted(more.items())!r}"
    return kept("lines", said.encode(), lambda: draw(*of, **more).encode()).decode()
