"""The terminal: what fails first, 80 columns, no colour codes and no codes of others where they do not belong."""

from __future__ import annotations

import io

import pytest
from rich.console import Console

from speccheck.judge.judgement import Verdict
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.terminal.diagnostics import print_diagnostics
from speccheck.report.terminal.report import print_matrix
from speccheck.report.terminal.short_report import print_short
from speccheck.report.wording import clause_label
from speccheck.review.matrix import Matrix
from tests.demo.test_dairy import DAIRY
from tests.demo.test_mending import judged


def printed(matrix: Matrix, width: int | None = None) -> str:
    """Return what is printed to a file."""
    file = io.StringIO()
    print_matrix(matrix, Console(file=file), width=width)
    return file.getvalue()


def test_report_of_a_small_plant(plant: Matrix) -> None:
    """The whole of what a reviewer sees: outcome, what fails, what is open, missing data, advice, reading, status."""
    assert (
        printed(plant)
        == """\
Pipe insulation, section 23 07 19, Addendum 2, 2026-03-04
schedule.xlsx: 4 lines, 4 clauses

The schedule does not comply.
1 requirement does not comply, on 1 of 4 lines.
2 requirements cannot be determined, on 2 of 4 lines.
2 requirements comply, on 2 of 4 lines.
2 recommendations are not followed or cannot be determined.
1 warning on how the schedule was read.

Does not comply
  2.1.A Minimum thickness, heating hot water
    HHW-1: heating hot water, 2 in
      the thickness is 1-1/2 in, and at least 2 in is asked for (at 2 in)

Cannot be determined
  3.4.C Vapor stops
    CHW-1, CHW-2
      the vapor stop spacing is not given

Information needed
  vapor stop spacing for CHW-1, CHW-2
    clause 3.4.C

Recommendations (non-mandatory)
  3.6.B Outdoor jackets
    HHW-1: heating hot water, 2 in
      the jacket is 0.016 in thick, and at least 0.024 in is advised
  3.9 Colour of jackets
    HHW-2: heating hot water, 1 in
      the colour is not given

In the schedule, not understood or in doubt
  sheet Piping, A3: column `Line` became no term: the names of the lines
  sheet Piping, D3: warning S203: the heading `Rmk by PM` is no term of the
  vocabulary
    name the column in a mapping file

This report is an aid to a reviewer and no approval. It judges only what the
schedule states, by the clauses that were written down; the contract documents
govern.
Hot surfaces, fire ratings, adhesives and their fumes, and work at height can
hurt people. Follow the adopted code, the manufacturer's instructions and
licensed practice.

Something does not comply.
"""
    )


@pytest.mark.parametrize("width", [30, 56, 80, 120])
@pytest.mark.parametrize("which", ["plant", "hostile", "large"])
def test_no_line_is_wider_than_asked_for(which: str, width: int, request: pytest.FixtureRequest) -> None:
    """Long texts are wrapped, whatever the width."""
    lines = printed(request.getfixturevalue(which), width).splitlines()
    assert max(map(len, lines)) <= width


def test_codes_of_others_do_not_reach_the_terminal(hostile: Matrix) -> None:
    """Text with escape codes and rich's own mark-up is shown as text; only line feeds are left of the control codes."""
    text = printed(hostile)
    assert not [character for character in text if ord(character) < 32 and character != "\n"]
    assert not [character for character in text if 0x7F <= ord(character) < 0xA0 or 0x202A <= ord(character) <= 0x202E]
    assert "[bold]not rich markup[/bold]" in text


def test_a_terminal_gets_colours_and_the_same_words(plant: Matrix) -> None:
    """The colours add nothing: without the codes the text is that of a file."""
    import re

    file = io.StringIO()
    print_matrix(plant, Console(file=file, force_terminal=True, width=80, color_system="standard"))
    text = file.getvalue()
    assert "\x1b[" in text
    assert re.sub(r"\x1b\[[\d;]*m", "", text) == printed(plant)


def test_a_terminal_without_the_characters_shows_question_marks(hostile: Matrix) -> None:
    """Where the terminal's encoding has no such character, the report goes on."""
    raw = io.BytesIO()
    console = Console(file=io.TextIOWrapper(raw, encoding="ascii", write_through=True))
    print_matrix(hostile, console)
    diagnostic = Diagnostic("S101", Severity.ERROR, "`1½″` is no size", Place("s.csv", 2, 1, 3), excerpt="1½″")
    print_diagnostics([diagnostic], console)
    assert b"`1??` is no size" in raw.getvalue()


def diagnostics_text(*diagnostics: Diagnostic, width: int = 80) -> str:
    """Return the diagnostics as printed to a file."""
    file = io.StringIO()
    print_diagnostics(diagnostics, Console(file=file), width=width)
    return file.getvalue()


def test_diagnostics_underline_the_offending_text() -> None:
    """They come in the order of their places, with excerpt, carets and help, and are counted at the end."""
    late = Diagnostic("S203", Severity.WARNING, "the heading `Rmk` is no term", Place("s.xlsx", sheet="P", cell="D3"))
    early = Diagnostic(
        "L201",
        Severity.ERROR,
        "there is no term `thicknes`",
        Place("a.clauses", 3, 9, 8),
        "write `thickness`",
        "  shall thicknes be at least 1 in",
    )
    assert (
        diagnostics_text(late, early, early)
        == """\
error[L201]: there is no term `thicknes`
  at a.clauses:3:9
  |   shall thicknes be at least 1 in
  |         ^^^^^^^^
  help: write `thickness`

warning[S203]: the heading `Rmk` is no term
  at s.xlsx sheet P D3

1 error and 1 warning.
"""
    )


def test_nothing_is_printed_without_diagnostics() -> None:
    """No news is no line."""
    assert diagnostics_text() == ""


@pytest.mark.parametrize(
    ("excerpt", "column", "length", "carets"),
    [
        ("shall x be 1 in", 7, 1, "      ^"),
        ("\tshall x", 8, 1, "       ^"),
        ("管 x", 3, 1, "   ^"),
        ("x 管", 3, 1, "  ^^"),
        ("short", 20, 4, "     ^"),
    ],
)
def test_carets_stand_under_the_text(excerpt: str, column: int, length: int, carets: str) -> None:
    """Tabs count as one column, wide characters (Unicode Standard Annex 11) as two; a place past the end is its end."""
    found = Diagnostic("L101", Severity.ERROR, "no", Place("a", 1, column, length), excerpt=excerpt)
    assert diagnostics_text(found).splitlines()[3] == f"  | {carets}"


def test_a_long_excerpt_is_cut_around_the_place() -> None:
    """Excerpt and carets fit the width, and the offending text is among what is left."""
    excerpt = "x" * 200 + " thicknes " + "y" * 200
    found = Diagnostic("L201", Severity.ERROR, "no", Place("a", 1, 202, 8), excerpt=excerpt)
    shown, carets = diagnostics_text(found).splitlines()[2:4]
    assert len(shown) <= 80
    assert shown[carets.index("^") : carets.rindex("^") + 1] == "thicknes"


def test_short_report_of_a_small_plant(plant: Matrix) -> None:
    """A line for each clause with findings, the data that are needed, and last the counts and the verdict."""
    file = io.StringIO()
    print_short(plant, Console(file=file))
    assert (
        file.getvalue()
        == """\
Pipe insulation, section 23 07 19, Addendum 2, 2026-03-04
schedule.xlsx: 4 lines, 4 clauses

Does not comply
  2.1.A  HHW-1: the thickness is 1-1/2 in, and at least 2 in is asked for

Cannot be determined
  3.4.C  CHW-1, CHW-2: the vapor stop spacing is not given

Information needed: vapor stop spacing (CHW-1, CHW-2)

An aid to a reviewer, no approval: the contract documents govern. Mind hot
surfaces, fire, adhesives and heights: follow the adopted code, the
manufacturer's instructions and licensed practice.

1 requirement does not comply, on 1 of 4 lines.
2 requirements cannot be determined, on 2 of 4 lines.
2 requirements comply, on 2 of 4 lines.
2 recommendations are not followed or cannot be determined.
1 warning on how the schedule was read.
`--full` prints every reason, what is needed, and how the schedule was read.
The schedule does not comply.
"""
    )


def test_short_report_of_a_large_plant_fits_a_screen() -> None:
    """The demo has some 48 fails: in 45 lines of 80 columns each clause with findings is named, the verdict last."""
    dairy = judged(DAIRY / "schedule.xlsx")
    file = io.StringIO()
    print_short(dairy, Console(file=file))
    lines = file.getvalue().splitlines()
    assert len(lines) <= 45
    assert max(map(len, lines)) <= 80
    assert lines[-1] == "The schedule does not comply."
    words = " ".join(" ".join(lines).split())
    for one in (*dairy.findings(Verdict.FAILS), *dairy.findings(Verdict.CANNOT_TELL)):
        assert clause_label(one.clause) in words
