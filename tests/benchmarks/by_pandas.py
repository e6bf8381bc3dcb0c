"""A bare script beside `check`: pandas with openpyxl reads the workbook, and the 40 conditions are applied by hand.

It knows how the workload is written, gives no reasons, and takes a range of sizes at its smaller end. It is run in a
process of its own: `python -m benchmarks.by_pandas schedule.xlsx`.
"""

from __future__ import annotations

import sys

import numpy as np
from benchmarks import by_numpy
from benchmarks.plain_columns import JACKETS, SEAMS, STOPS, Plain
from benchmarks.workload import INSULATIONS, LOCATIONS, SERVICES


def main(path: str) -> None:
    """Read a workbook of the workload, and print how many verdicts of each code there are."""
    import pandas as pd

    frame = pd.read_excel(path, engine="openpyxl", dtype=str, keep_default_na=False)

    def codes(name: str, words: tuple[str, ...]) -> np.ndarray:
        return frame[name].map({word: code for code, word in enumerate(words)}).fillna(-1).astype(np.int8).to_numpy()

    def numbers(name: str, scale: float = 1.0, shift: float = 0.0) -> np.ndarray:
        return (frame[name].map({text: _number(text) for text in frame[name].unique()}).to_numpy(float) + shift) * scale

    plain = Plain(
        service=codes("Service", SERVICES),
        location=codes("Location", LOCATIONS),
        concealed=codes("Concealed", ("no", "yes")),
        pipe_size=numbers("Pipe Size (in)"),
        operating_temperature=numbers("Op. Temp (F)", 5 / 9, 459.67),
        ambient_temperature=numbers("Amb. Temp (F)", 5 / 9, 459.67),
        insulation=codes("Insulation", INSULATIONS),
        thickness=numbers("Thk (in)", 0.0254),
        jacket=codes("Jacket", JACKETS),
        seam_closure=codes("Seam Closure", SEAMS),
        vapor_stop_spacing=numbers("Vapor Stop Spacing (ft)", 0.3048),
        vapor_stop_locations=sum(
            (frame["Vapor Stops At"].str.contains(name).to_numpy() << place for place, name in enumerate(STOPS)),
            np.zeros(len(frame), np.uint8),
        ).astype(np.uint8),
        flame_spread=numbers("Flame Spread"),
        smoke_developed=numbers("Smoke Developed"),
    )
    found = by_numpy.verdicts(plain, 40)
    print(*(f"{code}: {count}" for code, count in zip(*np.unique(found, return_counts=True), strict=True)))


def _number(text: str) -> float:
    """Return a number of the workload: "1-1/2", "2-1/2 thru 6", infinity for "none", NaN for anything else."""
    if text == "none":
        return float("inf")
    first = text.replace(" to ", " thru ").partition(" thru ")[0]
    try:
        whole, _, rest = first.partition("-")
        return sum(
            float(up) / float(down or 1) for up, _, down in (part.partition("/") for part in (whole, rest or "0"))
        )
    except ValueError:
        return float("nan")


if __name__ == "__main__":
    main(sys.argv[1])
