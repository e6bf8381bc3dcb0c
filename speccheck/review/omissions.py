"""The design list against the schedule: what was left out, what has no place in it, what two lines claim and state
differently.

In: a schedule and a design list, both read by the same reader. Out: observations on systems that no line covers or
covers in part, lines for which the design has nothing, and lines that state other conditions than the design.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from speccheck.english import agree
from speccheck.judge.operations import Rules
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import NotGiven
from speccheck.review.coverage import Gap, SystemCoverage, coverage
from speccheck.review.line_wording import LineWording, named
from speccheck.review.messages.evidence import (
    LINE_DIFFERS_FROM_DESIGN,
    LINE_LEAVES_OPEN,
    LINES_DISAGREE,
    LINES_LEAVE_OPEN,
    NO_LINE_COVERS,
    NO_LINE_MISSES_BY_ONE,
    NOTHING_IN_DESIGN,
    ONE_SYSTEM_NEAR,
    REST_COVERED,
    REST_COVERED_NEAR_MISS,
    SYSTEM_SAYS_NOTHING,
    SYSTEMS_NEAR,
)
from speccheck.review.observations import Observation, observed
from speccheck.review.products import same
from speccheck.review.system_extent import Extent, differing, extent_of, ranges_apart, shared
from speccheck.schedule.lines import Line, Schedule

MOST_TOLD = 4


def clashing_lines(schedule: Schedule, ruleset: Ruleset) -> Iterator[Observation]:
    """Yield each pair of lines that stand for one system, at some size and temperature, and propose different things.

    What one of the two leaves open is no disagreement; neither are words that are never judged.
    """
    wording = LineWording.of(ruleset)
    rules = Rules.of(ruleset)
    for one, other in combinations([extent_of(line, wording.terms) for line in schedule.lines], 2):
        common = shared(one, other)
        if common is None or not one.words:
            continue
        terms = tuple(disagreeing(one.line, other.line, wording, rules))
        if terms:
            sizes = f" at {wording.sizes(common[0])}" if common[0] else ""
            first, second = one.line, other.line
            told = [_said(term, one, other, wording) for term in terms[:MOST_TOLD]]
            if len(terms) > MOST_TOLD:
                told.append(f"and {len(terms) - MOST_TOLD} more: {', '.join(terms[MOST_TOLD:])}")
            said = LINES_DISAGREE.at(
                second.place, first=first.name, second=second.name, sizes=sizes, differences="; ".join(told)
            )
            yield observed(said, [first.name, second.name])


def _said(term: str, one: Extent, other: Extent, wording: LineWording) -> str:
    first, second = (wording.datum(line.line.data[term], term) for line in (one, other))
    return f"{term} {first} and {second}"


def disagreeing(one: Line, other: Line, wording: LineWording, rules: Rules) -> Iterator[str]:
    """Yield the terms that both lines state and that differ, in the order of the vocabulary.

    What tells systems apart is left out, and so are words, and names and remarks, which are never compared.
    """
    for name, term in wording.vocabulary.terms.items():
        first, second = one.data.get(name), other.data.get(name)
        if first is None or second is None or term.kind.form is Form.TEXT or not wording.terms.is_compared(name):
            continue
        if isinstance(first.value, NotGiven) or isinstance(second.value, NotGiven):
            continue
        if not same(first.value, second.value, term, rules):
            yield name


def check_against_design(schedule: Schedule, design: Schedule, ruleset: Ruleset) -> tuple[Observation, ...]:
    """Return what the design list and the schedule have to say of one another, design systems first."""
    wording = LineWording.of(ruleset)
    lines = [extent_of(line, wording.terms) for line in schedule.lines]
    systems = [extent_of(line, wording.terms) for line in design.lines]
    telling = [system for system in systems if system.words or system.sizes is not None or system.span is not None]
    return (
        *(_says_nothing(system) for system in systems if system not in telling),
        *(found for system in telling for found in _of_system(system, lines, wording)),
        *_without_system(lines, telling, wording),
        *_disagreeing(lines, telling, wording, Rules.of(ruleset)),
    )


def _says_nothing(system: Extent) -> Observation:
    return observed(SYSTEM_SAYS_NOTHING.at(system.line.place, system=system.line.name))


def _of_system(system: Extent, lines: Sequence[Extent], wording: LineWording) -> Iterator[Observation]:
    """Yield what there is to say of one design system: nothing where all of it is covered."""
    found = coverage(system, lines)
    name = f"`{system.line.name}` ({wording.system_of(system.line)})"
    place = system.line.place
    if found.nothing:
        said = NO_LINE_MISSES_BY_ONE if (near := _nearest(system, lines, wording)) else NO_LINE_COVERS
        yield observed(said.at(place, system=name, **near))
        return
    if found.gaps_at_least:
        by = named(line.line.name for line in (*found.by, *found.perhaps))
        facts = {"system": name, "gaps": wording.gaps(found.gaps_at_least, system), "lines": by}
        facts["cover"] = agree(len(found.by) + len(found.perhaps), "covers", "cover")
        names = [line.line.name for line in (*found.by, *found.perhaps)]
        near = _nearest(system, lines, wording, found)
        said = REST_COVERED_NEAR_MISS if near else REST_COVERED
        yield observed(said.at(place, **facts, **near), names)
    if found.perhaps and found.gaps != found.gaps_at_least:
        yield _perhaps(found, name, wording)


def _perhaps(found: SystemCoverage, name: str, wording: LineWording) -> Observation:
    """Say which lines may cover what nothing covers for certain, and what they leave open."""
    system = found.design
    gaps = _less(found.gaps, found.gaps_at_least)
    at = wording.gaps(gaps, system)
    whole = f" at {at}" if at and not _is_whole(gaps, system) else ""
    lines = named(line.line.name for line in found.perhaps)
    ranges = (system.terms.size, system.sizes), (system.terms.temperature, system.span)
    stated = [*system.words, *(name for name, value in ranges if value)]
    missing = named(name for name in stated if any(name in line.open for line in found.perhaps))
    names = [line.line.name for line in found.perhaps]
    told = LINE_LEAVES_OPEN if len(names) == 1 else LINES_LEAVE_OPEN
    return observed(told.at(system.line.place, lines=lines, system=name, at=whole, missing=missing), names)


def _less(gaps: Sequence[Gap], least: Sequence[Gap]) -> list[Gap]:
    """Return the gaps that are not there for certain."""
    certain = {(gap.size, gap.spans) for gap in least}
    return [gap for gap in gaps if (gap.size, gap.spans) not in certain]


def _is_whole(gaps: Sequence[Gap], system: Extent) -> bool:
    count = 1 if system.sizes is None else len(system.sizes)
    return len(gaps) == count and all(system.span is None or gap.spans == (system.span,) for gap in gaps)


def _nearest(
    system: Extent, lines: Sequence[Extent], wording: LineWording, found: SystemCoverage | None = None
) -> dict[str, str]:
    """Return what there is to say of the lines that miss the system by one term alone; nothing where none does."""
    missed: dict[str, list[Extent]] = {}
    for line in lines:
        if found is not None and (line in found.by or line in found.perhaps):
            continue
        terms = [*differing(system, line), *ranges_apart(system, line)]
        if len(terms) == 1:
            missed.setdefault(terms[0], []).append(line)
    for term in system.terms.names:
        if term in missed:
            several = missed[term]
            names = named(line.line.name for line in several[:4])
            values = dict.fromkeys(wording.datum(line.line.data.get(term), term) for line in several[:4])
            has = agree(len(several), "has", "have")
            return {"near_lines": names, "has": has, "term": term, "values": ", ".join(values)}
    return {}


def _without_system(lines: Sequence[Extent], systems: Sequence[Extent], wording: LineWording) -> Iterator[Observation]:
    """Yield the lines for which the design has nothing; fittings, valves and flanges belong to pipes."""
    for line in lines:
        apart = [
            [*differing(system, line, with_parts=bool(line.parts)), *ranges_apart(system, line)] for system in systems
        ]
        if systems and all(apart):
            close = [system.line.name for system, terms in zip(systems, apart, strict=True) if len(terms) == 1][:4]
            terms = dict.fromkeys(terms[0] for terms in apart if len(terms) == 1)
            place, facts = line.line.place, {"line": line.line.name, "system": wording.system_of(line.line)}
            if close:
                told = ONE_SYSTEM_NEAR if len(close) == 1 else SYSTEMS_NEAR
                said = told.at(place, systems=named(close), terms=", ".join(terms), **facts)
            else:
                said = NOTHING_IN_DESIGN.at(place, **facts)
            yield observed(said, [line.line.name])


def _disagreeing(
    lines: Sequence[Extent], systems: Sequence[Extent], wording: LineWording, rules: Rules
) -> Iterator[Observation]:
    """Yield what lines state otherwise than the design of the system that they stand for."""
    for line in lines:
        for system in systems:
            if shared(system, line) is None:
                continue
            differ = [
                _difference(name, line, system, wording) for name in disagreeing(line.line, system.line, wording, rules)
            ]
            if differ:
                yield observed(
                    LINE_DIFFERS_FROM_DESIGN.at(
                        line.line.place, line=line.line.name, system=system.line.name, differences="; ".join(differ)
                    ),
                    [line.line.name],
                )


def _difference(name: str, line: Extent, system: Extent, wording: LineWording) -> str:
    stated, wanted = line.line.data[name], system.line.data[name]
    return f"{name} {wording.datum(stated, name)} on the line, {wording.datum(wanted, name)} in the design"
