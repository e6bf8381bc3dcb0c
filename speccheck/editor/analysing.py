"""Analysing: the text of one file as an editor holds it: its meaning, what is wrong, and how its examples come out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from speccheck.editor.naming import Name, names_in
from speccheck.english import agree
from speccheck.judge import Rehearsal, rehearse
from speccheck.language import parse_ruleset
from speccheck.language.core import Confidence, Ruleset, Source
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.loading import Loader
from speccheck.language.resolve.vocabularies import resolve_vocabulary
from speccheck.language.syntax.parsing import parse
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import DefinitionSyntax, Part, RulesetSyntax, SourcePart, TextPart, VocabularySyntax
from speccheck.language.vocabulary.terms import Vocabulary, fold


@dataclass(frozen=True)
class Analysis:
    """A text, where its file lies or would lie, and what it means: a ruleset or a vocabulary, None for what it is not.

    `diagnostics` are those of this text; what is wrong with other files is told at the place that names them.
    """

    source: SourceText
    path: Path
    ruleset: Ruleset | None
    vocabulary: Vocabulary | None
    diagnostics: tuple[Diagnostic, ...]

    @cached_property
    def names(self) -> dict[str, tuple[Name, ...]]:
        """The names that the text can use, folded, each with everything that it can stand for."""
        return names_in(self.ruleset, self.vocabulary, self._remarks)

    @cached_property
    def _remarks(self) -> dict[str, tuple[str, ...]]:
        """The sources and notes of the definitions of the text; what a definition means does not hold them."""
        syntax, _ = parse(self.source)
        items = syntax.items if isinstance(syntax, RulesetSyntax) else ()
        return {
            fold(item.name.text): tuple(_remarks_of(item.parts)) for item in items if isinstance(item, DefinitionSyntax)
        }


def _remarks_of(parts: Iterable[Part]) -> Iterator[str]:
    for part in parts:
        if isinstance(part, SourcePart):
            yield f"Source: {Source(part.text.text, Confidence(part.confidence))}"
        elif isinstance(part, TextPart) and part.keyword == "note":
            yield from (words.text for words in part.words)


def analyse(text: str, path: Path) -> Analysis:
    """Return what a text means; line ends of any kind are one."""
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    source = SourceText(path.name, plain)
    if _is_vocabulary(plain):
        return _vocabulary(source, path)
    loaded = parse_ruleset(plain, path.name, path.parent)
    ruleset = loaded.ruleset
    vocabulary = ruleset.vocabulary if ruleset is not None else None
    return Analysis(source, path, ruleset, vocabulary, _of_file(loaded.diagnostics, path.name))


def _is_vocabulary(text: str) -> bool:
    rows = (row.strip() for row in text.split("\n"))
    return next((row.startswith("vocabulary") for row in rows if row and not row.startswith("--")), False)


def _vocabulary(source: SourceText, path: Path) -> Analysis:
    syntax, diagnostics = parse(source)
    if not isinstance(syntax, VocabularySyntax):
        return Analysis(source, path, None, None, diagnostics)
    loader = Loader()
    vocabulary, found = resolve_vocabulary(syntax, source, loader.terms_spoken(syntax, source, path))
    told = _of_file((*loader.diagnostics, *found), source.name)
    return Analysis(source, path, None, vocabulary, (*diagnostics, *told))


def _of_file(diagnostics: tuple[Diagnostic, ...], name: str) -> tuple[Diagnostic, ...]:
    return tuple(one for one in diagnostics if one.place.file == name)


@dataclass(frozen=True, slots=True)
class ClauseExamples:
    """The examples of one clause of the file: how many there are, how many come out, and the place of the clause."""

    label: str
    place: Place
    count: int
    right: int

    @property
    def words(self) -> str:
        """The numbers in words."""
        if not self.count:
            return "no example"
        return f"{self.right} of {self.count} {agree(self.count, 'example comes', 'examples come')} out"


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """What became of the examples of a file: clause by clause, the diagnostics of those that do not come out, and the
    place of each example with whether it comes out.
    """

    clauses: tuple[ClauseExamples, ...] = ()
    diagnostics: tuple[Diagnostic, ...] = ()
    examples: tuple[tuple[Place, bool], ...] = ()


def rehearsed(analysis: Analysis) -> Rehearsed:
    """Return the examples of a file judged; nothing where the file cannot be used."""
    if analysis.ruleset is None or any(found.severity == "error" for found in analysis.diagnostics):
        return Rehearsed()
    found = rehearse(analysis.ruleset)
    here = tuple(one for one in found.diagnostics if one.place.file == analysis.path.name)
    examples = ((one.example.place, one.right) for one in found.results)
    own = tuple((place, right) for place, right in examples if place.file == analysis.path.name)
    return Rehearsed(tuple(_clauses(analysis, found)), here, own)


def _clauses(analysis: Analysis, found: Rehearsal) -> list[ClauseExamples]:
    assert analysis.ruleset is not None
    counted = []
    for clause in analysis.ruleset.clauses:
        if clause.place.file == analysis.path.name:
            results = [result for result in found.results if result.clause is clause]
            right = sum(result.right for result in results)
            counted.append(ClauseExamples(clause.label, clause.place, len(results), right))
    return counted
