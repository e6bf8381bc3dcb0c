"""`speccheck terms`: the terms of a vocabulary, with their kinds, their values and what schedules call them."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import show
from speccheck.cli.saying import say
from speccheck.inputs import usable_vocabulary


@click.command()
@click.argument("name", default="mechanical insulation")
@click.option("--about", default="", metavar="WORDS", help="Only terms whose name, meaning or synonyms hold WORDS.")
@click.option("--names", is_flag=True, help="Only the names, one a line.")
def command(name: str, about: str, names: bool) -> int:
    """List the terms of a vocabulary: NAME of a shipped one, or its file.

    \b
    Example:
      speccheck terms --about "vapor stop"

    Exit status: 0 terms were listed, 2 no term holds the words, 3 the vocabulary
    cannot be used.
    """
    from speccheck.report.terminal.terms import print_terms, terms_about

    vocabulary, diagnostics = usable_vocabulary(Path(name) if Path(name).exists() else name)
    show(diagnostics)
    found = terms_about(vocabulary, about)
    if names:
        for term in found:
            say(term.name)
    else:
        print_terms(vocabulary, found)
    return 0 if found else 2
