"""Make `bylaw.docx`: the bylaw of an invented town with one table, as a Word document.

Run `python examples/edition/make_bylaw.py` from the top folder of the repository.
"""

from __future__ import annotations

import io
from pathlib import Path

import docx

from speccheck.report.workbook.report import without_clock

FOLDER = Path(__file__).parent
ROWS = (
    ("Service", "Nominal size", "Minimum thickness (mm)"),
    ("Heating hot water", "Up to DN 25", "30"),
    ("Heating hot water", "Over DN 25 to DN 50", "40"),
    ("Heating hot water", "Over DN 50", "60"),
    ("Domestic hot water", "Up to DN 25", "20"),
    ("Domestic hot water", "Over DN 25 to DN 50", "30"),
    ("Domestic hot water", "Over DN 50", "40"),
)


def main() -> None:
    """Write the document beside this file; its bytes are the same on each run."""
    document = docx.Document()
    document.add_heading("Bylaw of the invented town of Lindenau on insulation of pipes", 0)
    document.add_paragraph("1.1 Insulate pipes to the minimum thickness scheduled below:")
    table = document.add_table(rows=0, cols=3)
    for row in ROWS:
        for cell, text in zip(table.add_row().cells, row, strict=True):
            cell.text = text
    document.add_paragraph("1.2 Outdoor pipe insulation shall have jackets of aluminum or stainless steel.")
    written = io.BytesIO()
    document.save(written)
    (FOLDER / "bylaw.docx").write_bytes(without_clock(written.getvalue()))


if __name__ == "__main__":
    main()
