"""Holes between clauses: bands of two clauses that nearly meet, where the ruleset declares no scope for their subject.

Two clauses demand something of the same terms, and some systems come under the one below a band of temperature, size or
another amount and under the other above it, all else alike; in between no clause with that demand applies. A wide gap
is mostly meant (nothing is asked between 60 F and 105 F) and is left to a `scope`; a narrow one is a band that starts
late. How narrow is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from speccheck.language.vocabulary.terms import Form, fold
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.conflicts import Hulls, bits
from speccheck.proofread.decision_diagrams import EMPTY, Mask
from speccheck.proofread.describing import mask_words, runs
from speccheck.proofread.findings import Finding
from speccheck.proofread.messages.clauses import GAP_BETWEEN_BANDS
from speccheck.proofread.variables import TermAxis
from speccheck.proofread.witnesses import Lines, Shows
from speccheck.schedule.lines import Line

MOST_KELVIN = 14.0  # 25 F
MOST_SIZES = 4
MOST_SHARE = 0.5


def gaps_between_bands(reading: Reading, lines: Lines) -> Iterator[Finding]:
    """Yield the narrow gaps between clauses that demand something of the same terms, each once."""
    groups: dict[frozenset[int], list[ClauseRegions]] = {}
    for clause in reading.clauses:
        own = clause.mandatory and clause.clause.ruleset == reading.ruleset.name
        if own and reading.is_exact(clause.applies) and not _is_in_scope(reading, clause):
            groups.setdefault(clause.demanded, []).append(clause)
    for group in groups.values():
        if len(group) > 1:
            kindred = [one for one in reading.clauses if one.mandatory and one.demanded & group[0].demanded]
            yield from _holes(reading, lines, group, kindred)


def _is_in_scope(reading: Reading, clause: ClauseRegions) -> bool:
    """Say whether a clause governs any system of a scope of its subject, which says what else is to be governed."""
    scopes = (one for one in reading.ruleset.scopes if fold(one.subject) == fold(clause.clause.subject))
    inside = (reading.regions.every(scope.conditions).holds for scope in scopes)
    return any(reading.diagrams.meet(clause.applies, region) for region in inside)


def _holes(
    reading: Reading, lines: Lines, group: Sequence[ClauseRegions], kindred: Sequence[ClauseRegions]
) -> Iterator[Finding]:
    """Yield the gaps between the bands of some clauses in which none of the kindred ones applies."""
    diagrams = reading.diagrams
    nowhere = diagrams.every((*(clause.out for clause in kindred), reading.complete(kindred)))
    for index, axis in _ordered(reading):
        for (first, below), (second, above) in _near_but_for(reading, group, index):
            if below & above:
                continue
            if below > above:
                first, below, second, above = second, above, first, below
            gap = _between(below, above) & diagrams.whole[index]
            if not gap or not _is_narrow(axis, gap):
                continue
            same = diagrams.every(diagrams.whatever(one.applies, (index,)) for one in (first, second))
            region = reading.sensible(diagrams.every((same, nowhere, diagrams.box({index: gap}))))
            line = lines.find(region, _shows(reading, kindred)) if region != EMPTY else None
            if isinstance(line, Line):
                nowhere = diagrams.without(nowhere, region)
                yield _finding(first, second, f"{axis.term.name} {mask_words(axis, gap)}", lines, line)


_Band = tuple[ClauseRegions, Mask]


def _near_but_for(reading: Reading, group: Sequence[ClauseRegions], index: int) -> Iterator[tuple[_Band, _Band]]:
    """Yield the pairs of clauses with bands on an axis that may apply to the same systems but for that axis."""
    diagrams = reading.diagrams
    bands = [(clause, diagrams.hull(clause.applies).get(index, 0) & ~1) for clause in group]
    bounded = [(clause, mask) for clause, mask in bands if mask and index in diagrams.axes(clause.applies)]
    others = [diagrams.whatever(clause.applies, (index,)) for clause, _ in bounded]
    hulls = Hulls(diagrams, others)
    for at, band in enumerate(bounded):
        for other in bits(hulls.near(diagrams.hull(others[at])) >> (at + 1)):
            yield band, bounded[at + 1 + other]


def _ordered(reading: Reading) -> Iterator[tuple[int, TermAxis]]:
    """Yield the axes of terms whose values have an order."""
    for index, axis in enumerate(reading.axes.axes):
        if isinstance(axis, TermAxis) and axis.term.kind.form in (Form.QUANTITY, Form.SIZE, Form.NUMBER):
            yield index, axis


def _between(below: Mask, above: Mask) -> Mask:
    """Return what lies over all of one mask and under all of another; nothing where they do not lie so."""
    start, end = below.bit_length(), (above & -above).bit_length() - 1
    return (1 << end) - (1 << start) if end > start else 0


def _is_narrow(axis: TermAxis, gap: Mask) -> bool:
    """Say whether a gap is so narrow that a band is likely to start late."""
    if axis.term.kind.form is Form.SIZE:
        return sum(last - first + 1 for first, last in runs(axis, gap)) <= MOST_SIZES
    atoms = [atom for at, atom in enumerate(axis.atoms) if gap >> at & 1 and not atom.stand_in]
    low = next((atom.low for atom in atoms), None)
    high = atoms[-1].low if atoms and atoms[-1].single else atoms[-1].high if atoms else None
    if low is None or high is None:
        return False
    if axis.term.kind.dimension == "temperature":
        return high - low <= MOST_KELVIN
    return high - low <= MOST_SHARE * abs(low)


def _shows(reading: Reading, group: Sequence[ClauseRegions]) -> Shows:
    def shows(line: Line) -> bool:
        return all(reading.is_out(clause, line) for clause in group)

    return shows


def _finding(first: ClauseRegions, second: ClauseRegions, gap: str, lines: Lines, line: Line) -> Finding:
    labels = (first.label, second.label)
    place = second.clause.place
    return Finding(
        GAP_BETWEEN_BANDS.at(place, first=first.label, second=second.label, gap=gap), labels, lines.example(line), gap
    )
