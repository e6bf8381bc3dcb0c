"""Phrases: what words mean as the trade writes them, in cells, headers, headings and sentences alike.

In: a text, a vocabulary, the term that is expected where one is, and what bare numbers are in. Out: facts (a term, its
value and the words that say so), the words that were not understood, and the questions that more than one meaning
leaves. Nothing is guessed: what can be read in two ways is a question, and a text with words left over was not read.

One reader serves cells, headers, headings, prose and the sentences of sections: `cells` finds values and amounts in any
text, `headers` names, `worded_amounts` amounts with how they are to be met, for sections and for the wording of clauses
alike. Amounts are read by the lark grammar of `quantities`.

There is no grammar file for phrases. The spellings of a vocabulary are the terminals, found as the longest run of words
(`lexicon`), with amounts and joining words beside them; above these the order of words carries nothing ("PVC 20 mil",
"20 mil PVC"), so that a grammar would only list them, and a spelling that several terms have would be one terminal of
which the grammar does not know the term. Both ways were tried on 2026-11-29, in processor time. With the 1,249
spellings of five columns as terminals lark takes 1.39 s to build its tables, where the lexicons take 0.009 s, at every
start, for every vocabulary and column. With the runs that the lexicons find as terminals (a lexer of our own; values,
amounts, names, brackets, "and", "or", "at", joining words, other words) it builds them in 0.016 s, and parses a cell of
seven terminals in 0.028 ms, a quarter of the 0.12 ms in which such a cell is read as a whole here; what it gives is the
list of those terminals again, with the remarks in brackets apart. It was left out, since it decides nothing.

Files:

    amounts  amounts among words: where a number begins, how far it goes, and which term it is a value of
    bands    sizes as they head a column or a row: `1½" - 3"`, "4 in & larger", "DN 15-32", "7/8 OD", "All sizes"
    cells    what the words of a cell say of the term of its column, and of the terms that stand beside it
    descriptions  one system as lists of quantities describe it: its parts in any order, between commas
    headers  which terms the words over a column name, whatever stands before and behind the names
    kept     what is worked out from a vocabulary once
    layers   "2 layers of 1 in": how thick in all, and in how many layers
    lexicon  the words of a vocabulary, for each term its own values and those of the terms beside it
    names    words of a sentence that name values and terms of a vocabulary, the longest run first
    systems  systems in a sentence: what it proposes, part by part, with the sizes of each
    worded_amounts  amounts in prose with how they are to be met: "not less than 1-1/2 inches thick"
    words    words of a text with their places, folded as the vocabulary's spellings are
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from speccheck.phrases.bands import Band, read_size_band
    from speccheck.phrases.cells import DENYING, Fact, Phrase, Question, Span, read_cell
    from speccheck.phrases.descriptions import read_description
    from speccheck.phrases.headers import HeaderPhrase, read_header, terms_in_parts
    from speccheck.phrases.systems import Proposed, read_systems, shared_values, values_of

__all__ = [
    "DENYING",
    "Band",
    "Fact",
    "HeaderPhrase",
    "Phrase",
    "Proposed",
    "Question",
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
    **dict.fromkeys(("Band", "read_size_band"), "bands"),
    **dict.fromkeys(("DENYING", "Fact", "Phrase", "Question", "Span", "read_cell"), "cells"),
    "read_description": "descriptions",
    **dict.fromkeys(("HeaderPhrase", "read_header", "terms_in_parts"), "headers"),
    **dict.fromkeys(("Proposed", "read_systems", "shared_values", "values_of"), "systems"),
}


def __getattr__(name: str) -> Any:
    """Return a public name, imported when it is first asked for: where all is known already no phrase is read."""
    if name not in _MODULES:
        raise AttributeError(f"module `speccheck.phrases` has no attribute `{name}`")
    return getattr(import_module(f"speccheck.phrases.{_MODULES[name]}"), name)
