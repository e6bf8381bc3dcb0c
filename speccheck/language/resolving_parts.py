"""Parts that many items have: sources, words behind a keyword, and parts that may stand only once."""

from __future__ import annotations

from speccheck.language.core import Confidence, Source
from speccheck.language.names import Names
from speccheck.language.syntax import Part, SourcePart, TextPart

ONCE = (
    "wording",
    "reason",
    "subject",
    "replaces",
    "edition",
    "units",
    "tolerance",
    "covers",
    "leaves out",
    "cheapest first",
)


def sources_of(parts: tuple[Part, ...]) -> tuple[Source, ...]:
    """Return the sources among the parts."""
    return tuple(Source(p.text.text, Confidence(p.confidence)) for p in parts if isinstance(p, SourcePart))


def texts_of(parts: tuple[Part, ...], keyword: str) -> tuple[str, ...]:
    """Return the words of all parts with `keyword`."""
    return tuple(p.words[0].text for p in parts if isinstance(p, TextPart) and p.keyword == keyword)


def check_once(names: Names, parts: tuple[Part, ...]) -> None:
    """Report parts that may stand once and stand twice."""
    seen: set[str] = set()
    for part in parts:
        if isinstance(part, TextPart) and part.keyword in ONCE:
            if part.keyword in seen:
                message = f"`{part.keyword}` is said twice"
                names.report(names.source.error("L309", message, part.place, "join the two, or leave one out"))
            seen.add(part.keyword)
