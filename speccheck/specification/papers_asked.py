"""Paragraphs that ask for documents: "Submit a data sheet of each insulation and jacket, not older than two years."

All words have to be understood: what is asked for, of which materials, for which lines, how old it may be. What was
not is handed back with the rest, so that somebody looks at it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from speccheck.english import NUMBER_WORDS
from speccheck.language.core import DocumentKind
from speccheck.language.vocabulary.terms import Form, Vocabulary
from speccheck.specification.conditions import conditions_in


@dataclass(frozen=True, slots=True)
class PaperAsked:
    """What a paragraph asks to be submitted: the lines of a `document`, and the words that were not understood."""

    kinds: tuple[str, ...]
    lines: tuple[str, ...]
    left_over: tuple[str, ...]


_NAMES = (
    (DocumentKind.INSTRUCTIONS, r"(?:manufacturer'?s?'?\s+)?(?:installation|application)\s+instructions?"),
    (DocumentKind.QUALIFICATION, r"(?:installer|applicator|contractor)(?:'?s)?'?\s+qualifications?(?:\s+statements?)?"),
    (DocumentKind.SHOP_DRAWING, r"shop\s+drawings?"),
    (DocumentKind.WARRANTY, r"warrant(?:y|ies)"),
    (DocumentKind.TEST_REPORT, r"(?:laboratory\s+)?test\s+reports?|laboratory\s+reports?"),
    (DocumentKind.CERTIFICATE, r"certificates?(?:\s+of\s+(?:compliance|conformance|conformity))?|certifications?"),
    (DocumentKind.SAMPLE, r"samples?"),
    (
        DocumentKind.DATA_SHEET,
        r"(?:manufacturer'?s?'?\s+)?(?:product|technical|catalog(?:ue)?)\s+(?:data|cuts)(?:\s+sheets?)?|data\s+sheets?",
    ),
)
_KINDS = tuple((kind, re.compile(rf"\b(?:{names})(?![\w'])", re.IGNORECASE)) for kind, names in _NAMES)
_ANY = "|".join(names for _, names in _NAMES)
_HEADED = re.compile(rf"((?:{_ANY})(?:\s+and\s+(?:{_ANY}))?)\s*:\s*(?:submit\s+)?(.+)", re.IGNORECASE | re.DOTALL)
_SUBMIT = re.compile(
    r"(?:the\s+contractor\s+shall\s+)?(?:submit|furnish|provide|deliver|hand\s+over|include)\b\s+(.+)",
    re.IGNORECASE | re.DOTALL,
)
_SUBMITTED = re.compile(
    r"(.+?)\s+(?:shall|must)\s+be\s+(?:submitted|furnished|provided|handed\s+over)\b\s*(.*)", re.IGNORECASE | re.DOTALL
)
# "Test reports shall not be older than 36 months", "Samples of each jacket".
_NAMED_ALONE = re.compile(
    rf"((?:[\w-]+\s+){{0,2}}?(?:{_ANY}).*?(?:shall|must)\s+(?:not\s+be|be\s+not|be\s+no)\s+(?:more|older)\s+than.+"
    rf"|(?:{_ANY})\s+(?:of|for)\s+(?:each|every|all)\s.+)",
    re.IGNORECASE | re.DOTALL,
)
# A document that something goes by is not asked for.
_BY_DOCUMENT = re.compile(r"\b(?:accord\w*|per|as\s+(?:recommended|shown|stated|indicated)|following)\b", re.IGNORECASE)
_AGE = re.compile(
    r",?\s*(?:and\s+)?(?:(?:which|that)\s+(?:is|are)\s+)?(?:dated\s+)?"
    r"(?:(?:shall|must)\s+(?:not\s+be|be\s+not|be\s+no)\s+(?:more|older)\s+than"
    r"|not\s+(?:more|older)\s+than|no\s+(?:more|older)\s+than|not\s+over|at\s+most|(?:dated|issued|made)\s+within"
    r"(?:\s+the\s+(?:last|past))?|from\s+the\s+(?:last|past))"
    rf"\s+(?P<number>\d+|{'|'.join(NUMBER_WORDS)})\s+(?P<unit>day|week|month|year)s?(?:\s+old)?",
    re.IGNORECASE,
)
_FILLER = frozenset(
    ("a", "an", "the", "and", "or", "with", "to", "be", "manufacturer", "manufacturer's", "manufacturers'")
)
# Before a material, and behind it: "each type of insulation", "insulation materials".
_BEFORE = re.compile(
    r"(?:[\s,]|\b(?:and|of|for|each|every|all|any|the|a|an|proposed|(?:type|kind)s?(?=\s+of\b))\b)*", re.IGNORECASE
)
_BEHIND = re.compile(r"\s+(?:materials?|products?|types?|kinds?)(?![\w-])|\s+(?:used|proposed)\b", re.IGNORECASE)
_CONDITION = re.compile(r"\s*,?\s*(?:of|for|in|on|at|where|when|used)\s+(?P<lines>.+)", re.IGNORECASE | re.DOTALL)
_MOST_WORDS = 3


def paper_asked(text: str, vocabulary: Vocabulary, *, submittals: bool = False) -> PaperAsked | None:
    """Return what a sentence asks to be submitted, None where it does not ask for a document of a kind that is known.

    `submittals` says that it stands under words that ask for it all, so that its own need not.
    """
    plain = text.strip(" .")
    told = _asked(plain)
    asked = plain if told is None and submittals else told
    if asked is None or _BY_DOCUMENT.search(plain):
        return None
    words, age = _without_age(asked)
    spans = sorted((one.start(), one.end(), kind.value) for kind, named in _KINDS for one in named.finditer(words))
    spans = [one for one in spans if not any(other[0] < one[0] < other[1] for other in spans)]
    if not spans:
        return None
    ends = [0, *(end for _, end, _ in spans)]
    between = [words[end:start] for end, (start, _, _) in zip(ends, spans, strict=False)]
    left = [said for one in between if (said := _unsaid(one))]
    if left and told is None:
        return None  # "Keep a copy of product data on site"
    each, behind = _materials(words[ends[-1] :], vocabulary)
    where, rest = _for_lines(behind, vocabulary)
    lines = [f"of each {', '.join(each)}"] if each else [""]
    lines += [f"  where {condition}" for condition in where]
    lines += [f"  dated within {age}"] if age else []
    kinds = dict.fromkeys(kind for _, _, kind in spans)
    return PaperAsked(tuple(kinds), tuple(lines), (*left, *rest))


def _asked(text: str) -> str | None:
    """Return the words of what is to be submitted, None where a sentence does not ask for anything to be."""
    for pattern in (_HEADED, _SUBMIT, _SUBMITTED, _NAMED_ALONE):
        found = pattern.fullmatch(text)
        if found is not None:
            return " ".join(filter(None, found.groups()))
    return None


def _unsaid(words: str) -> str:
    """Return the words of a piece that say something, "" for none."""
    return " ".join(word for word in re.split(r"[\s,;]+", words) if word and word.casefold() not in _FILLER)


def age_said(text: str) -> str:
    """Return how old words let something be ("24 months"), "" where they do not say."""
    return _without_age(text)[1]


def _without_age(words: str) -> tuple[str, str]:
    """Return words without how old a document may be, and that age as the language writes it."""
    found = _AGE.search(words)
    if found is None:
        return words, ""
    number = NUMBER_WORDS.get(found["number"].casefold(), found["number"])
    unit = found["unit"].casefold()
    return f"{words[: found.start()]} {words[found.end() :]}", f"{number} {unit}{'' if str(number) == '1' else 's'}"


def _materials(words: str, vocabulary: Vocabulary) -> tuple[list[str], str]:
    """Return the terms of which a document of each value is asked for, and the words behind them."""
    each: list[str] = []
    at = 0
    while True:
        start = _BEFORE.match(words, at).end()  # type: ignore[union-attr]
        named = list(re.finditer(r"[^\s,;]+", words[start:]))[:_MOST_WORDS]
        for last in reversed(named):
            name = words[start : start + last.end()]
            term = vocabulary.find(name) or vocabulary.find(name.removesuffix("s"))
            if term is not None and term.kind.form in (Form.CHOICE, Form.TEXT):
                each.append(term.name)
                at = start + last.end()
                behind = _BEHIND.match(words, at)
                at = behind.end() if behind is not None else at
                break
        else:
            return list(dict.fromkeys(each)), words[at:]


def _for_lines(words: str, vocabulary: Vocabulary) -> tuple[list[str], list[str]]:
    """Return the conditions on the lines of which a document is asked for, and what was not understood."""
    left = _unsaid(words)
    if not left:
        return [], []
    found = _CONDITION.fullmatch(words)
    piece = conditions_in(found["lines"], vocabulary) if found is not None else None
    if piece is not None and piece.texts and not piece.left_over and not piece.doubts:
        return piece.texts, []
    return [], [left]
