"""`speccheck guide`: what the code of a diagnostic means."""

from __future__ import annotations

import click


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

    from speccheck.language.codes import DIAGNOSTICS as LANGUAGE
    from speccheck.proofread.codes import DIAGNOSTICS as PROOFREADING
    from speccheck.report.codes import DIAGNOSTICS as REPORT
    from speccheck.review.codes import DIAGNOSTICS as REVIEW
    from speccheck.submittal.codes import DIAGNOSTICS as SUBMITTAL

    known = {**LANGUAGE, **SUBMITTAL, **REVIEW, **PROOFREADING, **REPORT}
    if code is None:
        for one, (title, _) in known.items():
            click.echo(f"{one}  {title}")
        return 0
    if code.upper() not in known:
        raise click.UsageError(f"no diagnostic has the code `{code}`; list them all with `speccheck guide`")
    title, explanation = known[code.upper()]
    click.echo(f"{code.upper()}: {title}\n\n{fill(explanation, 78)}")
    return 0
