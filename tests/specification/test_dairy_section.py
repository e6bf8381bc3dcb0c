"""The dairy's section drafted, and held against what a careful writer made of each paragraph by hand beforehand.

`files/dairy_section.toml` has the truth. A draft is right where its clauses mean what the truth means, as the
comparison of editions sees it, and where each cell of a table decides lines on both sides of it. It is wrong in silence
where it is a clause, a table or `not checked` and not the truth; whatever is left to do is neither.
"""

from __future__ import annotations

import tomllib
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from speccheck.judge.examples import example_line
from speccheck.judge.judgement import Verdict
from speccheck.judge.judging import Judge
from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import terms_of
from speccheck.language.vocabulary.values import read_value
from speccheck.proofread.clause_meaning import part_meanings
from speccheck.specification import Covered, Drafted, coverage_of, draft, read_section
from speccheck.specification.blocks import Paragraph
from speccheck.specification.drafting import PIPING_DEFINED
from tests.specification.shipped import DEMO, section_document, vocabulary

SECTION = DEMO / "section.docx"
TRUTH: dict[str, Any] = tomllib.loads(
    (Path(__file__).parent / "files" / "dairy_section.toml").read_text(encoding="utf-8")
)
HEAD = f'ruleset "x"\n  speaks mechanical insulation\n\n{PIPING_DEFINED}\n'


@cache
def drafted() -> dict[str, Drafted]:
    """What each numbered paragraph of the section became; a paragraph above a table is what the table became."""
    blocks, problems = read_section(SECTION)
    assert problems == ()
    found: dict[str, Drafted] = {}
    for one in draft(blocks, vocabulary()):
        found[one.block.number if isinstance(one.block, Paragraph) else one.block.below] = one
    return found


def ruleset_of(text: str) -> Ruleset:
    """The clauses of a text, drafts and all."""
    loaded = parse_ruleset(f"{HEAD}{text}\n", drafts=True, vocabulary=vocabulary())
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def meaning(clause: Clause) -> tuple[object, ...]:
    """What a clause means, part by part."""
    return tuple(part_meanings(clause).values())


def meanings(text: str) -> Counter[object]:
    """What clauses mean, each counted."""
    return Counter(meaning(clause) for clause in ruleset_of(text).clauses)


def beside(text: str) -> list[object]:
    """What documents and relations ask, without what they are called and say of themselves."""
    ruleset = ruleset_of(text)
    plain = {"name": "", "title": "", "wording": "", "is_draft": False, "todo": ()}
    return [replace(one, **plain) for one in (*ruleset.documents, *ruleset.relations)]


def standing(number: str) -> str:
    """How the draft of a paragraph stands beside the truth: "right", "left" to do, or "wrong" in silence."""
    truth, one = TRUTH["paragraphs"][number], drafted()[number]
    if one.sort == "todo":
        return "left"
    match truth["is"]:
        case "checked" if one.sort == "clause":
            right = [meanings(f'clause {number} "x"\n{text}') for text in truth["clauses"]]
            return "right" if meanings(one.text) in right else "wrong"
        case "table" if one.sort == "table":
            return "right" if all(cells_of(number)) else "wrong"
        case "beside" if one.sort in ("document", "relation"):
            return "right" if beside(one.text) == beside(truth["lines"]) else "wrong"
        case "not checked" if one.sort == "not checked":
            (unchecked,) = ruleset_of(f'{one.text}\n\nclause 9 "x"\n  shall concealed').unchecked
            return "right" if unchecked.reason.value in truth["because"] else "wrong"
        case "heading" if one.sort == "heading":
            return "right"
    return "wrong"


def cells_of(number: str) -> list[bool]:
    """Whether each cell of a table, and each material beside it, decides lines as the truth has it."""
    (cells,) = (one for one in TRUTH["cells"] if one["paragraph"] == number)
    ruleset = ruleset_of(drafted()[number].text)
    found = [_cell_is_right(ruleset, cells["term"], data, least) for data, least in cells["at"]]
    for data, *allowed in cells.get("materials", ()):
        for name in ("elastomeric foam", "cellular glass", "fiberglass", "polyisocyanurate", "expanded perlite"):
            verdict = verdict_of(ruleset, f"{data}, insulation {name}", "insulation")
            found.append(verdict is (Verdict.COMPLIES if name in allowed else Verdict.FAILS))
    return found


def _cell_is_right(ruleset: Ruleset, term: str, data: str, least: str) -> bool:
    """Whether the least value of a cell complies, and a thousandth less does not."""
    if least == "open":
        return verdict_of(ruleset, f"{data}, {term} 99 in", term) is Verdict.CANNOT_TELL
    if least == "none":
        return verdict_of(ruleset, f"{data}, {term} none", term) is Verdict.COMPLIES
    value = read_value(least, ruleset.vocabulary.terms[term])
    unit = "" if least.startswith("R") else " in"
    less = f"{float(value.in_unit(value.unit)) * 0.99:.6f}{unit}"  # type: ignore[union-attr]
    less = f"R-{less}" if not unit else less
    return (
        verdict_of(ruleset, f"{data}, {term} {least}", term) is Verdict.COMPLIES
        and verdict_of(ruleset, f"{data}, {term} {less}", term) is Verdict.FAILS
    )


def verdict_of(ruleset: Ruleset, data: str, term: str) -> Verdict:
    """The gravest verdict on a line by the clauses that ask about a term first."""
    stated = f'{HEAD}clause 9 "x"\n  shall concealed\n  example "line" complies\n    {data}\n'
    example = parse_ruleset(stated, vocabulary=ruleset.vocabulary).ruleset.clauses[0].examples[0]  # type: ignore[union-attr]
    cells = Judge(ruleset).row(example_line(example, ruleset.units))
    asked = [terms_of(clause.shall)[0].name for clause in ruleset.clauses]
    verdicts = [cell.verdict for name, cell in zip(asked, cells, strict=True) if name == term]
    order = (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.COMPLIES, Verdict.NOT_APPLICABLE)
    return min(verdicts, key=order.index)


def test_the_document_is_what_its_text_makes() -> None:
    """The .docx file is written anew to the byte, and the numbers that Word shows are those of the truth."""
    text = (SECTION.parent / "section.txt").read_text(encoding="utf-8")
    assert SECTION.read_bytes() == section_document(text)
    assert {number for number in drafted() if number.count(".") == 2} == set(TRUTH["paragraphs"])


@pytest.mark.parametrize("number", sorted(TRUTH["paragraphs"]))
def test_no_paragraph_is_drafted_wrong_in_silence(number: str) -> None:
    """A wrong reading is a `todo`: it stops every check until somebody has looked at it."""
    assert standing(number) != "wrong", drafted()[number].text


@pytest.mark.parametrize("number", [one["paragraph"] for one in TRUTH["cells"]])
def test_every_cell_of_the_tables_is_drafted_right(number: str) -> None:
    """Bands across and down, several rows of headings, a column of materials, N/A and None told apart."""
    cells = cells_of(number)
    assert all(cells), f"{cells.count(False)} of {len(cells)} cells decide otherwise"


def test_at_least_three_fifths_of_what_can_be_checked_is_drafted_right() -> None:
    """Of the paragraphs that clauses can check; the section has more than 70 requirements."""
    kinds = Counter(one["is"] for one in TRUTH["paragraphs"].values())
    assert sum(kinds.values()) - kinds["heading"] >= 70
    checkable = [number for number, one in TRUTH["paragraphs"].items() if one["is"] in ("checked", "table")]
    right = [number for number in checkable if standing(number) == "right"]
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
