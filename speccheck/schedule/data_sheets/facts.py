"""Facts in one sentence or one row: which property has which value, and at which condition.

A value belongs to the nearest name of a property before it that it can be a value of; where none stands before it, to
the nearest behind it. A condition, as the mean temperature of a conductivity, is a value of its kind beside "at" or
"mean".
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Value
from speccheck.phrases.words import Word, words_of
from speccheck.schedule.data_sheets.mentions import (
    Mention,
    MentionedQuantity,
    SheetNames,
    ends_of,
    number_behind,
    quantities_in,
)

_AT = re.compile(r"(?:@|\bat\b|\bmean\b|\bmt\b)", re.IGNORECASE)
_NEAR = 40
"""Characters between a condition and the word that says that it is one."""
_FAR_NUMBER = 8
"""Words between a name and a number without a unit, beyond which the number may be anything."""


@dataclass(frozen=True, slots=True)
class SheetFact:
    """One property with its value, the words of the value, and the condition at which it holds, with its words."""

    term: Term
    value: Value
    text: str
    at: Value | None = None
    at_text: str = ""


def facts_in(text: str, names: SheetNames, before: Sequence[Term] = ()) -> list[SheetFact]:
    """Return the facts of a sentence; `before` are the terms that it is about though it does not name them."""
    words = words_of(text)
    mentions = names.within(words)
    if before:
        mentions = [Mention(0, 0, tuple(before)), *mentions]
    return list(_facts(text, words, mentions, names))


def _facts(text: str, words: Sequence[Word], mentions: Sequence[Mention], names: SheetNames) -> Iterator[SheetFact]:
    properties = {term.name for term in names.properties}
    conditions = {term.stated_at for term in names.properties if term.stated_at}
    for number, mention in enumerate(mentions):
        term = mention.terms[0]
        if not any(one.name in properties for one in mention.terms) or term.name in conditions:
            continue
        found = _values(text, words, mentions, number)
        at_term = names.vocabulary.terms.get(term.stated_at) if term.stated_at else None
        at = _conditions(text, words, at_term) if at_term is not None else []
        for one in found:
            nearest = _nearest(one, found, at)
            second, behind = names.second_of_pair(term), number_behind(text, words[one.last - 1].end)
            if second is not None and behind is not None:
                yield SheetFact(second, *behind)
            for each, value in ends_of(one.value, mention.terms):
                yield SheetFact(each, value, one.text, *((nearest.value, nearest.text) if nearest else (None, "")))


def _values(text: str, words: Sequence[Word], mentions: Sequence[Mention], number: int) -> list[MentionedQuantity]:
    """Return the values that belong to a mention: behind it up to the next rival, else before it."""
    mention = mentions[number]
    term = mention.terms[0]
    rivals = [one for one in mentions if one is not mention and _alike(one, mention)]
    stop = min((one.first for one in rivals if one.first >= mention.last), default=len(words))
    found = [one for one in quantities_in(text, words, term) if not _is_condition(text, words, one, term)]
    behind = [one for one in found if mention.last <= one.first < stop]
    if not term.kind.dimension:
        behind = [one for one in behind[:1] if one.first - mention.last <= _FAR_NUMBER]
    if behind:
        return behind if term.stated_at or len(mention.terms) == 2 else behind[:1] + _other_units(behind)
    start = max((one.last for one in rivals if one.last <= mention.first), default=0)
    if start or not term.kind.dimension:
        return []
    return [one for one in found if one.last <= mention.first][-1:]


def _other_units(found: Sequence[MentionedQuantity]) -> list[MentionedQuantity]:
    """Return the second of two values where it is the first in brackets or behind a slash, in another unit."""
    return [one for one in found[1:2] if one.first - found[0].last <= 2]


def _alike(one: Mention, other: Mention) -> bool:
    """Whether a value could belong to either of two mentions."""
    return one.terms[0].kind.dimension == other.terms[0].kind.dimension


def _is_condition(text: str, words: Sequence[Word], found: MentionedQuantity, term: Term) -> bool:
    """Whether a temperature says at which temperature something else holds."""
    if term.kind.dimension != "temperature":
        return False
    start, end = words[found.first].start, words[found.last - 1].end
    return bool(re.search(r"@\s*$", text[:start]) or re.match(r"[\s)]*mean\b", text[end:], re.IGNORECASE))


def _conditions(text: str, words: Sequence[Word], term: Term) -> list[MentionedQuantity]:
    """Return the values of a condition in a sentence."""
    return [
        one
        for one in quantities_in(text, words, term)
        if _AT.search(text[max(words[one.first].start - _NEAR, 0) : words[one.first].start])
        or _AT.match(text[words[one.last - 1].end :].lstrip(" ,()"))
    ]


def _nearest(
    one: MentionedQuantity, values: Sequence[MentionedQuantity], conditions: Sequence[MentionedQuantity]
) -> MentionedQuantity | None:
    """Return the condition of a value: the first behind it before the next value, else the last before it."""
    following = min((other.first for other in values if other.first > one.first), default=10**6)
    behind = [at for at in conditions if one.last <= at.first < following]
    if behind:
        return behind[0]
    before = [at for at in conditions if at.last <= one.first]
    return before[-1] if before else None
