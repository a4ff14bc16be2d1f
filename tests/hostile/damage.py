"""Damage to files, drawn with a seed: bytes turned, parts cut, doubled or exchanged, figures and words put out of all bounds."""

from __future__ import annotations

import random
import re

from tests.hostile.spoil import packed, parts_of

_WORDS = (b"", b"-1", b"0", b"99999999999999999999", b"1e999", b"NaN", b"A0", b"XFE1048577", b"\xff\xfe", b"&#0;", b"&bad;",
          b"#REF!", b"'", b"]]>", b"A1:" + b"Z" * 400, "\U0001f9f5".encode(), b"x" * 40_000)  # fmt: skip
_VALUE = re.compile(rb'(?<==")[^"]*(?=")|(?<=>)[^<>]+(?=<)')
_ELEMENT = re.compile(rb"<[^<>]*>")
_LONGEST = 3_000_000
"""No part is made longer than this, in bytes."""


def damaged(data: bytes, seed: int) -> bytes:
    """The file with one to four faults; the same seed gives the same file."""
    chance = random.Random(seed)
    if chance.random() < 0.15:
        return _bytes(data, chance)
    parts = parts_of(data)
    for _ in range(chance.randint(1, 4)):
        name = chance.choice(sorted(parts))
        kind = chance.random()
        if kind < 0.05 and len(parts) > 1:
            del parts[name]
        elif kind < 0.1:
            parts[name] = parts[chance.choice(sorted(parts))]
        else:
            parts[name] = _part(parts[name], chance)[:_LONGEST]
    return packed(parts)


def _bytes(data: bytes, chance: random.Random) -> bytes:
    at, length = chance.randrange(len(data)), chance.randint(1, 400)
    kind = chance.randrange(4)
    if kind == 0:
        return data[:at]
    if kind == 1:
        return data[:at] + bytes(chance.randrange(256) for _ in range(length)) + data[at + length :]
    return (
        data[:at] + data[at + length :] if kind == 2 else data[:at] + data[at : at + length] * 3 + data[at + length :]
    )


def _part(content: bytes, chance: random.Random) -> bytes:
    kind = chance.randrange(5)
    if kind == 0 or not content:
        return _bytes(content or b"<a/>", chance)
    found = list((_VALUE if kind < 4 else _ELEMENT).finditer(content))
    if not found:
        return _bytes(content, chance)
    one = chance.choice(found)
    if kind == 4:
        new = chance.choice((b"", one.group() * 2, one.group() * 3000, b"<b>" * 3000 + one.group()))
    else:
        new = chance.choice(_WORDS)
    return content[: one.start()] + new + content[one.end() :]
