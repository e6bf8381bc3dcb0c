"""Prose: a ruleset as a specification section in three parts.

Files:

    articles  the articles of a section that clauses make up, and the paragraphs in them, before and after they have
              numbers
    general   the first part of a section before any clause: summary, cautions, references, definitions, design
              conditions
    section   A ruleset as a specification section in three parts: General, Products, Execution
    words     rules in the sentences of a specification: what is asked, where it applies, what is left out
"""
