"""A running desk, and a page of it in a browser."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from tests.browsing import PATIENCE, watched_page
from tests.desk.screens import open_dairy

TOP = Path(__file__).parents[2]


@dataclass(frozen=True)
class RunningDesk:
    """A desk in a process of its own: its first address, and the folder of its projects."""

    address: str
    folder: Path

    @property
    def home(self) -> str:
        """The address without the token."""
        return self.address.split("/?")[0]


def start_desk(folder: Path) -> tuple[subprocess.Popen[str], RunningDesk]:
    """Start a desk on a folder."""
    process = subprocess.Popen(
        [sys.executable, "-m", "speccheck", "desk", str(folder), "--no-browser"],
        stdout=subprocess.PIPE, text=True, cwd=TOP, env={**os.environ, "PYTHONUNBUFFERED": "1"},
    )  # fmt: skip
    assert process.stdout is not None
    found = re.search(r"http://\S+", process.stdout.readline())
    assert found is not None
    return process, RunningDesk(found[0], folder)


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningDesk]:
    """A desk on an empty folder."""
    process, running = start_desk(tmp_path_factory.mktemp("reviews"))
    yield running
    process.terminate()
    process.wait(timeout=20)
    assert process.stdout is not None
    process.stdout.close()


@pytest.fixture(scope="module")
def dairy(browser: Any, desk: RunningDesk) -> Iterator[str]:
    """The address of a project with the dairy in it."""
    context = browser.new_context()
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(desk.address)
    yield open_dairy(page, desk)
    context.close()


@pytest.fixture(scope="module")
def begun(browser: Any, desk: RunningDesk) -> Iterator[str]:
    """The address of a project to which nothing was submitted yet."""
    page = browser.new_page()
    page.set_default_timeout(PATIENCE)
    page.goto(desk.address)
    page.check("input[value='energy/ashrae-90.1']")
    page.click("text=Begin without a schedule")
    page.wait_for_selector("a.card:has-text('Blank workbook')")
    yield str(page.url)
    page.close()


@pytest.fixture
def page(browser: Any, desk: RunningDesk) -> Iterator[Any]:
    """A page that has the cookie of the desk; an error on its console fails the test."""
    with watched_page(browser) as opened:
        opened.goto(desk.address)
        yield opened
