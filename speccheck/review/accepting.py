"""Accepted deviations in a matrix: shown as such, never as compliance.

A deviation takes lines out of a clause as an exception of the clause would: the clause is judged again with the
condition of the deviation among its exceptions. Where nothing fails any more, the cell is an accepted deviation. A cell
that cannot be determined stays so, since nobody knows what was accepted.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from speccheck.english import agree
from speccheck.judge import Judge
from speccheck.judge.cell import Cell
from speccheck.judge.judgement import BareVerdict, Basis, Verdict
from speccheck.language.core import Every, ExceptionPart, Negation
from speccheck.review.deviations import Deviation, Register
from speccheck.review.line_wording import named
from speccheck.review.matrix import Matrix
from speccheck.review.messages.registers import (
    DEVIATION_COVERS_PART,
    DEVIATION_NOT_DETERMINED,
    DEVIATION_ON_NO_DAY,
    DEVIATION_TOO_WIDE,
    NEEDED_DEVIATION_EXPIRED,
    NO_LINE_NEEDS_DEVIATION,
    UNNEEDED_DEVIATION_EXPIRED,
)
from speccheck.review.observations import Observation, observed
from speccheck.schedule.lines import Line

Place = tuple[int, int]


def accept_deviations(matrix: Matrix, register: Register, on: datetime.date | None = None) -> Matrix:
    """Return the matrix with the deviations of a register that hold `on` a day, and what there is to say of them.

    A deviation that has ended by then, or that has an end while no day is stated, is not applied.
    """
    acceptance = _Acceptance(matrix, register, on)
    cells = tuple(
        tuple(acceptance.cells.get((row, column), cell) for column, cell in enumerate(cells))
        for row, cells in enumerate(matrix.cells)
    )
    observations = (*matrix.observations, *acceptance.observations())
    return replace(matrix, cells=cells, observations=observations, register=register)


@dataclass(frozen=True, slots=True)
class Acceptance:
    """That a failing cell is an accepted deviation."""

    deviation: Deviation

    @property
    def words(self) -> str:
        """What was accepted, and by whom."""
        return f"accepted deviation {self.deviation}"


def accepted_by(cell: Cell) -> tuple[Deviation, ...]:
    """Return the deviations by which a failing cell is accepted."""
    return tuple(one.deviation for one in cell.accepted if isinstance(one, Acceptance))


@dataclass
class _Acceptance:
    """The work of holding one register against one matrix."""

    matrix: Matrix
    register: Register
    on: datetime.date | None
    judge: Judge = field(init=False)

    def __post_init__(self) -> None:
        self.judge = Judge(self.matrix.ruleset)

    @cached_property
    def columns(self) -> dict[str, int]:
        """The column of each clause by its label."""
        return {clause.label: column for column, clause in enumerate(self.matrix.ruleset.clauses)}

    @cached_property
    def cells(self) -> dict[Place, BareVerdict]:
        """The cells that are accepted deviations."""
        found: dict[Place, BareVerdict] = {}
        for label in dict.fromkeys(one.clause for one in self.register.deviations if self._in_force(one)):
            several = [one for one in self.register.deviations if one.clause == label and self._in_force(one)]
            column = self.columns[label]
            for row, line in enumerate(self.matrix.schedule.lines):
                cell = self.matrix.cells[row][column]
                if cell.verdict is Verdict.FAILS and self._taken_out(column, line, several):
                    needed = [one for one in several if self._touches(column, line, one)]
                    found[row, column] = _accepted(cell, needed or several)
        return found

    def _in_force(self, deviation: Deviation) -> bool:
        return deviation.until is None or (self.on is not None and self.on <= deviation.until)

    def _taken_out(self, column: int, line: Line, deviations: Iterable[Deviation]) -> bool:
        """Whether no case of a line fails, or is open, with deviations among the exceptions of the clause."""
        verdicts = self._verdicts(column, line, deviations)
        return bool(verdicts) and not {Verdict.FAILS, Verdict.CANNOT_TELL} & set(verdicts)

    def _touches(self, column: int, line: Line, deviation: Deviation) -> bool:
        """Whether a deviation takes some failing case of a line out of the clause.

        The clause is judged beside itself with an exception that never holds and asks for the same data, so that both
        come to the same cases.
        """
        idle = replace(deviation, lines=Every((deviation.lines, Negation(deviation.lines))))
        before, after = (self._verdicts(column, line, (one,)) for one in (idle, deviation))
        pairs = zip(before, after, strict=True)
        return any(was is Verdict.FAILS and now is Verdict.NOT_APPLICABLE for was, now in pairs)

    def _verdicts(self, column: int, line: Line, deviations: Iterable[Deviation]) -> list[Verdict]:
        clause = self.matrix.ruleset.clauses[column]
        granted = tuple(ExceptionPart(one.lines) for one in deviations)
        judged = replace(clause, exceptions=(*clause.exceptions, *granted))
        return [one.verdict for one in self.judge.judgements(judged, line)]

    def observations(self) -> Iterator[Observation]:
        """Yield what there is to say of each deviation, in the order of the register."""
        for deviation in self.register.deviations:
            yield from self._about(deviation)

    def _about(self, deviation: Deviation) -> Iterator[Observation]:
        column = self.columns[deviation.clause]
        lines = list(enumerate(self.matrix.schedule.lines))
        failing = [(row, line) for row, line in lines if self.matrix.cells[row][column].verdict is Verdict.FAILS]
        needing = [line for _, line in failing if self._touches(column, line, deviation)]
        called = f"deviation `{deviation.name}` from `{deviation.clause}`"
        label = (deviation.clause,)
        if deviation.until is not None and not self._in_force(deviation):
            yield self._not_in_force(deviation, needing)
            return
        in_part = [
            found
            for row, line in failing
            if (row, column) not in self.cells
            for found in self._in_part(deviation, column, line)
        ]
        if not needing and not in_part:
            yield observed(NO_LINE_NEEDS_DEVIATION.at(deviation.place, deviation=called), (), label)
        yield from in_part
        wide = [line.name for row, line in lines if self._excuses_for_nothing(column, row, line, deviation)]
        if wide and needing:
            comply = agree(len(wide), "complies", "comply")
            yield observed(
                DEVIATION_TOO_WIDE.at(deviation.place, deviation=called, lines=named(wide), comply=comply), wide, label
            )

    def _not_in_force(self, deviation: Deviation, needing: Sequence[Line]) -> Observation:
        names = [line.name for line in needing]
        assert deviation.until is not None
        until, called = deviation.until.isoformat(), f"deviation `{deviation.name}` from `{deviation.clause}`"
        touched = f"; {named(names)} {agree(len(names), 'needs', 'need')} it" if names else ""
        if self.on is None:
            return observed(
                DEVIATION_ON_NO_DAY.at(deviation.place, deviation=called, until=until, touched=touched),
                names,
                (deviation.clause,),
            )
        said = NEEDED_DEVIATION_EXPIRED if names else UNNEEDED_DEVIATION_EXPIRED
        told = said.at(deviation.place, deviation=called, until=until, day=self.on.isoformat(), touched=touched)
        return observed(told, names, (deviation.clause,))

    def _in_part(self, deviation: Deviation, column: int, line: Line) -> Iterator[Observation]:
        """Yield why a failing line is not accepted although the deviation has to do with it."""
        verdicts = self._verdicts(column, line, (deviation,))
        called = f"deviation `{deviation.name}` from `{deviation.clause}`"
        if self._touches(column, line, deviation) and Verdict.FAILS in verdicts:
            yield observed(
                DEVIATION_COVERS_PART.at(deviation.place, deviation=called, line=line.name),
                [line.name],
                (deviation.clause,),
            )
        elif Verdict.CANNOT_TELL in verdicts:
            yield observed(
                DEVIATION_NOT_DETERMINED.at(deviation.place, deviation=called, line=line.name),
                [line.name],
                (deviation.clause,),
            )

    def _excuses_for_nothing(self, column: int, row: int, line: Line, deviation: Deviation) -> bool:
        """Whether a deviation takes a line out of the clause that complies with it anyway."""
        if self.matrix.cells[row][column].verdict is not Verdict.COMPLIES:
            return False
        clause = self.matrix.ruleset.clauses[column]
        bare = replace(clause, scope=(*clause.scope, deviation.lines), exceptions=())
        judged = self.judge.judgements(bare, line)
        return any(one.basis not in (Basis.OUT_OF_SCOPE, Basis.NOT_STATED, Basis.MET_EITHER_WAY) for one in judged)


def _accepted(cell: BareVerdict, deviations: Sequence[Deviation]) -> BareVerdict:
    """Return a failing cell as an accepted deviation, with what was accepted where it has grounds."""
    if isinstance(cell, Cell):
        return replace(cell, verdict=Verdict.ACCEPTED, accepted=tuple(map(Acceptance, deviations)))
    return replace(cell, verdict=Verdict.ACCEPTED)
