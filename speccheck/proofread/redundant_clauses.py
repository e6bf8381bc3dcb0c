"""Redundant clauses: those that another clause, or several together, always imply, and what no clause ever uses."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from speccheck.judge import Verdict
from speccheck.language.core import Table
from speccheck.language.core.walking import conditions_of, names_of, tables_of, terms_of
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.conflicts import Hulls, bits
from speccheck.proofread.decision_diagrams import EMPTY, Diagram
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.messages.redundancy import (
    ADDS_NOTHING_TO_ANOTHER,
    ADDS_NOTHING_TO_SEVERAL,
    CELL_NOT_LOOKED_UP,
    DEFINITION_NOT_USED,
    HEADING_NOT_LOOKED_UP,
    TABLE_NOT_LOOKED_UP,
    TWO_ASK_THE_SAME,
    WHETHER_IMPLIED,
)
from speccheck.proofread.witnesses import Lines, NoWitness, Shows
from speccheck.schedule.lines import Line

# A clause that more others than this imply together is left alone: nobody could follow why.
MOST_TOGETHER = 8


def implied_together(
    reading: Reading, lines: Lines, told: Sequence[str], clashing: Sequence[tuple[str, ...]] = ()
) -> Iterator[Finding]:
    """Yield the mandatory clauses that several others imply together, later ones first, as far as not `told` yet.

    Where two of the others are `clashing`, every line fails one of them, whatever the clause asks for: nothing is told.
    """
    left = _Failing(reading, lines, told)
    for clause in reversed(left.clauses):
        others = left.covering(clause)
        labels = {one.label for one in others}
        emptied = any(emptied_by_clash(reading, (clause.label, label), clashing) for label in labels)
        if emptied or any(labels.issuperset(pair) for pair in clashing):
            continue
        line = (
            lines.find(reading.sensible_part(left.regions[clause]), _shows(reading, clause, others)) if others else None
        )
        if isinstance(line, Line):
            del left.regions[clause]
            yield _finding(clause, others, lines, line)


def emptied_by_clash(reading: Reading, labels: Sequence[str], clashing: Sequence[tuple[str, ...]]) -> bool:
    """Say whether the clause of the first label is redundant only where the clause of the second clashes with others.

    There no line meets all of them, and one of them has to be corrected first.
    """
    clauses = {clause.label: clause for clause in reading.clauses}
    clause, other = (clauses[label] for label in labels[:2])
    against = [clauses[label] for pair in clashing if other.label in pair for label in pair if label != other.label]
    applies = reading.diagrams.some(one.applies for one in against)
    return bool(against) and reading.diagrams.within(clause.fails, applies)


class _Failing:
    """The lines that state everything and fail each clause, of those that could do without or imply another."""

    def __init__(self, reading: Reading, lines: Lines, told: Sequence[str]) -> None:
        self.diagrams = reading.diagrams
        self.lines = lines
        self.regions: dict[ClauseRegions, Diagram] = {}
        stated = reading.complete(reading.clauses)
        for clause in reading.clauses:
            if clause.mandatory and clause.label not in told and reading.is_exact(clause.fails):
                region = self.diagrams.both(clause.fails, stated)
                met = self.diagrams.every((clause.applies, clause.shall.holds, reading.complete([clause])))
                if EMPTY not in (region, met):
                    self.regions[clause] = region
        self.clauses = tuple(self.regions)
        self._hulls = Hulls(self.diagrams, list(self.regions.values()))

    def covering(self, clause: ClauseRegions) -> tuple[ClauseRegions, ...]:
        """Return others that together imply a clause, none of which can be left out; () where they do not.

        One system after the other that fails the clause is taken, and a clause that fails it too: most clauses have a
        system that no other one fails, and are done with at once.
        """
        rest, chosen = self.regions[clause], list[ClauseRegions]()
        while rest != EMPTY and len(chosen) < MOST_TOGETHER:
            other = self._failing_too(clause, self.lines.point(rest))
            if other is None:
                return ()
            chosen.append(other)
            rest = self.diagrams.without(rest, self.regions[other])
        if rest != EMPTY:
            return ()
        for other in tuple(chosen):
            kept = [one for one in chosen if one is not other]
            if self.diagrams.within(self.regions[clause], self.diagrams.some(self.regions[one] for one in kept)):
                chosen = kept
        return tuple(sorted(chosen, key=lambda one: one.number))

    def _failing_too(self, clause: ClauseRegions, point: Diagram) -> ClauseRegions | None:
        """Return another clause that fails a system."""
        for at in bits(self._hulls.near(self.diagrams.hull(point))):
            other = self.clauses[at]
            if other is clause or other not in self.regions:
                continue
            if self.diagrams.meet(point, self.regions[other]):
                return other
        return None


def _shows(reading: Reading, clause: ClauseRegions, others: Sequence[ClauseRegions]) -> Shows:
    def shows(line: Line) -> bool:
        verdicts = [reading.judge.cell(one.number, line).verdict for one in (clause, *others)]
        return verdicts[0] is Verdict.FAILS and Verdict.FAILS in verdicts[1:]

    return shows


def _finding(clause: ClauseRegions, others: Sequence[ClauseRegions], lines: Lines, line: Line) -> Finding:
    labels = tuple(one.label for one in others)
    named = " or ".join(f"`{label}`" for label in labels)
    said = ADDS_NOTHING_TO_SEVERAL.at(clause.clause.place, clause=clause.label, others=named)
    return Finding(said, (clause.label, *labels), lines.example(line))


# ---- clauses -----------------------------------------------------------------------------------------------------


def implied_clauses(reading: Reading, lines: Lines) -> Iterator[Finding | Undecided]:
    """Yield the mandatory clauses that no line fails without failing another clause, with a line that fails both.

    A clause that nothing can meet implies much, and is a finding of its own; it is left out here.
    """
    failing = {
        clause: reading.diagrams.both(clause.fails, reading.complete([clause]))
        for clause in reading.clauses
        if clause.mandatory
    }
    failing = {clause: region for clause, region in failing.items() if region != EMPTY}
    for clause, stricter in _candidates(reading, failing):
        found = next(_implied(reading, lines, clause, stricter), None)
        if found is not None:
            yield found


def _candidates(
    reading: Reading, failing: dict[ClauseRegions, Diagram]
) -> Iterator[tuple[ClauseRegions, list[ClauseRegions]]]:
    """Yield each clause with those that may imply it: their smallest boxes hold its own."""
    clauses = list(failing)
    hulls = Hulls(reading.diagrams, [clause.fails for clause in clauses])
    for number, clause in enumerate(clauses):
        kept = hulls.around(reading.diagrams.hull(failing[clause])) & ~(1 << number)
        if kept:
            yield clause, [clauses[at] for at in bits(kept)]


def _implied(
    reading: Reading, lines: Lines, clause: ClauseRegions, others: list[ClauseRegions]
) -> Iterator[Finding | Undecided]:
    diagrams = reading.diagrams
    for other in others:
        complete = reading.complete((clause, other))
        fails = diagrams.both(clause.fails, complete)
        rest = diagrams.without(fails, other.fails)
        twins = rest == EMPTY and diagrams.within(diagrams.both(other.fails, complete), clause.fails)
        never_met = diagrams.every((other.applies, other.shall.holds, reading.complete([other]))) == EMPTY
        if fails == EMPTY or never_met or (twins and other.number > clause.number):
            continue
        if rest != EMPTY and (reading.is_exact(rest) or not _alike(clause, other)):
            continue
        alone = lines.any(rest, _fails(reading, clause, but=other)) if rest != EMPTY else NoWitness.NONE
        line = (
            lines.find(reading.sensible_part(fails), _fails(reading, clause, other))
            if alone is NoWitness.NONE
            else None
        )
        if alone is NoWitness.UNDECIDED:
            question = WHETHER_IMPLIED.at(clause.clause.place, clause=clause.label, other=other.label)
            yield Undecided(question, (clause.label, other.label), alone.value)
        elif alone is NoWitness.NONE and isinstance(line, Line):
            told = TWO_ASK_THE_SAME if twins else ADDS_NOTHING_TO_ANOTHER
            said = told.at(clause.clause.place, clause=clause.label, other=other.label)
            yield Finding(said, (clause.label, other.label), lines.example(line))


def _alike(clause: ClauseRegions, other: ClauseRegions) -> bool:
    """Say whether two clauses demand anything of the same term."""
    names = [{term.name for term in terms_of(one.clause.shall)} for one in (clause, other)]
    return bool(names[0] & names[1])


def _fails(reading: Reading, *clauses: ClauseRegions, but: ClauseRegions | None = None) -> Shows:
    def shows(line: Line) -> bool:
        if any(reading.judge.cell(one.number, line).verdict is not Verdict.FAILS for one in clauses):
            return False
        return but is None or reading.judge.cell(but.number, line).verdict is not Verdict.FAILS

    return shows


# ---- tables and definitions --------------------------------------------------------------------------------------


def unused_parts(reading: Reading, lines: Lines) -> Iterator[Finding | Undecided]:
    """Yield the ruleset's own tables and definitions that no clause uses, and parts of tables never looked up."""
    used = [node for clause in reading.clauses for node in conditions_of(clause.clause)]
    assumed = [node for one in reading.ruleset.assumptions for node in one.scope]
    assumed += [node for one in reading.ruleset.documents for node in one.conditions]
    assumed += [node for one in reading.ruleset.relations for node in one.conditions]
    for scope in reading.ruleset.scopes:
        assumed += (*scope.conditions, *(part.condition for part in scope.exceptions))
    looked_up = {table.name for table in tables_of((*used, *assumed))}
    in_parts = {table.cut_from.name for table in tables_of((*used, *assumed)) if table.cut_from}
    for table in reading.ruleset.tables.values():
        if table.name in in_parts:
            continue
        if table.name in looked_up:
            yield from _never_looked_up(reading, table)
        elif table.ruleset == reading.ruleset.name:
            yield Finding(TABLE_NOT_LOOKED_UP.at(table.place, table=table.name), ())
    names = set(names_of((*used, *assumed)))
    own = {clause.place.file for clause in reading.ruleset.clauses if clause.ruleset == reading.ruleset.name}
    for name, meaning in reading.ruleset.definitions.items():
        if name not in names and meaning.place.file in own:
            yield Finding(DEFINITION_NOT_USED.at(meaning.place, name=name), ())


def _never_looked_up(reading: Reading, table: Table) -> Iterator[Finding]:
    """Yield the rows, the columns and the cells of a table that no system reaches through any clause."""
    reach = _reach(reading, table)
    filled = {table.positions(row, column): (row, column) for row, column, _ in table.filled()}
    cells = {
        positions
        for positions, place in filled.items()
        if not reading.diagrams.meet(reading.regions.cell_box(table, *place), reach)
    }
    for number, axis in enumerate(table.axes):
        what = "column" if number and number == len(table.axes) - 1 else "row"
        for at, band in enumerate(axis.bands):
            whole = {positions for positions in filled if positions[number] == at}
            if whole and whole <= cells:
                cells -= whole
                yield Finding(HEADING_NOT_LOOKED_UP.at(band.place, what=what, heading=band.text, table=table.name), ())
    for positions in sorted(cells):
        words = " and ".join(f"`{heading}`" for heading in table.headings_at(*filled[positions]))
        place = table.bands_at(*filled[positions])[0].place
        yield Finding(CELL_NOT_LOOKED_UP.at(place, headings=words, table=table.name), ())


def _reach(reading: Reading, table: Table) -> Diagram:
    """Return the systems for which some clause looks a table up; where a scope looks it up itself, all systems."""
    found = []
    for clause in reading.clauses:
        whole = clause.clause
        if table in tables_of((*whole.scope, *(part.condition for part in whole.exceptions))):
            return reading.regions.covered(table)
        if table in tables_of((*whole.shall, *whole.should)):
            found.append(reading.diagrams.both(clause.applies, reading.complete([clause])))
    return reading.diagrams.some(found)
