"""The clause language: from the text of rulesets and vocabularies to a small typed core.

In: files in the clause language (`grammar/clauses.lark`). Out: a `Ruleset` or a `Vocabulary`, and diagnostics.

    text --parsing--> syntax --resolving--> core

Files, in the order in which a text goes through them:

    reading_files            the text of a file
    parsing                  text to syntax; what cannot be read is told, and the rest is read
    misreading, layout       what to say of text that cannot be read, and where its parts begin
    expecting                what could have stood there, in a writer's words
    builder, building, building_*  the parser's tree to the syntax tree; tree_nodes are what it is made of
    syntax                   the syntax tree
    formatting, formatting_*  syntax back to text in house style; comments are kept
    loading                  rulesets and vocabularies by their path or their name
    loader                   the files a ruleset stands on; shipped_files are those that come with the program
    kept_rulesets            rulesets kept between runs
    resolving_*              syntax to core: names looked up, units converted, kinds checked
    names, literals          what a name and a quantity can mean in a clause
    core                     the core: a package, with a file for each sort of node
    clause_names             the names by which reports call clauses, and by which they can be asked for
    resolving_marks          what a vocabulary says of its terms beside kind and values, checked
    walking, wording         going through the core, and its words
    vocabulary, kinds        terms, their kinds and their values
    values, choices, not_given  what a text means for a term: one reader for schedules and examples
    diagnostics, codes       what is wrong, where, and what to write instead
    suggestions              the nearest known name
    listing                  "a, b and c"
"""

from speccheck.language.loading import LoadedRuleset, LoadedVocabulary, load_ruleset, load_vocabulary, parse_ruleset
from speccheck.language.ruleset_files import shipped_names

__all__ = [
    "LoadedRuleset",
    "LoadedVocabulary",
    "load_ruleset",
    "load_vocabulary",
    "parse_ruleset",
    "shipped_names",
]
