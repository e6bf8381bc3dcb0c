"""The working behind a reason, and the notes that go with it."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import speccheck
from speccheck.judge import Cell, Judge, Step
from speccheck.judge.explain.causes import be
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value
from speccheck.quantities import Misread
from speccheck.schedule.lines import Datum, Line
from tests.conformance.cases import load
from tests.some import some

JUDGE = Path(speccheck.__file__).parent / "judge"

GIVEN = """ruleset "case"
speaks "vocabulary"
define cold as operating temperature is less than ambient temperature
table least in inches
  by pipe size
  under 2 in    | 1
  2 in and over | 2
clause 1 "case"
"""


def judged(clause: str, **stated: str) -> Cell:
    """Return the cell of a line by a clause; names of terms are written with `_` for blanks."""
    loaded = load(GIVEN + clause)
    assert loaded.ruleset is not None
    assert loaded.usable
    data = {}
    for name, text in stated.items():
        term = loaded.ruleset.vocabulary.terms[name.replace("_", " ")]
        value = read_value(text, term, BareUnits(system="inch-pound"))
        assert not isinstance(value, Misread)
        data[term.name] = Datum(value, text)
    return Judge(loaded.ruleset).cell(0, Line("1", data))


def test_steps_show_every_condition_with_what_it_compared() -> None:
    """The working has one step for each condition, outer ones first, each with its truth and its values."""
    cell = judged(
        "where cold and not outdoor\nshall thickness be at least least\nexcept where jacket is one of PVC, canvas\n",
        operating_temperature="40 F",
        ambient_temperature="75 F",
        outdoor="no",
        thickness="1 in",
        pipe_size="3 in",
        jacket="aluminum",
    )
    assert cell.steps == (
        Step("where", 0, True, "cold and not outdoor"),
        Step("where", 1, True, "cold"),
        Step(
            "where",
            2,
            True,
            "operating temperature is less than ambient temperature",
            "operating temperature is 40 F, less than 75 F (ambient temperature)",
        ),
        Step("where", 1, True, "not outdoor"),
        Step("where", 2, False, "outdoor", "outdoor is no"),
        Step("except", 0, False, "jacket is one of PVC, canvas", "jacket is aluminum, not one of PVC, canvas"),
        Step(
            "shall",
            0,
            False,
            "thickness be at least least",
            "thickness is 1 in, not at least 2 in (least, row 2 in and over)",
        ),
    )


def test_steps_of_a_line_out_of_scope_end_with_the_scope() -> None:
    """What is not judged has no step."""
    cell = judged("where outdoor\nshall thickness be at least 1 in\n", outdoor="no", thickness="1/2 in")
    assert cell.steps == (Step("where", 0, False, "outdoor", "outdoor is no"),)


def test_steps_tell_what_is_not_known() -> None:
    """A step that is not known says which datum is missing; advice has steps of its own."""
    cell = judged("shall thickness be at least 1 in\nshould outdoor\n", outdoor="TBD", thickness="1 in")
    assert cell.steps == (
        Step("shall", 0, True, "thickness be at least 1 in", "thickness is 1 in, at least 1 in"),
        Step("should", 0, None, "outdoor", "outdoor is not given (to be settled later)"),
    )


def test_working_of_a_range_is_that_of_its_first_deciding_case() -> None:
    """The working of a line with a range shows one value at which the verdict came about."""
    cell = judged("shall pipe size be at most 2 in\n", pipe_size="1-1/2 in to 3 in")
    assert cell.at == ("2-1/2 in", "3 in")
    assert cell.reason == "pipe size is 2-1/2 in through 3 in, but must be at most 2 in"
    assert cell.steps == (
        Step("shall", 0, False, "pipe size be at most 2 in", "pipe size is 2-1/2 in, not at most 2 in"),
    )


def test_a_long_list_is_told_in_the_working_alone() -> None:
    """Where one of many values is met the reason names that value; where none is met it names them all."""
    clause = "shall jacket be one of aluminum, stainless steel, PVC, canvas, paint, none\n"
    cell = judged(clause, jacket="PVC")
    assert cell.reason == "jacket is PVC"
    assert cell.steps[0].text == "jacket be one of aluminum, stainless steel, PVC, canvas, paint, none"


@pytest.mark.parametrize(
    ("name", "verb"),
    [
        ("thickness", "is"),
        ("vapor stop locations", "are"),
        ("seam adhesive faces", "are"),
        ("critical radius", "is"),
        ("jacket", "is"),
        ("axis", "is"),
        ("layers", "are"),
    ],
)
def test_the_verb_goes_with_the_name(name: str, verb: str) -> None:
    """Names in the plural take "are", names that only end like one take "is"."""
    assert be(name) == verb


def test_words_are_made_in_one_place() -> None:
    """Of the judge, `explain` alone writes values, conditions and lists in words; all else holds facts."""
    writers = {"speccheck.language.core.wording", "speccheck.english", "speccheck.quantities.writing"}
    told = {
        path.relative_to(JUDGE).parts[0]
        for path in some(JUDGE.rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and node.module in writers
    }
    assert told == {"explain"}


def test_a_cell_holds_the_facts_that_it_is_told_from() -> None:
    """Values compared, the table cell that was read, what is missing and for what, are there before any words are."""
    clause = "shall thickness be at least least\n"
    failing = judged(clause, thickness="1 in", pipe_size="3 in")
    outcome = failing.grounds.deciding[0].shall[0]
    assert [str(amount.value) for amount in outcome.amounts] == ["1 in", "2 in"]
    assert [(use.row, use.column) for use in failing.grounds.uses] == [(1, 0)]
    waiting = judged(clause, thickness="1 in")
    (unknown,) = waiting.grounds.deciding[0].unknown
    assert (unknown.term, unknown.cause) == ("pipe size", NotGiven("", "not stated"))
    assert waiting.missing == ("pipe size",)


def test_a_cell_is_put_into_words_once() -> None:
    """The words are made when somebody asks, and the same ones are handed out again."""
    cell = judged("shall thickness be at least least\n", thickness="1 in", pipe_size="3 in")
    assert cell.explanation is cell.explanation
    assert cell.reason == "thickness is 1 in, but must be at least 2 in (least, row 2 in and over)"
