"""The clause language: from the text of rulesets and vocabularies to a small typed core.

In: files in the clause language (`grammar/clauses.lark`). Out: a `Ruleset` or a `Vocabulary`, and diagnostics.

    text --parsing--> syntax --resolving--> core

Files:

    brought_along  shipped rulesets as they were parsed when a wheel was built, so that the first run need not do it
    clause_names   those by which reports call them, and all by which somebody may ask for one
    core           what a ruleset means, with every name resolved, every unit converted and every kind checked
    diagnostics    what a person got wrong, as a value that says where, what, and what to write instead
    diagnostic_rules
                   what a code stands for, and every sentence in which it is told
    format         files of the clause language in the house style
    loading        from the path of a ruleset to its core, with its vocabulary and all rulesets that it builds on
    messages       the catalogue of what is said of rulesets and vocabularies
    resolve        from the syntax tree to the typed core
    ruleset_files  files of rulesets: those that are shipped, and resolved ones kept between runs while none of their
                   files has changed
    syntax         from the text of a file to a tree that says, word for word, what stands where
    vocabulary     the terms that clauses speak of, and from text to their values and back
"""

from speccheck.language.loading import LoadedRuleset, LoadedVocabulary, load_ruleset, load_vocabulary, parse_ruleset
from speccheck.language.ruleset_files import shipped_names, shipped_ruleset_names

__all__ = [
    "LoadedRuleset",
    "LoadedVocabulary",
    "load_ruleset",
    "load_vocabulary",
    "parse_ruleset",
    "shipped_names",
    "shipped_ruleset_names",
]
