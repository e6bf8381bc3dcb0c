"""Headers: which terms the words over a column name, whatever stands before and behind the names.

"Recommended minimum insulation thickness" names one term, "Insulation / Thickness" two, "Thickness / Épaisseur" one in
two languages, and "Line temp. 15 C" one with its value. Every word has to be accounted for: a name of the vocabulary, a
word that changes nothing beside such a name, or a value. A header with any other word names nothing here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import NO_UNITS, BareUnits, NotGiven, Value, read_value
from speccheck.phrases.kept import kept_by_vocabulary
from speccheck.phrases.lexicon import lexicon_of
from speccheck.phrases.words import key_of
from speccheck.quantities import Misread

LONGEST = 120
# Words that change nothing beside the name of any term.
_NEUTRAL = frozenset(
    {
        "the",
        "of",
        "for",
        "a",
        "an",
        "and",
        "or",
        "as",
        "on",
        "in",
        "to",
        "proposed",
        "submitted",
        "provided",
        "offered",
        "furnished",
        "actual",
    }
)
# Words that change nothing beside the name of something that is measured.
_OF_AMOUNTS = frozenset(
    {
        "range",
        "nominal",
        "value",
        "approximate",
        "average",
        "usage",
        "per",
        "stated",
        "included",
        "covered",
        "applicable",
    }
)
# Beside what is proposed and measured: a minimum thickness is the one that is proposed.
_OF_PROPOSED_AMOUNTS = frozenset({"recommended", "minimum", "min", "thermal"})
# Of what an amount that the pipe or the system has, and of what one that the insulation has, is said.
_OF_THE_SYSTEM = frozenset(
    {"fluid", "medium", "line", "pipe", "tube", "system", "process", "design", "service", "operating", "working"}
)
_OF_THE_INSULATION = frozenset({"insulation", "material", "wall"})
_KINDS = frozenset({"type", "kind", "description", "name", "material", "selection"})
_TO_A_STANDARD = re.compile(
    r"\s*\b(?:(?:to|per|acc(?:ording)?\.?(?:\s+to)?|as per|nach|selon)\s+)?"
    r"(?:ASTM|EN|ISO|DIN|BS|UL|NFPA)(?:\s+(?:EN|ISO))*"
    r"\s*[A-Z]?-?\d[\w.\-]*(?:\s*[/,&]\s*[A-Z]?\d[\w.\-]*)*",
)
_PARTS = re.compile(r"\s*(?:[/|;\n]|\s[-–—]\s|,\s|(?<![\w])&(?![\w])|\band\b|\bor\b|\+)\s*", re.IGNORECASE)
_VALUE_BEHIND = re.compile(r"^(?P<name>.*?[^\W\d_].*?)[\s,:=@(-]+(?P<value>[<>≤≥]?\s*[-−]?\d.*?)\)?$")

Key = tuple[str, ...]


class StatedInHeader(NamedTuple):
    """A value that stands in a header: "15 C" of "Line temp. 15 C"."""

    term: Term
    value: Value
    text: str


@dataclass(frozen=True, slots=True)
class HeaderPhrase:
    """The terms that a header names, in its order, and the values that it states; no terms where it names none."""

    terms: tuple[Term, ...] = ()
    stated: tuple[StatedInHeader, ...] = ()


def read_header(text: str, vocabulary: Vocabulary, bare: BareUnits = NO_UNITS) -> HeaderPhrase:
    """Return what the words of a header name; units and brackets are no part of them. Bare values are in `bare`."""
    text = " ".join(_TO_A_STANDARD.sub("", text).split())
    if not text or len(text) > LONGEST:
        return HeaderPhrase()
    names = _names(vocabulary)
    key = key_of(text)
    terms = () if names.exactly(key) else names.in_parts(text)
    if terms:
        return HeaderPhrase(terms if all(_stand_together(terms[0], other) for other in terms[1:]) else ())
    term = names.in_words(key)
    return HeaderPhrase((term,)) if term is not None else _with_value(text, names, bare)


def terms_in_parts(text: str, vocabulary: Vocabulary) -> tuple[Term, ...]:
    """Return the terms that the parts of a header name, be they such as may stand in one cell or not."""
    return _names(vocabulary).in_parts(" ".join(text.split()))


def _with_value(text: str, names: _Names, bare: BareUnits) -> HeaderPhrase:
    """Return the term of a header that states its value too."""
    found = _VALUE_BEHIND.match(text)
    term = names.in_words(key_of(found["name"])) if found else None
    if found is None or term is None or not term.kind.ordered:
        return HeaderPhrase()
    value = read_value(found["value"], term, bare)
    if isinstance(value, Misread | NotGiven):
        return HeaderPhrase()
    return HeaderPhrase((term,), (StatedInHeader(term, value, found["value"]),))


class _Names:
    """The names of the terms of a vocabulary, by their words as these are compared."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary
        self._terms: dict[Key, Term | None] = {}
        for spelling, name in vocabulary.spellings.items():
            key = key_of(spelling)
            term = vocabulary.terms[name]
            known = self._terms.setdefault(key, term)
            if known is not term:
                self._terms[key] = None
        self._longest = max(map(len, self._terms), default=0)

    def exactly(self, key: Key) -> Term | None:
        """Return the one term of which these words, in this order, are a name."""
        return self._terms.get(key)

    def in_words(self, key: Key) -> Term | None:
        """Return the one term that words name, in their order or another, with words beside that change nothing."""
        if "of" in key[1:-1]:
            key = (*key[key.index("of") + 1 :], *key[: key.index("of")])
        if key in self._terms:
            return self._terms[key]
        for length in range(min(len(key), self._longest), 0, -1):
            found = {term.name: term for term in self._of_length(key, length)}
            if found:
                return next(iter(found.values())) if len(found) == 1 else None
        return None

    def _of_length(self, key: Key, length: int) -> Iterator[Term]:
        """Yield the terms that runs of some words name, where the other words change nothing."""
        for start in range(len(key) - length + 1):
            run = key[start : start + length]
            term = self._terms.get(run)
            if (
                term is not None
                and (length > 1 or len(run[0]) > 1)
                and self._beside(term, run, key[:start] + key[start + length :])
            ):
                yield term

    def _beside(self, term: Term, run: Key, others: Key) -> bool:
        """Whether words change nothing beside a name of a term."""
        measured = term.kind.form in (Form.QUANTITY, Form.SIZE, Form.NUMBER)
        allowed = _NEUTRAL | (_OF_AMOUNTS if measured else _KINDS)
        if measured and term.proposed:
            allowed |= _OF_PROPOSED_AMOUNTS
        if not term.proposed:
            allowed |= _OF_THE_SYSTEM
        elif {"insulation", "jacket"} & {*run, *others}:
            allowed |= _OF_THE_SYSTEM | _OF_THE_INSULATION
        rest = tuple(word for word in others if word not in allowed)
        return not rest or self._terms.get(rest) is term or (term.proposed and self._is_material(rest))

    def _is_material(self, words: Sequence[str]) -> bool:
        """Whether words are the name of an insulation: "EPDM rubber" of "thickness of EPDM rubber"."""
        insulation = self.vocabulary.terms.get("insulation")
        if insulation is None:
            return False
        lexicon = lexicon_of(self.vocabulary, insulation)
        if lexicon.named(tuple(words)) is not None:
            return True
        named = [lexicon.named((word,)) for word in words]
        return len({found.values for found in named if found is not None}) == 1 and None not in named

    def in_parts(self, text: str) -> tuple[Term, ...]:
        """Return the terms that the parts of a header name, each once; none where all but one part name none."""
        parts = [part for part in _PARTS.split(text) if part.strip()]
        terms: list[Term] = []
        for part in parts:
            term = self._of_part(part)
            if term is not None:
                own = self._terms.get(key_of(f"{terms[0].name} {part}")) if terms else None
                terms.append(own or term)
        distinct = tuple({term.name: term for term in terms}.values())
        return distinct if len(parts) > 1 and (len(terms) == len(parts) or len(distinct) > 1) else ()

    def _of_part(self, part: str) -> Term | None:
        term = self.in_words(key_of(part))
        return term if term is not None else self._terms.get(key_of(f"insulation {part}"))


def _stand_together(first: Term, other: Term) -> bool:
    """Whether the cells of one term may state the other too."""
    return first.name in other.beside or other.name in first.beside


_names = kept_by_vocabulary(_Names)
