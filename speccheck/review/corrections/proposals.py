"""Proposals: the changes with which a line would comply, cheapest first, each proven by judging the changed line."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from speccheck.judge.judgement import Verdict
from speccheck.judge.judging import Judge
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven
from speccheck.review.corrections.candidates import Asking, Candidates, candidates_of
from speccheck.review.corrections.changeable import changeable_terms
from speccheck.review.corrections.requirements import (
    NOT_KNOWN_OF_NEW,
    SETTLED,
    Drawing,
    Requirement,
    Standings,
    changed,
    clashing,
    drawings_of,
    requirements_of,
)
from speccheck.review.corrections.results import Clash, Mending, Pricing, Proposal, ProposedChange
from speccheck.review.corrections.searching import Problem, Search, Values
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line

ALTERNATIVES = 3


def mend_schedule(matrix: Matrix, *, keep: Collection[str] = (), most: int = ALTERNATIVES) -> Iterator[Mending]:
    """Yield what would make them comply for the lines of a matrix that fail or lack data of their contractor.

    `keep` names terms that are to be left as they are, `most` is how many proposals are wanted for a line. Clauses from
    which a deviation was accepted ask nothing of the line.
    """
    tools = Tools.of(matrix.ruleset, keep)
    for line, cells in zip(matrix.schedule.lines, matrix.cells, strict=True):
        pairs = zip(matrix.ruleset.clauses, cells, strict=True)
        accepted = frozenset(clause.label for clause, cell in pairs if cell.verdict is Verdict.ACCEPTED)
        found = mend(line, tools, accepted=accepted, most=most)
        if found is not None:
            yield found


def mend(line: Line, tools: Tools, *, accepted: Collection[str] = (), most: int = ALTERNATIVES) -> Mending | None:
    """Return what would make a line comply; None for one that breaks nothing and lacks nothing to be proposed.

    `accepted` has the labels of clauses that ask nothing of this line, `most` is how many proposals are wanted.
    """
    workshop = _Workshop(line, tools, accepted)
    if not workshop.open:
        return None
    fails = tuple(one.clause for one in workshop.open if one.standing({}).verdict is Verdict.FAILS)
    lacks = tuple(one.clause for one in workshop.open if one.standing({}).verdict is not Verdict.FAILS)
    proposals, whole = workshop.proposals(most)
    if not proposals:
        workshop = _Workshop(line, tools, accepted, lenient=True)
        proposals, through = workshop.proposals(most)
        whole = whole and through
    clash = None if proposals or not whole else workshop.clash()
    return Mending(line, fails, lacks, proposals, clash, whole)


@dataclass(frozen=True)
class Tools:
    """What is the same for all lines: what the judge found, the clauses, what they ask; the terms and their prices."""

    ruleset: Ruleset
    standings: Standings
    terms: Mapping[str, Term]
    pricing: Pricing
    drawings: tuple[Drawing, ...]
    _asking: dict[tuple[str, tuple[int, ...]], Asking] = field(default_factory=dict)

    @classmethod
    def of(cls, ruleset: Ruleset, keep: Collection[str] = ()) -> Tools:
        """Return what it takes to mend lines by a ruleset; `keep` names terms to be left as they are."""
        judge, terms = Judge(ruleset), changeable_terms(ruleset.vocabulary, keep)
        names = {term.name: term for term in terms}
        pricing = Pricing.of(terms, ruleset.cheapest_first)
        return cls(ruleset, Standings(judge), names, pricing, drawings_of(judge, tuple(names)))

    def asking(self, name: str, numbers: tuple[int, ...]) -> Asking:
        """Return what some clauses ask of a term."""
        key = (name, numbers)
        if key not in self._asking:
            clauses = [self.ruleset.clauses[number] for number in numbers]
            self._asking[key] = Asking(self.terms[name], self.ruleset, clauses)
        return self._asking[key]


class _Workshop:
    """What is needed to mend one line: its requirements, and the values to try for each term.

    A `lenient` one lets requirements wait for data that nobody may propose.
    """

    def __init__(self, line: Line, tools: Tools, accepted: Collection[str], lenient: bool = False) -> None:
        self.line, self.ruleset, self.standings = line, tools.ruleset, tools.standings
        self.terms, self.pricing, self._asking = tools.terms, tools.pricing, tools.asking
        asking = [one for one in tools.drawings if one.clause.label not in accepted]
        self.requirements = requirements_of(line, asking, tools.standings, tools.terms, lenient=lenient)
        for one in self.requirements:
            one.values = lambda name: self.candidates(name).values
        self.open = tuple(one for one in self.requirements if not one.met({}))
        self._candidates: dict[str, Candidates] = {}

    def proposals(self, most: int) -> tuple[tuple[Proposal, ...], bool]:
        """Return the cheapest proposals, and whether all were searched.

        No two of them change the same terms, and none changes more terms than the first. All but the first leave as
        it is what computed values are only worked out from: another emittance is no alternative to more thickness.
        """
        found: list[Proposal] = []
        without: list[frozenset[str]] = []
        limit = 0
        while len(found) < most:
            kept = self._worked_out_from if found else frozenset[str]()
            result = Search(self._problem(self.requirements, without, limit, kept)).run()
            if result.values is None:
                return tuple(found), result.whole or bool(found)
            without.append(frozenset(result.values))
            limit = limit or len(result.values)
            found.append(self._proposal(result.values))
            if not result.whole:
                return tuple(found), False
        return tuple(found), True

    def clash(self) -> Clash:
        """Return the clauses that no change satisfies together."""
        together = clashing(self.requirements, self._can_meet)
        names = dict.fromkeys(name for one in together for name in one.terms)
        return Clash(tuple(one.clause for one in together), tuple(self.terms[name] for name in names))

    def _can_meet(self, requirements: Sequence[Requirement]) -> bool:
        result = Search(self._problem(requirements)).run()
        return result.values is not None or not result.whole

    def _problem(
        self,
        requirements: Sequence[Requirement],
        without: Sequence[frozenset[str]] = (),
        most: int = 0,
        kept: frozenset[str] = frozenset(),
    ) -> Problem:
        return Problem(requirements, _Lazily(self), self.pricing, tuple(without), most, kept)

    @property
    def _worked_out_from(self) -> frozenset[str]:
        """Return the terms of open requirements that go into computed values, and that none of them asks about."""
        asked = {name for one in self.open for name in one.asked}
        return frozenset(name for one in self.open if one.works_out for name in one.terms) - asked

    def candidates(self, name: str) -> Candidates:
        """Return the values to try for a term."""
        if name not in self._candidates:
            numbers = tuple(one.number for one in self.requirements if name in one.terms)
            self._candidates[name] = candidates_of(self._asking(name, numbers), self.line)
        return self._candidates[name]

    def _proposal(self, values: Values) -> Proposal:
        """Return the proposal of changed values, judged as a whole."""
        line = changed(self.line, values, self.ruleset.vocabulary)
        cells, before = self.standings.row(line), self.standings.row(self.line)
        asked = {one.clause.label for one in self.requirements}
        for clause, cell in zip(self.ruleset.clauses, cells, strict=True):
            assert cell.verdict is not Verdict.FAILS or clause.label not in asked, (self.line.name, clause.label)
        open_ones = [
            one for one in self.requirements if one.must_settle and one.standing(values).verdict not in SETTLED
        ]
        waits = {name for one in open_ones for name in one.standing(values).missing}
        against = [
            clause
            for clause, cell, was in zip(self.ruleset.clauses, cells, before, strict=True)
            if cell.advice is Verdict.FAILS and was.advice is not Verdict.FAILS
        ]
        changes = tuple(self._change(name, values) for name in sorted(values, key=self.pricing.positions.__getitem__))
        undecided = tuple(one.clause for one in open_ones)
        return Proposal(changes, line, cells, undecided, tuple(sorted(waits)), tuple(against))

    def _change(self, name: str, values: Values) -> ProposedChange:
        tried = self.candidates(name)
        touched = [one for one in self.requirements if name in one.terms]
        others = tried.values if not any(one.works_out for one in touched) else (values[name],)
        also = tuple(
            value
            for value in others
            if value != values[name] and all(one.met({**values, name: value}) for one in touched)
        )
        before = tried.present
        if tried.term.of in values:
            before = NotGiven("", f"{NOT_KNOWN_OF_NEW}{tried.term.of}")
        return ProposedChange(tried.term, before, values[name], also, others)


class _Lazily(Mapping[str, Candidates]):
    """The candidates of all terms, worked out when they are first asked for."""

    def __init__(self, workshop: _Workshop) -> None:
        self._workshop = workshop

    def __getitem__(self, name: str) -> Candidates:
        return self._workshop.candidates(name)

    def __iter__(self) -> Iterator[str]:
        return iter(self._workshop.terms)

    def __len__(self) -> int:
        return len(self._workshop.terms)
