"""What may go wrong in the thread of an article: the Thread sheet's sums again, with one thing done otherwise."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple

from sheetgen.audit.case import Case
from sheetgen.audit.slip_factors import COUNT, LENGTHS
from sheetgen.audit.slips import Slip, factor_slips, loosely, sum_slips
from sheetgen.texts import say
from sheetgen.trade.stitches import STITCHES, stitch

Part = Literal["needle", "looper", "both"]
_HALF = 0.5
"""What the Thread sheet counts for the needles where no table splits a stitch."""
_COMMONEST = ("301", "401")
"""Lockstitch and two-thread chainstitch: a published page mixes their figures up."""


class Seam(NamedTuple):
    """A seam: stitch code, meters, meters of thread for each meter, share of the needles, stitches per cm, and whether
    this article is its needle thread (and its looper thread)."""

    area: str
    code: str
    length: float
    ratio: float
    share: float
    density: float
    needle: bool
    looper: bool


def _seams(case: Case, article: str) -> list[Seam]:
    material = case.value("thread.articles.material", article)
    unit, per_cm = case.number("style.unit_in_meters") or 0, case.number("thread.density_cm") or 0
    found = []
    for ref in case.rows("thread.seams"):
        needle = case.value("thread.seams.needle_ref", ref) == material
        looper = case.value("thread.seams.looper_ref", ref) == material
        length, ratio = (case.number(f"thread.seams.{name}", ref) for name in ("length", "ratio"))
        share = case.number("thread.seams.needle_share", ref)
        if length and ratio and share is not None and (needle or looper):
            code = found_stitch.code if (found_stitch := stitch(str(case.value("thread.seams.stitch", ref)))) else ""
            density = (case.number("thread.seams.density", ref) or 0) * per_cm
            area = f"“{case.value('thread.seams.area', ref)}”"
            found.append(Seam(area, code, length * unit, ratio, share, density, needle, looper))
    return found


def _thread(seam: Seam, part: Part) -> float:
    all_of_it = seam.length * seam.ratio
    needle = all_of_it * seam.share if seam.needle and part != "looper" else 0
    looper = all_of_it * (1 - seam.share) if seam.looper and part != "needle" else 0
    return needle + looper


def _sum(seams: list[Seam], part: Part, change: Callable[[Seam], Seam] = lambda seam: seam) -> float:
    return sum(_thread(change(seam), part) for seam in seams)


def _other_stitches(seams: list[Seam], part: Part, used: set[str]) -> Iterator[Slip]:
    """Each stitch counted as another one that this garment has too, or as one of the two commonest."""
    others = [one for one in STITCHES if one.code in {*used, *_COMMONEST} and one.thread_m_per_m is not None]
    for code in dict.fromkeys(seam.code for seam in seams):
        for other in others:
            if other.code == code or other.thread_m_per_m is None:
                continue
            ratio, share = other.thread_m_per_m, _HALF if other.needle_share is None else other.needle_share
            split = f"{share:.0%}".replace("%", " %")
            ways: tuple[tuple[str, dict[str, float]], ...] = (
                (
                    say(
                        "ratio and needle share of {code} ({ratio:g}, {split})",
                        code=other.code,
                        ratio=ratio,
                        split=split,
                    ),
                    {"ratio": ratio, "share": share},
                ),
                (say("ratio of {code} ({ratio:g})", code=other.code, ratio=ratio), {"ratio": ratio}),
                (say("needle share of {code} ({split})", code=other.code, split=split), {"share": share}),
            )
            for words, changed in ways:

                def change(seam: Seam, code: str = code, changed: dict[str, float] = changed) -> Seam:
                    return seam._replace(**changed) if seam.code == code else seam  # type: ignore[arg-type]

                yield Slip(
                    say("{code} is counted with the {others}", code=code, others=words), _sum(seams, part, change)
                )


def thread_slips(case: Case, article: str, part: Part) -> Iterator[Slip]:
    """What the net thread of an article would be if one thing were done otherwise, in meters."""
    seams = _seams(case, article)
    right = _sum(seams, part)
    counted = _sum(seams, part, lambda seam: seam._replace(ratio=seam.density))
    yield Slip(say("seam length times density is taken: that counts stitches, it is no length of thread"), counted)
    yield Slip(
        say("the seams' length is taken without the ratio"), _sum(seams, part, lambda seam: seam._replace(ratio=1))
    )
    if part != "both":
        other: Part = "looper" if part == "needle" else "needle"
        yield Slip(say("needle and looper have changed places"), _sum(seams, other))
        yield Slip(say("needle and looper are taken together"), _sum(seams, "both"))
    named = {str(case.value("thread.seams.stitch", ref)) for ref in case.rows("thread.seams")}
    yield from _other_stitches(seams, part, {one.code for name in named if (one := stitch(name))})
    by_area: dict[str, float] = {}
    for seam in seams:
        by_area[seam.area] = by_area.get(seam.area, 0) + _thread(seam, part)
    yield from loosely(sum_slips(by_area))
    yield from factor_slips(right, COUNT, LENGTHS)
