"""Reads the published tables in `tables/`: comment lines at the top carry source and mark, then plain CSV."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np

from speccheck.trade.arrays import Array


@dataclass(frozen=True)
class Table:
    """A published table: its rows by column heading, where it was printed, and how sure that is."""

    name: str
    source: str
    mark: str
    rows: tuple[dict[str, str], ...]

    def column(self, heading: str) -> Array:
        """Return one column as numbers, NaN where the cell is empty."""
        return np.array([float(row[heading]) if row[heading] else np.nan for row in self.rows])

    def words(self, heading: str) -> tuple[str, ...]:
        """Return one column as text."""
        return tuple(row[heading] for row in self.rows)


@cache
def table(name: str) -> Table:
    """Read the table `name`.csv that ships with this package; a missing table is our own bug and raises."""
    lines = (files("speccheck.trade") / "tables" / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    notes = dict(line[2:].split(": ", 1) for line in lines if line.startswith(("# source: ", "# mark: ")))
    rows = tuple(csv.DictReader(line for line in lines if line and not line.startswith("#")))
    return Table(name, notes["source"], notes["mark"], rows)


def number(cell: str) -> float:
    """Return a cell as a number, NaN where it is empty."""
    return float(cell) if cell else float("nan")
