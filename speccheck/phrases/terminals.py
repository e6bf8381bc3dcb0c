"""Terminals: the runs of words of a text that the rules of `grammar/phrases.lark` put together.

What the vocabulary knows is found as the longest run of words; amounts reach as far as they can be read. A joining word
is that of a rule only where it has something to join: the slash before an amount behind a value, as in "PVC / 20 mil",
and "in" with no place behind it are fillers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import BareUnits
from speccheck.phrases.amounts import Written, amounts_written, name_before
from speccheck.phrases.layers import Layers, layers_at
from speccheck.phrases.lexicon import Lexicon, Meaning
from speccheck.phrases.owners import can_be_an_amount
from speccheck.phrases.words import SAYS_NOTHING, Word

PLACE = "location"
_STANDARD = re.compile(
    r"\b(?:ASTM|UL|ANSI|ISO|EN|DIN|NFPA|BS)\s*-?\s*[A-Z]{0,2}\s*-?\d+[A-Z]?(?:[-/ ]?\d+)*", re.IGNORECASE
)
_BEGIN_STANDARDS = frozenset("auiednb")
_TO_AN_AMOUNT = re.compile(r"\s*to\s+[\d.½¼¾]", re.IGNORECASE)  # an end without a beginning, and no one amount
_DEEPEST = 8
_MARKS = {"(": "OPEN", ")": "CLOSE", "/": "SLASH", "and": "AND", "or": "OR", "@": "AT", "at": "AT"}
_INSIDE = frozenset({"in", "within", "inside", "above", "under", "im", "dans", "en", "nel", "nella"})
_ARTICLES = frozenset({"the", "a", "an"})
_THICK = frozenset({"thick", "thk"})
_NEVER_SERVED = frozenset({"outdoor", "buried", "slab"})
_WITHIN_WALLS = frozenset({"indoor", "indoors", "interior", "inside"})
THINGS = frozenset({"VALUE", "ANY_OF", "PLACE"})
_LINKS = frozenset({"AND", "SLASH"})


@dataclass(frozen=True, slots=True)
class Terminal:
    """A run of words, from `first` to `end` (not in it), its type in the grammar, and what was found there."""

    type: str
    first: int
    end: int
    meanings: tuple[Meaning, ...] = ()
    amount: Written | None = None
    named: Term | None = None
    layers: Layers | None = None


@dataclass(frozen=True, slots=True)
class Source:
    """A text with its words, those of the vocabulary for its column, and what its bare numbers are in."""

    text: str
    words: tuple[Word, ...]
    lexicon: Lexicon
    bare: BareUnits


def terminals_of(source: Source) -> list[Terminal]:
    """Return the terminals of a text, in its order; every word is in one."""
    meaning = source.lexicon.named(tuple(word.folded for word in source.words if word.folded not in "()[],;:"))
    if meaning is not None:  # "Hot water (heating)": one spelling of the expected term, in whatever order
        return [Terminal("VALUE" if len(meaning.values) == 1 else "ANY_OF", 0, len(source.words), (meaning,))]
    found: list[Terminal] = []
    place = 0
    while place < len(source.words):
        found += _at(source, place, behind_a_thing=any(each.type in THINGS for each in found))
        place = found[-1].end
    return _balanced(list(_in_their_places(found, source)))


def _at(source: Source, place: int, *, behind_a_thing: bool) -> Sequence[Terminal]:
    """Return the terminal that begins at a word, with the amount behind it where it is the name of one."""
    words, lexicon = source.words, source.lexicon
    known = lexicon.find(words, place)
    if known is not None:
        end = place + known.length
        said = source.text[words[place].start : words[end - 1].end]
        return [Terminal(_type(known.meanings, said, lexicon), place, end, known.meanings)]
    layers = layers_at(source.text, words[place].start, lexicon)
    if layers is not None:
        end = words[place].start + layers.length
        count = sum(words[place].start <= word.start < end for word in words)
        return [Terminal("LAYERS", place, place + max(1, count), layers=layers)]
    amount = _amount(source, place, None)
    lies_over = behind_a_thing and words[place].folded == "over"
    if lies_over and amount is not None and _names_a_thing(source, amount.end):
        return [Terminal("FILLER", place, place + 1)]  # "PVC over 1 in fiberglass" is no amount over 1 in
    named = name_before(words, place, lexicon) if amount is None else None
    of_it = _amount(source, named[1], named[0]) if named is not None else None
    if named is not None and of_it is not None:
        return [Terminal("NAME", place, named[1], named=named[0]), of_it]
    return [amount or _other(source, place)]


def _names_a_thing(source: Source, place: int) -> bool:
    """Whether words of the vocabulary begin at a place."""
    return place < len(source.words) and source.lexicon.find(source.words, place) is not None


def _amount(source: Source, place: int, named: Term | None) -> Terminal | None:
    """Return the longest amount at a word that some term near can have, or None."""
    for written in amounts_written(source.text, source.words, place, source.lexicon):
        if can_be_an_amount(written, named, source.lexicon, source.bare):
            return Terminal("AMOUNT", place, place + written.length, amount=written, named=named)
    return None


def _other(source: Source, place: int) -> Terminal:
    """Return what words are that name nothing: a standard, a joining word, or a word that nobody knows."""
    word = source.words[place]
    standard = _STANDARD.match(source.text, word.start) if word.folded[0] in _BEGIN_STANDARDS else None
    if standard is not None:
        count = sum(word.start <= each.start < standard.end() for each in source.words)
        return Terminal("STANDARD", place, place + count)
    to_an_amount = place == 0 and _TO_AN_AMOUNT.match(source.text) is not None
    joins = (word.folded in SAYS_NOTHING or word.folded in source.lexicon.own_words) and not to_an_amount
    kind = "FILLER" if joins else "WORD"
    return Terminal(_MARKS.get(word.folded, kind), place, place + 1)


def _type(meanings: tuple[Meaning, ...], words: str, lexicon: Lexicon) -> str:
    """Return the type of words that name values: of one, of any of several, or of a place that may be served."""
    meaning = meaning_of(meanings, lexicon)
    if len(meaning.values) > 1:
        return "ANY_OF"
    beside = meaning.term.name == PLACE and lexicon.term.name != PLACE
    sure = is_never_served(meaning.values[0], words) or words.casefold().startswith("in ")
    return "PLACE" if beside and not sure else "VALUE"


def is_never_served(place: object, words: str) -> bool:
    """Whether a place, as words name it, is none that a system serves: outdoors, in the ground, or within walls."""
    return place in _NEVER_SERVED or words.casefold() in _WITHIN_WALLS


def meaning_of(meanings: tuple[Meaning, ...], lexicon: Lexicon) -> Meaning:
    """Return what words mean in a column: a value of its own term before all else."""
    return next((each for each in meanings if each.term is lexicon.term), meanings[0])


def _in_their_places(found: Sequence[Terminal], source: Source) -> Iterator[Terminal]:
    """Yield terminals with the types that they have by what stands beside them."""
    for index, terminal in enumerate(found):
        before = found[index - 1].type if index else ""
        kind = terminal.type
        if kind == "AMOUNT" and terminal.named is None and _is_before_a_thing(found, index + 1, source):
            kind = "AMOUNT_OF"
        elif before == "AMOUNT" and found[index - 1].named is None and _is_thick(found, index, source):
            kind = "THICK"
        elif _joins_nothing(kind, before, found, index, source):
            kind = "FILLER"
        elif source.words[terminal.first].folded in _INSIDE and _is_before_a_place(found, index + 1, source):
            kind = "IN"
        yield replace(terminal, type=kind) if kind != terminal.type else terminal


def _joins_nothing(kind: str, before: str, found: Sequence[Terminal], index: int, source: Source) -> bool:
    """Whether a joining word joins nothing: "at" before no amount, or "and" between a value and an amount of it."""
    if kind == "AT":
        return index + 1 == len(found) or found[index + 1].type != "AMOUNT"
    return kind in _LINKS and before in THINGS | {"FILLER"} and _is_amount_alone(found, index + 1, source)


def _is_amount_alone(found: Sequence[Terminal], index: int, source: Source) -> bool:
    """Whether an amount stands at a place, with no value right behind it."""
    amount = index < len(found) and found[index].type == "AMOUNT"
    return amount and not _is_before_a_thing(found, index + 1, source)


def _is_before_a_thing(found: Sequence[Terminal], index: int, source: Source) -> bool:
    """Whether words that name something stand at an index, with "thick" before them perhaps."""
    return index < len(found) and (found[index].type in THINGS or _is_thick(found, index, source))


def _is_thick(found: Sequence[Terminal], index: int, source: Source) -> bool:
    """Whether "thick" stands at an index, right before words that name something."""
    named = index + 1 < len(found) and found[index + 1].type in THINGS
    return named and source.words[found[index].first].folded in _THICK


def _is_before_a_place(found: Sequence[Terminal], index: int, source: Source) -> bool:
    """Whether a place is named at an index, with an article before it perhaps."""
    article = index < len(found) and source.words[found[index].first].folded in _ARTICLES
    index += article
    return index < len(found) and found[index].type == "PLACE"


def _balanced(found: list[Terminal]) -> list[Terminal]:
    """Return terminals whose brackets open and close.

    A bracket that closes nothing is a filler, and so is one further inside of others than anybody writes.
    """
    open_brackets = too_deep = 0
    for index, terminal in enumerate(found):
        if terminal.type == "OPEN" and open_brackets < _DEEPEST:
            open_brackets += 1
        elif terminal.type == "CLOSE" and not too_deep and open_brackets:
            open_brackets -= 1
        elif terminal.type in ("OPEN", "CLOSE"):
            too_deep += 1 if terminal.type == "OPEN" else -1 if too_deep else 0
            found[index] = replace(terminal, type="FILLER")
    end = found[-1].end if found else 0
    return [*found, *[Terminal("CLOSE", end, end)] * open_brackets]
