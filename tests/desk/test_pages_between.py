"""The pages that stand between screens: something is refused, was changed, cannot be read, takes long, has ended."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from tests.browsing import faults
from tests.desk.conftest import RunningDesk, start_desk
from tests.desk.screens import goto
from tests.desk.walking import faults_of_walk

LONG = b"Mark,Service,Pipe Size,Operating Temp,Insulation,Thickness\n" + b"".join(
    b"L-%d,Chilled water,%d in,4%d F,Elastomeric foam,%d/4 in\n" % (n, 1 + n % 8, n % 9, 1 + n % 7) for n in range(1500)
)


def check(page: Any, desk: RunningDesk, name: str, content: bytes) -> None:
    """Check a file on the first screen."""
    goto(page, desk.home)
    page.set_input_files("input[name=schedule]", {"name": name, "mimeType": "", "buffer": content})
    page.check("input[value='trade-practice']")
    page.click("text=Check the schedule")


def refused(page: Any, desk: RunningDesk, dairy: str) -> str:
    """A file of a kind that is not read."""
    check(page, desk, "program.exe", b"MZ")
    return "Not done"


def unreadable(page: Any, desk: RunningDesk, dairy: str) -> str:
    """A file without a table."""
    check(page, desk, "s.csv", b"nothing\n")
    return "Nothing was judged"


def changed(page: Any, desk: RunningDesk, dairy: str) -> str:
    """Clauses that somebody else has changed since they were opened."""
    goto(page, f"{dairy}/clauses")
    page.press("#source", "Control+End")
    page.keyboard.type("-- mine\n")
    file = desk.folder / dairy.rsplit("/", 1)[1] / "clauses" / "project.clauses"
    file.write_text(file.read_text("utf-8") + "-- theirs\n", "utf-8")
    page.click("button:text-is('Save')")
    return "Somebody else changed this meanwhile"


def working(page: Any, desk: RunningDesk, dairy: str) -> str:
    """Corrections of 1,500 lines, which take longer than this test looks."""
    check(page, desk, "l.csv", LONG)
    page.wait_for_selector("#outcome")
    page.goto(f"{page.url}/contractor")
    return "Working …"


def ended(page: Any, folder: Path) -> str:
    """A desk that is ended."""
    process, desk = start_desk(folder)
    page.goto(desk.address)
    page.click("text=End the desk")
    page.wait_for_selector("h1:text-is('The desk has ended')")
    process.wait(timeout=60)
    assert process.stdout is not None
    process.stdout.close()
    return "The desk has ended"


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [1440, 390])
def test_pages_between_are_for_everybody(
    browser: Any, desk: RunningDesk, dairy: str, tmp_path: Path, width: int, theme: str
) -> None:
    """None breaks a rule of axe-core, is wider than its window, or hides something from the keyboard."""
    ways: dict[str, Callable[[Any], str]] = {
        made.__name__: partial(made, desk=desk, dairy=dairy) for made in (refused, unreadable, changed, working)
    }
    ways["ended"] = partial(ended, folder=tmp_path)
    walked = []

    def visit(page: Any, name: str) -> None:
        if name == "ended":  # the long work before it is stopped, or it takes the processes of the next test
            page.click("button:text-is('Stop')")
            page.wait_for_selector("text=Reviews in this folder")
        page.wait_for_selector(f"h1:text-is('{ways[name](page)}')")
        walked.extend((name, fault) for fault in faults_of_walk(page))

    found = faults(browser, (width, theme), ways, visit, first=desk.address)
    assert found + walked == []
