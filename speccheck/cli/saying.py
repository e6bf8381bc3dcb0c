"""One way to print a sentence: what a file, or its name, holds never reaches the terminal as a control code."""

from __future__ import annotations

import click

from speccheck.report.escaping import plain


def say(text: str = "", *, err: bool = False, nl: bool = True) -> None:
    """Print a text; each control code and direction mark in it is one space, new lines stay."""
    click.echo(cleaned(text), err=err, nl=nl)


def say_again(text: str) -> None:
    """Print a text over the line that the cursor stands on, for a count that goes up."""
    click.echo(f"\r{cleaned(text)}", nl=False, err=True)


def cleaned(text: str) -> str:
    """Return a text of several lines without control codes and direction marks."""
    return "\n".join(map(plain, text.split("\n")))
