"""Days and times as number formats write them (ECMA-376 part 1, 18.8.31): minutes are known by their neighbors."""

from __future__ import annotations

import datetime

from sheetgen.declare.kinds import DAY_ZERO

Pieces = list[tuple[str, str]]
"""A format's pieces: sort and text; those of sort `date` are letters of a day or time."""
_MONTHS = "January February March April May June July August September October November December".split()
_DAYS = "Monday Tuesday Wednesday Thursday Friday Saturday Sunday".split()


def as_time(pieces: Pieces, value: float) -> str:
    """A day number as a format of days and times shows it."""
    if value < 0:
        return "#" * 8
    try:
        day = DAY_ZERO + datetime.timedelta(days=int(value))
    except OverflowError:
        return "#" * 8
    seconds = round((value - int(value)) * 86400)
    halves = any(sort == "date" and text.upper() in {"A/P", "AM/PM"} for sort, text in pieces)
    runs = _runs(pieces)
    out = []
    for index, (sort, text) in enumerate(runs):
        if sort == "date":
            minutes = _is_minutes(runs, index)
            out.append(_of_time(text, day, value, seconds, halves=halves, minutes=minutes))
        else:
            out.append(text if sort in {"text", "/", ".", ",", "%"} else "")
    return "".join(out)


def _runs(pieces: Pieces) -> Pieces:
    """Letters of a date in runs: yyyy, mm."""
    runs: Pieces = []
    for sort, text in pieces:
        same = runs and sort == "date" and runs[-1][0] == "date" and runs[-1][1][-1:].lower() == text.lower()
        if same and len(text) == 1:
            runs[-1] = ("date", runs[-1][1] + text)
        else:
            runs.append((sort, text))
    return runs


def _is_minutes(runs: Pieces, index: int) -> bool:
    """Whether an m means minutes: after hours or before seconds."""
    before = next((text for sort, text in reversed(runs[:index]) if sort == "date"), "")
    after = next((text for sort, text in runs[index + 1 :] if sort == "date"), "")
    return before.strip("[]").lower().startswith("h") or after.strip("[]").lower().startswith("s")


def _of_time(text: str, day: datetime.date, value: float, seconds: int, *, halves: bool, minutes: bool) -> str:
    letter, wide = text.strip("[]")[:1].lower(), len(text.strip("[]"))
    if text.startswith("["):
        return str(int(value * {"h": 24, "m": 1440, "s": 86400}[letter])).rjust(wide, "0")
    if text.upper() in {"A/P", "AM/PM"}:
        return ("AM" if seconds < 43200 else "PM")[: 1 if wide == 3 else 2]
    if letter in "yeg":
        return f"{day.year % 100:02d}" if wide < 3 else f"{day.year:04d}"
    if letter == "m" and not minutes:
        name = _MONTHS[day.month - 1]
        return [str(day.month), f"{day.month:02d}", name[:3], name, name[:1]][min(wide, 5) - 1]
    if letter == "d":
        name = _DAYS[day.weekday()]
        return [str(day.day), f"{day.day:02d}", name[:3], name][min(wide, 4) - 1]
    hours = seconds // 3600 % 24
    number = {"h": (hours % 12 or 12) if halves else hours, "m": seconds // 60 % 60, "s": seconds % 60}.get(letter, 0)
    return str(number).rjust(min(wide, 2), "0")
