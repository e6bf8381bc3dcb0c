"""Pages in a browser: one whose console is watched, answers that are waited for, and which rules pages break.

What follows a click, an address or a key is drawn a moment later: after an action no test reads a page once, but says
what is to come and waits for it, with `expect` for an element and with `becomes` for anything else.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from time import monotonic
from typing import Any

import pytest

PATIENCE = 180_000
"""Milliseconds that a test waits for a page: much, so that a busy machine fails none."""


def expect(found: Any) -> Any:
    """Return what can be expected of an element or a page, waited for as long as any test waits."""
    from playwright.sync_api import expect as expectation

    expectation.set_options(timeout=PATIENCE)
    return expectation(found)


def becomes(page: Any, ask: Callable[[], object], wanted: object) -> None:
    """Wait until a question to a page has the wanted answer; the last answer is told where it never has."""
    ends = monotonic() + PATIENCE / 1000
    while (answer := ask()) != wanted and monotonic() < ends:
        page.wait_for_timeout(50)
    assert answer == wanted


def comes_true(page: Any, question: str, argument: object = None) -> None:
    """Wait until a question in the script of pages is answered with yes.

    It is asked anew each time: a question that waits inside the page is stopped by the page's own policy.
    """
    becomes(page, lambda: bool(page.evaluate(question, argument)), True)


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
