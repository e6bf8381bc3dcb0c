"""Phrases: what words mean as the trade writes them, in cells, headers, headings and sentences alike.

In: a text, a vocabulary, the term that is expected where one is, and what bare numbers are in. Out: facts (a term, its
value and the words that say so), the words that were not understood, and the questions that more than one meaning
leaves. Nothing is guessed: what can be read in two ways is a question, and a text with words left over was not read.

One reader serves cells, headers, headings, prose and the sentences of sections: `cells` finds values and amounts in any
text, `headers` names, `worded_amounts` amounts with how they are to be met, for sections and for the wording of clauses
alike. Amounts are read by the lark grammar of `quantities`, and which value one stands beside is the same in sentences.

Which words of a cell belong together says the lark grammar `grammar/phrases.lark`: which value an amount is of, what
was measured at which temperature, what stands in brackets, where a system runs, what "and", "or" and a slash part. Its
terminals are runs of words. Those of a vocabulary are found by `lexicon` rather than by lark: a spelling that several
terms have would be one terminal of which the grammar does not know the term, and with the 1,249 spellings of five
columns as terminals lark took 1.39 s to build its tables for every vocabulary and column (2026-11-29, processor time),
where the lexicons take 0.009 s. With runs as terminals the tables are built in 0.025 s, once and for all vocabularies,
and kept; a cell of seven terminals is parsed in 0.03 ms.

Files:

    amounts  amounts among words: where a number begins, and how far it goes
    attached amounts of a sentence with the value that each stands beside, for sections
    bands    sizes as they head a column or a row: `1½" - 3"`, "4 in & larger", "DN 15-32", "7/8 OD", "All sizes"
    cells    what the words of a cell say of the term of its column, and of the terms that stand beside it
    descriptions  one system as lists of quantities describe it: its parts in any order, between commas
    facts    what a phrase says: facts, questions and words left over, by their place in the text
    headers  which terms the words over a column name, whatever stands before and behind the names
    interpreting  what the tree of a phrase says, a function for each rule of the grammar
    kept     what is worked out from a vocabulary once
    layers   "2 layers of 1 in": how thick in all, and in how many layers
    lexicon  the words of a vocabulary, for each term its own values and those of the terms beside it
    listed_sizes  nominal sizes in cells: bands of them, and those that are listed
    names    words of a sentence that name values and terms of a vocabulary, the longest run first
    owners   of which term an amount is a value: by its name, the value beside it, and its unit
    pairs    two numbers that make up a whole cell: "180/160", "180F supply, 160F return", "25/50"
    parsing  from the terminals of a text to its tree
    sharing  words said once for two neighbors: "domestic cold & hot water"
    systems  systems in a sentence: what it proposes, part by part, with the sizes of each
    terminals  the runs of words that the rules of the grammar put together
    weighing  what the parts of a cell say of each other: answers, remarks, values that give way
    worded_amounts  amounts in prose with how they are to be met: "not less than 1-1/2 inches thick"
    words    words of a text with their places, folded as the vocabulary's spellings are
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from speccheck.phrases.bands import SizeBand, read_size_band
    from speccheck.phrases.cells import DENYING, read_cell
    from speccheck.phrases.descriptions import read_description
    from speccheck.phrases.facts import Fact, OpenWords, Phrase, Span
    from speccheck.phrases.headers import HeaderPhrase, read_header, terms_in_parts
    from speccheck.phrases.systems import Proposed, read_systems, shared_values, values_of

__all__ = [
    "DENYING",
    "Fact",
    "HeaderPhrase",
    "OpenWords",
    "Phrase",
    "Proposed",
    "SizeBand",
    "Span",
    "read_cell",
    "read_description",
    "read_header",
    "read_size_band",
    "read_systems",
    "shared_values",
    "terms_in_parts",
    "values_of",
]

_MODULES = {
    **dict.fromkeys(("SizeBand", "read_size_band"), "bands"),
    **dict.fromkeys(("DENYING", "read_cell"), "cells"),
    **dict.fromkeys(("Fact", "Phrase", "OpenWords", "Span"), "facts"),
    "read_description": "descriptions",
    **dict.fromkeys(("HeaderPhrase", "read_header", "terms_in_parts"), "headers"),
    **dict.fromkeys(("Proposed", "read_systems", "shared_values", "values_of"), "systems"),
}


def __getattr__(name: str) -> Any:
    """Return a public name, imported when it is first asked for: where all is known already no phrase is read."""
    if name not in _MODULES:
        raise AttributeError(f"module `speccheck.phrases` has no attribute `{name}`")
    return getattr(import_module(f"speccheck.phrases.{_MODULES[name]}"), name)
