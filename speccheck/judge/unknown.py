"""What is not known: the term whose value would settle it, and why, as facts that `explain` puts into words."""

from __future__ import annotations

from dataclasses import dataclass

from speccheck.judge.computing import NotWorkedOut
from speccheck.judge.lookup import OutsideBands, TableUse
from speccheck.judge.operations import NoResult
from speccheck.language.core import Condition
from speccheck.language.vocabulary.values import NotGiven, Single


@dataclass(frozen=True, slots=True)
class NeededFor:
    """A datum is needed to work out a computed term; `stated` is what the line says of that term, unverified."""

    term: str
    stated: Single | None = None


@dataclass(frozen=True, slots=True)
class CannotBeWorkedOut:
    """A computed term cannot be worked out, whatever else is stated."""

    term: str
    value: NotWorkedOut


@dataclass(frozen=True, slots=True, eq=False)
class NoCell:
    """The cell of a table has a word in place of a value, or covers nothing."""

    use: TableUse


@dataclass(frozen=True, slots=True, eq=False)
class ApprovedEqual:
    """A person has to say whether what is proposed is an approved equal of what is asked."""

    asked: Condition


@dataclass(frozen=True, slots=True, eq=False)
class SourceReading:
    """What one reading of a source asks, with the value that it compares with where a table or another term has it."""

    asked: Condition
    value: Single | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Disagreement:
    """The readings of a source disagree: by some of them the requirement is met, by others it is missed."""

    met: tuple[SourceReading, ...]
    missed: tuple[SourceReading, ...]


Cause = NotGiven | NeededFor | CannotBeWorkedOut | OutsideBands | NoCell | NoResult | ApprovedEqual | Disagreement


@dataclass(frozen=True, slots=True)
class Unknown:
    """Why something is not known: the term whose value is missing, "" where no value would settle it, and the cause."""

    term: str
    cause: Cause

    @property
    def needed_for(self) -> str:
        """The computed term that could be worked out with the missing one; "" where the clause itself asks for it."""
        return self.cause.term if isinstance(self.cause, NeededFor) else ""
