"""Words that a ruleset assumes: they stand where a line states none, by the judge and by the columns alike."""

from __future__ import annotations

from speccheck.judge import judge_lines
from speccheck.judge.vectorized import columns_of, judge_columns
from speccheck.language import parse_ruleset
from speccheck.schedule.lines import Line
from speccheck.schedule.words import line_in_words

RULES = """ruleset "A cold room and its weather"
  speaks mechanical insulation

assume weather is "80 F 80 % 8760 h"
  where location is outdoor

assume product is "type 2"

clause 1 "Water in the insulation"
  shall water content be at most 5 %

clause 2 "The product"
  shall product be "type 2"
"""
PIPE = (
    "pipe outside diameter 4.5 in, operating temperature 42 F, ambient temperature 60 F, relative humidity 20 %, "
    "thickness 1 in, conductivity 0.25 Btu.in/(h.ft2.F), permeability 0.1 perm.in, service years 10"
)
LINES = {
    "indoors, where the air is dry": (f"{PIPE}, location conditioned", ("complies", "complies")),
    "outdoors, by the assumed weather": (f"{PIPE}, location outdoor", ("does not comply", "complies")),
    "stated weather goes before it": (
        f"{PIPE}, location outdoor, weather 60 F 20 % 8760 h, product type 3",
        ("complies", "does not comply"),
    ),
}


def test_assumed_words_stand_where_none_are_stated() -> None:
    """Each line is told the same by the judge and by the columns, with an assumed text and without."""
    ruleset = parse_ruleset(RULES).ruleset
    assert ruleset is not None
    lines = [Line(name, line_in_words(words, ruleset.vocabulary)[0].data) for name, (words, _) in LINES.items()]
    columns = judge_columns(ruleset, columns_of(lines, ruleset))
    for row, (cells, (_, verdicts)) in enumerate(zip(judge_lines(ruleset, lines), LINES.values(), strict=True)):
        assert tuple(str(cell.verdict) for cell in cells) == verdicts
        assert tuple(str(columns.verdict(row, clause)) for clause in range(2)) == verdicts
