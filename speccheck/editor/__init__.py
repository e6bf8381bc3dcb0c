"""Help for text editors with rulesets and vocabularies: a language server.

In: the text of a file as the editor holds it, saved or not, and a position in it. Out: diagnostics, what stands at the
position, what could be written there, where it is defined, the file in the house style, the examples judged.

Files:

    analysing    a text, with what it means and what is wrong with it
    naming       the names that a text can use, and the one at a position
    hovering     what a name means: kind, unit, source
    completing   what could be written at a position
    locating     where a name is defined
    rehearsing   the examples of the clauses, judged
    server       the language server over all of these (Language Server Protocol 3.17), with pygls

All but `server` work on plain values and load no library; pygls comes with the optional extra `editor`.
"""
