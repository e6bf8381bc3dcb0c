"""Sweeps: every combination once, the verdicts of the judge, counts checked against a published table."""

from __future__ import annotations

import random
import re
from collections import Counter
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.cli.sweep import command
from speccheck.inputs import UnusableInput
from speccheck.judge import Judge, Verdict
from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Clause, Ruleset
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import NOMINAL_SIZES, Misread
from speccheck.report.all_codes import all_rules
from speccheck.report.sweep import render_sweep
from speccheck.review.sweep import Axes, Sweep, SweptTerm, axes_of, read_swept, running, sweep
from speccheck.review.sweep.running import BLOCK, VERDICTS, blocks_of, clause_named
from speccheck.schedule.lines import Datum, Line
from tests.review.portfolio_schedules import RULESET, loaded, write_ruleset
from tests.rulesets.energy_documents import SIZES
from tests.rulesets.proposing import published

RANGES = """ruleset "Sweeps"
  speaks mechanical insulation
  units  inch-pound

clause 1 "Thickness"
  where service is chilled water
  shall thickness be at least 1-1/2 in

clause 2 "Temperature"
  shall operating temperature be at most 200 F

clause 3 "Flame"
  should flame spread be at most 25
"""


@pytest.fixture(scope="module")
def ruleset() -> Ruleset:
    """A ruleset of two requirements and a recommendation."""
    found = parse_ruleset(RANGES)
    assert found.ruleset is not None
    return found.ruleset


def swept(texts: str, ruleset: Ruleset) -> tuple[SweptTerm, ...]:
    """Return the terms that a text states, which must be without fault."""
    terms, problems = read_swept([texts], ruleset)
    assert problems == ()
    return terms


def counted(ruleset: Ruleset, texts: str, clause: Clause | None = None, down: str = "", across: str = "") -> Sweep:
    """Return the sweep that a text states."""
    terms = swept(texts, ruleset)
    axes = axes_of(terms, down, across)
    assert isinstance(axes, Axes), axes
    return sweep(ruleset, terms, axes, clause)


# ---- against a published table ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("fluid", "low"), [("180 F", "141"), ("220 F", "201")])
def test_picture_of_the_energy_code_is_its_printed_table(fluid: str, low: str) -> None:
    """Over all sizes and many thicknesses, the clause fails exactly where the printed thickness is not reached.

    Source: ASHRAE 90.1-2010, Table 6.8.3A, rows 141 F to 200 F and 201 F to 250 F (second hand), for a conductivity
    of 0.28 Btu in/(h ft2 F), which lies in the range of both rows.
    """
    (row,) = (one for one in published("energy_pipe_thickness") if (one["document"], one["low"]) == ("ashrae", low))
    code = load_ruleset("energy/ashrae-90.1").ruleset
    assert code is not None
    clause = clause_named("90.1-1.2", code)
    assert isinstance(clause, Clause)
    texts = f"pipe size 1/8 in to 48 in; thickness 1/2 in to 5 in every 1/2 in; service heating hot water; \
operating temperature {fluid}; conductivity 0.28 Btu.in/(h.ft2.F)"
    found = counted(code, texts, clause)
    names = [size.written("inch-pound") for size in NOMINAL_SIZES]
    thicknesses = [number / 2 for number in range(1, 11)]
    assert found.terms[0].texts == tuple(names)
    column, needed = "", []
    for name in names:
        column = next((key for key, ends in SIZES.items() if f"{ends[0]} in" == name), column)
        needed.append(float(row[column]))
    for place, least in enumerate(needed):
        verdicts = [VERDICTS[int(cell.argmax())] for cell in found.grid[place]]
        expected = [Verdict.COMPLIES if thickness >= least else Verdict.FAILS for thickness in thicknesses]
        assert verdicts == expected, names[place]
    fails = sum(thickness < least for least in needed for thickness in thicknesses)
    assert found.outcomes[Verdict.FAILS] == fails
    assert found.count == len(names) * 10


# ---- against the judge -----------------------------------------------------------------------------------------------

VALUES = {
    "service": ("chilled water", "steam", "TBD"),
    "location": ("outdoor", "conditioned"),
    "thickness": ("1/2 in", "1 in", "2 in", "25 mm", "TBD"),
    "jacket": ("aluminum", "PVC", "none"),
    "seam closure": ("factory adhesive", "tape"),
    "pipe size": ("2 in", "DN 100"),
}


@settings(max_examples=25, deadline=None)
@given(st.data())
def test_counts_are_those_of_the_judge(tmp_path_factory: pytest.TempPathFactory, data: st.DataObject) -> None:
    """For any terms and values, the counts by clause and the picture are those of judging each combination alone."""
    path = tmp_path_factory.getbasetemp() / "rules.clauses"
    if not path.exists():
        path.write_text(RULESET, encoding="utf-8")
    rules = loaded(path)
    names = data.draw(st.lists(st.sampled_from(sorted(VALUES)), min_size=1, max_size=4, unique=True))
    chosen = {
        name: data.draw(st.lists(st.sampled_from(VALUES[name]), min_size=1, unique=True), label=name) for name in names
    }
    found = counted(rules, "; ".join(f"{name} {', '.join(values)}" for name, values in chosen.items()))
    judge, expected, grid = (
        Judge(rules),
        [Counter[Verdict]() for _ in rules.clauses],
        Counter[tuple[int, int, Verdict]](),
    )
    for block in blocks_of(found.terms):
        for row in range(len(block.positions[0])):
            at = [int(positions[row]) for positions in block.positions]
            cells = judge.row(line_of(found.terms, at, rules))
            for number, cell in enumerate(cells):
                expected[number][cell.verdict] += 1
            worst = next((one for one in VERDICTS if any(c.verdict is one and c.mandatory for c in cells)), None)
            across = 0 if found.axes.across is None else at[found.axes.across]
            grid[at[found.axes.down], across, worst or Verdict.NOT_APPLICABLE] += 1
    assert [+Counter(one.counts) for one in found.clauses] == expected
    for down, row_counts in enumerate(found.grid):
        for across, counts in enumerate(row_counts):
            assert [int(count) for count in counts] == [grid[down, across, verdict] for verdict in VERDICTS]


def line_of(terms: tuple[SweptTerm, ...], at: list[int], rules: Ruleset) -> Line:
    """Return a combination as a line of a schedule."""
    data = {}
    for one, place in zip(terms, at, strict=True):
        value = read_value(one.texts[place], one.term, BareUnits(system=rules.units))
        assert not isinstance(value, Misread)
        data[one.term.name] = Datum(value, one.texts[place])
    return Line("a combination", data)


# ---- counts worked out by hand ---------------------------------------------------------------------------------------


def test_more_combinations_than_a_block(ruleset: Ruleset) -> None:
    """400 thicknesses by 500 temperatures over two services: more than a block, and counted by arithmetic.

    Clause 1: 1/100 in to 4 in in steps of 1/100 in, of which 149 are below 1-1/2 in, for one of two services.
    Clause 2: 1 F to 500 F in steps of 1 F, of which 300 are over 200 F.
    """
    texts = "service chilled water, steam; thickness 0.01 in to 4 in every 0.01 in; \
operating temperature 1 F to 500 F every 1 F"
    found = counted(ruleset, texts)
    assert found.count == 400_000 > BLOCK
    thickness, temperature, _ = found.clauses
    assert thickness.counts == {
        Verdict.FAILS: 149 * 500,
        Verdict.CANNOT_TELL: 0,
        Verdict.COMPLIES: 251 * 500,
        Verdict.NOT_CHECKED: 0,
        Verdict.NOT_APPLICABLE: 200_000,
    }
    assert temperature.counts[Verdict.FAILS] == 300 * 800
    assert found.outcomes[Verdict.FAILS] == 400_000 - (400 + 251) * 200
    assert temperature.first_fail == ("service chilled water", "thickness 0.01 in", "operating temperature 201 F")
    assert found.by_value[0].sum(axis=1).tolist() == [200_000, 200_000]
    assert int(found.grid.sum()) == 400_000


@pytest.mark.parametrize(
    ("texts", "values"),
    [
        ("thickness 1/2 in, 1 in,1-1/2 in", ("1/2 in", "1 in", "1-1/2 in")),
        ("pipe size 2 in to 4 in", ("2 in", "2-1/2 in", "3 in", "3-1/2 in", "4 in")),
        ("pipe size 1 in, 2 in to 3 in, 2 in", ("1 in", "2 in", "2-1/2 in", "3 in")),
        ("operating temperature 40 F to 60 F every 10 F", ("40 F", "50 F", "60 F")),
        ("operating temperature 40 F to 65 F every 10 F", ("40 F", "50 F", "60 F")),
        ("operating temperature 0 C to 0.3 C every 0.1 C", ("0 C", "0.1 C", "0.2 C", "0.3 C")),
        ("thickness 1 to 2 every 1/2", ("1 in", "1-1/2 in", "2 in")),
        ("concealed all", ("yes", "no")),
        ("vapor stop spacing 1,000 ft, 15 ft", ("1,000 ft", "15 ft")),
        ("thickness TBD, 1 in", ("TBD", "1 in")),
        ("flame spread 10 to 30 every 10", ("10", "20", "30")),
    ],
)
def test_values(ruleset: Ruleset, texts: str, values: tuple[str, ...]) -> None:
    """Commas part values, ranges of sizes are every size in them, other ranges are gone through in steps."""
    ((found),) = swept(texts, ruleset)
    assert found.texts == values


def test_all_is_every_choice(ruleset: Ruleset) -> None:
    """The word `all` stands for each value of a list, once."""
    (found,) = swept("location all", ruleset)
    assert found.texts == tuple(choice.name for choice in ruleset.vocabulary.terms["location"].choices)


def error(code: str, message: str, column: int, length: int, help: str, text: str) -> Diagnostic:
    """Return the diagnostic that is expected, at a place of the text."""
    assert code in all_rules()
    return Diagnostic(code, Severity.ERROR, message, Place("the sweep", 1, column, length), help, text)


@pytest.mark.parametrize(
    ("text", "code", "message", "column", "length", "help"),
    [
        ("", "V601", "no term is stated", 1, 0, "write `thickness 1/2 in, 1 in`"),
        (
            "thicness 1 in",
            "V601",
            "`thicness 1 in` does not begin with a term of the vocabulary",
            1,
            13,
            "did you mean `thickness ...`?",
        ),
        (
            "thickness 1 in; thk 2 in",
            "V602",
            "`thickness` is stated twice",
            17,
            8,
            "state it once, with all its values",
        ),
        (
            "thickness 1 in, 40 F",
            "V603",
            "`F` is a unit of temperature or temperature difference, not of length",
            17,
            4,
            "write a length in in or mm",
        ),
        ("thickness", "V603", "no value of `thickness` is stated", 10, 0, "write its values, parted by commas"),
        (
            "operating temperature 40 F to 60 F",
            "V604",
            "`40 F to 60 F` is a range without steps",
            23,
            12,
            "say the steps: `40 F to 60 F every ...`",
        ),
        (
            "thickness 1 in to 2 in every 0 in",
            "V604",
            "`1 in to 2 in every 0 in` has no steps, or more than 10,000 of them",
            11,
            23,
            "write the lower end first, and steps of a sensible size",
        ),
        (
            "thickness 1 in every 1 in",
            "V604",
            "`1 in` cannot be gone through in steps",
            11,
            15,
            "write a range with two ends before `every`, such as `1 to 5 every 1`",
        ),
    ],
)
def test_mistakes(ruleset: Ruleset, text: str, code: str, message: str, column: int, length: int, help: str) -> None:
    """Each mistake has its code, its place in the text and what to write instead."""
    _, problems = read_swept([text], ruleset)
    assert problems == (error(code, message, column, length, help, text),)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("thickness " + ", ".join(["1 in"] * 10_001), "`thickness` has 10,001 values, and the limit is 10,000"),
        (
            "thickness 0 in to 1000 in every 0.01 in",
            "`0 in to 1000 in every 0.01 in` has no steps, or more than 10,000",
        ),
        ("thickness 1e308 in", "`1e308` is too large or too small a number"),
        ("thickness " + "9" * 400 + " in", "`99999999999999999999...` is too long for a number (403 characters)"),
        ("thickness 0 in to 1 in every 1e-300 in", "`1e-300` is too large or too small a number"),
        ("pipe size 1/2 in to 1e30 in", "there is no nominal pipe size `1e30 in`"),
        ("a.b" * 20_000, "`a.ba.ba.ba.b"),
    ],
)
def test_large_values_and_many_are_refused(ruleset: Ruleset, text: str, message: str) -> None:
    """What is too large, too small, too long or too much is told at once, with the limit that it passes."""
    _, problems = read_swept([text], ruleset)
    assert [one.severity for one in problems] == ["error"]
    assert problems[0].message.startswith(message)


def test_a_name_of_a_term_may_be_written_with_hyphens(ruleset: Ruleset) -> None:
    """However the words of a name are joined, it is found, and what follows are its values."""
    for name in ("pipe size", "pipe-size", "pipe - size", "Pipe Size:"):
        terms, problems = read_swept([f"{name} 2 in, 3 in"], ruleset)
        assert (terms[0].term.name, terms[0].texts, problems) == ("pipe size", ("2 in", "3 in"), ())


def test_hostile_texts_are_values_or_mistakes(ruleset: Ruleset) -> None:
    """Whatever is written, nothing is raised."""
    chance = random.Random(3)
    words = (
        "thickness",
        "1/2 in",
        ",",
        ";",
        "every",
        "to",
        "all",
        "pipe size",
        "40 F",
        "0",
        "-",
        "\n",
        "none",
        "1e400",
    )
    for _ in range(400):
        text = " ".join(chance.choice(words) for _ in range(chance.randint(0, 7)))
        terms, problems = read_swept([text], ruleset)
        assert terms or problems


# ---- the picture and the command -------------------------------------------------------------------------------------


def test_axes(ruleset: Ruleset, monkeypatch: pytest.MonkeyPatch) -> None:
    """Terms with several values come first; named ones count; mistakes are said, with what to write instead."""
    terms = swept("service steam; thickness 1 in, 2 in; pipe size 1 in to 4 in", ruleset)
    assert axes_of(terms) == Axes(1, 2)
    assert axes_of(terms, across="thickness") == Axes(2, 1)
    assert axes_of(terms[:1]) == Axes(0, None)
    place = Place()
    assert axes_of(terms, down="jacket") == Diagnostic(
        "V606",
        Severity.ERROR,
        "`jacket` is no term of the sweep",
        place,
        "write one of: service, thickness, pipe size",
    )
    assert axes_of(terms, "thickness", "thickness") == Diagnostic(
        "V606", Severity.ERROR, "`thickness` cannot be both axes", place, "name two different terms"
    )
    monkeypatch.setattr(running, "MOST_CELLS", 10)
    assert axes_of(terms) == Diagnostic(
        "V606",
        Severity.ERROR,
        "the picture would have 16 cells, and the limit is 10",
        place,
        "name axes with fewer values: `--down` and `--across`",
    )
    monkeypatch.setattr(running, "MOST_COMBINATIONS", 15)
    assert axes_of(terms) == Diagnostic(
        "V605",
        Severity.ERROR,
        "the values make 16 combinations, and the limit is 15",
        place,
        "state fewer values, or sweep in parts",
    )


def test_picture_reads_without_colour(ruleset: Ruleset) -> None:
    """Each cell says in words what its shade says: the gravest verdict, and its share where not all have it."""
    texts = "thickness 1 in, 2 in; service chilled water, steam; operating temperature 180 F, 190 F, 260 F, TBD"
    page = render_sweep(counted(ruleset, texts, down="thickness", across="operating temperature"))
    cells = re.findall(
        r"<td(?: class=\"([^\"]*)\")? title=\"([^\"]*)\"><b>(.*?)</b>(?:<small>(.*?)</small>)?</td>", page
    )
    assert cells == [
        ("fail-2", "1 does not comply; 1 complies", "FAIL", "1 of 2"),
        ("fail-2", "1 does not comply; 1 complies", "FAIL", "1 of 2"),
        ("fail-4", "2 does not comply", "FAIL", ""),
        ("fail-2", "1 does not comply; 1 cannot be determined", "FAIL", "1 of 2"),
        ("", "2 complies", "ok", ""),
        ("", "2 complies", "ok", ""),
        ("fail-4", "2 does not comply", "FAIL", ""),
        ("ask", "2 cannot be determined", "info", ""),
    ]


def test_command(tmp_path: Path) -> None:
    """The command counts in the terminal and writes the page; what cannot be used ends with status 3."""
    rules = write_ruleset(tmp_path)
    page, runner = tmp_path / "sweep.html", CliRunner()
    call = [str(rules), "service chilled water; thickness 1/2 in, 1 in", "location outdoor, conditioned"]
    found = runner.invoke(command, [*call, "--page", str(page)], standalone_mode=False)
    assert found.return_value == 0
    assert "4 combinations of thickness (2), location (2)." in found.output
    assert "Clauses that cannot be determined also ask for jacket; state them to settle more." in " ".join(
        found.output.split()
    )
    assert max(map(len, found.output.splitlines())) <= 80
    assert "Thickness against location" in page.read_text(encoding="utf-8")
    for wrong in (["--clause", "9"], ["--down", "jacket"], ["--page", str(rules)], ["jacket 3 in"]):
        result = runner.invoke(command, [*call, *wrong], standalone_mode=False)
        refused = isinstance(result.exception, UnusableInput) or 3 in (result.exit_code, result.return_value)
        assert refused, wrong
    assert rules.read_text() == RULESET


def test_clause_that_the_ruleset_does_not_have(ruleset: Ruleset) -> None:
    """A sweep counts for a clause of the ruleset; the help line has those that there are, also by ruleset."""
    found = clause_named("no such clause", ruleset)
    message = "the ruleset has no clause `no such clause`"
    help = "write one of: 1, 2, 3, 1 (Sweeps), 2 (Sweeps), 3 (Sweeps)"
    assert found == Diagnostic("V607", Severity.ERROR, message, Place(), help)
