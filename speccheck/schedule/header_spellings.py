"""How headers are shortened and qualified: "Oper. temp.", "Proposed thk", "Thickness (existing)"."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache

from speccheck.language.vocabulary.terms import Vocabulary, fold
from speccheck.phrases.kept import kept_by_vocabulary
from speccheck.phrases.words import key_of

_IN_FULL: Mapping[str, str] = {
    "amb": "ambient",
    "cond'y": "conductivity",
    "cov": "cover",
    "dia": "diameter",
    "hum": "humidity",
    "insln": "insulation",
    "insul": "insulation",
    "ins": "insulation",
    "jkt": "jacket",
    "loc": "location",
    "matl": "material",
    "mat'l": "material",
    "max": "maximum",
    "min": "minimum",
    "mtl": "material",
    "nom": "nominal",
    "op": "operating",
    "oper": "operating",
    "rel": "relative",
    "svc": "service",
    "sys": "system",
    "syst": "system",
    "sz": "size",
    "temps": "temperature",
    "temp": "temperature",
    "thick": "thickness",
    "thk": "thickness",
    "thkns": "thickness",
    "vap": "vapor",
    "vapour": "vapor",
}
_PROPOSED = frozenset({"proposed", "submitted", "provided", "furnished", "offered"})
# What was there before or is asked for, and what was taken back, over a column, a table or a whole sheet.
_NOT_THE_PROPOSED = "existing|former|previous|old|specified"
_GIVEN_UP = "superseded|void|deleted"
_NOT_PROPOSED = re.compile(
    rf"\b(?:{_NOT_THE_PROPOSED}|{_GIVEN_UP}|spec(?:s|d|ification)?|required|reqd|requirements?|exist|prev(?:iously)?)\b"
)
# In a column these part one thing into several; above a table they are part of its subject.
_ONE_OF_SEVERAL = re.compile(r"\b(?:alt(?:ernate|ernative)?|base bid|code|summer|winter|supply|return)\b")
# Whatever stands beside these, what is under them was taken back or was never meant to be built.
_TAKEN_BACK = re.compile(
    rf"\b(?:{_GIVEN_UP}|voided|rejected|withdrawn|cancell?ed|obsolete"
    r"|(?:do not|not to be|not) (?:use|used|build|proposed|selected|submitted)|not for (?:this|the) project"
    r"|(?:for|as) (?:reference|information|example)|example only|not in (?:contract|scope))\b"
)
# What a title is called, beside which only the kind of table is told: "EXISTING INSULATION", "Demolition schedule".
_OTHER_WORK = re.compile(rf"{_NOT_THE_PROPOSED}|demo|demolition|demolished|removed|as-?built|template|example|sample")
_PLAIN_TITLE = re.compile(
    r"insulation|schedules?|tables?|sheet|pip(?:e|es|ing)|ducts?|ductwork|equipment|systems?|values?|thickness(?:es)?"
    r"|data|the|of|for|to|be|remain|only|work|form|rev(?:ision)?"
)
SHORTEST_IN_FULL = 4  # shorter names, such as "k", are not shortened any further
_PARTS_WORDS = re.compile(r"[\s,:;/()\[\]{}=@–—*†‡¹²³⁴-⁹-]+")
_ALWAYS_SAID = frozenset({"insulation"})  # of a part of a header it may be understood: "Insulation / Thickness"


def in_full(header: str) -> str:
    """Return a header with its shortened words in full and without words that say that it is proposed."""
    words = fold(header).replace("’", "'").split()
    return " ".join(_IN_FULL.get(word, word) for word in words if word not in _PROPOSED)


@kept_by_vocabulary
def spellings_in_full(vocabulary: Vocabulary) -> dict[str, str]:
    """Return the name of the term by each of its spellings in full; what would name two terms names none."""
    found: dict[str, set[str]] = {}
    for spelling, name in vocabulary.spellings.items():
        found.setdefault(in_full(spelling), set()).add(name)
    return {full: names.pop() for full, names in found.items() if len(names) == 1 and len(full) >= SHORTEST_IN_FULL}


def is_not_proposed(words: str) -> bool:
    """Whether words beside the name of a term say that the column states something else than what is proposed."""
    return heads_something_else(words) or _ONE_OF_SEVERAL.search(_plain(words)) is not None


def heads_something_else(words: str) -> bool:
    """Whether the words above a table say that it is what is specified, existing or taken back."""
    return _NOT_PROPOSED.search(_plain(words)) is not None


def heads_what_is_proposed(words: str) -> bool:
    """Whether the words over a column say that it is what is proposed."""
    return not _PROPOSED.isdisjoint(_plain(words).split())


def heads_no_proposal(words: str) -> bool:
    """Whether a title, even of the only table, leaves in doubt that what is under it is proposed at all.

    A title that names a building ("Existing hospital, insulation schedule") does not.
    """
    plain = _plain(words)
    if _TAKEN_BACK.search(plain):
        return True
    left = [word for word in re.findall(r"[a-z][a-z-]*", plain) if not _PLAIN_TITLE.fullmatch(word)]
    return bool(left) and all(map(_OTHER_WORK.fullmatch, left))


def _plain(words: str) -> str:
    """Return words without marks that shorten them."""
    return re.sub(r"['’.]", "", words.casefold())


class NamesByWord:
    """Names by one of their words, the rarest, so that most texts are soon told to hold none of them."""

    def __init__(self, names: Iterable[str]) -> None:
        spelled = {words for name in names for words in _spelled(name) if words}
        times = Counter(word for words in spelled for word in words)
        self._names: dict[str, list[frozenset[str]]] = {}
        for words in sorted(spelled, key=sorted):
            rarest = min(words - _ALWAYS_SAID or words, key=lambda word: (times[word], word))
            self._names.setdefault(rarest, []).append(words - _ALWAYS_SAID)

    def may_be_in(self, *texts: str) -> bool:
        """Whether all words of some name stand in texts, however they are written and whatever parts them."""
        words = frozenset().union(*map(_words_in, texts))
        return any(name <= words for word in words for name in self._names.get(word, ()))


@lru_cache(maxsize=8192)
def _words_in(text: str) -> frozenset[str]:
    """Return the words of a text in each of the ways in which names are compared, whatever parts them."""
    return frozenset().union(*_spelled(text), *_spelled(_PARTS_WORDS.sub(" ", text)))


def _spelled(text: str) -> Iterator[frozenset[str]]:
    """Yield the words of a text in each of the ways in which names are compared."""
    yield frozenset(fold(text).split())
    yield frozenset(in_full(text).split())
    yield frozenset(key_of(text))
