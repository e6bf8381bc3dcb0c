"""Strategies for quantities, nominal sizes and intervals, as text and as value.

In each pair the text is one way to write the value; the value is built from numbers, not read from the text.
"""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from speccheck.quantities import ALL_SIZES, DIMENSIONS, Interval, NominalSize, Quantity, convert
from speccheck.quantities.units import UNITS

_BELOW_ZERO = frozenset({"temperature", "temperature difference", "angle"})


def units(dimension: str) -> st.SearchStrategy[str]:
    """Draw a listed unit of a dimension, in its canonical spelling."""
    return st.sampled_from([name for name, unit in UNITS.items() if dimension in unit.dimensions])


@st.composite
def decimals(draw: st.DrawFn, least: int = 0) -> Fraction:
    """Draw a number of at most six significant digits, as a person would write it; `least` -1 allows negative ones."""
    digits = draw(st.integers(-999_999 if least < 0 else 1, 999_999))
    return Fraction(digits, 10 ** draw(st.integers(0, 6)))


@st.composite
def inches(draw: st.DrawFn) -> Fraction:
    """Draw a positive number of inches in sixteenths, up to 60 in."""
    return Fraction(draw(st.integers(1, 960)), 16)


def written(number: Fraction, draw: st.DrawFn) -> str:
    """Write a number in one of the ways that give exactly this number: as a decimal or as a fraction."""
    plain = f"{float(number):.12g}"
    whole, rest = divmod(abs(number), 1)
    if not rest or rest.denominator not in (2, 4, 8, 16) or number < 0:
        return plain
    joint = draw(st.sampled_from(["-", " ", " - "]))
    return draw(st.sampled_from([plain, f"{whole}{joint}{rest}" if whole else str(rest)]))


def si(number: Fraction, unit: str, dimension: str) -> float:
    """Return the SI value of a number in a unit of a dimension."""
    base = {"temperature": "K", "temperature difference": "K"}
    if dimension in base:
        return convert(float(number), unit, "K", difference=dimension == "temperature difference")
    return float(number) / Quantity(1.0, dimension, unit).in_unit(unit)


@st.composite
def quantities(draw: st.DrawFn, dimension: str | None = None, unit: str | None = None) -> tuple[str, Quantity]:
    """Draw a text and the quantity that it says, of the given dimension and unit or of any."""
    name = draw(st.sampled_from(list(DIMENSIONS))) if dimension is None else dimension
    unit = draw(units(name)) if unit is None else unit
    if name == "length" and unit == "in":
        number = draw(inches() | decimals())
    elif name == "ratio" and not unit:
        number = Fraction(draw(st.integers(0, 1000)), 1000)
    else:
        allowed_below = name in _BELOW_ZERO and not (name == "temperature" and unit == "K")
        number = draw(decimals(-1 if allowed_below else 0))
    value = si(number, unit, name)
    if name == "temperature" and value < 0:
        number, value = -number, si(-number, unit, name)
    text = written(number, draw)
    if unit in ("R", "RSI"):
        return f"{unit}-{text.replace(' ', '')}", Quantity(value, name, unit)
    return f"{text}{draw(st.sampled_from(['', ' ', '  ']))}{unit}", Quantity(value, name, unit)


@st.composite
def sizes(draw: st.DrawFn) -> tuple[str, NominalSize]:
    """Draw a text and the nominal size that it says."""
    size = draw(st.sampled_from(ALL_SIZES))
    inch = written(size.inches, draw)
    metric = [f"DN{size.dn}", f"{size.dn} mm"] if size.dn else []
    return draw(st.sampled_from([f"NPS {inch}", f'{inch}"', f"{inch} in", *metric])), size


def _range_text(low: str | None, high: str | None, low_closed: bool, high_closed: bool, draw: st.DrawFn) -> str:
    """Write a range in one of the ways that mean it."""
    if low is None:
        closed = [f"{high} and under", f"up to {high}", f"<= {high}", f"{high} & smaller"]
        return draw(st.sampled_from(closed if high_closed else [f"under {high}", f"<{high}", f"less than {high}"]))
    if high is None:
        closed = [f"{low} and over", f"≥{low}", f"{low} and larger", f"at least {low}"]
        return draw(st.sampled_from(closed if low_closed else [f"over {low}", f"> {low}", f"more than {low}"]))
    if low_closed and high_closed:
        return draw(st.sampled_from([f"{low} to {high}", f"{low} thru {high}", f"from {low} through {high}"]))
    return f"{'' if low_closed else 'over '}{low} to {'' if high_closed else 'under '}{high}"


@st.composite
def quantity_intervals(draw: st.DrawFn, dimension: str | None = None) -> tuple[str, Interval[Quantity]]:
    """Draw a text and the interval of quantities that it says, bounded on one side or on both."""
    name = draw(st.sampled_from(list(DIMENSIONS))) if dimension is None else dimension
    # The end of a range that has no unit takes the other end's, so that "0 to 1 %" begins at 0 %.
    unit = draw(units(name)) if name == "ratio" else None
    ends = [draw(quantities(name, unit)), draw(quantities(name, unit))]
    ends.sort(key=lambda end: end[1].value)
    bounded = draw(st.sampled_from(["low", "high", "both"]))
    lower, upper = ends[0][1].value, ends[1][1].value
    if upper - lower <= 1e-6 * max(abs(lower), abs(upper)) and bounded == "both":
        bounded = "low"
    low = ends[0] if bounded != "high" else (None, None)
    high = ends[1] if bounded != "low" else (None, None)
    low_closed = low[0] is None or draw(st.booleans())
    high_closed = high[0] is None or draw(st.booleans())
    text = _range_text(low[0], high[0], low_closed, high_closed, draw)
    return text, Interval(low[1], high[1], low_closed, high_closed)


@st.composite
def size_intervals(draw: st.DrawFn) -> tuple[str, Interval[NominalSize]]:
    """Draw a text and the interval of nominal sizes that it says, bounded on one side or on both."""
    ends = sorted([draw(sizes()), draw(sizes())], key=lambda end: end[1])
    bounded = draw(st.sampled_from(["low", "high"] if ends[0][1] == ends[1][1] else ["low", "high", "both"]))
    low = ends[0] if bounded != "high" else (None, None)
    high = ends[1] if bounded != "low" else (None, None)
    low_closed = low[0] is None or draw(st.booleans())
    high_closed = high[0] is None or draw(st.booleans())
    text = _range_text(low[0], high[0], low_closed, high_closed, draw)
    return text, Interval(low[1], high[1], low_closed, high_closed)
