"""The workload of the benchmarks: a ruleset of 40 clauses and schedules of any number of lines, always the same."""

from __future__ import annotations

import random
from pathlib import Path

HEADER = """ruleset "Benchmark, 40 clauses"
  speaks mechanical insulation
  units  inch-pound

define below ambient
  as operating temperature is less than ambient temperature

table hot thickness in inches
  by operating temperature, pipe size
                     | under 1 in | 1 in to under 1-1/2 in | 1-1/2 in to under 4 in | 4 in to under 8 in | 8 in and over
  105 F to 140 F     | 1          | 1                      | 1-1/2                  | 1-1/2              | 1-1/2
  over 140 F to 200 F| 1-1/2      | 1-1/2                  | 2                      | 2                  | 2
  over 200 F to 250 F| 2-1/2      | 2-1/2                  | 2-1/2                  | 3                  | 3
"""

CLAUSES = (
    (
        "service is one of heating hot water, steam, domestic hot water",
        "thickness be at least hot thickness",
        "insulation is {insulation}",
    ),
    (
        "below ambient and location is {location}",
        "vapor stop spacing be at most {feet} ft",
        "insulation is cellular glass",
    ),
    ("location is outdoor", "jacket be one of aluminum, stainless steel, PVC", "insulation is {insulation}"),
    ("location is plenum", "flame spread be at most 25 and smoke developed be at most 50", "concealed"),
    (
        "insulation is {insulation}",
        "seam closure be one of factory adhesive, contact adhesive",
        "location is {location}",
    ),
    (
        "service is {service} and pipe size is at least 4 in",
        "thickness be at least 1-1/2 in or insulation be {insulation}",
        "concealed",
    ),
    (
        "below ambient",
        "vapor stop locations include valves, flanges",
        "insulation is cellular glass and pipe size is under 2 in",
    ),
    (
        "operating temperature is between 140 F and {hot} F",
        "thickness be at least smaller of hot thickness and {feet} in",
        "location is {location}",
    ),
)
SERVICES = ("chilled water", "heating hot water", "steam", "domestic hot water", "glycol", "refrigerant suction")
INSULATIONS = ("elastomeric foam", "fiberglass", "cellular glass", "calcium silicate", "mineral wool")
LOCATIONS = ("outdoor", "plenum", "mechanical room", "wash-down", "conditioned")
SIZES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4", "6", "8", "2-1/2 thru 6", "1/2 to 2")
HEADINGS = (
    *("Mark", "Service", "Location", "Concealed", "Pipe Size (in)", "Op. Temp (F)", "Amb. Temp (F)", "Insulation"),
    *(
        "Thk (in)",
        "Jacket",
        "Seam Closure",
        "Vapor Stop Spacing (ft)",
        "Vapor Stops At",
        "Flame Spread",
        "Smoke Developed",
    ),
)


def clause_words(clauses: int = 40) -> list[dict[str, str | int]]:
    """Return the words that stand in for the names in braces, for each of so many clauses."""
    chance = random.Random(1)
    return [
        {
            "service": chance.choice(SERVICES),
            "insulation": chance.choice(INSULATIONS),
            "location": chance.choice(LOCATIONS),
            "feet": chance.choice((10, 12, 15, 18)),
            "hot": chance.choice((180, 200, 250)),
        }
        for _ in range(clauses)
    ]


def ruleset_text(clauses: int = 40) -> str:
    """Return a ruleset of so many clauses."""
    written = [HEADER]
    for number, words in enumerate(clause_words(clauses)):
        where, shall, excepting = CLAUSES[number % len(CLAUSES)]
        body = f"  where   {where}\n  shall   {shall}\n  except  where {excepting}\n"
        written.append(f'clause {1 + number // 10}.{number % 10} "Clause {number}"\n' + body.format(**words))
    return "\n".join(written)


def schedule_rows(lines: int) -> list[list[str]]:
    """Return a header and so many lines, some with ranges of sizes and some with data missing."""
    chance = random.Random(2)
    rows = [list(HEADINGS)]
    for number in range(lines):
        hot = chance.random() < 0.5
        rows.append(
            [
                f"L-{number + 1}",
                chance.choice(SERVICES),
                chance.choice(LOCATIONS),
                chance.choice(("yes", "no", "")),
                chance.choice(SIZES),
                str(chance.choice((110, 130, 160, 180, 200, 230) if hot else (20, 38, 42, 44, 55))),
                str(chance.choice((70, 75, 80, 90))),
                chance.choice(INSULATIONS),
                chance.choice(("1/2", "3/4", "1", "1-1/2", "2", "2-1/2", "TBD")),
                chance.choice(("aluminum", "PVC", "none", "stainless steel", "")),
                chance.choice(("factory adhesive", "contact adhesive", "tape", "TBD")),
                chance.choice(("10", "15", "18", "20", "none", "")),
                chance.choice(("valves, flanges", "valves", "fittings", "none")),
                chance.choice(("20", "25", "30")),
                chance.choice(("50", "150", "450", "")),
            ]
        )
    return rows


def write_workbook(path: Path, lines: int) -> None:
    """Write a schedule workbook of so many lines."""
    from openpyxl import Workbook

    workbook = Workbook()
    sheet = workbook.worksheets[0]
    sheet.title = "Schedule"
    for row in schedule_rows(lines):
        sheet.append(row)
    workbook.save(path)
