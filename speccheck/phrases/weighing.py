"""What the parts of a cell say of each other, once all of them are read: which of two values is the cell's own.

A word answers a question of another, what stands in brackets is a remark on what stands before them, and a value that a
term beside can have gives way: "ASJ + PVC" has a PVC jacket.
"""

from __future__ import annotations

from collections.abc import Iterator

from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import Value
from speccheck.phrases.facts import Fact, Span
from speccheck.phrases.interpreting import Said, value_of
from speccheck.phrases.terminals import PLACE
from speccheck.phrases.words import key_of, words_of


def weigh(said: Said) -> None:
    """Settle what the facts, questions and words left over of a text say of each other."""
    _answer(said)
    _without_origins(said)
    _without_places_of_parts(said)
    _give_way(said)
    _leave_remarks(said)
    _as_text_beside(said)


def _own(said: Said) -> list[Fact]:
    """Return the facts of the term that is expected."""
    return [fact for fact in said.facts if fact.term is said.source.lexicon.term]


def _answer(said: Said) -> None:
    """Drop a question that another word of the cell answers: `Mineral fiber (fiberglass)` is fiberglass."""
    for asked in list(said.questions):
        own = {fact.value for fact in said.facts if fact.term is asked.term}
        if len(own) == 1 and own <= set(asked.values):
            said.questions.remove(asked)


def _without_origins(said: Said) -> None:
    """Drop what stands right before a value and says where it comes from: the drain of "AHU cond. drain" is a pipe.

    Such words name a value of a term that the vocabulary infers otherwise from the value behind them.
    """
    for own in _own(said):
        for fact in [each for each in said.facts if each.term.inferred]:
            right_before = fact.end <= own.start and not said.source.text[fact.end : own.start].strip()
            inferred = {one.value for one in fact.term.inferred if own.value in one.values}
            whole = all(choice.part_of == "" for choice in fact.term.choices if choice.name == fact.value)
            if right_before and inferred and fact.value not in inferred and whole:
                said.facts.remove(fact)


def _without_places_of_parts(said: Said) -> None:
    """Leave over the places of a cell that names two: neither is that of the whole system."""
    places = [fact for fact in said.facts if fact.term.name == PLACE and said.source.lexicon.term.name != PLACE]
    for fact in places if len({fact.value for fact in places}) > 1 else ():
        said.facts.remove(fact)
        said.leave(fact.start, fact.end)


def _give_way(said: Said) -> None:
    """Where a cell names two values, give one that a term beside can have to that term: "ASJ + PVC".

    Of a value in brackets and one before them neither gives way: `ASJ (PVC at fittings)` has a remark.
    """
    own = _own(said)
    if len({fact.value for fact in own}) < 2 or said.source.lexicon.term.kind.form is not Form.CHOICE:
        return
    if len({said.in_remark(fact.start) for fact in own if fact.value != "none"}) > 1:
        return
    for fact in own:
        aside = _aside(fact, own, said)
        rest = {other.value for other in _own(said) if other is not fact}
        if aside is not None and rest and fact.value != "none" and not said.alternatives:
            said.facts[said.facts.index(fact)] = aside


def _aside(fact: Fact, own: list[Fact], said: Said) -> Fact | None:
    """Return what the words of a value say of a term beside, None where they are of no other term."""
    lexicon = said.source.lexicon
    found = lexicon.find(words_of(said.source.text[fact.start : fact.end]), 0)
    if found is None or all(each.term is not lexicon.term for each in found.meanings):
        return None
    alike = any(_are_alike(fact.value, other.value) for other in own if other is not fact)
    others = (each for each in found.meanings if each.term is not lexicon.term and (each.term.proposed or not alike))
    aside = next(others, None)
    return Fact(aside.term, value_of(aside), fact.start, fact.end) if aside is not None else None


def _are_alike(value: Value, other: Value) -> bool:
    """Whether two values are of one kind by the last words of their names, as supply air and return air are."""
    return str(value).split()[-1:] == str(other).split()[-1:] and value != other


def _leave_remarks(said: Said) -> None:
    """Where brackets hold another value than the words before them, leave over what they hold: it is a remark."""
    outside = [fact for fact in _own(said) if not said.in_remark(fact.start)]
    inside = [fact for fact in _own(said) if said.in_remark(fact.start)]
    if not outside or all(fact.value in {other.value for other in outside} for fact in inside):
        return
    for fact in inside:
        said.facts.remove(fact)
        said.leave(fact.start, fact.end)


def _as_text_beside(said: Said) -> None:
    """Give words left over to a term of free text beside: a room, by its number or before brackets with its kind."""
    others = [term for term in said.source.lexicon.beside if term.kind.form is Form.TEXT]
    own = _own(said)
    if len(others) != 1 or len({fact.value for fact in own}) != 1 or not said.left:
        return
    kind_in_brackets = all(said.in_remark(fact.start) for fact in own)
    outside = not any(said.in_remark(word.start) for word in said.left)
    if (kind_in_brackets and outside) or all(word.folded.isdecimal() for word in said.left):
        start, end = said.left[0].start, said.left[-1].end
        said.facts.append(Fact(others[0], said.source.text[start:end], start, end))
        said.left.clear()


def spans_left(said: Said) -> Iterator[Span]:
    """Yield the words left over, neighbors together."""
    if not said.left:
        return
    own = _own_spellings(said)
    places = [index for index, word in enumerate(said.source.words) if word in said.left and word.folded not in own]
    for place in places:
        if place - 1 in places:
            continue
        last = next(each for each in range(place, len(said.source.words)) if each + 1 not in places)
        start, end = said.source.words[place].start, said.source.words[last].end
        yield Span(said.source.text[start:end], start, end)


def _own_spellings(said: Said) -> frozenset[str]:
    """The words of all spellings of the values that were found: "foam" behind "polyiso" says nothing more."""
    found = {(fact.term.name, fact.value) for fact in said.facts}
    return frozenset(
        word
        for term in (said.source.lexicon.term, *said.source.lexicon.beside)
        for choice in term.choices
        if (term.name, choice.name) in found
        for spelling in (choice.name, *choice.also)
        for word in key_of(spelling)
    )
