"""Rulesets in prose: a section in three parts, as a page and as a document that say the same."""

from __future__ import annotations

import io
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from speccheck.language import load_ruleset, parse_ruleset, shipped_names
from speccheck.language.core import Ruleset
from speccheck.language.walking import conditions_of, tables_of
from speccheck.report.prose import TITLES, Paragraph, Section, section_of
from speccheck.report.prose_document import lettered, render_prose_document
from speccheck.report.prose_page import render_prose_page

SMALL = """ruleset "Invented dairy"
  edition "2"
  speaks  mechanical insulation
  covers  "piping <b>of the</b> dairy"
  caution "Check the adopted code."

define cold
  as operating temperature is less than 60 F

assume ambient temperature is 80 F

table needed in inches
  source "nowhere" from memory
  by     operating temperature, pipe size
                | up to 2 in | over 2 in
  under 40 F    | 1          | 1-1/2
  40 F to 60 F  | 1/2        | -

clause 2.1.A "Thickness"
  source  "the project" seen
  wording "Insulate cold piping as scheduled."
  where   cold
  where   location is outdoor or location is wash-down
  shall   thickness be at least needed
  should  jacket be not none
  except  where insulation is cellular glass because "it is made thick"

clause 3.1.A "Stops"
  reason  "Leaks spread."
  shall   vapor stop locations include any of valves, flanges
  shall   vapor stop locations exclude hangers
  shall   vapor retarder be given and not concealed
  shall   jacket be one of aluminum, PVC
  shall   within reach
"""


def small() -> Ruleset:
    """Return the ruleset above."""
    loaded = parse_ruleset(SMALL)
    assert loaded.diagnostics == ()
    assert loaded.ruleset is not None
    return loaded.ruleset


def test_rules_become_the_sentences_of_a_section() -> None:
    """Each clause is a paragraph in its part, with its words, and its rule in sentences."""
    section = section_of(small())
    assert section.title == "Invented dairy, 2"
    assert [(part.number, part.title) for part in section.parts] == list(TITLES.items())
    general, products, execution = section.parts
    assert {article.title: [one.text for one in article.paragraphs] for article in general.articles} == {
        "Summary": ["This section covers piping <b>of the</b> dairy."],
        "Cautions": ["Check the adopted code."],
        "References": ["nowhere (from memory)", "the project (seen)"],
        "Definitions": ["Cold: operating temperature is less than 60 F."],
        "Design conditions": ["Where nothing else is stated, ambient temperature is 80 F."],
    }
    (thickness,) = products.articles
    assert thickness.paragraphs == (
        Paragraph(
            "Insulate cold piping as scheduled.",
            "Thickness",
            "2.1.A",
            (
                "Applies where cold, and where either location is outdoor or location is wash-down.",
                "Thickness shall be at least needed.",
                "Jacket should not be none.",
                "Does not apply where insulation is cellular glass, because it is made thick.",
                "Source: the project (seen).",
            ),
        ),
    )
    (table,) = thickness.tables
    assert (table.title, table.head) == ("needed, in in", ("operating temperature", "up to 2 in", "over 2 in"))
    assert table.rows == (("under 40 F", "1 in", "1-1/2 in"), ("40 F to 60 F", "1/2 in", "–"))
    (stops,) = execution.articles
    assert stops.paragraphs[0].inner == (
        "Vapor stop locations shall include at least one of valves or flanges.",
        "Vapor stop locations shall not include hangers.",
        "Vapor retarder shall be stated; and concealed shall be ruled out.",
        "Jacket shall be aluminum or PVC.",
        "Within reach shall be confirmed.",
        "Reason: Leaks spread.",
    )


@pytest.mark.parametrize("name", [name for name in shipped_names() if load_ruleset(name).ruleset is not None])
def test_nothing_of_a_ruleset_is_lost(name: str) -> None:
    """Each clause stands once in the section, with its words; each table once; articles and parts are numbered on."""
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None
    section = section_of(ruleset)
    paragraphs = [one for part in section.parts for article in part.articles for one in article.paragraphs]
    told = sorted((one.label, one.title, one.text) for one in paragraphs if one.label)
    assert told == sorted((clause.label, clause.title, clause.wording) for clause in ruleset.clauses)
    tables = [table for part in section.parts for article in part.articles for table in article.tables]
    looked_up = tables_of(condition for clause in ruleset.clauses for condition in conditions_of(clause))
    assert len(tables) == len(looked_up)
    assert sum(len(row) - 1 for table in tables for row in table.rows) == sum(
        len(row) for table in looked_up for row in table.cells
    )
    for part in section.parts:
        assert [article.number for article in part.articles] == [
            f"{part.number}.{n + 1}" for n in range(len(part.articles))
        ]


class _Texts(HTMLParser):
    """Collects the texts of the paragraphs and cells of a page, and its tags."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.tags: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        """Keep a tag."""
        self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        """Keep a text."""
        if data.strip():
            self.texts.append(" ".join(data.split()))


def texts_of(section: Section) -> list[str]:
    """Return the texts that any layout of a section has to show."""
    found = []
    for article in (article for part in section.parts for article in part.articles):
        for paragraph in article.paragraphs:
            found += [paragraph.text, paragraph.title, *paragraph.inner]
        for table in article.tables:
            found += [*table.head, *(text for row in table.rows for text in row), *table.remarks]
    return [" ".join(text.split()) for text in found if text]


def test_page_shows_all_of_it_and_runs_nothing() -> None:
    """Every text is on the page, text of the writer as text, and nothing is loaded or run."""
    page = render_prose_page(small())
    reader = _Texts()
    reader.feed(page)
    assert set(texts_of(section_of(small()))) <= set(reader.texts)
    assert "piping &lt;b&gt;of the&lt;/b&gt; dairy" in page
    assert not {"script", "img", "link", "iframe", "b"} & set(reader.tags)
    assert re.search(r"default-src &#39;none&#39;|default-src 'none'", page)
    assert render_prose_page(small()) == page


def test_document_shows_all_of_it() -> None:
    """The document, opened again, has the same texts as the page, and the same bytes on each run."""
    docx = pytest.importorskip("docx")
    written = render_prose_document(small())
    document = docx.Document(io.BytesIO(written))
    runs = " ".join(" ".join(paragraph.text.split()) for paragraph in document.paragraphs)
    cells = {cell.text for table in document.tables for row in table.rows for cell in row.cells}
    for text in texts_of(section_of(small())):
        assert text in runs or text in cells
    assert [p.text for p in document.paragraphs if p.style.name == "Heading 1"] == [
        "PART 1 - GENERAL",
        "PART 2 - PRODUCTS",
        "PART 3 - EXECUTION",
    ]
    assert render_prose_document(small()) == written


def test_letters_go_on_after_the_alphabet() -> None:
    """Paragraphs beyond the twenty-sixth have two letters, as columns of a spreadsheet do."""
    assert [lettered(number) for number in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


def test_files_are_written(tmp_path: Path) -> None:
    """The command writes the page that the library gives, and says what it needs where nothing is to be written."""
    from click.testing import CliRunner

    from speccheck.cli.prose import command

    source = tmp_path / "small.clauses"
    source.write_text(SMALL, encoding="utf-8")
    page = tmp_path / "section.html"
    result = CliRunner().invoke(command, [str(source), "--page", str(page)], standalone_mode=False)
    assert result.return_value == 0
    assert "PART" not in page.read_text(encoding="utf-8")
    assert "Insulate cold piping as scheduled." in page.read_text(encoding="utf-8")
    assert CliRunner().invoke(command, [str(source)]).exit_code == 2
