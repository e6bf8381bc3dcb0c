"""What the child process does, by name: the floors below, called as the commands call them.

A job gets plain values and gives plain values. What is read and what is written stand in modules of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from speccheck.desk.papers import Progress
from speccheck.desk.work_files import FILE_WORK
from speccheck.desk.work_papers import PAPER_WORK
from speccheck.desk.work_reading import READING_WORK
from speccheck.desk.work_review import REVIEW_WORK
from speccheck.desk.work_rulesets import RULESET_WORK

WORK: Mapping[str, Callable[[dict[str, Any], Progress], Any]] = {
    **REVIEW_WORK,
    **READING_WORK,
    **FILE_WORK,
    **PAPER_WORK,
    **RULESET_WORK,
}
