"""Shorthand, and words of other countries, written out: sentences are read in one wording, and kept in their own."""

from __future__ import annotations

import re

_WRITTEN_OUT = (
    (r"\bo\.?\s?c\b\.?|\bc/c\b", "on center"),
    (r"\bcentres?\b", "centers"),
    (r"\s@\s*", " at "),
    (r"\bw/(?=\s)", "with"),
    (r"\bthru\b", "through"),
    (r"\bvapour\b", "vapor"),
    (r"\bclad\s+(?:in|with)\b", "jacketed with"),
    (r"(?<!factory )\bcladding(?! tape)\b", "jacket"),
    (r"\bpipework\b", "piping"),
    (r"\b(shall|must)\s+(?:contain\s+no|not\s+contain)\b", r"\1 be free of"),
    (r"\bexternally\b", "outdoors"),
    (r"\bexternal(?=\s+(?:pipe|pipes|piping|pipework|duct|ducts|ductwork)\b)", "outdoor"),
    (r"\bintegral\s+(?=(?:moisture|vapor)\s+barrier\b)", ""),
)
_PATTERNS = tuple((re.compile(words, re.IGNORECASE), instead) for words, instead in _WRITTEN_OUT)


def plain_words_of(text: str) -> str:
    """Return words of a section with shorthand written out, and with the words of this country for those of others."""
    for pattern, instead in _PATTERNS:
        text = pattern.sub(instead, text)
    return " ".join(text.split())
