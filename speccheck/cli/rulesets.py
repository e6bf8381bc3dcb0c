"""`speccheck rulesets`: the shipped rulesets, what they were taken from, and what is not there."""

from __future__ import annotations

import click

from speccheck.language.core.sources import Confidence

MARKS = [str(mark) for mark in Confidence if mark]


@click.command()
@click.option("--place", default="", metavar="WORDS", help="Only what is in force where WORDS says: `Germany`.")
@click.option("--about", default="", metavar="WORDS", help="Only what is about WORDS: `fire`, `ducts`.")
@click.option("--mark", type=click.Choice(MARKS), help="Only rulesets with a source that is so sure.")
def command(place: str, about: str, mark: str | None) -> int:
    """List the shipped rulesets: document, edition, place, how sure the values are.

    What one might look for and is not there is listed too, with the reason.

    \b
    Example:
      speccheck rulesets --place Germany

    Exit status: 0 rulesets were listed, 2 none is there.
    """
    from speccheck.report.terminal.rulesets import print_rulesets
    from speccheck.review.catalogue import Wanted, absent, shipped

    wanted = Wanted(place, about, mark or "")
    found = shipped(wanted)
    print_rulesets(found, absent(wanted), brief=wanted == Wanted())
    return 0 if found else 2
