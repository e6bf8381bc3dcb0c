"""Requirements of a line, whether changed values meet them, and those that no change meets together."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from itertools import combinations

from speccheck.judge.aggregate import worst_of
from speccheck.judge.completing import Needs
from speccheck.judge.judgement import BareVerdict, Judgement, Verdict
from speccheck.judge.judging import Judge
from speccheck.language.core import Clause
from speccheck.language.core.walking import terms_of
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.review.corrections.alike import Alike
from speccheck.schedule.lines import Datum, Line

NOT_KNOWN_OF_NEW = "not known of the new "
SETTLED = (Verdict.COMPLIES, Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE)


@dataclass(frozen=True, slots=True)
class ClauseStanding:
    """How a clause stands on a line: its verdict, and the terms that would settle one that cannot be determined.

    `advice` is the verdict on its advice, None where it gives none.
    """

    verdict: Verdict
    missing: frozenset[str] = frozenset()
    advice: Verdict | None = None

    def waits_only_for(self, names: Iterable[str]) -> bool:
        """Say whether the verdict waits for data, all of them among `names`."""
        return self.verdict is Verdict.CANNOT_TELL and bool(self.missing) and self.missing <= set(names)

    def waits_for_none_of(self, names: Iterable[str]) -> bool:
        """Say whether the verdict cannot be determined, be it for want of other data than `names` or of any means."""
        return self.verdict is Verdict.CANNOT_TELL and self.missing.isdisjoint(names)


OUTSIDE = ClauseStanding(Verdict.NOT_APPLICABLE)
"""How a clause stands on a line that is out of its scope."""


def changed(line: Line, values: Mapping[str, Single], vocabulary: Vocabulary) -> Line:
    """Return a line that states other values for some of its terms.

    What it states of a thing that is changed (the conductivity of the insulation) is not known of the new one.
    """
    data = dict(line.data)
    for name in line.data:
        owner = vocabulary.terms[name].of if name in vocabulary.terms else ""
        if owner in values:
            data[name] = Datum(NotGiven("", f"{NOT_KNOWN_OF_NEW}{owner}"))
    data.update((name, Datum(value)) for name, value in values.items())
    return replace(line, data=data)


@dataclass
class Standings:
    """How the clauses of a ruleset stand on lines; lines that state the same for a clause are judged by it once."""

    judge: Judge
    _known: dict[Hashable, ClauseStanding] = field(default_factory=dict)
    _outside: dict[Hashable, bool] = field(default_factory=dict)

    @cached_property
    def alike(self) -> Alike:
        """Which values of a term are alike to a clause."""
        return Alike(self.judge)

    @cached_property
    def alike_to_scope(self) -> Alike:
        """Which values of a term are alike to the scope of a clause."""
        return Alike(self.judge, of_scope=True)

    def is_outside(self, number: int, line: Line) -> bool:
        """Say whether a line is out of the scope of clause `number`: for that nothing else has to be worked out."""
        key = self.judge.state(number, line, of_scope=True)
        if key not in self._outside:
            self._outside[key] = self.judge.is_out_of_scope(number, line)
        return self._outside[key]

    def of(self, number: int, line: Line, others: Callable[[], Iterable[Line]] = tuple) -> ClauseStanding:
        """Return how clause `number` stands on a line; where that is not known yet, `others` are judged in one go."""
        key = self.judge.state(number, line)
        if key not in self._known:
            lines = {self.judge.state(number, one): one for one in (line, *others())}
            fresh = {state: one for state, one in lines.items() if state not in self._known}
            for state, judgements in zip(fresh, self.judge.verdicts(number, fresh.values()), strict=True):
                self._known[state] = _standing(judgements)
        return self._known[key]

    def row(self, line: Line) -> tuple[BareVerdict, ...]:
        """Return the verdicts of all clauses on a line."""
        return tuple(self._verdict(number, clause, line) for number, clause in enumerate(self.judge.ruleset.clauses))

    def _verdict(self, number: int, clause: Clause, line: Line) -> BareVerdict:
        if self.is_outside(number, line):
            return BareVerdict(OUTSIDE.verdict, OUTSIDE.verdict if clause.should else None, bool(clause.shall))
        standing = self.of(number, line)
        advice = (standing.advice or Verdict.CANNOT_TELL) if clause.should else None
        return BareVerdict(standing.verdict, advice, bool(clause.shall))


@dataclass
class Requirement:
    """A mandatory clause on a line.

    `terms` are the changeable ones that it draws on, or on whose properties it draws, in the order of the vocabulary,
    `scope_terms` those of its scope alone; `asked` are all that its `shall` names. `works_out` says that it draws on
    computed values, `must_settle` that an answer is asked of it, and not only that it does not fail; `lenient` lets it
    wait for data that nobody may propose. `judged` counts the states of the line that were asked about, and `values`
    are the ones to try for a term.
    """

    clause: Clause
    number: int
    line: Line
    standings: Standings
    terms: tuple[str, ...]
    scope_terms: tuple[str, ...]
    changeable: frozenset[str]
    works_out: bool = False
    must_settle: bool = True
    lenient: bool = False
    asked: frozenset[str] = frozenset()
    values: Callable[[str], Sequence[Single]] = field(default=lambda name: ())
    judged: int = 0
    _standings: dict[tuple[Single | None, ...], ClauseStanding] = field(default_factory=dict)
    _by_what_is_seen: dict[tuple[Hashable, ...], ClauseStanding] = field(default_factory=dict)
    _outside: dict[tuple[Hashable, ...], bool] = field(default_factory=dict)

    def standing(self, values: Mapping[str, Single]) -> ClauseStanding:
        """Return how the clause stands on the line with changed values; values alike to it are judged once."""
        key = tuple([values.get(name) for name in self.terms])
        found = self._standings.get(key)
        if found is None:
            self.judged += 1
            found = self._standings[key] = OUTSIDE if self._is_outside(values) else self._inside(values)
        return found

    def _is_outside(self, values: Mapping[str, Single]) -> bool:
        """Say whether the line with changed values is out of the scope of the clause."""
        relevant = {name: values[name] for name in self.scope_terms if name in values}
        alike = self.standings.alike_to_scope
        seen = tuple([(name, alike.as_seen(self.number, name, value)) for name, value in relevant.items()])
        found = self._outside.get(seen)
        if found is None:
            found = self._outside[seen] = self.standings.is_outside(self.number, self._with(relevant))
        return found

    def _inside(self, values: Mapping[str, Single]) -> ClauseStanding:
        """Return how the clause stands on the line with changed values, which is in its scope, or may be."""
        relevant = {name: value for name, value in values.items() if name in self.terms}
        seen = tuple([self.as_seen(name, values[name]) if name in values else None for name in self.terms])
        found = self._by_what_is_seen.get(seen)
        if found is None:
            others = partial(self._beside, relevant) if self.works_out else tuple
            found = self._by_what_is_seen[seen] = self.standings.of(self.number, self._with(relevant), others)
        return found

    def as_seen(self, name: str, value: Single) -> Hashable:
        """Return what the clause sees of a value of a term, never None: the same for values that are alike to it."""
        return self.standings.alike.as_seen(self.number, name, value)

    def _with(self, values: Mapping[str, Single]) -> Line:
        return changed(self.line, values, self.standings.judge.ruleset.vocabulary) if values else self.line

    def _beside(self, values: Mapping[str, Single]) -> Iterator[Line]:
        """Yield the line with the other values to try for the last term changed, which are asked about soon."""
        for name in list(values)[-1:]:
            for value in self.values(name):
                yield self._with({**values, name: value})

    def met(self, values: Mapping[str, Single]) -> bool:
        """Say whether changed values of the line meet the requirement."""
        standing = self.standing(values)
        if standing.verdict in SETTLED:
            return True
        if standing.verdict is Verdict.FAILS:
            return False
        return not self.must_settle or (self.lenient and standing.waits_for_none_of(self.changeable))


@dataclass(frozen=True)
class Drawing:
    """What a mandatory clause draws on: changeable terms, those of its scope, whether values are worked out, and what
    it asks about.
    """

    number: int
    clause: Clause
    terms: tuple[str, ...]
    scope_terms: tuple[str, ...]
    works_out: bool
    asked: frozenset[str]


def drawings_of(judge: Judge, changeable: Sequence[str]) -> tuple[Drawing, ...]:
    """Return what the mandatory clauses of a ruleset draw on."""
    found = []
    for number, clause in enumerate(judge.ruleset.clauses):
        if clause.shall:
            needs = judge.needs(number)
            terms, scope_terms = (_drawn_on(one, changeable) for one in (needs, judge.scope_needs(number)))
            asked = frozenset(term.name for term in terms_of(clause.shall))
            found.append(Drawing(number, clause, terms, scope_terms, bool(needs.computed), asked))
    return tuple(found)


def _drawn_on(needs: Needs, changeable: Sequence[str]) -> tuple[str, ...]:
    """Return the changeable terms that are needed, or whose properties are."""
    names = {name for term in needs.terms for name in (term.name, term.of)}
    return tuple(name for name in changeable if name in names)


def requirements_of(
    line: Line, drawings: Iterable[Drawing], standings: Standings, changeable: Iterable[str], *, lenient: bool = False
) -> tuple[Requirement, ...]:
    """Return mandatory clauses as requirements of a line."""
    names = frozenset(changeable)
    found = []
    for one in drawings:
        requirement = Requirement(
            one.clause,
            one.number,
            line,
            standings,
            one.terms,
            one.scope_terms,
            names,
            one.works_out,
            lenient=lenient,
            asked=one.asked,
        )
        standing = requirement.standing({})
        requirement.must_settle = standing.verdict is not Verdict.CANNOT_TELL or standing.waits_only_for(names)
        found.append(requirement)
    return tuple(found)


def _standing(judgements: Sequence[Judgement]) -> ClauseStanding:
    """Return the worst verdict of all cases of a line, and what is missing where it cannot be determined."""
    worst = worst_of(judgement.verdict for judgement in judgements) or Verdict.CANNOT_TELL
    advice = worst_of(judgement.advice for judgement in judgements)
    if worst is not Verdict.CANNOT_TELL:
        return ClauseStanding(worst, advice=advice)
    unknown = [one for judgement in judgements if judgement.verdict is worst for one in judgement.unknown]
    return ClauseStanding(worst, frozenset(one.term for one in unknown if one.term), advice)


CanMeet = Callable[[Sequence[Requirement]], bool]


def clashing(requirements: Sequence[Requirement], can_meet: CanMeet) -> tuple[Requirement, ...]:
    """Return requirements that cannot be met together: one that cannot be met at all, else two, else a few.

    `requirements` cannot all be met; `can_meet` says whether some of them can. Where it takes more than two, none of
    those returned can be left out.
    """
    unmet = [one for one in requirements if not one.met({})]
    for one in unmet:
        if not can_meet([one]):
            return (one,)
    for pair in _pairs(requirements, unmet):
        if not can_meet(pair):
            return pair
    return _irreducible(requirements, can_meet)


def _pairs(requirements: Sequence[Requirement], unmet: Sequence[Requirement]) -> list[tuple[Requirement, Requirement]]:
    """Return the pairs that share a term and that the line does not meet, in the order of the clauses."""
    return [
        (first, second)
        for first, second in combinations(requirements, 2)
        if (first in unmet or second in unmet) and set(first.terms) & set(second.terms)
    ]


def _irreducible(requirements: Sequence[Requirement], can_meet: CanMeet) -> tuple[Requirement, ...]:
    """Return requirements of which none can be left out, by leaving out one after the other."""
    kept = list(requirements)
    for one in requirements:
        fewer = [other for other in kept if other is not one]
        if not can_meet(fewer):
            kept = fewer
    return tuple(kept)
