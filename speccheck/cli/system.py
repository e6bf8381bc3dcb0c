"""`speccheck system`: surface temperature, heat flow and minimum thickness of one system."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import FILE, UNITS
from speccheck.cli.outputs import Outputs, replace_option
from speccheck.inputs import UnusableInput, usable_vocabulary


@click.command()
@click.argument("line")
@click.option("--picture", type=FILE, metavar="FILE", help="Write the picture as SVG.")
@click.option(
    "--units", type=UNITS, help="Units to read and to answer in; without it those that the line is written in."
)
@click.option("--title", default="", help="Heading of the picture.")
@replace_option
def command(line: str, picture: Path | None, units: str | None, title: str, replace: bool) -> int:
    """Work one system out: will it sweat, will it burn a hand, how thick must it be.

    LINE states the system in the words of the vocabulary, parted by commas or
    semicolons. Some statements ask for more: `weather` for the hours in which the
    surface sweats, `surroundings temperature`, `solar irradiance` and `sky
    temperature` for the surface among walls, in the sun and at night, `contact
    time` for burns, `tank height` for a whole tank, `service years` for the water
    in the insulation, `vapor stop spacing` for how far a breach reaches, `fluid
    velocity` for the temperature at the end of the run, `fluid temperature limit`
    and `ice share` for fluid that stands, `maintained temperature` for heat
    tracing, `hanger loss share` for the heat of the whole run, `operating hours`,
    `energy efficiency`, `energy price` and `carbon factor` for a year, with
    `required thickness` for that thickness beside it, `insulation price per cubic
    metre` for the thickness that pays, `joint factor` for design conductivity,
    `burial depth` for a pipe in soil. Layers of several materials are stated as
    `second layer thickness` and `second layer conductivity`.

    \b
    Example:
      speccheck system "pipe size 4 in, pipe material steel, insulation
          elastomeric foam, conductivity 0.25 Btu.in/(h.ft2.F), jacket emittance
          0.9, operating temperature 42 F, ambient temperature 80 F, relative
          humidity 90 %, thickness 1 in" --picture line.svg

    Exit status: 0 the proposed thickness meets the limits, 1 it does not, 2
    something could not be judged, and what is needed is named, 3 the line cannot
    be read.
    """
    from speccheck.judge.courses import asked_values, courses
    from speccheck.judge.curves import ThicknessCurve, thickness_curve
    from speccheck.language.diagnostics import has_errors
    from speccheck.report.terminal_thickness import print_stopped, print_thickness
    from speccheck.report.thickness_picture import draw_thickness
    from speccheck.schedule.words import line_in_words, units_written_in

    outputs = Outputs({"picture": picture}, replace=replace)
    vocabulary, _ = usable_vocabulary("mechanical insulation")
    units = units or units_written_in(line, vocabulary)
    stated, diagnostics = line_in_words(line, vocabulary, units)
    if has_errors(diagnostics):
        raise UnusableInput("the line cannot be read", diagnostics)
    case = {name: datum.value for name, datum in stated.data.items()}
    curve = thickness_curve(case, units)  # type: ignore[arg-type]
    asked = asked_values(case, units)  # type: ignore[arg-type]
    if not isinstance(curve, ThicknessCurve):
        print_stopped(curve, units, asked)
        return 2
    if "picture" in outputs:  # first, for a reader of the output may stop early
        heading = title or "Surface temperature and heat flow"
        outputs.write("picture", draw_thickness(curve, heading, units, courses(case)))  # type: ignore[arg-type]
    if not outputs.own_the_screen:
        print_thickness(curve, units, asked=asked)
    fails = any(not limit.met_by(curve.proposed) for limit in curve.limits)
    unknown = curve.open or any(working.value is None for working in asked)
    return outputs.finish(1 if fails else 2 if unknown else 0)
