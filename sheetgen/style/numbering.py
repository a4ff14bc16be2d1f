"""Style numbers: a scheme of named parts that decodes, checks and proposes the next free number."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from sheetgen.texts import say


@dataclass(frozen=True)
class NumberPart:
    """One part: a code of a table, or a running number of so many digits."""

    name: str
    codes: Mapping[str, str]
    digits: int = 0


@dataclass(frozen=True)
class NumberScheme:
    """How a brand's style numbers are made: parts joined by a sign."""

    parts: tuple[NumberPart, ...]
    join: str = "-"

    def decode(self, number: str) -> dict[str, str]:
        """What each part of a number means; ValueError says in one sentence what does not fit."""
        pieces = number.split(self.join) if self.join else [number]
        if len(pieces) != len(self.parts):
            raise ValueError(
                say(
                    "{number!r} has {count} parts, the scheme has {wanted}: {pattern}",
                    number=number,
                    count=len(pieces),
                    wanted=len(self.parts),
                    pattern=self.pattern,
                )
            )
        return {part.name: _meaning(part, piece, number) for part, piece in zip(self.parts, pieces, strict=True)}

    @property
    def pattern(self) -> str:
        """The scheme in words: brand-season-garment-000."""
        return self.join.join("0" * part.digits or part.name for part in self.parts)

    def codes_of(self, text: str) -> dict[str, str]:
        """The codes in the beginning of a number (HV-27A-OS), by part; ValueError says what does not fit."""
        named = [part for part in self.parts if not part.digits]
        pieces = text.split(self.join) if self.join else [text]
        if len(pieces) != len(named):
            raise ValueError(
                say(
                    "{codes!r} has {count} codes, the scheme wants {pattern}",
                    codes=text,
                    count=len(pieces),
                    pattern=self.join.join(part.name for part in named),
                )
            )
        for part, piece in zip(named, pieces, strict=True):
            _meaning(part, piece, text)
        return {part.name: piece for part, piece in zip(named, pieces, strict=True)}

    def next_free(self, codes: Mapping[str, str], taken: Iterable[str]) -> str:
        """The number for these codes after the highest that is taken, or in a gap below; ValueError if none is left.

        A lower number may be taken elsewhere, where nobody looks now.
        """
        used = set(taken)
        running = next((part for part in self.parts if part.digits), None)
        if running is None:
            raise ValueError(say("the scheme has no running number"))
        missing = next((part.name for part in self.parts if not part.digits and part.name not in codes), None)
        if missing:
            raise ValueError(say("no code is given for {missing}", missing=missing))
        numbers = [
            self.join.join(f"{count:0{part.digits}d}" if part.digits else codes[part.name] for part in self.parts)
            for count in range(1, 10**running.digits)
        ]
        highest = max((place for place, number in enumerate(numbers, 1) if number in used), default=0)
        for number in (*numbers[highest:], *numbers[:highest]):
            if number not in used:
                self.decode(number)
                return number
        raise ValueError(say("all {count} numbers are taken", count=10**running.digits - 1))


def _meaning(part: NumberPart, piece: str, number: str) -> str:
    if part.digits:
        if len(piece) != part.digits or not (piece.isascii() and piece.isdigit()):
            raise ValueError(
                say(
                    "{piece!r} in {number!r} must be {digits} digits ({name})",
                    piece=piece,
                    number=number,
                    digits=part.digits,
                    name=part.name,
                )
            )
        return piece
    if piece not in part.codes:
        near = get_close_matches(piece, list(part.codes), 1)
        hint = (
            say("; is it {near!r}?", near=near[0]) if near else say("; known: {listed}", listed=", ".join(part.codes))
        )
        raise ValueError(
            say(
                "{piece!r} in {number!r} is no code of {name}{hint}",
                piece=piece,
                number=number,
                name=part.name,
                hint=hint,
            )
        )
    return part.codes[piece]
