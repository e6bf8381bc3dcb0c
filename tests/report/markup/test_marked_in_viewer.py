"""Marked PDF files as a person sees them: in the viewer of Chromium, which shows each mark at its cell."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from speccheck.report.markup.marks import Weight
from speccheck.report.markup.pdf_drawing import LOOKS
from tests.report.markup.building import GIVEN, ROWS, marked
from tests.schedule.formats.papers import write_ruled_pdf
from tests.schedule.formats.producers import BROWSER

pytestmark = pytest.mark.skipif(BROWSER is None, reason="Chromium shows the copies")


@pytest.fixture
def viewer() -> Iterator[Any]:
    """Return a page of a browser with a PDF viewer, which only the full browser has."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        arguments = ["--no-sandbox", "--headless=new"]
        browser = driver.chromium.launch(executable_path=BROWSER, args=arguments, headless=False)
        yield browser.new_page(viewport={"width": 1000, "height": 1000})
        browser.close()


def dots_of(picture: bytes) -> list[tuple[int, int, int]]:
    """Return the dots of a picture: red, green and blue."""
    from PIL import Image

    data = Image.open(io.BytesIO(picture)).convert("RGB").tobytes()
    return list(zip(data[0::3], data[1::3], data[2::3], strict=True))


def shaded(picture: bytes) -> dict[Weight, int]:
    """Return how many dots of a picture have the tint of each weight that the copy uses."""
    dots = dots_of(picture)
    tints = {weight: [255 * part for part in LOOKS[weight].tint] for weight in (Weight.REVISE, Weight.PROVIDE)}
    return {
        weight: sum(max(abs(one - other) for one, other in zip(dot, tint, strict=True)) < 4 for dot in dots)
        for weight, tint in tints.items()
    }


def test_the_viewer_shows_the_marks(viewer: Any, tmp_path: Path) -> None:
    """Cells of both weights are shaded in the copy, those to revise over more of the page, and none in the original."""
    write_ruled_pdf(tmp_path / "s.pdf", ROWS)
    (tmp_path / "marked.pdf").write_bytes(marked(tmp_path / "s.pdf", **GIVEN)[0])
    found = {}
    for name in ("marked.pdf", "s.pdf"):
        viewer.goto((tmp_path / name).as_uri())
        for _ in range(60):  # until the viewer has drawn the page; nothing tells when it has
            viewer.wait_for_timeout(500)
            picture = viewer.screenshot()
            found[name] = shaded(picture)
            if found["marked.pdf"][Weight.REVISE] and (name == "marked.pdf" or is_drawn(picture)):
                break
    assert found["marked.pdf"][Weight.REVISE] > found["marked.pdf"][Weight.PROVIDE] > 300
    assert found["s.pdf"] == {Weight.REVISE: 0, Weight.PROVIDE: 0}


def is_drawn(picture: bytes) -> bool:
    """Whether a white page is in a picture of the viewer."""
    return sum(dot == (255, 255, 255) for dot in dots_of(picture)) > 100_000
