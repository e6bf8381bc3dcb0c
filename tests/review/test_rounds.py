"""Two rounds compared: nothing is found in what says the same, and each change is found in what does not."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.judge.judgement import Verdict
from speccheck.judge.operations import Rules
from speccheck.language import parse_ruleset
from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import NotGiven
from speccheck.quantities import Quantity
from speccheck.review.line_matching import changed_terms, match_lines
from speccheck.review.rounds import ChangeKind, Fate, RoundComparison, compare_rounds
from speccheck.schedule.lines import Line
from tests.review.rounds import line_of, line_with, matrix_of, plant, rewritten, ruleset, value

SEEDS = st.integers(0, 2**32 - 1)
FINER_THAN_THE_TOLERANCE = 8  # significant digits: the ruleset compares to one part in a million


def comparison(old: list[Line], new: list[Line]) -> RoundComparison:
    """Return what became of a round by the plant's specification."""
    found = compare_rounds(matrix_of(old), matrix_of(new)).comparison
    assert found is not None
    return found


@settings(max_examples=100, deadline=None)
@given(SEEDS)
def test_same_schedule_in_other_words_gives_nothing(seed: int) -> None:
    """Lines in another order, data in another order, units changed, numbers rounded: nothing is found.

    The ruleset does not let nominal metric sizes stand for inches: where 38 mm stands for 1-1/2 in, it does not when
    it is written as 1.496063 in, and that a verdict changes with it is as it should be.
    """
    generator = random.Random(seed)
    old = generator.sample(plant(), generator.randint(1, len(plant())))
    new = [rewritten(line, generator, FINER_THAN_THE_TOLERANCE) for line in old]
    generator.shuffle(new)
    found = comparison(old, new)
    assert found.nothing, found
    assert found.changes == ()


@settings(max_examples=100, deadline=None)
@given(SEEDS)
def test_rounding_to_written_digits_is_no_change(seed: int) -> None:
    """Numbers rounded to four digits in either unit are no change, and each line finds itself again."""
    generator = random.Random(seed)
    old = list(plant())
    new = [rewritten(line, generator, 4) for line in old]
    generator.shuffle(new)
    found = match_lines(old, new, ruleset().vocabulary, Rules())
    assert not found.added
    assert not found.dropped
    for pair in found.pairs:
        assert old[pair.old].name == new[pair.new].name
        assert changed_terms(old[pair.old], new[pair.new], ruleset().vocabulary, Rules()) == ()


@settings(max_examples=100, deadline=None)
@given(SEEDS)
def test_new_names_are_told_and_nothing_else(seed: int) -> None:
    """Lines under other names, in another order, are renamed lines: none is added, dropped or changed."""
    generator = random.Random(seed)
    old = generator.sample(plant(), generator.randint(2, len(plant())))
    names = [f"N-{number}" for number in range(len(old))]
    new = [replace(line, name=name) for line, name in zip(old, names, strict=True)]
    generator.shuffle(new)
    found = comparison(old, new)
    assert (found.added, found.dropped, found.changes) == ((), (), ())
    assert dict(found.renamed) == {line.name: name for line, name in zip(old, names, strict=True)}
    assert all(one.fate is Fate.STILL_OPEN for one in found.followed)


@settings(max_examples=100, deadline=None)
@given(SEEDS)
def test_any_one_change_is_found_where_it_is(seed: int) -> None:
    """A single datum changed in a single line is the one change that is found, with the right line and term."""
    generator = random.Random(seed)
    old = generator.sample(plant(), 8)
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


def test_mended_fault_is_closed_and_was_asked_for() -> None:
    """P-2 has 1/2 in where 1 in is asked; 1 in closes the finding, and the change is one that was asked for."""
    old = line_of("P-2")
    found = comparison([old], [line_with(old, thickness=value("thickness", "1 in"))])
    assert [(one.fate, one.clause) for one in found.followed] == [(Fate.CLOSED, "1.1")]
    assert [(one.term, one.old, one.now, one.kind) for one in found.changes] == [
        ("thickness", "1/2 in", "1 in", ChangeKind.ASKED)
    ]
    assert found.silent == ()


def test_mend_that_is_not_enough_leaves_the_finding_open() -> None:
    """P-6 is made thicker and not thick enough: the finding is still open, the change was asked for."""
    old = line_of("P-6")
    found = comparison([old], [line_with(old, thickness=value("thickness", "1-3/4 in"))])
    assert [(one.fate, one.clause) for one in found.followed] == [(Fate.STILL_OPEN, "1.1")]
    assert found.silent == ()


def test_another_temperature_is_not_what_a_finding_asked_for() -> None:
    """To take a line out of reach of a clause by another temperature closes the finding and is a silent change."""
    old = line_of("P-9")
    found = comparison([old], [line_with(old, operating_temperature=value("operating temperature", "212 F"))])
    assert [(one.fate, one.clause) for one in found.followed] == [(Fate.CLOSED, "1.4")]
    assert [(one.term, one.old, one.now) for one in found.silent] == [("operating temperature", "250 F", "212 F")]


def test_clause_on_a_computed_value_asks_for_what_it_is_worked_out_from() -> None:
    """A surface too hot to touch asks for another thickness or jacket, and for no other room."""
    loaded = parse_ruleset(
        'ruleset "Touch"\n  speaks mechanical insulation\n\n'
        'clause 1 "Touch"\n  where within reach\n  shall surface temperature be at most 110 F\n'
    )
    assert loaded.ruleset is not None
    bare = line_with(
        line_of("P-8"),
        pipe_size=value("pipe size", "4 in"),
        ambient_temperature=value("ambient temperature", "80 F"),
        jacket_emittance=value("jacket emittance", "0.9"),
        pipe_material=value("pipe material", "steel"),
        thickness=value("thickness", "1/4 in"),
        conductivity=value("conductivity", "0.5 Btu.in/(h.ft2.F)"),
    )
    thicker = line_with(
        bare,
        thickness=value("thickness", "3 in"),
        ambient_temperature=value("ambient temperature", "60 F"),
    )
    before, after = (matrix_of([one], judged_by=loaded.ruleset) for one in (bare, thicker))
    found = compare_rounds(before, after).comparison
    assert found is not None
    assert [one.fate for one in found.followed] == [Fate.CLOSED]
    kinds = {one.term: one.kind for one in found.changes}
    assert kinds == {"thickness": ChangeKind.ASKED, "ambient temperature": ChangeKind.SILENT}


@pytest.mark.parametrize(
    ("term", "text", "kind"),
    [
        ("conductivity", "0.3 Btu.in/(h.ft2.F)", ChangeKind.ASKED),
        ("jacket", "canvas", ChangeKind.ASKED),
        ("operating temperature", "150 F", ChangeKind.SILENT),
    ],
)
def test_what_a_verdict_stands_on_was_asked_for(term: str, text: str, kind: ChangeKind) -> None:
    """The surface was too hot: its temperature is worked out from the conductivity, and the emittance was assumed.

    The jacket decides what is assumed of the emittance. What the building sets was asked of nobody.
    """
    loaded = parse_ruleset(
        'ruleset "Touch"\n  speaks mechanical insulation\n\n'
        "assume jacket emittance is 0.1\n  where jacket is aluminum\n\n"
        'clause 1 "Touch"\n  shall surface temperature be at most 110 F\n'
    )
    assert loaded.ruleset is not None
    old = line_with(
        line_of("P-8"),
        pipe_size=value("pipe size", "4 in"),
        pipe_material=value("pipe material", "steel"),
        ambient_temperature=value("ambient temperature", "80 F"),
        thickness=value("thickness", "1/4 in"),
        conductivity=value("conductivity", "0.5 Btu.in/(h.ft2.F)"),
        jacket=value("jacket", "aluminum"),
    )
    new = line_with(old, **{term.replace(" ", "_"): value(term, text)})
    before, after = (matrix_of([one], judged_by=loaded.ruleset) for one in (old, new))
    assert before.cells[0][0].verdict is Verdict.FAILS
    found = compare_rounds(before, after).comparison
    assert found is not None
    assert [(one.term, one.kind) for one in found.changes] == [(term, kind)]


def test_missing_datum_that_is_given_was_asked_for() -> None:
    """P-7 had its temperature to be determined; to give it is what the findings asked for."""
    old = line_of("P-7")
    found = comparison([old], [line_with(old, operating_temperature=value("operating temperature", "180 F"))])
    assert [(one.term, one.kind) for one in found.changes] == [("operating temperature", ChangeKind.ASKED)]
    assert {(one.clause, one.fate) for one in found.followed} == {
        ("1.1", Fate.STILL_OPEN),
        ("1.2", Fate.NO_LONGER_APPLIES),
        ("1.4", Fate.CLOSED),
    }


def test_given_datum_taken_away_is_a_silent_change() -> None:
    """What was stated and is to be determined now is shown, since nobody asked for it."""
    old = line_of("P-1")
    found = comparison([old], [line_with(old, thickness=NotGiven("TBD", "to be settled later"))])
    assert [(one.term, one.old, one.now) for one in found.silent] == [("thickness", "1 in", "not given (`TBD`)")]
    assert [(one.fate, one.clause, one.now.verdict if one.now else None) for one in found.followed] == [
        (Fate.NEW, "1.1", Verdict.CANNOT_TELL)
    ]


def test_swapped_names_are_renamed_lines() -> None:
    """Where two lines change names, each is matched by what it is."""
    first, second = line_of("P-1"), line_of("P-8")
    found = comparison([first, second], [replace(first, name="P-8"), replace(second, name="P-1")])
    assert found.renamed == (("P-1", "P-8"), ("P-8", "P-1"))
    assert found.changes == ()


def test_mended_line_under_a_new_name_is_known_again() -> None:
    """A line that was renamed and mended at once is one line, with the change that was asked for."""
    old, other = line_of("P-2"), line_of("P-1")
    mended = replace(line_with(old, thickness=value("thickness", "1 in")), name="Q-2")
    found = comparison([other, old], [mended, other])
    assert (found.renamed, found.added, found.dropped) == ((("P-2", "Q-2"),), (), ())
    assert [one.kind for one in found.changes] == [ChangeKind.ASKED]


def test_another_system_under_an_old_name_is_another_line() -> None:
    """A steam line under the name of a cold one is an added line, and the cold one is dropped with its finding."""
    found = comparison([line_of("P-2")], [replace(line_of("P-9"), name="P-2")])
    assert (found.added, found.dropped) == (("P-2",), ("P-2",))
    assert [(one.fate, one.clause) for one in found.followed] == [(Fate.NEW, "1.4"), (Fate.LINE_DROPPED, "1.1")]


def test_same_line_elsewhere_under_another_name_is_another_line() -> None:
    """Nothing but the location and the name differ: the system is another one, so the line is not known again."""
    old = line_of("P-8")
    new = replace(line_with(old, location="outdoor"), name="P-20")
    found = comparison([old], [new])
    assert (found.added, found.dropped, found.renamed) == (("P-20",), ("P-8",), ())


@pytest.mark.parametrize("count", [0, 1, 11])
def test_schedule_with_itself_gives_nothing(count: int) -> None:
    """The same lines, or none, compared with themselves."""
    lines = list(plant()[:count])
    assert comparison(lines, lines).nothing
