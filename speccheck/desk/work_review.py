"""What the child process does for a reviewer: the outcome with its findings, corrections, rounds beside each other."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from speccheck.desk.papers import Progress, matrix_of, notes_of, submittal_of
from speccheck.desk.work_papers import open_beside
from speccheck.desk.work_reading import questions_on
from speccheck.inputs import UnusableInput
from speccheck.judge.judgement import Verdict
from speccheck.report.line_words import brief, place_words
from speccheck.report.wording import clause_label
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import outcome_of

if TYPE_CHECKING:
    from speccheck.review.corrections import Mending
    from speccheck.review.notes import Notes


def review(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what a review comes to: outcome, findings with their notes, how the schedule was read."""
    papers = asked["papers"]
    matrix = matrix_of(papers, progress)
    result, notes = outcome_of(matrix), notes_of(papers, matrix)
    return {
        "heading": result.heading, "details": list(result.details), "status": result.status,
        "ruleset": matrix.ruleset.name, "edition": matrix.ruleset.edition, "schedule": matrix.schedule.name,
        "findings": list(_findings(matrix, notes)), "beside": open_beside(matrix),
        "lines": len(matrix.schedule.lines), "clauses": len(matrix.ruleset.clauses),
        "questions": len(questions_on(submittal_of(papers, matrix.ruleset, progress).readings)),
    }  # fmt: skip


def _findings(matrix: Matrix, notes: Notes) -> Iterator[dict[str, Any]]:
    """Yield the findings by clause, what does not comply first."""
    for verdict, short in ((Verdict.FAILS, "fails"), (Verdict.CANNOT_TELL, "open")):
        for column, clause in enumerate(matrix.ruleset.clauses):
            for row, line in enumerate(matrix.schedule.lines):
                cell = matrix.told[row][column]
                if not cell.mandatory or cell.verdict is not verdict:
                    continue
                label = clause_label(clause)
                yield {
                    "line": row, "clause": column, "name": line.name, "brief": brief(line), "label": label,
                    "title": clause.title, "wording": clause.wording, "verdict": short, "reason": cell.reason,
                    "missing": list(cell.missing), "place": place_words(line.place),
                    "notes": [
                        {"text": note.text, "status": note.status, "number": notes.notes.index(note)}
                        for note in notes.of(line, label, matrix.ruleset)
                    ] if notes.notes else [],
                }  # fmt: skip


def lines_are(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what tells some lines from all others, and the label of a clause, by their positions; for a note."""
    from speccheck.review.notes import what_a_line_is

    matrix = matrix_of(asked["papers"], progress)
    all_lines = matrix.schedule.lines
    try:
        lines, clause = [all_lines[number] for number in asked["lines"]], matrix.ruleset.clauses[asked["clause"]]
    except IndexError:
        raise UnusableInput("the schedule has changed since this page was made") from None
    words = [dict(what_a_line_is(line, all_lines, matrix.ruleset)) for line in lines]
    return {"are": words, "clause": clause_label(clause)}


def proposals(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return the corrections with which one line, by its position, would comply, or why there are none."""
    from dataclasses import replace

    matrix = matrix_of(asked["papers"], progress)
    try:
        line, row = matrix.schedule.lines[asked["line"]], matrix.cells[asked["line"]]
    except IndexError:
        raise UnusableInput("the schedule has changed since this page was made") from None
    progress(0, 0, f"looking for corrections of {line.name}")
    alone = replace(matrix, schedule=replace(matrix.schedule, lines=(line,)), cells=(row,))
    found = [_corrections_of(one, matrix) for one in mendings_of(alone, progress)]
    return found[0] if found else {"name": line.name, "brief": brief(line), "proposals": [], "none": "it complies"}


def mendings_of(matrix: Matrix, progress: Progress) -> tuple[Mending, ...]:
    """Return the corrections of all lines that need some, telling how far the looking is."""
    from speccheck.review.corrections import mend_schedule

    numbers = {id(line): number for number, line in enumerate(matrix.schedule.lines, 1)}
    found = []
    for one in mend_schedule(matrix):
        found.append(one)
        progress(numbers[id(one.line)], len(numbers), "looking for corrections")
    return tuple(found)


def corrections(asked: dict[str, Any], progress: Progress) -> list[dict[str, Any]]:
    """Return for each line that does not comply the corrections with which it would, and why there are none."""
    matrix = matrix_of(asked["papers"], progress)
    progress(0, 0, "looking for corrections")
    return [_corrections_of(one, matrix) for one in mendings_of(matrix, progress)]


def _corrections_of(one: Mending, matrix: Matrix) -> dict[str, Any]:
    from speccheck.report.mending_words import none_text, proposal_texts

    return {
        "name": one.line.name, "brief": brief(one.line), "place": place_words(one.line.place),
        "fails": [f"{clause_label(clause)} {clause.title}" for clause in one.fails],
        "lacks": [f"{clause_label(clause)} {clause.title}" for clause in one.lacks],
        "proposals": [list(proposal_texts(proposal, matrix.ruleset.units)) for proposal in one.proposals],
        "none": "" if one.proposals else none_text(one),
    }  # fmt: skip


def rounds(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what became of the round before."""
    from speccheck.report.sections import sections
    from speccheck.review.rounds import compare_rounds

    before, now = matrix_of(asked["before"], progress), matrix_of(asked["papers"], progress)
    matrix = compare_rounds(before, now)
    result = outcome_of(matrix)
    return {
        "heading": result.heading, "status": result.status,
        "sections": [
            {"title": one.title, "sentence": one.sentence, "headings": one.headings, "rows": one.rows}
            for one in sections(matrix)
        ],
    }  # fmt: skip


REVIEW_WORK = {
    "review": review, "lines are": lines_are, "proposals": proposals, "corrections": corrections, "rounds": rounds,
}  # fmt: skip
