"""Slips: named ways to go wrong in a calculation, and which of them gives exactly the figure that someone states.

A rule works out what is right and lists slips with the figure that each of them leads to. A slip is recognised when
its figure, rounded to the digits that were stated, is the stated one, and the right figure is not. The list of slips
is common practice and what published calculations got wrong (`tests/data/rejected_examples.csv`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from sheetgen.audit.slip_factors import COUNT, LENGTHS, WEIGHTS
from sheetgen.texts import marked, say
from sheetgen.trade.weights import USE_UNITS

_MOST_DIGITS = 12
_MOST_DECIMALS = 15
_NEAR = 0.01
"""A stated figure of few digits, such as 2, still lies within 1 % of what a slip gives: else it proves nothing."""
_CLOSE = 1e-4
"""Further digits than four are taken for exact by no one: a factor before them was rounded."""
_LEAST_DIGITS = 3
"""A cell does not tell 6 from 6.00: a whole number stands for so many digits, and 6.05 is not the figure."""
_FINE = 1e-3
_SMALL = 0.01
"""A part of less than 1 % of a sum cannot be told from rounding."""
_TINY = 1e-9


class Slip(NamedTuple):
    """What may have happened, as `the waste of 5 % is left out`, and the figure that it gives.

    `loose` is one of many alike, such as each piece left out: among so many figures one lies near by chance, so that
    it only counts for a figure that was stated to a thousandth or finer.
    """

    words: str
    figure: float
    loose: bool = False


def shown(number: float, unit: str = "", beside: float = 0) -> str:
    """A figure with as many digits as are of use, and its unit.

    Five digits and at most four decimals; of small ones three digits; no fewer decimals than the figure `beside` it.
    """
    whole = len(str(int(abs(number))))
    small = 2 - math.floor(math.log10(abs(number))) if 0 < abs(number) < 1 else 0
    text = f"{number:.{max(0, min(5 - whole, 4), small, min(decimals(beside), 4))}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return f"{text} {unit}".strip()


def percent(share: float) -> str:
    """A share in percent: `5 %`, `7.5 %`."""
    return f"{share * 100:.4g} %"


def decimals(number: float) -> int:
    """Decimals that a typed figure shows; 0 for 1200, whose last zeros may be exact."""
    exponent = Decimal(repr(float(number))).normalize().as_tuple().exponent
    return min(_MOST_DECIMALS, max(0, -exponent)) if isinstance(exponent, int) else 0


def is_rounded(stated: float, right: float) -> bool:
    """Whether a stated figure is the right one, rounded to two or more significant digits."""
    if stated == right or abs(stated - right) <= _TINY * abs(right):
        return True
    if right == 0 or stated == 0:
        return False
    size = math.floor(math.log10(abs(right)))
    for digits in range(2, _MOST_DIGITS):
        step = 10.0 ** (size - digits + 1)
        if abs(stated - right) > step / 2 * (1 + 1e-6):
            return False
        if abs(stated / step - round(stated / step)) < 1e-6:
            return True
    return False


def reproduces(slip: Slip, stated: float) -> bool:
    """Whether a slip's figure, rounded to the digits of the stated one, is the stated one."""
    if slip.loose and 10.0 ** -decimals(stated) > _FINE * abs(stated):
        return False
    off = abs(slip.figure - stated)
    digits = decimals(stated) or max(0, _LEAST_DIGITS - len(str(int(abs(stated)))))
    shown_digits = max(0.5 * 10.0**-digits * (1 + 1e-6), _CLOSE * abs(stated))
    return off <= min(shown_digits, _NEAR * abs(stated))


def recognised(stated: float, rights: Iterable[float], slips: Iterable[Slip]) -> str:
    """What happened, if a slip gives the stated figure and none of the right ones explains it; else nothing.

    Where slips with other figures give it too, the second one is named as well.
    """
    if any(is_rounded(stated, right) for right in rights):
        return ""
    found: list[Slip] = []
    for slip in slips:
        told = any(slip.words == one.words or abs(slip.figure - one.figure) <= _TINY * abs(one.figure) for one in found)
        if math.isfinite(slip.figure) and reproduces(slip, stated) and not told:
            found.append(slip)
    exact = [slip for slip in found if not slip.loose] or found
    return say(", or if ").join(slip.words for slip in exact[:2])


def comes_of(cause: str) -> str:
    """The sentence that names a recognised slip; nothing without one."""
    return say(" The same figure comes out if {cause}.", cause=cause) if cause else ""


def apart(stated: float, right: float, unit: str = "") -> str:
    """The sentence that says how far a stated figure is from the right one: as an amount where a unit is named."""
    ratio = stated / right if right else math.inf
    word = "more" if stated > right else "less"
    if 0.5 < ratio < 1.995:
        share = f"{abs(ratio - 1) * 100:.1f} %".replace(".0 %", " %")
        # Of the figures as they are shown, so that the sentence adds up.
        amount = f"{shown(abs(float(shown(stated)) - float(shown(right))))} {unit}"
        return (
            say("That is {amount} ({share}) {word}.", amount=amount, share=share, word=word)
            if unit
            else say("That is {share} {word}.", share=share, word=word)
        )
    return (
        say("That is {ratio:.3g} times as much.", ratio=ratio)
        if ratio > 1
        else say("That is only {share:.2g} % of the right figure.", share=ratio * 100)
    )


def loosely(slips: Iterable[Slip]) -> Iterator[Slip]:
    """The same slips, marked as some of many alike."""
    return (slip._replace(loose=True) for slip in slips)


def scaled(slips: Iterable[Slip], factor: float, plus: float = 0) -> Iterator[Slip]:
    """The same slips where more is done with the figure afterwards."""
    for slip in slips:
        yield slip._replace(figure=slip.figure * factor + plus)


def waste_slips(net: float, waste: float) -> Iterator[Slip]:
    """Slips on the way from a net figure to the one with waste (a share)."""
    if not 0 < waste < 1:
        return
    share, amount = percent(waste), f"{waste:g}"
    yield Slip(say("the waste of {share} is left out", share=share), net)
    yield Slip(
        say(
            "the waste of {share} is added as an amount ({net} + {amount})", share=share, net=shown(net), amount=amount
        ),
        net + waste,
    )
    yield Slip(say("the waste of {share} is added twice", share=share), net * (1 + waste) ** 2)
    yield Slip(say("the waste of {share} is taken off instead of added", share=share), net * (1 - waste))
    yield Slip(
        say("it is divided by 1 − {amount} instead of multiplied by 1 + {amount}", amount=amount), net / (1 - waste)
    )


def dozen_waste_slips(net: float, waste: float) -> Iterator[Slip]:
    """The slip where a share of waste is added as an amount to the use of a dozen; `net` is that of one garment."""
    words = say(
        "the waste of {waste} is added as an amount to a dozen ({net} + {amount:g})",
        waste=percent(waste),
        net=shown(12 * net),
        amount=waste,
    )
    if waste:
        yield Slip(words, net + waste / 12)


def efficiency_slips(right: float, efficiency: float) -> Iterator[Slip]:
    """Slips where the right figure was divided by an efficiency (a share)."""
    if efficiency == 1:
        return
    yield Slip(
        say("it is multiplied by the efficiency of {efficiency} instead of divided", efficiency=percent(efficiency)),
        right * efficiency**2,
    )
    yield Slip(say("the efficiency of {efficiency} is left out", efficiency=percent(efficiency)), right * efficiency)
    yield Slip(
        say("it is divided by the efficiency of {efficiency} twice", efficiency=percent(efficiency)), right / efficiency
    )


def factor_slips(right: float, *lists: Mapping[float, str]) -> Iterator[Slip]:
    """Slips by a known factor, such as a dozen for one."""
    for factors in lists:
        for factor, words in factors.items():
            yield Slip(say(words), right * factor)


def unit_slips(right: float, unit: str) -> Iterator[Slip]:
    """Slips in the count and between units, as far as they can happen to a quantity in that unit of use."""
    of = next((one.of for one in USE_UNITS if one.unit == unit), "")
    yield from factor_slips(right, COUNT)
    if of == "piece":
        yield from factor_slips(
            right, {144: marked("a gross is counted for one"), 1 / 144: marked("one is counted for a gross")}
        )
    if of in {"length", "area", "weight"}:
        yield from factor_slips(right, LENGTHS)
    if of == "weight":
        yield from factor_slips(right, WEIGHTS)


def sum_slips(parts: Mapping[str, float]) -> Iterator[Slip]:
    """Slips in adding up named parts: one left out, one counted twice, one alone."""
    total = sum(parts.values())
    filled = {name: value for name, value in parts.items() if abs(value) > _SMALL * abs(total)}
    if sum(value != 0 for value in parts.values()) < 2:
        return
    yield from (Slip(say("{name} is left out", name=name), total - value) for name, value in filled.items())
    yield from (Slip(say("{name} is counted twice", name=name), total + value) for name, value in filled.items())
    yield from (Slip(say("only {name} is counted", name=name), value) for name, value in filled.items())


def carry_slips(stated: float, right: float) -> Iterator[Slip]:
    """A sum that is off by exactly one unit of a digit: a carried one that was lost or added twice."""
    steps = round((stated - round(right, decimals(stated))) * 10 ** decimals(stated))
    if abs(steps) >= 10 and _is_power_of_ten(abs(steps)):
        amount = abs(steps) / 10 ** decimals(stated)
        figure = f"{amount:.{decimals(stated)}f}" if amount >= 1 else f"{amount:g}"
        yield Slip(
            say("{figure} is {what} in adding up", figure=figure, what=say("added") if steps > 0 else say("lost")),
            stated,
        )


def _is_power_of_ten(number: int) -> bool:
    """Whether a whole number is 1, 10, 100 and so on."""
    return str(number).rstrip("0") == "1"


def digit_slips(stated: float, right: float) -> Iterator[Slip]:
    """Slips in writing the right figure down: digits swapped or left out, decimals cut off or rounded up."""
    places = decimals(stated)
    figure = f"{right:.{places}f}"
    digits = str(round(abs(right) * 10**places))
    for at in range(len(digits) - 1):
        swapped = digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :]
        if len(digits) >= 3 and swapped != digits:
            yield Slip(say("two digits of {figure} are swapped", figure=figure), int(swapped) / 10**places)
    for at in range(len(digits) - 1):
        if len(digits) >= 4:
            yield Slip(
                say("a digit of {figure} is left out", figure=figure), int(digits[:at] + digits[at + 1 :]) / 10**places
            )
    yield Slip(say("decimals are cut off instead of rounded"), math.floor(right * 10**places + _TINY) / 10**places)
    yield Slip(say("it is rounded up at its last digit"), math.ceil(right * 10**places - _TINY) / 10**places)


def rate_slips(foreign: float, rate: float, others: Sequence[tuple[str, float]]) -> Iterator[Slip]:
    """Slips in changing an amount into another currency; `others` are the rates of other currencies with their codes."""
    if rate == 1:
        yield from (
            Slip(say("the rate of {code}, {used:g}, is used", code=code, used=value), foreign * value)
            for code, value in others
        )
        return
    yield Slip(say("the exchange rate of {rate:g} is left out", rate=rate), foreign)
    yield Slip(say("it is divided by the exchange rate of {rate:g} instead of multiplied", rate=rate), foreign / rate)
    yield from (
        Slip(
            say("the rate of {code}, {used:g}, is used instead of {rate:g}", code=code, used=value, rate=rate),
            foreign * value,
        )
        for code, value in others
    )
