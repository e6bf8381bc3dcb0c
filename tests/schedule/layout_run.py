"""`python -m tests.schedule.layout_run COUNT`: random layouts of a known truth, read back.

Prints how many facts were read, how many were not, and each layout in which a value was made up, or a line lost with
nothing said.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Mapping
from functools import cache

from speccheck.language.vocabulary.values import NotGiven, write_value
from speccheck.schedule import HeaderReader, Line, Schedule, ScheduleMapping
from speccheck.schedule.schedule import read_grids
from tests.schedule.building import small_vocabulary
from tests.strategies.layouts import Layout, draw_layout

UNITS = {"pipe size": " in", "thickness": " in", "operating temperature": " F"}


@cache
def reader() -> HeaderReader:
    """Return the reader of headers that all layouts share."""
    return HeaderReader(small_vocabulary())


def read_layout(layout: Layout) -> Schedule:
    """Return what is read of a layout."""
    return read_grids("drawn.xlsx", [layout.grid], [], reader(), ScheduleMapping(units="inch-pound"))


def stated(line: Line) -> Mapping[str, str]:
    """Return the values that were read of a line, as text."""
    terms = small_vocabulary().terms
    data = {name: datum.value for name, datum in line.data.items() if name not in ("mark", "notes")}
    return {name: write_value(value, terms[name]) for name, value in data.items() if not isinstance(value, NotGiven)}


def compared(layout: Layout) -> Counter[str]:
    """Count the facts of a layout that were read and not read, those that were made up, and lines that were lost.

    Each line that was read has to be one of the truth, with some values left out at most; each of the truth is used
    once. Lines may be missing where something is said to be unread.
    """
    schedule = read_layout(layout)
    truth = [{name: value + UNITS.get(name, "") for name, value in line.items() if value} for line in layout.truth]
    facts = sum(map(len, truth))
    counts: Counter[str] = Counter()
    left = list(truth)
    for line in sorted(map(stated, schedule.lines), key=len, reverse=True):
        fits = [one for one in left if line.items() <= one.items()]
        if not fits:
            counts["made up"] += 1
            continue
        best = min(fits, key=len)
        left.remove(best)
        counts["read"] += len(line)
    counts["not read"] = facts - counts["read"]
    told = bool(schedule.unread) or any(one.code for one in schedule.diagnostics)
    cells = schedule.cells
    told = told or (cells is not None and cells.accounted < cells.filled)
    counts["lost untold"] += bool(counts["not read"]) and not told
    return counts


def main() -> None:
    """Run as many layouts as are asked for."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    sums: Counter[str] = Counter()
    for seed in range(count):
        found = compared(draw_layout(seed))
        sums += found
        if found["made up"] or found["lost untold"]:
            print(f"seed {seed}: {dict(found)}")
    share = sums["read"] / (sums["read"] + sums["not read"])
    print(f"{count:,} layouts: {dict(sums)}; {share:.1%} of the facts read")


if __name__ == "__main__":
    main()
