"""Terms in wording: another temperature than the one that the rule limits, and "below ambient" beside "more than"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from speccheck.language.core import Comparison
from speccheck.language.core.walking import conjuncts
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.proofread.findings import Finding
from speccheck.proofread.finite_amounts import term_of
from speccheck.proofread.messages.wording import LIMITS_OTHER_WAY, NUMBER_OF_ANOTHER_TERM, SIZE_NOT_ASKED
from speccheck.proofread.wording.limits import worded_relation
from speccheck.proofread.wording.numbers import numbers_of_wording
from speccheck.proofread.wording.paragraph import SharedParagraph, sentence_at

# How far before a number the name of what it is said of may stand.
NEAR = 45
_TURNS = re.compile(r"\b(?:except|unless|not|other than|do not|no)\b", re.IGNORECASE)
# "pipe of 2 in": what is said of sizes.
_OF_SIZE = re.compile(r"\bpip(?:e|es|ing|ework)\s+(?:of|over|up to|under|from|in sizes? of)\s+$", re.IGNORECASE)


def other_terms(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield the numbers that the wording says of one term and the rule of another of the same kind."""
    for stated in numbers_of_wording(paragraph.text):
        limits = [one for one in paragraph.limits if one.term is not None and stated.says(one.value)]
        term = _before(paragraph, stated.start)
        if not limits or term is None or term.name in paragraph.terms:
            continue
        ruled = limits[0].term
        assert ruled is not None
        if ruled.kind == term.kind and all(one.term == ruled for one in limits):
            yield paragraph.finding(NUMBER_OF_ANOTHER_TERM, number=stated.text, term=term.name, ruled=ruled.name)


def _before(paragraph: SharedParagraph, at: int) -> Term | None:
    """Return the term of an amount whose whole name stands last before a place of the wording."""
    words = paragraph.text[max(0, at - NEAR) : at].casefold()
    found = [(words.rfind(name), len(name), term) for name, term in _amounts(paragraph).items() if name in words]
    return max(found, key=lambda one: one[:2])[2] if found else None


def _amounts(paragraph: SharedParagraph) -> Mapping[str, Term]:
    """Return the terms of amounts by their names, where a name has two words or more."""
    terms = paragraph.ruleset.vocabulary.terms
    return {name: term for name, term in terms.items() if term.kind.form is Form.QUANTITY and " " in name}


def other_side_of_a_term(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield the comparisons of two terms that the wording makes the other way: "below ambient temperature"."""
    conditions = [part for clause in paragraph.sharing for part in conjuncts((*clause.scope, *clause.shall))]
    compared = [one for one in conditions if isinstance(one, Comparison) and one.relation.is_limit]
    for node in compared:
        term = term_of(node.right)
        if term is None or sum(term_of(other.right) == term for other in compared) > 1:
            continue
        for found in re.finditer(re.escape(term.name), paragraph.text, re.IGNORECASE):
            worded = worded_relation(paragraph.text, found.start(), found.end())
            if worded is None or _TURNS.search(sentence_at(paragraph.text, found.start())):
                continue
            if worded.is_minimum is not node.relation.is_minimum:
                start = max(0, found.start() - 12)
                words = " ".join(paragraph.text[start : found.end()].split()[1 if start else 0 :])
                rule = f"`{node.relation} {term.name}`"
                yield paragraph.finding(LIMITS_OTHER_WAY, words=words, rule=rule)


def sizes_in_words_alone(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield the sizes of pipe of which the wording speaks, for a rule that does not ask for the size."""
    terms = paragraph.ruleset.vocabulary.terms
    if any(terms[name].kind.form is Form.SIZE or "diameter" in name for name in paragraph.terms if name in terms):
        return
    for stated in numbers_of_wording(paragraph.text):
        found = _OF_SIZE.search(paragraph.text, 0, stated.start)
        if found and stated.size is not None:
            words = f"{' '.join(found[0].split())} {stated.text}"
            yield paragraph.finding(SIZE_NOT_ASKED, words=words)
            return
