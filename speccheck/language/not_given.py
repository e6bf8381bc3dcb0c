"""Words that stand in a schedule where a value should: "TBD", "per spec", a dash; and why each of them says nothing."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache


@dataclass(frozen=True, slots=True)
class NotGiven:
    """The value that is missing: what stands in its place ("TBD", "", ...) and why that says nothing."""

    text: str = ""
    why: str = "blank"


OPEN = "to be settled later"
NOT_APPLICABLE = "said not to apply"
NOT_KNOWN = "said not to be known"
DASH = "a dash says nothing"
ELSEWHERE = "refers to another document"
OTHERS = "left to others"
NOT_SAID = "does not say what it is"

# The patterns meet the text in lower case, without full stops, with dashes as "-" and single blanks.
_ALWAYS = (
    (r"-[- ]*|_+", DASH),
    (r"\?[? ]*", NOT_KNOWN),
    (r"t ?[bdca] ?[dca](?:\b.*)?|tbs", OPEN),
    (r"to be (?:determined|confirmed|advised|decided|selected|submitted|coordinated|announced)\b.*", OPEN),
    (r"(?:later|pending|open|hold|on hold|not yet (?:known|selected|determined))", OPEN),
    (r"n ?/? ?a|not applicable|does not apply", NOT_APPLICABLE),
    (r"unknown|not known|not available|not given|not stated|no data", NOT_KNOWN),
)
_REFERENCES = (
    (r"(?:as |or )?per .+|as per .+|see .+|refer(?: to)? .+|in accordance with .+", ELSEWHERE),
    (r"(?:as|where) (?:required|needed|specified|shown|noted|indicated|scheduled|directed|per .+)\b.*", ELSEWHERE),
    (r"by (?:others|owner|gc|general contractor|manufacturer|mfr|factory)", OTHERS),
    (r"match existing|to match existing|match (?:ex|exist)|varies|various|vary|as existing", NOT_SAID),
)


def _compiled(table: tuple[tuple[str, str], ...]) -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(pattern), why) for pattern, why in table)


_ALWAYS_COMPILED = _compiled(_ALWAYS)
_REFERENCES_COMPILED = _compiled(_REFERENCES)


@lru_cache(maxsize=16384)
def not_given(text: str, *, references: bool = True) -> NotGiven | None:
    """Return the `NotGiven` that `text` is, or None where it may be a value.

    `references` also takes words that point elsewhere ("per spec", "by others") for no value; for a term whose
    values are free text they are text like any other.
    """
    stripped = text.strip()
    if not stripped:
        return NotGiven()
    plain = re.sub(r"\s+", " ", re.sub(r"[‐‑‒–—―−]", "-", stripped.casefold()).replace(".", "")).strip(" ()[]")
    tables = _ALWAYS_COMPILED + _REFERENCES_COMPILED if references else _ALWAYS_COMPILED
    for pattern, why in tables:
        if pattern.fullmatch(plain):
            return NotGiven(stripped, why)
    return NotGiven(stripped, NOT_SAID) if not plain else None
