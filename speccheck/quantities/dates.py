"""Days of the calendar as values: numbers of days that are written, and read, as 2024-05-17."""

from __future__ import annotations

import datetime
import re

from speccheck.quantities.values import Misread

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
MONTH = "|".join(f"{month}[a-z]*" for month in _MONTHS)
"""What the names of months look like, in full or shortened, for expressions that take no heed of capitals."""
_WRITTEN = (
    re.compile(r"(?P<year>\d{4})-(?P<month>\d{1,2})-(?P<day>\d{1,2})(?:[T ]00:00(?::00)?)?"),
    re.compile(rf"(?P<name>{MONTH})\.?\s+(?P<day>\d{{1,2}}),?\s+(?P<year>\d{{4}})", re.IGNORECASE),
    re.compile(rf"(?P<day>\d{{1,2}})\.?[\s-]+(?P<name>{MONTH})\.?,?[\s-]+(?P<year>\d{{4}})", re.IGNORECASE),
)


class Day(float):
    """A day: the number of days since the beginning of the calendar, which is always written as 2024-05-17."""

    __slots__ = ()

    @classmethod
    def of(cls, day: datetime.date) -> Day:
        """Return a day of the calendar as a value."""
        return cls(day.toordinal())

    @property
    def date(self) -> datetime.date:
        """The day of the calendar; the first or the last one for numbers beyond it."""
        number = min(max(round(float(self)), 1), datetime.date.max.toordinal())
        return datetime.date.fromordinal(number)

    def __str__(self) -> str:
        return self.date.isoformat()

    def __format__(self, spec: str) -> str:
        return format(str(self), spec if spec[-1:] == "s" else "")


def read_day(text: str) -> Day | Misread:
    """Return the day that a text names; one that could be meant in two ways, as 5/6/2024, is not read."""
    plain = " ".join(text.split())
    for pattern in _WRITTEN:
        found = pattern.fullmatch(plain)
        if found is None:
            continue
        parts = found.groupdict()
        named = parts.get("name")
        month = _MONTHS.index(named[:3].casefold()) + 1 if named else int(parts["month"])
        try:
            return Day.of(datetime.date(int(parts["year"]), month, int(parts["day"])))
        except ValueError:
            return Misread(text, f"`{plain}` is no day of the calendar", "write it as 2024-05-17", 0, len(text))
    return Misread(text, f"`{plain}` is no date written as 2024-05-17", "write it as 2024-05-17", 0, len(text))
