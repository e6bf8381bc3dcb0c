"""Completing a case: what the ruleset assumes where a line states nothing, then what is worked out from the rest.

An assumption stands only where the line does not state the term and its conditions hold on what the line states; of
several, the first. Both are said in the notes of the finding.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from speccheck.judge import logic
from speccheck.judge.computing import Inputs, Note, Worked, inputs_of, prepare, work_out
from speccheck.judge.evaluation import Case
from speccheck.judge.judgement import AssumedValue
from speccheck.judge.operations import Rules
from speccheck.judge.outcomes import Outcomes
from speccheck.language.core import Assumption, Condition, Ruleset
from speccheck.language.core.walking import terms_of
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven, Single


@dataclass(frozen=True, slots=True)
class Completed:
    """A case with what was assumed and worked out, the notes on that, and the workings of the computed terms.

    `assumed` are the values that the ruleset assumes of it.
    """

    case: Case
    notes: tuple[Note, ...] = ()
    assumed: tuple[AssumedValue, ...] = ()
    workings: tuple[Worked, ...] = ()


@dataclass(frozen=True)
class Needs:
    """What conditions need of a line.

    `terms` are all, `computed` the computed ones among those that the conditions name, `inputs` what these are worked
    out from, and `assumptions` what the ruleset assumes of any of them.
    """

    terms: tuple[Term, ...]
    computed: tuple[Term, ...]
    inputs: tuple[Term, ...]
    assumptions: tuple[Assumption, ...]
    as_stated: bool = False

    @cached_property
    def only_computed(self) -> frozenset[str]:
        """The names of the terms whose stated values are not verified, and do not stand."""
        return frozenset(term.name for term in self.terms if term.only_computed and not self.as_stated)

    @property
    def scopes(self) -> tuple[Condition, ...]:
        """The conditions of the assumptions."""
        return tuple(condition for assumption in self.assumptions for condition in assumption.scope)


def needs_of(conditions: Sequence[Condition], ruleset: Ruleset) -> Needs:
    """Return what conditions need of a line, directly, through computed terms and through assumptions."""
    named = terms_of(conditions)
    computed = tuple(term for term in named if term.computed)
    inputs = inputs_of(computed, ruleset.vocabulary) if computed else ()
    wanted = _unique((*named, *inputs))
    names = {term.name for term in wanted}
    assumptions = tuple(one for one in ruleset.assumptions if one.term.name in names)
    terms = _unique((*wanted, *terms_of(condition for one in assumptions for condition in one.scope)))
    return Needs(terms, computed, inputs, assumptions)


def complete_all(cases: Sequence[Case], needs: Needs, conditions: Outcomes) -> list[Completed]:
    """Return the cases of a line, each completed; what is computed is worked out for all of them in one go."""
    if not (needs.assumptions or needs.computed):
        return [Completed(case) for case in cases]
    assumed = [_assume(case, needs, conditions) for case in cases]
    inputs = [prepare(term, (values for values, _ in assumed), conditions.rules) for term in needs.computed]
    return [
        _compute(case, *found, [given[row] for given in inputs], needs, conditions.rules)
        for row, (case, found) in enumerate(zip(cases, assumed, strict=True))
    ]


def complete(case: Case, needs: Needs, conditions: Outcomes) -> Completed:
    """Return one case with the assumptions that stand on it and with its computed terms."""
    return complete_all([case], needs, conditions)[0]


def _assume(case: Case, needs: Needs, conditions: Outcomes) -> tuple[dict[str, Single | NotGiven], list[Assumption]]:
    """Return the case with the assumptions that stand on it, and these; what is only computed is not as stated."""
    values: dict[str, Single | NotGiven] = {name: case[name] for name in case if name not in needs.only_computed}
    standing: list[Assumption] = []
    for assumption in needs.assumptions:
        if _stands(assumption, case, values, conditions):
            values[assumption.term.name] = assumption.value
            standing.append(assumption)
    return values, standing


def _compute(
    case: Case,
    values: dict[str, Single | NotGiven],
    standing: Sequence[Assumption],
    inputs: Sequence[Inputs],
    needs: Needs,
    rules: Rules,
) -> Completed:
    """Return the case, of which `values` are known so far, with its computed terms, worked out from `inputs`."""
    workings: list[Worked] = []
    notes: list[Note] = [*standing]
    assumed = tuple(AssumedValue(one.term.name, one.value, one.ruleset) for one in standing)
    known = dict(values)
    for term, given in zip(needs.computed, inputs, strict=True):
        found = work_out(term, known, given, case.get(term.name), rules)
        values[term.name] = found.value
        notes += [found.note] if found.note is not None else []
        workings += [found.worked] if found.worked is not None else []
    return Completed(values, tuple(notes), assumed, tuple(workings))


def _stands(assumption: Assumption, case: Case, values: Case, conditions: Outcomes) -> bool:
    stated = values.get(assumption.term.name)
    if stated is not None and not isinstance(stated, NotGiven):
        return False
    return logic.every(outcome.truth for outcome in conditions.of(assumption.scope, case)) is True


def _unique(terms: Iterable[Term]) -> tuple[Term, ...]:
    return tuple({term.name: term for term in terms}.values())
