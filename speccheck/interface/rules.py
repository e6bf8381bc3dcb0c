"""A ruleset, loaded once: to check schedules against, and to judge single lines by."""

from __future__ import annotations

import datetime
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from speccheck.inputs import usable_ruleset
from speccheck.interface.review import Review
from speccheck.interface.schedules import Source, read_schedule
from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import Diagnostic
from speccheck.review.reviewing import Reasons, judge_schedule
from speccheck.schedule import Schedule


class Rules:
    """A ruleset that can be used.

    `diagnostics` are the warnings of loading it, `files` the files that it stands on, its bases among them.
    """

    def __init__(
        self, ruleset: Ruleset, diagnostics: tuple[Diagnostic, ...] = (), files: tuple[Path, ...] = ()
    ) -> None:
        self.ruleset = ruleset
        self.diagnostics = diagnostics
        self.files = files

    def __repr__(self) -> str:
        return f"<Rules `{self.name}`: {len(self.clauses)} clauses>"

    @property
    def name(self) -> str:
        """The name of the ruleset."""
        return self.ruleset.name

    @property
    def clauses(self) -> tuple[str, ...]:
        """The labels of its clauses, as reports call them."""
        return tuple(clause.label or clause.name for clause in self.ruleset.clauses)

    @property
    def terms(self) -> tuple[str, ...]:
        """The names of the terms that its clauses can speak of."""
        return tuple(self.ruleset.vocabulary.terms)

    def check(
        self,
        schedule: Schedule | Source,
        *,
        design: str | os.PathLike[str] | Schedule | None = None,
        products: str | os.PathLike[str] | Schedule | None = None,
        deviations: str | os.PathLike[str] | None = None,
        received: str | os.PathLike[str] | None = None,
        on: datetime.date | None = None,
        reasons: Reasons = Reasons.ALL,
    ) -> Review:
        """Return the review of a schedule, as `speccheck.check` does.

        With other `reasons` than all of them, cells that nobody reads have their verdicts alone, which is faster.
        """
        read = schedule if isinstance(schedule, Schedule) else read_schedule(schedule, self)
        files = [*self.files, *(Path(one) for one in (schedule,) if isinstance(one, str | os.PathLike))]
        review = Review(judge_schedule(read, self.ruleset, reasons=reasons), files=tuple(files))
        return review.beside(design=design, products=products, deviations=deviations, received=received, on=on)

    def judge(self, line: Mapping[str, Any], *, name: str = "the line") -> Review:
        """Return the review of one line, stated as values by term: `{"service": "chilled water", "thickness": "1 in"}`.

        A value may be a text, a number in the units of the ruleset, yes or no, a list for a set, or None.
        """
        return self.check(read_schedule([{"mark": name, **line}], self, units=self.ruleset.units))


def load_ruleset(source: str | os.PathLike[str]) -> Rules:
    """Return the ruleset of a file, or a shipped one by its name ("energy/ashrae-90.1").

    Raises `UnusableInput` where it, or one that it builds on, cannot be used.
    """
    ruleset, loaded = usable_ruleset(Path(source))
    return Rules(ruleset, loaded.diagnostics, tuple(map(Path, loaded.files)))
