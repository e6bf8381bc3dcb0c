"""Every screen walked with the Tab key alone, from the address to its last element and out of it again."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browsing import PATIENCE
from tests.desk.conftest import RunningDesk
from tests.desk.screens import every_screen, goto
from tests.desk.walking import faults_of_walk


@pytest.mark.parametrize("width", [1440, 390])
def test_every_screen_is_walked_with_the_tab_key(
    browser: Any, desk: RunningDesk, dairy: str, begun: str, width: int
) -> None:
    """The way past the bar comes first; all that can be used is reached in its order, and is seen to be reached."""
    context = browser.new_context(viewport={"width": width, "height": 900})
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(desk.address)
    found = []
    for address in every_screen(desk, dairy, begun):
        goto(page, address)
        found += [(address.removeprefix(desk.home), fault) for fault in faults_of_walk(page)]
    context.close()
    assert found == []


PLANTED = """
<nav>a bar</nav>
<style>
#bare { outline: none } #under { position: absolute; top: 5px }
#cover { position: fixed; inset: 0 0 90% 0; background: white }
</style>
<button id="first">first</button> <button id="bare">bare</button> <button id="late" tabindex="5">early</button>
<button id="under">under</button> <div id="cover"></div>
"""


def test_a_walk_finds_what_is_planted(browser: Any) -> None:
    """No way past the bar, no sign of the focus, another order, and what lies under something else: each is told."""
    page = browser.new_page()
    page.set_content(f"<!doctype html><title>planted</title><main style='padding-top: 200px'>{PLANTED}</main>")
    assert set(faults_of_walk(page)) == {
        "no way past the bar: first is button early",
        "no sign of the focus on button bare",
        "out of sight: button under",
        "before what stands above: button first",
    }
    page.close()
