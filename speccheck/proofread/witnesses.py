"""Lines: a region turned into a line of a schedule that lies in it, and that the judge agrees to.

No finding is shown before the judge has seen its line: regions say where to look, the judge says what is there. Where
a region rests on more than single terms, the values that agree with it are sought among plain ones first, then by a
solver; a region in which no line can lie is told apart from one in which none was found.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cached_property
from itertools import chain

from speccheck.language.core import Assignment
from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.proofread.clause_regions import Reading
from speccheck.proofread.decision_diagrams import EMPTY, Diagram, Mask
from speccheck.proofread.describing import box_words
from speccheck.proofread.problems import OrderProblem, plain_values
from speccheck.proofread.solving import is_impossible, solved_values
from speccheck.proofread.variables import YES, ChoiceAxis, OrderAxis, TermAxis
from speccheck.quantities import NominalSize, Quantity
from speccheck.schedule.lines import Datum, Line

# How many parts of a region are tried before a question is left open; fewer where each has to be solved for values.
TRIES, SOLVED_TRIES = 24, 5
# How many steps are made to find plain values before a solver is asked whether there are any.
FEW = 200
# Into how many parts a region may fall for each of which it is proved that no line lies in it.
PROOFS = 60
# The size that an example states where any would do, in inches: one that every pipe schedule has.
USUAL_INCHES = 2.0
# The temperature that an example states where any would do, in K: 70 F.
ROOM_KELVIN = 294.26

Shows = Callable[[Line], bool]


class NoWitness(Enum):
    """Why there is no line: there can be none, or none was found and it is not known whether there is one."""

    NONE = "there is no such line"
    UNDECIDED = "no line was found, and it was not shown that there is none"


@dataclass(frozen=True)
class Lines:
    """Looks for lines in regions; the readings share their axes."""

    readings: tuple[Reading, ...]

    @cached_property
    def _order(self) -> tuple[tuple[int, ...], ...]:
        """The atoms of each axis, the ones that make the plainest example first."""
        axes = self.readings[0].axes
        return tuple(_preferred(axis, axes.system) for axis in axes.axes)

    def find(self, region: Diagram, shows: Shows) -> Line | NoWitness:
        """Return a line in a region that shows what is sought, with no more data than that takes."""
        line = self.any(region, shows)
        return shortened(line, shows) if isinstance(line, Line) else line

    def any(self, region: Diagram, shows: Shows) -> Line | NoWitness:
        """Return a line in a region that shows what is sought, with whatever data it has."""
        diagrams, rest = self.readings[0].diagrams, region
        certain = True
        for _ in range(TRIES if self.readings[0].is_exact(region) else SOLVED_TRIES):
            if rest == EMPTY:
                return NoWitness.NONE if certain else NoWitness.UNDECIDED
            box = self._box(rest)
            line, settled = self._line_in(box, shows)
            if line is not None:
                return line
            certain = certain and settled
            rest = diagrams.without(rest, diagrams.box(self._blocked(box)))
        return NoWitness.UNDECIDED

    def left_open(self, region: Diagram) -> Diagram:
        """Return a part of a region of which it is not proved that no line lies in it; EMPTY where it is of all."""
        diagrams, rest = self.readings[0].diagrams, region
        for _ in range(PROOFS):
            if rest == EMPTY:
                return EMPTY
            box = self._box(rest)
            if not self._is_compared(box) or not is_impossible(self._problem(box)):
                return diagrams.both(rest, diagrams.box(box))
            rest = diagrams.without(rest, diagrams.box(self._blocked(box)))
        return rest

    def point(self, region: Diagram) -> Diagram:
        """Return the plainest single system of a region that is not empty, as far as the region asks."""
        return self.readings[0].diagrams.box(self.plainest(region))

    def plainest(self, region: Diagram) -> dict[int, Mask]:
        """Return the plainest single system of a region that is not empty, on the axes that the region asks for."""
        point = self.readings[0].diagrams.point(region, self._order)
        return {axis: 1 << atom for axis, atom in point.items()}

    def systems(self, region: Diagram) -> str:
        """Return in words a part of a region that is not empty, as wide as a box can be."""
        return box_words(self.readings[0].axes, self.widest(region))

    def widest(self, region: Diagram) -> dict[int, Mask]:
        """Return a box in a region that is not empty, as wide as it can be."""
        return self.readings[0].diagrams.widened(self.plainest(region), region)

    def _box(self, region: Diagram) -> dict[int, Mask]:
        """Return a box of a region: its plainest point, or all of a part of it where values have to be found."""
        point = self.plainest(region)
        return self.readings[0].diagrams.widened(point, region) if self._is_compared(point) else point

    def _is_compared(self, box: Mapping[int, Mask]) -> bool:
        """Say whether a box says of any two amounts which is larger, so that values have to be found that agree."""
        axes = self.readings[0].axes.axes
        return any(isinstance(axes[index], OrderAxis) for index in box)

    def _problem(self, box: Mapping[int, Mask]) -> OrderProblem:
        regions = tuple(reading.regions for reading in self.readings)
        return OrderProblem(self.readings[0].axes, box, self._order, regions)

    def _blocked(self, box: Mapping[int, Mask]) -> dict[int, Mask]:
        """Return the part of a box that decides whether there are values for it."""
        axes = self.readings[0].axes
        orders = {index: mask for index, mask in box.items() if isinstance(axes.axes[index], OrderAxis)}
        if not orders:
            return dict(box)
        terms = {axes.of_term[term.name] for index in orders for term in axes.axes[index].terms}  # type: ignore[union-attr]
        return {index: mask for index, mask in box.items() if index in orders or index in terms}

    def _line_in(self, box: Mapping[int, Mask], shows: Shows) -> tuple[Line | None, bool]:
        """Return a line in a box, and where there is none, whether that is certain."""
        if not self._is_compared(box):
            line = self.line(box)
            return (line if shows(line) else None), False
        problem = self._problem(box)
        for values in plain_values(problem, FEW):
            line = self.line(box, values)
            if shows(line):
                return line, True
        if is_impossible(problem):
            return None, True
        for values in chain(solved_values(problem), plain_values(problem)):
            line = self.line(box, values)
            if shows(line):
                return line, True
        return None, False

    def line(self, box: Mapping[int, Mask], values: Mapping[str, tuple[Single, str]] | None = None) -> Line:
        """Return the line that states the plainest value in a box for each term of it, or the values given for it."""
        axes = self.readings[0].axes
        stated: dict[str, tuple[Single, str]] = {}
        for index, mask in box.items():
            axis = axes.axes[index]
            if isinstance(axis, TermAxis):
                atom = axis.atoms[next(at for at in self._order[index] if mask >> at & 1)]
                if not isinstance(atom.value, NotGiven):
                    stated[axis.term.name] = (atom.value, atom.text)
        for name in [name for name in stated if axes.named(name).term.kind.form is Form.SET]:
            stated[name] = self._set(name, box)
        stated.update(values or {})
        if not stated:
            stated = dict(self._something(box))
        order = {name: at for at, name in enumerate(self.readings[0].ruleset.vocabulary.terms)}
        names = sorted(stated, key=lambda name: order.get(name, len(order)))
        return Line("example", {name: Datum(*stated[name]) for name in names})

    def _something(self, box: Mapping[int, Mask]) -> Iterator[tuple[str, tuple[Single, str]]]:
        """Yield a datum on which a box does not depend, for a line that would state nothing at all."""
        axes = self.readings[0].axes
        for name, index in axes.of_term.items():
            atom = axes.named(name).atoms[self._order[index][0]]
            if index not in box and not isinstance(atom.value, NotGiven | frozenset):
                yield name, (atom.value, atom.text)
                return
        for term in self.readings[0].ruleset.vocabulary.terms.values():
            if term.name not in axes.of_term and term.kind.form is Form.CHOICE:
                yield term.name, (term.choices[0].name, term.choices[0].name)
                return

    def _set(self, name: str, box: Mapping[int, Mask]) -> tuple[Single, str]:
        """Return the set that a box asks for, with no choice more than it must have."""
        axes = self.readings[0].axes
        members = [
            axis.choice
            for index in self.readings[0].regions.choice_axes.get(name, ())
            if isinstance(axis := axes.axes[index], ChoiceAxis) and box.get(index, 1) == 1 << YES
        ]
        return frozenset(members), ", ".join(members) or "none"

    def example(self, line: Line) -> tuple[Assignment, ...]:
        """Return what a line states, as an example of a clause states it."""
        terms = self.readings[0].ruleset.vocabulary.terms
        return tuple(Assignment(terms[name], datum.text) for name, datum in line.data.items())


def shortened(line: Line, shows: Shows) -> Line:
    """Return the line without the data that it does not need to show what it shows; one datum always stays."""
    for name in reversed(tuple(line.data)):
        shorter = Line(line.name, {other: datum for other, datum in line.data.items() if other != name})
        if shorter.data and shows(shorter):
            line = shorter
    return line


def _preferred(axis: TermAxis | ChoiceAxis | OrderAxis, system: str) -> tuple[int, ...]:
    if not isinstance(axis, TermAxis):
        return tuple(range(axis.width))
    given: Iterable[int] = range(1, axis.width)
    if axis.term.kind.form is Form.SIZE:
        given = sorted(given, key=lambda at: abs(_inches(axis.atoms[at].value) - USUAL_INCHES))
    else:
        unusual = axis.term.inch_pound if system == "metric" else axis.term.metric
        given = sorted(given, key=lambda at: _oddity(axis, at, unusual))
    return (*given, 0)


def _inches(value: Single | NotGiven) -> float:
    return float(value.inches) if isinstance(value, NominalSize) else 0.0


def _oddity(axis: TermAxis, at: int, unusual: str) -> tuple[bool, bool, bool, bool, float]:
    """Return what makes an example odd, the oddest first.

    A size that stands in for another; no end; the unit of the other system; a value that no clause names; far from
    room temperature.
    """
    atom = axis.atoms[at]
    foreign = isinstance(atom.value, Quantity) and atom.value.unit == unusual
    far = 0.0
    if axis.term.kind.dimension == "temperature" and isinstance(atom.value, Quantity):
        far = abs(atom.value.value - ROOM_KELVIN)
    return atom.stand_in, atom.low == math.inf, foreign, not atom.single, far
