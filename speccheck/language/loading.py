"""Loading: from the path of a ruleset to its core, with its vocabulary and all rulesets that it builds on."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import Diagnostic, has_errors, in_order
from speccheck.language.kept_rulesets import keep_loaded, recall_loaded
from speccheck.language.shipped_files import located
from speccheck.language.vocabulary import Vocabulary
from speccheck.shipped import shipped_folder


@dataclass(frozen=True, slots=True)
class LoadedRuleset:
    """A ruleset, None where it cannot be used, and everything there is to say about its files."""

    ruleset: Ruleset | None
    diagnostics: tuple[Diagnostic, ...]

    @property
    def usable(self) -> bool:
        """Whether there is a ruleset and none of its files has an error."""
        return self.ruleset is not None and not has_errors(self.diagnostics)


@dataclass(frozen=True, slots=True)
class LoadedVocabulary:
    """A vocabulary, None where it cannot be used, and everything there is to say about its file."""

    vocabulary: Vocabulary | None
    diagnostics: tuple[Diagnostic, ...]


def load_ruleset(path: Path | str) -> LoadedRuleset:
    """Return the ruleset of a file, or of a shipped ruleset named without suffix ("trade-practice").

    What was loaded before is taken from the user's cache folder while none of its files has changed.
    """
    where = located(path)
    kept = recall_loaded(where)
    if isinstance(kept, LoadedRuleset):
        return kept
    from speccheck.language.loader import Loader

    loader = Loader()
    loaded = LoadedRuleset(loader.ruleset(where), in_order(loader.diagnostics))
    if loaded.usable:
        keep_loaded(where, loaded, loader.files)
    return loaded


def load_vocabulary(path: Path | str) -> LoadedVocabulary:
    """Return the vocabulary of a file, or of a shipped vocabulary by its name ("mechanical insulation")."""
    from speccheck.language.loader import Loader

    loader = Loader()
    vocabulary = loader.vocabulary(located(path))
    return LoadedVocabulary(vocabulary, in_order(loader.diagnostics))


def parse_ruleset(text: str, name: str = "ruleset.clauses", folder: Path | None = None) -> LoadedRuleset:
    """Return the ruleset that a text holds; `folder` is where the rulesets it builds on are looked for."""
    from speccheck.language.loader import Loader
    from speccheck.language.reading_files import SourceText

    loader = Loader()
    ruleset = loader.resolve(SourceText(name, text), (folder or shipped_folder("rulesets")) / name)
    return LoadedRuleset(ruleset, in_order(loader.diagnostics))
