"""What a ruleset says beside its clauses: what it assumes, what it is to govern, and what it holds of itself."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.language.core.amounts import Amount
from speccheck.language.core.clauses import ExceptionPart
from speccheck.language.core.conditions import Condition
from speccheck.language.core.sources import Source
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Single


@dataclass(frozen=True, slots=True)
class Assumption:
    """A value that stands for a term where a line does not state it, and where the conditions of `scope` all hold."""

    term: Term
    value: Single
    scope: tuple[Condition, ...] = ()
    sources: tuple[Source, ...] = ()
    notes: tuple[str, ...] = ()
    ruleset: str = ""
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class SubjectScope:
    """The systems that the clauses of a subject are to govern: those that meet all conditions and no exception."""

    subject: str
    conditions: tuple[Condition, ...] = ()
    exceptions: tuple[ExceptionPart, ...] = ()
    sources: tuple[Source, ...] = ()
    notes: tuple[str, ...] = ()
    ruleset: str = ""
    place: Place = field(default=Place(), compare=False)


class Never(StrEnum):
    """What a statement says will never be."""

    FALLS = "falls"
    RISES = "rises"
    LOOSER = "looser"
    STRICTER = "stricter"


@dataclass(frozen=True, slots=True)
class AmountTrend:
    """That an amount never falls, or never rises, as a term grows and all else stays as it is."""

    amount: Amount
    never: Never
    term: Term


@dataclass(frozen=True, slots=True)
class DemandTrend:
    """That clauses are never looser, or never stricter, as a term grows and all else stays as it is.

    They are looser on a line where they accept it and would not accept it with a smaller value of the term.
    """

    never: Never
    term: Term


@dataclass(frozen=True, slots=True)
class DemandContrast:
    """That clauses are never looser, or never stricter, with one value of a term than with another."""

    never: Never
    term: Term
    first: Single
    second: Single


Claim = AmountTrend | DemandTrend | DemandContrast


@dataclass(frozen=True, slots=True)
class Statement:
    """What the writer holds to be true of the rules as a whole, on lines that meet the conditions.

    It asks nothing of a schedule. With a `subject` it speaks of the clauses of that subject alone.
    """

    title: str
    claim: Claim
    conditions: tuple[Condition, ...] = ()
    subject: str = ""
    sources: tuple[Source, ...] = ()
    notes: tuple[str, ...] = ()
    ruleset: str = ""
    place: Place = field(default=Place(), compare=False)
