"""The page: complete without its script, closed to the outside, readable by everybody."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from pathlib import Path
from typing import Any

import pytest

from speccheck.judge.judgement import Verdict
from speccheck.report.html import page as page_module
from speccheck.report.html.page import render_page
from speccheck.report.wording import STANDING_CAUTIONS, mark
from speccheck.review.matrix import Matrix
from tests.report.page_reader import PageReader, ReadElement, read_page

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


def test_matrix_is_a_plain_table_of_marks(page: PageReader, plant: Matrix) -> None:
    """The matrix stands in the page as a table, so that it can be read without the script."""
    marks = [one.text for one in page.named("td") if classes(one) & VERDICT_CLASSES]
    assert marks == [mark(cell) for row in plant.cells for cell in row]
    assert marks == ["–", "ask", "–", "–", "–", "ask", "–", "–", "FAIL", "–", "ok*", "–", "ok", "–", "–", "(ask)"]


def test_findings_are_told_without_the_script(page: PageReader, plant: Matrix) -> None:
    """Each finding stands in the static part with its line, its reason and, folded, its working."""
    told = [one.text for one in page.named("details")]
    for found in plant.findings(Verdict.FAILS, Verdict.CANNOT_TELL):
        mine = [text for text in told if found.line.name in text and found.cell.reason in text]
        assert len(mine) == 1, found
        assert all(step.text in mine[0] and step.detail in mine[0] for step in found.cell.steps)


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
    for number, row in enumerate(hostile.cells):
        for clause, cell in enumerate(row):
            kept = table["cells"][table["grid"][number][clause]]
            texts = [table["texts"][kept[2]], table["texts"][kept[3]]]
            assert [table["verdicts"][kept[0]], *texts] == [cell.verdict, cell.basis, cell.reason]
            numbers = [table["steps"][step][3:5] for step in kept[4]]
            steps = [[table["texts"][number] for number in pair] for pair in numbers]
            assert steps == [[step.text, step.detail] for step in cell.steps]


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
    assert all(one.attributes.get("scope") in ("row", "col") for one in page.named("th"))


def test_large_page_stays_small_and_tells_each_reason_once(large: Matrix) -> None:
    """200 lines by 40 clauses come to less than 2 MB, because equal parts of the data are stored once."""
    text = render_page(large)
    assert len(text.encode()) < 2_000_000
    texts = embedded(read_page(text))["texts"]
    assert len(texts) == len(set(texts))


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
