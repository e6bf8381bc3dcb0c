"""Help for text editors with rulesets and vocabularies: a language server.

In: the text of a file as the editor holds it, saved or not, and a position in it. Out: diagnostics, what stands at the
position, what could be written there, where it is defined, the file in the house style, the examples judged.

Files:

    analysing   the text of one file as an editor holds it, with what it means and what is wrong with it
    completing  what could be written at a position: words of the language, names, values of the term before it
    hovering    what a name means, in Markdown: its kind, its units, its values, and where it comes from
    incoming    messages from the editor whose head cannot be read, told and passed over
    messages    what is said where the server cannot run
    naming      the names that a text can use, and the longest of them at a position in it
    server      what an editor asks, answered over the Language Server Protocol, with pygls
"""
