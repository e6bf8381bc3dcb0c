"""Whether the example line of a finding, read as a schedule is and judged, shows the finding."""

from __future__ import annotations

from speccheck.engine import Judge, Verdict
from speccheck.language.core import Ruleset
from speccheck.language.values import BareUnits, read_value
from speccheck.language.vocabulary import fold
from speccheck.proofread.findings import Finding
from speccheck.quantities import Misread
from speccheck.submittal.lines import Datum, Line


def shown(finding: Finding, ruleset: Ruleset) -> bool:
    """Say whether the judge finds on the example line what the finding says."""
    judge, line = Judge(ruleset), line_of(finding, ruleset)
    numbers = {clause.label: number for number, clause in enumerate(ruleset.clauses)}
    cells = [judge.cell(numbers[label], line) for label in finding.clauses]
    verdicts = [cell.verdict for cell in cells]
    match finding.code:
        case "P101" | "P102":
            return any(cell.verdict is Verdict.CANNOT_TELL and not cell.missing for cell in cells)
        case "P103":
            subject = finding.message.split("`")[1]
            own = [judge.cell(n, line) for n, c in enumerate(ruleset.clauses) if fold(c.subject) == fold(subject)]
            return bool(own) and all(cell.verdict is Verdict.NOT_APPLICABLE for cell in own)
        case "P201":
            return sorted(verdicts) == sorted([Verdict.COMPLIES, Verdict.FAILS])
        case "P302":
            return verdicts == [Verdict.NOT_APPLICABLE]
        case "P307":
            return verdicts == [Verdict.FAILS]
        case "P308":
            return verdicts == [Verdict.COMPLIES]
        case "P309":
            return verdicts == [Verdict.FAILS, Verdict.FAILS]
    raise AssertionError(f"a finding {finding.code} has no example to show")


def line_of(finding: Finding, ruleset: Ruleset) -> Line:
    """Return the example line of a finding, its words read as those of a schedule are."""
    data = {}
    for stated in finding.example:
        value = read_value(stated.text, stated.term, BareUnits(system=ruleset.units))
        assert not isinstance(value, Misread), value
        data[stated.term.name] = Datum(value, stated.text)
    return Line("example", data)
