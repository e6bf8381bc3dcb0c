"""Two rounds compared: nothing is found in what says the same, and each change is found in what does not."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.engine.comparing import Rules
from speccheck.engine.judgement import Verdict
from speccheck.language.core import Ruleset
from speccheck.language.kinds import Form
from speccheck.language.values import NotGiven, read_value
from speccheck.quantities import Misread, Quantity
from speccheck.review.comparison import Change, ChangeKind, Comparison, Fate, compare_rounds
from speccheck.review.matching import changed_terms, match_lines
from speccheck.submittal.lines import Line
from tests.review.rounds import dairy, line_with, matrix_of, rewritten, ruleset

SEEDS = st.integers(0, 2**32 - 1)
EXACT = replace(ruleset(), nominal_metric=False)
FINER_THAN_THE_TOLERANCE = 8  # significant digits: the ruleset compares to one part in a million


def comparison(old: list[Line], new: list[Line], judged_by: Ruleset | None = None) -> Comparison:
    """Return what became of a round, by default by the dairy's specification."""
    found = compare_rounds(matrix_of(old, judged_by=judged_by), matrix_of(new, judged_by=judged_by)).comparison
    assert found is not None
    return found


@settings(max_examples=30, deadline=None)
@given(SEEDS)
def test_same_schedule_in_other_words_gives_nothing(seed: int) -> None:
    """Lines in another order, data in another order, units changed, numbers rounded: nothing is found.

    Nominal metric sizes do not stand for inches here: 38 mm that stands for 1-1/2 in does not when it is written as
    1.496063 in, and that a verdict changes with it is as it should be.
    """
    generator = random.Random(seed)
    old = generator.sample(dairy(), generator.randint(1, 12))
    new = [rewritten(line, generator, FINER_THAN_THE_TOLERANCE) for line in old]
    generator.shuffle(new)
    found = comparison(old, new, EXACT)
    assert found.nothing, found
    assert found.changes == ()


@settings(max_examples=30, deadline=None)
@given(SEEDS)
def test_rounding_to_written_digits_is_no_change(seed: int) -> None:
    """Numbers rounded to four digits in either unit are no change, and each line finds itself again."""
    generator = random.Random(seed)
    old = list(dairy())
    new = [rewritten(line, generator, 4) for line in old]
    generator.shuffle(new)
    found = match_lines(old, new, ruleset().vocabulary, Rules(nominal_metric=True))
    assert not found.added
    assert not found.dropped
    for pair in found.pairs:
        assert old[pair.old].name == new[pair.new].name
        assert changed_terms(old[pair.old], new[pair.new], ruleset().vocabulary, Rules(nominal_metric=True)) == ()


@settings(max_examples=30, deadline=None)
@given(SEEDS)
def test_new_names_are_told_and_nothing_else(seed: int) -> None:
    """Lines under other names, in another order, are renamed lines: none is added, dropped or changed."""
    generator = random.Random(seed)
    old = generator.sample(dairy(), generator.randint(2, 12))
    names = [f"N-{number}" for number in range(len(old))]
    new = [replace(line, name=name) for line, name in zip(old, names, strict=True)]
    generator.shuffle(new)
    found = comparison(old, new)
    assert (found.added, found.dropped, found.changes) == ((), (), ())
    assert dict(found.renamed) == {line.name: name for line, name in zip(old, names, strict=True)}
    assert all(one.fate is Fate.STILL_OPEN for one in found.followed)


@settings(max_examples=30, deadline=None)
@given(SEEDS)
def test_any_one_change_is_found_where_it_is(seed: int) -> None:
    """A single datum changed in a single line is the one change that is found, with the right line and term."""
    generator = random.Random(seed)
    old = generator.sample(dairy(), 8)
    place = generator.randrange(len(old))
    line = old[place]
    stated = [name for name, datum in line.data.items() if name not in ("mark", "notes")]
    term = ruleset().vocabulary.terms[generator.choice(stated)]
    other = another_value(line, term.name, generator)
    if other is None:
        return
    new = [*old[:place], line_with(line, **{term.name: other}), *old[place + 1 :]]
    generator.shuffle(new)
    found = comparison(old, new)
    assert [(one.line, one.term) for one in found.changes] == [(line.name, term.name)]
    assert (found.added, found.dropped, found.renamed) == ((), (), ())


def another_value(line: Line, name: str, generator: random.Random) -> object:
    """Return another value of a term than the line states, or None where there is none."""
    term, value = ruleset().vocabulary.terms[name], line.data[name].value
    if isinstance(value, Quantity) and 0 < value.value < float("inf"):
        return Quantity(value.value * generator.choice((0.9, 1.1)), value.dimension, value.unit)
    if term.kind.form is Form.CHOICE and isinstance(value, str):
        return generator.choice([choice.name for choice in term.choices if choice.name != value])
    if isinstance(value, bool):
        return not value
    return None if isinstance(value, NotGiven) else NotGiven("TBD", "to be settled later")


def line_of(name: str) -> Line:
    """Return a line of the dairy by its name."""
    return next(line for line in dairy() if line.name == name)


def value(term: str, text: str) -> object:
    """Return what a text means for a term."""
    found = read_value(text, ruleset().vocabulary.terms[term])
    assert not isinstance(found, Misread)
    return found


def test_mended_fault_is_closed_and_was_asked_for() -> None:
    """CHW-2 has 1/2 in where 1 in is asked; 1 in closes the finding, and the change is one that was asked for."""
    old = line_of("CHW-2")
    found = comparison([old], [line_with(old, thickness=value("thickness", "1 in"))])
    assert [(one.fate, one.clause) for one in found.followed] == [(Fate.CLOSED, "2.1.B")]
    assert [(one.term, one.old, one.now, one.kind) for one in found.changes] == [
        ("thickness", "1/2 in", "1 in", ChangeKind.ASKED)
    ]
    assert found.silent == ()


def test_another_temperature_is_not_what_a_finding_asked_for() -> None:
    """To scope a line out of a clause by another temperature closes the finding and is a silent change."""
    old = line_of("HHW-2")
    found = comparison([old], [line_with(old, operating_temperature=value("operating temperature", "100 F"))])
    assert ("2.1.A", Fate.NO_LONGER_APPLIES) in {(one.clause, one.fate) for one in found.followed}
    assert found.silent == (
        Change("HHW-2", "operating temperature", "180 F", "100 F", ChangeKind.SILENT, found.silent[0].place),
    )


def test_missing_datum_that_is_given_was_asked_for() -> None:
    """CHW-7 had its temperature to be determined; to give it is what the findings asked for."""
    old = line_of("CHW-7")
    found = comparison([old], [line_with(old, operating_temperature=value("operating temperature", "44 F"))])
    assert [(one.term, one.kind) for one in found.changes] == [("operating temperature", ChangeKind.ASKED)]


def test_given_datum_taken_away_is_a_silent_change() -> None:
    """What was stated and is to be determined now is shown, since nobody asked for it."""
    old = line_of("CHW-1")
    found = comparison([old], [line_with(old, thickness=NotGiven("TBD", "to be settled later"))])
    assert [(one.term, one.old, one.now) for one in found.silent] == [("thickness", "1 in", "not given (`TBD`)")]
    assert "2.1.B" in {one.clause for one in found.followed}
    assert {(one.fate, one.now.verdict if one.now else None) for one in found.followed} == {
        (Fate.NEW, Verdict.CANNOT_TELL)
    }


def test_swapped_names_are_renamed_lines() -> None:
    """Where two lines change names, each is matched by what it is."""
    first, second = line_of("CHW-1"), line_of("HHW-1")
    swapped = [replace(first, name="HHW-1"), replace(second, name="CHW-1")]
    found = comparison([first, second], swapped)
    assert found.renamed == (("CHW-1", "HHW-1"), ("HHW-1", "CHW-1"))
    assert found.changes == ()


def test_another_system_under_an_old_name_is_another_line() -> None:
    """A hot line under the name of a cold one is an added line, and the cold one is dropped with its finding."""
    found = comparison([line_of("CHW-2")], [replace(line_of("ST-2"), name="CHW-2")])
    assert (found.added, found.dropped) == (("CHW-2",), ("CHW-2",))
    assert [one.fate for one in found.followed] == [Fate.LINE_DROPPED]


@pytest.mark.parametrize("count", [0, 1, 61])
def test_schedule_with_itself_gives_nothing(count: int) -> None:
    """The same lines, or none, compared with themselves."""
    lines = list(dairy()[:count])
    assert comparison(lines, lines).nothing
