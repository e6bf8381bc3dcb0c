"""Yes and no, all and any: a wording that forbids what its rule asks for, or asks for all where any one is enough."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from speccheck.language.core import (
    Comparison,
    Condition,
    Every,
    Holds,
    Includes,
    Inclusion,
    Literal,
    Negation,
    OneOf,
    Relation,
    Some,
)
from speccheck.language.vocabulary.terms import Term
from speccheck.proofread.findings import Finding
from speccheck.proofread.finite_amounts import term_of
from speccheck.proofread.messages.wording import ALL_FOR_ANY, ASKS_WHAT_IS_FORBIDDEN, FORBIDS_WHAT_IS_ASKED, ONE_FOR_ALL
from speccheck.proofread.wording.choices import NamedChoice
from speccheck.proofread.wording.paragraph import SharedParagraph, sentence_at, words_of

# Whatever turns the sense of a sentence round, or may do so: where it stands, a rule that denies is no surprise.
_NEGATIVE = re.compile(
    r"\b(?:not|no|non|never|nor|neither|none|without|except|unless|other than|free (?:of|from)|avoid|omit|leave"
    r"|prohibited|forbidden|instead|rather|cannot|only|bare|un\w+ed)\b|n't\b",
    re.IGNORECASE,
)
_LIMITING = r"less|more|over|under|above|below|exceed|thinner|thicker|farther|fewer|larger|smaller|greater|higher|lower"
_FORBIDS = re.compile(
    rf"\b(?:(?:shall|must|may|should|do|will) not(?: be)?(?! (?:{_LIMITING}|left|leave|omit|remain|bare|un))"
    r"|(?:is|are) not (?:permitted|allowed|acceptable)|prohibited|forbidden)\b",
    re.IGNORECASE,
)
_NOT_LEFT_BARE = re.compile(r"\bnot (?:be )?(?:left |leave )?(?:\w+ )?(?:bare|un\w+ed|without)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Asked:
    """A choice of a term that a requirement asks for, or denies; "yes" for a term that is yes or no."""

    term: Term
    choice: str
    wanted: bool


def wrong_way_round(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield the choices that the wording forbids and the rule asks for, and the reverse, each term once."""
    asked = [one for clause in paragraph.sharing for one in _asked(clause.shall, True)]
    denied = {one.term.name for one in asked if not one.wanted}
    told: set[str] = set()
    for one in asked:
        if one.term.name in told:
            continue
        words = _forbidden(paragraph, one) if one.wanted and one.term.name not in denied else ""
        words = words or (_asked_for(paragraph, one) if not one.wanted else "")
        if words:
            told.add(one.term.name)
            yield paragraph.finding(FORBIDS_WHAT_IS_ASKED if one.wanted else ASKS_WHAT_IS_FORBIDDEN, words=words)


def _asked(conditions: Iterable[Condition], wanted: bool) -> Iterator[_Asked]:
    """Yield the choices that conditions name in the clause itself, and whether they are wanted."""
    for node in conditions:
        match node:
            case Negation(part):
                yield from _asked((part,), not wanted)
            case Every(parts) | Some(parts):
                yield from _asked(parts, wanted)
            case Comparison(left, Relation.EQUAL | Relation.NOT_EQUAL as relation, Literal(str(choice))):
                if (term := term_of(left)) is not None:
                    yield _Asked(term, choice, wanted is (relation is Relation.EQUAL))
            case OneOf(amount, options):
                if (term := term_of(amount)) is not None:
                    yield from (_Asked(term, one, wanted) for one in options if isinstance(one, str))
            case Includes(term, inclusion, options):
                yield from (_Asked(term, one, wanted is (inclusion is not Inclusion.NONE)) for one in options)
            case Holds(term):
                yield _Asked(term, "yes", wanted)
            case _:
                pass


def _forbidden(paragraph: SharedParagraph, one: _Asked) -> str:
    """Return the words by which a wording forbids a choice; "" where it does not."""
    if one.choice == "none":
        found = _NOT_LEFT_BARE.search(paragraph.text)
        return found[0].removeprefix("not ") if found else ""
    sentences = (
        (mention.text, sentence_at(paragraph.text, mention.start)) for mention in _mentions(paragraph.mentions, one)
    )
    return next((text for text, sentence in sentences if _FORBIDS.search(sentence)), "")


def _asked_for(paragraph: SharedParagraph, one: _Asked) -> str:
    """Return the words by which a wording that denies nothing names a choice; "" where it does not name it."""
    if _NEGATIVE.search(paragraph.text):
        return ""
    if one.choice == "yes":
        worded = set(words_of(re.sub(r"[^\w\s-]", " ", paragraph.text)))
        return one.term.name if set(words_of(one.term.name)) <= worded else ""
    return next((mention.text for mention in _mentions(paragraph.mentions, one)), "")


def _mentions(mentions: Iterable[NamedChoice], one: _Asked) -> Iterator[NamedChoice]:
    return (mention for mention in mentions if (one.term.name, one.choice) in mention.named)


def all_or_any(paragraph: SharedParagraph) -> Iterator[Finding]:
    """Yield the sets of which the wording names all with `and` and the rule any one, and the reverse with `or`."""
    for node in (part for clause in paragraph.sharing for part in _sets(clause.shall)):
        said = [one for one in paragraph.mentions if any((node.term.name, o) in one.named for o in node.options)]
        if len(said) < 2:
            continue
        between = paragraph.text[said[0].end : said[-1].start]
        joints = {joint.casefold() for joint in re.findall(r"\b(?:and|or)\b", between, re.IGNORECASE)}
        if joints == ({"and"} if node.inclusion is Inclusion.ANY else {"or"}):
            wording = ALL_FOR_ANY if node.inclusion is Inclusion.ANY else ONE_FOR_ALL
            yield paragraph.finding(wording, first=said[0].text, last=said[-1].text, term=node.term.name)


def _sets(conditions: Iterable[Condition]) -> Iterator[Includes]:
    """Yield the sets that a requirement asks for, with all or any of two choices or more."""
    for node in conditions:
        if isinstance(node, Every):
            yield from _sets(node.parts)
        elif isinstance(node, Includes) and len(node.options) > 1 and node.inclusion is not Inclusion.NONE:
            yield node
