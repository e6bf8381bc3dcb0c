"""What the child process writes: the report page with the desk's navigation, and the files that are sent back."""

from __future__ import annotations

import base64
from pathlib import Path
from typing import Any

from speccheck.desk.papers import Progress, matrix_of, notes_of
from speccheck.desk.projects import files_of
from speccheck.desk.work_review import mendings_of
from speccheck.inputs import UnusableInput
from speccheck.review.matrix import Matrix


def page(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return the report page with the desk's navigation in it."""
    from speccheck.report.html.page import render_page

    matrix = matrix_of(asked["papers"], progress)
    progress(0, 0, "drawing the matrix")
    files = files_of(Path(asked["papers"]["schedule"]))
    return {"page": render_page(matrix, title=asked["title"], navigation=asked["navigation"], papers=files)}


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
            return render_page(matrix, papers=files_of(Path(asked["papers"]["schedule"])))
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

    made = correct_workbook(Path(asked["papers"]["schedule"]), matrix, mendings_of(matrix, progress))
    if made.content is None:
        raise UnusableInput("the corrected workbook cannot be written", made.diagnostics)
    return made.content


def _marked(asked: dict[str, Any], matrix: Matrix) -> bytes:
    """Return a copy of a file of the submittal with a comment at the cell of each finding, numbered as in the reply."""
    from speccheck.report.markup.copying import marked_copy
    from speccheck.report.markup.marks import comments_of, comments_on
    from speccheck.report.reply.reply import reply_to

    comments = comments_of(matrix, reply_to(matrix, notes_of(asked["papers"], matrix), (), asked.get("action", "")))
    files = files_of(Path(asked["papers"]["schedule"]))
    number = asked.get("file", 0)
    if number >= len(files):
        raise UnusableInput("there is no such file")
    if len(files) > 1:
        comments = comments_on(comments, files[number].name, with_others=number == 0)
    made = marked_copy(files[number], matrix.schedule, comments)
    if made.content is None:
        raise UnusableInput("the marked-up copy cannot be written", made.diagnostics)
    return made.content


def _reply(asked: dict[str, Any], matrix: Matrix, progress: Progress) -> str | bytes:
    """Return the reply, as a page or as a document."""
    from speccheck.report.reply.reply import render_reply_page, reply_to
    from speccheck.report.word.document import missing_library
    from speccheck.report.word.reply import render_reply_document

    mendings = mendings_of(matrix, progress) if asked.get("proposals") else ()
    reply = reply_to(matrix, notes_of(asked["papers"], matrix), mendings, asked.get("action", ""))
    if asked["kind"] == "reply-page":
        return render_reply_page(reply)
    problem = missing_library()
    if problem is not None:
        raise UnusableInput(problem.message, [problem])
    return render_reply_document(reply)


FILE_WORK = {"page": page, "export": export}
