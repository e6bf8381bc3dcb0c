"""A revision compared with its base, arranged to be told: changes of meaning by kind, and verdicts that turn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from speccheck.english import agree, count, listed
from speccheck.language.core import Ruleset
from speccheck.proofread.findings import Undecided
from speccheck.proofread.revisions import Change, Revised
from speccheck.proofread.verdicts import TurnedVerdict
from speccheck.report.proofreading.report import (
    CAUTIONS,
    ClauseNames,
    NamedClause,
    ProofreadingRemark,
    ProofreadingReport,
    RemarkGroup,
    clauses_in,
    example_lines,
    open_remark,
)
from speccheck.report.sections import ReportTable
from speccheck.report.wording import ruleset_heading

BASE, REVISED = 0, 1
NO_CLAUSE = "no clause"
_GROUPS = (
    (Change.STRICTER, "Stricter than before", "Lines that did not fail the clause fail it now."),
    (Change.LOOSER, "Looser than before", "Lines that failed the clause do not fail it any more."),
    (
        Change.RULES,
        "What holds for all clauses",
        "How values are compared, or what stands for data that are left out.",
    ),
    (
        Change.ELSE,
        "Treated differently",
        "No line newly fails or ceases to fail the clause, but some verdicts differ.",
    ),
    (
        Change.INCOMPLETE,
        "Treated differently where data are left out",
        "Lines that state all that is asked for have the verdicts that they had.",
    ),
    (Change.ADDED, "New clauses", "The base had none of that number, and none that means the same."),
    (
        Change.DROPPED,
        "Clauses that are gone",
        "The revision has none of that number, and none that means the same.",
    ),
    (Change.RENUMBERED, "Renumbered clauses", "They mean what they meant, under another number."),
)


def proofreading_since(
    base: Ruleset,
    revised: Ruleset,
    changes: Sequence[Revised | Undecided],
    turned: Sequence[TurnedVerdict] | None = None,
) -> ProofreadingReport:
    """Return what a revision changes, arranged to be told; `turned` are verdicts on a schedule, None without one."""
    names = ClauseNames(base, revised)
    known = [one for one in changes if isinstance(one, Revised)]
    groups = tuple(
        RemarkGroup(change.name.lower(), title, meaning, remarks)
        for change, title, meaning in _GROUPS
        if (remarks := tuple(_remark(one, names) for one in known if one.change is change))
    )
    undecided = tuple(open_remark(one, names) for one in changes if isinstance(one, Undecided))
    return ProofreadingReport(
        kind="Revision compared with its base, by meaning",
        title=ruleset_heading(revised),
        beside=ruleset_heading(base),
        beside_as="compared with",
        status=1 if any(one.change.of_meaning for one in known) else 2 if undecided else 0,
        heading=_heading(known, len(undecided)),
        sentences=tuple(_counted(known, len(undecided), turned)),
        tables=(_turned(turned),) if turned else (),
        groups=groups,
        undecided=undecided,
        clauses=clauses_in((*(remark for group in groups for remark in group.remarks), *undecided)),
        cautions=CAUTIONS,
    )


def _heading(known: Sequence[Revised], undecided: int) -> str:
    of_meaning = sum(one.change.of_meaning for one in known)
    if of_meaning:
        return f"{count(of_meaning, 'change')} of meaning."
    return (
        "No change of meaning was found; some questions stay open."
        if undecided
        else ("Every clause means what it meant before.")
    )


def _counted(known: Sequence[Revised], undecided: int, turned: Sequence[TurnedVerdict] | None) -> Iterator[str]:
    found = [one.change for one in known]
    if found:
        yield f"By kind: {listed(f'{found.count(change)} {change}' for change, _, _ in _GROUPS if change in found)}."
    if undecided:
        verb = agree(undecided, "was", "were")
        yield f"{count(undecided, 'question')} {verb} not decided, and listed apart."
    if turned is not None:
        yield (
            f"{count(len(turned), 'verdict')} on the schedule turned."
            if turned
            else "No verdict on the schedule turned."
        )


def _remark(one: Revised, names: ClauseNames) -> ProofreadingRemark:
    finding = one.finding
    if one.change is Change.RULES:
        return ProofreadingRemark(finding.code, finding.message, "", (), "", ())
    before = () if one.change is Change.DROPPED or not one.after_label else names.named([one.after_label], REVISED)
    clauses: tuple[NamedClause, ...] = before or names.named([one.before_label], BASE)
    lines = example_lines((finding.help, finding.example))
    return ProofreadingRemark(finding.code, finding.message, str(finding.place), clauses, finding.systems, lines)


def _turned(turned: Sequence[TurnedVerdict]) -> ReportTable:
    rows = tuple(
        (one.line, one.label, str(one.before or NO_CLAUSE), str(one.after or NO_CLAUSE), one.reason) for one in turned
    )
    sentence = "The same schedule, judged before and after."
    return ReportTable("turned", "Verdicts that turn", sentence, ("Line", "Clause", "Before", "Now", "Reason"), rows)
