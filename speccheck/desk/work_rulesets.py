"""What the child process does with rulesets: checking as one types, proofreading, prose, one system, a blank workbook.

The editor of the desk asks the same code as the language server.
"""

from __future__ import annotations

import base64
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

from speccheck.desk.papers import Progress, ruleset_of, told
from speccheck.language.diagnostics import Diagnostic

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.report.proofreading.report import ProofreadingRemark

_LINE = re.compile(r":([0-9]{1,7}):[0-9]{1,7}$")
MOST_SUGGESTIONS = 60


def analysis(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what is wrong with a text, and how the examples of each clause come out."""
    from speccheck.editor.analysing import analyse, rehearsed

    found = analyse(asked["text"], Path(asked["path"]))
    examples = rehearsed(found)
    return {
        "diagnostics": [_told(one) for one in (*found.diagnostics, *examples.diagnostics)],
        "examples": [
            {"line": one.place.line, "words": one.words, "right": one.count == one.right, "label": one.label}
            for one in examples.clauses
        ],
        "marks": [{"line": place.line, "right": right} for place, right in examples.examples],
        "clauses": len(found.ruleset.clauses) if found.ruleset is not None else 0,
    }


def completion(asked: dict[str, Any], progress: Progress) -> list[dict[str, str]]:
    """Return what could be written at a place of a text, line and column from 0."""
    from speccheck.editor.analysing import analyse
    from speccheck.editor.completing import suggestions

    found = suggestions(analyse(asked["text"], Path(asked["path"])), asked["line"], asked["column"])
    begun = asked["begun"].casefold()
    fitting = [one for one in found if one.text.casefold().startswith(begun)]
    return [{"text": one.text, "sort": one.sort, "detail": one.detail} for one in fitting[:MOST_SUGGESTIONS]]


def proofreading(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what proofreading finds in a ruleset as it is saved, with the place of each finding."""

    ruleset = ruleset_of(asked["against"])
    progress(0, 0, "proofreading")
    return _proofread(ruleset)


def proofread_text(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what proofreading finds in a text as it is typed; nothing where the text has mistakes."""
    from speccheck.editor.analysing import analyse

    ruleset = analyse(asked["text"], Path(asked["path"])).ruleset
    progress(0, 0, "proofreading")
    return {"heading": "", "groups": []} if ruleset is None else _proofread(ruleset)


def _proofread(ruleset: Ruleset) -> dict[str, Any]:
    from speccheck.proofread.proofreading import proofread
    from speccheck.report.proofreading.alone import proofreading_alone

    report = proofreading_alone(ruleset, proofread(ruleset))
    return {
        "heading": report.heading,
        "groups": [
            {"title": group.title, "remarks": [_remark(one) for one in group.remarks]} for group in report.groups
        ],
    }


def _remark(one: ProofreadingRemark) -> dict[str, Any]:
    """Return a remark with its line in the text, 0 where it stands in another file."""
    found = _LINE.search(one.place)
    return {
        "code": one.code, "message": one.message, "place": one.place, "help": one.help, "systems": one.systems,
        "lines": [{"shows": line.shows, "text": line.text} for line in one.lines],
        "line": int(found[1]) if found else 0,
    }  # fmt: skip


def prose(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return a ruleset as a specification section: a page that needs nothing else."""
    from speccheck.report.prose.section import render_prose_page

    return {"page": render_prose_page(ruleset_of(asked["against"]), own_only=False)}


def clauses_file(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return a ruleset as a specification section to take along, a page or a document, in base 64."""
    from speccheck.inputs import UnusableInput
    from speccheck.report.prose.section import render_prose_page
    from speccheck.report.word.document import missing_library
    from speccheck.report.word.section import render_prose_document

    ruleset = ruleset_of(asked["against"])
    problem = missing_library() if asked["kind"] == "section-word" else None
    if problem is not None:
        raise UnusableInput(problem.message, [problem])
    made = render_prose_document(ruleset) if asked["kind"] == "section-word" else render_prose_page(ruleset).encode()
    return {"content": base64.b64encode(made).decode("ascii")}


def draft(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return clauses drafted from a section of a specification, as text in the house style, to be confirmed."""
    from speccheck.inputs import UnusableInput, usable_vocabulary
    from speccheck.language.format.house_style import format_text
    from speccheck.language.syntax.source_text import SourceText
    from speccheck.specification import draft, read_section, ruleset_text

    progress(0, 0, "drafting clauses from the section")
    words, section = usable_vocabulary("mechanical insulation")[0], Path(asked["section"])
    blocks, problems = read_section(section)
    if problems:
        raise UnusableInput(f"{section.name} cannot be drafted from", problems)
    text = format_text(SourceText("project.clauses", ruleset_text(asked["title"], words, draft(blocks, words))))
    assert isinstance(text, str), text
    return {"text": text}


def blank(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return a blank schedule workbook for a ruleset, in base 64."""
    from speccheck.report.workbook.blank import render_blank

    ruleset = ruleset_of(asked["against"])
    content = render_blank(ruleset, asked["units"] or ruleset.units)
    return {"content": base64.b64encode(content).decode("ascii")}


def try_line(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what each clause of a text says of one line in words."""
    from speccheck.editor.analysing import analyse
    from speccheck.judge import Judge
    from speccheck.report.wording import clause_label
    from speccheck.schedule.words import line_in_words

    ruleset = analyse(asked["text"], Path(asked["path"])).ruleset
    if ruleset is None:
        return {"diagnostics": [], "cells": [], "unusable": True}
    line, problems = line_in_words(asked["line"], ruleset.vocabulary, ruleset.units)
    cells = zip(ruleset.clauses, Judge(ruleset).row(line), strict=True)
    return {
        "diagnostics": [told(one) for one in problems],
        "unusable": False,
        "cells": [
            {"label": clause_label(clause), "title": clause.title, "verdict": str(cell.verdict), "reason": cell.reason}
            for clause, cell in cells
            if str(cell.verdict) != "not applicable"
        ],
    }


def system(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what one system comes to, in words and with its picture, or what is missing."""
    from io import StringIO

    from rich.console import Console

    from speccheck.judge.courses import asked_values, courses
    from speccheck.judge.curves import ThicknessCurve, thickness_curve
    from speccheck.language import load_vocabulary
    from speccheck.report.terminal_thickness import print_stopped, print_thickness
    from speccheck.report.thickness_picture import draw_thickness
    from speccheck.schedule.words import line_in_words

    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None, "the shipped vocabulary is usable"
    line, problems = line_in_words(asked["line"], vocabulary, asked["units"])
    if any(one.severity == "error" for one in problems):
        return {"diagnostics": [told(one) for one in problems], "text": "", "picture": ""}
    case = {name: datum.value for name, datum in line.data.items()}
    curve = thickness_curve(case, asked["units"])  # type: ignore[arg-type]
    besides = asked_values(case, asked["units"])  # type: ignore[arg-type]
    out = StringIO()
    console = Console(file=out, width=100, color_system=None)
    picture = ""
    if isinstance(curve, ThicknessCurve):
        print_thickness(curve, asked["units"], console, width=100, asked=besides)
        heading = "Surface temperature and heat flow"
        picture = draw_thickness(curve, heading, asked["units"], courses(case))  # type: ignore[arg-type]
    else:
        print_stopped(curve, asked["units"], besides, console, width=100)
    return {"diagnostics": [told(one) for one in problems], "text": out.getvalue(), "picture": picture}


def _told(found: Diagnostic) -> dict[str, Any]:
    return {
        "severity": str(found.severity), "code": found.code, "message": found.message, "help": found.help,
        "line": found.place.line, "column": found.place.column, "length": found.place.length,
    }  # fmt: skip


RULESET_WORK = {
    "analysis": analysis, "completion": completion, "proofreading": proofreading, "prose": prose, "blank": blank,
    "draft": draft, "try line": try_line, "proofread text": proofread_text, "clauses file": clauses_file,
    "system": system,
}  # fmt: skip
