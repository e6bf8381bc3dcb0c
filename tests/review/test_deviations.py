"""Accepted deviations: read from a register, shown as such, and told where they are idle, too wide or over."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from speccheck.judge.judgement import Verdict
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.review.accepting import accept_deviations
from speccheck.review.deviations import Register, read_register
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import outcome_of
from speccheck.schedule.lines import Line
from tests.review.rounds import line_of, line_with, matrix_of, plant, ruleset, value

BEFORE, LAST, AFTER = datetime.date(2026, 3, 4), datetime.date(2026, 6, 30), datetime.date(2026, 7, 1)


def register_text(*entries: dict[str, str]) -> str:
    """Return a register; keys that an entry leaves out have a usual value, and None leaves a key out."""
    usual = {"name": '"D-1"', "clause": '"1.2"', "lines": '"pipe size is 4 in"', "reason": '"r"', "reference": '"s"'}
    blocks = ({**usual, **entry} for entry in entries)
    return "\n\n".join("\n".join(["[[deviation]]", *(f"{k} = {v}" for k, v in one.items() if v)]) for one in blocks)


def read_text(tmp_path: Path, text: str) -> tuple[Register | None, tuple[Diagnostic, ...]]:
    """Return what a register with some text is read as."""
    path = tmp_path / "deviations.toml"
    path.write_text(text, encoding="utf-8")
    return read_register(path, ruleset())


def reviewed(
    tmp_path: Path,
    *entries: dict[str, str],
    lines: tuple[Line, ...] | None = None,
    on: datetime.date | None = BEFORE,
) -> Matrix:
    """Return the matrix of the plant, or of some lines, with a register checked against it."""
    register, problems = read_text(tmp_path, register_text(*entries))
    assert register is not None, problems
    return accept_deviations(matrix_of(plant() if lines is None else lines), register, on)


def verdict(matrix: Matrix, line: str, clause: str) -> Verdict:
    """Return the verdict on a line by a clause."""
    return next(f.cell.verdict for f in matrix if (f.line.name, f.clause.label) == (line, clause))


def told(matrix: Matrix) -> list[tuple[str, str, tuple[str, ...]]]:
    """Return the code, the message and the lines of each observation."""
    return [(one.diagnostic.code, one.diagnostic.message, one.lines) for one in matrix.observations]


P_4 = {"lines": "'location is outdoor and vapor stop spacing is at most 18 ft and orientation is vertical'"}


def test_accepted_deviation_is_neither_fail_nor_pass(tmp_path: Path) -> None:
    """P-4 has vapor stops 18 ft apart; with a deviation the cell is an accepted deviation that says why."""
    before, after = matrix_of(plant()), reviewed(tmp_path, P_4)
    assert verdict(before, "P-4", "1.2") is Verdict.FAILS
    assert verdict(after, "P-4", "1.2") is Verdict.ACCEPTED
    assert after.counts[Verdict.FAILS] == before.counts[Verdict.FAILS] - 1
    assert after.counts[Verdict.COMPLIES] == before.counts[Verdict.COMPLIES]
    (found,) = after.findings(Verdict.ACCEPTED)
    assert found.cell.notes[0] == "accepted deviation D-1: r (s)"
    assert found.cell.reason == "vapor stop spacing is 18 ft, but must be at most 15 ft"
    assert told(after) == []


def test_outcome_with_deviations_alone_is_status_0_and_says_so(tmp_path: Path) -> None:
    """Where everything else complies the check ends with 0, and the heading names the deviations."""
    lines = (line_of("P-4"),)
    assert outcome_of(matrix_of(lines)).status == 1
    result = outcome_of(reviewed(tmp_path, P_4, lines=lines))
    assert result.status == 0
    assert result.heading == "The schedule complies with every clause that applies, but for accepted deviations."
    assert result.meaning == "All that was judged complies, but for accepted deviations."
    assert "1 requirement is accepted as a deviation, on 1 of 1 line." in result.details


@pytest.mark.parametrize(
    ("on", "holds", "message"),
    [
        (BEFORE, True, None),
        (LAST, True, None),
        (
            AFTER,
            False,
            "deviation `D-1` from `1.2` held until 2026-06-30, which is before 2026-07-01; `P-4` needs it",
        ),
        (
            None,
            False,
            "deviation `D-1` from `1.2` holds until 2026-06-30, and the day of the review is not stated; "
            "`P-4` needs it",
        ),
    ],
)
def test_deviation_holds_until_its_last_day(
    tmp_path: Path, on: datetime.date | None, holds: bool, message: str | None
) -> None:
    """On its last day a deviation holds, a day later the line fails; without a day nothing is accepted."""
    matrix = reviewed(tmp_path, {**P_4, "until": "2026-06-30"}, on=on)
    assert verdict(matrix, "P-4", "1.2") is (Verdict.ACCEPTED if holds else Verdict.FAILS)
    assert [one.diagnostic.message for one in matrix.observations] == ([] if message is None else [message])
    assert [one.diagnostic.code for one in matrix.observations] == (
        [] if message is None else ["V306" if on else "V307"]
    )


def test_expired_deviation_that_no_line_needs_is_a_note(tmp_path: Path) -> None:
    """A deviation that is over and that nobody needs any more is told, and asks nothing of anybody."""
    matrix = reviewed(tmp_path, {"lines": '"service is steam"', "until": "2026-06-30"}, on=AFTER)
    (found,) = matrix.observations
    assert (found.diagnostic.code, found.diagnostic.severity) == ("V306", Severity.NOTE)
    assert found.diagnostic.help == "take it out of the register"


def test_unused_deviation(tmp_path: Path) -> None:
    """P-5 complies with the clause, so that the deviation for it excuses nothing; a whole diagnostic."""
    (found,) = reviewed(tmp_path, {"lines": "'mark is \"P-5\"'"}).observations
    assert found.diagnostic == Diagnostic(
        "V305",
        Severity.WARNING,
        "no line needs deviation `D-1` from `1.2`",
        Place("deviations.toml", 1, 1, 13),
        "take it out of the register, or check its condition",
    )


def test_wide_deviation_names_the_lines_it_excuses_for_nothing(tmp_path: Path) -> None:
    """A condition that also holds for lines that comply is told with these lines; hot lines are out of it anyway."""
    matrix = reviewed(tmp_path, {"lines": '"location is outdoor"'})
    assert verdict(matrix, "P-4", "1.2") is Verdict.ACCEPTED
    message = "deviation `D-1` from `1.2` is too wide: it also excuses `P-3` and `P-5`, which comply without it"
    assert told(matrix) == [("V308", message, ("P-3", "P-5"))]


def test_deviation_for_some_sizes_of_a_line_does_not_accept_it(tmp_path: Path) -> None:
    """P-6 fails at 1-1/2 in and 2 in; a deviation for 2 in leaves it failing and says that it covers a part."""
    entry = {"clause": '"1.1"', "lines": '"pipe size is 2 in and service is heating hot water and component is pipe"'}
    matrix = reviewed(tmp_path, entry)
    assert verdict(matrix, "P-6", "1.1") is Verdict.FAILS
    message = "deviation `D-1` from `1.1` covers line `P-6` for a part of its sizes or temperatures only"
    assert told(matrix) == [("V309", message, ("P-6",))]


def test_two_deviations_accept_a_line_together(tmp_path: Path) -> None:
    """One for 1-1/2 in and one for 2 in take all failing sizes of P-6 out of the clause."""
    hot = "service is heating hot water and component is pipe"
    entries = [
        {"name": f'"D-{number}"', "clause": '"1.1"', "lines": f'"pipe size is {size} and {hot}"'}
        for number, size in ((1, "1-1/2 in"), (2, "2 in"))
    ]
    matrix = reviewed(tmp_path, *entries)
    (found,) = matrix.findings(Verdict.ACCEPTED)
    assert found.cell.notes[:2] == ("accepted deviation D-1: r (s)", "accepted deviation D-2: r (s)")
    assert told(matrix) == []


def test_deviation_on_a_missing_datum_accepts_nothing(tmp_path: Path) -> None:
    """Whether a deviation for horizontal lines covers a line without orientation is not known, so the line fails."""
    from speccheck.language.vocabulary.values import NotGiven

    line = line_with(line_of("P-4"), orientation=NotGiven("TBD", "to be settled later"))
    matrix = reviewed(tmp_path, P_4, lines=(line,))
    assert verdict(matrix, "P-4", "1.2") is Verdict.FAILS
    assert [code for code, _, _ in told(matrix)] == ["V310"]


def test_cell_that_cannot_be_told_stays_so(tmp_path: Path) -> None:
    """A deviation does not make a line comply whose data are missing: nobody knows what was accepted."""
    matrix = reviewed(tmp_path, {"clause": '"1.5"', "lines": '"service is domestic hot water"'})
    assert verdict(matrix, "P-10", "1.5") is Verdict.CANNOT_TELL


def test_condition_may_use_definitions_and_tables(tmp_path: Path) -> None:
    """The condition speaks the language of the ruleset: its definitions, its tables and its units."""
    entry = {"clause": '"1.1"', "lines": '"cold and thickness is less than minimum thickness and thickness is 12.7 mm"'}
    assert verdict(reviewed(tmp_path, entry), "P-2", "1.1") is Verdict.ACCEPTED


# ---- registers that cannot be used -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("entry", "expected"),
    [
        (
            {"clause": '"1.9"'},
            """error[V304]: the ruleset has no clause `1.9` that asks for anything
  at deviations.toml:3:10
  | clause = "1.9"
  |          ^^^^^
  help: did you mean `1.6`?""",
        ),
        (
            {"clause": '"1.7"'},
            """error[V304]: the ruleset has no clause `1.7` that asks for anything
  at deviations.toml:3:10
  | clause = "1.7"
  |          ^^^^^
  help: did you mean `1.6`?""",
        ),
        (
            {"reason": '" "'},
            """error[V302]: `deviation.reason` cannot be `" "`
  at deviations.toml:5:10
  | reason = " "
  |          ^^^
  help: write `reason`, why it was accepted, in quotation marks""",
        ),
        (
            {"reference": ""},
            """error[V302]: the key `deviation.reference` is missing
  at deviations.toml:1:1
  | [[deviation]]
  | ^^^^^^^^^^^^^
  help: write `reference`, where it was accepted, in quotation marks""",
        ),
        (
            {"name": "7"},
            """error[V302]: `deviation.name` cannot be `7`
  at deviations.toml:2:8
  | name = 7
  |        ^
  help: write it in quotation marks: "7\"""",
        ),
        (
            {"untill": "2026-06-30"},
            """error[V302]: there is no key `deviation.untill`
  at deviations.toml:7:1
  | untill = 2026-06-30
  | ^^^^^^
  help: did you mean `until`?""",
        ),
        (
            {"until": '"June"'},
            """error[V302]: `deviation.until` cannot be `"June"`
  at deviations.toml:7:9
  | until = "June"
  |         ^^^^^^
  help: write a date without quotation marks: 2026-06-30""",
        ),
    ],
)
def test_entry_that_cannot_be_used(tmp_path: Path, entry: dict[str, str], expected: str) -> None:
    """Each mistake of an entry is one error at its line and column, with what to write instead."""
    register, problems = read_text(tmp_path, register_text(entry))
    assert register is None
    assert "\n".join(map(str, problems)) == expected


@pytest.mark.parametrize("heading", ["[[deviation]]", '[["deviation"]]', "[[ 'deviation' ]]", "\ufeff[[deviation]]"])
def test_register_is_the_same_however_its_heading_is_written(tmp_path: Path, heading: str) -> None:
    """TOML lets a heading stand in quotation marks, and editors put a byte-order mark first: no deviation is lost."""
    plain, _ = read_text(tmp_path, register_text(P_4))
    register, problems = read_text(tmp_path, register_text(P_4).replace("[[deviation]]", heading))
    assert problems == ()
    assert plain is not None
    assert register is not None
    assert [str(one) for one in register.deviations] == [str(one) for one in plain.deviations] == ["D-1: r (s)"]


def test_tables_written_in_line_are_deviations(tmp_path: Path) -> None:
    """An array of tables in one row is the same register, and a mistake in it is shown in that row."""
    entry = "{ name = 'D-1', clause = '1.2', lines = 'service is glycl', reason = 'r', reference = 's' }"
    register, (found,) = read_text(tmp_path, f"deviation = [{entry}]")
    assert register is None
    assert (found.message, found.place.line, found.place.column) == ("`glycl` is not a value of `service`", 1, 66)


def test_mistake_in_a_condition_is_shown_at_its_place(tmp_path: Path) -> None:
    """A word that is no value is underlined where it stands in the file, with the nearest that is."""
    register, (found,) = read_text(tmp_path, register_text({"lines": '"service is glycl"'}))
    assert register is None
    assert str(found) == (
        "error[L202]: `glycl` is not a value of `service`\n"
        "  at deviations.toml:4:21\n"
        "  |          service is glycl\n"
        "  |                     ^^^^^\n"
        "  help: did you mean `glycol`?"
    )


def test_more_than_a_condition_is_refused(tmp_path: Path) -> None:
    """A text that goes on behind a condition cannot smuggle in another part of a clause."""
    register, (found,) = read_text(tmp_path, register_text({"lines": '"cold shall thickness be at least 1 in"'}))
    assert register is None
    assert found.code == "V303"
    assert found.message == "`cold shall thickness be at least 1 in` is not one condition"


def test_names_are_used_once(tmp_path: Path) -> None:
    """Letters call deviations by their names, so that two cannot share one."""
    register, (found,) = read_text(tmp_path, register_text({}, {}))
    assert register is None
    assert (
        str(found)
        == """error[V302]: two deviations are called `D-1`
  at deviations.toml:9:8
  | name = "D-1"
  |        ^^^^^
  help: give one of them another name"""
    )


@pytest.mark.parametrize(
    ("text", "code", "message"),
    [
        ("[[deviation]\n", "V301", "this is not TOML: expected ']]' at the end of an array declaration"),
        ("deviation = 3\n", "V302", "`deviation` cannot be `3`"),
        ("deviation = []\n", "V302", "`deviation` cannot be `[]`"),
        ('[[deviations]]\nname = "D-1"\n', "V302", "there is no key `deviations`"),
        ("", "V302", "the key `deviation` is missing"),
    ],
)
def test_other_files_are_refused(tmp_path: Path, text: str, code: str, message: str) -> None:
    """What is no TOML, or has another shape, is one error and no register; neither has a file without deviations."""
    register, (found,) = read_text(tmp_path, text)
    assert register is None
    assert (found.code, found.severity, found.message) == (code, Severity.ERROR, message)


def test_file_that_is_not_there(tmp_path: Path) -> None:
    """A register that does not exist is an error that names it without its folder."""
    found = read_register(tmp_path / "none.toml", ruleset())[1]
    message = "`none.toml` cannot be opened: no such file or directory"
    help = "write a table [[deviation]] for each deviation"
    assert found == (Diagnostic("V301", Severity.ERROR, message, Place("none.toml"), help),)


def test_values_of_lines_are_read_as_in_a_schedule() -> None:
    """The lines of these tests say what they are meant to say."""
    assert line_of("P-4").data["vapor stop spacing"].value == value("vapor stop spacing", "18 ft")
