"""`python -m tests.schedule.layout_run COUNT [FIRST]`: random layouts of a known truth, read back.

The layouts are those that the seeds from FIRST (0) on stand for. Prints how many facts were read, how many were not,
and each layout in which a value was made up, or a line lost with nothing said.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Mapping
from functools import cache

from speccheck.language.vocabulary.values import NotGiven, write_value
from speccheck.schedule import HeaderReader, Line, Schedule, ScheduleMapping
from speccheck.schedule.schedule import read_grids
from tests.schedule.building import small_vocabulary
from tests.strategies.layouts import UNITS, Fact, Layout, draw_layout


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


def values_of(fact: Fact) -> Mapping[str, str]:
    """Return the values of a line of the truth as they are written back."""
    return {
        name: value if value[-1].isalpha() or name not in UNITS else f"{value} {UNITS[name]}"
        for name, value in fact.values.items()
        if value
    }


def compared(layout: Layout) -> Counter[str]:
    """Count the facts of a layout that were read and not read, those that were made up, and lines that were lost.

    Each line that was read has to be one of the truth, with some values left out at most; each of the truth is used
    once. Lines and values may be missing where something is said to be unread; what may be left open is not counted.
    """
    schedule = read_layout(layout)
    left = [(values_of(fact), fact.open) for fact in layout.truth]
    facts = sum(len(values.keys() - open_terms) for values, open_terms in left)
    counts: Counter[str] = Counter()
    for line in sorted(map(stated, schedule.lines), key=len, reverse=True):
        fits = [one for one in left if line.items() <= one[0].items()]
        if not fits:
            counts["made up"] += 1
            continue
        best = min(fits, key=lambda one: len(one[0]))
        left.remove(best)
        counts["read"] += len(line.keys() - best[1])
    counts["not read"] = facts - counts["read"]
    told = bool(schedule.unread) or any(one.code for one in schedule.diagnostics)
    cells = schedule.cells
    told = told or (cells is not None and cells.accounted < cells.filled)
    counts["lost untold"] += bool(counts["not read"]) and not told
    return counts


def main() -> None:
    """Run as many layouts as are asked for."""
    count, first = int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 0
    sums: Counter[str] = Counter()
    for seed in range(first, first + count):
        found = compared(draw_layout(random.Random(seed)))
        sums += found
        if found["made up"] or found["lost untold"]:
            print(f"seed {seed}: {dict(found)}")
    share = sums["read"] / (sums["read"] + sums["not read"])
    print(f"{count:,} layouts from seed {first:,}: {dict(sums)}; {share:.1%} of the facts read")


if __name__ == "__main__":
    main()
