"""What a section asks to be submitted, against a register of what was received: worked out by hand from the rules.

The rules are 11.1 to 11.3 of grammar/README.md. What is received, asked for and missing here is invented.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from pathlib import Path

import pytest

from speccheck.language import load_ruleset
from speccheck.language.core import Age, Ruleset
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread
from speccheck.review.documents import DocumentFinding, documents_of, unasked
from speccheck.review.outcome import Standing, outcome_of
from speccheck.review.received import ReceivedRegister, read_received
from speccheck.review.reviewing import judge_schedule, review_matrix
from speccheck.schedule.lines import Datum, Line, Schedule

DAY = datetime.date(2026, 3, 4)
GLASS = {"service": "CHW", "insulation": "cellular glass", "jacket": "none", "location": "conditioned"}
FOAM = {"service": "CHW", "insulation": "elastomeric foam", "jacket": "none", "location": "plenum"}


@pytest.fixture(scope="module")
def ruleset() -> Ruleset:
    """Return the ruleset that asks for documents."""
    loaded = load_ruleset(Path(__file__).parent / "documents.clauses")
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def lines(ruleset: Ruleset, *stated: Mapping[str, str]) -> tuple[Line, ...]:
    """Return lines P-1, P-2, ... that state some values."""
    found = []
    for number, texts in enumerate(stated, start=1):
        data = {}
        for name, text in texts.items():
            value = read_value(text, ruleset.vocabulary.terms[name], BareUnits())
            assert not isinstance(value, Misread), value
            data[name] = Datum(value, text)
        found.append(Line(f"P-{number}", data))
    return tuple(found)


def register(text: str, folder: Path, ruleset: Ruleset) -> ReceivedRegister:
    """Return the register that a TOML text is."""
    path = folder / "received.toml"
    path.write_text(text, "utf-8")
    found, problems = read_received(path, ruleset)
    assert found is not None, problems
    return found


def told(findings: Sequence[DocumentFinding], paragraph: str) -> list[tuple[str, str, tuple[str, ...], str]]:
    """Return how the documents of a paragraph stand: of what, how, on which lines, why."""
    return [
        (one.subject, one.standing.value, one.lines, one.reason) for one in findings if one.document.name == paragraph
    ]


def test_a_recent_sheet_of_the_material_satisfies(ruleset: Ruleset, tmp_path: Path) -> None:
    """A sheet that is of the stated insulation and 24 months old to the day satisfies; no jacket wants no sheet."""
    text = """
[[received]]
document = "data sheet"
name = "CG-1"
of = { insulation = "cellular glass" }
dated = 2024-03-04
"""
    found = documents_of(ruleset, lines(ruleset, GLASS), register(text, tmp_path, ruleset), DAY)
    assert told(found, "1.3.A") == [
        ("insulation cellular glass", "satisfied", ("P-1",), "CG-1, dated 2024-03-04"),
    ]
    assert told(found, "1.3.C") == [("", "not applicable", (), "no line of the schedule needs it")]


def test_a_sheet_that_is_too_old_does_not(ruleset: Ruleset, tmp_path: Path) -> None:
    """One day older than 24 months is not satisfied, and both the age and what is lacking are told."""
    text = """
[[received]]
document = "data sheet"
name = "CG-1"
of = { insulation = "cellular glass" }
dated = 2024-03-03
"""
    found = documents_of(ruleset, lines(ruleset, GLASS, GLASS), register(text, tmp_path, ruleset), DAY)
    reason = (
        "no data sheet of insulation cellular glass was received for lines P-1 and P-2; CG-1, dated 2024-03-03, is "
        "older than 24 months"
    )
    assert told(found, "1.3.A") == [("insulation cellular glass", "not satisfied", ("P-1", "P-2"), reason)]


@pytest.mark.parametrize(
    ("entry", "day", "reason"),
    [
        ('of = { insulation = "cellular glass" }', DAY, "sheet has no date"),
        ('of = { insulation = "cellular glass" }\ndated = 2025-01-01', None, "the day of the review is not given"),
        ("dated = 2025-01-01", DAY, "sheet, dated 2025-01-01 does not say of which insulation it is"),
        (
            'of = { insulation = "cellular glass", location = "plenum" }\ndated = 2025-01-01',
            DAY,
            "sheet, dated 2025-01-01 is of something that line P-1 does not state",
        ),
        (
            'of = { insulation = "cellular glass" }\ndated = 2026-03-05',
            DAY,
            "sheet, dated 2026-03-05, is dated after the day of the review",
        ),
    ],
)
def test_doubt_is_never_satisfied(
    ruleset: Ruleset, tmp_path: Path, entry: str, day: datetime.date | None, reason: str
) -> None:
    """Without a date, a day, a material, or with more than the line states, it cannot be determined."""
    stated = {name: text for name, text in GLASS.items() if name != "location"}
    text = f'[[received]]\ndocument = "data sheet"\nname = "sheet"\n{entry}\n'
    found = documents_of(ruleset, lines(ruleset, stated), register(text, tmp_path, ruleset), day)
    assert told(found, "1.3.A") == [("insulation cellular glass", "cannot be determined", ("P-1",), reason)]


def test_lines_that_do_not_say_what_they_propose_are_named(ruleset: Ruleset, tmp_path: Path) -> None:
    """A line without insulation cannot be told to have its sheet; one of which it is open whether it needs one, too."""
    unknown = {"insulation": "cellular glass", "jacket": "none"}
    found = documents_of(
        ruleset, lines(ruleset, {"service": "CHW", "jacket": "none"}, unknown), register("", tmp_path, ruleset), DAY
    )
    assert told(found, "1.3.A") == [
        ("insulation", "cannot be determined", ("P-1",), "insulation is not given on line P-1"),
        (
            "insulation cellular glass",
            "cannot be determined",
            ("P-2",),
            "it is not known whether line P-2 needs it",
        ),
    ]


def test_entries_for_lines_count_for_these_alone(ruleset: Ruleset, tmp_path: Path) -> None:
    """A test report for line P-1 does not serve line P-2, and an exception takes cellular glass out."""
    text = '[[received]]\ndocument = "Test Report"\nname = "T-1"\nlines = ["P-1"]\n'
    glass = {**GLASS, "location": "plenum"}
    found = documents_of(ruleset, lines(ruleset, FOAM, FOAM, glass), register(text, tmp_path, ruleset), DAY)
    reason = "no test report of insulation elastomeric foam was received for line P-2"
    assert told(found, "1.3.C") == [("insulation elastomeric foam", "not satisfied", ("P-2",), reason)]


def test_a_sheet_of_a_jacket_is_none_of_an_insulation(ruleset: Ruleset, tmp_path: Path) -> None:
    """What says that it is of the jacket leaves no doubt about the insulation: that sheet was not received."""
    text = '[[received]]\ndocument = "data sheet"\nname = "J"\nof = { jacket = "PVC" }\ndated = 2025-06-01\n'
    stated = {**GLASS, "jacket": "PVC"}
    found = documents_of(ruleset, lines(ruleset, stated), register(text, tmp_path, ruleset), DAY)
    assert [(one[0], one[1]) for one in told(found, "1.3.A")] == [
        ("insulation cellular glass", "not satisfied"),
        ("jacket PVC", "satisfied"),
    ]


def test_without_a_register_nothing_is_told_to_comply(ruleset: Ruleset, tmp_path: Path) -> None:
    """A submittal whose documents nobody looked for is not told to comply; one that lacks one does not comply."""
    schedule = Schedule("schedule", lines(ruleset, GLASS))
    matrix = judge_schedule(schedule, ruleset)
    assert outcome_of(matrix).standing is Standing.CANNOT_TELL
    assert [one.reason for one in matrix.documents if one.document.name == "1.3.B"] == [
        "no register of what was received was given"
    ]
    lacking = review_matrix(matrix, received=register("", tmp_path, ruleset), on=DAY)
    assert outcome_of(lacking).standing is Standing.FAILS
    assert outcome_of(lacking).status == 1
    assert (
        outcome_of(lacking).heading
        == "The submittal does not comply: not all was received that is asked to be submitted."
    )


def test_tables_in_csv_are_registers_too(ruleset: Ruleset, tmp_path: Path) -> None:
    """A CSV file says the same as a TOML file: columns of its own, and terms."""
    path = tmp_path / "received.csv"
    path.write_text(
        "document,name,dated,lines,insulation\ndata sheet,CG-1,2025-01-02,,cellular glass\nsample,S,,P-1;P-2,\n",
        "utf-8",
    )
    found, problems = read_received(path, ruleset)
    assert problems == ()
    assert found is not None
    first, second = found.entries
    assert (first.of, first.dated, first.lines) == ({"insulation": "cellular glass"}, datetime.date(2025, 1, 2), ())
    assert (second.kind.value, second.lines) == ("sample", ("P-1", "P-2"))


@pytest.mark.parametrize(
    ("entry", "message", "help"),
    [
        ('document = "datasheets"', "`datasheets` is no kind of document", "did you mean `data sheet`?"),
        (
            'document = "sample"\nof = { insulaton = "foam" }',
            "`insulaton` is no term of the vocabulary",
            "did you mean `insulation`?",
        ),
        (
            'document = "sample"\nof = { insulation = "gold" }',
            "`gold` is no value of `insulation`",
            "write one value, as a schedule states it",
        ),
    ],
)
def test_words_that_are_not_understood_are_errors(
    ruleset: Ruleset, tmp_path: Path, entry: str, message: str, help: str
) -> None:
    """Nothing of an entry is guessed: the register cannot be used, and the message says where and what to write."""
    path = tmp_path / "received.toml"
    path.write_text(f"[[received]]\n{entry}\n", "utf-8")
    found, (problem,) = read_received(path, ruleset)
    assert found is None
    assert (problem.code, problem.message, problem.help, problem.place.file) == ("V702", message, help, "received.toml")


def test_what_nothing_asks_for_is_told(ruleset: Ruleset, tmp_path: Path) -> None:
    """A warranty that no paragraph asks for, and a line that the schedule does not have, are notes."""
    text = '[[received]]\ndocument = "warranty"\n[[received]]\ndocument = "data sheet"\nlines = ["Z"]\n'
    found = unasked(ruleset, lines(ruleset, GLASS), register(text, tmp_path, ruleset))
    assert [one.diagnostic.message for one in found] == [
        "`warranty` was received, and nothing asks for a warranty",
        "`data sheet` is for line Z, which the schedule does not have",
    ]


@pytest.mark.parametrize(
    ("age", "day", "earliest"),
    [
        (Age(24, "month"), datetime.date(2026, 3, 4), datetime.date(2024, 3, 4)),
        (Age(1, "month"), datetime.date(2026, 3, 31), datetime.date(2026, 2, 28)),
        (Age(1, "year"), datetime.date(2024, 2, 29), datetime.date(2023, 2, 28)),
        (Age(2, "week"), datetime.date(2026, 1, 5), datetime.date(2025, 12, 22)),
        (Age(90, "day"), datetime.date(2026, 3, 1), datetime.date(2025, 12, 1)),
    ],
)
def test_ages_go_by_the_calendar(age: Age, day: datetime.date, earliest: datetime.date) -> None:
    """Months and years keep the day, or the last of the month; counted on a calendar by hand."""
    assert age.earliest(day) == earliest
