"""Wording against rule: what the words of a clause say otherwise than the rule written beside them.

In: a `Ruleset`. Out: findings about its own clauses that have a `wording`: a number that the rule lacks, a limit that
goes the other way, choices that one of the two leaves out, a condition in the words alone, another duty, a
reference that leads nowhere, the wording of another clause. A paragraph that several clauses of one source share is
held against all of them together.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import terms_of
from speccheck.language.vocabulary.terms import Term
from speccheck.proofread.findings import Finding
from speccheck.proofread.number_words import with_digits
from speccheck.proofread.wording_choices import Listed, Mention, listed_in, mentions, singular
from speccheck.proofread.wording_duties import dead_references, duty_faults
from speccheck.proofread.wording_limits import (
    UPWARD,
    RuleLimit,
    contradicts,
    limits_of,
    worded_relation,
)
from speccheck.proofread.wording_numbers import numbers_of_rule, numbers_of_wording
from speccheck.quantities import NominalSize, Quantity

# How many missing choices are named.
MOST_NAMED = 6
_LIMITING = "less|more|over|under|above|below|to exceed|exceeding|thinner|farther|fewer|larger|smaller"
_DENIES = re.compile(
    rf"\b(?:(?:not|no)(?! (?:{_LIMITING}))|never|except|unless|other than|nor|without|instead of)\b", re.IGNORECASE
)
_EITHER_WAY = re.compile(r"\b(?:or exposed|exposed or|whether|or not)\b", re.IGNORECASE)


@dataclass(frozen=True)
class _Paragraph:
    """A clause with its wording, and the clauses that share it."""

    clause: Clause
    sharing: tuple[Clause, ...]
    ruleset: Ruleset

    @cached_property
    def text(self) -> str:
        """The wording with digits for its number words."""
        return with_digits(self.clause.wording)

    @cached_property
    def limits(self) -> tuple[RuleLimit, ...]:
        """The values that the rules hold anything against."""
        return tuple(limit for one in self.sharing for limit in limits_of(one))

    @cached_property
    def listed(self) -> tuple[Listed, ...]:
        """What the rules list."""
        return tuple(listed_in(one, self.ruleset) for one in self.sharing)

    @cached_property
    def terms(self) -> frozenset[str]:
        """The names of the terms that the rules draw on."""
        return frozenset[str]().union(*(listed.terms for listed in self.listed))

    @cached_property
    def named(self) -> frozenset[tuple[str, str]]:
        """The choices that the rules name."""
        return frozenset[tuple[str, str]]().union(*(listed.named for listed in self.listed))

    @cached_property
    def conditions(self) -> frozenset[str]:
        """The names of the terms by which clauses of the ruleset say where they apply."""
        own = (clause for clause in self.ruleset.clauses if clause.ruleset == self.ruleset.name)
        return frozenset(term.name for clause in own for term in terms_of(clause.scope))

    @cached_property
    def mentions(self) -> tuple[Mention, ...]:
        """The choices that the wording names."""
        return mentions(self.text, self.ruleset.vocabulary)

    @cached_property
    def unexplained(self) -> tuple[Mention, ...]:
        """The choices that the wording names and that nothing in the rules goes by."""
        choices = {choice for _, choice in self.named}
        words = frozenset[str]().union(*(listed.words for listed in self.listed))
        return tuple(
            one
            for one in self.mentions
            if not any(choice in choices for _, choice in one.named)
            and not set(_words(one.text)) <= words
            and not self._is_part(one)
        )

    def _is_part(self, mention: Mention) -> bool:
        """Say whether a mention is a part of the name of a choice of another term that the rules name."""
        words, own = set(_words(mention.text)), {term for term, _ in mention.by_name}
        return any(words <= set(_words(choice)) for term, choice in self.named if term not in own)

    def are_listed(self, one: Mention, other: Mention) -> bool:
        """Say whether two mentions stand in one list: between them are commas, `and`, `or`, and other mentions."""
        first, last = sorted((one, other), key=lambda mention: mention.start)
        between = self.text[first.end : last.start]
        for inner in self.mentions:
            if first.end <= inner.start and inner.end <= last.start:
                between = between.replace(self.text[inner.start : inner.end], "")
        return re.fullmatch(r"(?:\s|,|/|and|or|in|on)*", between) is not None

    def finding(self, code: str, kind: str, message: str, help: str) -> Finding:
        """Return a finding about the clause."""
        label = self.clause.label
        return Finding(
            code, kind, (label,), f"the wording of clause `{label}` {message}", help, place=self.clause.place
        )


def _words(text: str) -> list[str]:
    return [singular(word) for word in re.split(r"[\s-]+", text)]


def wording_against_rule(ruleset: Ruleset) -> Iterator[Finding]:
    """Yield what the wording of the ruleset's own clauses says otherwise than their rules."""
    own = [clause for clause in ruleset.clauses if clause.ruleset == ruleset.name and clause.wording]
    for clause in own:
        sharing = tuple(one for one in own if one.wording == clause.wording)
        if sharing[0] is not clause:
            yield from _same_words(clause, sharing[0])
            continue
        paragraph = _Paragraph(clause, sharing, ruleset)
        for question in (_numbers, _directions, _unsaid_numbers, _choices, _conditions, _duties, _references):
            yield from question(paragraph)


# ---- numbers -----------------------------------------------------------------------------------------------------


def _numbers(paragraph: _Paragraph) -> Iterator[Finding]:
    """Yield each quantity in the wording that the rule beside it does not have."""
    rule = [number for one in paragraph.sharing for number in numbers_of_rule(one, paragraph.ruleset)]
    for stated in numbers_of_wording(paragraph.text):
        comparable = [number for number in rule if stated.comparable(number)]
        if not comparable or any(stated.says(number) for number in comparable):
            continue
        beside = ", ".join(dict.fromkeys(f"`{number}`" for number in comparable[:6]))
        message = f"says `{stated.text}`, which is no number of its rule"
        yield paragraph.finding("P702", "number of the wording", message, f"the rule has {beside}")


def _directions(paragraph: _Paragraph) -> Iterator[Finding]:
    """Yield each number that the wording limits another way than the rule does."""
    for stated in numbers_of_wording(paragraph.text):
        relation = worded_relation(paragraph.text, stated.start, stated.end)
        if relation is None:
            continue
        sentence = _sentence(paragraph.text, stated.start)
        open_limits = tuple(one for one in paragraph.limits if not _is_worded(paragraph, one))
        if any(stated.says(one.value) and one.relation in (relation, None) for one in paragraph.limits):
            continue
        other = contradicts(relation, stated, open_limits, sentence)
        if other is None or other.relation is None:
            continue
        start, end = max(0, stated.start - 20), stated.end + 14
        words = " ".join(paragraph.text[start:end].split()[1 if start else 0 :])
        rule = f"`{other.term.name + ' ' if other.term else ''}{other.relation} {other.value}`"
        turned = (relation in UPWARD) != (other.relation in UPWARD)
        help = f"the rule says {rule}; one of the two is wrong"
        if not turned:
            help = f"the rule says {rule}, so that the two differ at `{other.value}` itself"
        kind = "limit of the wording"
        yield paragraph.finding(
            "P703",
            kind,
            f"limits the other way than its rule at `{words}`"
            if turned
            else f"takes `{stated.text}` in or out otherwise than its rule",
            help,
        )


def _is_worded(paragraph: _Paragraph, limit: RuleLimit) -> bool:
    """Say whether the wording has a limit of the rule somewhere: 2 in of pipe is not 2 in of insulation."""
    found = (one for one in numbers_of_wording(paragraph.text) if one.says(limit.value))
    return any(worded_relation(paragraph.text, one.start, one.end) is limit.relation for one in found)


def _unsaid_numbers(paragraph: _Paragraph) -> Iterator[Finding]:
    """Yield each number of the rule itself that the wording does not say, where it says another for the same kind."""
    worded = list(numbers_of_wording(paragraph.text))
    for limit in dict.fromkeys(limit for limit in paragraph.limits if not limit.named and limit.term is not None):
        if not isinstance(limit.value, Quantity | NominalSize) or limit.term is None or limit.term.computed:
            continue
        kindred = [stated for stated in worded if stated.comparable(limit.value)]
        others = [one for one in paragraph.limits if one.value != limit.value]
        unclaimed = [one for one in kindred if not any(one.says(other.value) for other in others)]
        if kindred and not unclaimed and not any(stated.says(limit.value) for stated in worded):
            message = f"does not say `{limit.value}`, to which its rule holds `{limit.term.name}`"
            yield paragraph.finding(
                "P704", "number of the rule", message, "say it in the wording, or leave it out of the rule"
            )


def _sentence(text: str, at: int) -> str:
    start = max(text.rfind(". ", 0, at), text.rfind("; ", 0, at)) + 1
    ends = [end for end in (text.find(". ", at), text.find("; ", at)) if end >= 0]
    return text[start : min(ends, default=len(text))]


# ---- choices -----------------------------------------------------------------------------------------------------


def _choices(paragraph: _Paragraph) -> Iterator[Finding]:
    """Yield the choices that the wording lists and the rule leaves out, and the reverse."""
    told: set[str] = set()
    for mention in paragraph.unexplained:
        for term, choice in mention.by_name:
            if choice not in told and term in paragraph.terms and _is_left_out(paragraph, mention, term):
                told.add(choice)
                message = f"names `{mention.text}`, which its rule does not list as `{term}`"
                help = "add it to the rule, or leave it out of the wording"
                yield paragraph.finding("P705", "list of the wording", message, help)
    for listed_term, options in dict.fromkeys(one for listed in paragraph.listed for one in listed.lists):
        name = listed_term.name
        missing = [option for option in options if not _is_said(option, listed_term, paragraph)]
        present = [one for one in paragraph.mentions if any((name, option) in one.by_name for option in options)]
        said = {pair for one in present for pair in one.by_name if pair[0] == name}
        if missing and (len(said) > 1 or (len(said) == 1 == len(missing) and not _goes_on(paragraph, present[0]))):
            names = ", ".join(f"`{option}`" for option in missing[:MOST_NAMED])
            message = f"does not name {names}, which its rule lists as `{name}`"
            yield paragraph.finding(
                "P706", "list of the rule", message, "name it in the wording, or leave it out of the rule"
            )


def _is_left_out(paragraph: _Paragraph, mention: Mention, term: str) -> bool:
    """Say whether a wording lists a choice beside others of the rule, or in the place of the only ones of the rule."""
    if any(term in listed.denied for listed in paragraph.listed):
        return False
    if _DENIES.search(_sentence(paragraph.text, mention.start)) or _is_whole(paragraph, mention):
        return False
    ours = {pair for pair in paragraph.named if pair[0] == term and pair[1] != "none"}
    if not ours:
        return False
    kindred = [one for one in paragraph.mentions if any(pair in ours for pair in one.named)]
    if not kindred:
        worded = set(_words(paragraph.text.replace(",", " ").replace(".", " ")))
        return not any(set(_words(choice)) <= worded for _, choice in ours)
    return any(paragraph.are_listed(mention, one) for one in kindred)


def _is_whole(paragraph: _Paragraph, mention: Mention) -> bool:
    """Say whether a mention is of the whole that other choices are parts of, as a pipe is of its valves."""
    terms = paragraph.ruleset.vocabulary.terms
    return any(other.part_of == choice for term, choice in mention.named for other in terms[term].choices)


def _is_said(option: str, term: Term, paragraph: _Paragraph) -> bool:
    """Say whether the wording names an option, or has a word that its names have too."""
    if option == "none" or any((term.name, option) in one.named for one in paragraph.mentions):
        return True
    words = {word for word in re.findall(r"[a-z]{4,}", singular(option)) if word not in ("with", "other")}
    worded = {singular(word) for word in re.findall(r"[a-z]{4,}", paragraph.text.casefold())}
    return any(word.removeprefix("un")[:8] == one[:8] for word in words for one in worded)


def _goes_on(paragraph: _Paragraph, mention: Mention) -> bool:
    """Say whether a list in a wording goes on behind a mention, in words that are no names."""
    return bool(re.match(r"s?\s*(?:,|and\b|or\b)", paragraph.text[mention.end :]))


def _conditions(paragraph: _Paragraph) -> Iterator[Finding]:
    """Yield the places, services and other conditions that the wording names for a rule that does not ask for them.

    Only for terms by which other clauses of the ruleset say where they apply.
    """
    terms, told = paragraph.ruleset.vocabulary.terms, set[str]()
    for mention in paragraph.unexplained:
        if not mention.by_name or any(term in paragraph.terms for term, _ in mention.named):
            continue
        term = next((term for term, _ in mention.by_name if term in paragraph.conditions), mention.by_name[0][0])
        whole = any(_is_whole(paragraph, one) and one.named[0][0] == term for one in paragraph.mentions)
        if term in told or whole or terms[term].proposed or terms[term].computed or term not in paragraph.conditions:
            continue
        if _EITHER_WAY.search(paragraph.text[mention.start - 12 : mention.end + 12]):
            continue
        told.add(term)
        message = f"says `{mention.text}`, and its rule does not ask for `{term}`"
        help = "add the condition to the rule, or leave it out of the wording"
        yield paragraph.finding("P707", "condition of the wording", message, help)


# ---- duties, references, words of another clause -----------------------------------------------------------------


def _duties(paragraph: _Paragraph) -> Iterator[Finding]:
    if len(paragraph.sharing) == 1:
        for message, help in duty_faults(paragraph.clause):
            yield paragraph.finding("P708", "duty of the wording", f"says {message}", help)


def _references(paragraph: _Paragraph) -> Iterator[Finding]:
    for number in dict.fromkeys(dead_references(paragraph.clause, paragraph.ruleset)):
        message = f"refers to `{number}`, and the ruleset has no such clause"
        yield paragraph.finding(
            "P709", "reference that leads nowhere", message, "correct the number, or name the document"
        )


def _same_words(clause: Clause, first: Clause) -> Iterator[Finding]:
    """Yield that a clause has the wording of another one of another source and subject."""
    if _paragraph_of(clause) != _paragraph_of(first):
        message = f"the wording of clause `{clause.label}` is that of clause `{first.label}`"
        help = "write its own wording, or give both the number of one paragraph"
        yield Finding(
            "P710", "wording of another clause", (clause.label, first.label), message, help, place=clause.place
        )


def _paragraph_of(clause: Clause) -> Sequence[str]:
    return clause.name.split(".")[:2]
