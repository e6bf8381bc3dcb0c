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
from tests.browsing import PATIENCE, becomes, comes_true, expect, faults, watched_page
from tests.report.small_matrix import large_matrix
from tests.some import some
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


def drawn(page: Any) -> None:
    """Wait until the script has drawn the matrix."""
    page.wait_for_selector("#grid tbody tr:not(.space)")


def focus_fits(page: Any, question: str) -> None:
    """Wait until what has the focus fits a question about it, `one`, in the words of the script of pages."""
    comes_true(page, f"(one => {question})(document.activeElement)")


def test_only_what_is_in_sight_is_drawn(page: Any, files: dict[str, str]) -> None:
    """Of 2,000 lines some dozen rows are in the page, with the numbers by which a screen reader counts them."""
    page.goto(files["large"])
    expect(page.locator("#grid")).to_have_attribute("aria-rowcount", str(LINES + 2))
    drawn(page)
    assert page.locator("#grid tbody tr").count() < 60
    page.evaluate("document.querySelector('#view').scrollTop = 1e7")
    expect(page.locator(f"#grid tr[aria-rowindex='{LINES + 2}'] th b")).to_have_text(f"P-{LINES}")


def test_drawn_marks_are_those_of_all_reports(page: Any, files: dict[str, str], plant: Matrix) -> None:
    """What the script draws is what the workbook and the terminal say."""
    page.goto(files["plant"])
    becomes(page, lambda: marks_shown(page), [[mark(cell) for cell in row] for row in plant.cells])


def test_script_and_page_put_the_same_lines_together(page: Any, files: dict[str, str]) -> None:
    """Each finding, opened, names as many lines as it did folded, and all findings of the matrix are named."""
    page.goto(files["demo"])
    page.evaluate("for (const one of document.querySelectorAll('.findings details')) one.open = true")
    comes_true(page, "document.querySelectorAll('.findings li:not(:has(.filled))').length === 0")
    listed = page.eval_on_selector_all(
        ".findings > li",
        "all => all.map(one => [one.querySelector('summary b').textContent, one.querySelectorAll('button.line').length,"
        " one.querySelector('button.line').textContent])",
    )
    for names, count, first in listed:
        more = re.search(r" and ([0-9]+) more$", names)
        told = re.split(r", | and ", names[: more.start()] if more else names)
        assert len(told) + (int(more[1]) if more else 0) == count
        assert names.startswith(first)
    matrix = demo_matrix()
    assert sum(count for _, count, _ in listed) == len(
        matrix.findings(Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.NOT_CHECKED)
    ) + len(matrix.advice)


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
    expect(page.locator(".findings li.named details[open]")).to_have_count(1)
    expect(page.locator("button.line.named")).to_have_text(name)
    expect(page.locator(".findings li.named .working")).to_be_visible()
    page.goto(f"{files['demo']}#cell-{row}-{column}")
    page.reload()
    expect(page.locator("#panel")).to_contain_text(demo.cells[row][column].reason, use_inner_text=True)
    expect(page.locator("#panel .about").first).to_contain_text(f"Line {name}")
    page.goto(files["demo"])
    page.locator(".first a").first.click()
    expect(page.locator(".findings li.named details[open]")).to_have_count(1)


def test_filters_stand_in_the_address(page: Any, files: dict[str, str], demo: Matrix) -> None:
    """What is chosen can be sent: the same address shows the same lines again; and it narrows the lists too."""
    page.goto(files["demo"])
    page.select_option("[name=verdict]", "0")
    page.fill("[name=text]", "ice water")
    page.wait_for_url(re.compile("ice"))
    shown = page.locator("output[name=shown]")
    expect(shown).to_contain_text("of 65 lines")
    said = shown.inner_text()
    becomes(page, lambda: {"FAIL" in "".join(row) for row in marks_shown(page)}, {True})
    rows = marks_shown(page)
    every = page.locator(".findings > li").count()
    becomes(page, lambda: 0 < page.locator(".findings > li:visible").count() < every, True)
    address = page.url
    page.goto("about:blank")
    page.goto(address)
    expect(shown).to_have_text(said)
    becomes(page, lambda: marks_shown(page), rows)
    page.click("text=Show all")
    expect(shown).to_have_text("")
    expect(page.locator(".findings > li:visible")).to_have_count(every)


def test_lines_are_grouped_and_complied_groups_are_folded(page: Any, files: dict[str, str], demo: Matrix) -> None:
    """By section: a group in which something was found is open, one in which nothing was is folded."""
    page.goto(f"{files['demo']}#matrix?group=section")
    page.wait_for_selector(".group-row")
    groups = page.eval_on_selector_all(
        ".group-row",
        "rows => rows.map(row => [row.innerText, row.querySelector('button').getAttribute('aria-expanded')])",
    )
    assert any("ICE WATER" in words for words, _ in groups)
    assert {("no finding" in words, expanded) for words, expanded in groups} <= {(True, "false"), (False, "true")}
    parts = page.eval_on_selector_all(".parts button", "all => all.map(one => [one.title, one.ariaExpanded])")
    assert [title for title, expanded in parts if expanded == "false"]
    folded = page.locator(".heads th").count()
    page.locator(".parts button[aria-expanded=false]:not([disabled])").first.click()
    becomes(page, lambda: page.locator(".heads th").count() > folded, True)


def test_matrix_is_one_stop_of_the_keyboard(page: Any, files: dict[str, str]) -> None:
    """A skip link leads over the matrix; inside, arrow keys move, Enter opens, Esc comes back to the cell."""
    page.goto(files["demo"])
    drawn(page)
    page.focus("#filters button[type=reset]")
    page.keyboard.press("Tab")
    focus_fits(page, "one.matches('#grid td')")
    page.keyboard.press("Tab")
    focus_fits(page, "!one.closest('#grid')")
    page.keyboard.press("Shift+Tab")
    for key in ("ArrowDown", "ArrowDown", "ArrowRight", "End", "Home"):
        page.keyboard.press(key)
    focus_fits(page, "one.parentElement.dataset.row === '2'")
    page.keyboard.press("Control+End")
    focus_fits(page, "one.parentElement.dataset.row === '64'")
    page.keyboard.press("Enter")
    expect(page.locator("#panel[open]")).to_have_count(1)
    focus_fits(page, "one.textContent === 'Close'")
    page.keyboard.press("Escape")
    focus_fits(page, "one.parentElement.dataset.row === '64'")
    page.keyboard.press("Control+Home")
    page.keyboard.press("ArrowUp")
    focus_fits(page, "one.closest('.heads') !== null")
    page.focus("#matrix .skip")
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile("#after-matrix"))
    page.keyboard.press("Tab")
    focus_fits(page, "one.closest('#failing') !== null")


def test_next_finding_goes_through_all_of_them(page: Any, files: dict[str, str], plant: Matrix) -> None:
    """From the first finding, as many steps as there are others come back to it; recommendations are passed over."""
    page.goto(f"{files['plant']}#cell-0-1")
    about, seen = page.locator("#panel .about").first, []
    for _ in plant.findings(Verdict.FAILS, Verdict.CANNOT_TELL):
        seen.append(about.inner_text())
        page.click("text=Next finding")
        expect(about).not_to_have_text(seen[-1])
    assert len(set(seen)) == 3
    expect(about).to_have_text(seen[0])


def test_what_is_shown_is_taken_along(page: Any, files: dict[str, str], plant: Matrix) -> None:
    """The file has the lines and the clauses that are shown and no other."""
    page.goto(f"{files['plant']}#matrix?verdict=0")
    becomes(page, lambda: len(marks_shown(page)), 1)
    with page.expect_download() as download:
        page.click("text=Save what is shown")
    assert Path(download.value.path()).read_text("utf-8-sig").splitlines() == [
        '"Line","What it is","2.1.A"', '"HHW-1","heating hot water, 2 in","FAIL"',
    ]  # fmt: skip


def printed(page: Any) -> list[str]:
    """Return the text of each sheet of paper."""
    drawn(page)
    with pdfplumber.open(io.BytesIO(page.pdf(format="Letter", landscape=True))) as opened:
        return [sheet.extract_text() for sheet in opened.pages]


def test_every_cell_is_printed_with_the_name_of_its_line(page: Any, files: dict[str, str], demo: Matrix) -> None:
    """Some 70 clauses do not fit one sheet of Letter: they are split over several, and no mark is lost."""
    page.goto(files["demo"])
    sheets = printed(page)
    named = {
        n: found for n, text in enumerate(sheets) if (found := re.search(r"part (\d) of (\d) of the matrix", text))
    }
    parts = list(named)
    count = int(named[parts[0]][2])
    assert count >= 3
    assert [found[0] for found in named.values()] == [f"part {n} of {count} of the matrix" for n in range(1, count + 1)]
    end = next(number for number, text in enumerate(sheets) if "Does not comply" in text.splitlines())
    matrix = "\n".join(sheets[parts[0] : end + 1])
    wanted = [mark(cell) for row in demo.cells for cell in row]
    for short in ("FAIL", "info"):
        told = len(re.findall(rf"(?<![A-Za-z(]){short}(?![A-Za-z])", matrix))
        assert told >= sum(one.startswith(short) for one in wanted), short
    for line in demo.schedule.lines:
        assert len(re.findall(rf"^{re.escape(line.name)}\b", matrix, re.MULTILINE)) >= count, line.name


def test_workings_are_printed_only_when_asked_for(page: Any, files: dict[str, str]) -> None:
    """An opened finding is printed folded; with the box ticked every finding is printed with its working."""
    page.goto(f"{files['plant']}#finding-2-0")
    expect(page.locator(".working")).to_have_count(1)
    assert "holds" not in "".join(printed(page))
    page.check("#print-workings")
    assert "holds" in "".join(printed(page))


def test_page_is_readable_without_its_script(browser: Any, files: dict[str, str], demo: Matrix) -> None:
    """With scripts switched off the findings, their lines and the matrix by verdict can be seen."""
    context = browser.new_context(java_script_enabled=False, viewport={"width": 1440, "height": 900})
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(files["demo"])
    expect(page.locator(".by-verdict tbody tr")).to_have_count(len(demo.schedule.lines))
    expect(page.locator(".by-verdict")).to_be_visible()
    expect(page.locator("#filters")).to_be_hidden()
    text = page.text_content("#failing")
    failing = demo.findings(Verdict.FAILS)
    assert all(found.cell.reason in text for found in some(failing))
    context.close()


def test_planted_markup_stays_text(page: Any, files: dict[str, str]) -> None:
    """Nothing in the texts of a schedule or a ruleset becomes an element or runs, in any part of the page."""
    page.goto(files["hostile"])
    drawn(page)
    before = page.locator("img, iframe, object, svg").count()
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")
    for cell in page.locator("#grid tr[data-row] td").all():
        cell.click()
        expect(page.locator("#panel[open]")).to_have_count(1)
        page.keyboard.press("Escape")
        expect(page.locator("#panel[open]")).to_have_count(0)
    assert page.locator("img, iframe, object, svg").count() == before == 0
    assert page.locator("script").count() == 2


def test_labels_of_the_pictures_do_not_collide(page: Any, files: dict[str, str]) -> None:
    """No two texts of a picture share a place, as the browser measures them."""
    page.goto(files["demo"])
    comes_true(page, "document.querySelectorAll('figure svg').length > 3")
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
    assert collided == []


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [1440, 390])
def test_page_is_readable_by_everybody(browser: Any, files: dict[str, str], width: int, theme: str) -> None:
    """The page breaks no rule of axe-core (WCAG 2.2), with a cell open too, and is not wider than its window."""
    addresses = (files["demo"], f"{files['demo']}#cell-1-9", f"{files['demo']}#matrix?group=service")

    def visit(page: Any, address: str) -> None:
        page.goto("about:blank")
        page.goto(address)
        drawn(page)
        if "#cell" in address:
            page.wait_for_selector("#panel[open]")

    assert faults(browser, (width, theme), addresses, visit) == []
