"""Vocabularies: the terms that clauses speak of, and from text to their values and back.

In: the text of a cell or of a clause, and the term that it stands for. Out: a value, `NotGiven`, or why there is none.

Files:

    choices  values out of a closed list, never guessed, and the words that stand where a value should: "TBD", "per
             spec", a dash
    terms    the terms that clauses speak of, their kinds and values, and what contractors write for them
    values   what a text means once it is known for which term it stands, and back to text
"""
