"""Bands of sizes read as the trade writes them.

The pairs of NPS and DN are those of ASME B36.10M and ISO 6708 (from memory); what the words of a band include is common
practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.phrases import SizeBand, read_size_band
from speccheck.quantities import NOMINAL_SIZES, Interval, Misread, NominalSize


def size(inches: str) -> NominalSize:
    """Return a nominal size by its inches."""
    return NominalSize(Fraction(inches))


@pytest.mark.parametrize(
    ("text", "low", "high", "closed"),
    [
        ('< 1-1/2"', None, "3/2", (True, False)),
        ("1-1/2 to <4", "3/2", "4", (True, False)),
        ("¾″ – 2″", "3/4", "2", (True, True)),
        ('8" & larger', "8", None, (True, True)),
        ('UP TO 3"', None, "3", (True, True)),
        ("3 in. and up", "3", None, (True, True)),
        ("Pipe sizes 1 in and smaller", None, "1", (True, True)),
        ("All pipe sizes", None, None, (True, True)),
        ("DN 20-50", "3/4", "2", (True, True)),
        ("0 - 2.5 in", None, "5/2", (True, True)),
        ("350 and above", "14", None, (True, True)),
        ('up thru 6"', None, "6", (True, True)),
        ('thru 6"', None, "6", (True, True)),
        ('to 1-1/4"', None, "5/4", (True, True)),
        ("through DN 50", None, "2", (True, True)),
        ('Over 10"', "10", None, (False, True)),
        ("ab DN 80", "3", None, (True, True)),
        ("DN 15 bis DN 32", "1/2", "5/4", (True, True)),
        ("über DN 100", "4", None, (False, True)),
        ("jusqu'à DN 50", None, "2", (True, True)),
        ("de DN 15 à DN 32", "1/2", "5/4", (True, True)),
        ("DN 50 et plus", "2", None, (True, True)),
        ("hasta DN 40", None, "3/2", (True, True)),
        ("desde DN 15 hasta DN 50", "1/2", "2", (True, True)),
        ("alle", None, None, (True, True)),
    ],
)
def test_reads_ranges(text: str, low: str | None, high: str | None, closed: tuple[bool, bool]) -> None:
    """A range includes the ends that its words include, in whatever wording."""
    ends = tuple(None if end is None else size(end) for end in (low, high))
    assert read_size_band(text) == SizeBand("pipe size", Interval(*ends, *closed))


@pytest.mark.parametrize("text", ['2" dia', "Nominal 2 in", "NPS 2", "DN 50", '2" pipe size'])
def test_reads_single_sizes(text: str) -> None:
    """One size is the band of that size alone, whatever words stand around it."""
    assert read_size_band(text) == SizeBand("pipe size", size("2"))


@pytest.mark.parametrize(
    ("text", "shown"),
    [("5/8 OD", "5/8 in"), ("Ø 12.7 ~ Ø 19.05", "12.7 mm through 19.05 mm"), ("28 mm O.D.", "28 mm")],
)
def test_reads_outside_diameters(text: str, shown: str) -> None:
    """What is said to be an outside diameter is no nominal size."""
    found = read_size_band(text)
    assert isinstance(found, SizeBand)
    assert (found.term, str(found.value)) == ("pipe outside diameter", shown)


@pytest.mark.parametrize(
    "text", ["Run-outs up to 2 in", "1 in valves", "Thickness", "1 in, 2 in", "1.37 in", "8 and up", ""]
)
def test_other_words_make_no_band(text: str) -> None:
    """Words that change what a size stands for, and numbers that are no size or two, are not read as a band."""
    assert isinstance(read_size_band(text), Misread)


def test_bare_numbers_follow_the_system() -> None:
    """A whole number that is a size in inches and in DN is read only where the system is known."""
    assert read_size_band("8 and up", "inch-pound") == SizeBand("pipe size", Interval(size("8"), None))
    assert read_size_band("8 and up", "metric") == SizeBand("pipe size", Interval(size("1/4"), None))


@given(
    st.sampled_from(NOMINAL_SIZES),
    st.sampled_from(NOMINAL_SIZES),
    st.sampled_from(["{} - {}", "{} to {}", "{} thru {}", "from {} through {}", "pipe size {} to {}", "{} to {} dia"]),
    st.booleans(),
)
def test_a_written_band_reads_back(one: NominalSize, other: NominalSize, wording: str, metric: bool) -> None:
    """Two sizes written in any wording, in inches or DN, read back as the same two sizes."""
    low, high = sorted((one, other))
    system = "metric" if metric else "inch-pound"
    found = read_size_band(wording.format(low.written(system), high.written(system)))
    assert found == SizeBand("pipe size", Interval(low, high))
