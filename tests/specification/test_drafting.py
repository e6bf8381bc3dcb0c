"""Drafts of an invented section, and the coverage of it by the ruleset that they become."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.language import load_ruleset, load_vocabulary
from speccheck.specification import Covered, coverage_of, draft, read_section
from speccheck.specification.blocks import SectionTable
from speccheck.specification.tables import drafted_table

SECTION = """PART 1 - GENERAL
1.1 SUBMITTALS
A. Submit product data for each insulation.
PART 2 - PRODUCTS
2.1 INSULATION
A. Insulate heating hot water piping with fiberglass not less than 1-1/2 inches thick.
B. Insulation shall be installed in a manner pleasing to the owner.
2.2 JACKETS
A. Provide aluminum or PVC jackets on outdoor piping.
"""


def run(*words: str) -> tuple[int, str]:
    """Run a command, and return its status and what it printed."""
    result = CliRunner().invoke(speccheck, list(words), standalone_mode=False)
    status = result.exception.code if isinstance(result.exception, SystemExit) else result.return_value
    return int(status or 0), result.output


def test_a_section_becomes_drafts_unchecked_paragraphs_and_things_to_do(tmp_path: Path) -> None:
    """Wording is kept to the letter; what nobody understood is `todo`; nothing of it judges."""
    section, into = tmp_path / "section.txt", tmp_path / "project.clauses"
    section.write_text(SECTION, encoding="utf-8")
    status, told = run("draft", str(section), "--into", str(into), "--page", str(tmp_path / "draft.html"))
    assert status == 2
    assert told.startswith("2 clauses and 0 tables drafted, 1 paragraphs not checked, 1 left to do")
    assert not load_ruleset(into).usable
    ruleset = load_ruleset(into, drafts=True).ruleset
    assert ruleset is not None
    by_name = {clause.name: clause for clause in ruleset.clauses}
    assert by_name["2.1.A"].is_draft
    assert by_name["2.1.A"].wording in SECTION
    assert "pleasing owner" in by_name["2.1.B"].todo[0]
    assert [(one.name, one.reason.value) for one in ruleset.unchecked] == [("1.1.A", "document")]
    assert "pleasing to the owner" in (tmp_path / "draft.html").read_text(encoding="utf-8")


def test_coverage_follows_a_draft_until_it_is_confirmed(tmp_path: Path) -> None:
    """Drafts are open; confirmed and complete, the section is covered; a changed word is told."""
    section, into = tmp_path / "section.txt", tmp_path / "project.clauses"
    section.write_text(SECTION, encoding="utf-8")
    run("draft", str(section), "--into", str(into))
    assert run("coverage", str(into), "--section", str(section))[0] == 2
    text = into.read_text(encoding="utf-8").replace("  draft\n", "")
    start = text.index("clause 2.1.B")
    end = text.index("clause 2.2.A")
    into.write_text(text[:start] + 'not checked 2.1.B "Manner" because vague\n\n' + text[end:], encoding="utf-8")
    status, told = run("coverage", str(into), "--section", str(section))
    assert (status, told.splitlines()[-1]) == (
        *(0, "2 checked, 0 drafted, not confirmed, 2 not checked, 0 nothing speaks of it"),
    )
    section.write_text(SECTION.replace("1-1/2 inches", "2 inches") + "B. Jackets shall be white.\n", encoding="utf-8")
    status, told = run("coverage", str(into), "--section", str(section))
    assert status == 2
    assert "clause 2.1.A: 2.1.A  Insulate heating hot water piping with" in told
    assert "Nothing speaks of it\n  2.2.B  Jackets shall be white." in told


def test_a_clause_of_another_section_is_a_stranger(tmp_path: Path) -> None:
    """A clause whose number and words the section does not have is named."""
    section, into = tmp_path / "section.txt", tmp_path / "project.clauses"
    section.write_text(SECTION, encoding="utf-8")
    into.write_text(
        'ruleset "p"\n  speaks mechanical insulation\n\nclause 9.9 "X"\n  shall thickness be at least 1 in\n'
    )
    ruleset, (blocks, _) = load_ruleset(into).ruleset, read_section(section)
    assert ruleset is not None
    report = coverage_of(ruleset, blocks)
    assert report.strangers == ("9.9",)
    assert report.count(Covered.NOTHING) == 4


def test_a_table_keeps_every_cell_or_is_not_drafted() -> None:
    """Sizes across and temperatures down become a table; N/A is a dash, None is not; a strange cell leaves it to do."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    head = ("Temperature", '<1"', '1" to <1-1/2"', '4" & larger')
    rows = (head, ("105°F - 140°F", "1", "1-1/2", "N/A"), ("over 140 F", '1-1/2"', "2", "2 in"))
    text, doubts = drafted_table(SectionTable(rows, "2.1.A", "", ""), vocabulary, "t")
    assert doubts == ()
    assert text.splitlines() == [
        "table t in in",
        "  by operating temperature, pipe size",
        "  | under NPS 1 | NPS 1 to under NPS 1-1/2 | NPS 4 and over",
        "  105 F to 140 F | 1 | 1-1/2 | -",
        "  over 140 F | 1-1/2 | 2 | 2",
    ]
    for odd in ("None", "see note", "2 ft"):
        table = SectionTable((head, ("105°F - 140°F", "1", odd, "2")), "", "", "")
        assert drafted_table(table, vocabulary, "t") == (
            "",
            (f"the cell `{odd}` is no thickness",),
        )


def test_headings_are_no_clauses() -> None:
    """A short paragraph that asks nothing is a heading."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    blocks, _ = read_section(Path(__file__).parent / "files" / "headings.txt")
    assert [one.sort for one in draft(blocks, vocabulary)] == ["heading", "heading", "clause"]
