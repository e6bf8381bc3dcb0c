"""What a review found beside the verdicts, as plain values in the shape of the JSON report."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from speccheck.language.diagnostics import Place
from speccheck.review.accepting import accepted_by

if TYPE_CHECKING:
    from speccheck.review.deviations import Deviation
    from speccheck.review.documents import DocumentFinding
    from speccheck.review.line_relations import RelationFinding
    from speccheck.review.matrix import Matrix
    from speccheck.review.observations import Observation
    from speccheck.review.rounds import RoundComparison


def beside(matrix: Matrix) -> dict[str, Any]:
    """Return deviations, observations, documents asked for, and the comparison with the round before."""
    return {
        "deviations": _deviations(matrix),
        "observations": [_observation(one) for one in matrix.observations],
        "documents": [_document(one) for one in matrix.documents],
        "relations": [_relation(one) for one in matrix.relations],
        "comparison": None if matrix.comparison is None else _comparison(matrix.comparison),
    }


def _deviations(matrix: Matrix) -> list[dict[str, Any]]:
    return [
        {
            "name": one.name,
            "clause": one.clause,
            "lines": one.words,
            "reason": one.reason,
            "reference": one.reference,
            "until": None if one.until is None else one.until.isoformat(),
            "accepted_on": _accepted_on(matrix, one),
        }
        for one in (matrix.register.deviations if matrix.register is not None else ())
    ]


def _relation(one: RelationFinding) -> dict[str, Any]:
    return {
        "paragraph": one.relation.name,
        "title": one.relation.title,
        "ruleset": one.relation.ruleset,
        "lines": list(one.lines),
        "verdict": str(one.verdict),
        "reason": one.reason,
    }


def _document(one: DocumentFinding) -> dict[str, Any]:
    return {
        "paragraph": one.document.name,
        "title": one.document.title,
        "ruleset": one.document.ruleset,
        "kind": one.document.kind.value,
        "of": one.subject,
        "lines": list(one.lines),
        "standing": one.standing.value,
        "reason": one.reason,
    }


def _accepted_on(matrix: Matrix, deviation: Deviation) -> list[int]:
    column = next(number for number, clause in enumerate(matrix.ruleset.clauses) if clause.label == deviation.clause)
    cells = ((line, row[column]) for line, row in enumerate(matrix.told))
    return [line for line, cell in cells if deviation in accepted_by(cell)]


def _observation(one: Observation) -> dict[str, Any]:
    found = one.diagnostic
    return {
        "topic": str(one.topic),
        "code": found.code,
        "severity": str(found.severity),
        "message": found.message,
        "help": found.help,
        "lines": list(one.lines),
        "clauses": list(one.clauses),
        "place": place_model(found.place),
    }


def _comparison(found: RoundComparison) -> dict[str, Any]:
    return {
        "then": found.old_name,
        "now": found.new_name,
        "findings": [
            {
                "fate": str(one.fate),
                "line": one.line,
                "clause": one.clause,
                "then": None if one.old is None else str(one.old.verdict),
                "now": None if one.now is None else str(one.now.verdict),
                "reason": one.words,
            }
            for one in found.followed
        ],
        "changes": [
            {
                "line": change.line,
                "term": change.term,
                "then": change.old,
                "now": change.now,
                "kind": str(change.kind),
                "place": place_model(change.place),
            }
            for change in found.changes
        ],
        "added": list(found.added),
        "dropped": list(found.dropped),
        "renamed": [{"then": old, "now": new} for old, new in found.renamed],
        "clauses": [
            {"fate": str(one.fate), "then": one.old, "now": one.new, "title": one.title, "details": list(one.details)}
            for one in found.clauses
        ],
    }


def place_model(place: Place) -> dict[str, Any]:
    """Return a place without the folder of its file, so that no machine's path goes into a report."""
    name = place.file.replace("\\", "/").rsplit("/", 1)[-1]
    return {"file": name, "line": place.line, "column": place.column, "sheet": place.sheet, "cell": place.cell}
