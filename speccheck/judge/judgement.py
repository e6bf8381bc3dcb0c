"""What the judge finds: verdicts, the rules by which they come about, and one clause judged on one case."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.judge.computing import Note, Worked
from speccheck.judge.evaluation import Case, ConditionOutcome, unknowns
from speccheck.judge.lookup import TableUse
from speccheck.judge.unknown import Unknown
from speccheck.language.vocabulary.values import Single, Value

Varied = tuple[tuple[str, Single], ...]
"""The values of the terms of which a line covers a range, in one of its cases."""


class Verdict(StrEnum):
    """What one clause makes of one line, the gravest first.

    The judge never says `ACCEPTED`: a review makes it of a line that fails where a deviation was accepted.
    """

    FAILS = "does not comply"
    CANNOT_TELL = "cannot be determined"
    ACCEPTED = "accepted deviation"
    COMPLIES = "complies"
    NOT_CHECKED = "not checked"
    NOT_APPLICABLE = "not applicable"


class Basis(StrEnum):
    """By which rule the verdict came about."""

    OUT_OF_SCOPE = "the clause does not apply"
    EXCEPTED = "an exception takes the line out"
    NOT_STATED = "what the clause is judged by is not stated"
    MET = "the requirement is met"
    MET_EITHER_WAY = "the requirement is met whether or not the clause applies"
    NOT_MET = "the requirement is not met"
    NOT_KNOWN = "data are missing"


@dataclass(slots=True, eq=False)
class BareVerdict:
    """What a clause makes of a line, without how that came about.

    `advice` is the verdict on the clause's `should` parts, None where it has none. A clause of advice alone has
    `mandatory` False: its `verdict` is the verdict on the advice, reported apart, and decides nothing.
    """

    verdict: Verdict
    advice: Verdict | None = None
    mandatory: bool = True


@dataclass(frozen=True, slots=True)
class AssumedValue:
    """A value that a verdict stands on and that the line does not state: of which term, and from whom it is.

    `by` is the name of the ruleset that assumes it, or of the product whose data show it.
    """

    term: str
    value: Value
    by: str


@dataclass(slots=True)
class Judgement:
    """One clause on one case: the verdict, by which rule it came about, and the outcomes of all parts.

    `varied` has the sizes and temperatures of the case, where its line covers a range. `case` has all that was known,
    what was assumed and worked out included; `notes` and `workings` say how that came about. `assumed` are the
    values without which the verdict would be open.
    """

    verdict: Verdict
    basis: Basis
    scope: tuple[ConditionOutcome, ...]
    exceptions: tuple[ConditionOutcome, ...]
    shall: tuple[ConditionOutcome, ...]
    should: tuple[ConditionOutcome, ...] = ()
    advice: Verdict | None = None
    varied: Varied = ()
    notes: tuple[Note, ...] = ()
    assumed: tuple[AssumedValue, ...] = ()
    workings: tuple[Worked, ...] = ()
    case: Case = field(default_factory=dict)
    judged_only: tuple[ConditionOutcome, ...] = ()

    @property
    def outcomes(self) -> tuple[ConditionOutcome, ...]:
        """What the conditions came to from which the verdict follows."""
        return (*self.scope, *self.exceptions, *self.shall, *self.should)

    @property
    def uses(self) -> tuple[TableUse, ...]:
        """The table cells that were looked up."""
        return table_uses(self.outcomes)

    @property
    def unstated(self) -> tuple[Unknown, ...]:
        """What the case does not state of that without which its clause does not judge it."""
        open_ones = (outcome for outcome in self.judged_only if outcome.truth is False)
        return tuple(unknown for outcome in open_ones for amount in outcome.amounts for unknown in amount.unknown)

    @property
    def unknown(self) -> tuple[Unknown, ...]:
        """What would settle a case that cannot be determined: what the scope and the requirement lack."""
        parts = (*self.scope, *self.exceptions)
        failing = any(outcome.truth is False for outcome in self.shall)
        return unknowns(parts if failing else (*parts, *self.shall))

    @property
    def worked_out(self) -> frozenset[str]:
        """The names of the terms whose values were worked out."""
        return frozenset(worked.name for worked in self.workings if worked.value is not None)


def table_uses(outcomes: Iterable[ConditionOutcome]) -> tuple[TableUse, ...]:
    """Return the table cells that went into outcomes."""
    found: dict[tuple[str, int, int], TableUse] = {}
    for outcome in outcomes:
        for amounted in outcome.amounts:
            for use in amounted.uses:
                found[use.table.name, use.row, use.column] = use
        for use in table_uses(outcome.parts):
            found[use.table.name, use.row, use.column] = use
    return tuple(found.values())
