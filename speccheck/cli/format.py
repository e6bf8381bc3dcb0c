"""`speccheck format`: a ruleset or vocabulary file in the house style."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import FILE
from speccheck.cli.outputs import Outputs
from speccheck.cli.saying import say
from speccheck.inputs import UnusableInput


@click.command()
@click.argument("files", nargs=-1, required=True, type=FILE)
@click.option("--check", is_flag=True, help="Change nothing; say which files are not in the house style.")
def command(files: tuple[Path, ...], check: bool) -> int:
    """Put FILES in the house style: keywords in a column, tables aligned.

    Words of sections become those of the language, and values the names that the
    vocabulary has for them. Meaning and comments stay as they are. A file that
    cannot be read is left alone.

    \b
    Example:
      speccheck format project.clauses

    Exit status: 0 all is in the house style, 1 `--check` found a file that is
    not, 3 a file cannot be used.
    """
    from speccheck.language import load_ruleset
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.language.format.house_style import format_text
    from speccheck.language.syntax.source_text import read_source

    outputs = Outputs({} if check else {str(path): path for path in files}, replace=True, theirs=True)
    changed = 0
    for path in files:
        source = read_source(path)
        if isinstance(source, Diagnostic):
            raise UnusableInput(f"{path.name} cannot be formatted", [source])
        ruleset = load_ruleset(path, drafts=True).ruleset
        formatted = format_text(source, ruleset.vocabulary if ruleset is not None else None)
        if not isinstance(formatted, str):
            raise UnusableInput(f"{path.name} cannot be formatted", formatted)
        if formatted == source.text:
            continue
        changed += 1
        if check:
            say(f"{path.name} is not in the house style")
        else:
            outputs.write(str(path), formatted)
    return outputs.finish(1 if check and changed else 0)
