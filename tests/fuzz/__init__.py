"""Inputs that nobody wrote: each way into the program is given changed texts and files until something breaks.

`python -m tests.fuzz` lists the ways in; `python -m tests.fuzz clauses --minutes 10` tries one. Where the library
atheris is installed (`pip install atheris`), inputs that reach new code are kept and changed further; without it, the
examples alone are changed. Whatever an input is, the answer is values and diagnostics: an exception, five seconds or
500 MB are a fault. A fault that was mended stands in `corpus`, which the tests run.

    targets     the ways in, each with the examples that it begins with
    changes     how an input is changed: marks, words, lines and parts of files, with what often breaks readers
    running     a run of one target: guided by the code that is reached, or not; its count, its pace and its faults
"""
