"""Paragraphs that ask for documents, or hold lines against one another, drafted: what became of each is in a file.

What the words mean was decided before they were drafted. A line of the file that begins with `todo` has words that the
program is not to understand; it may not leave them out in silence.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from speccheck.language import parse_ruleset
from speccheck.specification import Covered, Drafted, coverage_of, draft
from speccheck.specification.blocks import Paragraph, blocks_of
from tests.specification.shipped import vocabulary

CASES: list[dict[str, Any]] = tomllib.loads(
    (Path(__file__).parent / "files" / "documents_and_relations.toml").read_text(encoding="utf-8")
)["case"]


def last_of(section: str) -> Drafted:
    """What the last paragraph of a section becomes."""
    return draft(blocks_of(section.strip().splitlines(), "section"), vocabulary())[-1]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["section"].strip().splitlines()[-1])
def test_a_paragraph_becomes_what_it_asks(case: dict[str, Any]) -> None:
    """Kind, materials, age and lines of documents; which lines belong together and what they share; or what is open."""
    one = last_of(case["section"])
    lines = [line.strip() for line in one.text.splitlines() if not line.strip().startswith(("wording", "clause"))]
    kept = [line for line in lines if line and not line.startswith(("document ", "relation ", "not checked "))]
    assert (one.sort, kept) == (case["is"], case["lines"].strip().splitlines())


def test_a_drafted_document_and_relation_stop_a_check_until_they_are_confirmed() -> None:
    """Each is an error with its place for whoever judges, and covers its paragraph only when it is confirmed."""
    section = (
        "PART 1 - X\n1.1 SUBMITTALS\nA. Submit samples of each jacket.\n"
        "B. Cover valves with the same jacket as the adjoining pipe.\n"
    )
    blocks = list(blocks_of(section.splitlines(), "section"))
    text = "\n\n".join(one.text for one in draft(blocks, vocabulary()) if one.text)
    head = 'ruleset "t"\n  speaks mechanical insulation\n\n'
    loaded = parse_ruleset(head + text + "\n")
    assert [(one.code, one.message) for one in loaded.diagnostics] == [
        ("L311", "document `1.1.A` is a draft that nobody has confirmed"),
        ("L311", "relation `1.1.B` is a draft that nobody has confirmed"),
    ]
    assert {one.help for one in loaded.diagnostics} == {
        "read it beside its wording, and take the line `draft` out if it says the same"
    }
    drafts = parse_ruleset(head + text + "\n", drafts=True).ruleset
    assert drafts is not None
    assert coverage_of(drafts, blocks).count(Covered.DRAFT) == 2
    confirmed = parse_ruleset(head + text.replace("  draft\n", "") + "\n")
    assert confirmed.usable
    assert confirmed.ruleset is not None
    assert coverage_of(confirmed.ruleset, blocks).is_whole


def test_what_is_left_to_do_on_a_document_or_a_relation_is_listed() -> None:
    """`todo` says what was not understood; a relation with it need not ask for anything yet."""
    text = (
        'ruleset "t"\n  speaks mechanical insulation\n\n'
        'document 1 "Samples"\n  todo "how long?"\n  submit sample\n\n'
        'relation 2 "Valves"\n  todo "like what?"\n'
    )
    assert [(one.message, one.help) for one in parse_ruleset(text).diagnostics] == [
        (
            "document `1` is not finished: how long?",
            "write the document as the wording means it, and take the line `todo` out; or say `not checked`",
        ),
        (
            "relation `2` is not finished: like what?",
            "write the relation as the wording means it, and take the line `todo` out; or say `not checked`",
        ),
    ]


def test_words_that_lead_to_a_list_of_documents_are_a_heading() -> None:
    """ "Submit the following:" asks for nothing by itself; what stands under it is asked for without the word."""
    section = "PART 1 - X\n1.1 PAPERS\nA. Submit the following:\n1. Warranty.\n"
    found = [
        (one.block.text, one.sort)
        for one in draft(blocks_of(section.splitlines(), "s"), vocabulary())
        if isinstance(one.block, Paragraph)
    ]
    assert found[-2:] == [("Submit the following:", "heading"), ("Warranty.", "document")]


@pytest.mark.parametrize(
    ("item", "words", "said"),
    [
        (
            'document 1.1.A "x"\n  submit sample\n  dated within 24 months',
            "Submit samples not older than two years.",
            [],
        ),
        (
            'document 1.1.A "x"\n  submit sample\n  dated within 36 months',
            "Submit samples not older than two years.",
            ["the section says `2 years`, the document `36 months`"],
        ),
        (
            'document 1.1.A "x"\n  submit sample',
            "Submit samples not older than two years.",
            ["the section says `2 years`, the document no age"],
        ),
        (
            'relation 1.1.A "x"\n  alike in room\n  shall total run length be at most 60 ft',
            "The total run length of steam piping in one room shall not exceed 50 feet.",
            ["the section says `at most 50 ft`, the clause `at most 60 ft`"],
        ),
        (
            'relation 1.1.A "x"\n  alike in room\n  shall total run length be at least 50 ft',
            "The total run length of steam piping in one room shall not exceed 50 feet.",
            ["the section says `at most 50 ft`, the clause `at least 50 ft`"],
        ),
    ],
)
def test_ages_and_totals_that_are_not_those_of_the_section_are_told(item: str, words: str, said: list[str]) -> None:
    """How old a document may be, and what lines come to, are held against the words; 2 years are 24 months."""
    ruleset = parse_ruleset(f'ruleset "t"\n  speaks mechanical insulation\n\n{item}\n').ruleset
    assert ruleset is not None
    report = coverage_of(ruleset, [Paragraph("1.1.A", words, "p")])
    assert [one.words for one in report.differs] == said
