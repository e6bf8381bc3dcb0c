"""The reply: comments in the trade's wording, as a page and as a document."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

import pytest

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.reply.reply import LICENSED_PRACTICE, TO_BE_MARKED, Reply, render_reply_page, reply_to
from speccheck.report.word.reply import render_reply_document
from speccheck.review import Matrix, judge_schedule
from speccheck.review.corrections import mend_schedule
from speccheck.review.notes import Notes, read_notes
from speccheck.schedule import read_schedule

CLAUSES = """ruleset "small"
  edition "issue 1"
  speaks mechanical insulation
  stocked thickness is one of 1 in, 1-1/2 in, 2 in

clause 1 "thick"
  shall thickness be at least 1-1/2 in

clause 2 "stops"
  should vapor stop spacing be at most 15 ft
"""
SCHEDULE = """Mark,Service,Size,Thk (in),Vapor Stop Spacing (ft)
P-1,CHW,2 in,1,12
P-2,CHW,3 in,TBD,18
P-3,CHW,4 in,2,12
"<script>",CHW,6 in,1,12
"""
NOTES = """[transmittal]
project = "An invented plant"
round = "2"

[[note]]
line = { service = "CHW", "pipe size" = "2 in" }
clause = "1"
round = "1"
text = "Agreed to go to 1-1/2 in."

[[note]]
line = { service = "CHW", "pipe size" = "4 in" }
clause = "1"
text = "Was 1 in."

[[note]]
line = { service = "CHW", "pipe size" = "10 in" }
text = "Dropped."
"""


@pytest.fixture(scope="module")
def ruleset() -> Ruleset:
    """Return a ruleset with a clause that asks and one that advises."""
    found = parse_ruleset(CLAUSES).ruleset
    assert found is not None
    return found


@pytest.fixture(scope="module")
def matrix(ruleset: Ruleset, tmp_path_factory: pytest.TempPathFactory) -> Matrix:
    """Return the matrix of four lines: one fails, one lacks data, one complies, one has a hostile name."""
    path = tmp_path_factory.mktemp("reply") / "schedule.csv"
    path.write_text(SCHEDULE, encoding="utf-8")
    return judge_schedule(read_schedule(path, ruleset.vocabulary), ruleset)


@pytest.fixture(scope="module")
def reply(matrix: Matrix, ruleset: Ruleset, tmp_path_factory: pytest.TempPathFactory) -> Reply:
    """Return the reply with notes and proposals, and no action word."""
    path = tmp_path_factory.mktemp("notes") / "notes.toml"
    path.write_text(NOTES, encoding="utf-8")
    notes, _ = read_notes(path, ruleset)
    assert notes is not None
    return reply_to(matrix, notes, tuple(mend_schedule(matrix)))


def test_comments_are_worded_as_the_trade_words_them(reply: Reply) -> None:
    """What fails is to be revised, what is missing to be provided, advice is told apart; numbers run through."""
    told = [(one.number, one.line.name, one.clause.name, one.words, one.sentence) for one in reply.comments]
    assert told == [
        (1, "P-1", "1", "Does not comply. Revise", "Thickness is 1 in, but must be at least 1-1/2 in."),
        (2, "P-2", "1", "Provide data", "Thickness: TBD (to be settled later)."),
        (3, "P-2", "2", "Advised", "Vapor stop spacing is 18 ft, but should be at most 15 ft."),
        (4, "<script>", "1", "Does not comply. Revise", "Thickness is 1 in, but must be at least 1-1/2 in."),
    ]
    assert reply.complying == ("P-3",)


def test_notes_stand_where_they_belong(reply: Reply) -> None:
    """A note stands with its comment; one on what now complies and one without a line are told apart, not lost."""
    assert reply.comments[0].notes == ("Round 1: Agreed to go to 1-1/2 in.",)
    assert reply.answered == ("P-3, 1: complies. Was 1 in.",)
    assert reply.left == ("service CHW, pipe size 10 in: Dropped.",)


def test_what_would_comply_is_said(reply: Reply) -> None:
    """Changes that would comply stand with the line; what is missing is asked for, not invented."""
    assert [line.changes for line in reply.lines[:2]] == [
        (("revise thickness from 1 in to 1-1/2 in or more",),),
        (("state thickness, which is not given (TBD): 1-1/2 in or more would comply",),),
    ]


def test_action_is_the_reviewers(matrix: Matrix, reply: Reply) -> None:
    """Without a word of the reviewer the action is a blank; with one it is that word, whatever the verdicts are."""
    assert reply.action == TO_BE_MARKED
    assert reply_to(matrix, Notes(), action="any word").action == "any word"
    assert reply_to(matrix, Notes(transmittal={"action": "from the notes"})).action == "from the notes"


def test_transmittal_says_what_was_held_against_what(reply: Reply) -> None:
    """The head names what was stated, the schedule and the edition of the ruleset; no date is made up."""
    assert reply.transmittal == (
        ("Project", "An invented plant"),
        ("Round", "2"),
        ("Schedule", "schedule.csv"),
        ("Checked against", "small, issue 1"),
    )


@pytest.mark.parametrize("render", [render_reply_page, lambda reply: document_text(render_reply_document(reply))])
def test_both_forms_say_everything(render: object, reply: Reply) -> None:
    """Page and document have every comment, note and proposal, the cautions and the deferral to licensed practice."""
    assert callable(render)
    text = " ".join(str(render(reply)).replace("&lt;", "<").replace("&gt;", ">").replace("&#39;", "'").split())
    wanted = [one.sentence for one in reply.comments] + [note for one in reply.comments for note in one.notes]
    wanted += [LICENSED_PRACTICE, *STANDING_CAUTIONS, *reply.answered, *reply.left, TO_BE_MARKED, *reply.summary]
    assert [part for part in wanted if part not in text] == []


def document_text(content: bytes) -> str:
    """Return all text of a document, in its paragraphs and its tables."""
    import docx
    from docx.table import Table

    document = docx.Document(io.BytesIO(content))
    parts: list[str] = []
    for block in document.iter_inner_content():
        if isinstance(block, Table):
            parts += [cell.text for row in block.rows for cell in row.cells]
        else:
            parts.append(block.text)
    return " ".join(parts)


def test_page_holds_no_markup_of_others(reply: Reply) -> None:
    """A mark that tries to be a script is text on the page."""
    assert "<script" not in render_reply_page(reply)


def test_same_reply_gives_the_same_bytes(reply: Reply, tmp_path: Path) -> None:
    """Page and document are the same on each run; the archive carries one fixed day and no clock."""
    first = render_reply_document(reply)
    assert first == render_reply_document(reply)
    assert render_reply_page(reply) == render_reply_page(reply)
    with zipfile.ZipFile(io.BytesIO(first)) as archive:
        assert {entry.date_time[:3] for entry in archive.infolist()} == {(1980, 1, 1)}
        assert b"1980-01-01" in archive.read("docProps/core.xml")
