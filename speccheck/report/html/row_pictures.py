"""Pictures of the rows of a PDF that findings speak of, clipped from its pages, for the HTML page to embed.

Run as a program in a child process, for PDFium reads a file that is not trusted: rectangles come in as JSON, and
pictures go out. The same file and the same rectangles give the same pictures.
"""

from __future__ import annotations

import base64
import io
import json
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from speccheck.judge.judgement import Verdict
from speccheck.report.paper_places import row_of
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Spot

_SCALE = 1.6
"""Dots of the picture for each point of the page."""
_AROUND = 3.0
_MOST_ROWS = 300
_SHADES = 16
_FINDINGS = (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.NOT_CHECKED)


@dataclass(frozen=True, slots=True)
class RowPicture:
    """The picture of a row: a PNG as the address of an `img` element, its size in dots, and the page it is from."""

    address: str
    width: int
    height: int
    page: int


def row_pictures(path: Path, matrix: Matrix) -> Mapping[str, RowPicture]:
    """Return, by the name of the line, the picture of each row of the PDF `path` on which there is a finding.

    There is none where the schedule is no PDF, or where the pictures cannot be made within the limits.
    """
    from speccheck.schedule.formats.child import run_in_child_or_none

    spots = _rows_with_findings(matrix, path.name)
    if not spots:
        return {}
    asked = json.dumps(list(spots.values())).encode()
    written = run_in_child_or_none(__name__, str(path.absolute()), data=asked)
    pictures = json.loads(written) if written else []
    return {
        name: RowPicture(f"data:image/png;base64,{one['png']}", one["width"], one["height"], spot.page)
        for (name, spot), one in zip(spots.items(), pictures, strict=False)
    }


def _rows_with_findings(matrix: Matrix, file: str) -> dict[str, Spot]:
    """Return where the rows of a file with findings stand on paper, by the names of the lines."""
    found = {}
    for line, cells in zip(matrix.schedule.lines, matrix.cells, strict=True):
        if line.place.file == file and any(cell.verdict in _FINDINGS or cell.advice in _FINDINGS for cell in cells):
            spot = row_of(matrix.schedule, line.place)
            if spot is not None:
                found[line.name] = spot
    return dict(list(found.items())[:_MOST_ROWS])


def _drawn(path: Path, spots: list[list[float]]) -> list[dict[str, Any]]:
    """Return the pictures of rectangles of a PDF, each page drawn once at a time."""
    import pypdfium2

    document = pypdfium2.PdfDocument(path)
    pages: dict[int, Any] = {}
    found = []
    for spot in spots:
        number = int(spot[0])
        if number not in pages:
            page = document[number - 1]
            page.set_cropbox(*page.get_mediabox())
            pages = {number: page.render(scale=_SCALE).to_pil().convert("L")}
        whole = pages[number]
        box = [
            round(edge * _SCALE)
            for edge in (spot[1] - _AROUND, spot[2] - _AROUND, spot[3] + _AROUND, spot[4] + _AROUND)
        ]
        left, top, right, bottom = max(box[0], 0), max(box[1], 0), min(box[2], whole.width), min(box[3], whole.height)
        row = whole.crop((left, top, max(right, left + 1), max(bottom, top + 1))).quantize(_SHADES)
        png = io.BytesIO()
        row.save(png, "PNG", optimize=True)
        found.append({"png": base64.b64encode(png.getvalue()).decode(), "width": row.width, "height": row.height})
    return found


def main(path: Path) -> None:
    """Draw the rectangles that are named on standard input."""
    from speccheck.schedule.formats.child import limit_this_process

    limit_this_process()
    sys.stdout.write(json.dumps(_drawn(path, json.load(sys.stdin))))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
