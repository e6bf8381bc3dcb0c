"""Amounts among words: where a number begins, and how far it goes with its unit and its limits."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from speccheck.language.vocabulary.terms import Term
from speccheck.phrases.lexicon import Lexicon
from speccheck.phrases.pairs import FLOWS, is_a_pair
from speccheck.phrases.words import SAYS_NOTHING, Word
from speccheck.quantities import Misread, read
from speccheck.quantities.units import RUN_TOGETHER, SPELLINGS

_MOST_WORDS = 14  # `.23 BTU·in/hr·ft²·°F` are eleven
_FEWEST_LETTERS_OF_A_NAME = 5  # shorter words may be units
_BEGINS = frozenset(
    {"<", ">", "≤", "≥", "up", "max", "maximum", "min", "minimum", "over", "under", "above", "below", "r", "nps", "dn"}
)
# The words of units, and those of `grammar/quantity.lark` that make a range or a limit: no other can be in an amount.
_OF_RANGES = """
    over above exceeding more greater larger than at least not no less smaller under below minimum min maximum max up to
    but and or including most bigger lower down thru through incl inclusive from between nps ips dn nominal nom ga gauge
    gage rh relative humidity per sq cu square cubic density dens mean
"""
_RANGE_WORDS = frozenset(_OF_RANGES.split())
_IN_AMOUNTS = _RANGE_WORDS | {word for unit in (*SPELLINGS, *RUN_TOGETHER) for word in re.findall(r"[^\W\d_]+", unit)}
_IN_INCHES = re.compile(r"(?:/\d+)?\s*in(?![^\W_])(?!\s+[^\W_])", re.IGNORECASE)  # "in" is no joining word at the end
_PARTING = frozenset({"/", ",", "and"})
_GAUGE_PRESSURE = re.compile(r"\bpsig\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Written:
    """An amount as it is written: its text, how many words it has, and what its first and next words say of it.

    `goes_on` says that a number without a unit has a word behind it that nobody knows, which may be its unit: "3.5
    pcf", "2 layers".
    """

    text: str
    length: int
    whole_number: bool
    has_unit: bool
    goes_on: bool

    @property
    def in_degrees(self) -> bool:
        """Whether a degree sign says that it is a temperature, of which the letter may be missing."""
        return "°" in self.text or "º" in self.text


def amounts_written(text: str, words: Sequence[Word], place: int, lexicon: Lexicon) -> Iterator[Written]:
    """Yield the amounts that begin at a word, the longest first, and none that is one without its unit.

    Two numbers with a slash between them are an amount where the term of the column is a temperature or not measured:
    the 75 of "0.25/75F" is what a conductivity is stated at.
    """
    if not _may_begin(words[place].folded) or _goes_on_from_letters(text, words[place].start):
        return
    start = _with_minus(text, words[place].start)
    whole_number = words[place].folded.isdecimal()
    pairs = lexicon.term.kind.dimension == "temperature" or not lexicon.term.kind.ordered
    for length in range(_most_words(text, words, place, lexicon), 0, -1):
        end = words[place + length - 1].end
        part = _GAUGE_PRESSURE.sub("psi", text[start:end])
        if part[-1].isdecimal() and text[end : end + 1].isalpha():
            continue  # the 20 of "20A" is no number by itself
        if part.count(")") > part.count("("):
            continue  # the bracket behind `2" (DN 50)` closes what stands before the amount
        if isinstance(read(part), Misread) and not (pairs and is_a_pair(part)):
            continue
        has_unit = any(character.isalpha() or character in "\"'°%″′" for character in part)
        if not has_unit and _IN_INCHES.match(text, end):
            continue
        yield Written(part, length, whole_number, has_unit, _goes_on(words, place + length, lexicon))


def _may_begin(word: str) -> bool:
    return word[0].isdigit() or word[0] in ".<>≤≥" or word in _BEGINS


def _with_minus(text: str, start: int) -> int:
    """Return where an amount begins with the minus before its figures, if there is one: no hyphen behind a word."""
    minus = start > 0 and text[start - 1] in "-−" and (start == 1 or text[start - 2].isspace())
    return start - 1 if minus else start


def _most_words(text: str, words: Sequence[Word], place: int, lexicon: Lexicon) -> int:
    """Return how many words an amount may have at most.

    It ends before a word with which a value begins, or that is no word of any amount.
    """
    most = min(_MOST_WORDS, len(words) - place)
    for length in range(1, most):
        at = place + length
        flow = FLOWS.fullmatch(words[at].folded) is not None
        if _begins_a_value(words, at, lexicon) and not (flow and _parts_a_pair(words, place, at)):
            return length
        if not flow and _is_in_no_amount(text[words[at].start : words[at].end]):
            return length
    return most


def _begins_a_value(words: Sequence[Word], at: int, lexicon: Lexicon) -> bool:
    """Whether a long word begins a value, as the "below" of "below grade" does, and not that of "15 psi and below"."""
    word = words[at].folded
    if len(word) < _FEWEST_LETTERS_OF_A_NAME or not word.isalpha() or not lexicon.begins(word):
        return False
    return word not in _RANGE_WORDS or lexicon.find(words, at) is not None


def _is_in_no_amount(word: str) -> bool:
    """Whether a word has letters and is none of a unit, a range or a limit."""
    return word[0].isalpha() and word.rstrip("²³").casefold() not in _IN_AMOUNTS


def _parts_a_pair(words: Sequence[Word], start: int, place: int) -> bool:
    """Whether a word stands before what parts two temperatures, or behind it: "42 F supply / 54 F return"."""
    return any(word.folded in _PARTING for word in words[start : place + 2])


def _goes_on_from_letters(text: str, start: int) -> bool:
    """Whether a figure is the end of a name: the 4.2 of "R-4.2", the 1 of "AHU-1"."""
    return start > 1 and text[start - 1] in "-–" and text[start - 2].isalpha()


def _goes_on(words: Sequence[Word], end: int, lexicon: Lexicon) -> bool:
    """Whether a word that nobody knows stands behind an amount."""
    if end >= len(words):
        return False
    word = words[end].folded
    known = word in SAYS_NOTHING or word in lexicon.own_words or lexicon.find(words, end) is not None
    return not known and not word[0].isdecimal()


def name_before(words: Sequence[Word], place: int, lexicon: Lexicon) -> tuple[Term, int] | None:
    """Return the term whose name begins at a word and ends right before an amount, and where that begins, or None.

    An equals sign or a colon may stand between them: "k = 0.23".
    """
    for key, term in lexicon.names_of_amounts.get(words[place].folded, ()):
        end = place + len(key)
        if tuple(word.folded for word in words[place:end]) == key:
            begin = end + 1 if end < len(words) and words[end].folded in "=:" else end
            if begin < len(words) and _may_begin(words[begin].folded):
                return term, begin
    return None
