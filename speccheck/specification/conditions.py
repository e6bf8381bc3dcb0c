"""The lines that a piece of a sentence speaks of: "exposed heating hot water piping 2 inches and larger"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from speccheck.language.vocabulary.terms import Form, Vocabulary
from speccheck.phrases.names import JOINING, Named, index_of, named_in, tokens_of
from speccheck.phrases.worded_amounts import WordedAmount, amounts_in
from speccheck.specification.pieces import Piece, parted_by_or, placed, rest_of, turned

# Terms that a condition names by a value alone, the likelier first; what is proposed comes after the building's.
_BY_VALUE = ("service", "component", "location", "insulation", "pipe material", "jacket", "duct kind", "facing")
_OF_FAMILIES = ("insulation", "jacket", "pipe material")
_BELOW_AMBIENT = re.compile(
    r"(?:operating\s+)?(?:at\s+)?(?:temperatures?\s+)?below\s+(?:the\s+)?ambient(?:\s+temperature)?", re.I
)
_EXPOSED = re.compile(r"\b(?:exposed(?:\s+to\s+view)?(?!\s+to)|not\s+concealed)\b", re.IGNORECASE)
# "Piping" tells a line from ducts and tanks, where a section speaks of those as well.
PIPING = re.compile(r"\b(?:piping|pipes?)\b(?!\s+(?:size|material|insulation))", re.IGNORECASE)
_CONDITION_WORDS = JOINING | {
    *("located", "installed", "run", "running", "used", "having", "carrying", "fluid", "space", "spaces", "room"),
    *("rooms", "area", "areas", "either", "both", "when", "if", "degrees"),
}

# Words that say nothing more where a service or a temperature is named beside them: "cold tanks, below 60 degrees F".
TEMPERED = frozenset({"hot", "cold", "heating", "cooling", "chilled"})
# "Hot and cold domestic water" is two services, of which the words behind name one.
_ONE_OF_TWO = re.compile(rf"\b(?:{'|'.join(sorted(TEMPERED))})\s*(?:,|/|&|\band\b|\bor\b)", re.IGNORECASE)


# Words by which schedules name a value, and sections only some of what it covers: pumps are not all equipment.
_NARROWER = re.compile(
    r"\b(?:pumps?|chillers?|heat exchangers?|air separators?|AHUs?|air handlers?|silos?|vessels?|receivers?|roofs?"
    r"|rooftops?|yards?|pipe racks?|(?:boiler|chiller|compressor|engine|machinery|equipment|plant) rooms?|trench(?:es)?"
    r"|vaults?|(?:finished|occupied|heated) spaces?|ammonia|(?:low|medium|high) pressure|[LMH]P|propylene|ethylene)\b",
    re.IGNORECASE,
)
_SIZED = re.compile(r"\b(?:pip(?:e|es|ing)|lines?|tub(?:e|es|ing)|valves?|fittings?|flanges?|size)\b", re.IGNORECASE)
_SIZE_OF = re.compile(r"\b(?:sizes?(?:\s+of)?|pipes?\s+of)\s+$", re.IGNORECASE)
_TO = re.compile(r"\s*(?:to|through|thru|-|–)\s*", re.IGNORECASE)
_DUCT = re.compile(r"\bduct(?:s|work)?$", re.IGNORECASE)
_OF_DUCTS = ("component", "duct kind", "service")
_FLOW = re.compile(r"\b(?:supply|return)\b", re.IGNORECASE)
# Words for several values at once, of which the vocabulary gives schedules one.
_WIDER = re.compile(r"\b(?:indoors?|interior|inside(?: building)?)\b", re.IGNORECASE)


def conditions_in(text: str, vocabulary: Vocabulary, *, piping: bool = False) -> Piece:
    """Return the conditions of a piece as clause text, each on its own, and what was not understood.

    `piping` says that the section speaks of ducts or tanks too, so that "piping" is a condition: `piping`, a name that
    the draft defines.
    """
    piece = Piece()
    spans: list[tuple[int, int]] = []
    placed_terms: list[tuple[int, int, str]] = []
    for pattern, condition in (
        (_BELOW_AMBIENT, "operating temperature is less than ambient temperature"),
        (_EXPOSED, "not concealed"),
    ):
        for found in pattern.finditer(text):
            piece.texts.append(condition)
            spans.append(found.span())
    if piping and PIPING.search(text):
        piece.texts.insert(0, "piping")
    covered = list(spans)
    amounts = amounts_in(text)
    for low, high in pairwise(amounts):
        if not (low.relation or high.relation) and _TO.fullmatch(text, low.end, high.start) and high.mark:
            piece.texts.append(f"pipe size is between {low.text} and {high.text}")
            covered.append((low.start, high.end))
            spans.append((low.start, high.end))
            placed_terms.append((low.start, high.end, "pipe size"))
    for amount in amounts:
        if any(start <= amount.start < end for start, end in covered):
            continue
        condition = _of_amount(amount, text, piece)
        if condition:
            piece.texts.append(condition)
        spans.append((amount.start, amount.end))
        placed_terms.append((amount.start, amount.end, condition.split(" is ")[0]))
    _values(text, vocabulary, spans, piece, placed_terms)
    tempered = any(one.startswith(("service is", "operating temperature is")) for one in piece.texts)
    tempered = tempered and _ONE_OF_TWO.search(text) is None
    piece.left_over += rest_of(text, spans, _CONDITION_WORDS | (TEMPERED if tempered else frozenset()))
    piece.doubts += turned(text, spans) + parted_by_or(text, placed_terms, spans)
    return piece


def _of_amount(amount: WordedAmount, text: str, piece: Piece) -> str:
    """Return the condition that an amount makes: of a temperature, or of a pipe size."""
    relation = amount.relation
    before = text[: amount.start].casefold()
    if amount.unit in ("F", "C"):
        term = (
            "ambient temperature"
            if re.search(r"ambient\W+(?:temperatures?\W+)?(?:\w+\W+)?$", before)
            else "operating temperature"
        )
    elif amount.along == "thickness":
        term = "thickness"
    elif (amount.unit in ("in", "") and not amount.along) or amount.text.startswith(("NPS", "DN")):
        term = "pipe size"
    else:
        piece.doubts.append(f"`{amount.text}` is an amount of something that was not understood")
        return ""
    if not relation and term == "operating temperature":
        piece.doubts.append(f"`{amount.text}` is said without above or below")
    if not relation and term == "pipe size" and not _is_size(amount, text):
        piece.doubts.append(f"`{amount.text}` may be a size or a thickness")
    return f"{term} is {relation} {amount.text}".replace("  ", " ")


def _is_size(amount: WordedAmount, text: str) -> bool:
    """Whether an amount without a relation is the size of what is named: "2 inch piping", "size 2 in", "DN 50"."""
    named = _SIZED.search(text, amount.end) is not None or _SIZE_OF.search(text[: amount.start]) is not None
    return bool(amount.mark) or named


def _values(
    text: str,
    vocabulary: Vocabulary,
    spans: list[tuple[int, int]],
    piece: Piece,
    placed_terms: list[tuple[int, int, str]],
) -> None:
    """Add a condition for each term of which values are named."""
    tokens = tokens_of(text)
    places = placed(text, tokens)
    found: dict[str, list[str]] = {}
    for named in named_in(tokens, index_of(vocabulary)):
        start, end = places[named.start][0], places[named.end - 1][1]
        if any(begin < end and start < stop for begin, stop in spans):
            continue
        chosen = _chosen(named, vocabulary)
        if chosen is None:
            continue
        if chosen[1] == "":
            piece.texts.append(chosen[0])
        else:
            found.setdefault(chosen[0], []).append(chosen[1])
        if chosen[0] not in _OF_DUCTS and _DUCT.search(named.words):
            found.setdefault("component", []).append("duct")  # "outdoor ductwork" is a place, and ducts
        if _is_not_just(named.words, chosen[1]):
            piece.doubts.append(f"`{named.words}` is not all of {chosen[0]} {chosen[1]}, or more than that")
        spans.append((start, end))
        placed_terms.append((start, end, chosen[0]))
    for start, end, term in list(placed_terms):
        behind = _own_name_behind(text, end, term, vocabulary) if term in found else None
        if behind is not None:
            spans.append((start, behind))
    for term, family, start, end in _families(text, vocabulary, spans):
        found.setdefault(term, []).append(family)
        spans.append((start, end))
        placed_terms.append((start, end, term))
    for term, values in found.items():
        values = list(dict.fromkeys(values))
        listed = values[0] if len(values) == 1 else f"one of {', '.join(values)}"
        piece.texts.append(f"{term} is {listed}")


def _own_name_behind(text: str, end: int, term: str, vocabulary: Vocabulary) -> int | None:
    """Return where the name of a term ends that stands right behind a value of it: "canvas jackets"."""
    behind = re.match(r"\s+[A-Za-z]+", text[end:])
    named = list(named_in(tokens_of(behind[0]), index_of(vocabulary))) if behind is not None else []
    return end + behind.end() if behind is not None and named and term in named[0].terms else None


def _families(
    text: str, vocabulary: Vocabulary, spans: Sequence[tuple[int, int]]
) -> Iterator[tuple[str, str, int, int]]:
    """Yield the families of materials that a piece names ("mineral-fiber"): the term, the name, and its place."""
    for term in filter(None, map(vocabulary.terms.get, _OF_FAMILIES)):
        for family in (name for one in term.families for name in one.names):
            words = r"[\s-]+".join(map(re.escape, family.split()))
            for found in re.finditer(rf"(?<![\w-]){words}(?![\w-])", text, re.IGNORECASE):
                if not any(begin < found.end() and found.start() < stop for begin, stop in spans):
                    yield term.name, family, *found.span()


def _chosen(named: Named, vocabulary: Vocabulary) -> tuple[str, str] | None:
    """Return the term and the value that words name in a condition; a yes-or-no term has no value; None for neither."""
    by_term = dict(named.values)
    if len(by_term) == len(named.values):
        for term in _BY_VALUE:
            if term in by_term:
                return term, by_term[term]
    if len(named.terms) == 1 and vocabulary.terms[named.terms[0]].kind.form is Form.YES_NO:
        return named.terms[0], ""
    return None


def _is_not_just(words: str, value: str) -> bool:
    """Whether words mean less, or more, than the value for which schedules use them."""
    narrower = _NARROWER.search(words) or (_FLOW.search(words) and not value.endswith(" air"))
    return bool(narrower or _WIDER.search(words)) and words.casefold().rstrip("s") != value
