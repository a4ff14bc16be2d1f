"""The limits by which the audit judges: name, kind with bounds, what counts if a brand says nothing, what it means, its source.

Rules read them by name; a brand sets them in the table `[judgment]` of its brand file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches

from sheetgen.declare.kinds import Kind, number, percent, whole
from sheetgen.texts import marked, say

TABLE = "judgment"
PRACTICE, OWN = marked("common practice"), marked("a choice of this project")


@dataclass(frozen=True)
class Limit:
    """One limit. `says` is what a finding says of it, with the hole {value}; `unit` stands behind a figure that is no share."""

    name: str
    kind: Kind
    usual: float
    says: str
    source: str
    means: str
    unit: str = ""

    def shown(self, value: float) -> str:
        """A figure as people read it: 10 %, 3 mm, 5."""
        return f"{self.kind.shown_bound(value)} {self.unit}".rstrip()

    def bounds(self) -> str:
        """The least and the most that it may be set to, in words."""
        least, most = (self.shown(bound) for bound in (self.kind.least or 0, self.kind.most or 0))
        return say("{least} to {most}", least=least, most=most)


_MEASURED = (
    Limit("exact_values", whole(3, 100), 5, marked("{value} values or more"), OWN,
          marked("So many values exactly as asked are no accident any more.")),
    Limit("exact_share", percent(0, 0.5, 1), 0.9, marked("{value} of them exactly as asked"), OWN,
          marked("Such a share of a round's values exactly as asked was copied.")),
    Limit("repeated_values", whole(4, 100), 8, marked("{value} values or more"), OWN,
          marked("So many values are needed to see that one deviation repeats itself.")),
    Limit("repeated_share", percent(0, 0.3, 1), 0.7, marked("{value} of them off by the same"), OWN,
          marked("Such a share of a round's values is off by one figure: by chance in fewer than 1 round of 200 (simulated).")),
    Limit("fine_values", whole(3, 100), 5, marked("{value} values or more"), OWN,
          marked("So many values finer than a tape are no halves between two marks any more.")),
    Limit("fine_share", percent(0, 0.05, 1), 0.25, marked("{value} of the round's values"), OWN,
          marked("Such a share of a round's values is finer than half a millimeter, or half a sixteenth of an inch.")),
    Limit("apart_values", whole(4, 100), 8, marked("{value} points or more"), OWN,
          marked("So many points measured by both are needed to see that the two measure apart.")),
    Limit("apart", number(1, 0.5, 50), 3, marked("{value} apart on the whole"), PRACTICE,
          marked("Two who measure well are a millimeter or two apart at a point, to both sides; on the whole by nothing."), "mm"),
    Limit("apart_scatter", percent(0, 0.1, 1.5), 0.65, marked("a scatter of at most {value} of that"), OWN,
          marked("What the differences may scatter, as a share of their mean, to be called a constant.")),
    Limit("down_values", whole(3, 100), 5, marked("{value} values or more"), OWN,
          marked("So many equal values under one another, some of them out of tolerance, were filled down.")),
    Limit("row_off_values", whole(4, 100), 6, marked("{value} values or more"), OWN,
          marked("So many values are needed to see that a column stands a row too low or too high.")),
    Limit("row_off_share", percent(0, 0.5, 1), 0.8, marked("{value} of them fit the next row"), OWN,
          marked("Such a share of a round's values is within the next row's tolerance.")),
    Limit("row_off_own", percent(0, 0.05, 0.8), 0.4, marked("at most {value} of them fit their own"), OWN,
          marked("Such a share of them may fit its own row all the same.")),
    Limit("unit_near", percent(0, 0.01, 0.2), 0.08, marked("within {value} of what was asked, in the other unit"), PRACTICE,
          marked("So near to what was asked, a value counts as one in another unit: samples are rarely further off.")),
    Limit("direction_points", whole(2, 50), 3, marked("{value} points or more"), OWN,
          marked("So many points of one direction, all to one side, are a direction and no accident.")),
    Limit("direction", percent(1, 0.002, 0.2), 0.01, marked("{value} or more on average"), PRACTICE,
          marked("A mean below it is the measuring's own uncertainty.")),
    Limit("sides", percent(0, 0.1, 5), 1, marked("more than {value} of the point's tolerance"), OWN,
          marked("So far may left and right be apart, as a share of the tolerance upward.")),
    Limit("tolerance_step", percent(0, 0.1, 2), 0.5, marked("more than {value} of the step"), PRACTICE,
          marked("With a tolerance above half the step to the next size a garment passes as two sizes.")),
)  # fmt: skip
_MONEY = (
    Limit("price_jump", percent(1, 0.005, 10), 0.1, marked("more than {value} of the price before"), OWN,
          marked("So much may a price move from one issue to the next before it is asked about.")),
    Limit("price_built", percent(1, 0.001, 0.5), 0.01, marked("more than {value} of the price"), OWN,
          marked("So far may price and build-up be apart. The live check on the sheet keeps to 1 %.")),
    Limit("dozen_near", percent(0, 0.01, 0.3), 0.08, marked("within {value} of twelve times its build-up"), OWN,
          marked("So near to twelve times its build-up, a price is that of a dozen.")),
    Limit("alike_lines", whole(3, 50), 3, marked("{value} lines or more of one kind and unit"), OWN,
          marked("So many lines of one kind, priced by one unit, can be compared; the one in question is counted.")),
    Limit("alike_apart", number(1, 2, 1000), 8, marked("{value} times most of the others, up or down"), OWN,
          marked("Articles of one kind differ in price, rarely by so much: in less than one honest file of 200 (simulated).")),
    Limit("ladder_apart", number(1, 1.1, 100), 2, marked("{value} times most of the others, up or down"), PRACTICE,
          marked("Prices by quantity differ by what setting up and minimums cost, rarely by so much.")),
    Limit("option_share", percent(0, 0.05, 3), 0.5, marked("more than {value} of the price"), OWN,
          marked("So much may an option change the price before it looks like a price of its own.")),
    Limit("moved", percent(1, 0.005, 0.5), 0.02, marked("{value} of the sum up, and as much down"), OWN,
          marked("So much of a sum is off to either side before it is said that the two hide each other.")),
    Limit("moved_rest", percent(0, 0, 1), 0.25, marked("what is left of it at most {value} of the smaller"), OWN,
          marked("So much may be left over of two that cancel, as a share of the smaller one.")),
    Limit("front_back", percent(0, 0.2, 5), 0.75, marked("{value} of the tolerance or more to either side"), OWN,
          marked("So far off, one up and one down, are a front and a back whose seam lies in another place.")),
    Limit("surplus", percent(1, 0, 0.5), 0.02, marked("more than {value} of the order's value"), OWN,
          marked("So much may be left over of one material, at the quoted price, before it is asked about.")),
)  # fmt: skip
_USE = (
    Limit("fabric_use", percent(1, 0.002, 0.5), 0.02, marked("more than {value}"), PRACTICE,
          marked("Two markers of one style differ by 1 or 2 %.")),
    Limit("fabric_slip", percent(1, 0.001, 0.5), 0.01, marked("more than {value} where a slip is recognized"), OWN,
          marked("From here on a recognized slip in the use of fabric is told.")),
    Limit("thread_use", percent(1, 0.01, 1), 0.1, marked("more than {value}"), PRACTICE,
          marked("Thread by a table is an estimate: seams taken apart differ by 10 % easily.")),
    Limit("thread_slip", percent(1, 0.001, 1), 0.02, marked("more than {value} where a slip is recognized"), OWN,
          marked("From here on a recognized slip in the use of thread is told.")),
    Limit("fabric_typed", percent(1, 0.002, 0.5), 0.05, marked("more than {value} of what the pieces give"), OWN,
          marked("Materials may count with a rounded or measured use of fabric: more than that is another garment.")),
    Limit("thread_typed", percent(1, 0.01, 1), 0.15, marked("more than {value} of what the seams give"), OWN,
          marked("Materials may count with a rounded or measured use of thread: more than that is another garment.")),
    Limit("heaviest", number(1, 1, 500), 20, marked("more than {value}"), PRACTICE,
          marked("No packed garment and no empty carton weighs more."), "kg"),
    Limit("days_off", whole(30, 3660), 366, marked("more than {value} before the copy left or after the delivery"), PRACTICE,
          marked("Dates of one order lie within a year."), "days"),
)  # fmt: skip

LIMITS: Mapping[str, Limit] = {one.name: one for one in (*_MEASURED, *_MONEY, *_USE)}
"""All limits by name."""


@dataclass(frozen=True)
class Limits:
    """The limits that hold for one audit: the brand's where it has set some, else the usual ones."""

    own: Mapping[str, float] = field(default_factory=dict)

    def __getitem__(self, name: str) -> float:
        return self.own.get(name, LIMITS[name].usual)

    def said(self, name: str) -> str:
        """A limit as a finding says it, with the figure that holds."""
        return say(LIMITS[name].says, value=LIMITS[name].shown(self[name]))


USUAL = Limits()


def limits_of(given: Mapping[str, object]) -> Limits:
    """The limits of a brand file's table; ValueError in half a sentence for a key or a figure that cannot be."""
    own: dict[str, float] = {}
    for name, value in given.items():
        if name not in LIMITS:
            near = get_close_matches(name, LIMITS, 1)
            hint = say("is it {near!r}?", near=near[0]) if near else say("sheetgen rules --limits lists them")
            raise ValueError(say("[{table}] knows no {name!r}; {hint}", table=TABLE, name=name, hint=hint))
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise ValueError(
                say("[{table}] {name} must be a number, as {usual:g}", table=TABLE, name=name, usual=LIMITS[name].usual)
            )
        wrong = LIMITS[name].kind.wrong(value)
        if wrong is not None:
            raise ValueError(say("[{table}] {name} {wrong}", table=TABLE, name=name, wrong=wrong))
        own[name] = float(value)
    return Limits(own)
