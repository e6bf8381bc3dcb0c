"""Wording against rule: what the words of a clause say otherwise than the rule written beside them.

In: a `Ruleset`. Out: findings about its own clauses that have a `wording`: a number that the rule lacks, a limit that
goes the other way, choices that one of the two leaves out, a condition in the words alone, another duty, a
reference that leads nowhere, the wording of another clause. A paragraph that several clauses share is checked against
all of them together.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from speccheck.language.clause_names import paragraph_of
from speccheck.language.core import Clause, Ruleset
from speccheck.language.diagnostic_rules import Wording
from speccheck.proofread.findings import Finding
from speccheck.proofread.messages.wording import (
    ADVISED_BY_THE_RULE,
    END_TAKEN_OTHERWISE,
    LIMITS_OTHER_WAY,
    NUMBER_NOT_RULED,
    NUMBER_NOT_WORDED,
    PERMITTED_BY_THE_WORDING,
    REFERS_TO_NO_CLAUSE,
    REQUIRED_BY_THE_RULE,
    SAME_WORDS,
)
from speccheck.proofread.wording.limits import RuleLimit, contradicts, worded_relation
from speccheck.proofread.wording.lists import conditions_in_words_alone, exceptions_in_words_alone, lists_apart
from speccheck.proofread.wording.numbers import numbers_of_rule, numbers_of_wording
from speccheck.proofread.wording.paragraph import SharedParagraph, sentence_at
from speccheck.proofread.wording.polarity import all_or_any, wrong_way_round
from speccheck.proofread.wording.terms import other_side_of_a_term, other_terms, sizes_in_words_alone
from speccheck.quantities import NominalSize, Quantity

_SHOULD = re.compile(
    r"\b(?:should|ought to|(?:is|are) (?:recommended|advised|preferred)|recommend(?:ed)?|preferably)\b", re.IGNORECASE
)
_SHALL = re.compile(r"\b(?:shall|must|(?:is|are) (?:required|mandatory)|required)\b", re.IGNORECASE)
_MAY = re.compile(
    r"\b(?:may(?! (?:be )?(?:lowered|reduced|omitted|left|less|thinner))|(?:is|are) (?:permitted|allowed|optional)"
    r"|at the (?:contractor|installer)'s option)\b",
    re.IGNORECASE,
)
_BOUND = re.compile(r"\b(?:not|only|at least|at most|no)\b", re.IGNORECASE)
_REFERENCE = re.compile(
    r"\b(?:paragraphs?|articles?|clauses?|subparagraphs?|para\.|items?)\s+"
    r"((?:\d+(?:\.\w+)*|[A-Z]\.?\d+)(?:(?:\s*,\s*|\s+(?:and|or|to|through)\s+)\d+(?:\.\w+)*)*)"
    r"(?!\s+of\s+(?:the\s+)?(?!this)[A-Z\"])",
    re.IGNORECASE,
)
_SEE = re.compile(
    r"\b(?:see|per|under)\s+(\d{1,2}\.\d{1,2}(?:\.\w{1,2})*)(?![\w.]|\s*(?:[°%″\"']|[A-Za-z]+[/(.]))", re.IGNORECASE
)


def duty_faults(clause: Clause) -> Iterator[tuple[Wording, str]]:
    """Yield what to say where the wording of a clause says of duty what its rule does not, with the word for it."""
    text = clause.wording
    shall, should, may = _SHALL.search(text), _SHOULD.search(text), _MAY.search(re.split(r"[;.]", text)[0])
    if should and not shall and not clause.should:
        yield REQUIRED_BY_THE_RULE, should[0]
    elif shall and not should and not clause.shall:
        yield ADVISED_BY_THE_RULE, shall[0]
    elif may and not shall and clause.shall and not _BOUND.search(text):
        yield PERMITTED_BY_THE_WORDING, may[0]


def dead_references(clause: Clause, ruleset: Ruleset) -> Iterator[str]:
    """Yield the numbers of clauses that the wording of a clause refers to and that the ruleset does not have."""
    known = {one.name for one in ruleset.clauses}
    for found in (*_REFERENCE.finditer(clause.wording), *_SEE.finditer(clause.wording)):
        for number in re.findall(r"[A-Z]?\.?\d+(?:\.\w+)*", found[1]):
            if not any(
                name == number or name.startswith(f"{number}.") or name.endswith(f"-{number}") for name in known
            ):
                yield number


def wording_against_rule(ruleset: Ruleset) -> Iterator[Finding]:
    """Yield what the wording of the ruleset's own clauses says otherwise than their rules."""
    own = [clause for clause in ruleset.clauses if clause.ruleset == ruleset.name and clause.wording]
    for clause in own:
        sharing = tuple(one for one in own if one.wording == clause.wording)
        if sharing[0] is not clause:
            yield from _same_words(clause, sharing[0])
            continue
        paragraph = SharedParagraph(clause, sharing, ruleset)
        for question in QUESTIONS:
            yield from question(paragraph)


# ---- numbers -----------------------------------------------------------------------------------------------------


def _numbers(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield each quantity in the wording that the rule beside it does not have."""
    read = (*paragraph.sharing, *paragraph.referred)
    rule = [number for one in read for number in numbers_of_rule(one, paragraph.ruleset)]
    for stated in numbers_of_wording(paragraph.text):
        comparable = [number for number in rule if stated.comparable(number)]
        if not comparable or any(stated.says(number) for number in comparable):
            continue
        beside = ", ".join(dict.fromkeys(f"`{paragraph.written(number)}`" for number in comparable[:6]))
        yield paragraph.finding(NUMBER_NOT_RULED, number=stated.text, ruled=beside)


def _directions(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield each number that the wording limits another way than the rule does."""
    for stated in numbers_of_wording(paragraph.text):
        relation = worded_relation(paragraph.text, stated.start, stated.end)
        if relation is None:
            continue
        sentence = sentence_at(paragraph.text, stated.start)
        open_limits = tuple(one for one in paragraph.limits if not _is_worded(paragraph, one))
        if any(stated.says(one.value) and one.relation in (relation, None) for one in paragraph.limits):
            continue
        other = contradicts(relation, stated, open_limits, sentence)
        if other is None or other.relation is None:
            continue
        start, end = max(0, stated.start - 20), stated.end + 14
        words = " ".join(paragraph.text[start:end].split()[1 if start else 0 :])
        rule = f"`{other.term.name + ' ' if other.term else ''}{other.relation} {paragraph.written(other.value)}`"
        turned = relation.is_minimum is not other.relation.is_minimum
        if turned:
            yield paragraph.finding(LIMITS_OTHER_WAY, words=words, rule=rule)
        else:
            yield paragraph.finding(END_TAKEN_OTHERWISE, number=stated.text, rule=rule)


def _is_worded(paragraph: SharedParagraph, limit: RuleLimit) -> bool:
    """Say whether the wording has a limit of the rule somewhere: 2 in of pipe is not 2 in of insulation."""
    found = (one for one in numbers_of_wording(paragraph.text) if one.says(limit.value))
    return any(worded_relation(paragraph.text, one.start, one.end) is limit.relation for one in found)


def _unsaid_numbers(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield each number of the rule itself that the wording does not say, where it says another for the same kind."""
    worded = list(numbers_of_wording(paragraph.text))
    noted = list(numbers_of_wording(paragraph.remarks))
    for limit in dict.fromkeys(limit for limit in paragraph.limits if not limit.named and limit.term is not None):
        if not isinstance(limit.value, Quantity | NominalSize) or limit.term is None or limit.term.computed:
            continue
        kindred = [stated for stated in worded if stated.comparable(limit.value)]
        others = [one for one in paragraph.limits if one.value != limit.value]
        unclaimed = [one for one in kindred if not any(one.says(other.value) for other in others)]
        if kindred and not unclaimed and not any(stated.says(limit.value) for stated in (*worded, *noted)):
            yield paragraph.finding(NUMBER_NOT_WORDED, number=paragraph.written(limit.value), term=limit.term.name)


# ---- duties, references, words of another clause -----------------------------------------------------------------


def _duties(paragraph: SharedParagraph) -> Iterator[Finding]:
    if len(paragraph.sharing) == 1:
        for said, words in duty_faults(paragraph.clause):
            yield paragraph.finding(said, words=words)


def _references(paragraph: SharedParagraph) -> Iterator[Finding]:
    for number in dict.fromkeys(dead_references(paragraph.clause, paragraph.ruleset)):
        yield paragraph.finding(REFERS_TO_NO_CLAUSE, number=number)


def _same_words(clause: Clause, first: Clause) -> Iterator[Finding]:
    """Yield that a clause has the wording of another one of another source and subject."""
    if not _of_one_paragraph(clause, first):
        yield Finding(SAME_WORDS.at(clause.place, clause=clause.label, other=first.label), (clause.label, first.label))


def _of_one_paragraph(clause: Clause, other: Clause) -> bool:
    """Whether two clauses stand under one number of two parts, or are parts of one paragraph by their names."""
    above = clause.name.split(".")[:2] == other.name.split(".")[:2]
    return above or paragraph_of(clause.name) == paragraph_of(other.name)


QUESTIONS = (
    _numbers,
    _directions,
    other_terms,
    other_side_of_a_term,
    _unsaid_numbers,
    lists_apart,
    all_or_any,
    wrong_way_round,
    conditions_in_words_alone,
    exceptions_in_words_alone,
    sizes_in_words_alone,
    _duties,
    _references,
)
