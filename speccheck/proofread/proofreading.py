"""Proofreading a ruleset: all questions that can be asked of its wording alone.

One is small enough to be answered here: whether a document is ever asked for, and a relation of any line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from speccheck.language.core import Condition, ExceptionPart, LineRelation, RequiredDocument, Ruleset
from speccheck.language.diagnostic_rules import Wording
from speccheck.proofread.clause_regions import Reading, read_together
from speccheck.proofread.conflicts import clashes
from speccheck.proofread.decision_diagrams import EMPTY
from speccheck.proofread.findings import Finding, Proofreading, Undecided, gathered
from speccheck.proofread.gaps import subject_gaps, table_holes
from speccheck.proofread.gaps_between_bands import gaps_between_bands
from speccheck.proofread.leaving_out import omissions_that_help
from speccheck.proofread.meant import is_meant
from speccheck.proofread.messages.clauses import CLASH
from speccheck.proofread.messages.redundancy import (
    ALL_EXCEPTED,
    ALWAYS_MET,
    BESIDE_NO_LINE,
    IMPLIED,
    NEVER_APPLYING,
    NEVER_ASKED_FOR,
    OF_NO_LINE,
    UNMEETABLE,
    WHETHER_ASKED_FOR,
    WHETHER_BESIDE_NO_LINE,
    WHETHER_OF_NO_LINE,
)
from speccheck.proofread.redundant_clauses import emptied_by_clash, implied_clauses, implied_together, unused_parts
from speccheck.proofread.redundant_conditions import idle_conditions
from speccheck.proofread.statements import prove_statements
from speccheck.proofread.table_steps import odd_steps
from speccheck.proofread.two_limits import two_limits
from speccheck.proofread.witnesses import Lines, NoWitness
from speccheck.proofread.wording.vague import wording_findings


def unasked_beside_clauses(reading: Reading, lines: Lines) -> Iterator[Finding | Undecided]:
    """Yield the ruleset's own documents and relations that are of no line of any schedule.

    It is exact where single terms decide; where amounts are compared with one another and nothing else rules the lines
    out, the question stays open.
    """
    ruleset = reading.ruleset
    for document in ruleset.documents:
        if document.ruleset == ruleset.name:
            yield from _of_no_line(
                reading, lines, document, document.scope, document.exceptions, (NEVER_ASKED_FOR, WHETHER_ASKED_FOR)
            )
    for relation in ruleset.relations:
        if relation.ruleset == ruleset.name:
            yield from _of_no_line(
                reading, lines, relation, relation.scope, relation.exceptions, (OF_NO_LINE, WHETHER_OF_NO_LINE)
            )
            yield from _of_no_line(
                reading, lines, relation, relation.beside, (), (BESIDE_NO_LINE, WHETHER_BESIDE_NO_LINE)
            )


def _of_no_line(
    reading: Reading,
    lines: Lines,
    one: RequiredDocument | LineRelation,
    scope: Sequence[Condition],
    exceptions: Sequence[ExceptionPart],
    said: tuple[Wording, Wording],
) -> Iterator[Finding | Undecided]:
    """Yield that no line can meet some conditions of a document or a relation and none of some exceptions."""
    if not (scope or exceptions):
        return
    held = reading.regions.every(scope)
    excepted = reading.regions.some(part.condition for part in exceptions)
    asked = reading.diagrams.both(held.holds, excepted.fails)
    told, question = (wording.at(one.place, name=one.name) for wording in said)
    if asked == EMPTY:
        yield Finding(told, (one.name,))
    elif not reading.is_exact(asked) and lines.left_open(asked) != EMPTY:
        yield Undecided(question, (one.name,), NoWitness.UNDECIDED.value)


QUESTIONS = (
    subject_gaps,
    gaps_between_bands,
    table_holes,
    clashes,
    idle_conditions,
    implied_clauses,
    unused_parts,
    unasked_beside_clauses,
    omissions_that_help,
    odd_steps,
)
# Findings on clauses of which it is known already that they do nothing.
WITHOUT_USE = tuple(rule.code for rule in (NEVER_APPLYING, ALL_EXCEPTED, UNMEETABLE, ALWAYS_MET, IMPLIED))


def proofread(ruleset: Ruleset) -> Proofreading:
    """Return what is wrong with the wording of a ruleset, and what stays open.

    Gaps, clashes, redundant wording, omissions that help, wording that says something else than its rule or cannot be
    judged, and statements of the writer that do not hold.
    """
    (reading,) = read_together([ruleset])
    lines = Lines((reading,))
    found: list[Finding | Undecided] = []
    for question in QUESTIONS:
        found += question(reading, lines)
    clashing = [one.clauses for one in found if one.code == CLASH.code]
    found = [one for one in found if one.code != IMPLIED.code or not emptied_by_clash(reading, one.clauses, clashing)]
    told = [one.clauses[0] for one in found if isinstance(one, Finding) and one.code in WITHOUT_USE]
    found += implied_together(reading, lines, told, clashing)
    told += [one.clauses[0] for one in found if isinstance(one, Finding) and one.code == IMPLIED.code]
    found += two_limits(reading, lines, told)
    found += wording_findings(ruleset)
    answers = ((result.finding, result.undecided) for result in prove_statements(ruleset))
    found += [part for answer in answers for part in answer if part is not None]
    whole = gathered(found)
    meant = tuple(one for one in whole.findings if is_meant(one, ruleset))
    return replace(whole, findings=tuple(one for one in whole.findings if one not in meant), meant=meant)
