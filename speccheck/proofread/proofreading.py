"""Proofreading a ruleset: all questions that can be asked of its wording alone.

One is small enough to be answered here: whether a document is ever asked for.
"""

from __future__ import annotations

from collections.abc import Iterator

from speccheck.language.core import RequiredDocument, Ruleset
from speccheck.proofread.clause_regions import Reading, read_together
from speccheck.proofread.conflicts import clashes
from speccheck.proofread.decision_diagrams import EMPTY
from speccheck.proofread.findings import Finding, Proofreading, Undecided, gathered
from speccheck.proofread.gaps import subject_gaps, table_holes
from speccheck.proofread.gaps_between_bands import gaps_between_bands
from speccheck.proofread.leaving_out import omissions_that_help
from speccheck.proofread.redundant_clauses import emptied_by_clash, implied_clauses, implied_together, unused_parts
from speccheck.proofread.redundant_conditions import idle_conditions
from speccheck.proofread.statements import prove_statements
from speccheck.proofread.table_steps import odd_steps
from speccheck.proofread.two_limits import two_limits
from speccheck.proofread.witnesses import Lines, NoWitness
from speccheck.proofread.wording.vague import wording_findings


def unasked_documents(reading: Reading, lines: Lines) -> Iterator[Finding | Undecided]:
    """Yield the ruleset's own documents that no line of any schedule could be asked for.

    It is exact where single terms decide; where amounts are compared with one another and nothing else rules the lines
    out, the question stays open.
    """
    for document in reading.ruleset.documents:
        if document.ruleset != reading.ruleset.name or not document.conditions:
            continue
        scope = reading.regions.every(document.scope)
        excepted = reading.regions.some(part.condition for part in document.exceptions)
        asked = reading.diagrams.both(scope.holds, excepted.fails)
        label = (document.name,)
        if asked == EMPTY:
            yield Finding("P316", "document that is never asked for", label, *_words(document), place=document.place)
        elif not reading.is_exact(asked) and lines.left_open(asked) != EMPTY:
            question = f"whether document `{document.name}` is ever asked for"
            yield Undecided("P316", label, question, NoWitness.UNDECIDED.value, document.place)


def _words(document: RequiredDocument) -> tuple[str, str]:
    message = f"document `{document.name}` is never asked for: no line meets all its conditions"
    return message, "correct the conditions, or leave the document out"


QUESTIONS = (
    subject_gaps,
    gaps_between_bands,
    table_holes,
    clashes,
    idle_conditions,
    implied_clauses,
    unused_parts,
    unasked_documents,
    omissions_that_help,
    odd_steps,
)
# Findings on clauses of which it is known already that they do nothing.
WITHOUT_USE = ("P301", "P302", "P307", "P308", "P309")


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
    clashing = [one.clauses for one in found if one.code == "P201"]
    found = [one for one in found if one.code != "P309" or not emptied_by_clash(reading, one.clauses, clashing)]
    told = [one.clauses[0] for one in found if isinstance(one, Finding) and one.code in WITHOUT_USE]
    found += implied_together(reading, lines, told, clashing)
    told += [one.clauses[0] for one in found if isinstance(one, Finding) and one.code == "P309"]
    found += two_limits(reading, lines, told)
    found += wording_findings(ruleset)
    answers = ((result.finding, result.undecided) for result in prove_statements(ruleset))
    found += [part for answer in answers for part in answer if part is not None]
    return gathered(found)
