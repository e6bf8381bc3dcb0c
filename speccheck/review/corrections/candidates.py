"""Candidates: the values to try for a term on a line, in stocked steps and allowed values, the smallest step first.

To leave a part out is no mending: `none` and its like are tried only where a clause asks for them by name.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain, combinations

from speccheck.judge.completing import needs_of
from speccheck.judge.judging import Judge
from speccheck.judge.operations import Rules, compare
from speccheck.language.core import Clause, Includes, Relation, Ruleset
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
from speccheck.review.corrections.mentions import asked_for, mentions_of
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
class Surroundings:
    """What the candidates of a term depend on: the ruleset, the line and the mandatory clauses that use the term."""

    ruleset: Ruleset
    line: Line
    clauses: Sequence[Clause]

    @property
    def rules(self) -> Rules:
        """How the ruleset compares values."""
        return Judge(self.ruleset).rules

    @property
    def nodes(self) -> tuple[Node, ...]:
        """All conditions of the clauses, and those of what the ruleset assumes for them."""
        conditions = [node for clause in self.clauses for node in conditions_of(clause)]
        return (*conditions, *needs_of(conditions, self.ruleset).scopes)

    @property
    def asking(self) -> tuple[Node, ...]:
        """The conditions that the clauses ask for."""
        return tuple(node for clause in self.clauses for node in clause.shall)

    @property
    def hidden(self) -> tuple[Term, ...]:
        """The terms from which computed ones are worked out."""
        return needs_of([node for clause in self.clauses for node in conditions_of(clause)], self.ruleset).inputs


def candidates_of(term: Term, around: Surroundings) -> Candidates:
    """Return what to try for a term on a line."""
    datum = around.line.data.get(term.name)
    present: Value | NotGiven = NotGiven("", "not stated") if datum is None else datum.value
    found = _values(term, present, around)
    kept = [value for value in found if not _is_present(value, present, around.rules)]
    if term.of and not isinstance(present, NotGiven | Interval):
        # What another material is to show as well may be just what this one does.
        kept.insert(0, present)
    return Candidates(term, present, tuple(dict.fromkeys(kept)))


def _values(term: Term, present: Value | NotGiven, around: Surroundings) -> Iterable[Single]:
    match term.kind.form:
        case Form.YES_NO:
            return (True, False)
        case Form.CHOICE:
            return _choices(term, present, around)
        case Form.SET:
            return _sets(term, present, around)
        case _:
            return _amounts(term, present, around)


def _is_present(value: Single, present: Value | NotGiven, rules: Rules) -> bool:
    if isinstance(present, NotGiven | Interval):
        return False
    return type(value) is type(present) and compare(value, Relation.EQUAL, present, rules)[0]


# ---- choices -----------------------------------------------------------------------------------------------------


def _choices(term: Term, present: Value | NotGiven, around: Surroundings) -> list[Single]:
    """Return the choices that clauses name and the first of those that none names, in the order of the vocabulary."""
    mentions = mentions_of(term, around.nodes)
    all_differ = mentions.all_differ or is_hidden(term, around.hidden)
    wanted = asked_for(term, around.asking)
    allowed = _stocked(term, around) or tuple(choice.name for choice in term.choices)
    found: list[Single] = []
    unnamed = isinstance(present, str) and present not in mentions.named
    for name in allowed:
        if name == NONE and NONE not in wanted:
            continue
        if name in mentions.named or all_differ:
            found.append(name)
        elif not unnamed:
            found.append(name)
            unnamed = True
    return found


def _sets(term: Term, present: Value | NotGiven, around: Surroundings) -> list[Single]:
    """Return the sets that differ from the present one in what clauses name, those with fewer differences first."""
    named = {
        option
        for atom in atoms(around.nodes)
        if isinstance(atom, Includes) and atom.term.name == term.name
        for option in atom.options
    }
    start = present if isinstance(present, frozenset) else frozenset[str]()
    listed = [choice.name for choice in term.choices if choice.name in named][:MOST_CHOICES_OF_A_SET]
    differences = chain.from_iterable(combinations(listed, count) for count in range(len(listed) + 1))
    return [start ^ frozenset(difference) for difference in differences]


# ---- amounts -----------------------------------------------------------------------------------------------------


def _amounts(term: Term, present: Value | NotGiven, around: Surroundings) -> list[Single]:
    """Return the stocked amounts, else those that matter to the clauses, the nearest to the present one first."""
    if term.kind == DATE:
        return []  # nobody complies by writing another date
    start = number_of(present)
    in_stock = _stocked(term, around) or _usually_stocked(term, present, around)
    if in_stock:
        sure = sorted((value for value in in_stock), key=lambda value: number_of(value) or 0.0)
        return _nearest_first(sure, start)
    stated = {name: datum.value for name, datum in around.line.data.items()}
    marks = values_that_matter(term, stated, around.nodes, around.hidden, around.rules)
    if term.kind.form is Form.COUNT:
        marks = sorted({float(round(mark)) for mark in marks})
    buyable = term.name == THICKNESS and is_worked_out(term, around.nodes, around.hidden)
    others = [] if buyable else list(between(marks, term, start, around.rules))
    if not marks:
        others = [1.0]
    values = marks + others if start is None else sorted({*marks, *others})
    allowed = [value for value in values if not _takes_away(value, term, marks)]
    found = [shown_in(single(value, term), present, term, around.rules) for value in allowed]
    return found if start is None else _nearest_first(found, start)


def _usually_stocked(term: Term, present: Value | NotGiven, around: Surroundings) -> tuple[Single, ...]:
    """Return the thicknesses that are commonly stocked, for a ruleset that works values out and names no stock."""
    if term.name != THICKNESS or not is_hidden(term, around.hidden):
        return ()
    return tuple(shown_in(single(value, term), present, term, around.rules) for value in stocked(around.rules))


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


def _stocked(term: Term, around: Surroundings) -> tuple[Single, ...]:
    return tuple(around.ruleset.stocked.get(term.name, ()))
