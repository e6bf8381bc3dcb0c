"""The report page on a screen: what is seen first, said once, put in order, copied, and gone back to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from speccheck.judge.judgement import Verdict
from speccheck.report.html.page import render_page
from speccheck.report.html.pictures import pictures
from speccheck.review.matrix import Matrix
from tests.browsing import becomes, comes_true, expect, watched_page
from tests.tools.demo_report import demo_matrix


@pytest.fixture(scope="module")
def demo() -> Matrix:
    """The matrix of the invented dairy."""
    return demo_matrix()


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory, demo: Matrix) -> str:
    """The page of the dairy as a file."""
    file = tmp_path_factory.mktemp("page") / "demo.html"
    file.write_text(render_page(demo), encoding="utf-8")
    return file.as_uri()


@pytest.fixture
def page(browser: Any, address: str) -> Iterator[Any]:
    """The page, opened; an error on its console fails the test."""
    with watched_page(browser) as opened:
        opened.goto(address)
        opened.wait_for_selector("#grid tbody tr:not(.space)")
        yield opened


@pytest.mark.parametrize(("width", "seen"), [(1440, 3), (390, 1)])
def test_first_screen_shows_the_first_findings(page: Any, width: int, seen: int) -> None:
    """Without scrolling a reader sees the verdict and findings below it, at a desk and in the hand."""
    page.set_viewport_size({"width": width, "height": 900})
    bottom = page.evaluate(
        "number => document.querySelectorAll('.first li')[number].getBoundingClientRect().bottom", seen - 1
    )
    assert 0 < bottom <= 900


def test_notes_of_sources_are_said_once(page: Any) -> None:
    """With every finding opened, no note is told twice of one clause, and its source stands among the clauses alone."""
    page.evaluate("for (const one of document.querySelectorAll('.findings details')) one.open = true")
    comes_true(page, "document.querySelectorAll('.findings li:not(:has(.filled))').length === 0")
    shared = page.evaluate(
        """() => [...document.querySelectorAll('.group')].flatMap((group) => {
          const once = [...group.querySelectorAll(':scope > .note')].map((one) => one.textContent);
          const again = [...group.querySelectorAll('.filled .note')].map((one) => one.textContent);
          const twice = once.filter((note, at) => once.indexOf(note) < at);
          return [...twice, ...again.filter((note) => once.includes(note))];
        })"""
    )
    assert shared == []
    assert page.locator(".group > .note").count() > 0
    assert page.locator(".source").count() == page.locator("#clauses .source").count() > 0


def test_lines_are_put_in_order(page: Any, demo: Matrix) -> None:
    """By most findings first: the first line has as many as any has; by name; and as they were again."""
    counts = [
        sum(cell.mandatory and cell.verdict in (Verdict.FAILS, Verdict.CANNOT_TELL) for cell in row)
        for row in demo.cells
    ]
    lines = demo.schedule.lines
    first = page.locator("#grid tbody tr[data-row='0'] th b")
    page.select_option("[name=sort]", "findings")
    expect(first).to_have_text(lines[counts.index(max(counts))].name)
    assert "sort=findings" in page.url
    page.select_option("[name=sort]", "name")
    expect(first).to_have_text(
        min((line.name for line in lines), key=lambda name: (name.split("-")[0], len(name), name))
    )
    page.select_option("[name=sort]", "")
    expect(first).to_have_text(lines[0].name)


def test_previous_finding_undoes_next_finding(page: Any) -> None:
    """One step on and one step back is where one was, and the address names the cell each time."""
    page.locator("#grid td.fail").first.click()
    about = page.locator("#panel .about").first
    here, cell = about.inner_text(), page.url
    page.click("text=Next finding")
    becomes(page, lambda: page.url != cell, True)
    page.click("text=Previous finding")
    becomes(page, lambda: page.url, cell)
    expect(about).to_have_text(here)


def test_a_cell_shows_the_picture_of_its_temperatures(page: Any, demo: Matrix, address: str) -> None:
    """A line whose surface is too cold or too hot has its curves in the panel of the finding."""
    picture = pictures(demo)[0]
    clause = next(
        number
        for number, cell in enumerate(demo.cells[picture.line])
        if cell.mandatory and cell.verdict is Verdict.FAILS
    )
    page.goto("about:blank")
    page.goto(f"{address}#cell-{picture.line}-{clause}")
    expect(page.locator("#panel figure.picture svg")).to_be_visible()
    expect(page.locator("#panel figure.picture svg")).to_have_attribute(
        "aria-label", "Surface temperature and heat flow"
    )


def test_what_is_shown_is_copied_as_rows(page: Any, demo: Matrix) -> None:
    """For a spreadsheet: the clauses across, a row for each line, and each cell by its mark."""
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.click("text=Copy what is shown")
    expect(page.locator("#taken")).to_have_text(f"copied {len(demo.schedule.lines)} lines")
    rows = [row.split("\t") for row in page.evaluate("navigator.clipboard.readText()").split("\n")]
    assert len(rows) == len(demo.schedule.lines) + 1
    assert {len(row) for row in rows} == {len(demo.ruleset.clauses) + 2}


def test_rows_are_of_one_height_and_the_head_stays(page: Any) -> None:
    """However far one scrolls, the clauses stand above and the name of the line stands at the left."""
    page.evaluate("document.querySelector('#view').scrollTo(900, 900)")
    becomes(page, lambda: page.locator("#grid tr[data-row='20']").count(), 1)
    gaps = page.evaluate(
        """() => { const box = (one) => document.querySelector(one).getBoundingClientRect();
          const [view, head, name] = [box('#view'), box('#grid thead'), box('#grid tr[data-row] th')];
          return [head.top - view.top, name.left - view.left]; }"""
    )
    assert [round(one) for one in gaps] == [1, 1]
    heights = page.eval_on_selector_all(
        "#grid tr[data-row]", "all => all.map((one) => one.getBoundingClientRect().height)"
    )
    assert len({round(one, 2) for one in heights}) == 1


@pytest.mark.parametrize("width", [1440, 390])
def test_a_finding_that_is_opened_is_in_sight(page: Any, width: int) -> None:
    """However long its working is, what it says stands on the screen: from the first findings, and by its address."""
    page.set_viewport_size({"width": width, "height": 900})
    for number in range(page.locator(".first a").count()):
        page.locator(".first a").nth(number).click()
        summary = page.locator(".findings li.named summary")
        expect(summary).to_be_focused()
        expect(summary).to_be_in_viewport(ratio=1)
        page.evaluate("scrollTo(0, 0)")


def test_a_part_of_one_column_has_no_name_that_is_cut_off(page: Any) -> None:
    """Its clause says what it is; whoever hears the page is still told the name of the part."""
    parts = page.locator("#grid .parts button")
    shown = [one for one in parts.all_inner_texts() if one]
    assert len(shown) < parts.count()
    assert min(map(len, [one for one in shown if one != "▸"])) > 5
    for one in parts.all():
        assert one.inner_text().removeprefix("▾ ") == one.get_attribute("title").rpartition(":")[
            0
        ] or one.get_attribute("aria-label")
