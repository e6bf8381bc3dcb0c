"""Markdown and CSV: text of others stays text, nothing of the matrix is lost."""

from __future__ import annotations

import csv
import io

from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from speccheck.report.comma_separated import render_comma_separated
from speccheck.report.escaping import comma_separated_safe, markdown_safe, plain, starts_like_formula
from speccheck.report.markdown.report import render_markdown
from speccheck.review.matrix import Matrix

# Characters that mean something to Markdown, to HTML or to a spreadsheet come up often.
any_text = st.text(st.one_of(st.sampled_from("=+-@|`*_[]()<>!#&\\~:.1 \t\n"), st.characters(exclude_categories=["Cs"])))


def shown(markdown: str) -> str:
    """Return the text that a CommonMark reader shows for one paragraph, and fail if it holds anything but text."""
    tokens = MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"]).parse(markdown)
    assert [token.type for token in tokens] == ["paragraph_open", "inline", "paragraph_close"]
    parts = tokens[1].children or []
    assert {part.type for part in parts} <= {"text", "text_special"}
    return "".join(part.content for part in parts)


@given(any_text.filter(lambda text: plain(text).strip()))
def test_markdown_shows_any_text_as_written(text: str) -> None:
    """Escaped text, read by markdown-it (a CommonMark reader), is one paragraph of the same text and nothing else."""
    assert shown(markdown_safe(text.strip())).strip() == plain(text.strip()).strip()


@given(any_text)
def test_csv_cell_never_starts_like_a_formula(text: str) -> None:
    """Whatever a schedule holds, a CSV cell starts neither with a formula's sign nor with blanks before one."""
    assert not starts_like_formula(comma_separated_safe(text))


def test_markdown_of_hostile_text_holds_no_markup_of_others(hostile: Matrix) -> None:
    """Rendered with raw HTML allowed, the report has no element, link or code that the texts tried to make."""
    html = MarkdownIt("commonmark", {"html": True}).enable("table").render(render_markdown(hostile))
    for attempt in ("<img", "<script", "<b>", "<i>", "<a ", "<code>"):
        assert attempt not in html
    assert html.count("<tr>") == 2 + 2 + 2 + 4 + 2, "no bar in a text makes a new cell or row"


def test_markdown_tables_have_as_many_cells_as_headings(plant: Matrix) -> None:
    """Each row of the rendered matrix has a cell for the line and one for each clause."""
    tokens = MarkdownIt("commonmark").enable("table").parse(render_markdown(plant))
    inline = [token.content for token in tokens if token.type == "inline"]
    start = inline.index("HHW-1", inline.index("Matrix"))
    assert inline[start : start + 5] == ["HHW-1", "FAIL", "–", "ok\\*", "–"]


def test_csv_can_be_read_back(plant: Matrix, hostile: Matrix) -> None:
    """Read by the csv module (RFC 4180), each finding is one row; doubtful texts have an apostrophe before them."""
    table = list(csv.reader(io.StringIO(render_comma_separated(plant).removeprefix("\ufeff"), newline="")))
    assert [(*row[:4], row[5]) for row in table[1:]] == [
        ("HHW-1", "sheet Piping, A6", "heating hot water", "2.1.A", "does not comply"),
        ("CHW-1", "sheet Piping, A4", "chilled water", "3.4.C", "cannot be determined"),
        ("CHW-2", "sheet Piping, A5", "chilled water", "3.4.C", "cannot be determined"),
    ]
    doubtful = list(csv.reader(io.StringIO(render_comma_separated(hostile).removeprefix("\ufeff"), newline="")))
    assert [row[0] for row in doubtful[1:]] == ['\'=HYPERLINK("http://invalid.invalid","x")', "'+1 [31mred [0m"]
    assert not [cell for row in doubtful for cell in row if cell[:1] in ("=", "+", "-", "@")]
