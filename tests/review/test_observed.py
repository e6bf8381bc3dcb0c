"""Every code of the review, with the words that it is told in, as the page of diagnostics shows them."""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from speccheck.language import load_ruleset
from speccheck.language.diagnostics import Diagnostic
from speccheck.report.all_codes import chapters
from speccheck.review.deviations import read_register
from speccheck.review.documents import unasked
from speccheck.review.notes import read_notes
from speccheck.review.observations import Observation
from speccheck.review.received import read_received
from speccheck.review.reviewing import review_matrix
from speccheck.review.weather_file import read_weather_file
from speccheck.schedule import Schedule, read_schedule
from speccheck.schedule.data_sheets import read_data_sheet
from tests.review.rounds import FILES, matrix_of, ruleset
from tests.schedule.formats.papers import write_docx

OBSERVED = FILES / "observed"
EXPECTED = Path(__file__).parent / "observed.expected"
DAY = datetime.date(2026, 3, 4)


@cache
def told() -> dict[str, list[str]]:
    """Return everything that the files of the folder make the review tell, by code."""
    found: list[Diagnostic] = []
    for day in (DAY, None):
        register, problems = read_register(OBSERVED / "deviations.toml", ruleset())
        assert problems == ()
        matrix = review_matrix(
            matrix_of(read("schedule.csv").lines),
            design=read("design.csv"),
            products=read("products.toml"),
            register=register,
            on=day,
        )
        found += [one.diagnostic for one in matrix.observations]
    found += [
        one.diagnostic for one in review_matrix(matrix_of(read("schedule.csv").lines), products=sheet()).observations
    ]
    for name in ("mistakes.toml", "misshapen.toml", "design.csv"):
        found += read_register(OBSERVED / name, ruleset())[1]
    for name in ("design.csv", "notes.toml"):
        found += read_notes(OBSERVED / name, ruleset())[1]
    for name in ("design.csv", "received-mistakes.toml"):
        found += read_received(OBSERVED / name, ruleset())[1]
    received, _ = read_received(OBSERVED / "received.toml", ruleset())
    assert received is not None
    found += [one.diagnostic for one in unasked(ruleset(), read("schedule.csv").lines, received)]
    found += [one.diagnostic for one in yearly()]
    weather = read_weather_file(OBSERVED / "weather.epw")
    assert isinstance(weather, Diagnostic)
    by_code: dict[str, list[str]] = {weather.code: [str(weather)]}
    for one in found:
        by_code.setdefault(one.code, []).append(str(one))
    return by_code


def sheet() -> Schedule:
    """Return the data sheet of an invented product, a Word document, as product data."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "quillfoam.docx"
        write_docx(path, [("Quillfoam", ""), ("Flame spread index", "25")])
        return read_data_sheet(path, ruleset().vocabulary, ("Quillfoam",))


def yearly() -> tuple[Observation, ...]:
    """Return what is said of a line that does not comply where a price of energy is stated."""
    loaded = load_ruleset("yearly-energy").ruleset
    assert loaded is not None
    lines = read_schedule(OBSERVED / "yearly.csv", loaded.vocabulary, usual_units="inch-pound").lines
    return review_matrix(matrix_of(lines, judged_by=loaded)).observations


def read(name: str) -> Schedule:
    """Return a file of the folder as it is read."""
    return read_schedule(OBSERVED / name, ruleset().vocabulary)


def blocks() -> dict[str, str]:
    """Return what is expected, by code."""
    found = EXPECTED.read_text(encoding="utf-8").strip().split("\n\n")
    return {block.partition("[")[2].partition("]")[0]: block for block in found}


def test_every_code_is_shown() -> None:
    """The page of diagnostics has an example of each code of the review."""
    assert set(blocks()) == set(chapters()["Reviewing"])


@pytest.mark.parametrize("code", sorted(chapters()["Reviewing"]))
def test_code_is_told_in_these_words(code: str) -> None:
    """The whole diagnostic: its weight, its sentence, its place, what to do."""
    assert blocks()[code] in told()[code]
