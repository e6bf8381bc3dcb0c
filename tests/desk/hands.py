"""Two ways to work with a page: with a mouse, and with the keyboard alone.

Both do the same: press, write, tick one of several, put a file in its place. The keyboard knows no element but the one
that has the focus, and gets to another with Tab and the arrow keys, as somebody without a mouse does.
"""

from __future__ import annotations

import base64
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol

import pytest

MOST_KEYS = 400
DROP = """([file, name]) => {
  const bytes = Uint8Array.from(atob(file), (one) => one.charCodeAt(0)), moved = new DataTransfer();
  moved.items.add(new File([bytes], name));
  return moved;
}"""


class Hand(Protocol):
    """What both can do with a page; `selector` names an element as Playwright has it, the first of several."""

    page: Any

    def press(self, selector: str) -> None:
        """Press a button, follow a link, open what is folded."""

    def write(self, selector: str, text: str) -> None:
        """Write into an empty field, or behind what a text says already."""

    def tick(self, selector: str) -> None:
        """Choose one of several."""

    def give(self, selector: str, file: Path) -> None:
        """Put a file in its place."""


@dataclass(frozen=True)
class Mouse:
    """Clicks and drops."""

    page: Any

    def press(self, selector: str) -> None:
        """Click on it."""
        self.page.locator(selector).first.click()

    def write(self, selector: str, text: str) -> None:
        """Click into the field, go to its end, and type."""
        self.press(selector)
        self.page.keyboard.press("Control+End")
        self.page.keyboard.type(text)

    def tick(self, selector: str) -> None:
        """Click on it."""
        self.press(selector)

    def give(self, selector: str, file: Path) -> None:
        """Drop the file on the place around the field where there is one, else choose it in the window that opens."""
        field = self.page.locator(selector)
        place = self.page.locator("[data-drop]", has=field)
        if place.count():
            self.page.wait_for_load_state()  # what takes a file in is a script of the page
            content = base64.b64encode(file.read_bytes()).decode("ascii")
            moved = self.page.evaluate_handle(DROP, [content, file.name])
            place.dispatch_event("drop", {"dataTransfer": moved})
            return
        with self.page.expect_file_chooser() as opened:
            field.click()
        opened.value.set_files(file)


@dataclass(frozen=True)
class Keyboard:
    """Keys alone."""

    page: Any

    def reach(self, selector: str, key: str = "Tab") -> None:
        """Press a key until the element has the focus."""
        wanted = self.page.locator(selector).first
        wanted.wait_for()
        for _ in range(MOST_KEYS):
            if wanted.evaluate("one => one === document.activeElement"):
                return
            self.page.keyboard.press(key)
        pytest.fail(f"no {key} leads to {selector}")

    def press(self, selector: str) -> None:
        """Press Enter on it."""
        self.reach(selector)
        self.page.keyboard.press("Enter")

    def write(self, selector: str, text: str) -> None:
        """Go into the field, to its end, and type."""
        self.reach(selector)
        self.page.keyboard.press("Control+End")
        self.page.keyboard.type(text)

    def tick(self, selector: str) -> None:
        """Go to the first of them, and on with the arrow keys."""
        group = self.page.locator(selector).first.get_attribute("name")
        self.reach(f"input[name={group}]")
        self.page.keyboard.press("Space")
        self.reach(selector, "ArrowDown")

    def give(self, selector: str, file: Path) -> None:
        """Press Space on the field, and choose the file in the window that opens."""
        self.reach(selector)
        with self.page.expect_file_chooser() as opened:
            self.page.keyboard.press("Space")
        opened.value.set_files(file)


HANDS = (Mouse, Keyboard)
