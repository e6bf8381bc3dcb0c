"""Two editions of a ruleset compared by meaning."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.review.editions import ClauseChange, ClauseFate, compare_clauses, pair_clauses
from speccheck.review.rounds import Fate, compare_rounds
from tests.review.rounds import FILES, line_of, matrix_of, ruleset
from tests.some import some

TEXT = (FILES / "plant.clauses").read_text(encoding="utf-8")


def edition(*changes: tuple[str, str]) -> Ruleset:
    """Return the plant's ruleset with words of its text replaced."""
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    loaded = parse_ruleset(text)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def changes(*words: tuple[str, str]) -> list[tuple[ClauseFate, str, str, tuple[str, ...]]]:
    """Return what changed from the plant's ruleset to another edition."""
    found = compare_clauses(ruleset(), edition(*words))
    return [(one.fate, one.old, one.new, one.details) for one in found]


@pytest.mark.parametrize(
    "words",
    [
        (),
        (("define cold\n", "define chilly\n"), ("where cold\n", "where chilly\n")),
        (("where cold\n", "where operating temperature is at most 60 F\n"),),
        (("at most 15 ft", "at most 180 in"),),
        (("at most 60 F\n", "at most 15.5555555556 C\n"),),
        (("one of aluminum, stainless steel, laminated", "one of stainless steel, aluminum, laminated"),),
        (("shall flame spread be at most 25\n  shall smoke developed be at most 50",
          "shall smoke developed be at most 50 and flame spread be at most 25"),),
        (("| 1              | 1\n", "| 1.0            | 25.4 mm\n"),),
    ],
)  # fmt: skip
def test_same_meaning_in_other_words_is_no_change(words: tuple[tuple[str, str], ...]) -> None:
    """Other names, units, order, and conditions written out leave every clause what it was."""
    assert changes(*words) == []


def test_order_of_clauses_does_not_count() -> None:
    """Clauses in any order are paired with themselves."""
    generator = random.Random(3)
    for _ in range(20):
        shuffled = replace(ruleset(), clauses=tuple(generator.sample(ruleset().clauses, len(ruleset().clauses))))
        assert compare_clauses(ruleset(), shuffled) == ()
        pairs = pair_clauses(ruleset(), shuffled)
        assert all(ruleset().clauses[was] == shuffled.clauses[now] for was, now in some(pairs.items()))


def test_changed_requirement() -> None:
    """What a clause asks then and now is told."""
    assert changes(("at most 15 ft", "at most 12 ft")) == [
        (
            ClauseFate.CHANGED,
            "1.2",
            "1.2",
            ("requirement: vapor stop spacing is at most 15 ft; now vapor stop spacing is at most 12 ft",),
        )
    ]


def test_changed_table_cell_is_told_with_its_bands() -> None:
    """A clause that reads a table changes with a cell of the table, and the cell is named."""
    assert changes(("| 1-1/2          | 2\n", "| 1-1/2          | 2-1/2\n")) == [
        (
            ClauseFate.CHANGED,
            "1.1",
            "1.1",
            ("table minimum thickness at over 60 F, 1-1/2 in and over: 2 in, now 2-1/2 in",),
        )
    ]


def test_changed_definition_changes_the_clauses_that_use_it() -> None:
    """A definition behind a name that stays the same is told as such."""
    detail = "where it applies: a definition or a table behind `cold` means something else"
    assert changes(("at most 60 F\n", "at most 50 F\n")) == [
        (ClauseFate.CHANGED, "1.2", "1.2", (detail,)),
        (ClauseFate.CHANGED, "1.6", "1.6", (detail,)),
    ]


def test_added_dropped_renumbered_and_reworded() -> None:
    """A new number, new words, a clause less and a clause more are each told as what they are."""
    found = changes(
        ('clause 1.2 "Vapor stops"', 'clause 2.2 "Vapor stops"'),
        ('"Conductivity"', '"Conductivity of cold lines"'),
        ('clause 1.7 "Neat work"\n  should seam closure be factory adhesive',
         'clause 1.9 "Density"\n  shall density be at least 3 lb/ft3'),
    )  # fmt: skip
    assert found == [
        (ClauseFate.RENUMBERED, "1.2", "2.2", ()),
        (ClauseFate.REWORDED, "1.6", "1.6", ("title",)),
        (ClauseFate.ADDED, "", "1.9", ("shall density be at least 3 lb/ft3",)),
        (ClauseFate.DROPPED, "1.7", "", ()),
    ]


def test_only_changes_of_meaning_count_as_such() -> None:
    """New numbers and words change no verdict; all else may."""
    fates = {fate: ClauseChange(fate, "1.1", "1.1", "").changes_meaning for fate in ClauseFate}
    assert {fate for fate, meaning in fates.items() if not meaning} == {
        *(ClauseFate.RENUMBERED, ClauseFate.REWORDED, ClauseFate.NOT_DECIDED)
    }


def test_rules_of_comparing_are_told() -> None:
    """A ruleset that lets nominal sizes stand for inches says so, and the clauses that 25 mm now meets are named."""
    found = compare_clauses(
        ruleset(), edition(("  units  inch-pound\n", "  units inch-pound\n  lets nominal metric stand for inch\n"))
    )
    assert (found[0].fate, found[0].details) == (ClauseFate.RULES, ("nominal metric sizes now stand for inch sizes",))
    assert [(one.fate, one.new, one.details) for one in found[1:]] == [
        (ClauseFate.CHANGED, "1.1", ("in the same words, which hold for other values by what holds for all clauses",))
    ]


def test_changed_assumption_is_told() -> None:
    """What stands for data that lines do not state can change verdicts, though no clause changed."""
    assumed = edition(
        ("define cold\n", "assume smoke developed is 50\n  where insulation is fiberglass\n\ndefine cold\n")
    )
    (found,) = compare_clauses(ruleset(), assumed)
    assert found.details == ("now: assume smoke developed is 50 where insulation is fiberglass",)
    (back,) = compare_clauses(assumed, ruleset())
    assert back.details == ("no longer: assume smoke developed is 50 where insulation is fiberglass",)
    assert back.changes_meaning


def test_findings_are_followed_over_renumbered_clauses() -> None:
    """The same schedule by a stricter edition with new numbers: the old finding is still open, a new one is new."""
    stricter = edition(('clause 1.1 "Thickness"', 'clause 4.1 "Thickness"'), ("at most 0.27", "at most 0.24"))
    lines = [line_of("P-2")]
    found = compare_rounds(matrix_of(lines), matrix_of(lines, judged_by=stricter)).comparison
    assert found is not None
    assert [(one.fate, one.clause) for one in found.followed] == [(Fate.STILL_OPEN, "4.1"), (Fate.NEW, "1.6")]
    assert [(one.fate, one.new) for one in found.clauses] == [
        (ClauseFate.RENUMBERED, "4.1"),
        (ClauseFate.CHANGED, "1.6"),
    ]


def test_finding_of_a_dropped_clause_is_gone_with_it() -> None:
    """A finding of a clause that the new edition does not have is neither closed nor open."""
    without = replace(ruleset(), clauses=ruleset().clauses[1:])
    lines = [line_of("P-2")]
    found = compare_rounds(matrix_of(lines), matrix_of(lines, judged_by=without)).comparison
    assert found is not None
    assert [(one.fate, one.clause) for one in found.followed] == [(Fate.CLAUSE_DROPPED, "1.1")]
