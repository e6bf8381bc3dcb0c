"""A schedule checked against a ruleset in one call."""

from __future__ import annotations

import datetime
import os
from dataclasses import replace
from pathlib import Path

from speccheck.interface.review import Review
from speccheck.interface.rules import Rules, load_ruleset
from speccheck.interface.schedules import Source, read_schedule
from speccheck.schedule import Schedule, ScheduleMapping


def check(
    schedule: Schedule | Source,
    against: Rules | str | os.PathLike[str],
    *,
    mapping: str | os.PathLike[str] | ScheduleMapping | None = None,
    units: str = "",
    sheet: str = "",
    design: str | os.PathLike[str] | Schedule | None = None,
    products: str | os.PathLike[str] | Schedule | None = None,
    deviations: str | os.PathLike[str] | None = None,
    received: str | os.PathLike[str] | None = None,
    on: datetime.date | None = None,
) -> Review:
    """Check a schedule against every clause of a ruleset.

    `schedule` is a file, a frame of pandas, Polars or Arrow, rows of values by column header, or what `read_schedule`
    returned. `against` is a ruleset file, the name of a shipped ruleset, or what `load_ruleset` returned. `mapping`,
    `units` and `sheet` settle how the schedule is read. `design` is a list of the systems that the building has,
    `products` are product data, `deviations` a register of accepted deviations, which hold `on` the day of the review,
    `received` a register of what was received;
    the clock is never asked.

    Raises `UnusableInput` where any of these cannot be used, or no line of the schedule can be judged.
    """
    rules = against if isinstance(against, Rules) else load_ruleset(against)
    read = schedule
    if not isinstance(schedule, Schedule):
        read = read_schedule(schedule, rules, mapping=mapping, units=units, sheet=sheet)
    review = rules.check(read, design=design, products=products, deviations=deviations, received=received, on=on)
    named = (one for one in (schedule, mapping) if isinstance(one, str | os.PathLike))
    return replace(review, files=(*review.files, *map(Path, named)))
