"""What a ruleset assumes and what is worked out: clauses that name computed terms, checked against published numbers.

Dew points: psychrolib 2.5.0 and CoolProp 8.0.0 agree on them to 0.01 F (computed with these libraries). Surface
temperatures: computed with the correlations of `ht` 1.2.0 and the air of CoolProp. Adjusted thickness: ASHRAE
90.1-2019, Table 6.8.3-1, worked for 3/4 in copper tube in the comments of an open multifamily measure of a national
laboratory, and recomputed for steel by the formula of the table's note.
"""

from __future__ import annotations

import pytest

from speccheck.judge import Judge, Verdict
from speccheck.judge.cell import Cell
from speccheck.language import parse_ruleset
from speccheck.schedule.words import line_in_words

HEAD = 'ruleset "Worked out"\n  speaks mechanical insulation\n'


def judged(ruleset: str, line: str) -> Cell:
    """Return what the only clause of a ruleset makes of a line in words."""
    loaded = parse_ruleset(HEAD + ruleset)
    assert loaded.ruleset is not None, loaded.diagnostics
    assert not loaded.diagnostics
    stated, diagnostics = line_in_words(line, loaded.ruleset.vocabulary)
    assert not diagnostics
    return Judge(loaded.ruleset).cell(0, stated)


@pytest.mark.parametrize(
    ("air", "humidity", "dew_point"),
    [("80 F", "90 %", 76.80), ("75 F", "50 %", 55.12), ("90 F", "80 %", 82.99), ("70 F", "50 %", 50.53)],
)
def test_dew_point_lies_where_the_libraries_put_it(air: str, humidity: str, dew_point: float) -> None:
    """A clause that holds the dew point between 0.05 F under and over the libraries' value is met."""
    clause = f'clause 1 "Dew point"\n  shall dew point be between {dew_point - 0.05} F and {dew_point + 0.05} F\n'
    cell = judged(clause, f"ambient temperature {air}, relative humidity {humidity}")
    assert cell.verdict is Verdict.COMPLIES


@pytest.mark.parametrize(
    ("emittance", "operating", "ambient", "thickness", "conductivity", "surface"),
    [
        ("0.9", "82 C", "24 C", "38 mm", "0.040 W/(m.K)", 29.217),
        ("0.1", "150 C", "24 C", "50 mm", "0.045 W/(m.K)", 40.223),
        ("0.9", "5 C", "27 C", "25 mm", "0.036 W/(m.K)", 24.084),
        ("0.1", "5 C", "27 C", "25 mm", "0.036 W/(m.K)", 21.433),
    ],
)
def test_surface_temperature_agrees_with_independent_solutions(
    emittance: str, operating: str, ambient: str, thickness: str, conductivity: str, surface: float
) -> None:
    """A 114.3 mm pipe whose insulation is exactly as thick as stated has the surface temperature of the libraries."""
    outside = 114.3 + 2 * float(thickness.split()[0])
    clause = f'clause 1 "Surface"\n  shall surface temperature be between {surface - 0.05} C and {surface + 0.05} C\n'
    line = (
        f"pipe outside diameter 114.3 mm, insulation outside diameter {outside} mm, thickness {thickness}, "
        f"conductivity {conductivity}, jacket emittance {emittance}, operating temperature {operating}, "
        f"ambient temperature {ambient}"
    )
    assert judged(clause, line).verdict is Verdict.COMPLIES


@pytest.mark.parametrize(
    ("clause", "line", "least", "enough"),
    [
        ("1-1/2 in adjusted from 0.29", "0.46|0.875 in", "4.197 in", "4.199 in"),
        ("2 in adjusted from 0.29", "0.20|2.375 in", "1.1586 in", "1.1588 in"),
        ("2 in adjusted from 0.25", "0.20|2.375 in", "1.4287 in", "1.4289 in"),
        ("1-1/2 in adjusted from 0.29", "0.30|1.315 in", "1.5901 in", "1.5903 in"),
    ],
)
def test_adjusted_thickness_is_that_of_the_published_formula(clause: str, line: str, least: str, enough: str) -> None:
    """Just under the adjusted thickness does not comply, just over it does; the named end of the range counts."""
    conductivity, diameter = line.split("|")
    rule = (
        f'clause 1 "Adjusted"\n  shall thickness be at least {clause} Btu.in/(h.ft2.F) to conductivity '
        "around pipe outside diameter\n"
    )
    stated = f"conductivity {conductivity} Btu.in/(h.ft2.F), pipe outside diameter {diameter}, thickness"
    assert judged(rule, f"{stated} {least}").verdict is Verdict.FAILS
    assert judged(rule, f"{stated} {enough}").verdict is Verdict.COMPLIES


SWEAT = """
assume ambient temperature is 80 F
  where  location is mechanical room
  source "design conditions of the project" seen
assume relative humidity is 90 %
clause 1 "No sweating"
  shall surface temperature be at least dew point
"""
LINE = (
    "pipe size 4 in, pipe material steel, insulation elastomeric foam, conductivity 0.25 Btu.in/(h.ft2.F), "
    "jacket none, operating temperature 42 F, thickness 1 in"
)


def test_what_a_ruleset_assumes_stands_where_the_line_states_nothing() -> None:
    """The design room of the ruleset makes the verdict possible, and the notes say what was assumed and by whom."""
    cell = judged(SWEAT, f"{LINE}, location mechanical room")
    assert cell.verdict is Verdict.FAILS
    assert cell.notes == (
        "ambient temperature 80 F is assumed by Worked out (design conditions of the project (seen))",
        "relative humidity 90 % is assumed by Worked out",
    )


def test_what_a_line_states_wins_over_what_is_assumed() -> None:
    """In a dry room that the line states, the same pipe does not sweat, and nothing is said to be assumed."""
    cell = judged(SWEAT, f"{LINE}, location mechanical room, ambient temperature 75 F, relative humidity 50 %")
    assert cell.verdict is Verdict.COMPLIES
    assert cell.notes == ()


def test_an_assumption_outside_its_scope_does_not_stand() -> None:
    """Outdoors, or where the place is not stated, the ruleset assumes no air temperature, and nothing can be told."""
    for location in (", location outdoor", ""):
        cell = judged(SWEAT, LINE + location)
        assert cell.verdict is Verdict.CANNOT_TELL
        assert cell.missing == ("ambient temperature",)


def test_data_that_a_computed_value_needs_are_named() -> None:
    """Without the pipe's material its diameter is not known, and that, not the surface temperature, is asked for."""
    line = LINE.replace("pipe material steel, ", "")
    cell = judged(SWEAT, f"{line}, location mechanical room")
    assert cell.verdict is Verdict.CANNOT_TELL
    assert cell.missing == ("pipe material",)
    assert cell.reason == "pipe material is not given (needed for surface temperature)"


def test_a_bright_jacket_on_a_cold_line_is_the_fault() -> None:
    """Two inches keep a bare elastomeric line dry; a bright aluminum jacket over the same insulation sweats."""
    thick = LINE.replace("thickness 1 in", "thickness 2 in") + ", location mechanical room"
    assert judged(SWEAT, thick).verdict is Verdict.COMPLIES
    bright = thick.replace("jacket none", "jacket aluminum, jacket surface bright")
    assert judged(SWEAT, bright).verdict is Verdict.FAILS


def test_the_working_of_a_computed_value_goes_with_the_cell() -> None:
    """The steps name the value, its method with its source, its inputs with where they came from, and its parts."""
    steps = [step for step in judged(SWEAT, f"{LINE}, location mechanical room").steps if step.part == "computed"]
    assert steps[0].text.startswith("surface temperature is 75.8 F")
    assert "Churchill" in steps[0].detail
    texts = " ".join(step.text for step in steps)
    assert "pipe outside diameter is 4-1/2 in" in texts
    assert "insulation outside diameter" in texts
    assert "dew point is 76.8 F" in texts
    assert "orientation horizontal (assumed)" in texts


def test_a_stated_value_that_the_physics_contradicts_is_not_used() -> None:
    """A contractor's surface temperature gives way to the one worked out, and the note tells both."""
    cell = judged(SWEAT, f"{LINE}, location mechanical room, surface temperature 79 F")
    assert cell.verdict is Verdict.FAILS
    note = "surface temperature is stated as 79 F; worked out, it is 75.8 F, which is what was used"
    assert note in cell.notes


@pytest.mark.parametrize("stated", ["130 F", "150 F"])
def test_a_stated_value_of_a_computed_term_is_not_verified(stated: str) -> None:
    """A surface temperature that is typed in decides nothing: it is shown, with what would let it be worked out."""
    rule = 'clause 1 "Touch"\n  where insulation is fiberglass\n  shall surface temperature be at most 140 F\n'
    line = "insulation fiberglass, component pipe, pipe outside diameter 4.5 in, jacket emittance 0.9, thickness 1 in"
    cell = judged(rule, f"{line}, operating temperature 350 F, ambient temperature 80 F, surface temperature {stated}")
    assert cell.verdict is Verdict.CANNOT_TELL
    assert cell.missing == ("conductivity",)
    assert cell.reason == (
        f"surface temperature {stated} is stated, not verified; conductivity is not given (needed for surface "
        "temperature)"
    )
    assert cell.notes == (
        f"surface temperature {stated} is stated, not verified; it cannot be worked out: needs conductivity",
    )


def test_a_stated_input_that_is_computed_itself_stands_for_nothing() -> None:
    """A dew point that is typed in keeps no line dry: the humidity that it follows from has to be stated."""
    rule = 'clause 1 "Dry"\n  shall thickness be at least condensation thickness\n'
    cell = judged(rule, f"{LINE}, location mechanical room, dew point 30 F".replace("relative humidity 80 %, ", ""))
    assert cell.verdict is Verdict.CANNOT_TELL
    assert "relative humidity" in cell.missing


def test_what_may_be_computed_or_stated_stands_as_stated() -> None:
    """A pipe whose outside diameter is measured needs no size and no material."""
    rule = 'clause 1 "Small"\n  shall pipe outside diameter be at most 2 in\n'
    cell = judged(rule, "pipe outside diameter 1.9 in")
    assert cell.verdict is Verdict.COMPLIES
    assert any("as the schedule states it" in note for note in cell.notes)


def test_an_assumed_value_of_a_computed_term_stands_whatever_is_stated() -> None:
    """A ruleset that assumes a dew point means it: a line gains nothing by stating another, nor by stating none."""
    rule = 'assume dew point is 60 F\nclause 1 "Dry"\n  shall operating temperature be at least dew point\n'
    told = [judged(rule, f"operating temperature 55 F{stated}").verdict for stated in ("", ", dew point 40 F")]
    assert told == [Verdict.FAILS, Verdict.FAILS]


def test_what_complies_on_an_assumption_says_so() -> None:
    """A line complies on the assumption of its ruleset's ambient temperature, and on none where it states its own."""
    rule = (
        "assume ambient temperature is 80 F\n"
        'clause 1 "Warm"\n  shall operating temperature be at least ambient temperature\n'
    )
    cell = judged(rule, "operating temperature 90 F")
    assert [(one.term, str(one.value)) for one in cell.assumed] == [("ambient temperature", "80 F")]
    assert cell.reason.endswith("complies on the assumption that ambient temperature 80 F holds")
    assert judged(rule, "operating temperature 90 F, ambient temperature 80 F").assumed == ()


def test_a_range_of_temperatures_is_worked_out_all_along() -> None:
    """A line from 42 F to 70 F complies only where it is warm, and the finding names the cold part of the range."""
    line = LINE.replace("operating temperature 42 F", "operating temperature 42 F to 70 F")
    cell = judged(SWEAT, f"{line}, location mechanical room")
    assert cell.verdict is Verdict.FAILS
    assert len(cell.at) == 1
    assert cell.at[0].startswith("operating temperature 42 F to")
