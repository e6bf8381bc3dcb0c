"""What the cells of a line, and the lines of a schedule, say together.

A cell that names several services stands for a line each; words that stand for several values are settled by the
services around them, or stay open; what one cell states of another term goes to that term; what other data leave no
doubt of is inferred; an amount that the vocabulary calls senseless for its service is doubtful.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.choices import CELLS_DISAGREE, DISAGREEMENTS
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value
from speccheck.phrases import read_cell
from speccheck.quantities import Misread
from speccheck.schedule.doubtful import senseless
from speccheck.schedule.lines import Datum, Line
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.messages.cells import MAY_MEAN_SEVERAL, TWO_CELLS_DISAGREE, UNREADABLE
from speccheck.schedule.phrases_of_cells import facts_beside
from speccheck.schedule.sentences import FROM_SENTENCE
from speccheck.schedule.unstated_units import units_in_doubt


@dataclass
class Told:
    """What is to be told of the lines, and the earlier diagnostics, by code and place, that no longer hold.

    `read` are the places of cells that were not read by themselves, and are now; `doubted` of those that seemed read.
    """

    diagnostics: list[Diagnostic] = field(default_factory=list)
    settled: set[tuple[str, Place]] = field(default_factory=set)
    read: set[Place] = field(default_factory=set)
    doubted: set[Place] = field(default_factory=set)


def settle_lines(lines: Sequence[Line], vocabulary: Vocabulary, mapping: ScheduleMapping) -> tuple[list[Line], Told]:
    """Return the lines with what their cells and the lines around them settle, and what is to be told of it."""
    told = Told()
    lines = [one for line in lines for one in _one_of_each(line, vocabulary, mapping, told)]
    around = _values_around(lines, vocabulary)
    inferring = [term for term in vocabulary.terms.values() if term.inferred]
    settled = []
    for line in lines:
        data = dict(line.data)
        _settle_cells_of_others(data.values(), told)
        _settle_words(data, vocabulary, around, told)
        _share_facts(data, vocabulary, mapping, around, told)
        _infer(data, inferring)
        _doubt_amounts(data, vocabulary, told)
        settled.append(replace(line, data=data))
    return _doubt_units(settled, vocabulary, told), told


def _one_of_each(line: Line, vocabulary: Vocabulary, mapping: ScheduleMapping, told: Told) -> Iterator[Line]:
    """Yield a line for each value that a cell names where a line has one: "DHW & DHWR" are two systems.

    `2" & 3"` are two sizes. Only terms by which systems are told apart are so read, and only where no word of the cell
    is left over.
    """
    for name, datum in line.data.items():
        term = vocabulary.terms.get(name)
        if term is None or not _may_be_several(datum, term, mapping):
            continue
        values = datum.listed or _values_named(datum.text, term, vocabulary, mapping)
        if len(values) < 2:
            continue
        told.settled.add((UNREADABLE.code, datum.place))
        told.read.add(datum.place)
        for value in values:
            note = f"one of the {len(values)} that `{datum.text}` names"
            own = replace(datum, value=value, listed=(), note="; ".join(filter(None, (datum.note, note))))
            one = replace(line, name=f"{line.name} ({value})", data={**line.data, name: own})
            yield from _one_of_each(one, vocabulary, mapping, told)
        return
    yield line


def _values_named(text: str, term: Term, vocabulary: Vocabulary, mapping: ScheduleMapping) -> tuple[Value, ...]:
    """Return the values that the words of a cell name, where no word is left over and none is in question."""
    phrase = read_cell(text, term, vocabulary, BareUnits(system=mapping.units))
    return () if phrase.left_over or phrase.questions or phrase.alternatives else phrase.values_of(term.name)


def _may_be_several(datum: Datum, term: Term, mapping: ScheduleMapping) -> bool:
    """Whether a cell that was not read may name several systems."""
    unread = isinstance(datum.value, NotGiven) and bool(datum.text) and datum.value.why not in DISAGREEMENTS
    return (
        unread
        and mapping.replaced(datum.text, term) is None
        and term.tells_apart
        and not term.proposed
        and (term.kind.form is Form.CHOICE or bool(datum.listed))
    )


def _infer(data: dict[str, Datum], terms: Sequence[Term]) -> None:
    """Give a line what its other data leave no doubt of, where it says nothing of it."""
    for term in terms:
        for inferred in term.inferred if term.name not in data else ():
            cause = data.get(inferred.where)
            given = data.get(inferred.given) if inferred.given else cause
            if cause is None or given is None or isinstance(given.value, NotGiven):
                continue
            if cause.value in inferred.values:
                words = f"`{inferred.where}` {cause.value}" + (f" and a `{inferred.given}`" if inferred.given else "")
                data[term.name] = Datum(inferred.value, cause.text, cause.place, f"inferred from {words}", True)
                break


def _values_around(lines: Sequence[Line], vocabulary: Vocabulary) -> Mapping[str, frozenset[str]]:
    """Return, for each term with words of several meanings, the values that the lines state of it."""
    terms = [term.name for term in vocabulary.terms.values() if term.either]
    return {
        name: frozenset(
            datum.value for line in lines if (datum := line.data.get(name)) is not None and isinstance(datum.value, str)
        )
        for name in terms
    }


def _settle_words(
    data: dict[str, Datum], vocabulary: Vocabulary, around: Mapping[str, frozenset[str]], told: Told
) -> None:
    """Settle words that stand for several values, or say which they may stand for."""
    for name, values in around.items():
        datum, term = data.get(name), vocabulary.terms[name]
        if datum is None or not datum.text or not isinstance(datum.value, NotGiven):
            continue
        if datum.value.why in DISAGREEMENTS:
            continue
        candidates = _candidates(datum.text, term, vocabulary)
        if not candidates:
            continue
        told.settled.add((UNREADABLE.code, datum.place))
        fitting = _fitting(candidates, term, values)
        if len(fitting) == 1:
            told.read.add(datum.place)
            note = f"`{datum.text}` read as {fitting[0]}, as the lines around it leave no other"
            data[name] = replace(
                datum, value=fitting[0], note="; ".join(filter(None, (datum.note, note))), inferred=True
            )
            continue
        problem = MAY_MEAN_SEVERAL.at(datum.place, text=datum.text, candidates=" or ".join(candidates), term=name)
        data[name] = replace(datum, value=NotGiven(datum.text, problem.message))
        told.diagnostics.append(problem)


def _candidates(text: str, term: Term, vocabulary: Vocabulary) -> tuple[str, ...]:
    """Return the values that words may stand for, where nothing else of them is in doubt."""
    phrase = read_cell(text, term, vocabulary)
    asked = [question for question in phrase.questions if question.term is term]
    if len({question.values for question in asked}) != 1 or phrase.values_of(term.name) or phrase.left_over:
        return ()
    return asked[0].values


def _fitting(candidates: Sequence[str], term: Term, around: frozenset[str]) -> list[str]:
    """Return the candidates that the lines around leave.

    A system that they call by other words is not meant by these; and where all of them that belong to a group belong
    to one, so does this. One material may well go by two names, and one building has many places: `Mineral fiber`
    beside fiberglass says nothing, nor does `penthouse` beside mechanical rooms.
    """
    unnamed = [value for value in candidates if value not in around]
    if term.together and len(unnamed) == 1 and len(candidates) == 2:
        return unnamed
    groups = [group for group in term.together if around & set(group)]
    if len(groups) != 1:
        return []
    return [value for value in candidates if value in groups[0]]


def _settle_cells_of_others(data: Collection[Datum], told: Told) -> None:
    """Settle the cells that were not read by themselves and say something of another term: "Supply" below a heading."""
    open_ = {datum.place for datum in data if isinstance(datum.value, NotGiven)}
    read = {datum.place for datum in data if not isinstance(datum.value, NotGiven)} - open_
    told.settled |= {(UNREADABLE.code, place) for place in read}


def _share_facts(
    data: dict[str, Datum],
    vocabulary: Vocabulary,
    mapping: ScheduleMapping,
    around: Mapping[str, frozenset[str]],
    told: Told,
) -> None:
    """Give what one cell states of another term to that term, where the line does not state it."""
    for name, datum in list(data.items()):
        term = vocabulary.terms.get(name)
        said = list(_said_beside(datum, term, vocabulary, mapping)) if term is not None else []
        if term is not None and said and isinstance(datum.value, NotGiven):
            told.settled.add((UNREADABLE.code, datum.place))
            told.read.add(datum.place)
            names = " and ".join(f"`{other}`" for other, _ in said)
            meant = _shortened(datum.text, term, around.get(name, frozenset()))
            alone = NotGiven("", f"`{datum.text}` says {names} alone")
            note = f"`{datum.text}` read as {meant}, since the lines around it are of the same group"
            data[name] = replace(datum, value=meant, note=note, inferred=True) if meant else replace(datum, value=alone)
        for other, fact in said:
            stated = data.get(other)
            if stated is None or (isinstance(stated.value, NotGiven) and not stated.text):
                data[other] = fact
            elif not isinstance(stated.value, NotGiven) and stated.value != fact.value:
                told.diagnostics.append(_disagreement(vocabulary.terms[other], stated, fact))
                data[other] = _open(stated, fact)


def _shortened(text: str, term: Term, around: frozenset[str]) -> str:
    """Return the value that a word begins the name of among values of which all lines are: "Supply" beside ducts.

    It is "" where the lines are of no one group, or of the group no value, or several, are called so.
    """
    groups = [group for group in term.together if around and around <= set(group)]
    values = [value for group in groups for value in group if fold(value).startswith(f"{fold(text)} ")]
    return values[0] if len(values) == 1 else ""


def _said_beside(
    datum: Datum, term: Term, vocabulary: Vocabulary, mapping: ScheduleMapping
) -> Iterator[tuple[str, Datum]]:
    """Yield what one cell states of other terms: by the mapping file, or else by its own words."""
    meanings = mapping.meanings(datum.text, term) if datum.text else None
    if meanings is None:
        if term.kind.form is not Form.TEXT and not datum.note.startswith(FROM_SENTENCE):  # it was read as a whole
            yield from facts_beside(datum, term, vocabulary, mapping.units)
        return
    for name, text in meanings.items():
        value = read_value(text, vocabulary.terms[name], BareUnits(system=mapping.units))
        if name != term.name and not isinstance(value, Misread | NotGiven):
            note = f"read as `{text}` by {mapping.whose_words(datum.text)}"
            yield name, Datum(value, datum.text, datum.place, note, inferred=True)


def _open(stated: Datum, fact: Datum) -> Datum:
    text = f"{stated.text} / {fact.text}"
    return replace(stated, value=NotGiven(text, CELLS_DISAGREE), text=text, note=fact.note)


def _disagreement(term: Term, stated: Datum, fact: Datum) -> Diagnostic:
    said = " and ".join(f"`{each.text}` in {each.place.cell}" for each in (stated, fact))
    return TWO_CELLS_DISAGREE.at(fact.place, term=term.name, values=said)


def _doubt_units(lines: list[Line], vocabulary: Vocabulary, told: Told) -> list[Line]:
    """Return the lines without the numbers that may as well be in the other units, where nothing states a unit."""
    for index, name, doubt in list(units_in_doubt(lines, vocabulary)):
        line = lines[index]
        datum = replace(line.data[name], value=NotGiven(line.data[name].text, doubt.message))
        lines[index] = replace(line, data={**line.data, name: datum})
        told.diagnostics.append(doubt)
        told.doubted.add(doubt.place)
    return lines


def _doubt_amounts(data: dict[str, Datum], vocabulary: Vocabulary, told: Told) -> None:
    """Make doubtful what the vocabulary calls senseless for the service, or another value, of the line."""
    for name, datum in list(data.items()):
        term = vocabulary.terms.get(name)
        if term is None or not (term.sensible or term.sensible_numbers) or isinstance(datum.value, NotGiven):
            continue
        beside = {other: each.value for other, each in data.items()}
        found = senseless(datum.value, term, beside, unit_assumed=bool(datum.units_assumed))
        if found is not None:
            problem = found.at(datum.place)
            data[name] = replace(datum, value=NotGiven(datum.text, problem.message))
            told.diagnostics.append(problem)
            told.doubted.add(datum.place)
