"""Documents for a word processor (Office Open XML), the same bytes on each run.

Files:

    document  what all documents for a word processor share: how one begins, how its sheets are numbered, how it
              becomes bytes
    reply     the reply for a word processor: an Office Open XML document, the same bytes on each run
    section   A ruleset as a specification section for a word processor: an Office Open XML document, the same bytes
              on each run
"""
