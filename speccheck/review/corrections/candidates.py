"""Candidates: the values to try for a term on a line, in stocked steps and allowed values, the smallest step first.

To leave a part out is no mending: `none` and its like are tried only where a clause asks for them by name.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import chain, combinations

from speccheck.judge.completing import Needs, needs_of
from speccheck.judge.operations import Rules, compare
from speccheck.language.core import Clause, Condition, Includes, Relation, Ruleset
from speccheck.language.core.walking import Node, atoms, conditions_of
from speccheck.language.vocabulary.terms import DATE, Form, Term
from speccheck.language.vocabulary.values import NotGiven, Single, Value
from speccheck.quantities import Interval
from speccheck.review.corrections.amounts import (
    THICKNESS,
    between,
    is_hidden,
    is_worked_out,
    number_of,
    shown_in,
    single,
    stocked,
    values_that_matter,
)
from speccheck.review.corrections.mentions import Mentions, asked_for, mentions_of
from speccheck.schedule.lines import Line

NONE = "none"
MOST_CHOICES_OF_A_SET = 10


@dataclass(frozen=True)
class Candidates:
    """What a line states for a term, and the values to try instead, the smallest step first."""

    term: Term
    present: Value | NotGiven
    values: tuple[Single, ...]


@dataclass(frozen=True)
class Asking:
    """What mandatory clauses that use a term ask of it on any line: worked out once for all of them."""

    term: Term
    ruleset: Ruleset
    clauses: Sequence[Clause]

    @cached_property
    def rules(self) -> Rules:
        """How the ruleset compares values."""
        return Rules.of(self.ruleset)

    @cached_property
    def nodes(self) -> tuple[Node, ...]:
        """All conditions of the clauses, and those of what the ruleset assumes for them."""
        return (*self._conditions, *self._needs.scopes)

    @cached_property
    def hidden(self) -> tuple[Term, ...]:
        """The terms from which computed ones are worked out."""
        return self._needs.inputs

    @cached_property
    def mentions(self) -> Mentions:
        """What the clauses say of the choices of the term."""
        return mentions_of(self.term, self.nodes)

    @cached_property
    def wanted(self) -> frozenset[str]:
        """The choices that the clauses ask for by name."""
        return asked_for(self.term, [node for clause in self.clauses for node in clause.shall])

    @cached_property
    def is_worked_out(self) -> bool:
        """Whether what the clauses make of the term goes through a calculation."""
        return is_worked_out(self.term, self.nodes, self.hidden)

    @cached_property
    def stocked(self) -> tuple[Single, ...]:
        """The values that the ruleset says are stocked."""
        return tuple(self.ruleset.stocked.get(self.term.name, ()))

    @cached_property
    def _conditions(self) -> tuple[Condition, ...]:
        return tuple(node for clause in self.clauses for node in conditions_of(clause))

    @cached_property
    def _needs(self) -> Needs:
        return needs_of(self._conditions, self.ruleset)


def candidates_of(asking: Asking, line: Line) -> Candidates:
    """Return what to try for a term on a line."""
    term, datum = asking.term, line.data.get(asking.term.name)
    present: Value | NotGiven = NotGiven("", "not stated") if datum is None else datum.value
    found = _values(present, asking, line)
    kept = [value for value in found if not _is_present(value, present, asking.rules)]
    if term.of and not isinstance(present, NotGiven | Interval):
        # What another material is to show as well may be just what this one does.
        kept.insert(0, present)
    return Candidates(term, present, tuple(dict.fromkeys(kept)))


def _values(present: Value | NotGiven, asking: Asking, line: Line) -> Iterable[Single]:
    match asking.term.kind.form:
        case Form.YES_NO:
            return (True, False)
        case Form.CHOICE:
            return _choices(present, asking)
        case Form.SET:
            return _sets(present, asking)
        case _:
            return _amounts(present, asking, line)


def _is_present(value: Single, present: Value | NotGiven, rules: Rules) -> bool:
    if isinstance(present, NotGiven | Interval):
        return False
    return type(value) is type(present) and compare(value, Relation.EQUAL, present, rules)[0]


# ---- choices -----------------------------------------------------------------------------------------------------


def _choices(present: Value | NotGiven, asking: Asking) -> list[Single]:
    """Return the choices that clauses name and the first of those that none names, in the order of the vocabulary."""
    mentions = asking.mentions
    all_differ = mentions.all_differ or is_hidden(asking.term, asking.hidden)
    allowed = asking.stocked or tuple(choice.name for choice in asking.term.choices)
    found: list[Single] = []
    unnamed = isinstance(present, str) and present not in mentions.named
    for name in allowed:
        if name == NONE and NONE not in asking.wanted:
            continue
        if name in mentions.named or all_differ:
            found.append(name)
        elif not unnamed:
            found.append(name)
            unnamed = True
    return found


def _sets(present: Value | NotGiven, asking: Asking) -> list[Single]:
    """Return the sets that differ from the present one in what clauses name, those with fewer differences first."""
    named = {
        option
        for atom in atoms(asking.nodes)
        if isinstance(atom, Includes) and atom.term.name == asking.term.name
        for option in atom.options
    }
    start = present if isinstance(present, frozenset) else frozenset[str]()
    listed = [choice.name for choice in asking.term.choices if choice.name in named][:MOST_CHOICES_OF_A_SET]
    differences = chain.from_iterable(combinations(listed, count) for count in range(len(listed) + 1))
    return [start ^ frozenset(difference) for difference in differences]


# ---- amounts -----------------------------------------------------------------------------------------------------


def _amounts(present: Value | NotGiven, asking: Asking, line: Line) -> list[Single]:
    """Return the stocked amounts, else those that matter to the clauses, the nearest to the present one first."""
    term, rules = asking.term, asking.rules
    if term.kind == DATE:
        return []  # nobody complies by writing another date
    start = number_of(present)
    in_stock = asking.stocked or _usually_stocked(present, asking)
    if in_stock:
        sure = sorted((value for value in in_stock), key=lambda value: number_of(value) or 0.0)
        return _nearest_first(sure, start)
    stated = {name: datum.value for name, datum in line.data.items()}
    marks = values_that_matter(term, stated, asking.nodes, asking.hidden, rules)
    if term.kind.form is Form.COUNT:
        marks = sorted({float(round(mark)) for mark in marks})
    buyable = term.name == THICKNESS and asking.is_worked_out
    others = [] if buyable else list(between(marks, term, start, rules))
    if not marks:
        others = [1.0]
    values = marks + others if start is None else sorted({*marks, *others})
    allowed = [value for value in values if not _takes_away(value, term, marks)]
    found = [shown_in(single(value, term), present, term, rules) for value in allowed]
    return found if start is None else _nearest_first(found, start)


def _usually_stocked(present: Value | NotGiven, asking: Asking) -> tuple[Single, ...]:
    """Return the thicknesses that are commonly stocked, for a ruleset that works values out and names no stock."""
    term, rules = asking.term, asking.rules
    if term.name != THICKNESS or not is_hidden(term, asking.hidden):
        return ()
    return tuple(shown_in(single(value, term), present, term, rules) for value in stocked(rules))


def _takes_away(value: float, term: Term, marks: Sequence[float]) -> bool:
    """Say whether an amount stands for nothing at all, and no clause names it."""
    return value in (0.0, term.none_is) and value not in marks


def _nearest_first(values: Sequence[Single], start: float | None) -> list[Single]:
    """Return amounts by how many of the others lie between them and the present one; then the larger one."""
    if start is None:
        return list(values)
    above = [value for value in values if (number_of(value) or 0.0) >= start]
    below = [value for value in reversed(values) if (number_of(value) or 0.0) < start]
    found: list[Single] = []
    for position in range(max(len(above), len(below))):
        found += above[position : position + 1] + below[position : position + 1]
    return found
