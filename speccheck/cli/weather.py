"""`speccheck weather`: what a weather file says of humidity, and a ruleset that assumes its hours."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import FILE, UNITS, note_read
from speccheck.cli.outputs import Outputs, replace_option
from speccheck.inputs import UnusableInput

SHARES = (0.004, 0.01, 0.02, 0.05)


@click.command()
@click.argument("file", type=FILE)
@click.option("--into", type=FILE, metavar="FILE", help="Write a ruleset that assumes the hours, for projects to use.")
@click.option("--units", type=UNITS, default="inch-pound", show_default=True, help="Units to answer in.")
@replace_option
def command(file: Path, into: Path | None, units: str, replace: bool) -> int:
    """Sum up a weather file in the open EPW format.

    How many hours are humid, which month is most humid, and what dew point few
    hours exceed.

    With `--into` its hours stand in a ruleset that a project builds on; clauses
    then know in how many of them a surface sweats, and what water a year brings.

    \b
    Example:
      speccheck weather examples/weather/emberlow-hollow.epw
          --into weather.clauses

    Exit status: 0, or 3 where the file or the call cannot be used.
    """
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.report.terminal.weather import print_weather
    from speccheck.review.weather_file import read_weather_file, ruleset_of

    note_read(file)
    outputs = Outputs({"into": into}, replace=replace)
    found = read_weather_file(file)
    if isinstance(found, Diagnostic):
        raise UnusableInput(f"the weather file {file.name} cannot be used", [found])
    if "into" in outputs:
        outputs.write("into", ruleset_of(found))
    if not outputs.own_the_screen:
        print_weather(found, SHARES, units)
    return outputs.finish(0)
