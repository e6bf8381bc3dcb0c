"""The formatter: files of the clause language in the house style.

In: the syntax tree of a file and its comments. Out: the same file laid out in one way.

Files:

    blocks       files written out in blocks, each with the place where it began: headings of items, parts, rows,
                 choices
    house_style  the house style of the clause language: one way to lay out a file
    house_values
                 values by the names that the vocabulary gives them: `Aluminium` becomes `aluminum`
    parts        parts of items written out for the formatter: a keyword and its words; tables one row a line, bars
                 aligned
    words        names, strings, amounts and conditions written out for the formatter
"""
