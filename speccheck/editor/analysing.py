"""Analysing: the text of one file as an editor holds it, with what it means and what is wrong with it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from speccheck.editor.naming import Name, names_in
from speccheck.language import parse_ruleset
from speccheck.language.core import Confidence, Ruleset, Source
from speccheck.language.diagnostics import Diagnostic
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
    vocabulary, found = resolve_vocabulary(syntax, source)
    return Analysis(source, path, None, vocabulary, (*diagnostics, *found))


def _of_file(diagnostics: tuple[Diagnostic, ...], name: str) -> tuple[Diagnostic, ...]:
    return tuple(one for one in diagnostics if one.place.file == name)
