"""Names in scope: the terms, definitions and tables that the clauses of one ruleset can speak of."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from speccheck.english import did_you_mean
from speccheck.language.core import Amount, Condition, Table
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import Words
from speccheck.language.vocabulary.terms import Term, Vocabulary, fold

# What sections say behind an amount, and what the language says before it.
_BEHIND_AMOUNTS = {
    **dict.fromkeys(("more", "larger", "greater", "higher", "above", "thicker"), "at least"),
    **dict.fromkeys(("less", "smaller", "lower", "below", "thinner"), "at most"),
}


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

    def error(self, code: str, message: str, words: Words, help: str = "") -> None:
        """Keep an error at the place of `words`."""
        self.report(self.source.error(code, message, words.place, help))

    def term(self, name: str) -> Term | None:
        """Return the term with this name; what contractors write for it does not count in a ruleset."""
        found = self.vocabulary.find(name)
        return found if found is not None and fold(found.name) == fold(name) else None

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
        synonym = self.vocabulary.find(name)
        if synonym is not None:
            self.error("L201", f"`{name}` is what a schedule may say for a term", words, f"write `{synonym.name}`")
            return
        if name in _BEHIND_AMOUNTS:
            help = f"write `{_BEHIND_AMOUNTS[name]}` before the amount"
            self.error("L201", f"`{name}` is not known", words, help)
            return
        known = [*self.vocabulary.terms, *self.definition_names.values(), *(t.name for t in self.tables.values())]
        help = did_you_mean(name, [*(beside or {}).values(), *known], "define it, or add it to the vocabulary")
        self.error("L201", f"`{name}` is not known", words, help)
