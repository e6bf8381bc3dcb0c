"""What proofreading found, arranged to be told: one module of words for the terminal, the page and Markdown.

In: one of the three questions answered (what is wrong with a ruleset alone, how it stands to a code, what a revision
changes). Out: a `ProofreadingReport`: what it comes to, tables, findings grouped by kind, each with the lines that show
it, the questions left open, and the clauses that it names. `proofreading_alone`, `proofreading_against` and
`proofreading_since` make one for each question.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from speccheck.language.core import Assignment, Clause, Ruleset
from speccheck.proofread.findings import Finding, Undecided
from speccheck.report.sections import ReportTable
from speccheck.report.wording import clause_label

CAUTIONS = (
    "This report is about wording, not about any installation. Each line in it was made up to show what the clauses "
    "say of it, and is no proposal; the contract documents govern.",
    "Hot surfaces, fire ratings, adhesives and their fumes, and work at height can hurt people. Follow the adopted "
    "code, the manufacturer's instructions and licensed practice.",
)


@dataclass(frozen=True, slots=True)
class ExampleLine:
    """A line of a schedule that shows something: what it shows, and its data as terms with their words."""

    shows: str
    data: tuple[tuple[str, str], ...]

    @property
    def text(self) -> str:
        """The line in one sentence: "service steam, pipe size 2 in"."""
        return ", ".join(f"{term} {text}" for term, text in self.data)


@dataclass(frozen=True, slots=True)
class NamedClause:
    """A clause that a report names: an anchor for links, its label, the clause itself where there still is one."""

    anchor: str
    label: str
    clause: Clause | None = None


@dataclass(frozen=True, slots=True)
class ProofreadingRemark:
    """One thing found: its code, one sentence, where the wording stands, clauses, systems, lines, what to do."""

    code: str
    message: str
    place: str
    clauses: tuple[NamedClause, ...] = ()
    systems: str = ""
    lines: tuple[ExampleLine, ...] = ()
    help: str = ""


@dataclass(frozen=True, slots=True)
class RemarkGroup:
    """Remarks of one kind: an anchor, what the kind is called, what it means, the remarks."""

    anchor: str
    title: str
    meaning: str
    remarks: tuple[ProofreadingRemark, ...]


@dataclass(frozen=True, slots=True)
class ProofreadingReport:
    """One question answered. `status` is the exit status that the answer calls for: 0, 1 or 2.

    `kind` says which question it was, `title` names the ruleset, `beside` what it was `beside_as`.
    `heading` is the answer in one sentence, `sentences` say more.
    """

    kind: str
    title: str
    beside: str
    beside_as: str
    status: int
    heading: str
    sentences: tuple[str, ...]
    tables: tuple[ReportTable, ...]
    groups: tuple[RemarkGroup, ...]
    undecided: tuple[ProofreadingRemark, ...]
    clauses: tuple[NamedClause, ...]
    cautions: tuple[str, ...]


# ---- clauses -----------------------------------------------------------------------------------------------------


class ClauseNames:
    """The clauses of some rulesets by their labels, each with an anchor of its own; a label may be in several."""

    def __init__(self, *rulesets: Ruleset) -> None:
        self._named = [
            {
                clause_label(clause): NamedClause(f"clause-{side}-{number}", clause_label(clause), clause)
                for number, clause in enumerate(ruleset.clauses)
            }
            for side, ruleset in enumerate(rulesets)
        ]

    def named(self, labels: Iterable[str], side: int = 0) -> tuple[NamedClause, ...]:
        """Return the clauses of some labels: of the ruleset `side`, else of another one that has it."""
        order = [self._named[side], *self._named]
        return tuple(
            next((one[label] for one in order if label in one), NamedClause("", label)) for label in labels if label
        )


def clauses_in(remarks: Iterable[ProofreadingRemark]) -> tuple[NamedClause, ...]:
    """Return the clauses that remarks name, each once, in the order of their rulesets."""
    named = {clause.anchor: clause for remark in remarks for clause in remark.clauses if clause.clause is not None}
    return tuple(sorted(named.values(), key=lambda one: tuple(int(part) for part in one.anchor.split("-")[1:])))


# ---- remarks -----------------------------------------------------------------------------------------------------


def remark_of(finding: Finding, names: ClauseNames, shows: str = "example") -> ProofreadingRemark:
    """Return a finding as it is told; `shows` says what its example line shows."""
    systems = "" if finding.systems in finding.message else finding.systems
    return ProofreadingRemark(
        finding.code,
        finding.message,
        str(finding.place),
        names.named(finding.clauses),
        systems,
        example_lines((shows, finding.example)),
        finding.help,
    )


def open_remark(question: Undecided, names: ClauseNames) -> ProofreadingRemark:
    """Return a question that stays open as it is told."""
    message = f"{question.question}: {question.why}"
    clauses = names.named(question.clauses)
    return ProofreadingRemark(question.code, message, str(question.place), clauses, help=question.help)


def example_lines(*shown: tuple[str, Sequence[Assignment]]) -> tuple[ExampleLine, ...]:
    """Return the lines that there are among some, each with what it shows."""
    return tuple(
        ExampleLine(shows, tuple((stated.term.name, stated.text) for stated in example))
        for shows, example in shown
        if example
    )
