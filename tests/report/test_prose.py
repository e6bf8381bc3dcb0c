"""Rulesets in prose: a section in three parts, as a page and as a document that say the same."""

from __future__ import annotations

import io
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from speccheck.language import load_ruleset, parse_ruleset, shipped_ruleset_names
from speccheck.language.core import Ruleset
from speccheck.language.core.walking import conditions_of, tables_of
from speccheck.report.prose.articles import ProseParagraph, Telling, lettered
from speccheck.report.prose.general import references
from speccheck.report.prose.section import TITLES, ProseSection, render_prose_page, section_of
from speccheck.report.word.section import render_prose_document
from speccheck.specification import read_section
from speccheck.specification.blocks import Paragraph as SectionParagraph

SMALL = """ruleset "Invented dairy"
  edition "2"
  speaks  mechanical insulation
  covers  "piping <b>of the</b> dairy"
  caution "Check the adopted code."

define cold
  as operating temperature is less than 60 F

assume ambient temperature is 80 F
  where location is outdoor or not concealed

table needed in inches
  source "nowhere" from memory
  by     operating temperature, pipe size
                | up to 2 in | over 2 in
  under 40 F    | 1          | 1-1/2
  40 F to 60 F  | 1/2        | -

clause 2.1.A "Thickness"
  source  "ASTM C534, Table 1" seen
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
    """Each clause is one paragraph in its part: its rule in sentences, once, without sources unless asked for."""
    section = section_of(small())
    assert section.title == "Invented dairy, 2"
    assert [(part.number, part.title) for part in section.parts] == list(TITLES.items())
    general, products, execution = section.parts
    assert {article.title: [one.text for one in article.paragraphs] for article in general.articles} == {
        "Summary": ["This section covers piping <b>of the</b> dairy."],
        "Cautions": ["Check the adopted code."],
        "References": ["ASTM C534"],
        "Definitions": ["“cold” means: operating temperature is less than 60 F."],
        "Design conditions": [
            "Where either location is outdoor, or concealed is ruled out, take ambient temperature as 80 F unless the "
            "schedule states it."
        ],
    }
    (thickness,) = products.articles
    assert thickness.paragraphs == (
        ProseParagraph(
            "Where the line is “cold”, and where either location is outdoor, or location is wash-down, thickness shall "
            "be at least the needed scheduled. Jacket should not be none. This does not apply where insulation is "
            "cellular glass, because it is made thick.",
            "Thickness",
            "2.1.A",
            letter="A",
            number=1,
        ),
    )
    (table,) = thickness.tables
    assert (table.title, table.over, table.remarks) == ("Needed (in)", "pipe size", ())
    assert table.head == ("operating temperature", "up to 2 in", "over 2 in")
    assert table.rows == (("under 40 F", "1", "1-1/2"), ("40 F to 60 F", "1/2", "–"))
    (stops,) = execution.articles
    assert stops.paragraphs[0].text == (
        "Vapor stop locations shall include at least one of valves or flanges; and vapor stop locations shall not "
        "include hangers; and vapor retarder shall be stated; and concealed shall be ruled out; and jacket shall be "
        "aluminum or PVC; and within reach shall be confirmed."
    )
    assert stops.paragraphs[0].remarks == ()


def test_sources_and_the_words_of_the_section_are_options() -> None:
    """A clause stands once: in its rule's sentences, or as it is worded; sources and reasons stand under it."""
    _, products, execution = section_of(small(), telling=Telling(as_worded=True, sources=True)).parts
    (thickness,) = products.articles
    assert [one.text for one in thickness.paragraphs] == ["Insulate cold piping as scheduled."]
    assert thickness.paragraphs[0].remarks == ("Source: ASTM C534, Table 1 (seen).",)
    assert thickness.tables[0].remarks == ("Source: nowhere (from memory).",)
    stops = execution.articles[0].paragraphs[0]
    assert stops.text.startswith("Vapor stop locations shall include")
    assert stops.remarks == ("Reason: Leaks spread.",)


@pytest.mark.parametrize("name", shipped_ruleset_names())
def test_nothing_of_a_ruleset_is_lost(name: str) -> None:
    """Each clause stands once in the section; each table once; articles and parts are numbered on."""
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None
    section = section_of(ruleset)
    paragraphs = [one for part in section.parts for article in part.articles for one in article.paragraphs]
    told = sorted((one.label, one.title) for one in paragraphs if one.label and one.text)
    assert told == sorted((clause.label, clause.title) for clause in ruleset.clauses)
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


def texts_of(section: ProseSection) -> list[str]:
    """Return the texts that any layout of a section has to show."""
    found = []
    for article in (article for part in section.parts for article in part.articles):
        for paragraph in article.paragraphs:
            found += [paragraph.text, paragraph.title, *paragraph.inner, *paragraph.remarks]
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
    assert [p.text for p in document.paragraphs if p.style.name == "Heading 1"] == ["GENERAL", "PRODUCTS", "EXECUTION"]
    assert render_prose_document(small()) == written


WORDED = """ruleset "Worded"
  speaks mechanical insulation

define bare
  as insulation is given and insulation is none

define piping
  as not component is given or component is one of pipe, fitting

define cold run
  as piping and not bare and not location is one of outdoor, wash-down and operating temperature is at most 60 F

define gaps
  equal to fastener count minus 1

clause 1 "c"
  where  cold run
  shall  not bare
  shall  fastener spacing be at most 4 in and within reach
  except where not thickness is at least 1 in and (concealed or not concealed is given)

clause 2 "c"
  shall  fastener count be at least gaps
"""


def test_conditions_are_put_in_words() -> None:
    """Names of definitions are quoted, lists end with `or`, conditions joined inside others stand in parentheses."""
    loaded = parse_ruleset(WORDED)
    assert loaded.ruleset is not None, loaded.diagnostics
    general, products, execution = section_of(loaded.ruleset).parts
    assert [one.text for one in general.articles[0].paragraphs] == [
        "“bare” means: insulation is stated and insulation is none.",
        "“piping” means: either component is not stated, or component is pipe or fitting.",
        "“cold run” means: the line is “piping” and the line is not “bare” and location is not outdoor or wash-down "
        "and operating temperature is at most 60 F.",
        "“gaps” means: fastener count minus 1.",
    ]
    told = [one.text for part in (products, execution) for article in part.articles for one in article.paragraphs]
    assert told == [
        "Where the line is “cold run”, the line shall not be “bare”; and fastener spacing shall be at most 4 in; and "
        "within reach shall be confirmed. This does not apply where it is not so that thickness is at least 1 in and "
        "(either concealed is confirmed, or concealed is not stated).",
        "Fastener count shall be at least “gaps”.",
    ]


ALTERNATIVES = [
    (
        "jacket is aluminum and thickness is at least 1 in or jacket is PVC and thickness is at least 2 in",
        "Either (jacket shall be aluminum and thickness shall be at least 1 in), or (jacket shall be PVC and thickness "
        "shall be at least 2 in).",
    ),
    (
        "jacket is aluminum and (facing is film or facing is foil)",
        "Jacket shall be aluminum; and (either facing shall be film, or facing shall be foil).",
    ),
    (
        "not location is outdoor or jacket is given",
        "Jacket shall be stated, unless it is not so that location is outdoor.",
    ),
    (
        "thickness is at least 1 in or location is conditioned or pipe size is less than 1 in",
        "Thickness shall be at least 1 in, unless either location is conditioned, or pipe size is less than 1 in.",
    ),
    (
        "flame spread is at most 25 or flame spread is not given",
        "Flame spread shall be at most 25, unless flame spread is not stated.",
    ),
    (
        "jacket is PVC and pipe size is at most 4 in or jacket is aluminum",
        "Either (jacket shall be PVC where pipe size is at most 4 in), or jacket shall be aluminum.",
    ),
]


@pytest.mark.parametrize(("condition", "prose"), ALTERNATIVES, ids=[prose for _, prose in ALTERNATIVES])
def test_alternatives_keep_their_parts_and_conditions_are_no_demands(condition: str, prose: str) -> None:
    """Each alternative of several parts stands in parentheses; what nobody can be asked to change is a condition."""
    loaded = parse_ruleset(f'ruleset "x"\n  speaks mechanical insulation\n\nclause 1 "x"\n  shall {condition}\n')
    assert loaded.ruleset is not None, loaded.diagnostics
    articles = [article for part in section_of(loaded.ruleset).parts for article in part.articles]
    assert [one.text for article in articles for one in article.paragraphs] == [prose]


def test_clauses_keep_the_numbers_of_their_writer() -> None:
    """A clause numbered 2.3.C stands there, whatever is missing before it; one without such a number comes after."""
    text = (
        SMALL.replace("clause 3.1.A", "clause 3.4.C")
        + 'clause loose "Loose"\n  shall vapor stop spacing be at most 15 ft\n'
    )
    loaded = parse_ruleset(text)
    assert loaded.ruleset is not None, loaded.diagnostics
    execution = section_of(loaded.ruleset).parts[2]
    placed = [(article.number, one.letter, one.label) for article in execution.articles for one in article.paragraphs]
    assert placed == [("3.4", "C", "3.4.C"), ("3.5", "A", "loose")]


def test_numbers_of_all_parts_are_kept_and_word_counts_them(tmp_path: Path) -> None:
    """Part 1 keeps the writer's numbers too, letters may skip, and Word's own list comes to the same numbers."""
    pytest.importorskip("docx")
    names = ("1.3.B", "2.1.A", "2.1.C", "2.1.C-2", "3.10.BB")
    clauses = "".join(f'clause {name} "T"\n  shall jacket be PVC\n\n' for name in names)
    head = 'ruleset "x"\n  speaks mechanical insulation\n  covers "piping"\n\n'
    loaded = parse_ruleset(head + clauses)
    assert loaded.ruleset is not None, loaded.diagnostics
    path = tmp_path / "section.docx"
    path.write_bytes(render_prose_document(loaded.ruleset))
    blocks, _ = read_section(path)
    numbers = [one.number for one in blocks if isinstance(one, SectionParagraph) and one.number.count(".") > 1]
    assert numbers == ["1.1.A", "1.3.B", "2.1.A", "2.1.C", "2.1.C.1", "3.10.BB"]


def test_this_section_only_leaves_out_what_it_builds_on() -> None:
    """With its own clauses alone, the section has none of those of the energy code, and names the code all the same."""
    loaded = parse_ruleset(SMALL.replace("  covers", '  builds on "energy/irc-2024"\n  covers'))
    assert loaded.ruleset is not None, loaded.diagnostics
    labels = {}
    for own_only in (False, True):
        section = section_of(loaded.ruleset, own_only=own_only)
        paragraphs = [one for part in section.parts for article in part.articles for one in article.paragraphs]
        labels[own_only] = {one.label for one in paragraphs if one.label}
        assert any("IRC 2024" in one.text for one in section.parts[0].articles[0].paragraphs)
        assert any(name.text.startswith("“IRC") for name in paragraphs) is not own_only
    assert labels[True] == {"2.1.A", "3.1.A"} < labels[False]


def test_references_are_documents() -> None:
    """Where in a document is said beside the clause; what names no document is no reference."""
    sources = ("ASTM C1055 as quoted in the Code", "after MSS SP-58, Table 1", "PVC softens over 150 F", "no source")
    lines = "".join(f'  source "{source}"\n' for source in sources)
    loaded = parse_ruleset(SMALL.replace('  wording "Insulate', f'{lines}  wording "Insulate'))
    assert loaded.ruleset is not None, loaded.diagnostics
    assert references(loaded.ruleset) == ["ASTM C1055", "ASTM C534", "MSS SP-58"]


def test_letters_go_on_after_the_alphabet() -> None:
    """Paragraphs beyond the twenty-sixth have their letter twice, as Word counts (ECMA-376, ST_NumberFormat)."""
    assert [lettered(number) for number in (0, 25, 26, 27, 51, 52)] == ["A", "Z", "AA", "BB", "ZZ", "AAA"]


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
    assert "thickness shall be at least the needed scheduled." in page.read_text(encoding="utf-8")
    assert CliRunner().invoke(command, [str(source)]).exit_code == 2
