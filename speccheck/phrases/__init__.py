"""Phrases: what words mean as the trade writes them, in cells, headers, headings and sentences alike.

In: a text, a vocabulary, the term that is expected where one is, and what bare numbers are in. Out: facts (a term, its
value and the words that say so), the words that were not understood, and the questions that more than one meaning
leaves. Nothing is guessed: what can be read in two ways is a question, and a text with words left over was not read.

Files:

    bands    sizes as they head a column or a row: `1½" - 3"`, "4 in & larger", "DN 15-32", "7/8 OD", "All sizes"
"""

from speccheck.phrases.bands import Band, read_size_band

__all__ = ["Band", "read_size_band"]
