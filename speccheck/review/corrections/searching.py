"""Searching: the cheapest changes that meet all requirements of a line, by branch and bound.

A node of the search has terms that were decided, to be kept or to be changed; all others are taken as they are until
a requirement that is not met draws on them. A term that alone can still help to meet such a requirement has to
change; its smallest step that does bounds what the node can cost. Whatever costs no less than the best changes found
is left. A first guess, which changes what the clauses ask about, gives the bound to begin with.

Heat flow takes time to work out, so that a search which judges too many cases with it is broken off, and says so.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations, product

from speccheck.language.vocabulary.values import Single
from speccheck.review.corrections.candidates import Candidates
from speccheck.review.corrections.changeable import helpful_terms
from speccheck.review.corrections.requirements import Requirement
from speccheck.review.corrections.results import Cost, Pricing, Weight

MOST_NODES = 20_000
MOST_WORKED_OUT = 250

Values = Mapping[str, Single]


@dataclass(frozen=True)
class Problem:
    """What is searched: the requirements, the values to try for each term, and the prices of changes.

    Sets of changes that have all terms of one of `without` among them are not wanted; nor are those of more than
    `most` changes, where that is not zero. `kept` names terms that are left as they are.
    """

    requirements: Sequence[Requirement]
    candidates: Mapping[str, Candidates]
    pricing: Pricing
    without: Sequence[frozenset[str]] = ()
    most: int = 0
    kept: frozenset[str] = frozenset()


@dataclass(frozen=True)
class CheapestChanges:
    """The cheapest changes, None where there are none, and whether the search went through to the end."""

    values: Values | None
    cost: Cost | None
    whole: bool


@dataclass
class _Node:
    """Decided terms: those kept, and the values of those changed with the size of their steps."""

    kept: frozenset[str] = frozenset()
    values: dict[str, Single] = field(default_factory=dict)
    steps: dict[str, int] = field(default_factory=dict)

    def decided(self, name: str) -> bool:
        return name in self.kept or name in self.values

    def changing(self, name: str, value: Single, step: int) -> _Node:
        return _Node(self.kept, {**self.values, name: value}, {**self.steps, name: step})


class Search:
    """One search; `run` gives the cheapest changes."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.best: tuple[Cost, Values] | None = None
        self.nodes = 0
        self._working_out = [one for one in problem.requirements if one.works_out]
        self._worked_out_before = sum(one.judged for one in self._working_out)
        self._by_term: dict[str, list[Requirement]] = {}
        self._helpful: dict[tuple[object, ...], tuple[str, ...]] = {}
        for requirement in problem.requirements:
            for name in requirement.terms:
                self._by_term.setdefault(name, []).append(requirement)
        for requirements in self._by_term.values():
            requirements.sort(key=lambda one: one.works_out)

    def run(self) -> CheapestChanges:
        """Return the cheapest changes that meet all requirements."""
        unmet = [one for one in self.problem.requirements if not one.met({})]
        self._guess(unmet)
        self._visit(_Node(self.problem.kept), unmet)
        cost, values = self.best or (None, None)
        return CheapestChanges(values, cost, not self._tired)

    @property
    def _tired(self) -> bool:
        """Whether the search has gone on for so long that it is broken off."""
        worked_out = sum(one.judged for one in self._working_out) - self._worked_out_before
        return self.nodes > MOST_NODES or worked_out > MOST_WORKED_OUT

    def _guess(self, unmet: Sequence[Requirement]) -> None:
        """Record changes that meet all requirements, if taking one requirement after the other finds some."""
        node, left = _Node(self.problem.kept), list(unmet)
        while left:
            requirement = min(left, key=lambda one: len(self._free(one, node)))
            found = next(self._guesses(requirement, node, left), None)
            if found is None:
                return
            node, left = found
        if not self._unwanted(node.values):
            self._record(node)

    def _guesses(
        self, requirement: Requirement, node: _Node, unmet: Sequence[Requirement]
    ) -> Iterator[tuple[_Node, list[Requirement]]]:
        """Yield nodes with one or two more changes, which meet a requirement: of what it asks about, then the cheapest.

        Two changes are tried where no value has to be worked out.
        """
        free = sorted(self._free(requirement, node), key=self.problem.pricing.positions.__getitem__)
        free.sort(key=lambda name: (name not in requirement.asked, -self.problem.pricing.ranks[name]))
        for count in (1,) if requirement.works_out else (1, 2):
            for names in combinations(free, count):
                choices = (enumerate(self.problem.candidates[name].values, 1) for name in names)
                for chosen in product(*choices):
                    if self._tired:
                        return
                    changed = node
                    for name, (step, value) in zip(names, chosen, strict=True):
                        changed = changed.changing(name, value, step)
                    if requirement.met(changed.values) and (left := self._unmet(changed, names, unmet)) is not None:
                        yield changed, left

    def _visit(self, node: _Node, unmet: Sequence[Requirement]) -> None:
        """Search all changes that extend those of a node; `unmet` are the requirements that these do not meet."""
        self.nodes += 1
        if self._tired or self._unwanted(node.values):
            return
        if not unmet:
            self._record(node)
            return
        forced = self._forced(node, unmet)
        if forced is None or not self._can_be_best(node, forced, unmet):
            return
        name = self._next_term(node, unmet, forced)
        if name not in forced:
            self._visit(_Node(node.kept | {name}, node.values, node.steps), unmet)
        values = self.problem.candidates[name].values
        for step in range(forced.get(name, 1), len(values) + 1):
            changed = node.changing(name, values[step - 1], step)
            left = self._unmet(changed, (name,), unmet) if self._within(changed.steps, []) else None
            if left is not None:
                self._visit(changed, left)

    def _free(self, requirement: Requirement, node: _Node) -> tuple[str, ...]:
        """Return the terms that are not decided and whose change can help to meet a requirement."""
        free = tuple(name for name in requirement.terms if not node.decided(name))
        decided = {name: value for name, value in node.values.items() if name in requirement.terms}
        key = (requirement.number, free, tuple(decided.items()))
        if key not in self._helpful:
            self._helpful[key] = helpful_terms(requirement, free, decided, self.problem.candidates)
        return self._helpful[key]

    def _unwanted(self, values: Iterable[str]) -> bool:
        names = set(values)
        return any(one <= names for one in self.problem.without)

    def _record(self, node: _Node) -> None:
        cost = self.problem.pricing.cost(node.steps)
        if not self._too_many(cost[0]) and (self.best is None or cost < self.best[0]):
            self.best = (cost, node.values)

    def _too_many(self, weight: Weight) -> bool:
        return bool(self.problem.most) and sum(weight) > self.problem.most

    def _unmet(self, node: _Node, names: Sequence[str], before: Sequence[Requirement]) -> list[Requirement] | None:
        """Return the requirements that a node does not meet, where only the values of `names` are new.

        None as soon as they show that the node is lost: one cannot be met any more, or only by changes that cost too
        much.
        """
        found = [one for one in before if not set(names) & set(one.terms)]
        touched = {one.number: one for name in names for one in self._by_term[name]}
        for requirement in touched.values():
            if requirement.met(node.values):
                continue
            free = self._free(requirement, node)
            if not free or not self._within(node.steps, [self.problem.pricing.cheapest(free)]):
                return None
            found.append(requirement)
        return found

    def _forced(self, node: _Node, unmet: Sequence[Requirement]) -> dict[str, int] | None:
        """Return the terms that have to change, each with its first step that may do.

        None where a requirement cannot be met any more, or only by changes that cost too much.
        """
        alone: dict[str, list[Requirement]] = {}
        for requirement in unmet:
            free = self._free(requirement, node)
            if not free:
                return None
            if len(free) > 1:
                continue
            alone.setdefault(free[0], []).append(requirement)
        forced = dict.fromkeys(alone, 1)
        for name, requirements in alone.items():
            if not self._within({**node.steps, **forced}, []):
                return None
            requirements.sort(key=lambda one: one.works_out)
            values = self.problem.candidates[name].values
            trials = ({**node.values, name: value} for value in values)
            steps = (step for step, trial in enumerate(trials, 1) if all(one.met(trial) for one in requirements))
            first = next(steps, None)
            if first is None:
                return None
            forced[name] = first
        return forced

    def _can_be_best(self, node: _Node, forced: Mapping[str, int], unmet: Sequence[Requirement]) -> bool:
        """Say whether what a node leads to can cost less than the best changes found so far."""
        return self._within({**node.steps, **forced}, self._apart(node, unmet, set(forced)))

    def _within(self, steps: dict[str, int], more: Sequence[str]) -> bool:
        """Say whether changes of these steps at least, and of `more` terms, can cost less than the best so far."""
        weight = self.problem.pricing.weight([*steps, *more])
        if self._too_many(weight):
            return False
        if self.best is None:
            return True
        if more or weight != self.best[0][0]:
            return weight <= self.best[0][0]
        return self.problem.pricing.cost(steps) < self.best[0]

    def _apart(self, node: _Node, unmet: Sequence[Requirement], taken: set[str]) -> list[str]:
        """Return the cheapest term of each requirement that shares none with another or with those taken."""
        found = []
        for requirement in sorted(unmet, key=lambda one: len(one.terms)):
            free = set(self._free(requirement, node))
            if free and not free & taken:
                found.append(self.problem.pricing.cheapest(sorted(free)))
                taken |= free
        return found

    def _next_term(self, node: _Node, unmet: Sequence[Requirement], forced: Mapping[str, int]) -> str:
        """Return the term to decide next: one that many open requirements share, else one that has to change."""
        shared = Counter(name for requirement in unmet for name in self._free(requirement, node) if name not in forced)
        positions = self.problem.pricing.positions
        if shared:
            return min(shared, key=lambda name: (-shared[name], positions[name]))
        return min(forced, key=positions.__getitem__)
