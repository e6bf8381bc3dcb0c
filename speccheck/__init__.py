"""speccheck: a proposed mechanical-insulation schedule checked against every clause of a project specification.

    import speccheck

    review = speccheck.check("schedule.xlsx", against="project.clauses")
    review.outcome, review.findings, review["CHW-3", "2.1.A"].working(), review.save("report.html")

These names are for other programs; `speccheck.interface` says more. They are imported when they are first used.

The house has ten floors, and a floor imports only from floors below it:

    quantities   units, fractions, nominal sizes, ranges: text to value and back
    physics      pipe and tube dimensions, psychrometrics, heat transfer
    language     clause text to syntax to core; vocabularies; diagnostics
    schedule     schedules and files: what a contractor sent, read and understood
    judge        the judge: one line, one clause, with its reasons
    review       the compliance matrix and what is made of it
    report       terminal, HTML, workbook, JSON, Markdown
    interface    what scripts, notebooks and other programs call
    desk         the local page for people without a terminal
    cli          one file for each command
"""

TYPE_CHECKING = False  # nothing is imported here: a command that is stopped in its first moment has to say so
if TYPE_CHECKING:
    from typing import Any

    from speccheck.interface import (
        Finding,
        NotWritten,
        Review,
        Rules,
        UnusableInput,
        check,
        load_ruleset,
        read_schedule,
    )
    from speccheck.judge import Verdict
    from speccheck.review.outcome import Outcome

__all__ = [
    "Finding",
    "NotWritten",
    "Outcome",
    "Review",
    "Rules",
    "UnusableInput",
    "Verdict",
    "check",
    "load_ruleset",
    "read_schedule",
]

_ELSEWHERE = {"Outcome": "speccheck.review.outcome", "Verdict": "speccheck.judge"}


def __getattr__(name: str) -> "Any":
    """Return a public name, imported when it is first asked for, so that the commands do not pay for all of them."""
    if name not in __all__:
        raise AttributeError(f"module `speccheck` has no attribute `{name}`")
    from importlib import import_module

    return getattr(import_module(_ELSEWHERE.get(name, "speccheck.interface")), name)


def __dir__() -> list[str]:
    return __all__
