"""Nominal sizes against the lists of the reference library fluids."""

from __future__ import annotations

from fractions import Fraction

import pytest
from fluids import piping
from hypothesis import given

from speccheck.quantities import ALL_SIZES, NOMINAL_SIZES, Interval, NominalSize, as_size, read, sizes_in
from tests.some import some
from tests.strategies.quantities import size_intervals, sizes

SCHEDULES = ("5", "10", "20", "30", "40", "60", "80", "100", "120", "140", "160", "STD", "XS", "XXS")


def test_the_sizes_are_those_of_asme_b36_10m() -> None:
    """Up to 48 in, the sizes with a DN are those that fluids lists for the schedules of ASME B36.10M."""
    listed = {nps for schedule in SCHEDULES for nps in getattr(piping, f"NPS{schedule}") if nps <= 48}
    assert [float(size.inches) for size in NOMINAL_SIZES] == sorted(listed)


def test_two_sizes_are_those_of_tube_alone() -> None:
    """5/8 in (ASTM B88) and 7/8 in (refrigerant tube, ASTM B280, from memory) have no DN and are written in inches."""
    tube = [size for size in ALL_SIZES if size.dn is None]
    assert [size.written("metric") for size in tube] == ["5/8 in", "7/8 in"]
    assert [as_size(read(text)) for text in ("5/8 in", '7/8"')] == tube


def test_nps_and_dn_name_the_same_pipe() -> None:
    """Where ASTM F441 prints outside diameters by NPS and by DN, the pair with one diameter is one size.

    Source: ASTM F441 tables as in fluids (S40o_F441IPS in inch sizes, S40o_F441SI in DN), NPS 1/4 to 16.
    """
    by_dn = dict(zip(piping.S40o_F441SI, piping.DN_F441, strict=True))
    pairs = {}
    for nps, inches_outside in zip(piping.NPS_F441, piping.S40o_F441IPS, strict=True):
        nearest = min(by_dn, key=lambda outside: abs(outside - inches_outside))
        pairs[Fraction(nps)] = by_dn[nearest]
    assert len(pairs) >= 18
    assert all(NominalSize(nps).dn == dn for nps, dn in some(pairs.items()))


def test_from_nps_4_up_a_dn_is_25_times_the_inches() -> None:
    """ASME B36.10M: for NPS 4 and larger, DN is 25 times the NPS (from memory)."""
    assert all(size.dn == 25 * size.inches for size in some(one for one in NOMINAL_SIZES if one.inches >= 4))


def test_a_size_is_written_in_either_system() -> None:
    """One size has two names and is one value."""
    size = NominalSize(Fraction(3, 2))
    assert (str(size), size.written("inch-pound"), size.written("metric")) == ("NPS 1-1/2", "1-1/2 in", "DN 40")
    assert as_size(read("DN 40")) == as_size(read("NPS 1-1/2")) == size


def test_a_size_shows_itself_by_its_inches_alone() -> None:
    """What a failing test prints is what one writes to make the size; the rank follows from it."""
    assert repr(NominalSize(Fraction(2))) == "NominalSize(inches=Fraction(2, 1))"


def test_a_size_that_does_not_exist_cannot_be_made() -> None:
    """NPS 7 is a bug of ours, because text is checked before."""
    with pytest.raises(ValueError, match="no pipe size NPS 7"):
        NominalSize(Fraction(7))


def test_an_open_range_of_sizes_is_expanded_to_the_end_of_the_list() -> None:
    """ "24 in and larger" are the sizes 24 to 48 in; "under 1/2 in" are the three below it."""
    large = as_size(read("24 in and larger"))
    small = as_size(read("under 1/2 in"))
    assert isinstance(large, Interval)
    assert isinstance(small, Interval)
    assert [size.dn for size in sizes_in(large)] == list(range(600, 1201, 50))
    assert [size.dn for size in sizes_in(small)] == [6, 8, 10]


@given(sizes())
def test_a_size_in_any_notation_is_the_same_size(case: tuple[str, NominalSize]) -> None:
    """Inches, marks, NPS, DN and mm all give the size, and what is written back reads as it again."""
    text, size = case
    assert as_size(read(text)) == size
    for written in (str(size), size.written("inch-pound"), size.written("metric")):
        assert as_size(read(written)) == size


@given(size_intervals())
def test_a_range_of_sizes_holds_the_sizes_between_its_ends(case: tuple[str, Interval[NominalSize]]) -> None:
    """Text, value, text and value again agree, and the expanded sizes are those that compare as between the ends."""
    text, interval = case
    assert as_size(read(text)) == interval
    assert as_size(read(str(interval))) == interval
    held = sizes_in(interval)
    for size in NOMINAL_SIZES:
        above = (
            interval.low is None or size.inches > interval.low.inches or (size == interval.low and interval.low_closed)
        )
        below = (
            interval.high is None
            or size.inches < interval.high.inches
            or (size == interval.high and interval.high_closed)
        )
        assert (size in held) == (above and below)


def test_sizes_are_ordered_as_they_rise() -> None:
    """Of two sizes each of the six comparisons says what their places in the list say, equal ones too."""
    for place, first in enumerate(ALL_SIZES):
        for other, second in enumerate(ALL_SIZES):
            said = (first < second, first <= second, first > second, first >= second, first == second, first != second)
            ranks = (place < other, place <= other, place > other, place >= other, place == other, place != other)
            assert said == ranks
