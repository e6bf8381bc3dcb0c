"""Names in scope: the terms, definitions and tables that the clauses of one ruleset can speak of."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from speccheck.english import NUMBER_WORDS, listed, nearest
from speccheck.language.core import Amount, Condition, Table
from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.messages.meaning import (
    BEHIND_THE_AMOUNT,
    COMPARED_OTHERWISE,
    NAME_LIKE_OTHERS,
    NAME_UNKNOWN,
    NONE_ALONE,
    NUMBER_IN_WORDS,
    SYNONYM,
    SYNONYM_OF_ONE_OF_SEVERAL,
    VALUE_WITHOUT_TERM,
)
from speccheck.language.resolve.advice import OWN, like_it, longer_names, misspelt, word_of
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import Words
from speccheck.language.syntax.words_of_sections import BEHIND_AMOUNTS, compared_with
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold


@dataclass
class Names:
    """What a name can mean in one ruleset, and where complaints go.

    `definition` returns the meaning of a definition (resolving it if need be), None where it has errors of its own.
    `broken` holds the names, folded, of what has errors already or could not be read: using them is no error.
    """

    source: SourceText
    vocabulary: Vocabulary
    tables: dict[str, Table] = field(default_factory=dict)
    definition_names: dict[str, str] = field(default_factory=dict)
    definition: Callable[[str], Condition | Amount | None] = lambda name: None
    broken: set[str] = field(default_factory=set)
    diagnostics: list[Diagnostic] = field(default_factory=list)
    used_definitions: set[str] = field(default_factory=set)

    def report(self, diagnostic: Diagnostic) -> None:
        """Keep a diagnostic."""
        self.diagnostics.append(diagnostic)

    def tell(self, said: Wording, place: Place, /, *, near: str | None = None, **facts: object) -> None:
        """Keep what is said of a place of the source."""
        self.report(said.at(place, self.source, near=near, **facts))

    def term(self, name: str) -> Term | None:
        """Return the term with this name, or one that it had formerly; no other synonym counts in a ruleset."""
        return self.vocabulary.called(name)

    def table(self, name: str) -> Table | None:
        """Return the table with this name."""
        return self.tables.get(fold(name))

    def is_definition(self, name: str) -> bool:
        """Say whether a definition has this name."""
        return fold(name) in self.definition_names

    def unknown(self, words: Words, *, beside: Mapping[str, str] | None = None) -> None:
        """Report a name that means nothing here, with the nearest that does."""
        name = words.text
        if fold(name) in self.broken:
            return
        if fold(name) == "none":
            self.tell(NONE_ALONE, words.place, name=name)
            return
        synonym = self.vocabulary.find(name)
        if synonym is not None:
            others = [one for one in longer_names(name, self.vocabulary) if one != synonym.name]
            sentence = SYNONYM_OF_ONE_OF_SEVERAL if others else SYNONYM
            named = listed((f"`{one}`" for one in others), "or")
            self.tell(sentence, words.place, name=name, term=synonym.name, others=named)
            return
        said = self._said_otherwise(words)
        if said is not None:
            self.report(said)
            return
        own = [*self.definition_names.values(), *(table.name for table in self.tables.values())]
        near = nearest(name, own, OWN) or misspelt(name, [*(beside or {}).values(), *self.vocabulary.terms])
        word, like = ("", ()) if near else like_it(name, self.vocabulary)
        if like:
            named = listed(f"`{term}`" for term in like)
            self.tell(NAME_LIKE_OTHERS, words.place, name=name, terms=named, word=word)
            return
        self.tell(NAME_UNKNOWN, words.place, near=near, name=name, word=word_of(name))

    def _said_otherwise(self, words: Words) -> Diagnostic | None:
        """Return what to say of words that sections use in another way, if these are some."""
        name, place = words.text, words.place
        if name in BEHIND_AMOUNTS:
            return BEHIND_THE_AMOUNT.at(place, self.source, name=name, instead=BEHIND_AMOUNTS[name])
        if name in NUMBER_WORDS:
            return NUMBER_IN_WORDS.at(place, self.source, name=name, figures=NUMBER_WORDS[name])
        compared = compared_with(name)
        if compared is not None and (self.term(compared[1]) is not None or self.is_definition(compared[1])):
            return COMPARED_OTHERWISE.at(place, self.source, name=name, relation=compared[0], term=compared[1])
        return self._value_alone(words)

    def _value_alone(self, words: Words) -> Diagnostic | None:
        """Return what to say of a value that stands without its term, or with no `is` behind it."""
        name = words.text
        for term in self.vocabulary.terms.values():
            if term.kind.form is not Form.CHOICE:
                continue
            folded, own = fold(name), fold(term.name) + " "
            value = term.choice_names.get(folded.removeprefix(own))
            if value is not None and (folded.startswith(own) or term.tells_apart):
                return VALUE_WITHOUT_TERM.at(words.place, self.source, name=name, value=value, term=term.name)
        return None
