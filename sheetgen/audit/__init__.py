"""The audit: what came back against what was sent. Rules of one family stand in one file; this is the list of all."""

from __future__ import annotations

from sheetgen.audit import (
    appearance,
    buying,
    causes,
    cautions,
    claimed_costs,
    claims,
    contents,
    entries,
    formulas,
    grading,
    identity,
    integrity,
    leaving,
    likeness,
    offers,
    overlays,
    ranges,
    samples,
    structure,
    surroundings,
    units,
    words,
)
from sheetgen.audit.rule import Rule

RULES: tuple[Rule, ...] = (
    *identity.RULES,
    *structure.RULES,
    *words.RULES,
    *integrity.RULES,
    *formulas.RULES,
    *appearance.RULES,
    *overlays.RULES,
    *surroundings.RULES,
    *contents.RULES,
    *entries.RULES,
    *likeness.RULES,
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
    *leaving.RULES,
)
