"""The pages beside the report, as the commands write them, in a real browser: readable by everybody, closed, quiet."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from tests.browsing import faults, watched_page

EXAMPLES = Path(__file__).parents[2] / "examples"
DAIRY = EXAMPLES / "dairy"
CLAUSES, SCHEDULE = str(DAIRY / "project.clauses"), str(DAIRY / "schedule.xlsx")
COMMANDS: dict[str, tuple[str, ...]] = {
    "reply": ("reply", SCHEDULE, "--against", CLAUSES),
    "rounds": ("compare", SCHEDULE, str(DAIRY / "second-round" / "resubmittal.xlsx"), "--against", CLAUSES),
    "prose": ("prose", CLAUSES),
    "proofreading": ("proofread", str(EXAMPLES / "proofreading" / "bands-as-printed.clauses")),
    "sweep": (
        *("sweep", CLAUSES, "pipe size 1 in to 4 in", "thickness 1/2 in, 1 in"),
        "service heating hot water; operating temperature 180 F",
    ),
}


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory, browser: Any) -> dict[str, str]:
    """The addresses of the pages that the commands write; made only where there is a browser to look at them."""
    folder = tmp_path_factory.mktemp("pages")
    for name, words in COMMANDS.items():
        CliRunner().invoke(speccheck, [*words, "--page", str(folder / f"{name}.html")], standalone_mode=False)
    return {name: (folder / f"{name}.html").as_uri() for name in COMMANDS}


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [1440, 390])
def test_pages_are_readable_by_everybody(browser: Any, pages: dict[str, str], width: int, theme: str) -> None:
    """No page breaks a rule of axe-core (WCAG 2.2), and none is wider than its window."""
    assert faults(browser, (width, theme), pages.values(), lambda page, address: page.goto(address)) == []


def test_pages_ask_for_nothing_and_complain_of_nothing(browser: Any, pages: dict[str, str]) -> None:
    """A page that is sent by mail works without a server: it loads no other file, and its console is empty."""
    with watched_page(browser) as page:
        asked: list[str] = []
        page.on("request", lambda one: asked.append(one.url))
        for address in pages.values():
            page.goto(address)
            page.wait_for_selector("h1")
        assert asked == list(pages.values())
