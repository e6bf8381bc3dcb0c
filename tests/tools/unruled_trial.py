"""`python -m tests.tools.unruled_trial --seed N --tables M`: random tables without rules as programs print them.

Printed is, for each program, how many filled cells are read as they are written, and which are read as others.
"""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from tests.schedule.formats.produced_tables import drawn, outcome_of
from tests.schedule.formats.table_programs import PROGRAMS


def main() -> None:
    """Write, print and read, and say the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--tables", type=int, default=50, help="tables by each program")
    parser.add_argument("--programs", nargs="*", default=list(PROGRAMS))
    parser.add_argument("--into", type=Path, help="keep the papers in this folder")
    parser.add_argument("--least", action="store_true", help="name the tables of which less than nine in ten are read")
    asked = parser.parse_args()
    for name in asked.programs:
        with tempfile.TemporaryDirectory() as temporary:
            folder = (asked.into or Path(temporary)) / name.replace(" ", "-")
            folder.mkdir(parents=True, exist_ok=True)
            first = asked.seed + 100_000 * list(PROGRAMS).index(name)
            tables = {folder / f"{seed}.pdf": drawn(seed) for seed in range(first, first + asked.tables)}
            PROGRAMS[name]({path: table for path, table in tables.items() if not path.exists()})
            told = {path: outcome_of(path, rows) for path, (rows, _) in tables.items() if path.exists()}
        filled, right = (sum(getattr(one, what) for one in told.values()) for what in ("filled", "right"))
        wrong = {path.stem: one.wrong for path, one in told.items() if one.wrong}
        share = 100 * right / max(filled, 1)
        print(f"{name}: {len(told)} tables, {filled} cells, {share:.1f} % read, {len(wrong)} tables with wrong values")
        for stem, what in wrong.items():
            print(f"    {stem}: {'; '.join(what)}")
        for path, one in told.items():
            if asked.least and one.right < 0.9 * one.filled:
                print(f"    {path.stem}: {one.right} of {one.filled} read")


if __name__ == "__main__":
    main()
