"""Findings told in full, the code and the revision compared, and the command that prints them."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.judge import Verdict
from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Clause, Ruleset
from speccheck.language.diagnostics import Severity
from speccheck.proofread import solving
from speccheck.proofread.matching import paired
from speccheck.proofread.proofreading import proofread
from speccheck.proofread.revisions import Change, Revised, compare_revisions
from speccheck.proofread.stringency import Stringency, compare_stringency
from speccheck.proofread.verdicts import TurnedVerdict, turned_verdicts
from speccheck.quantities import Quantity
from speccheck.report.all_codes import chapters
from speccheck.schedule.lines import Datum, Line, Schedule
from tests.proofread.showing import shown
from tests.some import some

FOLDER = Path(__file__).parent
WANTING = FOLDER / "wanting.clauses"


def _ruleset(text: str) -> Ruleset:
    loaded = parse_ruleset(f'ruleset "case"\n  speaks "vocabulary"\n{text}', "case.clauses", FOLDER)
    assert loaded.usable, [str(found) for found in loaded.diagnostics]
    assert loaded.ruleset is not None
    return loaded.ruleset


def _wanting() -> Ruleset:
    ruleset = load_ruleset(WANTING).ruleset
    assert ruleset is not None
    return ruleset


def test_everything_wanting_is_told_in_full() -> None:
    """Each clause of `wanting.clauses` is named for what is wrong with it; all of that is found, and nothing else.

    By hand: the last column says why it is wrong, which anybody can check in the clauses.
    """
    with (FOLDER / "wanting.csv").open(encoding="utf-8", newline="") as opened:
        rows = [tuple(row) for row in csv.reader(opened)][1:]
    expected = [row[:-1] for row in rows]
    assert all(row[-1] for row in some(rows))
    found = proofread(_wanting())
    told = [
        (f.code, str(f.place.line), " ".join(f.clauses), f.message, f.help, f.example_text, f.systems)
        for f in found.findings
    ]
    assert told == expected
    assert found.undecided == ()


def test_examples_of_what_is_wanting_show_it() -> None:
    """The judge finds on each example line what the finding says."""
    ruleset = _wanting()
    assert all(shown(one, ruleset) for one in some(one for one in proofread(ruleset).findings if one.example))


def test_finding_is_a_warning_with_its_example_in_the_help() -> None:
    """As a diagnostic a finding is a warning at the place of its wording, and the help line has the example."""
    (found,) = [one for one in proofread(_wanting()).findings if one.code == "P307"]
    diagnostic = found.diagnostic()
    assert (diagnostic.code, diagnostic.severity) == ("P307", Severity.WARNING)
    assert str(diagnostic) == (
        "warning[P307]: no line can meet clause `8`\n"
        "  at wanting.clauses:66:11\n"
        "  help: correct what it asks for; the line is one of those that fail it; for example service refrigerant, "
        "jacket aluminum"
    )


def test_every_code_is_explained() -> None:
    """Every code that proofreading gives has a title and an explanation for the guide."""
    assert {one.code for one in proofread(_wanting()).findings} <= set(chapters()["Proofreading"])


def test_without_a_solver_what_needs_one_is_left_open(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without z3 the clause that only arithmetic shows never to apply is listed as not decided, not as a finding."""
    monkeypatch.setattr(solving, "has_solver", lambda: False)
    found = proofread(_wanting())
    assert ("P301", "whether clause `3` ever applies") in [(one.code, one.question) for one in found.undecided]
    assert ("P301", ("3",)) not in [(one.code, one.clauses) for one in found.findings]


ARITHMETIC = """
define rise
  equal to operating temperature minus ambient temperature

clause 1 "Rise"
  shall rise be more than 37.31 F difference and rise be less than 37.33 F difference
"""
MET = """  example "between the two" complies
          ambient temperature 60 F, operating temperature 97.32 F
"""


def test_an_example_decides_what_is_left_open(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whether a clause can be met is not asked where an example meets it, solver or not; nor is a pair's clash."""
    monkeypatch.setattr(solving, "has_solver", lambda: False)
    second = ARITHMETIC.partition("clause")[2].replace(' 1 "Rise"', 'clause 2 "Rise"').replace("37.33", "37.34")
    texts = (ARITHMETIC, ARITHMETIC + MET, ARITHMETIC + second, ARITHMETIC + MET + second)
    asked = [[(one.code, one.clauses) for one in proofread(_ruleset(text)).undecided] for text in texts]
    met = ("P201", "P307")
    assert [[one for one in found if one[0] in met] for found in asked] == [
        [("P307", ("1",))],
        [],
        [("P307", ("1",)), ("P201", ("1", "2")), ("P307", ("2",))],
        [],
    ]


CODE = """
table scheduled in inches
  by operating temperature
  up to 100 F | 1
  over 100 F  | 2

clause C1 "Thickness"
  where service is steam
  shall thickness be at least scheduled

clause C2 "Jacket"
  where outdoors
  shall jacket be one of aluminum, PVC

clause C3 "Fasteners"
  shall fasteners be at least 4

clause C4 "Chilled water"
  where service is chilled water
  shall thickness be at least 1 in

clause C5 "Stops"
  shall vapor stops include valves
"""
SPECIFICATION = """
clause S1 "Thickness"
  shall thickness be at least 1 in

clause S2 "Jacket"
  where outdoors
  shall jacket be aluminum

clause S3 "Fasteners"
  shall fasteners be at least 3

clause S5 "Stops"
  shall vapor stops include any of valves, flanges
  except where service is refrigerant
"""


def test_specification_is_held_against_each_clause_of_the_code() -> None:
    """By hand: steam over 100 F may be thinner, jackets are stricter, fasteners looser, stops looser."""
    found = compare_stringency(_ruleset(SPECIFICATION), _ruleset(CODE))
    assert [(one.label, one.stringency, one.matched) for one in found] == [
        ("C1", Stringency.LOOSER, ("S1",)),
        ("C2", Stringency.STRICTER, ("S2",)),
        ("C3", Stringency.LOOSER, ("S3",)),
        ("C4", Stringency.SAME, ("S1",)),
        ("C5", Stringency.LOOSER, ("S5",)),
    ]
    words = [", ".join(f"{stated.term.name} {stated.text}" for stated in one.looser) for one in found]
    assert words[2] == "fasteners 3"


def test_a_specification_is_the_same_as_itself() -> None:
    """No line is accepted by a specification and failed by one of its own clauses, nor the other way round."""
    specification = _ruleset(SPECIFICATION)
    assert {one.stringency for one in compare_stringency(specification, specification)} == {Stringency.SAME}


def test_shortfalls_tell_specifications_apart_that_are_looser_alike() -> None:
    """By hand: where the code asks for 4 in, 3 in fall short by a quarter and 1/2 in by seven eighths.

    Pipe of 2 in, of which the code asks for 3 in, falls short of less.
    """
    code = """
table asked in inches
  by pipe size
  up to 2 in | 3
  over 2 in  | 4

clause C1 "Thickness"
  where service is steam
  shall thickness be at least asked
"""
    told = []
    for least in ("3", "1/2"):
        (one,) = compare_stringency(_ruleset(f'clause 1 "t"\n  shall thickness be at least {least} in'), _ruleset(code))
        assert one.shortfall is not None
        told.append((one.shortfall.text, one.shortfall.share, one.looser[1].text))
    assert told == [
        ("`thickness` 3 in instead of at least 4 in", pytest.approx(0.25), "2-1/2 in"),
        ("`thickness` 1/2 in instead of at least 4 in", pytest.approx(0.875), "2-1/2 in"),
    ]


def test_shortfall_of_a_requirement_with_a_condition_of_its_own() -> None:
    """By hand: outdoors 2 in are asked for and 1 in is accepted, a half of it; indoors 1 in is all that is asked."""
    code = 'clause C1 "t"\n  shall thickness be at least 2 in if outdoors otherwise thickness be at least 1 in'
    (one,) = compare_stringency(_ruleset('clause 1 "t"\n  shall thickness be at least 1 in'), _ruleset(code))
    assert one.shortfall is not None
    assert (one.shortfall.text, one.shortfall.share) == ("`thickness` 1 in instead of at least 2 in", 0.5)
    assert [(stated.term.name, stated.text) for stated in one.looser] == [("outdoors", "yes"), ("thickness", "1 in")]


def test_two_limits_of_which_one_has_a_condition_of_its_own() -> None:
    """By hand: outdoors the second asks for 2 in where the first asks for 1 in; where both ask for 1 in, nothing."""
    first = 'clause 1 "t"\n  shall thickness be at least 1 in\n  shall jacket be PVC\n'
    told = []
    for inside, outside in (("1 in", "2 in"), ("1 in", "1 in")):
        asked = f"thickness be at least {outside} if outdoors otherwise thickness be at least {inside}"
        found = proofread(_ruleset(f'{first}clause 2 "t"\n  shall {asked}')).findings
        told.append([(one.clauses, one.example_text) for one in found if one.code == "P202"])
    assert told == [[(("1", "2"), "outdoors yes, thickness 1 in, jacket PVC")], []]


def test_specification_is_looser_only_where_it_declares_to_govern() -> None:
    """By hand: the specification leaves steam to another section, and asks as much as the code of all else."""
    code = 'clause C1 "t"\n  shall thickness be at least 1 in'
    clause = 'clause 1 "t"\n  subject thickness\n  where service is not steam\n  shall thickness be at least 1 in\n'
    scope = "scope thickness\n  where service is not steam\n"
    found = [compare_stringency(_ruleset(text), _ruleset(code))[0] for text in (clause, scope + clause)]
    assert [one.stringency for one in found] == [Stringency.LOOSER, Stringency.SAME]


REVISED = (
    SPECIFICATION.replace("at least 1 in", "at least 1-1/2 in")
    .replace("be aluminum", "be one of aluminum, PVC")
    .replace("clause S3", "clause S30")
    .replace("include any of valves, flanges", "include valves")
)


def test_revision_is_told_by_meaning() -> None:
    """A raised thickness is stricter, a longer list looser; a new number alone and other words are no change."""
    revised = _ruleset(REVISED.replace("except where service is refrigerant", "where service is not refrigerant"))
    found = [one for one in compare_revisions(_ruleset(SPECIFICATION), revised) if isinstance(one, Revised)]
    assert [
        (one.change, one.before_label, one.after_label, one.finding.example_text, one.systems) for one in found
    ] == [
        (Change.STRICTER, "S1", "S1", "thickness 1 in", "thickness 1 in to under 1-1/2 in"),
        (Change.LOOSER, "S2", "S2", "outdoors yes, jacket PVC", "outdoors yes; jacket PVC"),
        (Change.RENUMBERED, "S3", "S30", "", ""),
        (Change.STRICTER, "S5", "S5", "service chilled water, vapor stops flanges", found[3].systems),
    ]
    assert (found[0].before, found[0].after) == (Verdict.COMPLIES, Verdict.FAILS)


def test_other_words_for_the_same_meaning_are_no_change() -> None:
    """Conditions joined otherwise, named or turned round leave every verdict as it was."""
    reworded = SPECIFICATION.replace("thickness be at least 1 in", "not thickness is less than 1 in")
    reworded = reworded.replace("where outdoors", "where outdoors and (outdoors or outdoors)")
    assert compare_revisions(_ruleset(SPECIFICATION), _ruleset(reworded)) == ()


def test_verdicts_of_a_schedule_turn() -> None:
    """A line with 1 in complied and does not comply with 1-1/2 in; a line with 2 in does both times."""
    lines = tuple(
        Line(str(inches), {"thickness": Datum(Quantity(inches * 0.0254, "length", "in"), f"{inches} in")})
        for inches in (1, 2)
    )
    schedule = Schedule("schedule", lines)
    base, revised = (_ruleset(f'clause 1 "c"\n  shall thickness be at least {least} in') for least in ("1", "1-1/2"))
    assert turned_verdicts(base, revised, schedule, schedule) == (
        TurnedVerdict("1", "1", Verdict.COMPLIES, Verdict.FAILS, "thickness is 1 in, but must be at least 1-1/2 in"),
    )


def test_command_prints_what_is_found(tmp_path: Path) -> None:
    """The command prints findings with their examples and ends with status 1; a ruleset without any ends with 0."""
    result = CliRunner().invoke(speccheck, ["proofread", str(WANTING)], standalone_mode=False)
    assert result.return_value == 1
    assert "P307: no line can meet clause `8`" in result.output
    assert "example: service refrigerant, jacket aluminum" in result.output
    clean = tmp_path / "clean.clauses"
    text = 'ruleset "Clean"\n  speaks "vocabulary"\nclause 1 "c"\n  shall thickness be at least 1 in\n'
    clean.write_text(text, encoding="utf-8")
    (tmp_path / "vocabulary.clauses").write_bytes((FOLDER / "vocabulary.clauses").read_bytes())
    result = CliRunner().invoke(speccheck, ["proofread", str(clean)], standalone_mode=False)
    assert (result.return_value, result.output) == (0, "Clean\n\nNothing was found.\n1 clause proofread.\n")


def test_command_compares_with_a_base(tmp_path: Path) -> None:
    """With the same file as its base, a ruleset means what it meant, and the command ends with status 0."""
    result = CliRunner().invoke(speccheck, ["proofread", str(WANTING), "--since", str(WANTING)], standalone_mode=False)
    assert result.return_value == 0
    assert "Every clause means what it meant before." in result.output


def test_clauses_are_matched_by_label_then_by_what_they_replace_then_by_number() -> None:
    """A clause that goes on replacing another is itself; one that newly replaces 3 is what 3 was; else the number."""
    base = [Clause("2", "c", "other", "2 (other)"), Clause("2", "c", "own", "2 (own)"), Clause("3", "c", "own", "3")]
    kept = Clause("4", "c", "own", "4", replaces=("1", "other"))
    revised = [
        Clause("2", "c", "own", "2 (own)"),
        Clause("2", "c", "other", "2 (other)"),
        Clause("7", "c", "own", "7", replaces=("3", "")),
        kept,
        Clause("9", "c", "own", "9"),
    ]
    assert paired([*base, kept], revised) == {0: 1, 1: 0, 2: 2, 3: 3}
    assert paired([Clause("2", "c", "own", "2")], [Clause("2", "c", "own", "2 (own)")]) == {0: 0}


def test_clauses_that_others_imply_together_are_told() -> None:
    """By hand: 1 in outdoors says nothing beside more than that on steam and on all else; neither says it alone."""
    (found,) = proofread(_ruleset(TOGETHER)).findings
    assert (found.code, found.clauses) == ("P309", ("1", "2", "3"))
    assert found.message == "clause `1` adds nothing: every line that fails it fails clause `2` or `3`"
    assert shown(found, _ruleset(TOGETHER))


def test_nothing_is_redundant_because_others_clash() -> None:
    """By hand: what 1 asks for outdoors follows from 2 and from 3, which clash there: one of the two will change."""
    text = """
clause 1 "Any jacket"
  where outdoors
  shall jacket be one of aluminum, PVC

clause 2 "Aluminum"
  where outdoors
  shall jacket be aluminum

clause 3 "PVC"
  where outdoors
  shall jacket be PVC
"""
    found = proofread(_ruleset(text)).findings
    assert [(one.code, one.clauses) for one in found] == [("P201", ("2", "3"))]


TOGETHER = """
clause 1 "All outdoors"
  where outdoors
  shall thickness be at least 1 in

clause 2 "Steam"
  where service is steam
  shall thickness be at least 1-1/2 in

clause 3 "Others"
  where service is not steam
  shall thickness be at least 2 in
"""
