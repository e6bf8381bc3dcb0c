"""A metric section is drafted in metric: sizes in DN, bare numbers in millimetres."""

from __future__ import annotations

from pathlib import Path

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
