"""The reports that lie beside the demo are those that the program gives today."""

from __future__ import annotations

import pytest

from tests.tools.demo_report import REPORTS, demo_matrix, texts


@pytest.fixture(scope="module")
def today() -> dict[str, str]:
    """Return the reports as they come out now."""
    return texts(demo_matrix())


@pytest.mark.parametrize("name", ["report.html", "report.md", "terminal.txt"])
def test_report_is_current(name: str, today: dict[str, str]) -> None:
    """To the byte; `python -m tests.tools.demo_report` renews all of them."""
    assert (REPORTS / name).read_text(encoding="utf-8") == today[name]


def test_terminal_report_fits_eighty_columns(today: dict[str, str]) -> None:
    """No line of the terminal report is wider than an old terminal."""
    assert max(map(len, today["terminal.txt"].splitlines())) <= 80
