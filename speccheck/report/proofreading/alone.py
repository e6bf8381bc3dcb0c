"""A ruleset proofread alone, arranged to be told: its findings by kind, and the questions left open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from speccheck.english import agree, capitalized, count, listed
from speccheck.language.core import Ruleset
from speccheck.proofread.findings import Finding, Proofreading
from speccheck.report.all_codes import rules_in
from speccheck.report.proofreading.report import (
    CAUTIONS,
    ClauseNames,
    ProofreadingRemark,
    ProofreadingReport,
    RemarkGroup,
    clauses_in,
    open_remark,
    remark_of,
)
from speccheck.report.wording import ruleset_heading


def proofreading_alone(ruleset: Ruleset, found: Proofreading) -> ProofreadingReport:
    """Return what was found in a ruleset, arranged to be told."""
    names = ClauseNames(ruleset)
    groups = tuple(_groups(found.findings, names))
    undecided = tuple(open_remark(question, names) for question in found.undecided)
    return ProofreadingReport(
        kind="Proofreading",
        title=ruleset_heading(ruleset),
        beside="",
        beside_as="",
        status=1 if found.findings else 2 if undecided else 0,
        heading=_heading(found),
        sentences=(f"{count(len(ruleset.clauses), 'clause')} proofread.", *_counted(found)),
        tables=(),
        groups=groups,
        undecided=undecided,
        clauses=clauses_in((*_remarks(groups), *undecided)),
        cautions=CAUTIONS,
    )


def _groups(findings: Iterable[Finding], names: ClauseNames) -> Iterator[RemarkGroup]:
    """Yield the findings by kind; within one kind they keep the order of their places."""
    rules = rules_in("Proofreading")
    for code, group in groupby(sorted(findings, key=lambda one: one.code), key=lambda one: one.code):
        rule = rules[code]
        remarks = tuple(remark_of(one, names) for one in group)
        yield RemarkGroup(code, capitalized(rule.title), rule.documentation, remarks)


def _remarks(groups: Iterable[RemarkGroup]) -> tuple[ProofreadingRemark, ...]:
    return tuple(remark for group in groups for remark in group.remarks)


def _heading(found: Proofreading) -> str:
    if found.findings:
        return f"{count(len(found.findings), 'finding')}."
    return "Nothing was found; some questions stay open." if found.undecided else "Nothing was found."


def _counted(found: Proofreading) -> Iterator[str]:
    """Yield sentences on how many findings of each kind there are, how many questions stay open, and what to do."""
    rules = rules_in("Proofreading")
    titles = sorted(rules[one.code].title for one in found.findings)
    kinds = [(title, len(list(group))) for title, group in groupby(titles)]
    if len(kinds) > 1:
        yield f"By kind: {listed(kind if number == 1 else f'{kind} ({number})' for kind, number in kinds)}."
    if found.findings:
        code = found.findings[0].code
        yield f'What is right as it stands is not told again once a note at it says so: `note "{code} is meant: ..."`.'
    if found.meant:
        verb = agree(len(found.meant), "is", "are")
        told = listed(f"{one.code} of {listed(one.clauses) or f'line {one.place.line}'}" for one in found.meant)
        yield f"{count(len(found.meant), 'more finding')} {verb} said to be meant by a note: {told}."
    if found.undecided:
        verb = agree(len(found.undecided), "was", "were")
        yield f"{count(len(found.undecided), 'question')} {verb} not decided, and listed apart."
