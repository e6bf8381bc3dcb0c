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

    from speccheck.report.all_codes import all_codes

    known = all_codes()
    if code is None:
        for one, (title, _) in known.items():
            say(f"{one}  {title}")
        return 0
    if code.upper() not in known:
        raise click.UsageError(f"no diagnostic has the code `{code}`; list them all with `speccheck guide`")
    title, explanation = known[code.upper()]
    say(f"{code.upper()}: {title}\n\n{fill(explanation, 78)}")
    return 0
