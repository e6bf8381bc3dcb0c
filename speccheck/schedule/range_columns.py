"""Range columns: two columns that state the two ends of one range, "Size from" beside "Size to", "Temp. min" and
"Temp. max", "Supply temp." and "Return temp.".

Only sizes and temperatures have such ends. An end whose other end no column states is no size and no temperature of the
line, and is not read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.quantities import Interval, NominalSize, Quantity
from speccheck.quantities.values import compare
from speccheck.schedule.columns import ColumnUse, units_of
from speccheck.schedule.header_words import HeaderReader, Match
from speccheck.schedule.lines import Datum
from speccheck.schedule.mapping import ScheduleMapping

ONE_END = "only one end of the range is stated"


class End(StrEnum):
    """Which end of a range a column states; the fluid's temperature on the way there or back is either."""

    LOW = "low"
    HIGH = "high"
    EITHER = "either"


_WORDS = {
    End.LOW: r"from|min\.?|minimum|lowest|smallest",
    End.HIGH: r"up\s*to|to|thru|through|max\.?|maximum|highest|largest",
    End.EITHER: r"supply|return|entering|leaving",
}
_IN_FULL = {"ewt": "entering temperature", "lwt": "leaving temperature"}
_ENDS = {
    end: re.compile(
        rf"^(?:{words})(?![\w])[\s,:–—-]*|[\s,:–—/-]*(?<![\w])\(?(?:{words})\)?(?=\s*(?:[,(\[]|$))", re.IGNORECASE
    )
    for end, words in _WORDS.items()
}


@dataclass(frozen=True, slots=True)
class _Stated:
    """What a header states an end of: the term, which end, and the match of the words that name the term."""

    term: Term
    end: End
    match: Match


def with_range_columns(
    uses: Sequence[ColumnUse], reader: HeaderReader, mapping: ScheduleMapping, units: str
) -> list[ColumnUse]:
    """Return the uses of the columns, those that state an end of a range as such; an end alone is not understood.

    `units` is the system of bare numbers for which nothing states a unit. What a mapping file says of a column stands.
    """
    found = {use.index: stated for use in uses if (stated := _stated(use, reader, mapping)) is not None}
    found |= dict(_beside_the_first(uses, found))
    plain = {use.term.name for use in uses if use.term is not None and use.index not in found}
    ends: dict[str, list[End]] = {}
    for stated in found.values():
        ends.setdefault(stated.term.name, []).append(stated.end)
    pairs = {name for name, some in ends.items() if name not in plain and _is_pair(some)}
    made = []
    for use in uses:
        stated = found.get(use.index)
        if stated is not None:
            use = _as_end(use, stated, mapping.units or units) if stated.term.name in pairs else _alone(use)
        made.append(use)
    return made


def _beside_the_first(uses: Sequence[ColumnUse], found: Mapping[int, _Stated]) -> Iterator[tuple[int, _Stated]]:
    """Yield the columns headed by nothing but "to", right of one that states a lower end: "Size from | to"."""
    for use in uses:
        first = found.get(use.index - 1)
        if first is not None and first.end is End.LOW and _ENDS[End.HIGH].fullmatch(use.column.header.strip()):
            yield use.index, replace(first, end=End.HIGH)


def _is_pair(ends: Sequence[End]) -> bool:
    """Whether columns state the two ends of one range."""
    return sorted(ends) in ([End.EITHER, End.EITHER], [End.HIGH, End.LOW])


def _stated(use: ColumnUse, reader: HeaderReader, mapping: ScheduleMapping) -> _Stated | None:
    """Return what a header states an end of; None for other headers."""
    header = " ".join(use.column.header.split())
    if use.ignored or use.left or use.across is not None or mapping.key_of(use.column.header, use.index) is not None:
        return None
    if reader.vocabulary.find(header) is not None:
        return None
    header = _IN_FULL.get(header.casefold(), header)
    for end, pattern in _ENDS.items():
        name = pattern.sub("", header, count=1).strip()
        match = reader.match(name) if name and name != header else None
        if match is not None and match.term is not None and _has_ends(match.term, end):
            return _Stated(match.term, end, match)
    return None


def _has_ends(term: Term, end: End) -> bool:
    """Whether lines stand for ranges of a term, and whether these have such an end."""
    if term.proposed or term.computed:
        return False
    return term.kind.dimension == "temperature" or (term.kind.form is Form.SIZE and end is not End.EITHER)


def _as_end(use: ColumnUse, stated: _Stated, units: str) -> ColumnUse:
    """Return the use of a column that states one end of a range."""
    term, match = stated.term, stated.match
    column = replace(use.column, term=term.name, unit=match.unit, note=f"one end of a range of `{term.name}`")
    bare, two_units = units_of(match, units)
    return replace(use, column=column, term=term, bare=bare, match=match, two_units=two_units, end=stated.end)


def _alone(use: ColumnUse) -> ColumnUse:
    """Return the use of a column that states an end of a range of which nothing states the other: it is not read."""
    column = replace(use.column, term="", unit="", note=f"not understood: {ONE_END}")
    return ColumnUse(use.index, column)


def range_of(ends: Sequence[tuple[str, Datum]]) -> Datum:
    """Return the range that two cells state, each by its end; not given where either is not one value."""
    (which, low), (_, high) = sorted(ends, key=lambda pair: pair[0] == End.HIGH)
    if which == End.EITHER and _runs_backwards(low.value, high.value):
        low, high = high, low
    said = [datum for datum in (low, high) if datum.text]
    if not said:
        return low
    text = " to ".join(datum.text for datum in said)
    note = f"from {low.place.cell} to {high.place.cell}"
    made = replace(
        low, text=text, note="; ".join(filter(None, (low.note, note))), inferred=low.inferred or high.inferred
    )
    for datum in said:
        if isinstance(datum.value, NotGiven):
            return replace(made, value=datum.value)
    if not _are_ends(low.value, high.value) or _runs_backwards(low.value, high.value):
        return replace(made, value=NotGiven(text, ONE_END if len(said) == 1 else f"`{text}` is no range"))
    value: Value = low.value if low.value == high.value else Interval(low.value, high.value)  # type: ignore
    return replace(made, value=value)


def _are_ends(low: Value | NotGiven, high: Value | NotGiven) -> bool:
    """Whether two values are single amounts of one kind."""
    return any(isinstance(low, kind) and isinstance(high, kind) for kind in (Quantity, NominalSize))


def _runs_backwards(low: Value | NotGiven, high: Value | NotGiven) -> bool:
    """Whether two ends are in the wrong order."""
    return _are_ends(low, high) and compare(low, high) > 0  # type: ignore[arg-type]
