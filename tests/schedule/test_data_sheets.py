"""Data sheets: facts in sentences and tables, and a trial of sheets with planted differences."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from speccheck.language import parse_ruleset
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.schedule.data_sheets import read_data_sheet
from speccheck.schedule.data_sheets.facts import facts_in
from speccheck.schedule.data_sheets.mentions import SheetNames
from speccheck.schedule.schedule import read_objects
from tests.schedule.formats.papers import write_docx, write_ruled_pdf
from tests.tools.data_sheet_trial import RULES, tried


def _vocabulary() -> Vocabulary:
    ruleset = parse_ruleset(RULES).ruleset
    assert ruleset is not None
    return ruleset.vocabulary


SENTENCES = (
    ("The thermal conductivity is 0.25 Btu·in/(h·ft²·°F) at 75 °F, 0.27 Btu·in/(h·ft²·°F) at 100 °F mean.",
     ["conductivity 0.25 Btu·in/(h·ft²·°F) at 75 °F", "conductivity 0.27 Btu·in/(h·ft²·°F) at 100 °F"]),
    ("At 24 °C mean its thermal conductivity is 0.036 W/(m·K).", ["conductivity 0.036 W/(m·K) at 24 °C"]),
    ("A density of 3 pcf and a flame spread index of 25 are usual.", ["density 3 pcf", "flame spread 25"]),
    ("Flame spread/smoke developed: 25/50 by ASTM E84.", ["smoke developed 50", "flame spread 25"]),
    ("The service temperature range is -40 °F to 220 °F.",
     ["minimum use temperature -40 °F to 220 °F", "maximum use temperature -40 °F to 220 °F"]),
    ("It is tested by ASTM E84 in thicknesses up to 2 in.", []),
    ("The density is as ordered; pipes up to 12 in are covered.", []),
    ("Water vapor permeability, tested to ASTM E96, procedure A, is low.", []),
)  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), SENTENCES)
def test_facts_in_sentences(text: str, expected: list[str]) -> None:
    """A quantity counts beside the words of its property and in a unit of its kind; other numbers say nothing."""
    found = facts_in(text, SheetNames(_vocabulary()))
    told = [f"{fact.term.name} {fact.text}" + (f" at {fact.at_text}" if fact.at_text else "") for fact in found]
    assert told == expected


def _lines(path: Path, *products: str) -> list[dict[str, str]]:
    sheet = read_data_sheet(path, _vocabulary(), products)
    return [{name: datum.text for name, datum in line.data.items()} for line in sheet.lines]


ROWS = (
    ("Tansyfoam A10", ""),
    ("Standard", "ASTM C534, Type I, Grade 1"),
    ("Thermal conductivity", ""),
    ("at 75 °F", "0.25 Btu·in/(h·ft²·°F)"),
    ("at 100 °F", "0.26 Btu·in/(h·ft²·°F)"),
    ("Flame spread index, report dated May 17, 2024", "25"),
)


@pytest.mark.parametrize("name", ["sheet.pdf", "sheet.docx"])
def test_a_sheet_with_standard_date_and_conductivities(name: str, tmp_path: Path) -> None:
    """Standard, type, grade and the date of a report are found; each conductivity has its mean temperature."""
    path = tmp_path / name
    (write_ruled_pdf if name.endswith("pdf") else write_docx)(path, ROWS)
    lines = _lines(path, "Tansyfoam A10", "Tansyfoam")
    curve = {line["conductivity mean temperature"]: line["conductivity"] for line in lines if "conductivity" in line}
    assert curve == {"75 °F": "0.25 Btu·in/(h·ft²·°F)", "100 °F": "0.26 Btu·in/(h·ft²·°F)"}
    whole = {name: text for line in lines for name, text in line.items()}
    assert whole["insulation standard"] == "ASTM C534"
    assert (whole["standard type"], whole["standard grade"]) == ("type-I", "grade-1")
    assert whole["fire report date"] == "2024-05-17"
    assert whole["product"] == "Tansyfoam A10"  # the longer of two names that stand there


def test_a_sheet_of_no_product_of_the_schedule(tmp_path: Path) -> None:
    """It is not used, and the message says what to do."""
    path = tmp_path / "sheet.docx"
    write_docx(path, ROWS)
    sheet = read_data_sheet(path, _vocabulary(), ["Brindlewrap B20"])
    assert sheet.lines == ()
    assert [str(one) for one in sheet.diagnostics] == [
        "warning[S601]: the data sheet names no product of the schedule\n  at sheet.docx\n"
        "  help: write the product on the schedule as the data sheet has it"
    ]


def test_a_sheet_of_two_products(tmp_path: Path) -> None:
    """Values of a sheet that names two products together are given to neither of them."""
    path = tmp_path / "sheet.docx"
    write_docx(path, [("Tansyfoam A10 and Tansyfoam B20", ""), *ROWS[1:]])
    sheet = read_data_sheet(path, _vocabulary(), ["Tansyfoam A10", "Tansyfoam B20"])
    assert sheet.lines == ()
    assert [one.code for one in sheet.diagnostics] == ["S602"]


def test_the_trial_of_thirty_sheets(tmp_path: Path) -> None:
    """Ten layouts, inch-pound and metric: every planted difference and question is found, and none is invented."""
    sums: Counter[str] = Counter()
    for number in range(30):
        sums += tried(number, 1, tmp_path)
    assert {name for name in sums if "MISSED" in name or name in ("INVENTED", "not found")} == set()
    assert sums["difference found"] >= 10
    assert sums["question found"] >= 2


def test_what_the_trial_states_is_read_as_stated() -> None:
    """The lines of the trial are read as a table of product data is, so that both sides are understood alike."""
    line = {"mark": "P-1", "product": "Tansyfoam A10", "conductivity": "0.25 Btu.in/(h.ft2.F)"}
    assert set(read_objects([line], "schedule", _vocabulary()).lines[0].data) >= {"product", "conductivity"}


def test_a_sheet_that_shows_nothing(tmp_path: Path) -> None:
    """A sheet that names its product and states nothing of it is said to show nothing."""
    path = tmp_path / "sheet.docx"
    write_docx(path, [ROWS[0], ("Colour", "black")])
    sheet = read_data_sheet(path, _vocabulary(), ["Tansyfoam A10"])
    assert [str(one) for one in sheet.diagnostics] == [
        "warning[S603]: nothing that a schedule states of `Tansyfoam A10` was found on the data sheet\n"
        "  at sheet.docx\n  help: write what it shows into a table of product data"
    ]
