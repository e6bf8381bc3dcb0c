"""Burns: the least surface temperature at which a touch of a stated time may burn, by the material that is touched.

The thresholds are those of DIN EN 563 and EN ISO 13732-1 as transcribed second hand: of bare, dry, healthy adult skin,
no more than a tenth of it. They are where a burn cannot be ruled out any more, not limits of a code; children, the old
and the ill burn sooner. Where two transcriptions disagree the lower one counts.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from speccheck.physics.numerics import Array, Numbers, as_array
from speccheck.physics.psychrometrics import ZERO_CELSIUS
from speccheck.physics.published import number, table


@dataclass(frozen=True)
class Thresholds:
    """The thresholds of one surface: times of contact, s, rising, and temperatures, K; `other` is that of a second
    transcription, NaN where there is none.
    """

    surface: str
    contact: tuple[float, ...]
    temperature: tuple[float, ...]
    other: tuple[float, ...]
    source: str

    def at(self, contact: Numbers) -> tuple[Array, Array, Array]:
        """Return, for contacts in s, the threshold, the time that it is printed for, and the higher one of two.

        Between two printed times the longer one counts, whose threshold is lower; beyond the longest, the longest. NaN
        where the contact is not given; the last is NaN too where both transcriptions agree or there is one.
        """
        seconds = as_array(contact)
        place = np.minimum(np.searchsorted(self.contact, seconds), len(self.contact) - 1)
        least, most = np.fmin(self.temperature, self.other), np.fmax(self.temperature, self.other)
        most = np.where(most > least, most, np.nan)
        known = ~np.isnan(seconds)
        threshold, printed, other = (
            np.where(known, each[place], np.nan) for each in (least, np.asarray(self.contact), most)
        )
        return threshold, printed, other


@cache
def burn_thresholds() -> dict[str, Thresholds]:
    """Return the thresholds of every surface of the table by its name."""
    printed = table("burn_thresholds")
    found: dict[str, Thresholds] = {}
    for surface in dict.fromkeys(row["surface"] for row in printed.rows):
        rows = [row for row in printed.rows if row["surface"] == surface]
        found[surface] = Thresholds(
            surface,
            tuple(number(row["contact_s"]) for row in rows),
            tuple(number(row["threshold_C"]) + ZERO_CELSIUS for row in rows),
            tuple(number(row["other_C"]) + ZERO_CELSIUS for row in rows),
            printed.source,
        )
    return found


@cache
def touched_surface(term: str, word: str) -> str:
    """Return the surface of the table that a hand meets on a material; empty where none is published here."""
    rows = table("touched_surfaces").rows
    return next((row["surface"] for row in rows if (row["term"], row["word"]) == (term, word)), "")
