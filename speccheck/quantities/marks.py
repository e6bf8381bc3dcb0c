"""Typographic marks made plain, and the way back from a place in the plain text to the place in what was written."""

from __future__ import annotations

_PLAIN = {
    "½": " 1/2",
    "⅓": " 1/3",
    "⅔": " 2/3",
    "¼": " 1/4",
    "¾": " 3/4",
    "⅛": " 1/8",
    "⅜": " 3/8",
    "⅝": " 5/8",
    "⅞": " 7/8",
    "≤": "<=",
    "⩽": "<=",
    "≥": ">=",
    "⩾": ">=",
    "²": "^2",
    "³": "^3",
    "⁄": "/",
    "∕": "/",
    **dict.fromkeys("″”“‟〃", '"'),
    **dict.fromkeys("′’‘`´", "'"),
    **dict.fromkeys("–—−‐‑‒―", "-"),
    **dict.fromkeys("×·⋅∙•", "*"),
    **dict.fromkeys("º˚", "°"),
    **dict.fromkeys("µμ", "u"),
    **dict.fromkeys(
        "\t\n\r\v\f\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000",
        " ",
    ),
    **dict.fromkeys("\u00ad\u200b\u200c\u200d\u2060\ufeff", ""),
}
_TABLE = str.maketrans(_PLAIN)


def plain(text: str) -> str:
    """Return the text with typographic marks in plain characters, one for each or a few: "1½″" gives '1 1/2"'."""
    return text.translate(_TABLE)


def place(text: str, start: int, end: int) -> tuple[int, int]:
    """Return where the characters from `start` to `end` of `plain(text)` come from in `text`."""
    origin = [index for index, mark in enumerate(text) for _ in _PLAIN.get(mark, mark)]
    if not origin:
        return 0, len(text)
    if start >= len(origin):
        return len(text), len(text)
    return origin[start], origin[max(start, min(end, len(origin)) - 1)] + 1
