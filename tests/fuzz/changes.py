"""How an input is changed: single marks, words, lines and pieces of other inputs, with what often breaks readers."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence

# What has broken readers before, here or elsewhere: sizes, nesting, numbers, marks of other alphabets, references.
HARD = [
    b"9" * 400,
    b"1e999",
    b"-0",
    b"1/0",
    b"NaN",
    b"\x00",
    b"\xed\xa0\x80",
    b"\xff\xfe",
    b"\xe2\x80\xae",
    b"\x1b[31m",
    b"(" * 200,
    b"[" * 500,
    b"{" * 200,
    b'"',
    b"'''",
    b'"""',
    b"\r",
    b"\n\n",
    b"\t",
    b"a" * 5000,
    b"a." * 500,
    b"&amp;",
    b"&#0;",
    b"<![CDATA[",
    b"XFD1048576",
    b"ZZZZZZ1",
    b"A99999999",
    b"1-1/2",
    b" to ",
    b" or ",
    b"not ",
    b" / ",
    "½″".encode(),
    "１２".encode(),
    "İ".encode(),
    b"2024-02-30",
    b"=1+1",
    b"%",
    b"\\",
    b"none",
    b"--",
]
_MOST_BYTES = 20_000


def changed(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    """Return an input with one to four changes; `others` lend pieces."""
    for _ in range(chance.randint(1, 4)):
        data = chance.choice(_CHANGES)(data, others, chance)
    return data[:_MOST_BYTES]


def _flip(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    place = chance.randrange(len(data) + 1)
    return data[:place] + bytes([chance.randrange(256)]) + data[place + 1 :]


def _insert(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    place = chance.randrange(len(data) + 1)
    return data[:place] + chance.choice(HARD) + data[place:]


def _leave_out(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    start = chance.randrange(len(data) + 1)
    return data[:start] + data[start + chance.randint(1, 12) :]


def _repeat(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    start = chance.randrange(len(data) + 1)
    piece = data[start : start + chance.randint(1, 60)]
    return data[:start] + piece * chance.choice((2, 3, 50)) + data[start:]


def _swap_lines(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    lines = data.split(b"\n")
    first, second = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[first], lines[second] = lines[second], lines[first]
    return b"\n".join(lines)


def _swap_words(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    words = data.split(b" ")
    first, second = chance.randrange(len(words)), chance.randrange(len(words))
    words[first], words[second] = words[second], words[first]
    return b" ".join(words)


def _lend(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    other = chance.choice(others) if others else data
    start, place = chance.randrange(len(other) + 1), chance.randrange(len(data) + 1)
    return data[:place] + other[start : start + chance.randint(1, 80)] + data[place:]


_Change = Callable[[bytes, Sequence[bytes], random.Random], bytes]
_CHANGES: list[_Change] = [_flip, _insert, _leave_out, _repeat, _swap_lines, _swap_words, _lend]
