"""Clauses resolved, and the parts that many items have: sources, words behind a keyword, parts that may stand only
once.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from speccheck.language.core import (
    Assignment,
    Clause,
    Condition,
    Confidence,
    Example,
    ExceptionPart,
    Expected,
    Given,
    Source,
)
from speccheck.language.core.review_days import DAY_OF_REVIEW
from speccheck.language.core.walking import words_out_of_place
from speccheck.language.diagnostics import Place
from speccheck.language.messages.rulesets import (
    CLAUSE_ASKS_FOR_NOTHING,
    KEYWORD_TWICE,
    NUMBER_TAKEN,
    WHERE_BEHIND_REQUIREMENT,
)
from speccheck.language.messages.tables import (
    CELLS_ONLY_A_REQUIREMENT_CAN_GO_BY,
    DATUM_BEGINS_WITH_NO_TERM,
    VALUE_NOT_READ,
)
from speccheck.language.resolve.conditions import resolve_condition
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.tree import ClauseSyntax, ConditionPart, ExamplePart, Part, SourcePart, TextPart, Words
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread

ONCE = (
    "wording",
    "reason",
    "subject",
    "replaces",
    "taken from",
    "edition",
    "jurisdiction",
    "verified against",
    "units",
    "tolerance",
    "covers",
    "leaves out",
    "cheapest first",
    "submit",
    "alike in",
    "shall have the same",
    "dated within",
)


def sources_of(parts: tuple[Part, ...]) -> tuple[Source, ...]:
    """Return the sources among the parts."""
    return tuple(Source(p.text.text, Confidence(p.confidence)) for p in parts if isinstance(p, SourcePart))


def texts_of(parts: tuple[Part, ...], keyword: str) -> tuple[str, ...]:
    """Return the words of all parts with `keyword`."""
    return tuple(p.words[0].text for p in parts if isinstance(p, TextPart) and p.keyword == keyword)


def words_of(parts: tuple[Part, ...], keyword: str) -> tuple[Words, ...]:
    """Return all words, with their places, of all parts with `keyword`."""
    return tuple(words for p in parts if isinstance(p, TextPart) and p.keyword == keyword for words in p.words)


def takes_its_number(names: Names, number: Words, what: str, other: str, taken: set[str]) -> bool:
    """Say whether the number of a paragraph is its own, and keep it as `taken`; one that is taken is reported."""
    if number.text in taken:
        names.tell(NUMBER_TAKEN, number.place, what=what, number=number.text, other=other)
        return False
    taken.add(number.text)
    return True


def check_once(names: Names, parts: tuple[Part, ...]) -> None:
    """Report parts that may stand once and stand twice."""
    seen: set[str] = set()
    for part in parts:
        if isinstance(part, TextPart) and part.keyword in ONCE:
            if part.keyword in seen:
                names.tell(KEYWORD_TWICE, part.place, keyword=part.keyword)
            seen.add(part.keyword)


def _check_own_conditions(names: Names, parts: tuple[Part, ...]) -> None:
    """Report a `where` on the line of a requirement: it reads as the requirement's own, and would limit the clause."""
    for before, part in pairwise(parts):
        if not isinstance(before, ConditionPart) or not isinstance(part, ConditionPart):
            continue
        line = names.source.lines[part.place.line - 1]
        behind = before.keyword in ("shall", "should") and line[: part.place.column - 1].strip()
        if part.keyword == "where" and behind:
            names.tell(WHERE_BEHIND_REQUIREMENT, part.place, keyword=before.keyword)


def resolve_clause(names: Names, syntax: ClauseSyntax, ruleset: str, bare: BareUnits) -> Clause:
    """Return the clause that `syntax` means; parts with errors were reported and are left out."""
    check_once(names, syntax.parts)
    _check_own_conditions(names, syntax.parts)
    todo = texts_of(syntax.parts, "todo")
    if syntax.whole and not todo and not _conditions(syntax.parts, "shall", "should"):
        names.tell(CLAUSE_ASKS_FOR_NOTHING, syntax.name.place, clause=syntax.name.text)
    replaces = next((p for p in syntax.parts if isinstance(p, TextPart) and p.keyword == "replaces"), None)
    return Clause(
        name=syntax.name.text,
        title=syntax.title.text,
        ruleset=ruleset,
        label=syntax.name.text,
        subject="".join(texts_of(syntax.parts, "subject")[:1]),
        sources=sources_of(syntax.parts),
        wording="".join(texts_of(syntax.parts, "wording")[:1]),
        reason="".join(texts_of(syntax.parts, "reason")[:1]),
        cautions=texts_of(syntax.parts, "caution"),
        notes=texts_of(syntax.parts, "note"),
        scope=resolve_conditions(names, syntax.parts, "where"),
        shall=resolve_conditions(names, syntax.parts, "shall"),
        should=resolve_conditions(names, syntax.parts, "should"),
        exceptions=resolve_exceptions(names, syntax.parts),
        judged_only=_judged_only(names, syntax.parts),
        examples=_examples(names, syntax, bare),
        replaces=_replaced(replaces),
        is_draft=is_draft(syntax.parts),
        todo=todo,
        place=syntax.place,
    )


def is_draft(parts: Iterable[Part]) -> bool:
    """Whether the line `draft` is among parts: nobody has confirmed them yet."""
    return any(isinstance(part, TextPart) and part.keyword == "draft" for part in parts)


def _conditions(parts: Iterable[Part], *keywords: str) -> list[ConditionPart]:
    return [part for part in parts if isinstance(part, ConditionPart) and part.keyword in keywords]


def resolve_conditions(names: Names, parts: Iterable[Part], keyword: str) -> tuple[Condition, ...]:
    """Return the conditions behind a keyword; those with errors were reported and are left out."""
    found = (resolve_condition(names, part.condition) for part in _conditions(parts, keyword))
    whole = tuple(condition for condition in found if condition is not None)
    _check_words_of_cells(names, whole, asked=keyword in ("shall", "should"))
    return whole


def _check_words_of_cells(names: Names, conditions: Iterable[Condition], *, asked: bool) -> None:
    """Report tables whose cells say words where nothing is asked, or inside an amount that is worked out or listed."""
    for table, place in words_out_of_place(conditions, asked=asked):
        names.tell(CELLS_ONLY_A_REQUIREMENT_CAN_GO_BY, place, table=table.name)
        return


def resolve_exceptions(names: Names, parts: Iterable[Part]) -> tuple[ExceptionPart, ...]:
    """Return the exceptions among parts; those with errors were reported and are left out."""
    found = []
    for part in _conditions(parts, "except"):
        condition = resolve_condition(names, part.condition)
        if condition is not None:
            _check_words_of_cells(names, [condition], asked=False)
            found.append(ExceptionPart(condition, part.because.text if part.because else "", part.place))
    return tuple(found)


def _judged_only(names: Names, parts: Iterable[Part]) -> tuple[Given, ...]:
    """Return the terms without which a line is not checked; those that nobody knows were reported and are left out."""
    chosen = (part for part in parts if isinstance(part, TextPart) and part.keyword == "judged only where")
    found: list[Given] = []
    for words in (words for part in chosen for words in part.words):
        term = names.term(words.text)
        if term is None:
            names.unknown(words)
        else:
            found.append(Given(term, words.place))
    return tuple(found)


def _replaced(part: TextPart | None) -> tuple[str, str] | None:
    if part is None:
        return None
    return part.words[0].text, part.words[1].text if len(part.words) > 1 else ""


def _examples(names: Names, syntax: ClauseSyntax, bare: BareUnits) -> tuple[Example, ...]:
    examples = []
    for part in syntax.parts:
        if isinstance(part, ExamplePart):
            data = tuple(found for words in part.data if (found := _assignment(names, words, bare)) is not None)
            examples.append(Example(part.title.text, Expected(part.expected), data, part.place))
    return tuple(examples)


def _assignment(names: Names, words: Words, bare: BareUnits) -> Assignment | None:
    """Return one stated value: the longest run of words that names a term, and the text behind it."""
    pieces = words.text.split()
    for count in range(len(pieces), 0, -1):
        name = " ".join(pieces[:count])
        term = DAY_OF_REVIEW if name == DAY_OF_REVIEW.name else names.vocabulary.find(name)
        if term is None:
            continue
        text = " ".join(pieces[count:])
        value = read_value(text, term, bare)
        if isinstance(value, Misread):
            start = len(words.text) - len(text)
            place = Place(words.place.file, words.place.line, words.place.column + start, max(len(text), 1))
            names.tell(VALUE_NOT_READ, place, sentence=value.message, advice=value.help)
            return None
        return Assignment(term, text, words.place)
    names.tell(DATUM_BEGINS_WITH_NO_TERM, words.place, datum=words.text)
    return None
