"""The audit: what came back against what was sent. Rules of one family stand in one file; this is the list of all."""

from __future__ import annotations

from sheetgen.audit import (
    buying,
    causes,
    cautions,
    claimed_costs,
    claims,
    contents,
    entries,
    grading,
    identity,
    integrity,
    offers,
    ranges,
    samples,
    structure,
    units,
)
from sheetgen.audit.rule import Rule

RULES: tuple[Rule, ...] = (
    *identity.RULES,
    *structure.RULES,
    *integrity.RULES,
    *contents.RULES,
    *entries.RULES,
    *ranges.RULES,
    *units.RULES,
    *grading.RULES,
    *samples.RULES,
    *causes.RULES,
    *offers.RULES,
    *claims.RULES,
    *claimed_costs.RULES,
    *buying.RULES,
    *cautions.RULES,
)
