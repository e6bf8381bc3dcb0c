"""The page of 2,000 lines by 70 clauses in a browser, beside the marks alone as a plain table."""

from __future__ import annotations

import json
import shutil
import statistics
import time
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from benchmarks.workload import ruleset_text, write_workbook

LINES, CLAUSES, RUNS, FRAMES = 2000, 70, 5, 200
SEARCH = """async () => {
  const field = document.querySelector('[name=text]'), times = [];
  for (const word of ['s', 'st', 'ste', 'stea', 'steam']) {
    field.value = word;
    const begun = performance.now();
    field.dispatchEvent(new Event('input', { bubbles: true }));
    document.body.offsetHeight;
    times.push(performance.now() - begun);
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
  }
  return Math.max(...times);
}"""
CELL = """() => {
  const cell = document.querySelector('#grid td.fail'), begun = performance.now();
  cell.click();
  document.body.offsetHeight;
  return performance.now() - begun;
}"""
SCROLL = """async () => {
  const view = document.querySelector('#view'), times = [];
  view.scrollIntoView();
  let last = await new Promise(requestAnimationFrame);
  for (let step = 0; step < 200; step++) {
    view.scrollTop += 120;
    const now = await new Promise(requestAnimationFrame);
    times.push(now - last);
    last = now;
  }
  return 100 * times.filter((time) => time < 34).length / times.length;
}"""
ELEMENTS = "document.querySelectorAll('*').length"
LOAD = "performance.timing.loadEventEnd - performance.timing.navigationStart"
PAINT = "performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0"


def rows() -> list[tuple[str, str]]:
    """Return the rows of the table; without chromium and Playwright only how large the page is."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        page, plain, made = _pages(folder)
        sizes = (
            f"{page.stat().st_size / 1e6:.2f} MB, made in {made:.1f} s; marks alone {plain.stat().st_size / 1e6:.2f} MB"
        )
        told = [("page, 2,000 lines x 70 clauses", sizes)]
        browser = shutil.which("chromium")
        return [*told, *_in_browser(page, plain, browser)] if browser else [*told, ("in a browser", "no chromium")]


def _pages(folder: Path) -> tuple[Path, Path, float]:
    from speccheck.language import load_ruleset
    from speccheck.report.html.page import render_page
    from speccheck.report.wording import mark
    from speccheck.review import judge_schedule
    from speccheck.schedule import read_schedule

    (folder / "rules.clauses").write_text(ruleset_text(CLAUSES), encoding="utf-8")
    write_workbook(folder / "schedule.xlsx", LINES)
    ruleset = load_ruleset(folder / "rules.clauses").ruleset
    assert ruleset is not None
    matrix = judge_schedule(read_schedule(folder / "schedule.xlsx", ruleset.vocabulary), ruleset)
    begun = time.perf_counter()
    text = render_page(matrix)
    made = time.perf_counter() - begun
    page, plain = folder / "page.html", folder / "plain.html"
    page.write_text(text, encoding="utf-8")
    rows = "".join("<tr>" + "".join(f"<td>{mark(cell)}" for cell in row) for row in matrix.cells)
    plain.write_text(f"<!DOCTYPE html><meta charset=utf-8><table>{rows}</table>", encoding="utf-8")
    return page, plain, made


def _in_browser(page: Path, plain: Path, path: str) -> list[tuple[str, str]]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as started:
        browser = started.chromium.launch(executable_path=path, args=["--no-sandbox"])

        def median(file: Path, measure: Callable[[Any], float]) -> float:
            found = []
            for _ in range(RUNS):
                opened = browser.new_page(viewport={"width": 1440, "height": 900})
                opened.goto(file.as_uri())
                found.append(measure(opened))
                opened.close()
            return statistics.median(found)

        def asks(script: str) -> Callable[[Any], float]:
            return lambda opened: float(opened.evaluate(script))

        def frame_work(opened: Any) -> float:
            """Return the processor time of the drawing thread, in ms a frame; a busy machine leaves it as it is."""
            opened.evaluate(SCROLL)  # a page that has been scrolled once, as the frames counted above
            opened.evaluate("document.querySelector('#view').scrollTop = 0")
            browser.start_tracing(page=opened, categories=["disabled-by-default-devtools.timeline"])
            opened.evaluate(SCROLL)
            events = json.loads(browser.stop_tracing())["traceEvents"]
            drawing = {
                (one["pid"], one["tid"])
                for one in events
                if one["name"] == "thread_name" and one["args"]["name"] == "CrRendererMain"
            }
            tasks = [one for one in events if one["name"] == "RunTask" and (one["pid"], one["tid"]) in drawing]
            assert tasks, "chromium names the tasks of its threads otherwise now"
            return sum(one.get("tdur", 0) for one in tasks) / 1000 / FRAMES

        load, marks_alone = median(page, asks(LOAD)), median(plain, asks(LOAD))
        return [
            ("loaded", f"{load:.0f} ms, {load / marks_alone:.2f} x a plain table of the marks alone"),
            ("first paint", f"{median(page, asks(PAINT)):.0f} ms"),
            ("search, the slowest of five letters", f"{median(page, asks(SEARCH)):.0f} ms"),
            ("a cell opened", f"{median(page, asks(CELL)):.0f} ms"),
            ("frames under 34 ms while scrolling", f"{median(page, asks(SCROLL)):.0f} %"),
            ("processor time of a frame while scrolling", f"{median(page, frame_work):.0f} ms"),
            ("elements", f"{median(page, asks(ELEMENTS)):,.0f}"),
        ]
