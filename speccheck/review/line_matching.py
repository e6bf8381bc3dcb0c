"""Which line of a resubmittal is which line of the round before: matched by what they are, not by name or row.

Lines that say the same are the same line, be it under another name. Of the others, pairs are made from the most alike
down; the same name counts for more than the same service or size, and two lines with little in common are no pair.
Under another name a line is known again only where it stands for the same system.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from speccheck.judge.operations import Rules
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.review.products import same
from speccheck.review.system_extent import SystemTerms, differing, extent_of, ranges_apart
from speccheck.schedule.lines import Line

_WEIGHT_OF_SYSTEM = 4.0  # a service or a size tells more than a tape; chosen by trial, no source
_WEIGHT_OF_NAME = 6.0
LEAST_ALIKE = 0.6
_NOT_STATED = NotGiven()


@dataclass(frozen=True, slots=True)
class Pair:
    """A line of the round before and the line of the resubmittal that it became, by their positions."""

    old: int
    new: int


@dataclass(frozen=True)
class Matching:
    """All pairs in the order of the resubmittal, and the positions of the lines that have no partner."""

    pairs: tuple[Pair, ...]
    dropped: tuple[int, ...]
    added: tuple[int, ...]


def changed_terms(old: Line, new: Line, vocabulary: Vocabulary, rules: Rules) -> tuple[str, ...]:
    """Return the terms of which two lines say different things, in the order of the vocabulary.

    Names and remarks do not count; nor does what is the same in other units or rounded.
    """
    return tuple(
        name
        for name, term in vocabulary.terms.items()
        if not term.never_compared
        and (name in old.data or name in new.data)
        and not same(_value(old, name), _value(new, name), term, rules)
    )


def _value(line: Line, name: str) -> Value | NotGiven:
    datum = line.data.get(name)
    return _NOT_STATED if datum is None else datum.value


def match_lines(old: Sequence[Line], new: Sequence[Line], vocabulary: Vocabulary, rules: Rules) -> Matching:
    """Return which lines are the same."""
    differing = _Differences(old, new, vocabulary, rules)
    left_old, left_new = dict.fromkeys(range(len(old))), dict.fromkeys(range(len(new)))
    pairs: list[Pair] = []
    for pair in differing.candidates():
        if pair.old in left_old and pair.new in left_new:
            pairs.append(pair)
            del left_old[pair.old], left_new[pair.new]
    return Matching(tuple(sorted(pairs, key=lambda pair: pair.new)), tuple(left_old), tuple(left_new))


class _Differences:
    """How alike lines of two rounds are."""

    def __init__(self, old: Sequence[Line], new: Sequence[Line], vocabulary: Vocabulary, rules: Rules) -> None:
        self.old, self.new, self.vocabulary, self.rules = old, new, vocabulary, rules
        self.terms = SystemTerms.of(vocabulary)
        self.extents = [extent_of(line, self.terms) for line in old], [extent_of(line, self.terms) for line in new]

    def candidates(self) -> Iterable[Pair]:
        """Return the pairs that are alike enough, the most alike first; of equals those of one name, then in order."""
        scored = []
        for first, one in enumerate(self.old):
            for second, other in enumerate(self.new):
                score = self._alike(one, other) if self._comparable(first, second) else 0.0
                if score >= LEAST_ALIKE:
                    scored.append((-score, one.name != other.name, abs(first - second), first, second))
        return [Pair(first, second) for *_, first, second in sorted(scored)]

    def _comparable(self, first: int, second: int) -> bool:
        """Whether two lines have one name, or stand for the same system in what both state."""
        if self.old[first].name == self.new[second].name:
            return True
        one, other = self.extents[0][first], self.extents[1][second]
        return not any(differing(one, other)) and not any(ranges_apart(one, other))

    def _alike(self, one: Line, other: Line) -> float:
        """Return how alike two lines are, from 0 to 1; lines that say the same are 1 whatever their names."""
        stated = [
            name
            for name in dict.fromkeys((*one.data, *other.data))
            if name not in self.terms.never_compared
            and not (isinstance(_value(one, name), NotGiven) and isinstance(_value(other, name), NotGiven))
        ]
        weights = {name: _WEIGHT_OF_SYSTEM if name in self.terms.names else 1.0 for name in stated}
        alike = sum(weight for name, weight in weights.items() if self._same(one, other, name))
        whole = sum(weights.values())
        if alike == whole:
            return 1.0
        return (alike + (_WEIGHT_OF_NAME if one.name == other.name else 0.0)) / (whole + _WEIGHT_OF_NAME)

    def _same(self, one: Line, other: Line, name: str) -> bool:
        return same(_value(one, name), _value(other, name), self.vocabulary.terms.get(name), self.rules)
