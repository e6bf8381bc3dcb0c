"""The JSON report: complete, described by its schema, and safe to write."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from typing import Any

import pytest

from speccheck.judge.cell import Explanation, Step
from speccheck.judge.judgement import Basis, Verdict
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.quantities import NOMINAL_SIZES, Quantity
from speccheck.report.json.models import MatrixModel
from speccheck.report.json.report import render_json
from speccheck.review.matrix import Matrix
from speccheck.review.observations import TOPICS, Observation, Topic
from tests.report.small_matrix import explained
from tests.tools.report_schema import PUBLISHED, report_schema

NPS_2 = next(size for size in NOMINAL_SIZES if size.inches == 2)


def test_published_schema_is_current() -> None:
    """The schema file in the package is what the models say."""
    assert PUBLISHED.read_text(encoding="utf-8") == report_schema()


@pytest.mark.parametrize("which", ["plant", "hostile", "large"])
def test_report_has_the_shape_of_its_models(which: str, request: pytest.FixtureRequest) -> None:
    """What is written can be read back by the models, field by field, with nothing left over."""
    written = render_json(request.getfixturevalue(which))
    assert MatrixModel.model_validate_json(written, strict=True).model_dump(mode="json") == json.loads(written)


def test_report_has_the_observations_of_every_topic(plant: Matrix) -> None:
    """What a review brings up, be it the register of what was received or a year of energy, is in the report."""
    found = tuple(
        Observation(Diagnostic(f"{code}01", Severity.NOTE, "a matter", Place("plant.csv")), ("CHW-1",))
        for code in TOPICS
    )
    told = json.loads(render_json(replace(plant, observations=found)))["observations"]
    assert [one["topic"] for one in told] == [topic.value for topic in Topic]


def test_report_is_what_the_schema_names(plant: Matrix) -> None:
    """Walked beside the published schema: every field is one of the schema's, and no required field is missing."""
    schema = json.loads(PUBLISHED.read_text(encoding="utf-8"))
    names = list(differences(json.loads(render_json(plant)), schema, schema))
    assert names == []


def differences(value: Any, schema: dict[str, Any], root: dict[str, Any]) -> Any:
    """Yield where `value` has fields that the schema lacks or lacks fields that it requires (JSON Schema 2020-12)."""
    if "$ref" in schema:
        schema = root["$defs"][schema["$ref"].rsplit("/", 1)[-1]]
    if isinstance(value, dict):
        yield from set(value) - set(schema["properties"])
        yield from set(schema["required"]) - set(value)
        for name, part in value.items():
            yield from differences(part, schema["properties"][name], root)
    elif isinstance(value, list):
        for part in value:
            yield from differences(part, schema["items"], root)
    elif "enum" in schema and value not in schema["enum"]:
        yield value


def test_report_says_what_the_matrix_says(plant: Matrix) -> None:
    """Outcome, counts, cells with their working, and the data to ask for are all there."""
    report = json.loads(render_json(plant))
    assert report["outcome"]["status"] == 1
    assert report["counts"] == {
        "does_not_comply": 1,
        "cannot_be_determined": 2,
        "accepted_deviation": 0,
        "complies": 2,
        "not_checked": 0,
        "not_applicable": 10,
    }
    failing = [cell for cell in report["cells"] if cell["verdict"] == "does not comply"]
    assert [(cell["line"], cell["clause"], cell["at"]) for cell in failing] == [(2, 0, ["2 in"])]
    assert failing[0]["steps"][1] == {
        "part": "shall",
        "depth": 0,
        "holds": False,
        "text": "thickness is at least hot water thickness",
        "detail": "1-1/2 in is less than 2 in",
        "values": [],
    }
    assert [line["verdict"] for line in report["schedule"]["lines"]] == [
        "cannot be determined",
        "cannot be determined",
        "does not comply",
        "complies",
    ]
    assert [(one["line"], one["term"], one["clauses"]) for one in report["missing_data"]] == [
        (0, "vapor stop spacing", [1]),
        (1, "vapor stop spacing", [1]),
    ]


def test_amounts_are_in_full_beside_the_words(plant: Matrix) -> None:
    """Words round what was worked out; the numbers beside them do not, and what is no number says so."""
    values = (Quantity(2 * 0.0254 / 3, "length", "in"), 3 / 7, "PVC", Quantity(math.inf, "length", "ft"), NPS_2)
    working = Explanation("because", (Step("shall", 0, False, "text", "detail", values),))
    cell = explained(Verdict.FAILS, Basis.NOT_MET, working)
    report = json.loads(render_json(replace(plant, cells=((cell, *plant.cells[0][1:]), *plant.cells[1:]))))
    assert report["cells"][0]["steps"][0]["values"] == [
        {"number": 0.666666666667, "unit": "in", "text": "0.666667 in"},
        {"number": 0.428571428571, "unit": "", "text": "0.428571"},
        {"number": None, "unit": "", "text": "PVC"},
        {"number": None, "unit": "ft", "text": "unlimited"},
        {"number": None, "unit": "", "text": "2 in"},
    ]


def test_data_are_told_as_written_and_as_understood(plant: Matrix) -> None:
    """ "CHW" was understood as chilled water; "TBD" is text that gives nothing."""
    data = {one["term"]: one for one in json.loads(render_json(plant))["schedule"]["lines"][0]["data"]}
    assert (data["service"]["text"], data["service"]["understood"]) == ("CHW", "chilled water")
    spacing = data["vapor stop spacing"]
    assert (spacing["text"], spacing["understood"], spacing["given"]) == ("TBD", "", False)


def test_folders_do_not_go_into_the_report(plant: Matrix) -> None:
    """A place keeps the name of its file and loses the folders, so that no machine's path is told."""
    line = plant.schedule.lines[0]
    elsewhere = replace(line, place=replace(line.place, file="/home/somebody/job/schedule.xlsx"))
    schedule = replace(plant.schedule, lines=(elsewhere, *plant.schedule.lines[1:]))
    written = render_json(Matrix(schedule, plant.ruleset, plant.cells))
    assert "somebody" not in written
    assert json.loads(written)["schedule"]["lines"][0]["place"]["file"] == "schedule.xlsx"


def test_half_a_character_does_not_stop_the_report(plant: Matrix) -> None:
    """A lone surrogate, which no UTF-8 file can hold, becomes the replacement character U+FFFD."""
    schedule = replace(plant.schedule, name="half \ud83d.xlsx")
    written = render_json(Matrix(schedule, plant.ruleset, plant.cells))
    assert json.loads(written.encode("utf-8"))["schedule"]["name"] == "half \ufffd.xlsx"


def test_verdicts_of_the_schema_are_those_of_the_judge() -> None:
    """The schema names the verdicts in the words that the language fixes."""
    schema = json.loads(PUBLISHED.read_text(encoding="utf-8"))
    named = schema["$defs"]["CellModel"]["properties"]["verdict"]["enum"]
    assert named == [str(verdict) for verdict in Verdict]
    assert named == [
        "does not comply",
        "cannot be determined",
        "accepted deviation",
        "complies",
        "not checked",
        "not applicable",
    ]
