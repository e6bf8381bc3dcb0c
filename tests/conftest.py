"""What all tests share: no test is timed, so that a busy machine fails none; and a browser for the tests of pages.

Without a browser these are skipped and say so, unless one is asked for.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import settings

NEEDED = "SPECCHECK_NEEDS_BROWSER"

# Drawn anew at every run, so that what nobody thought of is met in time; the same in `.ci/run`, so that no change is
# refused for a fault that it did not bring.
SAME_DRAWS = bool(os.environ.get("SPECCHECK_SAME_DRAWS"))
settings.register_profile("untimed", deadline=None, derandomize=SAME_DRAWS)
settings.load_profile("untimed")


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """Debian's chromium, driven by Playwright; ended with its module, or its event loop would run on in other tests."""
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
