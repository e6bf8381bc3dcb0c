"""Values of terms: what a text means once it is known for which term it stands, and back to text.

One reader serves schedules, product data and the examples of rulesets, so that all of them are understood alike.
Nothing is guessed: what cannot be read with certainty is a `Misread` whose help says what to write.
"""

from __future__ import annotations

import math
import re
from typing import NamedTuple

from speccheck.language.vocabulary.choices import NotGiven, not_given, read_choice, read_set, read_yes_no
from speccheck.language.vocabulary.terms import DATE, Form, Term, fold
from speccheck.quantities import (
    Interval,
    Misread,
    NominalSize,
    Quantity,
    as_number,
    as_quantity,
    as_size,
    read,
    read_day,
    unit_dimensions,
)
from speccheck.quantities.sizes import System

__all__ = ["BareUnits", "NotGiven", "Single", "Value", "read_value", "write_value"]

Single = Quantity | NominalSize | float | str | bool | frozenset[str]
Value = Single | Interval[Quantity] | Interval[NominalSize] | Interval[float]

LONGEST_VALUE = 500
_NONE = frozenset(
    {"none", "nil", "ohne", "keine", "keiner", "sans", "aucun", "aucune", "ninguno", "ninguna", "nessuno", "nessuna"}
)
_SIZE_SYSTEMS: dict[str, System] = {"in": "inch-pound", "NPS": "inch-pound", "mm": "metric", "DN": "metric"}
_UNLIMITED = frozenset({"unlimited", "no limit", "without limit"})
_BELOW_ZERO_IS_SENSIBLE = frozenset(
    {"temperature", "temperature difference", "heat flow", "heat flow per length", "heat flow per area", "angle"}
)
_NEVER_ZERO = frozenset({"conductivity", "density", "surface coefficient"})
_EACH = re.compile(
    r"(?:\s*(?:per|/|to an?|to each|in each|in an?|each)\s*(?:section|piece|length|tube|joint)s?"
    r"|\s*(?:ea|each|pcs|pc|no|nos|off)\.?)$",
    re.IGNORECASE,
)
_SLASHED = re.compile(r"\d+\s*/\s*\d+")


class BareUnits(NamedTuple):
    """What a number without a unit is in: `unit`, stated by the column's header or a mapping file, before all else;
    otherwise the usual unit of the term in `system` ("inch-pound" or "metric"); "" for neither."""

    unit: str = ""
    system: str = ""


NO_UNITS = BareUnits()

# Terms are looked up by identity, because hashing one means hashing all its choices, at every cell of a schedule.
# The term is kept beside its readings, so that its identity cannot pass to another one.
_Readings = dict[tuple[str, BareUnits], Value | NotGiven | Misread]
_MEMORY: dict[int, tuple[Term, _Readings]] = {}
_MOST_TERMS = 2_000
_MOST_READINGS = 20_000


def read_value(text: str, term: Term, bare: BareUnits = NO_UNITS) -> Value | NotGiven | Misread:
    """Return what `text` says about `term`; `NotGiven` where it says nothing, `Misread` where it cannot be read.

    `bare` says what numbers without a unit are in. The same text is read once for each term.
    """
    remembered = _MEMORY.get(id(term))
    if remembered is None:
        if len(_MEMORY) >= _MOST_TERMS:
            _MEMORY.clear()
        remembered = _MEMORY[id(term)] = (term, {})
    readings = remembered[1]
    if term.kind.form not in (Form.QUANTITY, Form.SIZE):
        bare = NO_UNITS  # words are the same in all units
    key = (text, bare)
    known = readings.get(key)
    if known is not None:
        return known
    if len(readings) >= _MOST_READINGS:
        readings.clear()
    return readings.setdefault(key, _read(text, term, bare))


def _read(text: str, term: Term, bare: BareUnits) -> Value | NotGiven | Misread:
    """Read a text afresh: a listed choice comes before the words that say nothing, and those before "none"."""
    form = term.kind.form
    if term.of_choices and fold(text) in term.choice_names:
        name = term.choice_names[fold(text)]
        return name if form is Form.CHOICE else frozenset({name})
    missing = not_given(text, references=form is not Form.TEXT)
    if missing is not None:
        return missing
    if form is Form.TEXT:
        return text.strip()
    if len(text) > LONGEST_VALUE:
        message = f"`{text[:20]}...` is too long for a value of `{term.name}` ({len(text)} characters)"
        return Misread(text, message, "write the value alone, and explanations in a column for notes", 0, len(text))
    if fold(text) in (_NONE | {"no"} if term.of_choices else _NONE):
        return _none(text, term)
    if term.none_is == math.inf and fold(text) in _UNLIMITED:
        return Quantity(math.inf, term.kind.dimension, term.inch_pound)
    return _of_form(text, term, bare)


def _of_form(text: str, term: Term, bare: BareUnits) -> Value | Misread:
    """Read a text as the form of its term asks."""
    match term.kind.form:
        case Form.QUANTITY:
            return _quantity(text, term, bare)
        case Form.SIZE:
            return as_size(read(text), _bare_system(bare))
        case Form.CHOICE:
            return read_choice(text, term)
        case Form.SET:
            return read_set(text, term)
        case Form.YES_NO:
            return read_yes_no(text, term)
        case Form.COUNT:
            return read_day(text) if term.kind == DATE else _count(text, term)
        case Form.NUMBER:
            return _number(text, term)
        case Form.TEXT:
            return text.strip()


def _bare_system(bare: BareUnits) -> System | None:
    """Return the system in which bare numbers are nominal sizes, if anything states it."""
    return _SIZE_SYSTEMS.get(bare.unit) or (_system(bare.system) if bare.system else None)


def _none(text: str, term: Term) -> Value | Misread:
    """Return what "none" stands for with this term."""
    match term.kind.form:
        case Form.CHOICE if "none" in term.choice_names:
            return term.choice_names["none"]
        case Form.SET:
            return frozenset()
        case Form.YES_NO:
            return False
        case Form.COUNT if term.kind != DATE:
            return 0.0
        case Form.QUANTITY if term.none_is is not None:
            return Quantity(term.none_is, term.kind.dimension, term.inch_pound)
    help = f"write a value of `{term.name}`, or TBD where it is not settled"
    if term.kind.form is Form.CHOICE:
        help = f"write one of: {', '.join(choice.name for choice in term.choices)}"
    return _misread(text, f"{{}} says nothing about `{term.name}`", help)


def _quantity(text: str, term: Term, bare: BareUnits) -> Value | Misread:
    """Read a physical quantity or a range of them, and refuse what cannot be in nature."""
    dimension = term.kind.dimension
    unit = bare.unit or {"inch-pound": term.inch_pound, "metric": term.metric}.get(bare.system, "")
    if unit and dimension not in unit_dimensions(unit):
        unit = ""
    if dimension == "ratio" and _SLASHED.fullmatch(text.strip()):
        return _misread(text, "{} is not a share", "write a number from 0 to 1, or a percentage such as 90 %")
    found = as_quantity(read(text), dimension, unit or None)
    if isinstance(found, Misread):
        if "has no unit" in found.message:
            usual = f"`{text.strip()} {term.inch_pound}` or `{text.strip()} {term.metric}`"
            if term.inch_pound == term.metric:
                usual = f"`{text.strip()} {term.inch_pound}`"
            help = f"write {usual}, or the unit in the column's header, or state the units of the schedule (--units)"
            return Misread(found.text, found.message, help, found.start, found.end)
        return found
    ends = (found.low, found.high) if isinstance(found, Interval) else (found,)
    for end in ends:
        problem = None if end is None else _impossible(text, end, term)
        if problem is not None:
            return problem
    if dimension == "ratio" and unit == "%" and "%" not in text and _is_doubtful_share(ends):
        return _misread(
            text, "{} could be a share or a percentage", f"write `{text.strip()} %`, or the percentage meant"
        )
    return found


def _is_doubtful_share(ends: tuple[Quantity | None, ...]) -> bool:
    """Whether a number under a % header may be meant as a share: 0.9 is hardly ever 0.9 %."""
    return any(end is not None and 0 < end.value <= 0.01 for end in ends)


def _impossible(text: str, found: Quantity, term: Term) -> Misread | None:
    """Say why a quantity cannot be: a thickness below zero, a humidity over 100 %."""
    dimension = found.dimension
    if found.value < 0 and dimension not in _BELOW_ZERO_IS_SENSIBLE:
        return _misread(text, f"{{}} is below zero, which `{term.name}` cannot be", f"write a {dimension} of 0 or more")
    if found.value == 0 and dimension in _NEVER_ZERO:
        return _misread(text, f"{{}} is zero, which `{term.name}` cannot be", f"write the {dimension}, or TBD")
    if dimension == "ratio" and found.value > 1 + 1e-12:
        return _misread(
            text, f"{{}} is over 100 %, which `{term.name}` cannot be", "write a percentage from 0 % to 100 %"
        )
    return None


def _number(text: str, term: Term) -> Value | Misread:
    """Read a plain number or a range; two numbers with a slash are two values, not a fraction."""
    if _SLASHED.fullmatch(text.strip()):
        return _misread(
            text, "{} holds two numbers", f"write the one number of `{term.name}`; give the other its own column"
        )
    return as_number(read(text))


def _count(text: str, term: Term) -> Value | Misread:
    """Read a whole number, 0 or more, or a range; "5 per section" and "5 ea" are counts as well."""
    found = _number(_EACH.sub("", text.strip()), term)
    if isinstance(found, Misread):
        return _misread(text, found.message.replace(f"`{found.text}`", "{}"), "write a whole number such as 5")
    ends = (found.low, found.high) if isinstance(found, Interval) else (found,)
    for end in ends:
        if isinstance(end, float) and (end < 0 or not end.is_integer()):
            return _misread(text, "{} is not a whole number of 0 or more", "write a whole number such as 5")
    return found


def _misread(text: str, message: str, help: str) -> Misread:
    """Return a Misread of a whole text; `{}` in the message is filled with it."""
    shown = text.strip()
    start = text.find(shown)
    return Misread(text, message.replace("{}", f"`{shown}`"), help, start, start + len(shown))


def write_value(value: Value | NotGiven, term: Term, system: str = "inch-pound") -> str:
    """Return a value in the notation that a person would write and `read_value` would read back.

    Nominal sizes are written in `system` ("inch-pound": "1-1/2 in", "metric": "DN 40"); quantities keep the unit in
    which they were stated; a set is in the order of the vocabulary; an amount without limit is "none" where the term
    says so; a value that is not given is written as the words that stood in its place.
    """
    match value:
        case NotGiven():
            return value.text
        case bool():
            return "yes" if value else "no"
        case str():
            return value
        case frozenset():
            return ", ".join(choice.name for choice in term.choices if choice.name in value) or "none"
        case Quantity() if math.isinf(value.value):
            return "none" if term.none_is == math.inf else "unlimited"
        case NominalSize():
            return value.written(_system(system))
        case Interval():
            sizes = {
                str(end): end.written(_system(system))
                for end in (value.low, value.high)
                if isinstance(end, NominalSize)
            }
            return re.sub(r"NPS [\d/-]+", lambda found: sizes[found[0]], str(value)) if sizes else str(value)
        case float() | int():
            return f"{value:.15g}"
    return str(value)


def _system(system: str) -> System:
    """Return the system of units by its name."""
    return "metric" if system == "metric" else "inch-pound"
