"""Loading: from the path of a ruleset to its core, with its vocabulary and all rulesets that it builds on."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from speccheck.english import nearest
from speccheck.language.brought_along import brought_along
from speccheck.language.core import Clause, LineRelation, RequiredDocument, Ruleset
from speccheck.language.core.walking import conditions_of, depth_of
from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place, has_errors, in_order
from speccheck.language.messages.meaning import (
    ADDS_FAMILY_OF_UNKNOWN,
    ADDS_TAKEN_SPELLING,
    ADDS_TO_NO_TERM,
    ADDS_VALUES_TO_NO_LIST,
    UNKNOWN_NAME,
)
from speccheck.language.messages.parsing import TOO_DEEP, WRONG_SORT
from speccheck.language.messages.rulesets import (
    EDITION_NOT_FOUND,
    NAMED_FILE_NOT_FOUND,
    NO_CLAUSE,
    NO_VOCABULARY_SPOKEN,
    NOT_CONFIRMED,
    NOT_FINISHED,
    NOTHING_REPLACED,
    RULESETS_IN_CIRCLE,
    TERM_OF_TWO_VOCABULARIES,
)
from speccheck.language.ruleset_files import (
    file_name,
    fingerprint,
    is_shipped,
    keep_loaded,
    located,
    recall_loaded,
    shipped_names,
    shown_name,
)
from speccheck.language.syntax.source_text import SourceText, read_source
from speccheck.language.vocabulary.terms import Addition, Term, Vocabulary, fold
from speccheck.shipped import shipped_folder

# What reads and resolves text is imported where a ruleset is not kept: mostly it is, and these are many modules.
if TYPE_CHECKING:
    from speccheck.language.syntax.tree import FileSyntax, RulesetSyntax, VocabularySyntax, Words

# How many conditions and amounts may stand inside one another: all readers go down into them, each with a step or two.
MOST_LEVELS = 100
# What may come of a ruleset built on that cannot be loaded, which has been told already.
OF_BASES = tuple(rule.code for rule in (UNKNOWN_NAME, NOTHING_REPLACED, NO_CLAUSE))


@dataclass
class Loader:
    """What was loaded already, what is being loaded, the diagnostics, and the fingerprints of all files looked for.

    `spoken` is the vocabulary where the caller has it already; None where rulesets say which. `sources` has the texts
    of the vocabularies by the names of their files.
    """

    diagnostics: list[Diagnostic] = field(default_factory=list)
    rulesets: dict[Path, Ruleset | None] = field(default_factory=dict)
    vocabularies: dict[Path, Vocabulary | None] = field(default_factory=dict)
    open: list[Path] = field(default_factory=list)
    files: dict[str, str] = field(default_factory=dict)
    spoken: Vocabulary | None = None
    sources: dict[str, SourceText] = field(default_factory=dict)

    def ruleset(self, path: Path) -> Ruleset | None:
        """Return the ruleset of `path`, loaded once."""
        where = path.resolve()
        if where not in self.rulesets:
            self._look_at(path)
            source = read_source(path, shown_name(path))
            if isinstance(source, Diagnostic):
                self.diagnostics.append(source)
                return None
            self.open.append(where)
            self.rulesets[where] = self.resolve(source, path)
            self.open.remove(where)
        return self.rulesets[where]

    def resolve(self, source: SourceText, path: Path) -> Ruleset | None:
        """Return the ruleset that `source` holds; `path` is where it lies."""
        try:
            ruleset = self._resolve(source, path)
        except RecursionError:
            self._too_deep(source, f"`{source.name}`", Place(source.name, 1, 1))
            return None
        for clause in ruleset.clauses if ruleset is not None else ():
            if clause.place.file == source.name and depth_of(conditions_of(clause)) > MOST_LEVELS:
                self._too_deep(source, f"clause `{clause.name}`", clause.place)
        for relation in ruleset.relations if ruleset is not None else ():
            if relation.place.file == source.name and depth_of(relation.conditions) > MOST_LEVELS:
                self._too_deep(source, f"relation `{relation.name}`", relation.place)
        for document in ruleset.documents if ruleset is not None else ():
            if document.place.file == source.name and depth_of(document.conditions) > MOST_LEVELS:
                self._too_deep(source, f"document `{document.name}`", document.place)
        return ruleset

    def _too_deep(self, source: SourceText, what: str, place: Place) -> None:
        self.diagnostics.append(TOO_DEEP.at(place, source, what=what, most=MOST_LEVELS))

    def _resolve(self, source: SourceText, path: Path) -> Ruleset | None:
        from speccheck.language.resolve.rulesets import RulesetResolver
        from speccheck.language.syntax.parsing import parse
        from speccheck.language.syntax.tree import RulesetSyntax

        syntax, diagnostics = (is_shipped(path) and brought_along(source)) or parse(source)
        self.diagnostics += diagnostics
        if syntax is None:
            return None
        if not isinstance(syntax, RulesetSyntax):
            self._wrong_sort(source, syntax, "vocabulary", "ruleset")
            return None
        bases = self._bases(syntax, source, path)
        vocabulary = self._vocabulary_of(syntax, source, path, [base for _, base in bases])
        if vocabulary is None:
            return None
        ruleset, found = RulesetResolver(syntax, source, vocabulary, bases).resolve()
        if len(bases) < len(_named(syntax, "builds on")):
            found = tuple(one for one in found if one.code not in OF_BASES)
        self.diagnostics += found
        return ruleset

    def vocabulary(self, path: Path) -> Vocabulary | None:
        """Return the vocabulary of `path`, loaded once."""
        if path not in self.vocabularies:
            self.vocabularies[path] = self._read_vocabulary(path)
        return self.vocabularies[path]

    def _look_at(self, path: Path) -> bool:
        """Remember the fingerprint of a file, and say whether it is there."""
        self.files[str(path)] = fingerprint(path)
        return path.is_file()

    def _read_vocabulary(self, path: Path) -> Vocabulary | None:
        """Return the vocabulary of a file; it is kept, for reading it takes longer than all else of a small ruleset."""
        self._look_at(path)
        source = read_source(path, shown_name(path))
        if isinstance(source, Diagnostic):
            self.diagnostics.append(source)
            return None
        self.sources[source.name] = source
        kept, _ = recall_loaded(path)
        if isinstance(kept, LoadedVocabulary):
            self.diagnostics += kept.diagnostics
            return kept.vocabulary
        kept, files = brought_along(source) if is_shipped(path) else None, [str(path)]
        if isinstance(kept, LoadedVocabulary):
            vocabulary, other, found = kept.vocabulary, None, kept.diagnostics
        else:
            vocabulary, other, found = vocabulary_in(
                source, lambda syntax: self._spoken_by(syntax, source, path, files)
            )
        self.diagnostics += found
        if other is not None:
            self._wrong_sort(source, other, "ruleset", "vocabulary")
        elif not has_errors(found):
            keep_loaded(path, LoadedVocabulary(vocabulary, found), {one: self.files[one] for one in files})
        return vocabulary

    def terms_spoken(self, syntax: VocabularySyntax, source: SourceText, path: Path) -> Mapping[str, Term]:
        """Return the terms of the vocabularies that a vocabulary speaks, which its marks may name."""
        return self._spoken_by(syntax, source, path, [])

    def _spoken_by(
        self, syntax: VocabularySyntax, source: SourceText, path: Path, files: list[str]
    ) -> Mapping[str, Term]:
        """Return the terms of the vocabularies that a vocabulary speaks, and add the files looked at to some."""
        terms: dict[str, Term] = {}
        self.open.append(path.resolve())
        for words in _named(syntax, "speaks"):
            found = self._find(words, source, path)
            files += [str(place) for place in _places_of(words, path) if str(place) in self.files]
            vocabulary = self.vocabulary(found) if found is not None and found not in self.open else None
            terms |= vocabulary.terms if vocabulary is not None else {}
        self.open.remove(path.resolve())
        return terms

    def _wrong_sort(self, source: SourceText, syntax: FileSyntax, sort: str, needed: str) -> None:
        self.diagnostics.append(WRONG_SORT.at(syntax.place, source, file=source.name, sort=sort, needed=needed))

    def _bases(self, syntax: RulesetSyntax, source: SourceText, path: Path) -> list[tuple[str, Ruleset]]:
        bases = []
        for words in _named(syntax, "builds on"):
            found = self._find(words, source, path)
            if found in self.open:
                circle = [*self.open[self.open.index(found) :], found]
                written = " -> ".join(f"`{shown_name(one)}`" for one in circle)
                self.diagnostics.append(RULESETS_IN_CIRCLE.at(words.place, source, rulesets=written))
            elif found is not None:
                base = self.ruleset(found)
                if base is not None:
                    bases.append((words.text, base))
        return bases

    def _vocabulary_of(
        self, syntax: RulesetSyntax, source: SourceText, path: Path, bases: list[Ruleset]
    ) -> Vocabulary | None:
        """Return the terms of all vocabularies that the ruleset speaks, and of those that its bases speak."""
        if self.spoken is not None:
            return self.spoken
        stated = _named(syntax, "speaks")
        if not stated and not bases:
            if _named(syntax, "builds on"):
                return None
            self.diagnostics.append(NO_VOCABULARY_SPOKEN.at(syntax.name.place, source))
            return None
        paths = [self._find(words, source, path) for words in stated]
        spoken = [self.vocabulary(found) for found in paths if found is not None]
        known = [vocabulary for vocabulary in spoken if vocabulary is not None]
        if len(known) < len(stated):
            return None
        spoken_by_all = self._extended([*known, *(base.vocabulary for base in bases)], source, syntax.name.place)
        for first, second, name in _told_twice(spoken_by_all):
            self.diagnostics.append(
                TERM_OF_TWO_VOCABULARIES.at(syntax.name.place, source, term=name, first=first, second=second)
            )
        return _joined(spoken_by_all)

    def _extended(self, spoken: list[Vocabulary], source: SourceText, place: Place) -> list[Vocabulary]:
        """Return vocabularies with what each adds to the terms of others, and tell what cannot be added."""
        additions = [one for vocabulary in spoken for one in vocabulary.additions]
        terms = _joined(spoken).terms
        for one in additions:
            wrong = addition_problem(one, terms.get(one.term))
            if wrong is not None:
                said, facts, words = wrong
                where = self.sources.get(one.place.file, source)
                place = _place_of(words, one.place, where) if where is not source else place
                near = nearest(one.term, terms) if said is ADDS_TO_NO_TERM else None
                self.diagnostics.append(said.at(place, where, near=near, term=one.term, **facts))
        return [vocabulary.extended(additions) for vocabulary in spoken]

    def _find(self, words: Words, source: SourceText, path: Path) -> Path | None:
        """Return the file that a name stands for: beside the file that names it, or shipped."""
        for place in _places_of(words, path):
            if self._look_at(place):
                return place.resolve()
        self.diagnostics.append(_not_found(words, source))
        return None


def vocabulary_in(
    source: SourceText, spoken: Callable[[VocabularySyntax], Mapping[str, Term]] = lambda syntax: {}
) -> tuple[Vocabulary | None, FileSyntax | None, tuple[Diagnostic, ...]]:
    """Return the vocabulary that a text holds, or what it holds instead, and what there is to say of it."""
    from speccheck.language.resolve.vocabularies import resolve_vocabulary
    from speccheck.language.syntax.parsing import parse
    from speccheck.language.syntax.tree import VocabularySyntax

    syntax, diagnostics = parse(source)
    if not isinstance(syntax, VocabularySyntax):
        return None, syntax, diagnostics
    vocabulary, found = resolve_vocabulary(syntax, source, spoken(syntax))
    return vocabulary, None, (*diagnostics, *found)


def _places_of(words: Words, path: Path) -> tuple[Path, ...]:
    """Return where the file may be that a name stands for: beside the file at `path`, which names it, or shipped."""
    return tuple(folder / file_name(words.text) for folder in (path.parent, shipped_folder("rulesets")))


def _not_found(words: Words, source: SourceText) -> Diagnostic:
    """Say that a ruleset is not there, and what to write instead: one of its editions, where it has some."""
    name, file = words.text, file_name(words.text)
    stem = name.rpartition(" ")[0] or name
    behind = (shipped.removeprefix(f"{stem}-") for shipped in shipped_names() if shipped.startswith(f"{stem}-"))
    editions = [edition for edition in behind if edition.isdigit()]
    if editions:
        shown = ", ".join(editions)
        return EDITION_NOT_FOUND.at(words.place, source, name=name, editions=shown, ruleset=stem, last=editions[-1])
    return NAMED_FILE_NOT_FOUND.at(words.place, source, near=nearest(name, shipped_names()), name=name, file=file)


def _named(syntax: FileSyntax, keyword: str) -> list[Words]:
    from speccheck.language.syntax.tree import TextPart

    parts = [part for part in syntax.parts if isinstance(part, TextPart) and part.keyword == keyword]
    return [words for part in parts for words in part.words]


def _told_twice(vocabularies: Sequence[Vocabulary]) -> Iterator[tuple[str, str, str]]:
    """Yield the names of two vocabularies and of a term that they say different things of, wherever it stands."""
    seen: dict[str, tuple[str, Term]] = {}
    for vocabulary in vocabularies:
        for name, term in vocabulary.terms.items():
            first, known = seen.setdefault(name, (vocabulary.name, term))
            if first != vocabulary.name and replace(term, place=known.place) != known:
                yield first, vocabulary.name, name


def _place_of(words: str, place: Place, source: SourceText) -> Place:
    """Return where words first stand in the item that begins at a place."""
    for number, line in enumerate(source.lines[place.line - 1 :], start=place.line):
        column = line.find(words)
        if column >= 0:
            return Place(place.file, number, column + 1, len(words))
    return place


def addition_problem(addition: Addition, term: Term | None) -> tuple[Wording, dict[str, str], str] | None:
    """Return what is wrong with an addition to a term, its facts and the words it is of; None where nothing is."""
    if term is None:
        return ADDS_TO_NO_TERM, {}, addition.term
    if addition.choices and not term.of_choices:
        return ADDS_VALUES_TO_NO_LIST, {"kind": term.kind.described}, addition.term
    for choice in addition.choices:
        for spelling in (choice.name, *choice.also):
            owner = term.choice_names.get(fold(spelling))
            if owner is not None and owner != choice.name:
                return ADDS_TAKEN_SPELLING, {"spelling": spelling, "owner": owner}, spelling
    values = {choice.name for choice in (*term.choices, *addition.choices)}
    unknown = [value for family in addition.families for value in family.values if value not in values]
    return (ADDS_FAMILY_OF_UNKNOWN, {"value": unknown[0]}, unknown[0]) if unknown else None


def _joined(vocabularies: list[Vocabulary]) -> Vocabulary:
    """Return one vocabulary with the terms of all; the first to name a term says what it is."""
    if len(vocabularies) == 1:
        return vocabularies[0]
    terms: dict[str, Term] = {}
    for vocabulary in vocabularies:
        for name, term in vocabulary.terms.items():
            terms.setdefault(name, term)
    first = vocabularies[0]
    names = ", ".join(dict.fromkeys(vocabulary.name for vocabulary in vocabularies))
    additions = tuple(dict.fromkeys(one for vocabulary in vocabularies for one in vocabulary.additions))
    return Vocabulary(names, terms, first.edition, first.covers, first.cautions, first.notes, additions)


@dataclass(frozen=True, slots=True)
class LoadedRuleset:
    """A ruleset, None where it cannot be used, everything there is to say about its files, and which these are."""

    ruleset: Ruleset | None
    diagnostics: tuple[Diagnostic, ...]
    files: tuple[str, ...] = ()

    @property
    def usable(self) -> bool:
        """Whether there is a ruleset and none of its files has an error."""
        return self.ruleset is not None and not has_errors(self.diagnostics)


@dataclass(frozen=True, slots=True)
class LoadedVocabulary:
    """A vocabulary, None where it cannot be used, and everything there is to say about its file."""

    vocabulary: Vocabulary | None
    diagnostics: tuple[Diagnostic, ...]


def without_drafts(loaded: LoadedRuleset) -> LoadedRuleset:
    """Return what was loaded, with an error for all that nobody has confirmed: no schedule is judged by it."""
    found = loaded.ruleset
    asked: tuple[Clause | RequiredDocument | LineRelation, ...]
    asked = () if found is None else (*found.clauses, *found.documents, *found.relations)
    errors = [_unconfirmed(one) for one in asked if not one.is_confirmed]
    return replace(loaded, diagnostics=in_order([*loaded.diagnostics, *errors])) if errors else loaded


def _unconfirmed(one: Clause | RequiredDocument | LineRelation) -> Diagnostic:
    """Say that a clause, a document or a relation is a draft, or what is left to do on it."""
    word = "clause" if isinstance(one, Clause) else "document" if isinstance(one, RequiredDocument) else "relation"
    if one.todo:
        return NOT_FINISHED.at(one.place, what=word, name=one.name, left="; ".join(one.todo))
    return NOT_CONFIRMED.at(one.place, what=word, name=one.name)


def load_ruleset(path: Path | str, *, drafts: bool = False) -> LoadedRuleset:
    """Return the ruleset of a file, or of a shipped ruleset named without suffix ("trade-practice").

    Clauses that nobody has confirmed are errors unless `drafts` are asked for, by those who judge no schedule by them.

    What was loaded before, here or from a copy of the file, is taken from the user's cache folder while none of its
    files has changed.
    """
    where = located(path)
    kept, files = recall_loaded(where)
    if isinstance(kept, LoadedRuleset):
        kept = replace(kept, files=files)
        return kept if drafts else without_drafts(kept)

    loader = Loader()
    ruleset = loader.ruleset(where)
    files = tuple(file for file, content in loader.files.items() if content)
    loaded = LoadedRuleset(ruleset, in_order(loader.diagnostics), files)
    if loaded.usable:
        keep_loaded(where, loaded, loader.files)
    return loaded if drafts else without_drafts(loaded)


def load_vocabulary(path: Path | str) -> LoadedVocabulary:
    """Return the vocabulary of a file, or of a shipped vocabulary by its name ("mechanical insulation")."""

    loader = Loader()
    vocabulary = loader.vocabulary(located(path))
    return LoadedVocabulary(vocabulary, in_order(loader.diagnostics))


def parse_ruleset(
    text: str,
    name: str = "ruleset.clauses",
    folder: Path | None = None,
    *,
    drafts: bool = False,
    vocabulary: Vocabulary | None = None,
) -> LoadedRuleset:
    """Return the ruleset that a text holds; `folder` is where the rulesets it builds on are looked for.

    Clauses that nobody has confirmed are errors unless `drafts` are asked for. `vocabulary` is the one that the text
    speaks, for those who have it already and read many texts: reading it takes longer than all else.
    """
    from speccheck.language.syntax.source_text import SourceText

    loader = Loader(spoken=vocabulary)
    ruleset = loader.resolve(SourceText(name, text), (folder or shipped_folder("rulesets")) / name)
    loaded = LoadedRuleset(ruleset, in_order(loader.diagnostics))
    return loaded if drafts else without_drafts(loaded)
