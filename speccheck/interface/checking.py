"""A schedule checked against a ruleset in one call."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from speccheck.interface.review import Review
from speccheck.interface.rules import Rules, load_ruleset
from speccheck.interface.schedules import FilePath, Source
from speccheck.schedule import Schedule, ScheduleMapping


def check(
    schedule: Schedule | Source,
    against: Rules | FilePath,
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
) -> Review:
    """Check a schedule against every clause of a ruleset.

    `schedule` is a file, several files or a folder that are one submittal (product data among them are evidence), a
    frame of pandas, Polars or Arrow, rows of values by column header, or what `read_schedule` returned. `against` is a
    ruleset file, the name of a shipped ruleset, or what `load_ruleset` returned. `mapping`, `units` and `sheet` settle
    how the schedule is read. `design` is a list of the systems that the building has, `products` are product data,
    tables or data sheets; with `fill_from_data` lines are judged by what these show where the schedule leaves something
    out, and every finding says so. `deviations` is a register of accepted deviations, which hold `on` the day of the
    review, `received` a register of what was received; the clock is never asked.

    Raises `UnusableInput` where any of these cannot be used, or no line of the schedule can be judged.
    """
    rules = against if isinstance(against, Rules) else load_ruleset(against)
    return rules.check(
        schedule,
        mapping=mapping,
        units=units,
        sheet=sheet,
        design=design,
        products=products,
        fill_from_data=fill_from_data,
        deviations=deviations,
        received=received,
        on=on,
    )
