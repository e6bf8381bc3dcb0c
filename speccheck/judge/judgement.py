"""What the judge says: the verdict of one clause on one line, and everything that led to it."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.language.vocabulary.values import Single, Value


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


@dataclass(frozen=True, slots=True)
class AssumedValue:
    """A value that a verdict stands on and that the line does not state: of which term, and from whom it is.

    `by` is the name of the ruleset that assumes it, or of the product whose data show it.
    """

    term: str
    value: Value
    by: str


# Steps and cells are not frozen, though nothing changes them: a check makes tens of thousands, and freezing each takes
# three times as long as making it.


@dataclass(slots=True, unsafe_hash=True)
class Step:
    """One step of the working: which part of the clause, the condition in words, whether it holds, what was compared.

    `part` is "where", "except", "shall" or "should"; `depth` counts how far the step is inside another;
    `truth` is True, False or None (not known); `detail` gives the values ("1 in is less than 1-1/2 in") and, for
    a table, its row and column; `values` are the amounts that were compared, as far as they are known, in full.
    """

    part: str
    depth: int
    truth: bool | None
    text: str
    detail: str = ""
    values: tuple[Single, ...] = field(default=(), compare=False)


@dataclass(slots=True, unsafe_hash=True)
class Cell:
    """One cell of the compliance matrix.

    `advice` is the verdict on the clause's `should` parts, None where it has none. A clause of advice alone has
    `mandatory` False: its `verdict` is the verdict on the advice, reported apart, and decides nothing.
    `reason` is one sentence. `steps` is the working of the case that decided. `missing` names the terms that would
    settle it. `at` names the sizes and temperatures for which the verdict holds, where a line covers a range and
    they are not all; `notes` are remarks that go with the numbers (a nominal size that stood for another, a value
    from memory). `assumed` has the values that stand in place of what the line does not state; a verdict of
    `COMPLIES` or `NOT_APPLICABLE` with such a value stands on it.
    """

    verdict: Verdict
    basis: Basis
    reason: str
    steps: tuple[Step, ...] = ()
    missing: tuple[str, ...] = ()
    at: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    advice: Verdict | None = None
    advice_reason: str = ""
    mandatory: bool = True
    assumed: tuple[AssumedValue, ...] = ()
