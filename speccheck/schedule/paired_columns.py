"""Paired columns: several columns of one proposed term, each for lines of one place or part: "Finish - concealed"
beside "Finish - exposed", "Jacket" over "Indoor" and "Outdoor". Each is a line of its own, as in a cross table.

A condition that no other column of its term shares stands alone, unless a cross table beside it has the same ones: the
jacket of "Jacket, outdoor" is that of the thickness under "Outdoor".
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import Value
from speccheck.schedule.cross_tables import CrossColumn, Parts
from speccheck.schedule.header_words import HeaderReader

_BREAK = re.compile(r"\s*[,:;(\[/–—]\s*|\s+-\s+|\s+")
_AROUND = re.compile(r"^(?:for|at|in|where|when|on|if)\s+|[\s)\],:;]+$", re.IGNORECASE)
FEWEST = 2
MOST_WORDS = 8


def find_paired_columns(
    columns: Mapping[int, Parts],
    reader: HeaderReader,
    taken: frozenset[str],
    across: Mapping[int, CrossColumn],
    times: Mapping[str, int],
) -> dict[int, CrossColumn]:
    """Return the paired columns among the `columns` of a header that were not read; none where they are not certain.

    `taken` names the terms that other columns state, `across` has the columns of a cross table in the same header,
    `times` says how many columns name a term plainly. No other column states what they stand for, and no two columns
    of one term stand for the same.
    """
    found = {
        column: pair
        for column, parts in columns.items()
        if parts and column not in across and (pair := _pair(tuple(parts.values()), list(parts)[-1], reader))
    }
    pairs: dict[int, CrossColumn] = {}
    for name in dict.fromkeys(each.measured.name for each in found.values()):
        own = {column: each for column, each in found.items() if each.measured.name == name}
        values = {_stands_for(each) for each in own.values()}
        if name in taken or {axis for axis, _ in values} & taken or len(values) < len(own):
            continue
        materials = all(each.axis.proposed for each in own.values())
        if materials and times.get(name, 0) not in (0, len(own)):
            continue
        if materials or len(own) >= FEWEST or values <= {_stands_for(each) for each in across.values()}:
            pairs |= own
    return pairs


def _stands_for(column: CrossColumn) -> tuple[str, str]:
    """Return the term and the value that a column stands for."""
    return column.axis.name, str(column.value)


def _pair(texts: tuple[str, ...], origin: tuple[int, int], reader: HeaderReader) -> CrossColumn | None:
    """Return how a header reads as the name of a term with a condition before or behind it, or below or above it."""
    found = _parted(texts, reader)
    return None if found is None else CrossColumn(*found, origin)


@lru_cache(maxsize=8192)
def _parted(texts: tuple[str, ...], reader: HeaderReader) -> tuple[Term, str, Term, Value, str] | None:
    """Return the term of such a header, its unit, the term and the value of the condition, and its words."""
    if sum(len(text.split()) for text in texts) > MOST_WORDS:
        return None
    for name, condition in _ways_to_part(texts):
        axis = _condition(_AROUND.sub("", _AROUND.sub("", condition)), reader)  # soonest told that it is none
        term, unit = _proposed(name, reader) if axis is not None else (None, "")
        if term is not None and axis is not None and _may_stand_over(axis[0], term):
            return term, unit, *axis, condition.strip(" )]")
    return None


def _ways_to_part(texts: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    """Yield the ways to part the texts of a header into a name and a condition: between its rows, then its words."""
    for place in range(1, len(texts)):
        upper, lower = " ".join(texts[:place]), " ".join(texts[place:])
        yield from ((upper, lower), (lower, upper))
    whole = " ".join(texts)
    for found in _BREAK.finditer(whole):
        first, last = whole[: found.start()], whole[found.end() :]
        if first and last:
            yield from ((first, last), (last, first))


def _proposed(name: str, reader: HeaderReader) -> tuple[Term | None, str]:
    """Return the proposed term that words name alone, and the unit that they state."""
    match = reader.match(name)
    if match is None or match.term is None or match.rest or match.misfit:
        return None, ""
    term = match.term
    return (term, match.unit) if term.proposed and term.kind.form is not Form.TEXT else (None, "")


def _condition(words: str, reader: HeaderReader) -> tuple[Term, Value] | None:
    """Return the one term and the value that words name."""
    facts = reader.headings.facts(words)
    if len(facts) != 1:
        return None
    name, value = next(iter(facts.items()))
    return reader.vocabulary.terms[name], value


def _may_stand_over(axis: Term, measured: Term) -> bool:
    """Whether columns of a term may each be for a value of another: one that tells systems apart and is no choice.

    Thicknesses may also stand each under the material that it is of, as proposals beside one another.
    """
    condition = axis.tells_apart and not axis.proposed
    return condition or (measured.tabulated and axis.name in measured.beside)
