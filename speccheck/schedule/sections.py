"""Section headings and titles: what words such as "CHILLED WATER SYSTEMS (42 F)" say about the lines under them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from speccheck.english import count
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.terms import Form, Vocabulary, fold
from speccheck.language.vocabulary.values import NO_UNITS, NotGiven, Value, read_value, write_value
from speccheck.phrases import read_cell, shared_values, values_of
from speccheck.quantities import Misread
from speccheck.schedule.messages.tables import HEADING_READ_AS, HEADING_SAYS_NOTHING

_AROUND = (
    r"systems?|piping|pipes?|lines?|mains?|services?|schedule|insulation|thickness(?:es)?|supply|return|and|&|s ?& ?r"
    r"|minimum|min\.|recommended|inches|in\.|mm"
)
_TRAILING = re.compile(rf"(?:[\s:,–—-]+(?:{_AROUND}|\(?cont(?:inue)?d?(?:'d)?\.?\)?))+$", re.IGNORECASE)
_NEUTRAL = re.compile(rf"(?:{_AROUND}|[\s:.-])+", re.IGNORECASE)
_NUMBERS_IN_BRACKETS = re.compile(r"\s*\([\d\s.,/–—-]+(?:psig?|kPa|bar|%)\s*\)$", re.IGNORECASE)
_DEGREES = r"\d+(?:\.\d+)?\s*(?:°|º|deg\.?)?\s*[FC]?"
_TEMPERATURE_AT_END = re.compile(
    rf"(?<!\d)[\s,;:(@–—-]+(-?{_DEGREES}(?:\s*(?:/|-|–|—|to)\s*{_DEGREES})?(?<=[FC]))\s*\)?$", re.IGNORECASE
)
_FROM_TO = re.compile(r"(\d+)[\s°º]*[FC]?\s*/\s*(\d+)", re.IGNORECASE)
_PARTED = re.compile(r"\s*[,;:()]\s*|\s+[-–—]\s+")
_LISTED = re.compile(r"\s+(?:and|und|et|y|e)\s+|\s*[&+]\s*|\s+/\s+", re.IGNORECASE)
LONGEST_HEADING = 120
SERVICE, PLACE, INSULATION, COMPONENT = "service", "location", "insulation", "component"
_DIGIT = re.compile(r"\d")
# A letter or a figure is a value only in the column of its term: sheet `S` says nothing of supply, and the 40 of
# "40-60 F" nothing of schedule 40.
SHORTEST_IN_HEADING = 2
_NUMBERING = re.compile(r"^[(\[]?(?:\d{1,2}|[A-Za-z]|[IVX]{1,4})[.)\]]\s+")


class HeadingReader:
    """Reads headings against one vocabulary; each text is read once."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self._choices = _choices_of(vocabulary)
        temperatures = (term for term in vocabulary.terms.values() if term.kind.dimension == "temperature")
        self._temperature = next((term for term in temperatures if term.tells_apart), None)
        self._vocabulary = vocabulary
        self.facts = lru_cache(maxsize=4096)(self._facts)
        self.understood = lru_cache(maxsize=4096)(self._understood)
        self.said = lru_cache(maxsize=4096)(self._said)

    def names(self, text: str) -> frozenset[str]:
        """Return the names of the terms of which a heading gives a value."""
        return frozenset(self.understood(text))

    def temperature(self, text: str) -> Mapping[str, Value]:
        """Return the temperature of the system that a text alone states with its unit: "105-140 F"."""
        if self._temperature is None or not _DIGIT.search(text):
            return {}
        value = read_value(text.strip(" ()"), self._temperature)
        return {} if isinstance(value, Misread | NotGiven) else {self._temperature.name: value}

    def speaks_of_a_system(self, text: str) -> bool:
        """Whether some words of a text name a service, or may name several, whatever the others say."""
        service = self._vocabulary.terms.get(SERVICE)
        if service is None:
            return False
        phrase = read_cell(text, service, self._vocabulary)
        return bool(phrase.values_of(SERVICE)) or any(asked.term is service for asked in phrase.questions)

    def _said(self, text: str) -> Mapping[str, Value]:
        """Return what a heading says of each line under it; nothing where it lists several systems."""
        found = self.understood(text)
        return {} if self._lists_systems(text, found) else found

    def _understood(self, text: str) -> Mapping[str, Value]:
        """Return what the words of a heading say: its values, or else what its parts say as the words of a cell do.

        "CHWS/CHWR piping - 42 F, exposed in mechanical rooms" is of no single value, and understood all the same.
        """
        facts = self.facts(text)
        found = facts or self._in_parts(" ".join(text.split()).strip(" :*†‡"))
        return found if facts or SERVICE in found else self._of_insulation(text)

    def _lists_systems(self, text: str, found: Mapping[str, Value]) -> bool:
        """Whether a heading names several systems, one of them by what else would be said beside a service.

        In "domestic water and drains" the drains are other lines than those of domestic water; the places in "chilled
        water, roof and yard" are of one.
        """
        terms = self._vocabulary.terms
        kinds = [terms[name] for name in found if name != PLACE and terms[name].kind.form is Form.CHOICE]
        beside = {term.name for term in kinds if tuple(term.beside) == (SERVICE,)} - {COMPONENT}
        if SERVICE not in found or not beside:
            return False
        service = terms[SERVICE]
        parts = [read_cell(part, service, self._vocabulary) for part in _LISTED.split(text) if part.strip()]
        named = [{fact.term.name for fact in phrase.facts} for phrase in parts]
        return len(named) > 1 and any(beside & names and SERVICE not in names for names in named)

    def _of_insulation(self, text: str) -> Mapping[str, Value]:
        """Return what a heading says of an insulation, and beside it: "FIBERGLASS WITH ASJ"."""
        term = self._vocabulary.terms.get(INSULATION)
        text = _NUMBERING.sub("", " ".join(text.split()).strip(" :*†‡"))
        if term is None or len(text) > LONGEST_HEADING or any(map(str.isdigit, text)):
            return {}
        said = values_of(read_cell(text, term, self._vocabulary)) or {}
        return said if INSULATION in said else {}

    def _in_parts(self, text: str) -> Mapping[str, Value]:
        """Return what the parts of a heading say, one after another; none where one of them is not understood."""
        if not text or len(text) > LONGEST_HEADING:
            return {}
        text = _NUMBERING.sub("", text)
        whole = shared_values(text, self._vocabulary, NO_UNITS)
        if whole is not None:
            return whole
        found: dict[str, Value] = {}
        for part in filter(None, (part.strip() for part in _PARTED.split(text))):
            said = self._of_part(part)
            if said is None or any(found.get(name, value) != value for name, value in said.items()):
                return {}
            found |= said
        return found

    def _of_part(self, part: str) -> Mapping[str, Value] | None:
        """Return what one part of a heading says, read as a cell of services or of places, None for other words."""
        if _NEUTRAL.fullmatch(part):
            return {}
        choice = self._choice(part)
        if choice is not None:
            return dict([choice])
        if self._temperature is not None:
            value = read_value(part, self._temperature)
            if not isinstance(value, Misread | NotGiven):
                return {self._temperature.name: value}
        said = shared_values(part, self._vocabulary, NO_UNITS)
        place = self._vocabulary.terms.get(PLACE)
        if said is None and place is not None:
            said = values_of(read_cell(part, place, self._vocabulary))
        return said or self._of_insulation(part) or None

    def _facts(self, text: str) -> Mapping[str, Value]:
        """Return the values that a heading gives, by term; none where any of its words is not understood.

        The parts of a heading, at commas, dashes and brackets, are each a value of a single term, a temperature with
        its unit, or words such as "systems" that say nothing: "PIPING - HEATING HOT WATER (180/160 °F)".
        """
        text = " ".join(text.split()).strip(" :*†‡")
        if not text or len(text) > LONGEST_HEADING:
            return {}
        bare = _NUMBERS_IN_BRACKETS.sub("", _NUMBERING.sub("", text))
        for words in (text, bare):
            found = self._choice(words)
            if found is not None:
                return dict([found])
        whole = self.temperature(bare)
        if whole:
            return whole
        facts: dict[str, Value] = {}
        temperature: dict[str, Value] = {}
        degrees = _TEMPERATURE_AT_END.search(bare)
        if degrees is not None and self._temperature is not None:
            value = read_value(_FROM_TO.sub(r"\2 to \1", degrees[1]), self._temperature)
            if isinstance(value, Misread | NotGiven):
                return {}
            temperature[self._temperature.name] = value
            bare = bare[: degrees.start()]
        for part in filter(None, (part.strip() for part in _PARTED.split(bare))):
            said = self._part(part)
            if said is None or (said and said[0] in facts):
                return {}
            facts |= dict([said]) if said else {}
        return {**facts, **temperature}

    def _part(self, part: str) -> tuple[str, Value] | tuple[()] | None:
        """Return what one part of a heading says: a term with its value, nothing, or None where it is not known."""
        if _NEUTRAL.fullmatch(part):
            return ()
        return self._choice(part)

    def _choice(self, words: str) -> tuple[str, Value] | None:
        """Return the term and the value that words name, or None where they name none, or several."""
        for name in (words, _TRAILING.sub("", words)):
            found = self._choices.get(fold(name), ())
            if found:
                return found[0] if len(found) == 1 else None
        return None


def _choices_of(vocabulary: Vocabulary) -> Mapping[str, Sequence[tuple[str, Value]]]:
    """Return all terms and values by what is written for them.

    Where words name a material of the table itself, one whose thickness is tabulated, they name it before the parts
    that may be of it too, as inserts are of cellular glass.
    """
    found: dict[str, list[tuple[str, Value]]] = {}
    for term in (term for term in vocabulary.terms.values() if term.kind.form is Form.CHOICE):
        for spelling, name in term.choice_names.items():
            if len(spelling) < SHORTEST_IN_HEADING or not any(map(str.isalpha, spelling)):
                continue
            found.setdefault(spelling, []).append((term.name, name))
    for term in vocabulary.terms.values():
        for words, answer in term.answers.items():
            found.setdefault(words, []).append((term.name, answer))
    tabulated = {term.name for term in vocabulary.tabulated}
    main = {name for name, term in vocabulary.terms.items() if tabulated & set(term.beside)}
    for words, several in found.items():
        own = [one for one in several if one[0] in main]
        others = (vocabulary.terms[name] for name, _ in several if name not in main)
        if len(own) == 1 and not any(other.tells_apart for other in others):
            found[words] = own
    return found


def section_note(text: str, facts: Mapping[str, Value], vocabulary: Vocabulary, place: Place, lines: int) -> Diagnostic:
    """Return the note that tells what became of a section heading."""
    shown = " ".join(text.split())
    if not facts:
        return HEADING_SAYS_NOTHING.at(place, heading=shown)
    said = " and ".join(f"`{name}` {write_value(value, vocabulary.terms[name])}" for name, value in facts.items())
    named = ", ".join(f"`{name}`" for name in facts)
    return HEADING_READ_AS.at(place, heading=shown, values=said, lines=count(lines, "line"), terms=named)
