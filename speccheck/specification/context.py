"""What the paragraphs above say of the lines that a paragraph is for: "C. Piping exposed to weather:", then 1, 2, 3.

A title or a leading paragraph whose words name a service, a place, an insulation speaks for all that stands under it.
Where it names one and other words besides, nobody knows how far it reaches: that is a doubt of each of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.specification.blocks import Paragraph
from speccheck.specification.conditions import TEMPERED, conditions_in
from speccheck.specification.owners import names_insulation
from speccheck.specification.pieces import asked_term
from speccheck.specification.plain_words import plain_words_of
from speccheck.specification.sentences import Sentence

# A title "CALCIUM MAGNESIA INSULATION" is of one material, whatever it is; "INSULATION ACCESSORIES" is of none.
_OF_NO_MATERIAL = frozenset(
    {
        *("accessories", "application", "common", "equipment", "exterior", "field", "finishes", "general", "install"),
        *("installation", "installing", "interior", "materials", "mechanical", "of", "products", "requirements"),
        *("duct", "ducts", "material", "pipe", "pipes", "piping", "schedule", "schedules", "system", "systems"),
        *("tank", "tanks", "thickness", "types", "work"),
    }
)
# What stands beside the insulation, and has a thickness, a density, a temperature of its own.
_ACCESSORY = re.compile(
    r"\b(?:jacket|band|tape|cloth|shield|saddle|insert|retarder|barrier|facing|coating|mastic|cement|fastener|pin|adhesive"
    r"|sealant|accessor|finish|cover|vapor stop|wire|membrane|hanger)",
    re.IGNORECASE,
)
_PLAIN = frozenset({"thickness", "layers"})
_SUBMITTALS = re.compile(r"\bsubmit(?:tals?)?\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Above:
    """The conditions that hold for what stands under a paragraph, and what is in doubt about them."""

    where: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    tempered: tuple[str, ...] = ()

    def doubts_beside(self, conditions: Iterable[str]) -> tuple[str, ...]:
        """Return what is in doubt for a paragraph with conditions of its own: a service or a temperature in it settles
        what "heating" above it means.
        """
        settled = any(one.startswith(("service is", "operating temperature is")) for one in conditions)
        return self.doubts if settled else (*self.doubts, *self.tempered)


@dataclass
class Context:
    """The paragraphs so far that others stand under, by their number."""

    vocabulary: Vocabulary
    piping: bool = False
    _above: dict[str, Above] = field(default_factory=dict)
    _submittals: set[str] = field(default_factory=set)
    _accessories: dict[str, str] = field(default_factory=dict)

    def of(self, paragraph: Paragraph) -> Above:
        """Return what the paragraphs above one say of its lines, from the article down."""
        found = [self._above[number] for number in _ancestors(paragraph.number) if number in self._above]
        where = dict.fromkeys(condition for one in found for condition in one.where)
        doubts = tuple(doubt for one in found for doubt in one.doubts)
        return Above(tuple(where), doubts, tuple(doubt for one in found for doubt in one.tempered))

    def doubts_of_what(self, paragraph: Paragraph, asks: Iterable[str]) -> tuple[str, ...]:
        """Return a doubt for each property of insulation under a title of jackets, tape, adhesives: of which it is."""
        titles = [self._accessories[one] for one in _ancestors(paragraph.number) if one in self._accessories]
        if not titles or _speaks_of_insulation(paragraph.text, self.vocabulary):
            return ()
        terms = (self.vocabulary.terms.get(asked_term(ask)) for ask in asks)
        of_insulation = [
            one.name for one in terms if one is not None and (one.of == "insulation" or one.name in _PLAIN)
        ]
        return tuple(f"the {name} may be that of `{titles[-1]}`, or of the insulation" for name in of_insulation)

    def submits(self, paragraph: Paragraph) -> bool:
        """Whether a paragraph stands under words that ask for what it names to be submitted."""
        return not self._submittals.isdisjoint(_ancestors(paragraph.number))

    def lead(self, paragraph: Paragraph) -> None:
        """Take in a title or a leading paragraph."""
        if not paragraph.number:
            return
        if _SUBMITTALS.search(paragraph.text):
            self._submittals.add(paragraph.number)
        text = plain_words_of(paragraph.text.rstrip(":. "))
        if _ACCESSORY.search(text) and not _speaks_of_insulation(text, self.vocabulary):
            self._accessories[paragraph.number] = paragraph.text
        piece = conditions_in(text, self.vocabulary, piping=self.piping)
        if not (piece.texts or _names_a_material(paragraph.text, piece.left_over)) and not (
            set(map(str.casefold, piece.left_over)) & TEMPERED
        ):
            return
        odd = {words: f"`{words}` above, in {paragraph.number}, was not understood" for words in piece.left_over}
        tempered = tuple(told for words, told in odd.items() if words.casefold() in TEMPERED)
        doubts = tuple(told for told in odd.values() if told not in tempered)
        self._above[paragraph.number] = Above(tuple(piece.texts), (*doubts, *piece.doubts), tempered)

    def clause(self, paragraph: Paragraph, where: tuple[str, ...]) -> None:
        """Take in a requirement: what stands under it is for the same lines."""
        if paragraph.number and where:
            self._above[paragraph.number] = Above(where)

    def unread(self, paragraph: Paragraph) -> None:
        """Take in a paragraph that was not understood: nobody knows for which lines that is which stands under it."""
        if paragraph.number:
            self._above[paragraph.number] = Above((), (f"{paragraph.number} above it was not understood",))


def _speaks_of_insulation(text: str, vocabulary: Vocabulary) -> bool:
    """Whether words speak of insulation, or name one."""
    return re.search(r"\binsulat", text, re.IGNORECASE) is not None or names_insulation(text, vocabulary)


def _names_a_material(title: str, left_over: Iterable[str]) -> bool:
    """Whether a title ends with "insulation" behind words that nobody understood, which will be a material."""
    if not re.search(r"\binsulation$", title.strip(" .:"), re.IGNORECASE):
        return False
    words = {word for one in left_over for word in re.findall(r"[a-z]+", one.casefold())}
    return bool(words - _OF_NO_MATERIAL)


def _ancestors(number: str) -> list[str]:
    """Return the numbers of the paragraphs above one, from the part: 2, 2.1 and 2.1.A of 2.1.A.3."""
    parts = number.split(".")
    return [".".join(parts[:count]) for count in range(1, len(parts))]


def inherited(above: Iterable[str], own: Iterable[str], asks: Iterable[str]) -> tuple[str, ...]:
    """Return the conditions of a paragraph with those from above it.

    One from above gives way to one of the paragraph that narrows it, and to what the paragraph asks: under the title
    "Fiberglass" a paragraph that forbids fiberglass somewhere is not for lines that have it already.
    """
    mine, asked = tuple(own), set(map(asked_term, asks))
    words = {word for term in asked for word in term.split()}
    kept = []
    for one in above:
        term, values = _named(one)
        is_subject = term == "component" and bool(values & words)  # "Fittings" above what is asked of a fitting cover
        if term not in asked and not is_subject and not any(narrows(other, one) for other in mine):
            kept.append(one)
    return tuple(dict.fromkeys((*kept, *mine)))


def clashing(above: Iterable[str], read: Sequence[Sentence]) -> tuple[str, ...]:
    """Return a doubt where a paragraph names other values of a term than what stands above it."""
    doubts = []
    for one in above:
        term, values = _named(one)
        for own in (condition for sentence in read for condition in sentence.where):
            mine, others = _named(own)
            if mine == term and values and others and not others <= values:
                doubts.append(f"what stands above says `{one}`, and this `{own}`")
    return tuple(dict.fromkeys(doubts))


def narrows(condition: str, other: str) -> bool:
    """Whether a condition names some of the values that another names of the same term: then it says enough."""
    (term, values), (of, wider) = _named(condition), _named(other)
    piping = other == "piping" and term == "component"
    return piping or (term == of and bool(values) and values <= wider)


def _named(condition: str) -> tuple[str, frozenset[str]]:
    """Return the term of a condition and the choices that it names, none for an amount or a yes-or-no term."""
    term, _, words = condition.partition(" is ")
    listed = words.removeprefix("one of ").split(", ") if words else []
    return term, frozenset(one for one in listed if not any(letter.isdigit() for letter in one))
