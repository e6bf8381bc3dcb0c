"""Tables with one step against all others: thickness that falls once where it rises with size and temperature."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from operator import itemgetter

from speccheck.judge.operations import bare
from speccheck.language.core import Band, Literal, Table
from speccheck.language.vocabulary.terms import Form
from speccheck.proofread.clause_regions import Reading
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.messages.clauses import ONE_STEP_FALLS, ONE_STEP_RISES
from speccheck.proofread.witnesses import Lines
from speccheck.quantities import NominalSize, Quantity

ORDERED = (Form.QUANTITY, Form.SIZE, Form.NUMBER, Form.COUNT)


@dataclass(frozen=True, slots=True)
class _Step:
    """From one cell of a table to the next one along an axis: the bands of the two, the cells, and the difference."""

    bands: tuple[Band, Band]
    cells: tuple[Literal, Literal]
    rise: float


def odd_steps(reading: Reading, lines: Lines) -> Iterator[Finding | Undecided]:
    """Yield the steps of the ruleset's own tables that alone go against all others along an axis."""
    for table in reading.ruleset.tables.values():
        if table.ruleset == reading.ruleset.name:
            for at, axis in enumerate(table.axes):
                if axis.term.kind.form in ORDERED:
                    yield from _odd(table, list(_steps(table, at)))


def _odd(table: Table, steps: Sequence[_Step]) -> Iterator[Finding]:
    """Yield the one step that falls where all others rise, or rises where all others fall."""
    rising, falling = [one for one in steps if one.rise > 0], [one for one in steps if one.rise < 0]
    for alone, others, said in ((falling, rising, ONE_STEP_FALLS), (rising, falling, ONE_STEP_RISES)):
        if len(alone) == 1 and others and sum(len(row) for row in table.cells) > 2:
            (one,) = alone
            was, now = (f"`{cell.value}` at `{band.text}`" for cell, band in zip(one.cells, one.bands, strict=True))
            yield Finding(said.at(table.place, table=table.name, was=was, now=now), ())
            return


def _steps(table: Table, at: int) -> Iterator[_Step]:
    """Yield the steps along one axis of a table, for each combination of the bands of the others."""
    along: dict[tuple[int, ...], list[tuple[int, Literal]]] = {}
    for row, column, cell in table.filled():
        positions = table.positions(row, column)
        along.setdefault((*positions[:at], *positions[at + 1 :]), []).append((positions[at], cell))
    bands = table.axes[at].bands
    for cells in along.values():
        # A cell of 0 says that nothing is asked there, and is no step.
        filled = [(bands[position], cell) for position, cell in sorted(cells, key=itemgetter(0)) if _asks(cell)]
        for (band, cell), (next_band, following) in pairwise(filled):
            yield _Step((band, next_band), (cell, following), bare(following.value) - bare(cell.value))


def _asks(cell: Literal) -> bool:
    return isinstance(cell.value, Quantity | NominalSize | float) and bare(cell.value) != 0
