"""Reads the expected values in `data/`: comment lines name the source, then plain CSV."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np

from speccheck.physics.numerics import Array


def cases(name: str) -> list[dict[str, str]]:
    """Return the rows of `data/<name>.csv`, its comment lines left out."""
    lines = (Path(__file__).parent / "data" / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if line and not line.startswith("#")))


def columns(name: str) -> dict[str, Array]:
    """Return the columns of `data/<name>.csv` as numbers, NaN where a cell is empty."""
    rows = cases(name)
    return {key: np.array([float(row[key]) if row[key] else np.nan for row in rows]) for key in rows[0]}
