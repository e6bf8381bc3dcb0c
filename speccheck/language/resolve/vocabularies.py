"""Vocabularies resolved: from the syntax of a vocabulary file to its terms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from speccheck.english import nearest
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.messages.meaning import NO_UNIT_OF_KIND, TERM_WITHOUT_KIND, UNITS_OF_TERM_WITHOUT_UNITS
from speccheck.language.messages.rulesets import SPELLING_OF_TWO_TERMS, SPELLING_OF_TWO_VALUES, TERM_TWICE
from speccheck.language.resolve.clauses import texts_of
from speccheck.language.resolve.doubts import (
    check_doubts,
    eithers,
    families,
    groups,
    inferences,
    sensible_numbers,
    sensible_values,
)
from speccheck.language.resolve.literals import amount_of, resolve_literal
from speccheck.language.resolve.marks import check_marks
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import (
    AdditionSyntax,
    Heading,
    Measure,
    TermSyntax,
    TextPart,
    VocabularySyntax,
    Words,
)
from speccheck.language.vocabulary.terms import (
    CHOICE,
    COUNT,
    DATE,
    NUMBER,
    SET,
    SIZE,
    TEXT,
    YES_NO,
    Addition,
    Choice,
    Form,
    Kind,
    Term,
    Vocabulary,
    fold,
    quantity_kind,
)
from speccheck.quantities import DIMENSIONS, canonical_unit, unit_dimensions

KIND_WORDS: dict[str, Kind] = {
    "nominal size": SIZE,
    "count": COUNT,
    "date": DATE,
    "number": NUMBER,
    "text": TEXT,
    **{dimension: quantity_kind(dimension) for dimension in DIMENSIONS},
}
FORMS = {"one of": CHOICE, "any of": SET, "yes or no": YES_NO}


@dataclass
class _Gathering:
    """The terms of a vocabulary as they come in, and the spellings that are taken."""

    source: SourceText
    terms: dict[str, Term] = field(default_factory=dict)
    taken: dict[str, str] = field(default_factory=dict)
    diagnostics: list[Diagnostic] = field(default_factory=list)
    additions: list[Addition] = field(default_factory=list)


def resolve_vocabulary(
    syntax: VocabularySyntax, source: SourceText, others: Mapping[str, Term] | None = None
) -> tuple[Vocabulary, tuple[Diagnostic, ...]]:
    """Return the vocabulary of a file and the diagnostics; terms with errors are left out.

    `others` are the terms of the vocabularies that it speaks, which its marks may name.
    """
    gathering = _Gathering(source)
    heading = Heading(Words(""))
    for item in syntax.items:
        if isinstance(item, Heading):
            heading = item
        elif isinstance(item, AdditionSyntax):
            gathering.additions.append(_addition(gathering, item))
        else:
            _gather(gathering, item, heading)
    _check_synonyms(gathering, syntax)
    known = {**(others or {}), **gathering.terms}
    gathering.diagnostics += check_marks(syntax, known, source)
    gathering.diagnostics += check_doubts(syntax, known, source)
    vocabulary = Vocabulary(
        syntax.name.text,
        gathering.terms,
        "".join(texts_of(syntax.parts, "edition")),
        " ".join(texts_of(syntax.parts, "covers")),
        texts_of(syntax.parts, "caution"),
        texts_of(syntax.parts, "note"),
        tuple(gathering.additions),
    )
    return vocabulary, tuple(gathering.diagnostics)


def _gather(gathering: _Gathering, syntax: TermSyntax, heading: Heading) -> None:
    name, kind = _name_and_kind(gathering, syntax)
    if kind is None:
        return
    if fold(name) in gathering.taken:
        gathering.diagnostics.append(TERM_TWICE.at(syntax.name.place, gathering.source, term=name))
        return
    gathering.taken[fold(name)] = name
    inch_pound, metric = _units(gathering, syntax, kind)
    gathering.terms[name] = Term(
        name,
        kind,
        _choices(gathering, syntax, name),
        (*_texts(syntax, "also"), *_texts(syntax, "formerly")),
        " ".join(_texts(syntax, "means")),
        heading.text.text,
        inch_pound,
        metric,
        _none_is(gathering, syntax, kind),
        _says(syntax, "computed") or _says(syntax, "computed or stated"),
        _says(syntax, "proposed") or (heading.proposed and not _says(syntax, "not proposed")),
        of="".join(_texts(syntax, "property of")[:1]),
        measured=_says(syntax, "measured"),
        ordered=_says(syntax, "ordered"),
        tells_apart=_says(syntax, "tells systems apart"),
        tabulated=_says(syntax, "stated in table"),
        never_compared=_says(syntax, "never compared"),
        needs_evidence=_says(syntax, "needs evidence"),
        stated_at="".join(_texts(syntax, "stated at")[:1]),
        dates=_texts(syntax, "dates"),
        beside=_texts(syntax, "beside"),
        either=eithers(syntax),
        families=families(syntax),
        together=groups(syntax),
        sensible=sensible_values(syntax, kind),
        sensible_numbers=sensible_numbers(syntax, kind),
        inferred=inferences(syntax),
        yes_also=_texts(syntax, "yes also"),
        no_also=_texts(syntax, "no also"),
        computed_or_stated=_says(syntax, "computed or stated"),
        formerly=_texts(syntax, "formerly"),
        place=syntax.place,
    )


def _addition(gathering: _Gathering, syntax: AdditionSyntax) -> Addition:
    name = syntax.name.text
    return Addition(name, _choices(gathering, syntax, name), families(syntax), _texts(syntax, "also"), syntax.place)


def _says(syntax: TermSyntax, keyword: str) -> bool:
    return any(isinstance(part, TextPart) and part.keyword == keyword for part in syntax.parts)


def _name_and_kind(gathering: _Gathering, syntax: TermSyntax) -> tuple[str, Kind | None]:
    """Return the name and the kind; where the kind is not a list, it is the longest kind at the end of the words."""
    if syntax.form:
        return syntax.name.text, FORMS[syntax.form]
    words = syntax.name.text.split(" ")
    for start in range(1, len(words)):
        kind = KIND_WORDS.get(" ".join(words[start:]))
        if kind is not None:
            return " ".join(words[:start]), kind
    gathering.diagnostics.append(
        TERM_WITHOUT_KIND.at(
            syntax.name.place, gathering.source, near=nearest(words[-1], KIND_WORDS), words=syntax.name.text
        )
    )
    return syntax.name.text, None


def _texts(syntax: TermSyntax | AdditionSyntax, keyword: str) -> tuple[str, ...]:
    return tuple(
        words.text
        for part in syntax.parts
        if isinstance(part, TextPart) and part.keyword == keyword
        for words in part.words
    )


def _units(gathering: _Gathering, syntax: TermSyntax, kind: Kind) -> tuple[str, str]:
    """Return the usual units of a term: those that it states, else those of its dimension."""
    if kind.form is not Form.QUANTITY:
        _refuse_units(gathering, syntax, kind)
        return "", ""
    usual = DIMENSIONS[kind.dimension]
    stated: list[str] = []
    for part in syntax.parts:
        if isinstance(part, TextPart) and part.keyword == "shown in":
            for words in part.words:
                if kind.dimension not in unit_dimensions(words.text):
                    gathering.diagnostics.append(
                        NO_UNIT_OF_KIND.at(
                            words.place,
                            gathering.source,
                            unit=words.text,
                            kind=kind,
                            inch_pound=usual.inch_pound,
                            metric=usual.metric,
                        )
                    )
                    continue
                stated.append(canonical_unit(words.text) or words.text)
    units = [*stated, *(usual.inch_pound, usual.metric)[len(stated) :]]
    return units[0], units[1]


def _refuse_units(gathering: _Gathering, syntax: TermSyntax, kind: Kind) -> None:
    """Refuse units of a term that has none: mostly its name holds the word "in", as "duct in attic"."""
    for part in syntax.parts:
        if isinstance(part, TextPart) and part.keyword == "shown in":
            words = part.words[0]
            listed = ", ".join(each.text for each in part.words)
            whole = f'term "{syntax.name.text} in {listed}"'
            gathering.diagnostics.append(
                UNITS_OF_TERM_WITHOUT_UNITS.at(words.place, gathering.source, units=listed, kind=kind, whole=whole)
            )


def _choices(gathering: _Gathering, syntax: TermSyntax | AdditionSyntax, term: str) -> tuple[Choice, ...]:
    taken: dict[str, str] = {}
    for choice in syntax.choices:
        for spelling in (choice.name, *choice.also):
            owner = taken.setdefault(fold(spelling.text), choice.name.text)
            if owner != choice.name.text:
                gathering.diagnostics.append(
                    SPELLING_OF_TWO_VALUES.at(
                        spelling.place,
                        gathering.source,
                        words=spelling.text,
                        term=term,
                        owner=owner,
                        other=choice.name.text,
                    )
                )
    return tuple(
        Choice(
            c.name.text,
            tuple(words.text for words in c.also),
            c.meaning.text if c.meaning else "",
            c.part_of.text if c.part_of else "",
        )
        for c in syntax.choices
    )


def _none_is(gathering: _Gathering, syntax: TermSyntax, kind: Kind) -> float | None:
    part = next((p for p in syntax.parts if isinstance(p, TextPart) and p.keyword == "none is"), None)
    if part is None:
        return None
    words = part.words[0]
    if words.text == "unlimited":
        return float("inf")
    literal = resolve_literal(Measure(words.text, False, words.place), kind, gathering.source)
    if isinstance(literal, Diagnostic):
        gathering.diagnostics.append(literal)
        return None
    return amount_of(literal.value)


def _check_synonyms(gathering: _Gathering, syntax: VocabularySyntax) -> None:
    """Report synonyms that two terms share."""
    for item in syntax.items:
        if not isinstance(item, TermSyntax):
            continue
        name = next((term.name for term in gathering.terms.values() if term.place == item.place), None)
        if name is None:
            continue
        for part in item.parts:
            if isinstance(part, TextPart) and part.keyword in ("also", "formerly"):
                for words in part.words:
                    _take(gathering, words, name)


def _take(gathering: _Gathering, words: Words, name: str) -> None:
    owner = gathering.taken.setdefault(fold(words.text), name)
    if owner != name:
        gathering.diagnostics.append(
            SPELLING_OF_TWO_TERMS.at(words.place, gathering.source, words=words.text, owner=owner, other=name)
        )
