"""The examples of a ruleset: what is said of those that come out otherwise, and of what none of them touches."""

from __future__ import annotations

from speccheck.judge import Rehearsal, rehearse
from speccheck.language import parse_ruleset
from speccheck.language.diagnostics import Severity
from tests.conformance.cases import load

RULESET = """ruleset "case"
speaks "vocabulary"
table least in inches
  by pipe size
  under 2 in    | 1
  2 in and over | 2
clause 1 "thickness"
  shall thickness be at least least
  should jacket be aluminum
  example "right" complies
          pipe size 1 in, thickness 1 in, jacket aluminum
  example "advice is not followed, and it says so" complies against advice
          pipe size 1 in, thickness 1 in, jacket PVC
  example "advice is not followed, and it does not say so" complies
          pipe size 1 in, thickness 1 in, jacket PVC
  example "advice is followed after all" complies against advice
          pipe size 1 in, thickness 1 in, jacket aluminum
  example "said to fail" fails
          pipe size 1 in, thickness 1 in
clause 2 "no example"
  shall outdoor
clause 3 "advice alone"
  should outdoor
  example "not followed" fails
          outdoor no
"""


def rehearsed() -> Rehearsal:
    """Return the examples of the ruleset above, judged."""
    loaded = load(RULESET)
    assert loaded.ruleset is not None
    assert loaded.usable, loaded.diagnostics
    return rehearse(loaded.ruleset)


def test_each_example_is_judged_by_its_clause() -> None:
    """Examples that come out as they say are right; against advice is told apart from complies."""
    right = {result.example.title: result.right for result in rehearsed().results}
    assert right == {
        "right": True,
        "advice is not followed, and it says so": True,
        "advice is not followed, and it does not say so": False,
        "advice is followed after all": False,
        "said to fail": False,
        "not followed": True,
    }


def test_examples_that_come_out_otherwise_are_errors_with_the_reason() -> None:
    """The diagnostic says what was expected, what came out, and why."""
    told = [(found.message, found.help) for found in rehearsed().diagnostics if found.severity is Severity.ERROR]
    assert told == [
        (
            "the example `advice is not followed, and it does not say so` of clause `1` should come out as "
            "`complies`, but the verdict is `complies against advice`",
            "jacket is PVC, but should be aluminum",
        ),
        (
            "the example `advice is followed after all` of clause `1` should come out as "
            "`complies against advice`, but the verdict is `complies with the advice followed`",
            "jacket is aluminum",
        ),
        (
            "the example `said to fail` of clause `1` should come out as `fails`, but the verdict is `complies`",
            "thickness is 1 in, at least 1 in (least, row under 2 in)",
        ),
    ]


def test_what_no_example_touches_is_told() -> None:
    """Clauses without an example and table cells that none looks up are warnings; dashes are no cells."""
    found = rehearsed()
    assert (found.clauses, found.cells) == (3, 2)
    assert [clause.name for clause in found.without_example] == ["2"]
    assert [(use.table.name, use.row, use.column) for use in found.untouched] == [("least", 1, 0)]
    told = [(one.code, one.message) for one in found.diagnostics if one.severity is Severity.WARNING]
    assert told == [
        ("L503", "clause `2` has no example"),
        ("L504", "no example looks up `least` at row 2 in and over"),
    ]


INHERITING = """ruleset "mine"
builds on "trade-practice"
lets nominal metric stand for inch
clause 1 "own"
  shall thickness be at least 1 in
  example "an inch" complies
          thickness 25 mm
"""


def test_inherited_examples_are_rehearsed_with_their_own_ruleset() -> None:
    """A ruleset answers for its own clauses; its switches do not spoil the examples of those that it inherits."""
    loaded = parse_ruleset(INHERITING)
    assert loaded.ruleset is not None
    rehearsal = rehearse(loaded.ruleset)
    assert [result.example.title for result in rehearsal.results] == ["an inch"]
    assert (rehearsal.clauses, rehearsal.diagnostics) == (1, ())
