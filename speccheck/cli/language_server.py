"""`speccheck language-server`: the language server for text editors, over standard input and output."""

from __future__ import annotations

import click

from speccheck.cli import UNUSABLE
from speccheck.cli.inputs import show


@click.command()
def command() -> int:
    """Help a text editor with rulesets and vocabularies, as a language server.

    Speaks the Language Server Protocol over standard input and output: mistakes
    while they are written, the meaning of names, completion, definitions, the
    house style, and the examples. Needs the extra `editor`.

    \b
    Example:
      speccheck language-server

    Exit status: 0 the editor ended it, 3 the library for it is not installed.
    """
    from speccheck.editor.server import missing_library, serve

    problem = missing_library()
    if problem is not None:
        show([problem])
        return UNUSABLE
    serve()
    return 0
