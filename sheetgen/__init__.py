"""sheetgen: specification workbooks for garments: build, read, issue, audit, accept.

    from sheetgen import build, issue, audit, accept

The functions stand in `sheetgen.api`; they are fetched when first asked for, so that `import sheetgen` costs nothing.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from sheetgen.api import accept, audit, build, compare, issue, read

__all__ = ["accept", "audit", "build", "compare", "issue", "read"]


def __getattr__(name: str) -> Any:
    if name in __all__:
        return getattr(importlib.import_module("sheetgen.api"), name)
    raise AttributeError(f"module 'sheetgen' has no attribute {name!r}")
