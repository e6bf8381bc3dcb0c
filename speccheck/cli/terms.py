"""`speccheck terms`: the terms of a vocabulary, with their kinds, their values and what schedules call them."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import show, stop


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
    from speccheck.language import load_vocabulary
    from speccheck.report.terminal.terms import print_terms, terms_about

    loaded = load_vocabulary(Path(name) if Path(name).exists() else name)
    if loaded.vocabulary is None:
        stop(loaded.diagnostics, f"the vocabulary {name} cannot be used")
    show(loaded.diagnostics)
    found = terms_about(loaded.vocabulary, about)
    if names:
        for term in found:
            click.echo(term.name)
    else:
        print_terms(loaded.vocabulary, found)
    return 0 if found else 2
