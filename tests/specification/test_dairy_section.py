"""The dairy's section drafted, and held against what a careful writer made of each paragraph by hand beforehand.

`files/dairy_section.toml` has the truth. A draft is right where its clauses mean what the truth means, as the
comparison of editions sees it, and where each cell of a table decides lines on both sides of it. It is wrong in silence
where it is a clause, a table or `not checked` and not the truth; whatever is left to do is neither.
"""

from __future__ import annotations

import tomllib
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from speccheck.language import load_ruleset
from speccheck.specification import Covered, coverage_of, read_section
from tests.specification.shipped import DEMO, section_document
from tests.specification.truths import Truth, meaning, meanings

SECTION = DEMO / "section.docx"
TRUTH_FILE = Path(__file__).parent / "files" / "dairy_section.toml"
TRUTH: dict[str, Any] = tomllib.loads(TRUTH_FILE.read_text(encoding="utf-8"))


@cache
def dairy() -> Truth:
    """The truth about the section, and its drafts."""
    blocks, problems = read_section(SECTION)
    assert problems == ()
    return Truth.of(TRUTH_FILE, blocks)


def test_the_document_is_what_its_text_makes() -> None:
    """The .docx file is written anew to the byte, and the numbers that Word shows are those of the truth."""
    text = (SECTION.parent / "section.txt").read_text(encoding="utf-8")
    assert SECTION.read_bytes() == section_document(text)
    assert {number for number in dairy().drafted if number.count(".") == 2} == set(TRUTH["paragraphs"])


@pytest.mark.parametrize("number", sorted(TRUTH["paragraphs"]))
def test_no_paragraph_is_drafted_wrong_in_silence(number: str) -> None:
    """A wrong reading is a `todo`: it stops every check until somebody has looked at it."""
    assert dairy().standing(number) != "wrong", dairy().drafted[number].text


@pytest.mark.parametrize("number", [one["paragraph"] for one in TRUTH["cells"]])
def test_every_cell_of_the_tables_is_drafted_right(number: str) -> None:
    """Bands across and down, several rows of headings, a column of materials, N/A and None told apart."""
    cells = dairy().cells_of(number)
    assert all(cells), f"{cells.count(False)} of {len(cells)} cells decide otherwise"


def test_at_least_three_fifths_of_what_can_be_checked_is_drafted_right() -> None:
    """Of the paragraphs that clauses can check; the section has more than 70 requirements."""
    kinds = Counter(one["is"] for one in TRUTH["paragraphs"].values())
    assert sum(kinds.values()) - kinds["heading"] >= 70
    checkable = [number for number, one in TRUTH["paragraphs"].items() if one["is"] in ("checked", "table")]
    right = [number for number in checkable if dairy().standing(number) == "right"]
    print(f"{len(right)} of {len(checkable)} right, {len(checkable) - len(right)} left to do")
    assert len(right) >= 0.6 * len(checkable)


def test_the_confirmed_ruleset_covers_the_section() -> None:
    """Each paragraph is checked or says why not, in the words, the amounts and the cells of the document."""
    ruleset = load_ruleset(SECTION.with_suffix(".clauses")).ruleset
    assert ruleset is not None
    report = coverage_of(ruleset, read_section(SECTION)[0])
    assert report.is_whole
    # Documents are checked against the register of what was received, relations line by line.
    assert {one.name for one in (*ruleset.documents, *ruleset.relations)} == {"1.2.A", "1.2.B", "1.2.C", "3.5.C"}
    checked = [name for name, one in TRUTH["paragraphs"].items() if one["is"] in ("checked", "table", "beside")]
    unchecked = [name for name, one in TRUTH["paragraphs"].items() if one["is"] in ("not checked", "no words")]
    assert {covered: report.count(covered) for covered in (Covered.CHECKED, Covered.NOT_CHECKED)} == {
        Covered.CHECKED: len(checked),
        Covered.NOT_CHECKED: len(unchecked),
    }


@pytest.mark.parametrize("number", [one for one in TRUTH["paragraphs"] if TRUTH["paragraphs"][one]["is"] == "checked"])
def test_the_confirmed_ruleset_means_what_the_truth_means(number: str) -> None:
    """What a person confirmed or wrote is the truth."""
    confirmed = load_ruleset(SECTION.with_suffix(".clauses")).ruleset
    assert confirmed is not None
    mine = Counter(meaning(clause) for clause in confirmed.clauses if clause.name.split("-")[0] == number)
    assert mine in [meanings(f'clause {number} "x"\n{text}') for text in TRUTH["paragraphs"][number]["clauses"]]
