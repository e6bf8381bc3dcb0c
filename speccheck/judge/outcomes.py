"""Outcomes kept: a condition is evaluated once for all cases that agree in the terms that it draws on.

The cases of a line with ranges differ in these alone, as the lines of a schedule often do in little, and corrections
try a few values among many that stay. Whoever is given an outcome must not change it.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field

from speccheck.judge.evaluation import NOT_STATED, Case, ConditionOutcome, evaluate
from speccheck.judge.operations import Rules
from speccheck.language.core import Condition
from speccheck.language.core.walking import terms_of

# From so many outcomes of one condition on they are forgotten, so that a long run needs no more and more memory.
MOST_OUTCOMES = 20_000


@dataclass
class _Known:
    """A condition, the names of the terms that it draws on, and its outcomes by their values."""

    condition: Condition
    names: tuple[str, ...]
    outcomes: dict[Hashable, ConditionOutcome] = field(default_factory=dict)

    def of(self, case: Case, rules: Rules) -> ConditionOutcome:
        values = tuple([case.get(name, NOT_STATED) for name in self.names])
        found = self.outcomes.get(values)
        if found is None:
            if len(self.outcomes) >= MOST_OUTCOMES:
                self.outcomes.clear()
            found = self.outcomes[values] = evaluate(self.condition, case, rules)
        return found


@dataclass
class Outcomes:
    """Evaluates conditions by the rules of one ruleset."""

    rules: Rules
    # By the identity of the condition, which is kept beside it, because hashing one means hashing all that is in it.
    _known: dict[int, _Known] = field(default_factory=dict)

    def of(self, conditions: Sequence[Condition], case: Case) -> tuple[ConditionOutcome, ...]:
        """Return what each condition comes to on a case."""
        return tuple([self._of(condition).of(case, self.rules) for condition in conditions])

    def _of(self, condition: Condition) -> _Known:
        known = self._known.get(id(condition))
        if known is None:
            names = tuple(term.name for term in terms_of([condition]))
            known = self._known[id(condition)] = _Known(condition, names)
        return known
