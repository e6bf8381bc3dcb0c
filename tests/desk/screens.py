"""All screens of a desk, by their addresses, and how one is opened."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tests.desk.conftest import RunningDesk

SCREENS = ("", "/matrix", "/findings", "/reading", "/papers", "/rounds", "/contractor", "/clauses")
"""The screens of a project."""


def every_screen(desk: RunningDesk, dairy: str, begun: str) -> tuple[str, ...]:
    """Return the addresses of all pages: of a review, of one to which nothing was submitted yet, of none, in error."""
    return (
        desk.home, f"{desk.home}/system", f"{desk.home}/projects/none", f"{desk.home}/nowhere",
        begun, f"{begun}/rounds", f"{begun}/contractor", f"{begun}/clauses",
        *(f"{dairy}{screen}" for screen in (*SCREENS, "/clauses/proofreading", "/clauses/prose", "/proposal?line=1")),
    )  # fmt: skip


def goto(page: Any, address: str) -> None:
    """Open a screen, and wait for long work to end."""
    page.goto(address)
    page.wait_for_selector("h1:not(:has-text('Working'))")
    page.wait_for_load_state()


def open_dairy(page: Any, desk: RunningDesk) -> str:
    """Open the invented dairy and return the address of its project."""
    page.goto(desk.home)
    page.click("text=Open the invented dairy")
    page.wait_for_selector(".outcome")
    return str(page.url)
