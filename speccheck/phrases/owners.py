"""Owners: of which term an amount among words is a value, by its name, the value beside it, and its unit."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from typing import NamedTuple

from speccheck.language.vocabulary.terms import Form, Kind, Term
from speccheck.language.vocabulary.values import NO_UNITS, BareUnits, NotGiven, Value, read_value
from speccheck.phrases.amounts import Written
from speccheck.phrases.lexicon import Lexicon
from speccheck.phrases.pairs import is_a_pair, temperatures
from speccheck.quantities import Interval, Misread

# A density in pounds is one for each cubic foot: `3/4 lb`, `1.5# density`. Common practice, no source.
_POUNDS = re.compile(r"(?P<number>.*\d)\s*(?:#|lbs?\.?|pounds?)(?:\s*(?:density|dens\.?))?", re.IGNORECASE)


class AmountStanding(NamedTuple):
    """How an amount stands among words: the term that it is named by, the value that it is beside, "at" before it."""

    named: Term | None = None
    beside: Term | None = None
    measured_at: bool = False


class OwnedAmount(NamedTuple):
    """A value of a term that an amount is."""

    term: Term
    value: Value


def amount_of(
    written: Written, standing: AmountStanding, lexicon: Lexicon, bare: BareUnits, stated: Collection[str]
) -> OwnedAmount | None:
    """Return what an amount is, None where no term near can have it, or two can.

    It is a value of the expected term where that has none yet, else of the term beside it that its unit, or the name
    before it ("k = 0.23"), tells. `stated` names the terms that have a value already.
    """
    owners = [] if standing.named is not None else _owners(standing.beside, lexicon)
    system = BareUnits(system=bare.system)
    for term, units in _candidates(written, standing, owners, lexicon, bare, stated):
        value = _value(written, term, system if written.in_degrees and not units.unit else units)
        if isinstance(value, Misread | NotGiven) or (term in owners and not _is_sensible(value, term)):
            continue
        perhaps_a_size = term is not lexicon.term and _is_perhaps_a_size(term, value)
        unsure = standing.named is None and not written.has_unit and written.goes_on
        others = (each for each in owners if each is not term and each.kind == term.kind)
        if perhaps_a_size or unsure or any(_is_sensible(value, each) for each in others):
            return None
        return OwnedAmount(term, value)
    return None


def can_be_an_amount(written: Written, named: Term | None, lexicon: Lexicon, bare: BareUnits) -> bool:
    """Whether any term near can have an amount, whatever else the words say."""
    if named is not None:
        return not isinstance(_value(written, named, bare), Misread | NotGiven)
    terms = [(lexicon.term, bare)] if lexicon.term.kind.ordered else []
    usual = NO_UNITS if is_a_pair(written.text) else BareUnits(system=bare.system)
    terms += [(term, usual) for term in lexicon.beside if term.kind.ordered]
    return any(not isinstance(_value(written, term, units), Misread | NotGiven) for term, units in terms)


def _candidates(
    written: Written,
    standing: AmountStanding,
    owners: list[Term],
    lexicon: Lexicon,
    bare: BareUnits,
    stated: Collection[str],
) -> Iterator[tuple[Term, BareUnits]]:
    """Yield the terms that an amount may be a value of, with what its bare numbers are in, likeliest first.

    A bare fraction or decimal is of the first term beside that has sensible values: ".016 alum", "1-1/2 fiberglass".
    """
    system = BareUnits(system=bare.system)
    if standing.named is not None:
        yield standing.named, bare if standing.named is lexicon.term else system
        return
    if written.has_unit or not written.whole_number:
        ours = [term for term in owners if term is lexicon.term or term in lexicon.beside]
        yield from ((term, system) for term in ours if term.name not in stated)
    degrees = system if written.whole_number else NO_UNITS  # 0.036 without a unit is no temperature
    if standing.measured_at:
        measured = {term.stated_at for term in (lexicon.term, *lexicon.beside) if term.name in stated}
        yield from ((term, degrees) for term in lexicon.beside if term.name in measured)
    if lexicon.term.name not in stated and lexicon.term.kind.ordered:
        yield lexicon.term, bare
    free = _told_by_unit(lexicon, stated)
    yield from ((term, NO_UNITS) for term in free)
    if not written.whole_number:
        limited = (term for term in free if any(not each.where and each.has_upper_end for each in term.sensible))
        yield from ((term, system) for term in list(limited)[:1])


def _owners(beside: Term | None, lexicon: Lexicon) -> list[Term]:
    """Return the terms that an amount beside a value of a term is most likely a value of.

    The 0.016 of "aluminum 0.016 in" is a thickness of the jacket and none of insulation, as it is sensible for that.
    """
    of_it = lexicon.amounts_of(beside) if beside is not None else ()
    return [term for term in of_it if any(not each.where and each.has_upper_end for each in term.sensible)]


def _is_perhaps_a_size(term: Term, value: Value) -> bool:
    """Whether an amount is a length without one of its ends, as of the sizes that "fiberglass up to 2 in" is for."""
    return term.kind.dimension == "length" and isinstance(value, Interval) and None in (value.low, value.high)


def _is_sensible(value: Value, term: Term) -> bool:
    """Whether a value lies in the range that the vocabulary gives for a term by itself, which has an upper end."""
    by_itself = [each for each in term.sensible if not each.where]
    ends = [end for end in (value.low, value.high) if end is not None] if isinstance(value, Interval) else [value]
    return bool(by_itself) and all(each.has_upper_end and each.allows(end) for each in by_itself for end in ends)


def _value(written: Written, term: Term, units: BareUnits) -> Value | NotGiven | Misread:
    """Read an amount; two temperatures, as of supply and return, are the range between them."""
    if term.kind.dimension == "density":
        return read_value(in_pounds(written.text), term, units)
    pair = term.kind.dimension == "temperature" and is_a_pair(written.text)
    range_ = temperatures(written.text, term, units) if pair else None
    return range_ if range_ is not None else read_value(written.text, term, units)


def in_pounds(text: str) -> str:
    """Return a density in pounds alone as one in pounds for each cubic foot."""
    found = _POUNDS.fullmatch(text.strip())
    return f"{found['number']} lb/ft3" if found is not None else text


def _told_by_unit(lexicon: Lexicon, stated: Collection[str]) -> list[Term]:
    """Return the measured terms beside that an amount may be a value of by its unit alone.

    Of several that have one unit it is the one that stands first of all beside this term and has a sensible range: a
    length beside an insulation is its thickness, and a temperature may be anything.
    """
    by_kind: dict[Kind, list[Term]] = {}
    for term in lexicon.beside:
        if term.kind.form is Form.QUANTITY and term.kind != lexicon.term.kind:
            by_kind.setdefault(term.kind, []).append(term)
    usual = [
        next((each for each in terms if len(terms) == 1 or _is_usual(each, lexicon.term)), None)
        for terms in by_kind.values()
    ]
    return [term for term in usual if term is not None and term.name not in stated]


def _is_usual(term: Term, beside: Term) -> bool:
    return term.beside[:1] == (beside.name,) and any(not each.where for each in term.sensible)
