"""A browser for the tests of pages. Without one they are skipped and say so, unless one is asked for."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from typing import Any

import pytest

NEEDED = "SPECCHECK_NEEDS_BROWSER"


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Debian's chromium, driven by Playwright."""
    path = os.environ.get("SPECCHECK_BROWSER") or shutil.which("chromium")
    if path is None:
        if os.environ.get(NEEDED):
            pytest.fail("no chromium is installed, and the browser tests are asked for")
        pytest.skip("no chromium is installed: the tests in a browser were not run")
    playwright = pytest.importorskip("playwright.sync_api")
    with playwright.sync_playwright() as started:
        opened = started.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield opened
        opened.close()
