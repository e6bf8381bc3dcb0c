"""Lines checked against one another: worked out by hand from rules 12.1 to 12.6 of grammar/README.md. All invented."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import permutations
from pathlib import Path

import pytest

from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread
from speccheck.report.json.report import render_json
from speccheck.report.sections import sections
from speccheck.review.line_relations import relations_of
from speccheck.review.outcome import Standing, outcome_of
from speccheck.review.reviewing import judge_schedule
from speccheck.schedule.lines import Datum, Line, Schedule
from tests.some import some

PIPE = {"component": "pipe", "service": "CHW", "pipe size": "1 in to 4 in", "insulation": "cellular glass"}
PIPE |= {"thickness": "2 in", "fitting insulation": "mitered"}
VALVE = {
    "component": "valve",
    "service": "CHW",
    "pipe size": "2 in",
    "insulation": "cellular glass",
    "thickness": "2 in",
}
ROOM = {"component": "duct", "location": "mechanical room", "room": "101", "jacket": "PVC"}
RUN = {"component": "pipe", "service": "DHW", "run length": "20 ft"}

Stated = Mapping[str, str]
Told = list[tuple[tuple[str, ...], str, str]]


@pytest.fixture(scope="module")
def ruleset() -> Ruleset:
    """Return the ruleset with a relation of each sort."""
    loaded = load_ruleset(Path(__file__).parent / "line_relations.clauses")
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def line(name: str, stated: Stated, ruleset: Ruleset) -> Line:
    """Return a line that states some values."""
    data = {}
    for term, text in stated.items():
        value = read_value(text, ruleset.vocabulary.terms[term], BareUnits())
        assert not isinstance(value, Misread), value
        data[term] = Datum(value, text)
    return Line(name, data)


def told(ruleset: Ruleset, relation: str, **stated: Stated) -> Told:
    """Return the findings of one relation on some lines: which lines, the verdict, the reason."""
    lines = [line(name, one, ruleset) for name, one in stated.items()]
    return [(f.lines, str(f.verdict), f.reason) for f in relations_of(ruleset, lines) if f.relation.name == relation]


@pytest.mark.parametrize(
    ("valve", "expected"),
    [
        (VALVE, (("V", "P"), "complies", "1 comparison of lines made")),
        (
            {**VALVE, "insulation": "fiberglass"},
            (("V", "P"), "does not comply", "insulation fiberglass on V, cellular glass on P"),
        ),
        (
            {name: text for name, text in VALVE.items() if name != "thickness"},
            (("V", "P"), "cannot be determined", "thickness not given on V, 2 in on P"),
        ),
        ({**VALVE, "pipe size": "6 in"}, ((), "not applicable", "no lines of the schedule belong together by it")),
        ({**VALVE, "service": "HHW"}, ((), "not applicable", "no lines of the schedule belong together by it")),
    ],
    ids=["the same", "another insulation", "no thickness", "another size", "another service"],
)
def test_lines_that_belong_together_have_the_same(
    ruleset: Ruleset, valve: Stated, expected: tuple[tuple[str, ...], str, str]
) -> None:
    """A valve of 2 in belongs to the pipe of 1 to 4 in of its service; both lines are named."""
    assert told(ruleset, "3.4.D", V=valve, P=PIPE) == [expected]


def test_where_it_is_not_known_what_belongs_together_nothing_fails(ruleset: Ruleset) -> None:
    """A valve without a size may be of that pipe: what differs is open, what is the same either way complies."""
    unsized = {name: text for name, text in VALVE.items() if name != "pipe size"}
    assert told(ruleset, "3.4.D", V={**unsized, "insulation": "fiberglass"}, P=PIPE) == [
        (
            ("V", "P"),
            "cannot be determined",
            "insulation fiberglass on V, cellular glass on P; pipe size is not given on V",
        )
    ]
    assert [one[1] for one in told(ruleset, "3.4.D", V=unsized, P=PIPE)] == ["complies"]


def test_ranges_that_differ_where_they_meet_are_open(ruleset: Ruleset) -> None:
    """Of two thickness ranges that share a value it is not known which size has which; apart, they differ."""
    found = told(ruleset, "3.4.D", V={**VALVE, "thickness": "1 in to 2 in"}, P=PIPE)
    assert [one[1] for one in found] == ["cannot be determined"]
    found = told(ruleset, "3.4.D", V={**VALVE, "thickness": "1/2 in to 1 in"}, P=PIPE)
    assert [one[1] for one in found] == ["does not comply"]


def test_each_line_has_another_one_beside_it(ruleset: Ruleset) -> None:
    """A pipe without a line for its valves fails, unless it says that it includes them; the valve's line settles it."""
    bare = {name: text for name, text in PIPE.items() if name != "fitting insulation"}
    missing = [(("P",), "does not comply", "no line of the schedule stands beside it")]
    assert told(ruleset, "3.4.E", P=bare) == missing
    assert told(ruleset, "3.4.E", P=bare, V={**VALVE, "pipe size": "6 in"}) == missing
    assert [one[1] for one in told(ruleset, "3.4.E", P=bare, V=VALVE)] == ["complies"]
    assert [one[1] for one in told(ruleset, "3.4.E", P=PIPE)] == ["not applicable"]
    unsized = {name: text for name, text in VALVE.items() if name != "pipe size"}
    assert told(ruleset, "3.4.E", P=bare, V=unsized) == [
        (
            ("P",),
            "cannot be determined",
            "it is not known whether line V stands beside it: pipe size is not given on V",
        )
    ]


def test_lines_of_one_room_are_compared_two_at_a_time(ruleset: Ruleset) -> None:
    """Three ducts of a room with one other jacket: each pair that differs is told, the pair that agrees is counted."""
    found = told(ruleset, "3.4.F", A=ROOM, B=ROOM, C={**ROOM, "jacket": "aluminum"}, D={**ROOM, "room": "102"})
    assert found == [
        (("A", "C"), "does not comply", "jacket PVC on A, aluminum on C"),
        (("B", "C"), "does not comply", "jacket PVC on B, aluminum on C"),
        (("A", "B"), "complies", "1 comparison of lines made"),
    ]


@pytest.mark.parametrize(
    ("length", "verdict", "reason"),
    [
        ("30 ft", "complies", "1 comparison of lines made"),
        ("31 ft", "does not comply", "run length comes to 51 ft, to be at most 50 ft"),
        (
            "TBD",
            "cannot be determined",
            "run length comes to 20 ft or more, to be at most 50 ft; run length is not given on B",
        ),
        ("25 ft to 40 ft", "cannot be determined", "run length comes to 45 ft to 60 ft, to be at most 50 ft"),
    ],
)
def test_a_total_over_the_lines_of_a_system(ruleset: Ruleset, length: str, verdict: str, reason: str) -> None:
    """20 ft and another length, against 50 ft in all; what is not known could be any length."""
    found = told(ruleset, "3.4.G", A=RUN, B={**RUN, "run length": length}, C={**RUN, "service": "CHW"})
    assert found == [(("A", "B"), verdict, reason)]


def test_a_line_of_which_it_is_not_known_whether_it_belongs_leaves_a_total_open(ruleset: Ruleset) -> None:
    """A line of 40 ft without a service may be part of it; with 60 ft that surely are, the limit is missed anyway."""
    other = {"component": "pipe", "run length": "40 ft"}
    assert [one[1] for one in told(ruleset, "3.4.G", A=RUN, B=other)] == ["cannot be determined"]
    long = {**RUN, "run length": "60 ft"}
    assert [one[1] for one in told(ruleset, "3.4.G", A=long, B=other)] == ["does not comply"]


def test_the_order_of_lines_changes_nothing(ruleset: Ruleset) -> None:
    """The same lines in any order give the same findings."""
    stated = {"P": PIPE, "V": {**VALVE, "thickness": "1 in"}, "A": ROOM, "C": {**ROOM, "jacket": "aluminum"}}
    lines = [line(name, one, ruleset) for name, one in stated.items()]
    found = [
        {(f.relation.name, frozenset(f.lines), f.verdict) for f in relations_of(ruleset, order)}
        for order in permutations(lines)
    ]
    assert all(one == found[0] for one in some(found))
    assert {(name, str(verdict)) for name, _, verdict in found[0]} >= {
        ("3.4.D", "does not comply"),
        ("3.4.F", "does not comply"),
    }


def test_a_relation_that_is_not_met_lets_the_schedule_not_comply(ruleset: Ruleset) -> None:
    """Outcome, section and JSON have it; one that cannot be determined keeps a schedule from being told to comply."""
    bare = {name: text for name, text in PIPE.items() if name != "fitting insulation"}
    lines = (line("P", bare, ruleset), line("V", {**VALVE, "thickness": "1 in"}, ruleset))
    matrix = judge_schedule(Schedule("schedule", lines), ruleset)
    outcome = outcome_of(matrix)
    assert (outcome.standing, outcome.status) == (Standing.FAILS, 1)
    assert outcome.heading == "The schedule does not comply: lines do not go together as the section asks."
    (section,) = [one for one in sections(matrix) if one.anchor == "relations"]
    assert section.rows[0] == (
        "does not comply",
        "3.4.D Fittings as their pipe",
        "V, P",
        "thickness 1 in on V, 2 in on P",
    )
    assert '"verdict": "does not comply"' in render_json(matrix)
    unsized = {name: text for name, text in VALVE.items() if name != "pipe size"}
    open_ones = (lines[0], line("V", unsized, ruleset))
    assert outcome_of(judge_schedule(Schedule("schedule", open_ones), ruleset)).standing is Standing.CANNOT_TELL
