"""A metric section is drafted in metric: sizes in DN, bare numbers in millimetres."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck

EDITION = Path(__file__).parents[2] / "examples" / "edition"


def test_a_table_in_word_in_millimetres_and_dn_is_drafted_as_it_is_printed(tmp_path: Path) -> None:
    """The bylaw of the guide: `units metric`, bands in DN, all six cells, and both sentences as clauses."""
    into = tmp_path / "draft.clauses"
    found = CliRunner().invoke(speccheck, ["draft", str(EDITION / "bylaw.docx"), "--into", str(into)])
    assert found.exit_code == 0, found.output
    text = into.read_text(encoding="utf-8")
    assert "  units   metric\n" in text
    assert "| up to DN 25 | over DN 25 to DN 50 | over DN 50\n" in text
    assert "  heating hot water  | 30          | 40                  | 60\n" in text
    assert "  domestic hot water | 20          | 30                  | 40\n" in text
    assert text.count("\n  draft\n") == 2


def test_the_confirmed_bylaw_speaks_of_every_paragraph() -> None:
    """Coverage of the document by the finished ruleset leaves nothing over, and every example comes out."""
    words = ["coverage", str(EDITION / "bylaw.clauses"), "--section", str(EDITION / "bylaw.docx")]
    found = CliRunner().invoke(speccheck, words)
    assert "2 checked, 0 drafted, not confirmed, 0 not checked, 0 nothing speaks of it" in found.output
    assert CliRunner().invoke(speccheck, ["test", str(EDITION / "bylaw.clauses")]).exit_code == 0


ROWS = (("Service", "DN 15 to DN 40", "DN 50 and larger"), ("Steam", "50", "60"), ("Chilled water", "19", "25"))


def drafted(folder: Path, *paragraphs: str) -> str:
    """Return the draft of paragraphs with a table under the last of them, out of a Word document."""
    from docx import Document

    document = Document()
    for text in paragraphs:
        document.add_paragraph(text)
    table = document.add_table(rows=len(ROWS), cols=len(ROWS[0]))
    for row, cells in zip(table.rows, ROWS, strict=True):
        for cell, text in zip(row.cells, cells, strict=True):
            cell.text = text
    document.save(str(folder / "ordinance.docx"))
    into = folder / "draft.clauses"
    found = CliRunner().invoke(speccheck, ["draft", str(folder / "ordinance.docx"), "--into", str(into)])
    assert found.exit_code in (0, 2), found.output
    return into.read_text(encoding="utf-8")


@pytest.mark.parametrize("named", ["Table 2", "table no. 2", "Table 2-1", "Table A2"])
def test_the_number_of_a_table_is_no_pipe_size(named: str, tmp_path: Path) -> None:
    """The paragraph points to the table under its caption; the 2 of Table 2 narrows no clause."""
    asks = f"2.1 Steam and chilled water pipes shall be insulated to not less than the thickness of {named}."
    text = drafted(tmp_path, asks, "Table 2. Minimum insulation thickness, mm")
    assert "  where   pipe size" not in text
    assert "todo" not in text
    assert "  where   service is one of steam, chilled water\n" in text
    assert "  chilled water | 19 " in text


def test_a_caption_that_says_more_is_left_to_a_person(tmp_path: Path) -> None:
    """What a caption has beside the thing that the table is of may be a condition, and is not left out."""
    text = drafted(
        tmp_path, "2.1 Insulate pipes to the thickness of Table 2:", "Table 2. Minimum thickness in wash-down rooms, mm"
    )
    assert "todo" in text
    assert "wash-down rooms" in text
