"""Every report of a check ends with how many paragraphs of the section nothing checks, and lists them."""

from __future__ import annotations

import io
import json

import docx
import pytest
from click.testing import CliRunner
from openpyxl import load_workbook
from rich.console import Console

from speccheck.cli import speccheck
from speccheck.language import parse_ruleset
from speccheck.report.html.page import render_page
from speccheck.report.json.report import render_json
from speccheck.report.markdown.report import render_markdown
from speccheck.report.portfolio.files import render_small_page
from speccheck.report.reply.reply import Reply, reply_to
from speccheck.report.requests import unchecked_sections, unchecked_sentence
from speccheck.report.terminal.report import print_matrix
from speccheck.report.word.reply import render_reply_document
from speccheck.report.workbook.report import render_workbook
from speccheck.review.matrix import Matrix
from speccheck.review.notes import Notes
from speccheck.review.reviewing import judge_schedule
from speccheck.schedule import Schedule

RULESET = """ruleset "section 23 07 19"
  speaks mechanical insulation

clause 2.1.A "Thickness"
  shall thickness be at least 1 in

not checked 1.3.B "Samples"
  because document "a sample to submit"
  wording "Submit a sample of each <jacket>."

not checked 3.1.A "Examination"
  because act on site
"""
SENTENCE = "2 paragraphs of the section are not checked by this program."
ROWS = (
    ("1.3.B", "Samples", "document: a sample to submit", "Submit a sample of each <jacket>."),
    ("3.1.A", "Examination", "act on site", ""),
)


@pytest.fixture(scope="module")
def matrix() -> Matrix:
    """A schedule without lines, checked against a ruleset that leaves two paragraphs unchecked."""
    ruleset = parse_ruleset(RULESET).ruleset
    assert ruleset is not None
    return judge_schedule(Schedule("schedule.csv", ()), ruleset)


@pytest.fixture(scope="module")
def reply(matrix: Matrix) -> Reply:
    """The reply to it."""
    return reply_to(matrix, Notes())


def test_the_list_has_each_paragraph_with_its_reason_and_words(matrix: Matrix) -> None:
    """One row a paragraph; one paragraph is said in the singular, and none is said where the ruleset tells of none."""
    (section,) = unchecked_sections(matrix.ruleset)
    assert section.rows == ROWS
    assert section.sentence == f"{SENTENCE} Somebody has to read them."
    one = parse_ruleset(RULESET[: RULESET.index("not checked 3.1.A")]).ruleset
    none = parse_ruleset(RULESET[: RULESET.index("not checked 1.3.B")]).ruleset
    assert one is not None
    assert none is not None
    assert unchecked_sentence(one) == "1 paragraph of the section is not checked by this program."
    assert (unchecked_sentence(none), unchecked_sections(none)) == ("", ())


def test_the_terminal_and_markdown_end_with_it(matrix: Matrix) -> None:
    """The sentence is the last of the terminal; in Markdown the list stands under it, at the end."""
    written = io.StringIO()
    print_matrix(matrix, Console(file=written, width=100))
    assert written.getvalue().rstrip().endswith(SENTENCE)
    told = render_markdown(matrix)
    end = told[told.index("## Paragraphs not checked") :]
    assert SENTENCE in end
    assert end.rstrip().splitlines()[-1].startswith("| 3.1.A | Examination | act on site |")


def test_the_page_lists_them_at_its_end_and_links_to_the_list(matrix: Matrix) -> None:
    """Words of the section are escaped; nothing of the page stands behind the list."""
    page = render_page(matrix)
    end = page[page.index('<section id="not-checked-paragraphs"') : page.index("</main>")]
    assert SENTENCE in end
    assert "Submit a sample of each &lt;jacket&gt;." in end
    assert end.count("<section") == 1
    assert '<a href="#not-checked-paragraphs">Paragraphs not checked</a>' in page


def test_the_reply_lists_them_in_word_and_html_and_ends_with_the_count(reply: Reply) -> None:
    """The table of the document has the two rows; the last paragraph of both is the sentence."""
    document = docx.Document(io.BytesIO(render_reply_document(reply)))
    assert document.paragraphs[-1].text == SENTENCE
    cells = [tuple(cell.text for cell in row.cells) for table in document.tables for row in table.rows]
    assert [row for row in cells if len(row) == 4][1:] == list(ROWS)
    page = render_small_page("reply.html.j2", styles=("page.css", "reply.css"), reply=reply)
    assert page[page.rindex("<p>") :].startswith(f"<p>{SENTENCE}</p>")
    assert "<td>document: a sample to submit</td>" in page


def test_the_workbook_and_json_have_them(matrix: Matrix) -> None:
    """A sheet of their own and the sentence last among the cautions; for programs, a list and the sentence."""
    book = load_workbook(io.BytesIO(render_workbook(matrix)))
    rows = list(book["Paragraphs not checked"].iter_rows(values_only=True))
    assert [tuple(str(cell or "") for cell in row[:4]) for row in rows[-2:]] == list(ROWS)
    assert [cell.value for cell in book["Cautions"]["A"]][-1] == SENTENCE
    report = json.loads(render_json(matrix))
    assert report["not_checked_by_this_program"] == SENTENCE
    assert [one["reason"] for one in report["ruleset"]["paragraphs_not_checked"]] == ["document", "act on site"]


def test_a_quiet_check_ends_with_it(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Even where only the outcome is printed, the sentence is its last."""
    folder = tmp_path_factory.mktemp("quiet")
    (folder / "p.clauses").write_text(RULESET, encoding="utf-8")
    (folder / "s.csv").write_text("Mark,Thickness (in)\nA,2\n", encoding="utf-8")
    words = ["check", str(folder / "s.csv"), "--against", str(folder / "p.clauses"), "--quiet"]
    assert CliRunner().invoke(speccheck, words).output.rstrip().endswith(SENTENCE)
