"""Product data: what lines state and the data show, do not show, or show otherwise."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.review.evidence import check_against_products
from speccheck.review.observations import Observation
from speccheck.review.outcome import outcome_of
from speccheck.review.reviewing import review_matrix
from speccheck.schedule import Schedule, read_schedule
from speccheck.schedule.lines import Line
from tests.review.rounds import line_of, line_with, matrix_of, ruleset, value

DAY = datetime.date(2026, 3, 4)
NO_DATE = "the product data of `Quillfoam` state flame spread and smoke developed and no fire report date"
QUILLFOAM = {
    "product": '"Quillfoam"',
    "insulation": '"elastomeric foam"',
    "conductivity": '"0.25 Btu.in/(h.ft2.F)"',
    "conductivity mean temperature": '"75 F"',
    "maximum use temperature": '"220 F"',
    "flame spread": "25",
    "smoke developed": "50",
    "fire report date": "2024-05-17",
    "conductivity report date": "2024-05-17",
}


def sheet_of(tmp_path: Path, *products: dict[str, str]) -> Schedule:
    """Return product data read from a TOML file; keys without a value are left out."""
    blocks = ("\n".join(["[[product]]", *(f'"{k}" = {v}' for k, v in one.items() if v)]) for one in products)
    path = tmp_path / "products.toml"
    path.write_text("\n\n".join(blocks), encoding="utf-8")
    sheet = read_schedule(path, ruleset().vocabulary)
    assert sheet.lines, sheet.diagnostics
    return sheet


def found_by(sheet: Schedule, *lines: Line, on: datetime.date | None = DAY) -> list[Observation]:
    """Return what product data have to say of lines."""
    return list(check_against_products(matrix_of(lines), sheet, on))


def told(found: list[Observation]) -> list[tuple[str, str, str]]:
    """Return the code, the message and the help of observations."""
    return [(one.diagnostic.code, one.diagnostic.message, one.diagnostic.help) for one in found]


def test_product_data_that_show_everything(tmp_path: Path) -> None:
    """P-1 states what Quillfoam shows; nothing is to be said."""
    assert found_by(sheet_of(tmp_path, QUILLFOAM), line_of("P-1")) == []


@pytest.mark.parametrize(
    ("term", "text"),
    [
        ("conductivity", '"0.036 W/(m.K)"'),
        ("maximum use temperature", '"104.4 C"'),
        ("insulation", '"FEF"'),
        ("product", '"QUILLFOAM"'),
    ],
)
def test_same_value_in_other_words_is_shown(tmp_path: Path, term: str, text: str) -> None:
    """Other units, rounded, and other words for the same are no difference."""
    assert found_by(sheet_of(tmp_path, {**QUILLFOAM, term: text}), line_of("P-1")) == []


def test_schedule_and_product_data_that_differ(tmp_path: Path) -> None:
    """Two lines state 220 F and the data 180 F, by which the steam line fails anyway; a whole observation."""
    sheet = sheet_of(tmp_path, {**QUILLFOAM, "maximum use temperature": '"45 F"'})
    (found,) = found_by(sheet, line_of("P-1"), line_of("P-2"))
    assert found == Observation(
        Diagnostic(
            "V203",
            Severity.WARNING,
            "lines `P-1` and `P-2` state maximum use temperature 220 F, and the product data of `Quillfoam` 45 F; "
            "by the product data `1.4` is not met",
            Place("plant.csv", cell="L2"),
            "ask which of the two holds",
        ),
        ("P-1", "P-2"),
        ("1.4",),
    )


def test_difference_that_changes_no_verdict_is_told_without_clauses(tmp_path: Path) -> None:
    """A lower flame spread in the data differs from the schedule, and no clause is broken by it."""
    (found,) = found_by(sheet_of(tmp_path, {**QUILLFOAM, "flame spread": "20"}), line_of("P-1"))
    message = "line `P-1` states flame spread 25, and the product data of `Quillfoam` 20"
    assert told([found]) == [("V203", message, "ask which of the two holds")]


def test_limit_on_the_schedule_is_borne_out_by_a_value_within_it(tmp_path: Path) -> None:
    """A schedule that says 25 and under is borne out by product data that say 20."""
    line = line_with(line_of("P-1"), flame_spread=value("flame spread", "25 and under"))
    assert found_by(sheet_of(tmp_path, {**QUILLFOAM, "flame spread": "20"}), line) == []


@pytest.mark.parametrize(("shown", "found"), [("0.04 perm.in", 0), ("0.05 perm.in", 0), ("3 perm.in", 1)])
def test_small_numbers_are_compared_as_finely_as_large_ones(tmp_path: Path, shown: str, found: int) -> None:
    """A permeability of 3 perm.in is sixty times the stated limit, though both are some 1e-11 in SI units."""
    line = line_with(line_of("P-1"), permeability=value("permeability", "0.05 perm.in and under"))
    data = {**QUILLFOAM, "permeability": f'"{shown}"', "permeability report date": "2024-05-17"}
    assert [one.diagnostic.code for one in found_by(sheet_of(tmp_path, data), line)] == ["V203"] * found


def test_stated_on_the_schedule_and_not_shown(tmp_path: Path) -> None:
    """Without smoke in the data, what the line states of it has no evidence; a whole observation."""
    (found,) = found_by(sheet_of(tmp_path, {**QUILLFOAM, "smoke developed": ""}), line_of("P-1"))
    assert found == Observation(
        Diagnostic(
            "V204",
            Severity.WARNING,
            "line `P-1` states smoke developed 50, which the product data of `Quillfoam` do not show",
            Place("plant.csv", cell="N2"),
            "ask for evidence of `smoke developed`",
        ),
        ("P-1",),
    )


def test_conductivity_is_compared_at_its_mean_temperature(tmp_path: Path) -> None:
    """P-9 states 0.29 at 150 F; a row at 150 F shows it, and without that row it is not shown."""
    warm = {
        "product": '"Quillfoam"',
        "conductivity": '"0.29 Btu.in/(h.ft2.F)"',
        "conductivity mean temperature": '"150 F"',
    }
    assert found_by(sheet_of(tmp_path, QUILLFOAM, warm), line_of("P-9"), line_of("P-1")) == []
    (found,) = found_by(sheet_of(tmp_path, QUILLFOAM), line_of("P-9"))
    assert told([found]) == [
        (
            "V204",
            "line `P-9` states conductivity 0.29 Btu.in/(h.ft2.F) at a mean temperature of 150 F, which the product "
            "data of `Quillfoam` do not show",
            "the data have it at 75 F",
        )
    ]


def test_product_that_the_data_do_not_have(tmp_path: Path) -> None:
    """A slip in a name is told once for all lines, with the nearest name; a line without a product likewise."""
    typo = line_with(line_of("P-1"), product="Quilfoam")
    nameless = line_with(line_of("P-2"), product=value("product", ""))
    found = found_by(sheet_of(tmp_path, QUILLFOAM), typo, nameless)
    assert told(found) == [
        ("V202", "there are no product data for `Quilfoam`, which `P-1` names", "did they mean `Quillfoam`?"),
        (
            "V201",
            "`P-2` names no product",
            "ask which product is proposed, so that its data can be checked against the schedule",
        ),
    ]


def test_many_names_are_told_in_part(tmp_path: Path) -> None:
    """Of many lines without a product the first eight are named and the others counted; all are among its lines."""
    lines = [replace(line_with(line_of("P-1"), product=value("product", "")), name=f"L-{n}") for n in range(30)]
    (found,) = found_by(sheet_of(tmp_path, QUILLFOAM), *lines)
    assert found.diagnostic.message.startswith("`L-0`, `L-1`, `L-2`, `L-3`, `L-4`, `L-5`, `L-6`, `L-7` and 22 more")
    assert len(found.lines) == 30


def test_bare_line_needs_no_product(tmp_path: Path) -> None:
    """P-11 proposes no insulation, and so no product."""
    assert found_by(sheet_of(tmp_path, QUILLFOAM), line_of("P-11")) == []


def test_product_data_that_would_settle_a_clause(tmp_path: Path) -> None:
    """P-10 has its smoke to be determined; the data say 50, and the clause that waits is named. It is a note."""
    fennick = {**QUILLFOAM, "product": '"Fennick"', "insulation": '"fiberglass"', "conductivity": "",
               "maximum use temperature": '"850 F"', "conductivity mean temperature": "",
               "facing": '"all-service jacket"'}  # fmt: skip
    line = line_with(line_of("P-10"), conductivity=value("conductivity", "TBD"))
    (found,) = found_by(sheet_of(tmp_path, fennick), line)
    assert found == Observation(
        Diagnostic(
            "V207",
            Severity.NOTE,
            "line `P-10` does not state smoke developed; the product data of `Fennick` say 50",
            Place("plant.csv", cell="N11"),
            "ask for it to be stated on the schedule; `1.5` waits",
        ),
        ("P-10",),
        ("1.5",),
    )
    assert not found.leaves_open


@pytest.mark.parametrize(
    ("date", "on", "code", "message"),
    [
        ("2024-05-17", DAY, "", ""),
        ("2026-03-04", DAY, "", ""),
        (
            "2026-03-05",
            DAY,
            "V206",
            "the fire report date of `Quillfoam`, `2026-03-05`, lies after the day of the review, 2026-03-04",
        ),
        ("2026-03-05", None, "", ""),
        (
            '"spring 2024"',
            DAY,
            "V206",
            "the fire report date of `Quillfoam`, `spring 2024`, is no date written as 2024-05-17",
        ),
        ("", DAY, "V205", NO_DATE),
    ],
)  # fmt: skip
def test_dates_of_reports(tmp_path: Path, date: str, on: datetime.date | None, code: str, message: str) -> None:
    """A report has a date, and not one after the review; without a day of the review nothing is after it."""
    found = found_by(sheet_of(tmp_path, {**QUILLFOAM, "fire report date": date}), line_of("P-1"), on=on)
    assert told(found) == ([(code, message, "ask for the report")] if code else [])


def test_rows_that_disagree_and_rows_without_a_name(tmp_path: Path) -> None:
    """Two rows of one product with different limits are told, and so is a row that names no product."""
    other = {"product": '"Quillfoam"', "maximum use temperature": '"250 F"'}
    nameless = {"flame spread": "25", "smoke developed": "50"}
    found = found_by(sheet_of(tmp_path, QUILLFOAM, other, nameless))
    assert told(found) == [
        ("V208", "row `line 3` of the product data names no product", "name the product that it is about"),
        (
            "V209",
            "the product data of `Quillfoam` disagree: maximum use temperature 220 F and 250 F",
            "ask which of the two holds",
        ),
    ]


def test_missing_evidence_keeps_a_schedule_from_complying(tmp_path: Path) -> None:
    """P-1 complies by itself; with a value that nothing shows, the whole cannot be determined to comply."""
    matrix = matrix_of([line_of("P-1")])
    assert outcome_of(matrix).status == 0
    reviewed = review_matrix(matrix, products=sheet_of(tmp_path, {**QUILLFOAM, "smoke developed": ""}))
    assert outcome_of(reviewed).status == 2
    assert "1 finding by the product data." in outcome_of(reviewed).details
