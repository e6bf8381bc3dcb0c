"""The report page in a real browser, from a file as a mail brings it: read, searched, moved through, printed."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from speccheck.judge.judgement import Verdict
from speccheck.report.html.page import render_page
from speccheck.report.wording import mark
from speccheck.review.matrix import Matrix
from tests.browsing import PATIENCE, faults, watched_page
from tests.report.small_matrix import large_matrix
from tests.tools.demo_report import demo_matrix

LINES, CLAUSES = 2000, 70


@pytest.fixture(scope="module")
def demo() -> Matrix:
    """The matrix of the invented dairy."""
    return demo_matrix()


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory, plant: Matrix, hostile: Matrix, demo: Matrix) -> dict[str, str]:
    """The addresses of some pages as files: a small one, one full of planted markup, the demo, and a large one."""
    folder = tmp_path_factory.mktemp("pages")
    matrices = {"plant": plant, "hostile": hostile, "demo": demo, "large": large_matrix(LINES, CLAUSES)}
    for name, matrix in matrices.items():
        (folder / f"{name}.html").write_text(render_page(matrix), encoding="utf-8")
    return {name: (folder / f"{name}.html").as_uri() for name in matrices}


@pytest.fixture
def page(browser: Any) -> Iterator[Any]:
    """A page; an error on its console fails the test."""
    with watched_page(browser) as opened:
        yield opened


def marks_shown(page: Any) -> list[list[str]]:
    """Return the marks of the rows that are drawn."""
    found = page.eval_on_selector_all(
        "#grid tbody tr[data-row]", "rows => rows.map(row => [...row.cells].slice(1).map(cell => cell.textContent))"
    )
    return [list(row) for row in found]


def focused(page: Any) -> str:
    """Return the text of the element that has the focus."""
    return str(page.evaluate("document.activeElement.textContent"))


def test_only_what_is_in_sight_is_drawn(page: Any, files: dict[str, str]) -> None:
    """Of 2,000 lines some dozen rows are in the page, with the numbers by which a screen reader counts them."""
    page.goto(files["large"])
    assert page.get_attribute("#grid", "aria-rowcount") == str(LINES + 2)
    assert page.locator("#grid tbody tr").count() < 60
    page.evaluate("document.querySelector('#view').scrollTop = 1e7")
    page.wait_for_selector(f"#grid tr[aria-rowindex='{LINES + 2}']")
    assert page.inner_text(f"#grid tr[aria-rowindex='{LINES + 2}'] th b") == f"P-{LINES}"


def test_drawn_marks_are_those_of_all_reports(page: Any, files: dict[str, str], plant: Matrix) -> None:
    """What the script draws is what the workbook and the terminal say."""
    page.goto(files["plant"])
    assert marks_shown(page) == [[mark(cell) for cell in row] for row in plant.cells]


def test_script_and_page_put_the_same_lines_together(page: Any, files: dict[str, str]) -> None:
    """Each finding, opened, names as many lines as it did folded, and all findings of the matrix are named."""
    page.goto(files["demo"])
    page.evaluate("for (const one of document.querySelectorAll('.findings details')) one.open = true")
    page.wait_for_function("document.querySelectorAll('.findings li:not(:has(.filled))').length === 0")
    listed = page.eval_on_selector_all(
        ".findings > li",
        "all => all.map(one => [one.querySelector('summary b').textContent, one.querySelectorAll('button.line').length,"
        " one.querySelector('button.line').textContent])",
    )
    for names, count, first in listed:
        more = re.search(r" and ([0-9]+) more$", names)
        assert names.count(",") + 1 + (int(more[1]) if more else 0) == count
        assert names.startswith(first)
    told = demo_matrix()
    assert sum(count for _, count, _ in listed) == len(
        told.findings(Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.NOT_CHECKED)
    ) + len(told.advice)


def test_an_address_opens_what_it_names(page: Any, files: dict[str, str], demo: Matrix) -> None:
    """`#finding-...` opens the finding in its list, `#cell-...` the cell; the first findings lead to theirs."""
    row, column = next(
        (row, column)
        for column in range(len(demo.ruleset.clauses))
        for row, cells in enumerate(demo.cells)
        if cells[column].mandatory and cells[column].verdict is Verdict.FAILS
    )
    name = demo.schedule.lines[row].name
    page.goto(f"{files['demo']}#finding-{row}-{column}")
    assert page.locator(".findings li.named details[open]").count() == 1
    assert page.inner_text("button.line.named") == name
    assert page.locator(".findings li.named .working").is_visible()
    page.goto(f"{files['demo']}#cell-{row}-{column}")
    page.reload()
    assert demo.cells[row][column].reason in page.inner_text("#panel")
    assert f"Line {name}" in page.inner_text("#panel .about >> nth=0")
    page.goto(files["demo"])
    page.locator(".first a").first.click()
    assert page.locator(".findings li.named details[open]").count() == 1


def test_filters_stand_in_the_address(page: Any, files: dict[str, str], demo: Matrix) -> None:
    """What is chosen can be sent: the same address shows the same lines again; and it narrows the lists too."""
    page.goto(files["demo"])
    page.select_option("[name=verdict]", "0")
    page.fill("[name=text]", "ice water")
    shown = page.inner_text("output[name=shown]")
    assert "of 65 lines" in shown
    rows = marks_shown(page)
    assert rows
    assert all("FAIL" in "".join(row) for row in rows)
    visible = page.locator(".findings > li:visible").count()
    assert 0 < visible < page.locator(".findings > li").count()
    address = page.url
    page.goto("about:blank")
    page.goto(address)
    assert page.inner_text("output[name=shown]") == shown
    assert marks_shown(page) == rows
    page.click("text=Show all")
    page.wait_for_function("!document.querySelector('output[name=shown]').value")


def test_lines_are_grouped_and_complied_groups_are_folded(page: Any, files: dict[str, str], demo: Matrix) -> None:
    """By section: a group in which something was found is open, one in which nothing was is folded."""
    page.goto(f"{files['demo']}#matrix?group=section")
    groups = page.eval_on_selector_all(
        ".group-row",
        "rows => rows.map(row => [row.innerText, row.querySelector('button').getAttribute('aria-expanded')])",
    )
    assert any("ICE WATER" in words for words, _ in groups)
    assert {("no finding" in words, expanded) for words, expanded in groups} <= {(True, "false"), (False, "true")}
    parts = page.eval_on_selector_all(".parts button", "all => all.map(one => [one.title, one.ariaExpanded])")
    assert [title for title, expanded in parts if expanded == "false"]
    drawn = page.locator(".heads th").count()
    page.locator(".parts button[aria-expanded=false]:not([disabled])").first.click()
    assert page.locator(".heads th").count() > drawn


def test_matrix_is_one_stop_of_the_keyboard(page: Any, files: dict[str, str]) -> None:
    """A skip link leads over the matrix; inside, arrow keys move, Enter opens, Esc comes back to the cell."""
    page.goto(files["demo"])
    page.focus("#filters button[type=reset]")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.matches('#grid td')")
    page.keyboard.press("Tab")
    assert page.evaluate("!document.activeElement.closest('#grid')")
    page.keyboard.press("Shift+Tab")
    for key in ("ArrowDown", "ArrowDown", "ArrowRight", "End", "Home"):
        page.keyboard.press(key)
    assert page.evaluate("document.activeElement.parentElement.dataset.row") == "2"
    page.keyboard.press("Control+End")
    assert page.evaluate("document.activeElement.parentElement.dataset.row") == "64"
    page.keyboard.press("Enter")
    assert page.locator("#panel[open]").count() == 1
    assert focused(page) == "Close"
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.parentElement.dataset.row") == "64"
    page.keyboard.press("Control+Home")
    page.keyboard.press("ArrowUp")
    assert page.evaluate("document.activeElement.closest('.heads') !== null")
    page.evaluate("document.querySelector('#matrix .skip').focus()")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('#failing') !== null")


def test_next_finding_goes_through_all_of_them(page: Any, files: dict[str, str], plant: Matrix) -> None:
    """From the first finding, as many steps as there are others come back to it; recommendations are passed over."""
    page.goto(f"{files['plant']}#cell-0-1")
    seen = []
    for _ in plant.findings(Verdict.FAILS, Verdict.CANNOT_TELL):
        seen.append(page.inner_text("#panel .about >> nth=0"))
        page.click("text=Next finding")
    assert len(set(seen)) == 3
    assert page.inner_text("#panel .about >> nth=0") == seen[0]


def test_what_is_shown_is_taken_along(page: Any, files: dict[str, str], plant: Matrix) -> None:
    """The file has the lines and the clauses that are shown and no other."""
    page.goto(f"{files['plant']}#matrix?verdict=0")
    with page.expect_download() as download:
        page.click("text=Save what is shown")
    assert Path(download.value.path()).read_text("utf-8-sig").splitlines() == [
        '"Line","What it is","2.1.A"', '"HHW-1","heating hot water, 2 in","FAIL"',
    ]  # fmt: skip


def printed(page: Any) -> list[str]:
    """Return the text of each sheet of paper."""
    with pdfplumber.open(io.BytesIO(page.pdf(format="Letter", landscape=True))) as opened:
        return [sheet.extract_text() for sheet in opened.pages]


def test_every_cell_is_printed_with_the_name_of_its_line(page: Any, files: dict[str, str], demo: Matrix) -> None:
    """70 clauses do not fit one sheet of Letter: they are split over three, and no mark is lost."""
    page.goto(files["demo"])
    sheets = printed(page)
    parts = [number for number, text in enumerate(sheets) if re.search(r"part [0-9] of 3 of the matrix", text)]
    assert len(parts) == 3
    end = next(number for number, text in enumerate(sheets) if "Does not comply" in text.splitlines())
    matrix = "\n".join(sheets[parts[0] : end + 1])
    wanted = [mark(cell) for row in demo.cells for cell in row]
    for short in ("FAIL", "ask"):
        told = len(re.findall(rf"(?<![A-Za-z(]){short}(?![A-Za-z])", matrix))
        assert told >= sum(one.startswith(short) for one in wanted), short
    for line in demo.schedule.lines:
        assert len(re.findall(rf"^{re.escape(line.name)}\b", matrix, re.MULTILINE)) >= 3, line.name


def test_workings_are_printed_only_when_asked_for(page: Any, files: dict[str, str]) -> None:
    """An opened finding is printed folded; with the box ticked every finding is printed with its working."""
    page.goto(f"{files['plant']}#finding-2-0")
    assert page.locator(".working").count() == 1
    assert "holds" not in "".join(printed(page))
    page.check("#print-workings")
    assert "holds" in "".join(printed(page))


def test_page_is_readable_without_its_script(browser: Any, files: dict[str, str], demo: Matrix) -> None:
    """With scripts switched off the findings, their lines and the matrix by verdict can be seen."""
    context = browser.new_context(java_script_enabled=False, viewport={"width": 1440, "height": 900})
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(files["demo"])
    assert page.locator(".by-verdict tbody tr").count() == len(demo.schedule.lines)
    assert page.locator(".by-verdict").is_visible()
    assert page.locator("#filters").is_hidden()
    text = page.text_content("#failing")
    failing = demo.findings(Verdict.FAILS)
    assert all(found.cell.reason in text for found in failing)
    context.close()


def test_planted_markup_stays_text(page: Any, files: dict[str, str]) -> None:
    """Nothing in the texts of a schedule or a ruleset becomes an element or runs, in any part of the page."""
    page.goto(files["hostile"])
    before = page.locator("img, iframe, object, svg").count()
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")
    for cell in page.locator("#grid tr[data-row] td").all():
        cell.click()
        page.keyboard.press("Escape")
    assert page.locator("img, iframe, object, svg").count() == before == 0
    assert page.locator("script").count() == 2


def test_labels_of_the_pictures_do_not_collide(page: Any, files: dict[str, str]) -> None:
    """No two texts of a picture share a place, as the browser measures them."""
    page.goto(files["demo"])
    collided = page.evaluate(
        """() => [...document.querySelectorAll('figure svg')].flatMap((picture) => {
          const texts = [...picture.querySelectorAll('text')]
            .map((one) => ({ words: one.textContent, box: one.getBBox() }));
          const beside = (a, b) => a.x >= b.x + b.width || b.x >= a.x + a.width;
          const apart = (a, b) => beside(a, b) || a.y + 3 >= b.y + b.height || b.y + 3 >= a.y + a.height;
          return texts.flatMap((one, at) => texts.slice(at + 1)
            .filter((other) => !apart(one.box, other.box)).map((other) => [one.words, other.words]));
        })"""
    )
    assert page.locator("figure svg").count() > 3
    assert collided == []


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [1440, 390])
def test_page_is_readable_by_everybody(browser: Any, files: dict[str, str], width: int, theme: str) -> None:
    """The page breaks no rule of axe-core (WCAG 2.2), with a cell open too, and is not wider than its window."""
    addresses = (files["demo"], f"{files['demo']}#cell-1-9", f"{files['demo']}#matrix?group=service")

    def visit(page: Any, address: str) -> None:
        page.goto("about:blank")
        page.goto(address)

    assert faults(browser, (width, theme), addresses, visit) == []
