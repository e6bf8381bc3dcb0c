"""The public Python interface: what a script, a notebook or another program calls. The commands stand on it as well.

In: paths, frames or plain mappings. Out: a `Review`, which answers questions and saves reports. What cannot be used
raises `UnusableInput`, which carries the diagnostics; nothing else of a user's doing raises.

    import speccheck

    review = speccheck.check("schedule.xlsx", against="project.clauses")
    review.outcome.status                       # 0, 1, 2 or 3, as the command ends with
    for finding in review.findings:
        print(finding.line, finding.clause, finding.verdict, finding.reason, finding.place)
    print(review["CHW-3", "2.1.A"].working())
    review.save("report.html")

Files:

    checking     `check`: a schedule checked against a ruleset in one call
    rules        `load_ruleset` and `Rules`: a ruleset, loaded once, to check and judge by
    schedules    `read_schedule`: a file, a frame or rows of values, read as a schedule
    review       `Review` and `Finding`: what came of it

Names that these modules do not export through `speccheck` are private and may change.
"""

from speccheck.inputs import UnusableInput
from speccheck.interface.checking import check
from speccheck.interface.review import Finding, Review
from speccheck.interface.rules import Rules, load_ruleset
from speccheck.interface.schedules import read_schedule
from speccheck.report.writing import NotWritten

__all__ = ["Finding", "NotWritten", "Review", "Rules", "UnusableInput", "check", "load_ruleset", "read_schedule"]
