"""`speccheck guide`: what the code of a diagnostic means."""

from __future__ import annotations

import click

from speccheck.cli.saying import say


@click.command()
@click.argument("code", required=False)
def command(code: str | None) -> int:
    """Say what the CODE of a diagnostic means; without one, list all codes.

    \b
    Example:
      speccheck guide L201

    Exit status: 0, or 3 where no diagnostic has the code.
    """
    from textwrap import fill

    from speccheck.report.all_codes import all_rules, sentences

    known = all_rules()
    if code is None:
        for rule in known.values():
            say(f"{rule.code}  {rule.title}")
        return 0
    if code.upper() not in known:
        raise click.UsageError(f"no diagnostic has the code `{code}`; list them all with `speccheck guide`")
    rule = known[code.upper()]
    say(f"{rule.code}: {rule.title}\n\n{fill(rule.documentation, 78)}")
    told = [fill(one, 78, initial_indent="  ", subsequent_indent="    ") for one in sentences(rule)]
    if told:
        say("\n".join(["\nIt says:", *told]))
    return 0
