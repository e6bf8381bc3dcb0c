"""Makes `emberlow-hollow.epw`, the invented weather of the invented dairy: waves of a year, a day and a few days."""

from __future__ import annotations

import math
from pathlib import Path

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
HEAD = (
    "LOCATION,Emberlow Hollow,Nowhere,XXX,invented,000000,43.00,-90.00,-6.0,250.0",
    "DESIGN CONDITIONS,0",
    "TYPICAL/EXTREME PERIODS,0",
    "GROUND TEMPERATURES,0",
    "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
    "COMMENTS 1,invented for the examples of this repository; no place has this weather",
    "COMMENTS 2,air and dew point are sums of sine waves",
    "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
)


def row(month: int, day: int, hour: int, number: int) -> str:
    """Return the line of one hour: it is warmest in July and at 3 p.m., and most humid some days after a warm spell."""
    season = math.cos(2 * math.pi * (number - 4800) / 8760)
    spell = math.sin(2 * math.pi * number / 211) + 0.5 * math.sin(2 * math.pi * number / 67)
    air = 9 + 14 * season + 5 * math.cos(2 * math.pi * (hour - 15) / 24) + 3 * spell
    dew = min(air, 5 + 12.5 * season + 3 * math.sin(2 * math.pi * (number - 40) / 211))
    vapor = math.exp(17.62 * dew / (243.12 + dew) - 17.62 * air / (243.12 + air))
    return f"1999,{month},{day},{hour},60,invented,{air:.1f},{dew:.1f},{min(100, round(100 * vapor))},98400"


def text() -> str:
    """Return the whole file."""
    rows, number = list(HEAD), 0
    for month, days in enumerate(DAYS, start=1):
        for day in range(1, days + 1):
            for hour in range(1, 25):
                rows.append(row(month, day, hour, number))
                number += 1
    return "\n".join(rows) + "\n"


if __name__ == "__main__":
    (Path(__file__).parent / "emberlow-hollow.epw").write_text(text(), encoding="utf-8")
