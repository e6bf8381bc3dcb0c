"""Deliberate mistakes in the program, to see whether the tests notice: `python -m tests.mutation judge --count 60`.

A mistake is one small change of one line: a comparison that takes its end or not, a sign, a number one off, a condition
turned round, a branch left out. It is made in a copy of the checkout, and the tests of the package are run until one
fails. What no test notices is printed with its line; what cannot be noticed, because it means the same, stands in
`same_meaning.csv` with why.

    changes     the mistakes that can be made in a source text, each as the text with the mistake
    trying      one mistake in a copy of the checkout: noticed or not, and by what
"""
