"""Trial values: what a line might state for each term of a clause, so that every limit of the clause is met closely.

A trial value is the text of a schedule cell, None for a cell that is not there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import islice, product
from typing import assert_never

from speccheck.judge.evaluation import evaluate
from speccheck.judge.logic import Truth
from speccheck.judge.operations import Rules
from speccheck.language.core import (
    AskedIf,
    CellSays,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
    NamedCondition,
    Negation,
    OneOf,
    OrEqual,
    Readings,
    Ruleset,
    Some,
    Table,
)
from speccheck.language.core.walking import Node, atoms, plain, tables_of, terms_of, values_of
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Single, read_value, write_value
from speccheck.proofread.steps import one_step
from speccheck.quantities import Interval, Misread

Texts = Mapping[str, str | None]
MOST_WAYS = 40


class TrialValues:
    """Texts to try for each term that some conditions draw on, those that the conditions name first."""

    def __init__(self, nodes: Sequence[Node], ruleset: Ruleset) -> None:
        self.rules = Rules.of(ruleset)
        self.bare = BareUnits(system=ruleset.units)
        self.terms = {term.name: term for term in terms_of(nodes)}
        self.texts: dict[str, list[str | None]] = {name: [] for name in self.terms}
        named: dict[str, list[Single]] = {name: [] for name in self.terms}
        for name, value in _named_values(nodes):
            if name in named and value not in named[name]:
                named[name] += [value]
        for name, term in self.terms.items():
            values = named[name] + [other for value in named[name] for other in one_step(value)]
            for value in [*values, *_listed(term)]:
                self._take(name, write_value(value, term, ruleset.units))
        for clause in ruleset.clauses:
            for assignment in (one for example in clause.examples for one in example.data):
                self._take(assignment.term.name, assignment.text)
        for texts in self.texts.values():
            texts += [None]

    def _take(self, name: str, text: str) -> None:
        if name in self.texts and text not in self.texts[name] and self.read(name, text) is not None:
            self.texts[name].append(text)

    def read(self, name: str, text: str | None) -> Single | None:
        """Return the one value that a text has for a term, None where it has none or several."""
        found = None if text is None else read_value(text, self.terms[name], self.bare)
        return None if isinstance(found, Misread | NotGiven | Interval) else found

    def single(self, names: Iterable[str]) -> Iterator[Texts]:
        """Yield every text of every one of some terms."""
        for name in names:
            for text in self.texts[name]:
                yield {name: text}

    def ways(self, condition: Condition, truth: bool) -> Iterator[Texts]:
        """Yield texts that make a condition hold, or not hold, by themselves."""
        return islice(self._ways(condition, truth), MOST_WAYS)

    def _ways(self, condition: Condition, truth: bool) -> Iterator[Texts]:
        match condition:
            case NamedCondition(_, inner):
                yield from self._ways(inner, truth)
            case Negation(part):
                yield from self._ways(part, not truth)
            case OrEqual(part):
                yield from self._ways(part, True) if truth else ()
            case Every(parts):
                yield from self._all(parts, True) if truth else self._any(parts, False)
            case Some(parts):
                yield from self._any(parts, True) if truth else self._all(parts, False)
            case Readings(parts):
                yield from self._all(parts, truth)
            case AskedIf():
                yield from self._ways(plain(condition), truth)
            case Comparison() | OneOf() | Includes() | Given() | Holds() | CellSays():
                yield from self._plain_ways(condition, truth)
            case _:
                assert_never(condition)

    def _any(self, parts: Sequence[Condition], truth: bool) -> Iterator[Texts]:
        for part in parts:
            yield from islice(self._ways(part, truth), 6)

    def _all(self, parts: Sequence[Condition], truth: bool) -> Iterator[Texts]:
        """Yield texts that settle all parts; where two parts want different texts of a term, one that suits both."""
        for chosen in product(*(list(islice(self._ways(part, truth), 6)) for part in parts)):
            joined = {name: text for texts in reversed(chosen) for name, text in texts.items()}
            if all(self.truth(part, joined) is truth for part in parts):
                yield joined

    def _plain_ways(self, condition: Condition, truth: bool) -> Iterator[Texts]:
        names = [term.name for term in terms_of([condition])]
        for chosen in islice(product(*(self.texts[name] for name in names)), 2_000):
            texts = dict(zip(names, chosen, strict=True))
            if self.truth(condition, texts) is truth:
                yield texts

    def truth(self, condition: Condition, texts: Texts) -> Truth:
        """Return whether a condition holds where these texts are all that is stated."""
        values = {name: self.read(name, text) for name, text in texts.items() if name in self.terms}
        case = {name: value for name, value in values.items() if value is not None}
        return evaluate(condition, case, self.rules).truth


def _named_values(nodes: Iterable[Node]) -> Iterator[tuple[str, Single]]:
    """Yield the values that conditions hold each term against, with the ends of the bands it is looked up by."""
    nodes = tuple(nodes)
    for atom in atoms(nodes):
        match atom:
            case Comparison(left, _, right):
                for one, other in ((left, right), (right, left)):
                    terms = [term for term in terms_of([one]) if term.kind == other.kind]
                    yield from ((term.name, value) for term in terms for value in dict.fromkeys(values_of([other])))
            case Includes(term, _, options):
                yield term.name, frozenset(options)
                yield from ((term.name, frozenset(options) - {option}) for option in options)
            case Given() | Holds() | CellSays():
                pass
            case _:
                assert_never(atom)
    for table in tables_of(nodes):
        yield from _ends_of(table)


def _ends_of(table: Table) -> Iterator[tuple[str, Single]]:
    for axis in table.axes:
        for band in axis.bands:
            if band.interval is not None:
                ends = (band.interval.low, band.interval.high)
                yield from ((axis.term.name, end) for end in ends if end is not None)


def _listed(term: Term) -> list[Single]:
    """Return the values of a term that has a list of them."""
    match term.kind.form:
        case Form.CHOICE:
            return [choice.name for choice in term.choices]
        case Form.SET:
            names = [choice.name for choice in term.choices]
            return [frozenset(names), frozenset(), *(frozenset({name}) for name in names)]
        case Form.YES_NO:
            return [True, False]
        case _:
            return []
