"""sheetgen: specification workbooks for garments: build, read, issue, audit, accept.

    from sheetgen import build, issue, audit, accept

The functions stand in `sheetgen.api`; they are fetched when first asked for, so that `import sheetgen` costs nothing.
"""

from __future__ import annotations

import importlib

TYPE_CHECKING = False  # as in `typing`, which takes longer to load than all the rest

if TYPE_CHECKING:
    from sheetgen.api import accept, audit, build, compare, issue, read

__all__ = ["accept", "audit", "build", "compare", "issue", "read"]


def __getattr__(name: str) -> object:
    if name in __all__:
        value: object = getattr(importlib.import_module("sheetgen.api"), name)
        return value
    raise AttributeError(f"module 'sheetgen' has no attribute {name!r}")
