"""Lists of wording and rule: choices that one of the two leaves out, and conditions that the words alone have."""

from __future__ import annotations

import re
from collections.abc import Iterator

from speccheck.language.core.walking import conditions_of, may_leave_out
from speccheck.language.vocabulary.terms import Family, Term
from speccheck.proofread.findings import Finding
from speccheck.proofread.messages.wording import (
    CONDITION_NOT_ASKED,
    EXCEPTION_NOT_MADE,
    LEAVES_LISTED_OUT,
    NAMES_UNLISTED,
)
from speccheck.proofread.wording.choices import NamedChoice, mentions, singular
from speccheck.proofread.wording.paragraph import SharedParagraph, sentence_at, words_of

# How many missing choices are named.
MOST_NAMED = 6
_LIMITING = "less|more|over|under|above|below|to exceed|exceeding|thinner|farther|fewer|larger|smaller"
_DENIES = re.compile(
    rf"\b(?:(?:not|no)(?! (?:{_LIMITING}))|never|except|unless|other than|nor|without|instead of)\b", re.IGNORECASE
)
_IS_EXAMPLE = re.compile(r"\b(?:such as|as (?:on|at|in|for|with)|for example|e\.g\.,?)\s+$", re.IGNORECASE)
_EXCEPTION = re.compile(
    r"\b(?:unless|except(?: (?:where|when|for|that|if|in|on|at|as))?)((?: (?!(?:and|or|shall)\b)[\w/-]+){1,5})",
    re.IGNORECASE,
)
# What stands behind a comma and goes on with something else than the list.
_NO_NAME = r"\s*(?:minimum|maximum|at (?:least|most)|not|no|of|each|which|that|\d)\b"
_EITHER_WAY = re.compile(r"\b(?:or exposed|exposed or|whether|or not)\b", re.IGNORECASE)


def lists_apart(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield the choices that the wording lists and the rule leaves out, and the reverse."""
    told: set[str] = set()
    for mention in paragraph.unexplained:
        for term, choice in mention.by_name:
            if choice not in told and term in paragraph.terms and _is_left_out(paragraph, mention, term):
                told.add(choice)
                yield paragraph.finding(NAMES_UNLISTED, words=mention.text, term=term)
    for listed_term, options in dict.fromkeys(one for listed in paragraph.listed for one in listed.lists):
        name = listed_term.name
        missing = [option for option in options if not _is_said(option, listed_term, paragraph)]
        present = [one for one in paragraph.mentions if any((name, option) in one.by_name for option in options)]
        said = {pair for one in present for pair in one.by_name if pair[0] == name}
        if missing and (len(said) > 1 or (len(said) == 1 == len(missing) and not _goes_on(paragraph, present[0]))):
            names = ", ".join(f"`{option}`" for option in missing[:MOST_NAMED])
            yield paragraph.finding(LEAVES_LISTED_OUT, choices=names, term=name)


def exceptions_in_words_alone(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield what the wording leaves out in words that the vocabulary does not know, for a rule that leaves out nothing.

    Anything in the rule that denies, depends on something or goes by a name of the writer's own may say the same.
    """
    nodes = [node for clause in paragraph.sharing for node in conditions_of(clause)]
    if any(clause.exceptions for clause in paragraph.sharing) or may_leave_out(nodes):
        return
    for found in _EXCEPTION.finditer(paragraph.text):
        known = any(found.start() <= one.start < found.end() for one in paragraph.mentions)
        named = any(word in listed.words for listed in paragraph.listed for word in words_of(found[1]))
        if not (known or named or re.search(r"\d", found[0])):
            yield paragraph.finding(EXCEPTION_NOT_MADE, words=found[0].strip())


def _is_left_out(paragraph: SharedParagraph, mention: NamedChoice, term: str) -> bool:
    """Say whether a wording lists a choice beside others of the rule, or in the place of the only ones of the rule."""
    if any(term in listed.denied for listed in paragraph.listed):
        return False
    if _IS_EXAMPLE.search(paragraph.text, 0, mention.start):
        return False
    if _DENIES.search(sentence_at(paragraph.text, mention.start)) or _is_whole(paragraph, mention):
        return False
    ours = {pair for pair in paragraph.named if pair[0] == term and pair[1] != "none"}
    if not ours:
        return False
    kindred = [one for one in paragraph.mentions if any(pair in ours for pair in one.named)]
    if not kindred:
        worded = set(words_of(paragraph.text.replace(",", " ").replace(".", " ")))
        return not any(set(words_of(choice)) <= worded for _, choice in ours)
    return any(paragraph.are_listed(mention, one) for one in kindred)


def _is_whole(paragraph: SharedParagraph, mention: NamedChoice) -> bool:
    """Say whether a mention is of the whole that other choices are parts of, as a pipe is of its valves."""
    terms = paragraph.ruleset.vocabulary.terms
    return any(other.part_of == choice for term, choice in mention.named for other in terms[term].choices)


def _is_said(option: str, term: Term, paragraph: SharedParagraph) -> bool:
    """Say whether the wording names an option, or has a word that its names have too."""
    said = (*paragraph.mentions, *mentions(paragraph.remarks, paragraph.ruleset.vocabulary))
    if option == "none" or any((term.name, option) in one.named for one in said):
        return True
    if any(option in family.values and _names_family(paragraph, family) for family in term.families):
        return True
    own = set(words_of(option))
    if any(set(words_of(one.text)) <= own for one in paragraph.mentions if any(n == term.name for n, _ in one.by_name)):
        return True  # what is said of hot water is said of recirculating hot water
    words = {word for word in re.findall(r"[a-z]{4,}", singular(option)) if word not in ("with", "other")}
    rest = _without_names(term, paragraph)
    worded = {singular(word) for word in re.findall(r"[a-z]{4,}", rest.casefold())}
    return any(word.removeprefix("un")[:8] == one[:8] for word in words for one in worded)


def _names_family(paragraph: SharedParagraph, family: Family) -> bool:
    """Say whether a wording, or a note on it, means a family of values by one of its names: "mineral fiber"."""
    worded = singular(f"{paragraph.text} {paragraph.remarks}")
    names = (re.escape(singular(name)) for name in family.names)
    return re.search(rf"(?<![\w/-])(?:{'|'.join(names)})(?:s|es)?(?![\w/-])", worded) is not None


def _without_names(term: Term, paragraph: SharedParagraph) -> str:
    """Return a wording without the names of the choices of a term: "adhesive" in "factory adhesive" is no other one."""
    rest = paragraph.text
    for one in reversed(paragraph.mentions):
        if any(name == term.name for name, _ in one.by_name):
            rest = rest[: one.start] + rest[one.end :]
    return rest


def _goes_on(paragraph: SharedParagraph, mention: NamedChoice) -> bool:
    """Say whether a list in a wording goes on behind a mention, in words that are no names."""
    return bool(re.match(rf"s?\s*(?:,(?!{_NO_NAME})|and\b|or\b)", paragraph.text[mention.end :]))


def conditions_in_words_alone(paragraph: SharedParagraph) -> Iterator[Finding]:
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
        yield paragraph.finding(CONDITION_NOT_ASKED, words=mention.text, term=term)
