"""Coverage of a section by a ruleset: what differs between the words of a paragraph and its clause."""

from __future__ import annotations

import pytest

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.specification import CoverageReport, Covered, coverage_of
from speccheck.specification.blocks import Paragraph, SectionTable
from speccheck.specification.differing import Difference


def ruleset(text: str) -> Ruleset:
    """A ruleset with these clauses."""
    loaded = parse_ruleset(f'ruleset "p"\n  speaks mechanical insulation\n\n{text}\n', drafts=True)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def covered(clauses: str, *paragraphs: tuple[str, str]) -> CoverageReport:
    """The coverage of a section of these paragraphs, each with its number and its words."""
    return coverage_of(ruleset(clauses), [Paragraph(number, text, "p") for number, text in paragraphs])


def told(report: CoverageReport) -> list[tuple[str, Difference, str]]:
    """What differs, in plain values."""
    return [(one.name, one.sort, one.words) for one in report.differs]


THICK = "Insulation thickness shall be not less than 1-1/2 inches."
FLAME = "Flame spread shall be not more than 25."


@pytest.mark.parametrize(
    ("shall", "words", "sort", "said"),
    [
        (
            "thickness be at most 1-1/2 in",
            THICK,
            Difference.DIRECTION,
            "the section says `thickness at least 1-1/2 in`, the clause `at most 1-1/2 in`",
        ),
        (
            "thickness be at least 2 in",
            THICK,
            Difference.AMOUNT,
            "the section says `thickness at least 1-1/2 in`, the clause `at least 2 in`",
        ),
        (
            "flame spread be at least 25",
            FLAME,
            Difference.DIRECTION,
            "the section says `flame spread at most 25`, the clause `at least 25`",
        ),
        (
            "vapor stop spacing be at most 20 ft",
            "Set the dams, of whatever make, not more than 15 feet apart.",
            Difference.AMOUNT,
            "the section says `at most 15 ft`, the clause `at most 20 ft`",
        ),
        (
            "operating temperature be at most 140 F",
            "Cool the line by any means to not less than 140 degrees F.",
            Difference.DIRECTION,
            "the section says `at least 140 F`, the clause `at most 140 F`",
        ),
    ],
)
def test_an_amount_or_a_direction_that_differs_is_told(shall: str, words: str, sort: Difference, said: str) -> None:
    """Read paragraphs are held against the clause term by term, others by their amounts alone."""
    report = covered(f'clause 2.1.A "x"\n  shall {shall}', ("2.1.A", words))
    assert told(report) == [("2.1.A", sort, said)]
    assert report.to_look_at == ("2.1.A",)
    assert not report.is_whole


@pytest.mark.parametrize(
    ("clause", "words"),
    [
        ("shall thickness be at least 38 mm", "Insulation thickness shall be not less than 38 mm."),
        ("shall not thickness is less than 1-1/2 in", THICK),
        ("where pipe size is at least 2 in\n  shall thickness be at least 1-1/2 in", THICK),
        ("shall thickness be at least 1-1/2 in", "Thickness, by NPS 2 and DN 50, shall be at least 1-1/2 inches."),
        ("shall flame spread be at most 25", "By ASTM E84, in Section 23 07 00, the index is at most 25."),
    ],
)
def test_what_says_the_same_otherwise_is_no_difference(clause: str, words: str) -> None:
    """A clause under "not" turns its direction; amounts of other kinds and numbers of standards are not compared."""
    assert told(covered(f'clause 2.1.A "x"\n  {clause}', ("2.1.A", words))) == []


@pytest.mark.parametrize("names", [("5.A", "5.B"), ("5a", "5b"), ("5(a)", "5(b)"), ("5-1", "5-2")])
def test_clauses_that_part_a_paragraph_are_held_against_it_together(names: tuple[str, str]) -> None:
    """A paragraph of two requirements may be two clauses called after it, each with its words or a part of them."""
    words = f"{THICK} {FLAME}"
    first, second = (
        f'clause {name} "x"\n  wording "{wording}"\n  shall {shall}\n'
        for name, wording, shall in zip(
            names, (words, FLAME), ("thickness be at least 1-1/2 in", "flame spread be at most 25"), strict=True
        )
    )
    report = covered(f"{first}\n{second}", ("5", words))
    assert told(report) == []
    assert report.strangers == ()
    assert report.paragraphs[0].clauses == names


def test_a_revised_section_shows_the_clauses_to_look_at() -> None:
    """A paragraph put in moves the numbers behind it; words that changed, went or came are told, and nothing else."""
    clauses = (
        f'clause 2.1.A "a"\n  wording "{THICK}"\n  shall thickness be at least 1-1/2 in\n\n'
        f'clause 2.1.B "b"\n  wording "{FLAME}"\n  shall flame spread be at most 25\n\n'
        'clause 2.1.C "c"\n  wording "Provide PVC jackets."\n  shall jacket be PVC\n\n'
        'not checked 2.1.D "d"\n  because vague\n  wording "Be neat."'
    )
    before = [("2.1.A", THICK), ("2.1.B", FLAME), ("2.1.C", "Provide PVC jackets."), ("2.1.D", "Be neat.")]
    assert covered(clauses, *before).is_whole
    after = covered(
        clauses,
        ("2.1.A", "Insulation shall be dry."),
        ("2.1.B", THICK.replace("1-1/2", "2")),
        ("2.1.C", FLAME),
        ("2.1.D", "Be neat."),
    )
    assert told(after) == [
        ("2.1.A", Difference.NUMBER, "it is paragraph 2.1.B of the section"),
        ("2.1.A", Difference.WORDING, f"the section says: {THICK.replace('1-1/2', '2')}"),
        ("2.1.A", Difference.AMOUNT, "the section says `thickness at least 2 in`, the clause `at least 1-1/2 in`"),
        ("2.1.B", Difference.NUMBER, "it is paragraph 2.1.C of the section"),
    ]
    assert [one.covered for one in after.paragraphs] == [
        *(Covered.NOTHING, Covered.CHECKED, Covered.CHECKED, Covered.NOT_CHECKED)
    ]
    assert after.strangers == ("2.1.C",)
    assert after.to_look_at == ("2.1.A", "2.1.B", "2.1.C")


TABLE = """table hot thickness in in
  by operating temperature, pipe size
                 | up to 2 in | over 2 in
  105 F to 140 F | 1          | 1-1/2
  over 140 F     | 1-1/2      | -

clause 2.1.A "a"
  shall thickness be at least hot thickness"""
ROWS = (("Temperature", 'up to 2"', 'over 2"'), ("105 - 140 F", "1", "1-1/2"), ("over 140 F", "1-1/2", "N/A"))


@pytest.mark.parametrize(
    ("row", "column", "cell", "said"),
    [
        (1, 2, "2", "at 105 F to 140 F, over NPS 2 the section has 2 in, the table 1-1/2 in"),
        (2, 2, "3", "at over 140 F, over NPS 2 the section has 3 in, the table no value"),
        (1, 1, "None", "at 105 F to 140 F, up to NPS 2 the section has `nothing required`, the table 1 in"),
    ],
)
def test_a_cell_that_differs_is_told_with_its_bands(row: int, column: int, cell: str, said: str) -> None:
    """The table of the section stands for the one with the same bands, whatever its name."""
    rows = [list(one) for one in ROWS]
    same = coverage_of(ruleset(TABLE), [SectionTable(ROWS, "2.1.A", "", "t")])
    assert (told(same), [one.name for one in same.tables]) == ([], ["hot thickness"])
    rows[row][column] = cell
    report = coverage_of(ruleset(TABLE), [SectionTable(tuple(map(tuple, rows)), "2.1.A", "", "t")])
    assert told(report) == [("hot thickness", Difference.CELL, said)]


def test_bands_that_moved_and_tables_that_nothing_stands_for_are_told() -> None:
    """A band of one alone is told from both sides; a table that cannot be read, or has no counterpart, is open."""
    moved = (ROWS[0], ("105 - 130 F", "1", "1-1/2"), ROWS[2])
    report = coverage_of(ruleset(TABLE), [SectionTable(moved, "2.1.A", "", "t")])
    assert [one.words for one in report.differs] == [
        "the section has 1 in at 105 F to 130 F, up to NPS 2, the table no such cell",
        "the section has 1-1/2 in at 105 F to 130 F, over NPS 2, the table no such cell",
        "the section has no cell at 105 F to 140 F, up to 2 in, the table 1 in",
        "the section has no cell at 105 F to 140 F, over 2 in, the table 1-1/2 in",
    ]
    for rows, unread in (
        ((("Jacket", "Thickness"), ("PVC", "1")), ""),
        ((("Lorem", "Ipsum"), ("a", "b")), "it is not clear which rows of the table are headings"),
    ):
        one = coverage_of(ruleset(TABLE), [SectionTable(rows, "2.1.B", "", "t")]).tables[0]
        assert (one.name, one.unread) == ("", unread)


def test_an_unconfirmed_draft_is_open_and_not_compared() -> None:
    """Until somebody stands behind a clause, its paragraph is not covered."""
    report = covered(
        f'clause 2.1.A "x"\n  draft\n  wording "{THICK}"\n  shall thickness be at most 1 in', ("2.1.A", THICK)
    )
    assert ([one.covered for one in report.paragraphs], report.is_whole) == ([Covered.DRAFT], False)
