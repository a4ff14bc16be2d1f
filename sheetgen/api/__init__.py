"""The library: build, read, issue, audit, accept and compare, on the real book and rules. Files in, files' bytes out.

Each name is fetched from its module when it is first asked for, so that a program loads no more than it uses.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sheetgen.api.accepting import Accepted, accept
    from sheetgen.api.auditing import audit
    from sheetgen.api.comparing import Difference, compare
    from sheetgen.api.issuing import HeldBackError, Leaving, issue, leaving
    from sheetgen.api.making import Built, build, cautions_of, find_brand, from_values, start, start_from
    from sheetgen.api.reading import is_copy, read, working_copy
    from sheetgen.api.settling import Settle
    from sheetgen.audit.run import Audit
    from sheetgen.offers import Compared, compare_offers
    from sheetgen.workbook.exchange.issue import Issued

__all__ = [
    "Accepted",
    "Audit",
    "Built",
    "Compared",
    "Difference",
    "HeldBackError",
    "Issued",
    "Leaving",
    "Settle",
    "accept",
    "audit",
    "build",
    "cautions_of",
    "compare",
    "compare_offers",
    "find_brand",
    "from_values",
    "is_copy",
    "issue",
    "leaving",
    "read",
    "start",
    "start_from",
    "working_copy",
]

_STANDS_IN = {
    "Accepted": "sheetgen.api.accepting",
    "Audit": "sheetgen.audit.run",
    "Built": "sheetgen.api.making",
    "Compared": "sheetgen.offers",
    "Difference": "sheetgen.api.comparing",
    "HeldBackError": "sheetgen.api.issuing",
    "Issued": "sheetgen.workbook.exchange.issue",
    "Leaving": "sheetgen.api.issuing",
    "Settle": "sheetgen.api.settling",
    "accept": "sheetgen.api.accepting",
    "audit": "sheetgen.api.auditing",
    "build": "sheetgen.api.making",
    "cautions_of": "sheetgen.api.making",
    "compare": "sheetgen.api.comparing",
    "compare_offers": "sheetgen.offers",
    "find_brand": "sheetgen.api.making",
    "from_values": "sheetgen.api.making",
    "is_copy": "sheetgen.api.reading",
    "issue": "sheetgen.api.issuing",
    "leaving": "sheetgen.api.issuing",
    "read": "sheetgen.api.reading",
    "start": "sheetgen.api.making",
    "start_from": "sheetgen.api.making",
    "working_copy": "sheetgen.api.reading",
}


def __getattr__(name: str) -> object:
    if name not in _STANDS_IN:
        raise AttributeError(f"module 'sheetgen.api' has no attribute {name!r}")
    value: object = getattr(importlib.import_module(_STANDS_IN[name]), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
