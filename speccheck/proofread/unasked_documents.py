"""Documents that are never asked for: paragraphs on what has to be submitted whose conditions no line can meet."""

from __future__ import annotations

from collections.abc import Iterator

from speccheck.language.core import RequiredDocument
from speccheck.proofread.clause_regions import RulesetRegions
from speccheck.proofread.decision_diagrams import EMPTY
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.witnesses import NoWitness, WitnessSearch


def unasked_documents(reading: RulesetRegions, lines: WitnessSearch) -> Iterator[Finding | Undecided]:
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
