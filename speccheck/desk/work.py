"""What the child process does: the floors below, called as the commands call them.

A job gets plain values and gives plain values. `papers` names what a review is made of: `schedule` and `against`, and,
where there are any, `mapping`, `units`, `design`, `products`, `deviations` and `notes`.
"""

from __future__ import annotations

import base64
from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from speccheck.desk.work_reading import open_questions, page_picture, reading
from speccheck.desk.work_rulesets import RULESET_WORK
from speccheck.inputs import (
    UnusableInput,
    usable_mapping,
    usable_notes,
    usable_register,
    usable_ruleset,
    usable_sheet,
    with_lines,
)
from speccheck.judge.judgement import Verdict
from speccheck.language.diagnostics import Diagnostic
from speccheck.report.line_words import brief, place_words
from speccheck.report.wording import clause_label
from speccheck.review import judge_schedule
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import outcome_of
from speccheck.schedule import read_schedule

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.review.corrections import Mending
    from speccheck.review.notes import Notes
    from speccheck.schedule import Schedule

Progress = Callable[[int, int, str], None]
Papers = Mapping[str, str]


def why_unusable(problem: UnusableInput) -> list[dict[str, str]]:
    """Return what is wrong with papers that cannot be used, as plain values."""
    found = [told(one) for one in problem.diagnostics if one.severity != "note"] or [_because(problem.what)]
    if problem.what and found[0]["message"] != problem.what:
        found.append(_because(problem.what))
    return found


def _because(why: str) -> dict[str, str]:
    return {"severity": "error", "code": "", "message": why, "help": "", "place": "", "cell": "", "sheet": ""}


def told(found: Diagnostic) -> dict[str, str]:
    """Return a diagnostic as plain values."""
    place = found.place
    where = place_words(place)
    return {
        "severity": str(found.severity), "code": found.code, "message": found.message, "help": found.help,
        "place": where, "cell": place.cell, "sheet": place.sheet,
    }  # fmt: skip


def ruleset_of(against: str) -> Ruleset:
    """Return the ruleset of a path or of a shipped name."""
    return usable_ruleset(Path(against))[0]


def schedule_of(papers: Papers, ruleset: Ruleset) -> Schedule:
    """Return the schedule, read by its mapping file if it has one."""
    mapping = None
    if papers.get("mapping"):
        mapping, _ = usable_mapping(Path(papers["mapping"]), ruleset.vocabulary)
    return read_schedule(
        Path(papers["schedule"]),
        ruleset.vocabulary,
        mapping,
        units=papers.get("units", ""),
        usual_units=ruleset.units,
    )


def matrix_of(papers: Papers, progress: Progress = lambda *_: None) -> Matrix:
    """Return the matrix of some papers, that of the last ones again where no file has changed."""
    bearing = {key: value for key, value in papers.items() if key != "notes"}
    kept = _kept((tuple(sorted(bearing.items())), _states(bearing)))
    if not kept:
        kept.append(_judged(bearing, progress))
    return kept[0]


@lru_cache(maxsize=3)
def _kept(key: object) -> list[Matrix]:
    """Return the place where the matrix of some papers is kept."""
    return []


def _judged(papers: Papers, progress: Progress) -> Matrix:
    """Read and judge, telling how far it is."""
    from speccheck.judge import Judge

    progress(0, 0, "reading the schedule")
    ruleset = ruleset_of(papers["against"])
    schedule = with_lines(schedule_of(papers, ruleset))
    if len(schedule.lines) * len(ruleset.clauses) < 10_000:
        return _beside(judge_schedule(schedule, ruleset), papers)
    judge, rows = Judge(ruleset), []
    for number, line in enumerate(schedule.lines):
        rows.append(judge.row(line))
        if number % 50 == 0:
            progress(number, len(schedule.lines), "judging")
    return _beside(Matrix(schedule, ruleset, tuple(rows)), papers)


_SHEETS = {"design": "design list", "products": "product data"}


def _beside(matrix: Matrix, papers: Papers) -> Matrix:
    """Return the matrix with what the design list, the product data and the deviations bring up."""
    from speccheck.review.reviewing import review_matrix

    named = {key: Path(papers[key]) for key in ("design", "products", "deviations") if papers.get(key)}
    if not named:
        return matrix
    ruleset, register = matrix.ruleset, None
    if "deviations" in named:
        register, _ = usable_register(named.pop("deviations"), ruleset)
    sheets = {key: usable_sheet(path, ruleset, _SHEETS[key]) for key, path in named.items()}
    return review_matrix(
        matrix, design=sheets.get("design"), products=sheets.get("products"), register=register, on=None
    )


def _states(papers: Papers) -> tuple[tuple[str, int, int], ...]:
    """Return what tells whether a file has changed."""
    found = []
    for value in papers.values():
        path = Path(value)
        if path.is_absolute() and path.exists():
            beside = sorted(path.parent.glob("*.clauses")) if path.suffix == ".clauses" else [path]
            found += [(str(one), one.stat().st_mtime_ns, one.stat().st_size) for one in beside]
    return tuple(found)


def review(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what a review comes to: outcome, findings with their notes, how the schedule was read."""
    papers = asked["papers"]
    matrix = matrix_of(papers, progress)
    result, notes = outcome_of(matrix), _notes(papers, matrix)
    return {
        "heading": result.heading, "details": list(result.details), "status": result.status,
        "ruleset": matrix.ruleset.name, "edition": matrix.ruleset.edition, "schedule": matrix.schedule.name,
        "findings": list(_findings(matrix, notes)),
        "lines": len(matrix.schedule.lines), "clauses": len(matrix.ruleset.clauses),
        "questions": open_questions(matrix.schedule, matrix.ruleset.vocabulary, Path(papers["schedule"])),
    }  # fmt: skip


def read(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what the schedule was read as, and what is open; what cannot be judged can still be looked at."""
    papers = asked["papers"]
    progress(0, 0, "reading the schedule")
    ruleset = ruleset_of(papers["against"])
    schedule = schedule_of(papers, ruleset)
    found = reading(schedule, ruleset.vocabulary, papers.get("units") or ruleset.units, Path(papers["schedule"]))
    return found | {"problems": [] if schedule.lines else [told(one) for one in schedule.diagnostics]}


def picture_of_page(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return one page of a PDF as a picture, in base 64."""
    made = page_picture(Path(asked["papers"]["schedule"]), asked["page"])
    if made is None:
        raise UnusableInput("there is no such page")
    return {"content": base64.b64encode(made).decode("ascii")}


def _findings(matrix: Matrix, notes: Notes) -> Iterator[dict[str, Any]]:
    """Yield the findings by clause, what does not comply first."""
    for verdict, short in ((Verdict.FAILS, "fails"), (Verdict.CANNOT_TELL, "open")):
        for column, clause in enumerate(matrix.ruleset.clauses):
            for row, line in enumerate(matrix.schedule.lines):
                cell = matrix.cells[row][column]
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
    found = [_corrections_of(one, matrix) for one in _mendings(alone, progress)]
    return found[0] if found else {"name": line.name, "brief": brief(line), "proposals": [], "none": "it complies"}


def page(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return the report page with the desk's navigation in it."""
    from speccheck.report.html.page import render_page

    matrix = matrix_of(asked["papers"], progress)
    progress(0, 0, "drawing the matrix")
    paper = Path(asked["papers"]["schedule"])
    return {
        "page": render_page(
            matrix,
            title=asked["title"],
            navigation=asked["navigation"],
            papers=(paper,),
        )
    }


def export(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return a file to send: `content` in base 64."""
    matrix = matrix_of(asked["papers"], progress)
    progress(0, 0, "writing")
    made = _exported(asked, matrix, progress)
    content = made.encode("utf-8", "replace") if isinstance(made, str) else made
    return {"content": base64.b64encode(content).decode("ascii")}


def _exported(asked: dict[str, Any], matrix: Matrix, progress: Progress) -> str | bytes:
    """Return one kind of file."""
    from speccheck.report.comma_separated import render_comma_separated
    from speccheck.report.html.page import render_page
    from speccheck.report.json.report import render_json
    from speccheck.report.markdown.report import render_markdown
    from speccheck.report.workbook.report import render_workbook

    match asked["kind"]:
        case "page":
            return render_page(
                matrix,
                papers=(Path(asked["papers"]["schedule"]),),
            )
        case "workbook":
            return render_workbook(matrix)
        case "json":
            return render_json(matrix)
        case "markdown":
            return render_markdown(matrix)
        case "findings":
            return render_comma_separated(matrix)
        case "corrected":
            return _corrected(asked, matrix, progress)
        case "marked":
            return _marked(asked, matrix)
        case _:
            return _reply(asked, matrix, progress)


def _corrected(asked: dict[str, Any], matrix: Matrix, progress: Progress) -> bytes:
    from speccheck.report.workbook.corrected import correct_workbook

    made = correct_workbook(Path(asked["papers"]["schedule"]), matrix, _mendings(matrix, progress))
    if made.content is None:
        raise UnusableInput("the corrected workbook cannot be written", made.diagnostics)
    return made.content


def _marked(asked: dict[str, Any], matrix: Matrix) -> bytes:
    """Return a copy of the submittal with a comment at the cell of each finding, numbered as in the reply."""
    from speccheck.report.markup.copying import marked_copy
    from speccheck.report.markup.marks import comments_of
    from speccheck.report.reply.reply import reply_to

    comments = comments_of(matrix, reply_to(matrix, _notes(asked["papers"], matrix), (), asked.get("action", "")))
    made = marked_copy(Path(asked["papers"]["schedule"]), matrix.schedule, comments)
    if made.content is None:
        raise UnusableInput("the marked-up copy cannot be written", made.diagnostics)
    return made.content


def _reply(asked: dict[str, Any], matrix: Matrix, progress: Progress) -> str | bytes:
    """Return the reply, as a page or as a document."""
    from speccheck.report.reply.reply import render_reply_page, reply_to
    from speccheck.report.word.document import missing_library
    from speccheck.report.word.reply import render_reply_document

    mendings = _mendings(matrix, progress) if asked.get("proposals") else ()
    reply = reply_to(matrix, _notes(asked["papers"], matrix), mendings, asked.get("action", ""))
    if asked["kind"] == "reply-page":
        return render_reply_page(reply)
    problem = missing_library()
    if problem is not None:
        raise UnusableInput(problem.message, [problem])
    return render_reply_document(reply)


def _notes(papers: Papers, matrix: Matrix) -> Notes:
    from speccheck.review.notes import Notes

    return usable_notes(Path(papers["notes"]), matrix.ruleset) if papers.get("notes") else Notes()


def _mendings(matrix: Matrix, progress: Progress) -> tuple[Mending, ...]:
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
    return [_corrections_of(one, matrix) for one in _mendings(matrix, progress)]


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
    from speccheck.report.sections import counted, sections
    from speccheck.review.rounds import compare_rounds

    before, now = matrix_of(asked["before"], progress), matrix_of(asked["papers"], progress)
    matrix = compare_rounds(before, now)
    result = outcome_of(matrix)
    return {
        "heading": result.heading, "status": result.status,
        "counted": counted(matrix.comparison) if matrix.comparison else "",
        "sections": [
            {"title": one.title, "sentence": one.sentence, "headings": one.headings, "rows": one.rows}
            for one in sections(matrix)
        ],
    }  # fmt: skip


WORK: Mapping[str, Callable[[dict[str, Any], Progress], Any]] = {
    "review": review,
    "lines are": lines_are,
    "proposals": proposals,
    "read": read,
    "picture of page": picture_of_page,
    "page": page,
    "export": export,
    "corrections": corrections,
    "rounds": rounds,
    **RULESET_WORK,
}
