"""A revised section held against the clauses of the one before: each change is told, and nothing else.

The section is one of five writers' (`files/sections/by_clause.txt`), its drafts taken as confirmed, as Word documents.
"""

from __future__ import annotations

import re
from pathlib import Path

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.specification import coverage_of, draft
from speccheck.specification.blocks import Block
from speccheck.specification.coverage import CoverageReport, Covered
from speccheck.specification.differing import Difference
from speccheck.specification.drafting import PIPING_DEFINED
from tests.specification.papers import as_document
from tests.specification.shipped import vocabulary
from tests.specification.test_five_writers import blocks_of, text_of

CHANGES = (
    ("not less than 19 mm", "not less than 25 mm"),
    ("content not exceeding 100", "content not less than 100"),
    ("| DN 32 to DN 50 | 30 | 25 |", "| DN 32 to DN 50 | 35 | 25 |"),
    ("insulated with mineral wool.\n3.1.2", "insulated with fiberglass.\n3.1.2"),
    ("last 24 months", "last 12 months"),
    ("6.5 PVC cladding shall not be used outdoors.\n", ""),
    ("2.1.7 Adhesives", "2.1.7 Insulation shall be 40 kg/m³ or more.\n2.1.8 Adhesives"),
    ("6.3 Laps of cladding shall shed water.\n6.4", "6.4"),
    ("6.7 Identification", "6.8 Laps of cladding shall shed water.\n6.7 Identification"),
)
"""What was revised: numbers, a direction, a cell, a material, an age; paragraphs that went, came and moved."""


def confirmed(blocks: tuple[Block, ...]) -> Ruleset:
    """The drafts of a section with the mark taken out; what is left to do is said not to be checked."""
    texts = []
    for one in draft(blocks, vocabulary()):
        if one.sort == "todo":
            wording, number = re.search(r'  wording "[^"]*"', one.text), re.search(r"clause (\S+) ", one.text)
            assert wording is not None
            assert number is not None
            texts.append(f'not checked {number[1]} "x"\n  because vague\n{wording[0]}')
        else:
            texts.append(one.text.replace("\n  draft", ""))
    head = f'ruleset "x"\n  speaks mechanical insulation\n  units metric\n\n{PIPING_DEFINED}\n'
    loaded = parse_ruleset(head + "\n\n".join(filter(None, texts)) + "\n", vocabulary=vocabulary())
    assert loaded.ruleset is not None
    assert loaded.usable, loaded.diagnostics
    return loaded.ruleset


def report_on(tmp_path: Path, changes: tuple[tuple[str, str], ...]) -> CoverageReport:
    """The coverage of a section that was revised, by the clauses of the one before."""
    text = text_of("by_clause")
    ruleset = confirmed(blocks_of(tmp_path / "before.docx", as_document(text)))
    for before, after in changes:
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    return coverage_of(ruleset, blocks_of(tmp_path / "after.docx", as_document(text)))


def test_a_section_that_did_not_change_is_covered(tmp_path: Path) -> None:
    """Nothing differs, and each of its tables has the one that stands for it."""
    report = report_on(tmp_path, ())
    assert report.is_whole
    assert [one.name for one in report.tables] == ["table of 3.1.2", "table of 3.2.6", "table of 6.6"]


def test_each_change_of_a_revised_section_is_told(tmp_path: Path) -> None:
    """By the clause to look at, with what the section says now."""
    report = report_on(tmp_path, CHANGES)
    told = [(one.name, one.sort) for one in report.differs]
    assert told == EXPECTED
    words = " ".join(one.words for one in report.differs)
    for said in (
        "the section says `adhesive VOC content at least 100 g/L`, the clause `at most 100 g/L`",
        "the section says `12 months`, the document `24 months`",
        "the section says `thickness at least 25 mm`, the clause `at least 19 mm`",
        "at DN 32 to DN 50, heating hot water the section has 35 mm, the table 30 mm",
        "the section says: LTHW pipework shall be insulated with fiberglass.",
    ):
        assert said in words
    assert report.strangers == ("6.5",)
    assert [one.paragraph.number for one in report.paragraphs if one.covered is Covered.NOTHING] == ["2.1.7"]


EXPECTED = [
    ("2.1.7", Difference.NUMBER),
    ("2.1.7", Difference.WORDING),
    ("2.1.7", Difference.DIRECTION),
    ("2.3.3", Difference.WORDING),
    ("2.3.3", Difference.AMOUNT),
    ("3.1.1", Difference.WORDING),
    ("3.3.1", Difference.WORDING),
    ("3.3.1", Difference.AMOUNT),
    ("6.3", Difference.NUMBER),
    ("table of 3.1.2", Difference.CELL),
]
