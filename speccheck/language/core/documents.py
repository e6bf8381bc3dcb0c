"""Documents: what a section asks to be submitted beside the schedule, for what, and how old it may be."""

from __future__ import annotations

import calendar
import datetime
import re
from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.language.core.clauses import Confirmable, ExceptionPart
from speccheck.language.core.conditions import Condition
from speccheck.language.core.sources import Source
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Term

_AGE = re.compile(r"(\d{1,9})\s*(day|week|month|year)s?")


class DocumentKind(StrEnum):
    """What sort of thing has to be submitted."""

    DATA_SHEET = "data sheet"
    CERTIFICATE = "certificate"
    TEST_REPORT = "test report"
    SAMPLE = "sample"
    QUALIFICATION = "installer's qualification"
    INSTRUCTIONS = "installation instructions"
    SHOP_DRAWING = "shop drawing"
    WARRANTY = "warranty"


@dataclass(frozen=True, slots=True)
class Age:
    """How old something may be: a number of days, weeks, months or years by the calendar."""

    number: int
    unit: str

    def __str__(self) -> str:
        return f"{self.number} {self.unit}{'' if self.number == 1 else 's'}"

    @classmethod
    def read(cls, text: str) -> Age | None:
        """Return the age that a text is ("24 months"), None for any other text."""
        found = _AGE.fullmatch(text)
        return None if found is None else cls(int(found[1]), found[2])

    def earliest(self, day: datetime.date) -> datetime.date:
        """Return the earliest date that is not older than this on a day; the last of a month stays the last."""
        if self.unit in ("day", "week"):
            days = self.number * (7 if self.unit == "week" else 1)
            return datetime.date.fromordinal(max(1, day.toordinal() - days))
        months = day.year * 12 + day.month - 1 - self.number * (12 if self.unit == "year" else 1)
        year, month = max(1, months // 12), months % 12 + 1
        return datetime.date(year, month, min(day.day, calendar.monthrange(year, month)[1]))


@dataclass(frozen=True, slots=True)
class RequiredDocument(Confirmable):
    """A paragraph that asks for a document.

    It is asked for where some line of the schedule meets all of `scope` and no exception: once, or once for each value
    that these lines state for the terms of `each`. `within` is the age that it may have on the day of the review.
    """

    name: str
    title: str
    ruleset: str
    kind: DocumentKind
    each: tuple[Term, ...] = ()
    scope: tuple[Condition, ...] = ()
    exceptions: tuple[ExceptionPart, ...] = ()
    within: Age | None = None
    sources: tuple[Source, ...] = ()
    wording: str = ""
    reason: str = ""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    is_draft: bool = False
    todo: tuple[str, ...] = ()
    place: Place = field(default=Place(), compare=False)

    @property
    def conditions(self) -> tuple[Condition, ...]:
        """All its conditions."""
        return (*self.scope, *(part.condition for part in self.exceptions))
