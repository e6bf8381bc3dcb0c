"""Sentences of a section read as a clause: for which lines it is, what it asks, and which words were not understood.

A sentence is parted where sections part it: "Where ..., " before the comma, "Insulate ... with ...", "... shall be",
"Provide ... on ...". Each side is read by itself: names of the vocabulary, amounts with their relation, and words that
hold a sentence together. A word that is none of these is left over, and a sentence with words left over is not
understood as a whole: nothing is dropped in silence.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.specification.asked import asked_in
from speccheck.specification.conditions import conditions_in


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence as clause text: conditions behind `where`, what is asked, with which word, and what was left over."""

    where: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    keyword: str = "shall"
    left_over: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()

    @property
    def is_understood(self) -> bool:
        """Whether every word was understood, and something is asked."""
        return bool(self.asks) and not self.left_over and not self.doubts


@dataclass
class _Parted:
    """The pieces of a sentence: those that say for which lines it is, and those that say what is asked."""

    where: list[str] = field(default_factory=list)
    asks: list[str] = field(default_factory=list)
    keyword: str = "shall"
    negative: bool = False


_LEADING = re.compile(r"(?:where|when|for|on|in|at|if)\s+(?P<where>[^,]+),\s*(?P<rest>.+)", re.IGNORECASE)
_DO_NOT = re.compile(
    r"do not (?:use|install|apply|provide)\s+(?P<asks>.+?)(?:\s+(?:on|for|in|at)\s+(?P<where>.+))?", re.I
)
_NOT_PERMITTED = re.compile(
    r"(?P<asks>.+?)\s+(?:is|are|shall)\s+not\s+(?:be\s+)?(?:permitted|allowed|acceptable|used)"
    r"(?:\s+(?:on|for|in|at)\s+(?P<where>.+))?",
    re.IGNORECASE,
)
_INSULATE = re.compile(
    r"(?:insulate|cover|protect|jacket|finish|seal|wrap)\s+(?P<where>.+?)\s+(?:with|by|to|in)\s+(?P<asks>.+)",
    re.IGNORECASE,
)
_PROVIDE = re.compile(
    r"(?:provide|install|furnish|use|apply)\s+(?P<asks>.+?)\s+(?:on|for|over|in|where|around|to)\s+(?P<where>.+)",
    re.IGNORECASE,
)
_PROVIDE_ALL = re.compile(r"(?:provide|install|furnish|use|apply)\s+(?P<asks>.+)", re.IGNORECASE)
_SHALL_INSULATED = re.compile(
    r"(?P<where>.+?)\s+(?P<verb>shall|must|should)\s+(?:be\s+(?:insulated|covered|protected|jacketed|provided|sealed|finished)"
    r"\s+(?:with|by|to)|have|receive)\s+(?P<asks>.+)",
    re.IGNORECASE,
)
_SHALL_BE = re.compile(
    r"(?P<subject>.+?)\s+(?P<verb>shall|must|should)\s+(?P<asks>(?:be|not|have|include)\s+.+)", re.IGNORECASE
)
_OF = re.compile(
    r"(?P<term>.+?)\s+(?:of|on|for|in|at|(?=exposed\s+to\s)|(?=located\s)|(?=installed\s+(?:in|at|on)\s))\s*(?P<where>.+)",
    re.IGNORECASE,
)
_TRAILING = re.compile(r"(?P<asks>.+?)\s+(?:where|when|for|on)\s+(?P<where>(?!each\b).+)", re.IGNORECASE)


def sentences_of(text: str) -> list[str]:
    """Return the sentences of a paragraph; a full stop in an abbreviation or a number ends none."""
    parts = re.split(r"(?<=[a-z)\]%\"″])[.;]\s+(?=[A-Z])|(?<=[a-z\d])\.$", text.strip())
    return [part.strip(" .;") for part in parts if part and part.strip(" .;")]


def read_sentence(text: str, vocabulary: Vocabulary) -> Sentence:
    """Return a sentence of a section as the text of conditions and requirements."""
    parted = _part(" ".join(text.split()))
    if parted is None:
        return Sentence(left_over=(text,))
    where, left, doubts = [], [], []
    for piece in parted.where:
        found = conditions_in(piece, vocabulary)
        where += found.texts
        left += found.left_over
        doubts += found.doubts
    asks: list[str] = []
    for piece in parted.asks:
        asked = asked_in(piece, vocabulary, negative=parted.negative)
        asks += asked.texts
        left += asked.left_over
        doubts += asked.doubts
    return Sentence(tuple(dict.fromkeys(where)), tuple(asks), parted.keyword, tuple(left), tuple(doubts))


def _part(text: str) -> _Parted | None:
    """Part a sentence into its pieces, or return None where it is built as no requirement is."""
    parted = _Parted()
    leading = _LEADING.fullmatch(text)
    if leading is not None:
        parted.where.append(leading["where"])
        text = leading["rest"]
    for pattern in (_DO_NOT, _NOT_PERMITTED):
        found = pattern.fullmatch(text)
        if found is not None:
            parted.negative = True
            return _with(parted, found["asks"], found["where"])
    for pattern in (_SHALL_INSULATED, _SHALL_BE, _INSULATE, _PROVIDE, _PROVIDE_ALL):
        found = pattern.fullmatch(text)
        if found is not None:
            return _matched(parted, found.groupdict())
    return None


def _matched(parted: _Parted, found: dict[str, str]) -> _Parted:
    """Fill in the pieces of a sentence that a pattern took apart."""
    parted.keyword = "should" if (found.get("verb") or "").casefold() == "should" else "shall"
    subject = found.get("subject")
    if subject is None:
        return _with(parted, found["asks"], found.get("where"))
    of = _OF.fullmatch(subject)
    trailing = _TRAILING.fullmatch(found["asks"])
    asks, where = (trailing["asks"], trailing["where"]) if trailing is not None else (found["asks"], None)
    term = of["term"] if of is not None else subject
    _with(parted, f"{term} {asks}", where)
    if of is not None:
        parted.where.append(of["where"])
    return parted


def _with(parted: _Parted, asks: str, where: str | None) -> _Parted:
    parted.asks.append(asks)
    if where:
        parted.where.append(where)
    return parted
