"""Cut plans: which lays cut an order, a lay being a marker with so many garments of each size on so many plies.

Fewest lays first, then fewest pieces over, then fewest different markers, then fewest plies. All is counted in steps,
nothing by the clock: with one release of the solver the same order gets the same plan on every machine.
"""

from sheetgen.cut_planning.plan import CutPlan, Lay, plan

__all__ = ["CutPlan", "Lay", "plan"]
