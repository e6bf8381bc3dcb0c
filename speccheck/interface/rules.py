"""A ruleset, loaded once: to check schedules against, and to judge single lines by."""

from __future__ import annotations

import datetime
import os
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from speccheck.inputs import usable_products, usable_ruleset
from speccheck.interface.review import Review
from speccheck.interface.schedules import FilePath, Source, paths_of, read_schedule, read_submittal
from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import Diagnostic
from speccheck.review.package import files_of
from speccheck.review.reviewing import Reasons, judge_schedule
from speccheck.schedule import Schedule, ScheduleMapping


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
        mapping: FilePath | ScheduleMapping | None = None,
        units: str = "",
        sheet: str = "",
        design: FilePath | Schedule | None = None,
        products: FilePath | Iterable[FilePath] | Schedule | None = None,
        fill_from_data: bool = False,
        deviations: FilePath | None = None,
        received: FilePath | None = None,
        on: datetime.date | None = None,
        reasons: Reasons = Reasons.ALL,
    ) -> Review:
        """Return the review of a schedule, as `speccheck.check` does.

        With other `reasons` than all of them, cells that nobody reads have their verdicts alone, which is faster.
        """
        if isinstance(schedule, Schedule):
            read, found = schedule, None
        else:
            read, found = read_submittal(schedule, self, mapping=mapping, units=units, sheet=sheet)
        named = [*files_of(paths_of(schedule)), *paths_of(mapping)]
        if found is not None and not isinstance(products, Schedule):
            named += paths_of(products)
            products = usable_products(paths_of(products), read, self.ruleset, found)[0]
        review = Review(judge_schedule(read, self.ruleset, reasons=reasons), files=(*self.files, *named))
        return review.beside(
            design=design,
            products=products,
            fill_from_data=fill_from_data,
            deviations=deviations,
            received=received,
            on=on,
        )

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
