"""Renews the pictures of the desk and of the report page in `examples/dairy/report`, with chromium.

`python -m tests.tools.desk_pictures` draws them.
"""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import Any

from tests.desk.conftest import start_desk

REPORT = Path(__file__).parents[2] / "examples" / "dairy" / "report"
SECOND_ROUND = REPORT.parent / "second-round"
PAPERS = {"design": "design-list.csv", "products": "products.toml", "deviations": "deviations.toml"}
WIDTHS = (1440, 390)
TO_AN_EXAMPLE = """() => {
  const area = document.querySelector("#source"), lines = area.value.split("\\n");
  const line = lines.findIndex((one) => one.startsWith("  example")) - 12;
  area.scrollTop = line * parseFloat(getComputedStyle(area).lineHeight);
}"""
SCREENS = {
    "review": "", "matrix": "/matrix", "findings": "/findings", "reading": "/reading", "rounds": "/rounds",
    "contractor": "/contractor", "clauses": "/clauses",
}  # fmt: skip


def main() -> None:
    """Draw every screen in both widths."""
    from playwright.sync_api import sync_playwright

    process, desk = start_desk(Path(tempfile.mkdtemp()))
    try:
        with sync_playwright() as started:
            browser = started.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
            page = browser.new_page(viewport={"width": WIDTHS[0], "height": 900})
            page.set_default_timeout(180_000)
            page.goto(desk.address)
            page.click("text=Open the invented dairy")
            page.wait_for_selector(".outcome")
            project = page.url
            page.goto(f"{project}/rounds")
            page.set_input_files("input[name=schedule]", SECOND_ROUND / "resubmittal.xlsx")
            page.click("text=Add it as the next round")
            page.wait_for_selector("#became")
            addresses = {"start": desk.home, "system": f"{desk.home}/system"}
            addresses |= {name: project + end for name, end in SCREENS.items()}
            for name, address in addresses.items():
                _draw(page, name, address if name in ("start", "system", "rounds") else f"{address}?round=01")
            _give_papers(page, project)  # last, for what they bring up is in every other screen from then on
            _draw(page, "papers", f"{project}/papers")
            page.set_viewport_size({"width": WIDTHS[0], "height": 900})
            page.goto((REPORT / "report.html").as_uri())
            page.screenshot(path=REPORT / "page.png")
            browser.close()
    finally:
        process.terminate()
        process.wait()


def _draw(page: Any, name: str, address: str) -> None:
    """Draw one screen in both widths."""
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        page.goto(address)
        page.wait_for_selector("h1:not(:has-text('Working'))")
        if name == "clauses":
            page.wait_for_selector("text=no mistake")
            if width == WIDTHS[0]:
                page.frame_locator("iframe.prose").locator("h1").wait_for()
            page.evaluate(TO_AN_EXAMPLE)
        if name == "matrix":
            page.evaluate("document.querySelector('#matrix').scrollIntoView()")
        narrow = "-narrow" if width == WIDTHS[-1] else ""
        page.screenshot(path=REPORT / f"desk-{name}{narrow}.png")


def _give_papers(page: Any, project: str) -> None:
    """Give the review its design list, product data and register of deviations, and its day."""
    page.goto(f"{project}/papers")
    for kind, file in PAPERS.items():
        form = page.locator(f"section:has(#paper-{kind}) form:has(input[type=file])")
        form.locator("input[type=file]").set_input_files(SECOND_ROUND / file)
        form.locator("button").click()
        page.wait_for_selector(f"section:has(#paper-{kind}) .paper-file")
    page.fill("input[name=on]", "2026-03-04")
    page.click("text=Set the day")
    page.wait_for_selector("form.undo:has-text('day of the review')")


if __name__ == "__main__":
    main()
