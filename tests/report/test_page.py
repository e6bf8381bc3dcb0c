"""The page: complete without its script, closed to the outside, readable by everybody."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.judge.judgement import Verdict
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.html import page as page_module
from speccheck.report.html.details import packed
from speccheck.report.html.page import render_page
from speccheck.report.wording import mark
from speccheck.review.matrix import Matrix
from tests.report.page_reader import PageReader, ReadElement, read_page
from tests.some import some

VERDICT_CLASSES = {"fail", "ask", "ok", "off"}
TEMPLATES = Path(page_module.__file__).parents[1] / "templates"


@pytest.fixture(scope="module")
def page(plant: Matrix) -> PageReader:
    """The page of the small plant, read."""
    return read_page(render_page(plant, title="Invented plant"))


@pytest.fixture(scope="module")
def hostile_page(hostile: Matrix) -> PageReader:
    """The page of the hostile schedule, read."""
    return read_page(render_page(hostile))


def classes(element: ReadElement) -> set[str]:
    """Return the classes of an element."""
    return set(element.attributes.get("class", "").split())


def embedded(reader: PageReader) -> dict[str, Any]:
    """Return the table that the page carries for its script."""
    return dict(json.loads(next(one.text for one in reader.named("script") if one.attributes.get("id") == "details")))


def cells_of(table: dict[str, Any]) -> list[list[list[Any]]]:
    """Return the cells of a page's table, line by line: each row of the grid written out."""
    return [[table["cells"][number] for number in unpacked(row)] for row in table["grid"]]


def unpacked(row: str) -> list[int]:
    """Read a row of the grid as the page says that it is written; apart from the code that writes it."""
    digits = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_"
    found, rest = [], [digits.index(letter) for letter in row]
    while rest:
        first, rest = rest[0], rest[1:]
        if first == 63:
            first, rest = rest[0] * 4096 + rest[1] * 64 + rest[2], rest[3:]
        elif first >= 48:
            first, rest = 48 + (first - 48) * 64 + rest[0], rest[1:]
        found.append(first)
    return found


def text_of(table: dict[str, Any], number: int) -> str:
    """Return a text of a page's table, put together from its parts where it is kept so."""
    kept = table["texts"][number]
    return kept if isinstance(kept, str) else "; ".join(text_of(table, part) for part in kept)


def test_matrix_can_be_read_without_the_script(page: PageReader) -> None:
    """Without the script the page has a plain table: each line with its clauses by verdict, the gravest first."""
    rows = [one.text for one in page.named("tr") if "noscript" in one.inside]
    assert rows == [
        "Linedoes not complycannot be determinedcomplies",
        "CHW-1 chilled water, 2 in through 4 in3.4.C",
        "CHW-2 chilled water, 6 in3.4.C",
        "HHW-1 heating hot water, 2 in2.1.A3.6.B*",
        "HHW-2 heating hot water, 1 in(3.9)2.1.A",
    ]


def test_grid_of_the_script_has_the_mark_of_each_cell(page: PageReader, plant: Matrix) -> None:
    """The grid that the script draws says of each cell what the short mark of all reports says."""
    table = embedded(page)
    marks = [[text_of(table, table["kinds"][cell[0]][3]) for cell in row] for row in cells_of(table)]
    assert marks == [[mark(cell) for cell in row] for row in plant.cells]
    told = "–", "info", "–", "–", "–", "info", "–", "–", "FAIL", "–", "ok*", "–", "ok", "–", "–", "(info)"
    assert [one for row in marks for one in row] == list(told)


@given(st.lists(st.integers(0, 262_143)))
def test_numbers_of_the_grid_come_back(numbers: list[int]) -> None:
    """Numbers of one, two and four digits, in any order, are told apart without separators."""
    assert unpacked(packed(numbers)) == numbers


def test_findings_are_told_without_the_script(page: PageReader, plant: Matrix) -> None:
    """Each finding stands in the static part with its line and its reason; like ones stand together."""
    told = [one.text for one in page.named("li") if "section" in one.inside]
    for found in plant.findings(Verdict.FAILS, Verdict.CANNOT_TELL):
        mine = [text for text in told if found.line.name in text and found.cell.reason in text]
        assert len(mine) == 1, found


def test_what_fails_comes_before_what_cannot_be_told_and_advice_stands_apart(page: PageReader) -> None:
    """The sections come in the order in which a reviewer needs them."""
    titles = [one.text for one in page.named("h2")]
    assert titles == [
        "The schedule does not comply.",
        "Matrix",
        "Does not comply",
        "Cannot be determined",
        "Information needed",
        "Recommendations",
        "How the schedule was read",
        "Clauses",
        "Cautions",
    ]


@pytest.mark.parametrize(
    "words",
    [
        "1 requirement does not comply, on 1 of 4 lines.",
        "ASHRAE 90.1, Table 6.8.3-1",
        "second hand",
        "Ducts and equipment.",
        "the heading Rmk by PM is no term of the vocabulary",
        "Invented plant, piping insulation schedule",
        "Vapor-stop mastic may give off solvent; ventilate.",
        "Check the flame-spread rating of each jacket in a plenum with the adopted code.",
        *STANDING_CAUTIONS,
    ],
)
def test_page_tells(page: PageReader, words: str) -> None:
    """Counts, sources and how sure they are, what is left out, how the schedule was read, cautions: all is told."""
    text = page.text.replace("`", "")
    assert words in text


def test_text_of_others_makes_no_markup(page: PageReader, hostile_page: PageReader, hostile: Matrix) -> None:
    """Text that holds markup is shown as written and adds no element and no attribute to the page."""
    assert {one.name for one in hostile_page.elements} <= {one.name for one in page.elements}
    assert [one.attributes.get("type") for one in hostile_page.named("script")] == ["application/json", "module"]
    names = {name for one in hostile_page.elements for name in one.attributes}
    assert not [name for name in names if name.startswith("on")]
    assert not [one for one in hostile_page.elements if "javascript:" in one.attributes.get("href", "")]
    assert hostile.ruleset.clauses[0].wording in hostile_page.text
    assert hostile.ruleset.name in hostile_page.text


def test_embedded_table_cannot_end_its_script_and_says_what_the_cells_say(
    hostile_page: PageReader, hostile: Matrix
) -> None:
    """The data of the script come back unchanged, whatever end tags the texts hold."""
    table = embedded(hostile_page)
    cells = cells_of(table)
    for number, row in enumerate(hostile.cells):
        for clause, cell in enumerate(row):
            kind, reason, steps, *_ = [*cells[number][clause], [], []]
            verdict, _, basis, _ = table["kinds"][kind]
            texts = [table["verdicts"][verdict], text_of(table, basis), text_of(table, reason)]
            assert texts == [cell.verdict, cell.basis, cell.reason]
            said = [[text_of(table, text) for text in table["steps"][step][3:5]] for step in steps]
            assert said == [[step.text, step.detail] for step in cell.steps]


def test_page_loads_nothing(page: PageReader, hostile_page: PageReader) -> None:
    """No element and no style names anything outside the page."""
    for reader in (page, hostile_page):
        links = [one.attributes[name] for one in reader.elements for name in ("src", "href") if name in one.attributes]
        assert [link for link in links if not link.startswith("#")] == []
        assert not re.search(r"@import|url\(", "".join(one.text for one in reader.named("style")))


def test_policy_allows_just_the_style_and_the_script_of_the_page(page: PageReader) -> None:
    """The hashes are those that Content Security Policy Level 3, section 6.7.3.3, computes from the inline text."""
    policy = next(one for one in page.named("meta") if one.attributes.get("http-equiv") == "Content-Security-Policy")
    inline = [page.named("style")[0], next(one for one in page.named("script") if one.attributes["type"] == "module")]
    allowed = [base64.b64encode(hashlib.sha256(one.text.encode()).digest()).decode() for one in inline]
    assert policy.attributes["content"] == (
        f"default-src 'none'; style-src 'sha256-{allowed[0]}'; script-src 'sha256-{allowed[1]}'; "
        "base-uri 'none'; form-action 'none'"
    )
    assert not [one for one in page.elements if "style" in one.attributes]


def test_every_link_leads_somewhere_and_names_are_unique(page: PageReader, large: Matrix) -> None:
    """As the HTML standard asks: a name stands once, and a link to a place in the page finds it."""
    for reader in (page, read_page(render_page(large))):
        names = [one.attributes["id"] for one in reader.elements if "id" in one.attributes]
        assert len(names) == len(set(names))
        links = {one.attributes["href"][1:] for one in reader.elements if "href" in one.attributes}
        assert links <= set(names)
        key = "aria-labelledby"
        labels = {one.attributes[key] for one in reader.elements if key in one.attributes}
        assert labels - set(names) == {"panel-title"}, "the panel's title is made when a cell is opened"


def test_page_says_its_language_and_its_encoding(page: PageReader) -> None:
    """The page can be read aloud and holds the marks of the trade; WCAG 2.1, success criterion 3.1.1."""
    assert page.named("html")[0].attributes == {"lang": "en"}
    assert page.named("meta")[0].attributes == {"charset": "utf-8"}
    assert all(one.attributes.get("scope") in ("row", "col") for one in some(page.named("th")))


def test_large_page_stays_small_and_tells_each_reason_once(large: Matrix) -> None:
    """200 lines by 40 clauses come to less than 300 kB, because equal parts of the data are stored once."""
    text = render_page(large)
    assert len(text.encode()) < 300_000
    texts = embedded(read_page(text))["texts"]
    assert len(texts) == len({json.dumps(text) for text in texts})


def luminance(colour: str) -> float:
    """Return the relative luminance of "#rrggbb" as WCAG 2.1 defines it."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("theme", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize(
    ("text", "ground"),
    [(text, ground) for text in ("ink", "quiet", "warm", "cool") for ground in ("paper", "sheet")]
    + [("on-warm", "warm"), ("cool", "cool-wash")],
)
def test_text_stands_out_from_its_ground(theme: int, text: str, ground: str) -> None:
    """Each pair of colours has the contrast of 4.5 to 1 that WCAG 2.1, success criterion 1.4.3 (AA), asks for."""
    blocks = re.findall(r":root \{(.*?)\}", (TEMPLATES / "page.css").read_text(encoding="utf-8"), re.DOTALL)
    colours = dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6})", blocks[theme]))
    low, high = sorted((luminance(colours[text]), luminance(colours[ground])))
    assert (high + 0.05) / (low + 0.05) >= 4.5


def test_contrast_formula_gives_the_published_extremes() -> None:
    """Black on white is 21 to 1, the largest contrast that WCAG 2.1 names."""
    assert (luminance("#ffffff") + 0.05) / (luminance("#000000") + 0.05) == pytest.approx(21)


def test_empty_matrix_is_told_as_no_pass(plant: Matrix) -> None:
    """A ruleset without clauses judges nothing, and the page says that this is no pass."""
    from dataclasses import replace

    nothing = Matrix(plant.schedule, replace(plant.ruleset, clauses=()), tuple(() for _ in plant.schedule.lines))
    assert "Nothing was judged: no mandatory clause applies to any line. This is not a pass." in render_page(nothing)
