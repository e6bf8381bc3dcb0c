"""Whether the example line of a finding, read as a schedule is and judged, shows the finding."""

from __future__ import annotations

from collections.abc import Iterable

from speccheck.judge import Judge, Verdict
from speccheck.judge.judgement import Basis
from speccheck.language.core import Assignment, Ruleset
from speccheck.language.vocabulary.terms import fold
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.proofread.findings import Finding
from speccheck.proofread.revisions import Revised
from speccheck.proofread.stringency import ACCEPTING, ClauseStringency
from speccheck.quantities import Misread
from speccheck.schedule.lines import Datum, Line


def shown(finding: Finding, ruleset: Ruleset) -> bool:
    """Say whether the judge finds on the example line what the finding says."""
    judge, line = Judge(ruleset, as_stated=True), line_of(finding.example, ruleset)
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
        case "P105":
            return set(verdicts) == {Verdict.NOT_APPLICABLE}
        case "P202":
            return Verdict.FAILS in verdicts and Verdict.NOT_APPLICABLE not in verdicts
        case "P201":
            return sorted(verdicts) == sorted([Verdict.COMPLIES, Verdict.FAILS])
        case "P302":
            if "leave it open" in finding.message:
                return cells[0].basis in (Basis.NOT_KNOWN, Basis.MET_EITHER_WAY)
            return cells[0].basis is Basis.EXCEPTED
        case "P307":
            return verdicts == [Verdict.FAILS]
        case "P308":
            return verdicts == [Verdict.COMPLIES]
        case "P315":
            term = finding.message.split("`")[3]
            data = {name: datum for name, datum in line.data.items() if name != term}
            less = judge.cell(numbers[finding.clauses[0]], Line(line.name, data))
            return verdicts == [Verdict.FAILS] and less.verdict in (Verdict.COMPLIES, Verdict.NOT_APPLICABLE)
        case "P309":
            return verdicts[0] is Verdict.FAILS and Verdict.FAILS in verdicts[1:]
    raise AssertionError(f"a finding {finding.code} has no example to show")


def line_of(example: Iterable[Assignment], ruleset: Ruleset) -> Line:
    """Return the line that an example states, its words read as those of a schedule are."""
    data = {}
    for stated in example:
        value = read_value(stated.text, stated.term, BareUnits(system=ruleset.units))
        assert not isinstance(value, Misread), value
        data[stated.term.name] = Datum(value, stated.text)
    return Line("example", data)


def looser_shown(found: ClauseStringency, specification: Ruleset, code: Ruleset) -> bool:
    """Say whether the code fails the line that shows a specification to be looser, and no clause of that fails it."""
    line = line_of(found.looser, specification)
    matched = [number for number, clause in enumerate(specification.clauses) if clause.label in found.matched]
    row = Judge(specification).row(line)
    accepted = all(row[number].verdict in ACCEPTING for number in matched)
    return accepted and not any(cell.verdict is Verdict.FAILS for cell in row) and _fails(code, found.label, line)


def stricter_shown(found: ClauseStringency, specification: Ruleset, code: Ruleset) -> bool:
    """Say whether the line that shows a specification to be stricter complies with the code and fails its clause."""
    line = line_of(found.stricter, specification)
    number = next(number for number, clause in enumerate(code.clauses) if clause.label == found.label)
    complies = Judge(code).cell(number, line).verdict is Verdict.COMPLIES
    return complies and _fails(specification, found.stricter_by, line)


def revision_shown(found: Revised, base: Ruleset, revised: Ruleset) -> bool:
    """Say whether the judge gives the line of a change the verdicts, before and after, that the change says."""
    for ruleset, label, told in (
        (base, found.before_label, found.before),
        (revised, found.after_label, found.after),
    ):
        if told is None:
            continue
        number = next(number for number, clause in enumerate(ruleset.clauses) if clause.label == label)
        cell = Judge(ruleset).cell(number, line_of(found.example, ruleset))
        if (cell.advice if found.advice else cell.verdict) is not told:
            return False
    return found.before is not found.after


def _fails(ruleset: Ruleset, label: str, line: Line) -> bool:
    numbers = [number for number, clause in enumerate(ruleset.clauses) if clause.label == label]
    return any(Judge(ruleset).cell(number, line).verdict is Verdict.FAILS for number in numbers)
