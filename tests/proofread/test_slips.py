"""Slips of the pen: which of them the examples of a ruleset notice, and which example would notice the others."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from speccheck.judge import Judge, Verdict, rehearse
from speccheck.judge.examples import comes_out, example_line
from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.proofread.mutation import adequacy, told, unnoticed
from speccheck.proofread.proposing import answers
from speccheck.proofread.steps import one_step
from speccheck.proofread.typing_errors import ChangeKind, changes_of
from speccheck.quantities import NOMINAL_SIZES, quantity
from speccheck.shipped import shipped_folder
from tests.proofread.random_rulesets import EveryLine, random_ruleset

FOLDER = Path(__file__).parent
TRIED = FOLDER / "tried.clauses"

# Every slip that can be made in `tried.clauses`, and the example that notices it, worked out by hand.
NOTICED = {
    "`operating temperature is more than 100 F` is left out": "at 100 F",
    "`operating temperature is more than 100 F` becomes `operating temperature is at least 100 F`": "at 100 F",
    "`100 F` in `operating temperature is more than 100 F` becomes `101 F`": "2 in pipe with 1 in",
    "`100 F` in `operating temperature is more than 100 F` becomes `99 F`": "at 100 F",
    "`service is steam` is left out": "chilled water",
    "`steam thickness by pipe size: 2 in in the band that has it` becomes `in the other`": "2 in pipe with 1 in",
    "`steam thickness by pipe size: limit 2 in` becomes `1-1/2 in`": "2 in pipe with 1 in",
    "`steam thickness by pipe size: limit 2 in` becomes `2-1/2 in`": "2-1/2 in pipe with 1-1/2 in",
    "`steam thickness, up to 2 in: 1 in` becomes `1-1/2 in`": "2 in pipe with 1 in",
    "`steam thickness, up to 2 in: 1 in` becomes `1/2 in`": "2 in pipe with 1/2 in",
    "`steam thickness, over 2 in: 2 in` becomes `1-1/2 in`": "2-1/2 in pipe with 1-1/2 in",
    "`steam thickness, over 2 in: 2 in` becomes `2-1/2 in`": "2-1/2 in pipe with 2 in",
    "`hot` is left out": "at 100 F",
    "`thickness is at least steam thickness` becomes `thickness is more than steam thickness`": "2 in pipe with 1 in",
    "`except where jacket is none` is left out": "without jacket",
}


def ruleset_of(path: Path | str) -> Ruleset:
    """Return the ruleset of a file, which has no mistakes."""
    loaded = load_ruleset(path)
    assert loaded.ruleset is not None
    assert loaded.usable
    return loaded.ruleset


def without(ruleset: Ruleset, *titles: str) -> Ruleset:
    """Return a ruleset without the examples of some titles."""
    clauses = (
        replace(clause, examples=tuple(one for one in clause.examples if one.title not in titles))
        for clause in ruleset.clauses
    )
    return replace(ruleset, clauses=tuple(clauses))


# ---- steps -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "dimension", "below", "above"),
    [
        ("140 F", "temperature", "139 F", "141 F"),
        ("0 F", "temperature", "-1 F", "1 F"),
        ("60 C", "temperature", "59 C", "61 C"),
        ("10 F", "temperature difference", "9 F", "11 F"),
        ("1-1/2 in", "length", "1 in", "2 in"),
        ("3/4 in", "length", "1/2 in", "1 in"),
        ("1/8 in", "length", "0 in", "1/4 in"),
        ("12 in", "length", "11 in", "13 in"),
        ("0.016 in", "length", "0.015 in", "0.017 in"),
        ("0.02 in", "length", "0.019 in", "0.021 in"),
        ("38 mm", "length", "37 mm", "39 mm"),
        ("15 ft", "length", "14 ft", "16 ft"),
        ("0.27 Btu.in/(h.ft2.F)", "conductivity", "0.26 Btu.in/(h.ft2.F)", "0.28 Btu.in/(h.ft2.F)"),
        ("0.02 perm", "permeance", "0.019 perm", "0.021 perm"),
        ("R-6", "thermal resistance", "R-5", "R-7"),
    ],
)
def test_a_step_is_what_a_writer_could_have_meant_instead(text: str, dimension: str, below: str, above: str) -> None:
    """Temperatures step by degrees, inches by their fraction, other numbers by their last digit."""
    found = [step for step in one_step(quantity(text, dimension)) if not isinstance(step, str)]
    expected = [quantity(one, dimension) for one in (below, above)]
    assert [str(one) for one in found] == [str(one) for one in expected]
    assert [getattr(one, "value", None) for one in found] == pytest.approx([one.value for one in expected])


def test_sizes_step_to_their_neighbours_and_words_do_not_step() -> None:
    """The list of nominal sizes has no step below its first and none above its last; words and sets have none."""
    for place, size in enumerate(NOMINAL_SIZES[1:-1], start=1):
        assert one_step(size) == (NOMINAL_SIZES[place - 1], NOMINAL_SIZES[place + 1])
    assert one_step(NOMINAL_SIZES[0]) == (NOMINAL_SIZES[1],)
    assert one_step(NOMINAL_SIZES[-1]) == (NOMINAL_SIZES[-2],)
    assert one_step("steam") == one_step(frozenset({"valves"})) == one_step(True) == ()
    assert one_step(0.0) == (1.0,)


# ---- noticing --------------------------------------------------------------------------------------------------------


def test_every_slip_of_a_well_tried_ruleset_is_noticed() -> None:
    """Each number, limit, condition, exception, cell and band is changed, and the first example to notice is named."""
    found = adequacy(ruleset_of(TRIED))
    assert {trial.change.words: trial.noticed_by for trial in found.trials} == {
        words: ("1", title) for words, title in NOTICED.items()
    }
    assert found.share == 1.0


@pytest.mark.parametrize(
    ("title", "missed"),
    [
        ("without jacket", {"`except where jacket is none` is left out"}),
        ("chilled water", {"`service is steam` is left out"}),
        ("2 in pipe with 1/2 in", {"`steam thickness, up to 2 in: 1 in` becomes `1/2 in`"}),
        ("2-1/2 in pipe with 2 in", {"`steam thickness, over 2 in: 2 in` becomes `2-1/2 in`"}),
        (
            "at 100 F",
            {
                "`operating temperature is more than 100 F` becomes `operating temperature is at least 100 F`",
                "`100 F` in `operating temperature is more than 100 F` becomes `99 F`",
            },
        ),
        ("at 80 F", set()),
    ],
)
def test_what_one_example_alone_holds_goes_unnoticed_without_it(title: str, missed: set[str]) -> None:
    """An example taken away leaves unnoticed what no other example holds, and nothing else."""
    found = adequacy(without(ruleset_of(TRIED), title))
    assert {change.words for change in found.unnoticed} == missed
    assert found.share == pytest.approx(1 - len(missed) / len(NOTICED))


def test_a_slip_that_goes_unnoticed_is_told_with_an_example() -> None:
    """The whole diagnostic: what changed, of which clause, where, and what to add."""
    ruleset = without(ruleset_of(TRIED), "without jacket")
    assert [str(told(answer, ruleset)) for answer in unnoticed(ruleset, adequacy(ruleset))] == [
        "warning[P601]: no example of `1` notices it where `except where jacket is none` is left out\n"
        "  at tried.clauses:16:3\n"
        '  help: add to `1`: example "jacket none" does not apply service steam, operating temperature 101 F, '
        "pipe size 2 in, thickness 1 in, jacket none"
    ]


def test_a_slip_that_alters_no_verdict_is_told_apart() -> None:
    """Two limits of one term, of which the higher governs: no line can show the lower one a step off."""
    idle = "operating temperature is more than 50 F"
    text = TRIED.read_text(encoding="utf-8").replace("  where   hot", f"  where   hot\n  where   {idle}")
    ruleset = parse_ruleset(text, "tried.clauses", FOLDER).ruleset
    assert ruleset is not None
    found = unnoticed(ruleset, adequacy(ruleset))
    assert {answer.change.words for answer in found if answer.same} == {
        f"`{idle}` is left out",
        f"`{idle}` becomes `operating temperature is at least 50 F`",
        f"`50 F` in `{idle}` becomes `49 F`",
        f"`50 F` in `{idle}` becomes `51 F`",
    }
    assert told(found[0], ruleset).code == "P602"


@pytest.mark.parametrize("name", ["vapor-control/underground-chilled-water", "vapor-control/veterans-affairs"])
def test_a_slip_in_the_core_is_one_in_the_text(name: str) -> None:
    """A number changed in the file itself, which is then loaded and rehearsed afresh, is noticed where it should be."""
    text = (shipped_folder("rulesets") / f"{name}.clauses").read_text(encoding="utf-8")
    rows = text.split("\n")
    trials = [one for one in adequacy(ruleset_of(name)).trials if one.change.kind is ChangeKind.THRESHOLD][::3]
    compared = 0
    for trial in trials:
        place = trial.change.place
        row = rows[place.line - 1]
        old = row[place.column - 1 : place.column - 1 + place.length]
        if old != trial.change.was.partition("`")[0]:
            continue
        changed = row[: place.column - 1] + trial.change.becomes + row[place.column - 1 + place.length :]
        slipped = parse_ruleset("\n".join([*rows[: place.line - 1], changed, *rows[place.line :]]))
        if slipped.ruleset is None or not slipped.usable:
            continue
        compared += 1
        noticed = not all(result.right for result in rehearse(slipped.ruleset).results)
        assert noticed is (trial.noticed_by is not None), trial.change.words
    assert compared >= 2


# ---- proposing -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(24))
def test_proposals_show_the_slip_and_nothing_else_is_called_the_same(seed: int) -> None:
    """On random rulesets without examples, a proposal comes out and notices; brute force finds no line for the rest."""
    ruleset = random_ruleset(seed, orders=seed % 4 == 0)
    changes = changes_of(ruleset)
    assert changes
    for answer in answers(ruleset, changes, tries=150):
        changed = answer.change.applied(ruleset)
        if answer.proposal is not None:
            number, example = answer.proposal.clause, answer.proposal.example
            line = example_line(example, ruleset.units)
            assert comes_out(example, Judge(ruleset).cell(number, line))
            after = Judge(changed).cell(number, line)
            assert not comes_out(example, after)
            assert after.verdict is answer.proposal.after
        elif answer.same:
            assert _differing(ruleset, changed, answer.change.clauses) == []


def _differing(ruleset: Ruleset, changed: Ruleset, numbers: tuple[int, ...]) -> list[tuple[Verdict, Verdict]]:
    """Return the verdicts of complete lines of the grid that a change turns."""
    lines = EveryLine(ruleset, changed)
    found = []
    for number in numbers:
        before, after = ruleset.clauses[number], changed.clauses[number]
        verdicts = list(zip(lines.verdicts(before), lines.verdicts(after), strict=True))
        found += [verdicts[at] for at in lines.complete(before, after) if verdicts[at][0] is not verdicts[at][1]]
    return found
