"""Pages in a browser: one whose console is watched, and which rules of accessibility pages break."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest

PATIENCE = 180_000
"""Milliseconds that a test waits for a page: much, so that a busy machine fails none."""


@contextmanager
def watched_page(browser: Any) -> Iterator[Any]:
    """Open a page; an error on its console fails the test."""
    context = browser.new_context(viewport={"width": 1440, "height": 900}, accept_downloads=True)
    context.set_default_timeout(PATIENCE)
    opened = context.new_page()
    errors: list[str] = []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    opened.on("console", lambda told: errors.append(told.text) if told.type == "error" else None)
    yield opened
    context.close()
    assert errors == []


def faults(
    browser: Any,
    window: tuple[int, str],
    addresses: Iterable[str],
    visit: Callable[[Any, str], object],
    first: str = "about:blank",
) -> list[tuple[str, str, list[str]]]:
    """Return the rules of axe-core (WCAG 2.2) that pages break, and which pages are wider than their window.

    `window` is a width and a colour scheme, `visit` goes to an address, `first` is opened before the others.
    """
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    width, theme = window
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=theme, bypass_csp=True)
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(first)
    broken: list[tuple[str, str, list[str]]] = []
    for address in addresses:
        visit(page, address)
        found = axe.run(page).response["violations"]
        broken += [(address, one["id"], [node["html"][:120] for node in one["nodes"][:3]]) for one in found]
        if page.evaluate("document.documentElement.scrollWidth > innerWidth + 1"):
            broken.append((address, "wider than the window", []))
    context.close()
    return broken
