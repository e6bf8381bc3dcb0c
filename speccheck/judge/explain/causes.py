"""What is missing, why something is not known, and what goes with the values of a case, in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import assert_never

from speccheck.english import listed
from speccheck.judge.computing import Note, NotVerified, NotWorkedOut, StandsAsStated, StatedOtherwise
from speccheck.judge.explain.workings import worked_text
from speccheck.judge.lookup import OutsideBands, TableUse
from speccheck.judge.operations import Hindrance, NominalStandIn, NoResult
from speccheck.judge.unknown import (
    ApprovedEqual,
    CannotBeWorkedOut,
    Cause,
    Disagreement,
    NeededFor,
    NoCell,
    SourceReading,
    Unknown,
)
from speccheck.language.core import Assumption
from speccheck.language.core.wording import condition_text, value_text
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.quantities import write_fraction
from speccheck.schedule.expanding import CASES_LIMIT

TOO_MANY = f"the ranges of the line stand for more than {CASES_LIMIT:,} cases; split the line"


def be(name: str) -> str:
    """Return "is" or "are", as the name of a term asks: "thickness is", "vapor stop locations are"."""
    return "are" if name.endswith("s") and not name.endswith(("ss", "us", "is")) else "is"


def unknown_text(missing: Iterable[Unknown], system: str) -> str:
    """Return missing data and causes in words, each datum once with all that it is needed for."""
    together: dict[str, list[Unknown]] = {}
    for unknown in missing:
        together.setdefault(open_text(unknown, system), []).append(unknown)
    unverified = dict.fromkeys(
        _unverified(one.cause.term, one.cause.stated, system)
        for alike in together.values()
        for one in alike
        if isinstance(one.cause, NeededFor) and one.cause.stated is not None
    )
    data = (_datum_text(alike, system) if alike[0].term else text for text, alike in together.items())
    return "; ".join((*unverified, *data))


def open_text(unknown: Unknown, system: str) -> str:
    """Return the name of a missing datum, or the cause for which something is not known."""
    return unknown.term or cause_text(unknown.cause, system)


def _datum_text(alike: Sequence[Unknown], system: str) -> str:
    """Return one missing datum in words; where the clause itself asks for it, what else needs it does not matter."""
    term = alike[0].term
    asked = next((unknown for unknown in alike if not unknown.needed_for), None)
    why = (
        f"needed for {listed(unknown.needed_for for unknown in alike)}"
        if asked is None
        else cause_text(asked.cause, system)
    )
    plain = why in ("", "blank", "not stated")
    return f"{term} {be(term)} not given" + ("" if plain else f" ({why})")


def cause_text(cause: Cause, system: str) -> str:
    """Return why something is not known."""
    match cause:
        case NotGiven(_, why):
            return why
        case NeededFor(term):
            return f"needed for {term}"
        case CannotBeWorkedOut(term, value):
            stated = "" if value.stated is None else _unverified(term, value.stated, system) + "; "
            return f"{stated}{term} cannot be worked out: {_hindrance(value)}"
        case OutsideBands():
            return _outside(cause, system)
        case NoCell(use):
            word = use.table.word(use.row, use.column)
            told = f"says {word}" if word else "covers nothing"
            return f"`{use.table.name}` {told} at {place_in(use)}"
        case NoResult():
            return _no_result(cause)
        case ApprovedEqual(asked):
            whether = "whether what is proposed is an approved equal of what is asked"
            return f"the reviewer has to say {whether} ({condition_text(asked, system=system)})"
        case Disagreement(met, missed):
            held, not_held = (" and ".join(_reading(one, system) for one in some) for some in (met, missed))
            return f"the sources disagree: {held} holds, {not_held} does not"
        case _:
            assert_never(cause)


def note_text(note: Note, system: str) -> str:
    """Return what goes with the values of a case: what was assumed, and what became of what is stated."""
    match note:
        case Assumption():
            words = f"{note.term.name} {value_text(note.value, system)} is assumed by {note.ruleset}"
            sources = "; ".join(str(source) for source in note.sources)
            return f"{words} ({sources})" if sources else words
        case StandsAsStated(term, instead):
            return f"{term} as the schedule states it; it cannot be worked out: {_hindrance(instead)}"
        case NotVerified(term, instead):
            assert instead.stated is not None
            return f"{_unverified(term, instead.stated, system)}; it cannot be worked out: {_hindrance(instead)}"
        case StatedOtherwise(term, stated, value):
            words = f"{term} is stated as {value_text(stated, system)}"
            return f"{words}; worked out, it is {worked_text(value, system)}, which is what was used"
        case _:
            assert_never(note)


def stand_in_text(stand_in: NominalStandIn) -> str:
    """Return that a nominal metric size was compared as an inch size."""
    return f"{stand_in.metric} stands for {write_fraction(float(stand_in.inches))} in (nominal sizes)"


def place_in(use: TableUse) -> str:
    """Return the row and the column of a table cell in words."""
    bands = list(use.table.headings_at(use.row, use.column))
    across = "" if use.table.across is None else f", column {bands.pop()}"
    return f"row {' and '.join(bands)}{across}"


def _unverified(term: str, stated: Single, system: str) -> str:
    return f"{term} {value_text(stated, system)} is stated, not verified"


def _hindrance(value: NotWorkedOut) -> str:
    """Return what keeps a computed term from being worked out."""
    if value.missing and not value.why:
        return f"needs {', '.join(value.missing)}"
    return value.why or "is computed, but not by this program"


def _outside(cause: OutsideBands, system: str) -> str:
    """Return that a value lies in no band of an axis, with the bands on either side of it."""
    stated, table = f"{cause.axis.term.name} {value_text(cause.value, system)}", f"`{cause.table.name}`"
    last, first = cause.below, cause.above
    if last and first:
        return f"{stated} lies in no band of {table}: it is between `{last.text}` and `{first.text}`"
    if last:
        return f"{stated} lies above the last band of {table}, `{last.text}`"
    if first:
        return f"{stated} lies below the first band of {table}, `{first.text}`"
    return f"{table} does not cover {stated}"


def _no_result(cause: NoResult) -> str:
    words = [value_text(value) for value in cause.values]
    whole = f" {cause.operation} ".join(words)
    if cause.operation is None:
        adjusted = (
            "{} adjusted from {} to {} around {}"
            if cause.hindrance is Hindrance.NOT_FINITE
            else "{} cannot be adjusted from {} to {} around {}"
        )
        whole = adjusted.format(*words)
    return whole + _HINDRANCES[cause.hindrance]


_HINDRANCES = {
    Hindrance.DIVISION_BY_ZERO: " is a division by zero",
    Hindrance.NOT_FINITE: " has no finite value",
    Hindrance.NOT_ADJUSTABLE: "",
}


def _reading(reading: SourceReading, system: str) -> str:
    """Return what one reading asks: "thickness is at least A (76 mm)"."""
    text = condition_text(reading.asked, system=system)
    return text if reading.value is None else f"{text} ({value_text(reading.value, system)})"
