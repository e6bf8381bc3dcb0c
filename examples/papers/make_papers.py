"""Writes the papers of this example anew: `python examples/papers/make_papers.py`. Everything in them is invented."""

from __future__ import annotations

from pathlib import Path

from docx import Document

HERE = Path(__file__).parent
PROPERTIES = (
    ("Density", "3 lb/ft³"),
    ("Thermal conductivity at 75 °F mean", "0.27 Btu·in/(h·ft²·°F)"),
    ("Thermal conductivity at 100 °F mean", "0.28 Btu·in/(h·ft²·°F)"),
    ("Water vapor permeability, ASTM E96", "0.05 perm-in"),
    ("Flame spread / smoke developed, ASTM E84, report dated May 17, 2024", "25/50"),
)


def main() -> None:
    """Write the data sheet."""
    document = Document()
    document.add_heading("Tansyfoam A10 pipe insulation", 1)
    document.add_paragraph("Flexible elastomeric foam to ASTM C534, Type I, Grade 1. An invented product.")
    table = document.add_table(len(PROPERTIES), 2)
    for row, texts in zip(table.rows, PROPERTIES, strict=True):
        for cell, text in zip(row.cells, texts, strict=True):
            cell.text = text
    document.add_paragraph("The service temperature range is -40 °F to 220 °F.")
    document.save(str(HERE / "tansyfoam.docx"))


if __name__ == "__main__":
    main()
