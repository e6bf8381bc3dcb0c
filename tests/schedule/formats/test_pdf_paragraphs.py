"""Texts beside tables in PDF files: a note that wraps is one text, and what is doubtful says nothing of any line."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from speccheck.schedule import Schedule, read_schedule
from speccheck.schedule.formats.pdf_tables import read_pdf
from tests.schedule.building import small_vocabulary
from tests.schedule.formats.test_headers_without_rules import Drawn, read

TABLE = [
    *((60, 500, "Mark"), (120, 500, "Size"), (180, 500, "Insul"), (300, 500, "Thk (in)")),
    *((60, 480, "P-1"), (120, 480, "2 in"), (180, 480, "FG"), (300, 480, "1")),
    *((60, 460, "P-2"), (120, 460, "3 in"), (180, 460, "FG"), (300, 460, "2")),
]
"""A table that says nothing of services."""


def below_each_other(*texts: str, pitch: float = 9) -> Drawn:
    """Return texts with one left edge, above the table."""
    return [(60, 700 - pitch * number, text) for number, text in enumerate(texts)]


def schedule_of(path: Path, drawn: Drawn) -> Schedule:
    """Return the schedule that is read of texts at places."""
    read(path, drawn)
    return read_schedule(path, small_vocabulary())


def services(schedule: Schedule) -> list[str]:
    """Return the services of the lines, "" where none is known."""
    return [str(line.data["service"].value) if "service" in line.data else "" for line in schedule.lines]


NOTE = ("1. Valves", "serve the", "coils of", "the new", "CHW", "machines.")


def test_a_note_of_a_word_a_line_is_one_text(tmp_path: Path) -> None:
    """Lines that wrap in a narrow cell are a paragraph, and the next note begins another."""
    (grid,) = read(tmp_path / "t.pdf", [*below_each_other(*NOTE, "2. By", "others", "later."), *TABLE])
    assert [grid.text(row, 0) for row in (0, 1)] == ["\n".join(NOTE), "2. By\nothers\nlater."]


def test_a_word_of_a_note_says_nothing_of_lines(tmp_path: Path) -> None:
    """A line of a note that is the name of a service, `CHW`, is no heading over the table below."""
    schedule = schedule_of(tmp_path / "t.pdf", [*below_each_other(*NOTE), *TABLE])
    assert services(schedule) == ["", ""]


def test_a_note_that_wraps_below_a_table_is_to_be_read_as_one(tmp_path: Path) -> None:
    """A person is shown the note as one text, and not word by word."""
    below = [(x, y - 350, text) for x, y, text in below_each_other(*NOTE)]
    schedule = schedule_of(tmp_path / "t.pdf", [*TABLE, *below])
    assert [unread.text for unread in schedule.unread] == [" ".join(NOTE)]


@pytest.mark.parametrize(
    "titles", [("Schedule", "CHW"), ("PIPE SCHEDULE", "CHW"), ("The dairy, level 2", "CHW", "Revision")]
)
def test_titles_below_each_other_stay_texts_of_their_own(titles: Sequence[str], tmp_path: Path) -> None:
    """Two lines may be titles; of more, one that had room behind the line above it is none that wraps."""
    schedule = schedule_of(tmp_path / "t.pdf", [*below_each_other(*titles), *TABLE])
    assert services(schedule) == ["chilled water", "chilled water"]


def test_an_unsure_heading_says_nothing_of_lines(tmp_path: Path) -> None:
    """A heading whose words were not drawn one after another may be two texts: no line takes a service from it."""
    above, below = TABLE[:8], [(x, y - 20, text) for x, y, text in TABLE[8:]]
    sure = [*above, (60, 460, "CHILLED WATER"), *below]
    assert services(schedule_of(tmp_path / "sure.pdf", sure)) == ["", "chilled water"]
    schedule = schedule_of(tmp_path / "t.pdf", [*above, (98, 460, "WATER"), *below, (60, 460, "CHILLED")])
    assert services(schedule) == ["", ""]
    assert [unread.text for unread in schedule.unread] == ["CHILLED", "WATER"]


def test_a_page_without_the_header_gives_its_columns_or_nothing(tmp_path: Path) -> None:
    """A page that goes on in the same columns is read by the header of the page before; with one blank it is not."""
    from reportlab.pdfgen.canvas import Canvas

    for blank, sizes in (("", ["2 in", "3 in", "4 in", "6 in"]), ("Insul", ["2 in", "3 in"])):
        canvas = Canvas(str(tmp_path / f"t{blank}.pdf"), pagesize=(612, 792), invariant=1)
        canvas.setFont("Helvetica", 8)
        for x, y, text in TABLE:
            canvas.drawString(x, y, text)
        canvas.showPage()
        canvas.setFont("Helvetica", 8)
        for y, row in ((700, ("P-3", "4 in", "FG", "1")), (680, ("P-4", "6 in", "FG", "2"))):
            for x, text in zip((60, 120, 180, 300), row, strict=True):
                if not (blank and text == "FG"):
                    canvas.drawString(x, y, text)
        canvas.save()
        schedule = read_schedule(tmp_path / f"t{blank}.pdf", small_vocabulary())
        assert [line.data["pipe size"].text for line in schedule.lines] == sizes
        assert len(read_pdf(tmp_path / f"t{blank}.pdf")[0]) == (2 if blank else 1)
