"""Ranges: the sizes and the parts of ranges for which a verdict holds, in words.

The values at which a range is tried are its ends, the breakpoints inside it and one value between each two of these.
A verdict that holds between two breakpoints holds all the way from one to the other, so that tried values that follow
one another are told as one part of the range: "operating temperature over 140 F to 200 F". Sizes and counts, of which
each is tried, are named one by one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from speccheck.judge.cell import RangePart
from speccheck.judge.explain.workings import mark_text
from speccheck.judge.judgement import Varied
from speccheck.language.core.wording import value_text
from speccheck.language.vocabulary.values import NotGiven, Single, Value
from speccheck.quantities import Interval, NominalSize, Quantity

# More parts than these of several ranges together are not listed one by one.
MOST_PARTS = 24


def holding(whole: RangePart, system: str) -> tuple[str, ...]:
    """Return the parts of the ranges of a line for which a verdict holds; nothing where it holds for all."""
    tried, holds, stated = whole.tried, whole.holds, whole.stated
    if all(holds):
        return ()
    last = next((name for name, value in reversed(tried[0]) if isinstance(value, Quantity)), None)
    if last is None:
        return tuple(_words(case, system) for case, held in zip(tried, holds, strict=True) if held)
    found: list[str] = []
    for rest, members in _groups(tried, last).items():
        values = [dict(tried[position])[last] for position in members]
        held = [holds[position] for position in members]
        lead = _words(rest, system)
        for run in _runs(held):
            part = _part(values, run, stated[last])
            found.append(", ".join(filter(None, (lead, f"{last} {part}"))))
    if len(found) > MOST_PARTS:
        return (f"parts of {', '.join(_shadows(whole, system))}",)
    return tuple(dict.fromkeys(found))


def _shadows(whole: RangePart, system: str) -> Iterator[str]:
    """Yield, for each range, the parts of it for which a verdict holds at some values of the others."""
    for position, (name, first) in enumerate(whole.tried[0]):
        held: dict[Single, bool] = {}
        for case, holding_here in zip(whole.tried, whole.holds, strict=True):
            value = case[position][1]
            held[value] = held.get(value, False) or holding_here
        values = list(held)
        for run in _runs(list(held.values())):
            if isinstance(first, Quantity):
                yield f"{name} {_part(values, run, whole.stated[name])}"
            else:
                words = _range(Interval(values[run[0]], values[run[1]]), system)
                yield words if isinstance(first, NominalSize) else f"{name} {words}"


def spans(whole: RangePart, system: str) -> Mapping[str, str]:
    """Return the words that stand for all values for which a verdict holds, by term name, where one phrase can.

    That is the whole range where the verdict holds for all of it, and one part of a range where no other varies.
    """
    tried, holds, stated = whole.tried, whole.holds, whole.stated
    if all(holds):
        return {name: _range(stated[name], system) for name, _ in tried[0]}
    runs = _runs(holds)
    if len(tried[0]) != 1 or len(runs) != 1:
        return {}
    name, values = tried[0][0][0], [case[0][1] for case in tried]
    if isinstance(values[0], Quantity):
        return {name: _part(values, runs[0], stated[name])}
    return {name: _range(Interval(values[runs[0][0]], values[runs[0][1]]), system)}


def _range(whole: Any, system: str) -> str:
    """Return a range in words."""
    assert isinstance(whole, Interval), whole
    ends: list[Any] = [None if end is None else value_text(end, system) for end in (whole.low, whole.high)]
    low, high = ends
    return str(low if low == high else Interval(low, high, whole.low_closed, whole.high_closed))


def _groups(tried: Sequence[Varied], last: str) -> dict[Varied, list[int]]:
    """Return the positions of the cases that differ in nothing but the value of one term."""
    groups: dict[Varied, list[int]] = {}
    for position, case in enumerate(tried):
        groups.setdefault(tuple(pair for pair in case if pair[0] != last), []).append(position)
    return groups


def _runs(held: Sequence[bool]) -> list[tuple[int, int]]:
    """Return the first and the last position of each run of True."""
    starts = [n for n, now in enumerate(held) if now and not (n and held[n - 1])]
    ends = [n for n, now in enumerate(held) if now and not (n + 1 < len(held) and held[n + 1])]
    return list(zip(starts, ends, strict=True))


def _part(values: Sequence[Single], run: tuple[int, int], whole: Value | NotGiven) -> str:
    """Return in words the part of a range that a run of tried values stands for.

    Every other tried value is an end or a breakpoint; the ones between stand for all up to their neighbours.
    """
    assert isinstance(whole, Interval), whole
    start, end = run
    marks = 0 if whole.low is None or whole.low_closed else 1
    low: Any = (_end(whole.low), whole.low_closed)
    if start:
        low = (_mark(values, start), True) if start % 2 == marks else (_mark(values, start - 1), False)
    high: Any = (_end(whole.high), whole.high_closed)
    if end + 1 < len(values):
        high = (_mark(values, end), True) if end % 2 == marks else (_mark(values, end + 1), False)
    if low[0] == high[0]:
        return str(low[0])
    return str(Interval(low[0], high[0], low[1], high[1]))


def _end(value: Any) -> str | None:
    """Return a stated end of a range in words; None where it has no end there."""
    return None if value is None else value_text(value)


def _mark(values: Sequence[Single], position: int) -> str:
    """Return a value of a range at which the verdict changes in words."""
    first, last = max(position - 1, 0), position + 2
    return mark_text(values[position], (*values[first:position], *values[position + 1 : last]))


def _words(case: Varied, system: str) -> str:
    """Return the values of a case; sizes speak for themselves, others are named."""
    return ", ".join(
        value_text(value, system) if isinstance(value, NominalSize) else f"{name} {value_text(value, system)}"
        for name, value in case
    )
