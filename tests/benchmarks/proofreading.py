"""Proofreading: rulesets of 800 rules proofread, compared with a code and with their revision; examples drafted.

Each time is told in seconds of the processor, which others on the machine do not add to, as a share of the aim where
there is one, and beside parsing and resolving the same text.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.proofread.clause_regions import read_together
from speccheck.proofread.drafting_examples import drafted
from speccheck.proofread.gaps import subject_gaps, table_holes
from speccheck.proofread.mutation import adequacy, unnoticed
from speccheck.proofread.proofreading import proofread
from speccheck.proofread.revisions import compare_revisions
from speccheck.proofread.stringency import compare_stringency
from speccheck.proofread.witnesses import Lines

SERVICES = ("heating hot water", "steam", "domestic hot water", "glycol")
SIZES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4", "6", "8")
TEMPERATURES = tuple(range(100, 500, 20))
RUNS = 5
SECTION = Path(__file__).parents[1] / "proofread" / "section" / "emberlow.clauses"
# The number of the clause that is left out: steam in pipe of 4 in at 340 F to 360 F.
MISSING = 333


def run() -> list[tuple[str, str]]:
    """Return the rows of the table: what was asked, and the median and the least time of some runs."""
    rules, revised = _read(rules_text()), _read(rules_text(revised=True))
    table, section = _read(table_text()), _read(section_text())
    reading = _seconds(lambda: _read(rules_text()))[1]
    of_section = _seconds(lambda: _read(section_text()))[1]
    assert len(section.clauses) == 60, section
    return [
        ("800 clauses proofread", _told(lambda: proofread(rules), reading, aim=0.5)),
        ("800 clauses: gaps and holes alone", _told(lambda: _gaps(rules), reading)),
        ("a table of 800 cells proofread", _told(lambda: proofread(table), reading)),
        (
            "800 clauses compared with 800 revised, 40 changed",
            _told(lambda: compare_revisions(rules, revised), reading),
        ),
        (
            "800 clauses checked against 800 of a code",
            _told(lambda: compare_stringency(rules, revised), reading, aim=5),
        ),
        ("examples drafted for 60 clauses without any", _told(lambda: _examples(section), of_section, aim=5)),
    ]


def rules_text(*, revised: bool = False) -> str:
    """Return a ruleset of 800 clauses, one for each service, size and band of temperatures; one band is missing."""
    written = ['ruleset "Benchmark, 800 rules"\n  speaks mechanical insulation\nscope thickness\n']
    written.append(
        f"  where service is one of {', '.join(SERVICES)}\n  where operating temperature is from 100 F to under 500 F\n"
    )
    written.append("  where pipe size is from 1/2 in to under 8 in\n")
    number = 0
    for service in SERVICES:
        for place, (size, above) in enumerate(pairwise(SIZES)):
            for at, low in enumerate(TEMPERATURES):
                number += 1
                if number == MISSING:
                    continue
                thickness = 1 + (place + at) // 6 * 0.5 + (0.5 if revised and number % 20 == 0 else 0)
                written.append(
                    f'clause {number} "rule"\n  subject thickness\n  where service is {service}\n'
                    f"  where pipe size is from {size} in to under {above} in\n"
                    f"  where operating temperature is from {low} F to under {low + 20} F\n"
                    f"  shall thickness be at least {thickness} in\n"
                )
    return "".join(written)


def table_text() -> str:
    """Return a ruleset of one clause that reads a table of 800 cells, with a hole between two of its rows."""
    columns = " | ".join(f"{10 * at} ft to under {10 * at + 10} ft" for at in range(20))
    rows = []
    for at in range(40):
        low = 100 + 10 * at
        cells = " | ".join(str(1 + (at + column) // 12) for column in range(20))
        rows.append(f"  {low if at != 20 else low + 1} F to under {low + 10} F | {cells}")
    table = (
        "table scheduled in inches\n  by operating temperature, heater distance\n  | "
        + columns
        + "\n"
        + "\n".join(rows)
    )
    clause = (
        'clause 1 "rule"\n  where operating temperature is from 100 F to under 500 F\n'
        "  where heater distance is less than 200 ft\n  shall thickness be at least scheduled\n"
    )
    return f'ruleset "Benchmark, a table of 800 cells"\n  speaks mechanical insulation\n{table}\n{clause}'


def _read(text: str) -> Ruleset:
    loaded = parse_ruleset(text)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def _gaps(ruleset: Ruleset) -> None:
    (reading,) = read_together([ruleset])
    lines = Lines((reading,))
    assert len([*subject_gaps(reading, lines), *table_holes(reading, lines)]) == 1


def section_text() -> str:
    """Return a section of 60 clauses without examples: the invented one of the tests, and five clauses more."""
    more = "".join(
        f'\nclause 9.{at} "Hangers"\n  where pipe size is over {at} in\n  shall hanger spacing be at most {at} ft\n'
        for at in range(5, 10)
    )
    return SECTION.read_text(encoding="utf-8") + more


def _examples(ruleset: Ruleset) -> None:
    assert drafted(unnoticed(ruleset, adequacy(ruleset)), ruleset)


def _told(task: Callable[[], object], reading: float, aim: float | None = None) -> str:
    """Return the median and the least time of a task, its share of the aim, and the ratio to reading the clauses."""
    median, least = _seconds(task)
    share = f", {median / aim:.2f} of the aim of {aim:g} s" if aim else ""
    return f"median {median:.2f} s, least {least:.2f} s{share}; {least / reading:.2f} times reading the clauses"


def _seconds(task: Callable[[], object]) -> tuple[float, float]:
    """Return the median and the least time of a task, after one run that warms what is read once."""
    times = []
    for _ in range(RUNS + 1):
        start = time.process_time()
        task()
        times.append(time.process_time() - start)
    return statistics.median(times[1:]), min(times[1:])
