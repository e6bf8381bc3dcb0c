"""The design list checked against the schedule: omissions, lines without a system, disagreements, clashes."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.review.matrix import Matrix
from speccheck.review.omissions import check_against_design, clashing_lines
from speccheck.review.outcome import outcome_of
from speccheck.review.reviewing import review_matrix
from speccheck.schedule import Schedule, read_schedule
from speccheck.schedule.lines import Line
from tests.review.rounds import line_of, line_with, matrix_of, plant, ruleset, value

HEADER = "Tag,Service,Element,Location,Size,Op temp (F),Touch hazard\n"


def design_of(tmp_path: Path, rows: str, name: str = "design.csv", header: str = HEADER) -> Schedule:
    """Return a design list with some rows."""
    path = tmp_path / name
    path.write_text(header + rows, encoding="utf-8")
    design = read_schedule(path, ruleset().vocabulary)
    assert design.lines, design.diagnostics
    return design


def found_by(design: Schedule, lines: tuple[Line, ...] | None = None) -> list[Diagnostic]:
    """Return what the design list and the plant's lines have to say of one another, lines without a system apart."""
    schedule = Schedule("plant.csv", plant() if lines is None else lines)
    found = check_against_design(schedule, design, ruleset())
    return [one.diagnostic for one in found if one.diagnostic.code != "V104"]


def test_covered_system_is_not_spoken_of(tmp_path: Path) -> None:
    """P-1 and P-2 together stand for 1/2 in to 4 in chilled water, P-6 to P-8 for hot water but for one size."""
    assert found_by(design_of(tmp_path, 'S-1,CHW,pipe,mech room,"1/2"" to 4""",42 to 48,\n')) == []


def test_system_without_a_line(tmp_path: Path) -> None:
    """Glycol in the mechanical room has no line; chilled water there is the nearest. A whole diagnostic."""
    (found,) = found_by(design_of(tmp_path, 'S-1,glycol,pipe,mech room,"2""",45,\n'))
    assert found == Diagnostic(
        "V101",
        Severity.WARNING,
        "no line of the schedule covers design system `S-1` (glycol, pipe, mechanical room, 2 in, 45 F)",
        Place("design.csv", cell="A2"),
        "`P-2` has another service: chilled water",
    )


def test_sizes_that_no_line_covers_are_named(tmp_path: Path) -> None:
    """5 in, 6 in and 8 in chilled water has no line in the mechanical room; a whole diagnostic."""
    (found,) = found_by(design_of(tmp_path, 'S-1,CHW,pipe,mech room,"3"" to 8""",44,\n'))
    assert found == Diagnostic(
        "V102",
        Severity.WARNING,
        "nothing covers design system `S-1` (chilled water, pipe, mechanical room, 3 in through 8 in, 44 F) "
        "at 5 in through 8 in; `P-2` covers the rest",
        Place("design.csv", cell="A2"),
        "`P-3`, `P-4` and `P-5` have another location: outdoor",
    )


def test_temperatures_that_no_line_covers_are_named(tmp_path: Path) -> None:
    """Lines for 42 F to 48 F leave the colder part of 38 F to 44 F without a line."""
    (found,) = found_by(design_of(tmp_path, 'S-1,CHW,pipe,mech room,"1""",38 to 44,\n'))
    assert found.code == "V102"
    assert "at 1 in at 38 F to under 42 F; `P-1` covers the rest" in found.message


def test_line_that_leaves_its_temperature_open_covers_perhaps(tmp_path: Path) -> None:
    """P-7 has its temperature to be determined, so that whether it covers 2-1/2 in at 180 F cannot be determined."""
    (found,) = found_by(design_of(tmp_path, 'S-1,HHW,pipe,mech room,"1"" to 4""",180,\n'))
    assert found == Diagnostic(
        "V103",
        Severity.WARNING,
        "whether `P-7` covers design system `S-1` (heating hot water, pipe, mechanical room, 1 in through 4 in, "
        "180 F) at 2-1/2 in cannot be determined: it leaves `operating temperature` open",
        Place("design.csv", cell="A2"),
        "ask for what is left open",
    )


def test_design_without_sizes_or_temperatures_asks_for_none(tmp_path: Path) -> None:
    """A list of services and locations alone is covered by any line there, whatever its size and temperature."""
    rows = "S-1,CHW,pipe,outdoor,,,\nS-2,DHW,pipe,conditioned,,,\n"
    assert found_by(design_of(tmp_path, rows)) == []


def test_valve_covers_no_pipe(tmp_path: Path) -> None:
    """P-11 is for 2 in valves; without P-6 no line stands for 2 in pipe, and the valve is the nearest line."""
    lines = tuple(line for line in plant() if line.name == "P-11")
    (found,) = found_by(design_of(tmp_path, 'S-1,HHW,pipe,mech room,"2""",180,\n'), lines)
    assert (found.code, found.help) == ("V101", "`P-11` has another component: valve")


def test_valve_covers_no_system_of_a_list_without_components(tmp_path: Path) -> None:
    """A list that does not say what is insulated means pipe; the valve line P-11 covers nothing of it."""
    lines = tuple(line for line in plant() if line.name == "P-11")
    (found,) = found_by(design_of(tmp_path, 'S-1,HHW,,mech room,"2""",180,\n'), lines)
    assert found.code == "V101"


def test_design_line_that_says_nothing(tmp_path: Path) -> None:
    """A line of the list that has only a name is told, and nothing is checked against it."""
    found = found_by(design_of(tmp_path, 'S-1,,,,,,yes\nS-2,CHW,pipe,outdoor,"4""",44,\n'))
    assert [(one.code, one.message) for one in found] == [
        ("V107", "design line `S-1` says nothing that tells it from other systems")
    ]


def test_line_for_which_the_design_has_nothing(tmp_path: Path) -> None:
    """With a list of chilled water alone, every other line is a note; valves and fittings belong to their pipe."""
    rows = 'S-1,CHW,pipe,,,,\nS-2,HHW,pipe,mech room,"1"" to 12""",180,\n'
    found = check_against_design(Schedule("plant.csv", plant()), design_of(tmp_path, rows), ruleset())
    alone = [one for one in found if one.diagnostic.code == "V104"]
    assert [one.lines for one in alone] == [("P-9",), ("P-10",)]
    assert alone[0].diagnostic == Diagnostic(
        "V104",
        Severity.NOTE,
        "the design has nothing for line `P-9` (steam, pipe, mechanical room, horizontal, 2 in, 250 F)",
        Place("plant.csv", cell="A10"),
        "design system `S-1` differs in service alone",
    )


def test_line_that_disagrees_with_the_design(tmp_path: Path) -> None:
    """The list has the steam line out of reach, the schedule within; both are told."""
    (found,) = found_by(design_of(tmp_path, 'S-1,steam,pipe,mech room,"2""",250,no\n'))
    assert (found.code, found.message) == (
        "V106",
        "line `P-9` and design system `S-1` differ: within reach yes on the line, no in the design",
    )


def test_omission_keeps_a_schedule_from_complying(tmp_path: Path) -> None:
    """P-1 complies with everything; with a system that no line covers, the whole cannot be determined to comply."""
    lines = (line_of("P-1"),)
    assert outcome_of(matrix_of(lines)).status == 0
    design = design_of(tmp_path, 'S-1,CHW,pipe,mech room,"1""",44,\nS-2,glycol,pipe,,,,\n')
    reviewed: Matrix = review_matrix(matrix_of(lines), design=design)
    assert [one.diagnostic.code for one in reviewed.observations] == ["V101"]
    assert outcome_of(reviewed).status == 2


# ---- two lines for one system ------------------------------------------------------------------------------------


def clashes(*lines: Line) -> list[str]:
    """Return the messages of the clashes among lines."""
    return [one.diagnostic.message for one in clashing_lines(Schedule("plant.csv", lines), ruleset())]


def test_lines_of_the_plant_do_not_clash() -> None:
    """P-3 and P-4 stand for 4 in chilled water outdoors, one lies and one stands."""
    assert clashes(*plant()) == []


def test_two_lines_for_one_size_that_disagree() -> None:
    """Where ranges of two lines meet, what differs is told with the sizes; a whole observation."""
    one, other = line_of("P-1"), line_with(line_of("P-2"), pipe_size=value("pipe size", "1 in to 2 in"))
    (found,) = clashing_lines(Schedule("plant.csv", (one, other)), ruleset())
    assert found.lines == ("P-1", "P-2")
    assert found.diagnostic == Diagnostic(
        "V105",
        Severity.WARNING,
        "lines `P-1` and `P-2` both stand for one system at 1 in and 1-1/4 in and disagree: thickness 1 in and "
        "1/2 in; vapor stop spacing 15 ft and 12 ft",
        Place("plant.csv", cell="A3"),
        "ask which of the two is meant, or what tells the systems apart",
    )


@pytest.mark.parametrize(
    ("term", "text"),
    [
        ("thickness", "25.4 mm"),
        ("conductivity", "0.036 W/(m.K)"),
        ("operating temperature", "5.6 C to 8.9 C"),
        ("thickness", "TBD"),
        ("notes", "another remark"),
        ("product", "another name"),
    ],
)
def test_same_in_other_words_is_no_clash(term: str, text: str) -> None:
    """Other units, a datum that is to be determined, and words that are never judged are no disagreement."""
    one = line_of("P-1")
    assert clashes(one, line_with(one, **{term: value(term, text)})) == []


@pytest.mark.parametrize(
    ("term", "text"),
    [("service", "glycol"), ("location", "outdoor"), ("pipe size", "2 in"), ("operating temperature", "50 F")],
)
def test_lines_for_different_systems_do_not_clash(term: str, text: str) -> None:
    """Another service, location, size or temperature is another system, which may have another thickness."""
    one = line_of("P-1")
    other = line_with(one, thickness=value("thickness", "2 in"), **{term.replace(" ", "_"): value(term, text)})
    assert clashes(one, other) == []


def test_line_that_may_be_elsewhere_does_not_clash() -> None:
    """Where a line leaves its location open, nobody knows that it is about the same system."""
    one = line_of("P-1")
    other = line_with(one, thickness=value("thickness", "2 in"), location=value("location", "TBD"))
    assert clashes(one, other) == []
