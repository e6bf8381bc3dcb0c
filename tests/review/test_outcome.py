"""The outcome: what is not read or not decided is never a pass, and every way in comes to the same outcome."""

from __future__ import annotations

import json
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.judge.judgement import Verdict
from speccheck.language import load_ruleset
from speccheck.language.diagnostics import Severity, has_errors
from speccheck.review import judge_schedule
from speccheck.review.outcome import STATUS, Outcome, Standing, outcome_of
from speccheck.review.portfolio import Run, request_for, run_portfolio
from speccheck.review.portfolio.entries import SUFFIXES
from speccheck.review.portfolio.store import ScheduleResult, read_back, written
from speccheck.review.portfolio.tallies import tallies
from speccheck.schedule import Schedule, read_schedule
from speccheck.schedule.lines import CellCount, UnreadKind
from tests.schedule.building import case_of, write_workbook

TESTS = Path(__file__).parents[1]
FOLDERS = [
    TESTS / "schedule" / "files",
    TESTS / "review" / "files",
    TESTS.parent / "examples" / "dairy",
]
FOUND = (path for folder in FOLDERS for path in folder.rglob("*") if path.suffix in SUFFIXES)
FILES = sorted(path for path in FOUND if path.parent.name != "report")  # our own reports are nobody's schedules
CASES = sorted((TESTS / "schedule" / "workbooks").glob("*.toml"))
FIXTURES = [path.name for path in (*FILES, *CASES)]
RULESET = TESTS.parent / "examples" / "dairy" / "project.clauses"

MET = Outcome(1, {Verdict.COMPLIES: 1}, {Verdict.COMPLIES: 1})


@pytest.mark.parametrize(
    ("outcome", "standing", "status", "complete"),
    [
        (MET, Standing.COMPLIES, 0, True),
        (replace(MET, unread={UnreadKind.REMARK: 1}), Standing.CANNOT_TELL, 2, False),
        (replace(MET, unread={UnreadKind.PICTURE: 1}), Standing.CANNOT_TELL, 2, False),
        (replace(MET, unread={UnreadKind.HIDDEN_SHEET: 1}), Standing.CANNOT_TELL, 2, False),
        (replace(MET, unread={UnreadKind.REMARK: 0}), Standing.COMPLIES, 0, True),
        (replace(MET, cells=CellCount(412, 412)), Standing.COMPLIES, 0, True),
        (replace(MET, cells=CellCount(412, 411)), Standing.CANNOT_TELL, 2, False),
        (replace(MET, open_observations=1), Standing.CANNOT_TELL, 2, True),
        (replace(MET, requirements={Verdict.COMPLIES: 9, Verdict.CANNOT_TELL: 1}), Standing.CANNOT_TELL, 2, True),
        (replace(MET, requirements={Verdict.FAILS: 1}, cells=CellCount(2, 1)), Standing.FAILS, 1, False),
        (replace(MET, requirements={Verdict.ACCEPTED: 1}), Standing.COMPLIES, 0, True),
        (replace(MET, requirements={Verdict.NOT_APPLICABLE: 1}), Standing.NOTHING, 3, True),
        (Outcome(0, {}, {}, problem="it is locked"), Standing.NOT_READ, 3, False),
    ],
)
def test_standing(outcome: Outcome, standing: Standing, status: int, complete: bool) -> None:
    """A fail is a fail; else whatever is open or unread makes it status 2; only then does a schedule comply."""
    assert (outcome.standing, outcome.status, outcome.complete) == (standing, status, complete)


@given(
    st.dictionaries(st.sampled_from(Verdict), st.integers(0, 3)),
    st.dictionaries(st.sampled_from(UnreadKind), st.integers(0, 2)),
    st.integers(0, 2),
    st.integers(0, 3),
)
def test_more_to_read_or_answer_never_makes_a_pass(
    requirements: dict[Verdict, int], unread: dict[UnreadKind, int], open_observations: int, left: int
) -> None:
    """Status 0 needs every requirement decided, every cell accounted for and nothing left to a person."""
    cells = CellCount(5, 5 - left)
    outcome = Outcome(1, requirements, requirements, unread=unread, open_observations=open_observations, cells=cells)
    fails = bool(requirements.get(Verdict.FAILS))
    unknown = bool(requirements.get(Verdict.CANNOT_TELL))
    if fails or unknown or left or open_observations or any(unread.values()):
        assert outcome.status == STATUS[Standing.FAILS if fails else Standing.CANNOT_TELL]
    else:
        assert outcome.status in (STATUS[Standing.COMPLIES], STATUS[Standing.NOTHING])


def test_everything_that_counts_is_said() -> None:
    """Each count has its sentence, what a person has to read first, and the filled cells last."""
    outcome = Outcome(
        line_count=1204,
        requirements={
            Verdict.FAILS: 1,
            Verdict.CANNOT_TELL: 2,
            Verdict.ACCEPTED: 2,
            Verdict.COMPLIES: 4000,
            Verdict.NOT_CHECKED: 41,
        },
        lines={Verdict.FAILS: 1, Verdict.CANNOT_TELL: 1, Verdict.ACCEPTED: 2, Verdict.COMPLIES: 1200},
        unjudged=3,
        unjudged_names=("A", "B"),
        recommendations=1,
        observations={"design list": 2},
        unread={UnreadKind.PICTURE: 1, UnreadKind.REMARK: 2},
        cells=CellCount(412, 410),
        warnings=1,
        assumed=1,
    )
    assert outcome.heading == "The schedule does not comply."
    assert outcome.details == (
        "2 remarks were not read as data: a person has to read them.",
        "1 picture was not read as data: a person has to read it.",
        "1 requirement does not comply, on 1 of 1,204 lines.",
        "2 requirements cannot be determined, on 1 of 1,204 lines.",
        "2 requirements are accepted as deviations, on 2 of 1,204 lines.",
        "4,000 requirements comply, on 1,200 of 1,204 lines.",
        "1 requirement is met on an assumption.",
        "41 requirements were not checked for want of data.",
        "1 recommendation is not followed or cannot be determined.",
        "No mandatory clause applies to lines A, B and 1 more.",
        "2 findings by the design list.",
        "1 warning on how the schedule was read.",
        "410 of 412 filled cells accounted for.",
    )


def test_what_is_kept_of_a_schedule_keeps_what_was_not_read() -> None:
    """A portfolio that is taken up again still knows of unread remarks and of cells not accounted for."""
    result = ScheduleResult(unread={UnreadKind.REMARK: 2}, cells=CellCount(9, 7))
    (again,) = read_back(written([result], again=False))
    assert again == result
    assert json.loads(next(written([result], again=False)))["unread"] == {"remark": 2}


@pytest.fixture(scope="module")
def schedules(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Every schedule of the tests and of the demo, in a folder of its own that its number names."""
    folder = tmp_path_factory.mktemp("all")
    written = []
    for number, path in enumerate((*FILES, *CASES)):
        (folder / str(number)).mkdir()
        written.append(folder / str(number) / path.name)
        if path in CASES:
            written[-1] = written[-1].with_suffix(".xlsx")
            write_workbook(written[-1], case_of(path)["sheet"])
        else:
            shutil.copy(path, written[-1])
    return written


@pytest.fixture(scope="module")
def portfolio(schedules: list[Path], tmp_path_factory: pytest.TempPathFactory) -> dict[str, Outcome]:
    """The outcome of every fixture as a portfolio has it, by its number."""
    ruleset = load_ruleset(RULESET).ruleset
    assert ruleset is not None
    into = tmp_path_factory.mktemp("portfolio") / "out"
    run = run_portfolio(request_for(schedules[0].parents[1], into, RULESET, ruleset))
    assert isinstance(run, Run)
    return {tally.name.partition("/")[0]: tally.outcome for tally in tallies(run.results(), ruleset)}


@pytest.mark.parametrize("number", range(len(FIXTURES)), ids=FIXTURES)
def test_check_and_portfolio_come_to_the_same_outcome(
    schedules: list[Path], portfolio: dict[str, Outcome], number: int
) -> None:
    """Every schedule of the tests and of the demo has one outcome, by whichever command it is judged."""
    ruleset = load_ruleset(RULESET).ruleset
    assert ruleset is not None
    schedule = read_schedule(schedules[number], ruleset.vocabulary, usual_units=ruleset.units)
    assert portfolio[str(number)] == _checked(schedule, outcome_of(judge_schedule(schedule, ruleset)))


def test_the_fixtures_are_there() -> None:
    """Workbooks, an old workbook, separated text, JSON and the demo are among what is compared."""
    assert {path.suffix for path in FILES} >= {".csv", ".json", ".xls", ".xlsx"}
    assert len(FILES) >= 20
    assert len(CASES) >= 10


def _checked(schedule: Schedule, outcome: Outcome) -> Outcome:
    """Return the outcome that a check ends with, which stops at a schedule without lines."""
    if schedule.lines or not has_errors(schedule.diagnostics):
        return outcome
    problem = next(found.message for found in schedule.diagnostics if found.severity is Severity.ERROR)
    return replace(outcome, problem=problem)
