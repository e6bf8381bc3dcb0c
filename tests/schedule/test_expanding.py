"""Lines with ranges taken apart into the cases that have to be judged."""

from __future__ import annotations

import math
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value, write_value
from speccheck.quantities import Interval, Quantity, convert
from speccheck.schedule import Case, Datum, Line, cases_of
from tests.schedule.building import small_vocabulary


def line_of(**data: str) -> Line:
    """Return a line that states each text for the term of that name (underscores for blanks)."""
    terms = small_vocabulary().terms
    found: dict[str, Datum] = {}
    for key, text in data.items():
        name = key.replace("_", " ")
        value = read_value(text, terms[name], BareUnits())
        assert not hasattr(value, "message"), value
        found[name] = Datum(value, text)  # type: ignore[arg-type]
    return Line("P-1", found)


def cases(line: Line, *names: str, **breakpoints: list[float]) -> list[Case]:
    """Return the cases of a line over the terms of these names."""
    terms = [small_vocabulary().terms[name] for name in names]
    found = cases_of(line, terms, {name.replace("_", " "): points for name, points in breakpoints.items()})
    assert found is not None
    return list(found)


def kelvin(*temperatures: float) -> list[float]:
    """Return temperatures in F as kelvin."""
    return [convert(temperature, "F", "K") for temperature in temperatures]


def written(found: list[Case], name: str) -> list[str]:
    """Write the value that each case has for a term."""
    term = small_vocabulary().terms[name]
    return [write_value(case.values[name], term) for case in found]


def test_a_range_of_sizes_stands_for_every_nominal_size_in_it() -> None:
    """From 2-1/2 in through 6 in: the sizes of ASME B36.10M between (from memory), 3-1/2 in and 5 in among them."""
    found = cases(line_of(pipe_size="2-1/2 in through 6 in"), "pipe size")
    assert written(found, "pipe size") == ["2-1/2 in", "3 in", "3-1/2 in", "4 in", "5 in", "6 in"]
    assert found[0].varied == (("pipe size", found[0].values["pipe size"]),)


def test_single_values_are_one_case_that_varies_nothing() -> None:
    """A line without ranges is one case; a term that it does not state is not given."""
    found = cases(line_of(pipe_size="2 in", service="CHW"), "pipe size", "service", "thickness")
    assert len(found) == 1
    assert found[0].varied == ()
    assert found[0].values["thickness"] == NotGiven()


def test_only_the_terms_asked_for_are_varied() -> None:
    """A range of a term that a clause does not use makes no cases and does not appear in them."""
    found = cases(line_of(pipe_size="1 in to 36 in", operating_temperature="180 F"), "operating temperature")
    assert [dict(case.values).keys() for case in found] == [{"operating temperature"}]


def test_a_range_of_temperatures_is_tried_at_its_ends_at_breakpoints_and_between() -> None:
    """100 F to 200 F with a breakpoint at 140 F: both ends, the breakpoint, and a point in each half."""
    found = cases(
        line_of(operating_temperature="100 F to 200 F"), "operating temperature", operating_temperature=kelvin(140, 250)
    )
    assert written(found, "operating temperature") == ["100 F", "120 F", "140 F", "170 F", "200 F"]


def test_open_ends_are_not_tried_themselves() -> None:
    """Over 100 F to under 200 F leaves out both ends and tries the middle."""
    line = Line("1", {"operating temperature": Datum(Interval(*_ends(100, 200), low_closed=False, high_closed=False))})
    assert written(cases(line, "operating temperature"), "operating temperature") == ["150 F"]


def test_an_end_that_converting_units_moved_by_a_rounding_is_that_end() -> None:
    """Over -20 F, said in kelvin, ends a rounding below -20 F: a breakpoint there is the open end and is not tried."""
    rounded = math.nextafter(math.nextafter(kelvin(-20)[0], 0), 0)
    low, high = (Quantity(value, "temperature", "F") for value in (rounded, *kelvin(40)))
    line = Line("1", {"operating temperature": Datum(Interval(low, high, low_closed=False, high_closed=False))})
    found = cases(line, "operating temperature", operating_temperature=kelvin(-20))
    assert written(found, "operating temperature") == ["10 F"]


def _ends(low: float, high: float) -> tuple[Quantity, Quantity]:
    first, second = (Quantity(value, "temperature", "F") for value in kelvin(low, high))
    return first, second


def test_a_missing_end_is_tried_beyond_every_breakpoint() -> None:
    """180 F and over, with a breakpoint at 250 F, is tried above 250 F as well; under 100 F also below 60 F."""
    over = cases(
        line_of(operating_temperature="180 F and over"), "operating temperature", operating_temperature=kelvin(250)
    )
    temperatures = [case.values["operating temperature"] for case in over]
    assert max(value.in_unit("F") for value in temperatures if isinstance(value, Quantity)) > 250
    under = cases(
        line_of(operating_temperature="under 100 F"), "operating temperature", operating_temperature=kelvin(60)
    )
    values = [
        value.in_unit("F") for case in under if isinstance(value := case.values["operating temperature"], Quantity)
    ]
    assert min(values) < 60
    assert max(values) < 100


def test_several_ranges_are_combined() -> None:
    """Two ranges give every combination, in a fixed order."""
    line = line_of(pipe_size="1 in to 1-1/2 in", operating_temperature="40 F to 50 F")
    found = cases(line, "pipe size", "operating temperature")
    assert list(zip(written(found, "pipe size"), written(found, "operating temperature"), strict=True)) == [
        (size, temperature) for size in ("1 in", "1-1/4 in", "1-1/2 in") for temperature in ("40 F", "45 F", "50 F")
    ]


def test_a_range_of_counts_is_tried_at_whole_numbers() -> None:
    """Four to six fasteners are 4, 5 and 6."""
    assert written(cases(line_of(fastener_count="4 to 6"), "fastener count"), "fastener count") == ["4", "5", "6"]


def test_a_range_in_which_no_size_exists_is_not_given() -> None:
    """Over 6 in to under 8 in holds no nominal size, so the size is not given rather than the line without cases."""
    found = cases(line_of(pipe_size="over 6 in to under 8 in"), "pipe size")
    value = found[0].values["pipe size"]
    assert isinstance(value, NotGiven)
    assert value.why == "no value that exists lies in the range"


def test_too_many_cases_are_none() -> None:
    """Where the ranges stand for more cases than the limit, there are none; the judge says so in the cell."""
    terms = small_vocabulary().terms
    line = line_of(operating_temperature="0 F to 400 F", thickness="1 in to 4 in")
    many = {
        "operating temperature": [200 + number / 10 for number in range(1500)],
        "thickness": [0.03 + number / 10000 for number in range(200)],
    }
    assert cases_of(line, [terms["operating temperature"], terms["thickness"]], many) is None


@settings(max_examples=200, deadline=None)
@given(
    st.floats(250, 400),
    st.floats(0.1, 100),
    st.lists(st.floats(200, 500), max_size=6),
    st.booleans(),
    st.booleans(),
)
def test_cases_lie_in_the_range_and_touch_every_part_of_it(
    low: float, width: float, breakpoints: list[float], low_closed: bool, high_closed: bool
) -> None:
    """Every case lies in the range; each closed end, each breakpoint inside and each gap between them has a case."""
    ends = (Quantity(low, "temperature", "F"), Quantity(low + width, "temperature", "F"))
    interval = Interval(*ends, low_closed=low_closed, high_closed=high_closed)
    line = Line("1", {"operating temperature": Datum(interval)})
    found = cases(line, "operating temperature", operating_temperature=breakpoints)
    values = [value.value for case in found if isinstance(value := case.values["operating temperature"], Quantity)]
    assert values == sorted(values)
    near_an_end = [
        point for point in breakpoints if any(math.isclose(point, end, rel_tol=1e-9) for end in (low, low + width))
    ]
    inside = [point for point in breakpoints if low < point < low + width and point not in near_an_end]
    marks = sorted({low, low + width, *inside})
    expected = inside + [low] * low_closed + [low + width] * high_closed
    assert set(expected) <= set(values)
    assert all(low <= value <= low + width for value in values)
    for first, second in pairwise(marks):
        assert second - first < 1e-9 or any(first < value < second for value in values)
