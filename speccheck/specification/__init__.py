"""Specification sections: from the Word document of a spec writer to clauses, and what of it clauses check.

In: a section as .docx, .pdf or plain text, and a vocabulary. Out: a drafted ruleset in which nothing judges before a
person has confirmed it, or the coverage of the section by a ruleset: what becomes of each paragraph.

    file --reading--> blocks --drafting--> text of a ruleset
                             --coverage--> paragraph by paragraph: checked, not checked, nothing

Files:

    amendments       instructions to change other paragraphs, as addenda give them
    blocks           paragraphs with their numbers, and tables
    messages         what is said of sections that cannot be read
    conditions       the lines that a piece of a sentence speaks of
    context          what titles and leading paragraphs say of the paragraphs under them
    coverage         which paragraphs a clause checks, and which nothing speaks of
    differing        where a clause differs from the words of its paragraph
    drafting         from blocks to clauses, `not checked` and `todo`
    house            sections that `speccheck prose` wrote, read back to the letter
    house_words      the words of that prose, turned back into the clause language
    matching         which clause stands for which paragraph
    owners           of what an amount is an amount
    papers_asked     paragraphs that ask for documents
    parting          sentences parted into what they speak of and what they ask, in every way that they can be
    pdf_document     paragraphs and tables of a PDF
    pieces           what reading one piece of a sentence gives
    plain_words      shorthand, and words of other countries, written out
    reading          a section read from a file of any kind
    reasons          why no schedule can answer a paragraph
    relations_asked  paragraphs that check lines against one another
    required_values  what a piece of a sentence asks
    sentences        sentences read as clauses: for which lines, and what is asked
    table_coverage   tables of a section checked against those of a ruleset
    table_labels     what the headings and first columns of a table say
    table_reading    the shape of a table: its rows of headings, and what its columns are
    tables           tables of a section as tables of the language, and what looks them up
    word_document    paragraphs and tables of a Word document
    word_numbers     the numbers that Word shows before paragraphs
"""

from speccheck.specification.coverage import CoverageReport, Covered, coverage_of
from speccheck.specification.drafting import Drafted, draft, ruleset_text
from speccheck.specification.reading import read_section

__all__ = ["CoverageReport", "Covered", "Drafted", "coverage_of", "draft", "read_section", "ruleset_text"]
