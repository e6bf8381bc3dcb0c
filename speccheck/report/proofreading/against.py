"""A specification checked against a code, arranged to be told: a table by clause of the code, and lines to show it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from speccheck.english import count, first_of, listed
from speccheck.language.core import Ruleset
from speccheck.proofread.messages.comparing import STANDING_NOT_DECIDED
from speccheck.proofread.stringency import ClauseStringency, Stringency
from speccheck.report.proofreading.report import (
    CAUTIONS,
    ClauseNames,
    ExampleLine,
    NamedClause,
    ProofreadingRemark,
    ProofreadingReport,
    RemarkGroup,
    clauses_in,
    example_lines,
)
from speccheck.report.sections import ReportTable
from speccheck.report.wording import ruleset_heading

SPECIFICATION, CODE = 0, 1
# How many clauses on the same terms are named.
MOST_NAMED = 4
ACCEPTED = "accepted by the specification, not by the code"
_LOOSER = (Stringency.LOOSER, Stringency.NOT_COMPARABLE)
_GROUPS = (
    (Stringency.LOOSER, "Looser than the code", "The specification accepts lines that the clause of the code fails."),
    (
        Stringency.NOT_COMPARABLE,
        "Stricter and looser than the code",
        "The specification accepts some lines that the clause of the code fails, and fails some that comply with it.",
    ),
    (
        Stringency.STRICTER,
        "Stricter than the code",
        "Whatever the specification accepts, the clause of the code accepts, and not the other way round.",
    ),
)


def proofreading_against(
    specification: Ruleset, code: Ruleset, clauses: Sequence[ClauseStringency]
) -> ProofreadingReport:
    """Return how a specification stands to a code, arranged to be told."""
    names = ClauseNames(specification, code)
    groups = tuple(
        RemarkGroup(kind.name.lower().replace("_", "-"), title, meaning, remarks)
        for kind, title, meaning in _GROUPS
        if (remarks := tuple(_remark(one, code, names) for one in _largest_first(clauses) if one.stringency is kind))
    )
    undecided = tuple(_open(one, names) for one in clauses if one.stringency is Stringency.UNDECIDED)
    looser = sum(one.stringency in _LOOSER for one in clauses)
    return ProofreadingReport(
        kind="Specification checked against a code",
        title=ruleset_heading(specification),
        beside=ruleset_heading(code),
        beside_as="checked against",
        status=1 if looser else 2 if undecided else 0,
        heading=_heading(looser, len(undecided), len(clauses)),
        sentences=(_counted(clauses),),
        tables=(_table(clauses),) if clauses else (),
        groups=groups,
        undecided=undecided,
        clauses=clauses_in((*(remark for group in groups for remark in group.remarks), *undecided)),
        cautions=CAUTIONS,
    )


def _largest_first(clauses: Iterable[ClauseStringency]) -> list[ClauseStringency]:
    """Return clauses by how far the specification falls short of them, those without a limit last."""
    return sorted(clauses, key=lambda one: -one.shortfall.share if one.shortfall is not None else 0)


def _heading(looser: int, undecided: int, total: int) -> str:
    if not total:
        return "The code has no mandatory clause."
    if looser:
        return f"The specification is looser than {looser} of {count(total, 'clause')} of the code."
    if undecided:
        return "The specification was not found to be looser than the code; some clauses are not decided."
    return "The specification is nowhere looser than the code."


def _counted(clauses: Iterable[ClauseStringency]) -> str:
    found = [one.stringency for one in clauses]
    counted = [f"{found.count(kind)} {kind}" for kind in Stringency if kind in found]
    return f"By clause of the code: {listed(counted) or 'none'}."


def _table(clauses: Iterable[ClauseStringency]) -> ReportTable:
    rows = tuple((one.label, one.title, standing(one), _asking(one)) for one in clauses)
    headings = ("Clause of the code", "Title", "The specification is", "Its clauses on the same terms")
    sentence = "Each mandatory clause of the code in its order."
    return ReportTable("standing", "By clause of the code", sentence, headings, rows)


def _asking(clause: ClauseStringency) -> str:
    """Return the first clauses of the specification that demand something of the same terms; its own twin first."""
    labels = sorted(clause.matched, key=lambda label: label != clause.label)
    return first_of(labels, MOST_NAMED) or "none"


def standing(clause: ClauseStringency) -> str:
    """Return how a specification stands to a clause in a word or two, and whether it asks for it at all."""
    return str(clause.stringency) if clause.matched else f"{clause.stringency}: not asked for"


def _remark(one: ClauseStringency, code: Ruleset, names: ClauseNames) -> ProofreadingRemark:
    """Return how the specification stands to one clause, with the lines that show it."""
    finding = one.finding(code.name)
    if finding is not None:
        return ProofreadingRemark(
            finding.code, finding.message, str(one.place), _clauses(one, names), lines=_lines(one)
        )
    message = f"clause `{one.stricter_by}` asks for more than clause `{one.label}` of `{code.name}`"
    return ProofreadingRemark("", message, str(one.place), _clauses(one, names), lines=_lines(one))


def _open(one: ClauseStringency, names: ClauseNames) -> ProofreadingRemark:
    said = STANDING_NOT_DECIDED.at(one.place, clause=one.label)
    return ProofreadingRemark(said.code, said.message, str(one.place), _clauses(one, names), lines=_lines(one))


def _clauses(one: ClauseStringency, names: ClauseNames) -> tuple[NamedClause, ...]:
    return names.named([one.label], CODE) + names.named([one.stricter_by], SPECIFICATION)


def _lines(one: ClauseStringency) -> tuple[ExampleLine, ...]:
    fails = f"complies with the code, fails clause `{one.stricter_by}`"
    return example_lines((ACCEPTED, one.looser), (fails, one.stricter))
