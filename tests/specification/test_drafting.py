"""Drafts of an invented section, and the coverage of it by the ruleset that they become."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.language import load_ruleset
from speccheck.specification import Covered, coverage_of, draft, read_section
from speccheck.specification.blocks import Paragraph, SectionTable
from speccheck.specification.tables import drafted_tables
from tests.specification.shipped import vocabulary

SECTION = """PART 1 - GENERAL
1.1 SUBMITTALS
A. Submit product data for each insulation.
PART 2 - PRODUCTS
2.1 INSULATION
A. Insulate heating hot water piping with fiberglass not less than 1-1/2 inches thick.
B. Insulation shall be installed in a manner fit for cheese.
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
    assert told.startswith("2 clauses, 0 tables and 1 document drafted, 0 paragraphs not checked, 1 left to do")
    assert not load_ruleset(into).usable
    ruleset = load_ruleset(into, drafts=True).ruleset
    assert ruleset is not None
    by_name = {clause.name: clause for clause in ruleset.clauses}
    assert by_name["2.1.A"].is_draft
    assert by_name["2.1.A"].wording in SECTION
    assert "`manner fit cheese` was not understood" in by_name["2.1.B"].todo[0]
    (asked,) = ruleset.documents
    assert (asked.name, asked.kind.value, asked.each[0].name, asked.is_draft) == (
        *("1.1.A", "data sheet", "insulation", True),
    )
    page = (tmp_path / "draft.html").read_text(encoding="utf-8")
    assert page.count("fit for cheese") == 1  # the words stand once, and what came from them beside them
    assert "<pre>clause 2.2.A &#34;Provide aluminum or PVC jackets on ...&#34;\n  where location is outdoor\n" in page
    assert "2 clauses to confirm, 1 document to confirm, 1 left to do, 5 headings." in page


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
        *(0, "3 checked, 0 drafted, not confirmed, 1 not checked, 0 nothing speaks of it"),
    )
    section.write_text(SECTION.replace("1-1/2 inches", "2 inches") + "B. Jackets shall be white.\n", encoding="utf-8")
    status, told = run("coverage", str(into), "--section", str(section))
    assert status == 2
    plain = " ".join(told.split())
    assert "Wording that is not that of the section 2.1.A: the section says: Insulate heating hot water" in plain
    assert (
        "Amounts that are not those of the section "
        "2.1.A: the section says `thickness at least 2 in`, the clause `at least 1-1/2 in`" in plain
    )
    assert "Nothing speaks of it 2.2.B Jackets shall be white." in plain
    assert "Look at: 2.1.A" in plain


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


HEAD = ("Temperature", '<1"', '1" to <1-1/2"', '4" & larger')


def test_a_table_keeps_every_cell_or_is_not_drafted() -> None:
    """Sizes across, temperatures down; N/A covers nothing, None asks nothing; a strange cell leaves it to do."""
    rows = (HEAD, ("105°F - 140°F", "1", "1-1/2", "N/A"), ("over 140 F", '1-1/2"', "None", "2 in"))
    drafted = drafted_tables(SectionTable(rows, "2.1.A", "", ""), vocabulary(), "t")
    assert drafted.doubts == ()
    assert drafted.tables[0].text.splitlines() == [
        'table "t" in in',
        "  by operating temperature, pipe size",
        "  | under NPS 1 | NPS 1 to under NPS 1-1/2 | NPS 4 and over",
        "  105 F to 140 F | 1 | 1-1/2 | -",
        "  over 140 F | 1-1/2 | nothing required | 2",
    ]
    for odd in ("see note", "2 ft", "1 or 2"):
        table = SectionTable((HEAD, ("105°F - 140°F", "1", odd, "2")), "", "", "")
        assert drafted_tables(table, vocabulary(), "t").doubts == (f"the cell `{odd}` is no thickness",)


@pytest.mark.parametrize(
    ("headings", "sizes", "written"),
    [
        (("Nominal pipe size (DN)", "15-25", "32 and over"), "", "| DN 15 to DN 25 | DN 32 and over"),
        (("Nominal pipe size", "DN 15 to DN 25", "over DN 25"), "", "| DN 15 to DN 25 | over DN 25"),
        (("Pipe size (mm)", "15-25", "32 and over"), "the column `Pipe size (mm) 15-25` was not understood: `20`", ""),
    ],
)
def test_bare_sizes_are_in_what_their_heading_says(headings: tuple[str, ...], sizes: str, written: str) -> None:
    """15 under DN is DN 15 and no pipe of 15 inches; under millimetres it may be a diameter, and is left."""
    over, *bands = headings
    rows = (("Service", over, over), ("Service", *bands), ("Steam", "20", "30"))
    drafted = drafted_tables(SectionTable(rows, "2.1", "Thickness, mm", ""), vocabulary(), "t")
    assert (drafted.doubts[:1], [one.text.splitlines()[2].strip() for one in drafted.tables]) == (
        (sizes,) if sizes else (),
        [written] if written else [],
    )


@pytest.mark.parametrize(
    ("title", "heading", "metric", "unit"),
    [
        ("Insulation", "Thickness, mm", True, "mm"),
        ("Insulation", "Thickness (in)", False, "in"),
        ("Insulation", "Thickness", False, "in"),
        ("Insulation", "Thickness", True, ""),
        ("Insulation", "R-value, m²·K/W", True, "m2.K/W"),
        ("Insulation", "R-value", False, "R"),
        ("Insulation", "R-value", True, ""),
    ],
)
def test_cells_are_in_the_unit_that_is_said(title: str, heading: str, metric: bool, unit: str) -> None:
    """Square metre kelvin per watt is not what an R-value in inch-pound units is; without a unit nobody guesses."""
    rows = (("Location", heading), ("Outdoor", "2"), ("Plenum", "1"))
    drafted = drafted_tables(SectionTable(rows, "2.1", title, ""), vocabulary(), "t", metric=metric)
    assert [one.text.splitlines()[0].rpartition(" in ")[2] for one in drafted.tables] == ([unit] if unit else [])
    assert drafted.doubts == (() if unit else ("it is not said in which unit its cells are",))


@pytest.mark.parametrize(
    ("title", "headings", "term"),
    [
        ("Jackets", ("Location", "Thickness (in)"), "jacket thickness"),
        ("Thickness", ("Jacket", "Minimum thickness (in)"), "jacket thickness"),
        ("Insulation", ("Location", "Thickness (in)"), "thickness"),
        ("Jackets and insulation", ("Location", "Insulation thickness (in)"), "thickness"),
        ("Jackets and insulation", ("Location", "Thickness (in)"), ""),
    ],
)
def test_cells_are_of_what_stands_over_them_or_of_what_the_table_is(
    title: str, headings: tuple[str, str], term: str
) -> None:
    """A thickness is that of jackets where they alone are spoken of; where both are, it is not guessed."""
    first = ("Aluminum", "PVC") if headings[0] == "Jacket" else ("Outdoor", "Plenum")
    rows = (headings, (first[0], "1"), (first[1], "2"))
    drafted = drafted_tables(SectionTable(rows, "2.1", title, ""), vocabulary(), "t")
    assert [one.term for one in drafted.tables] == ([term] if term else [])


@pytest.mark.parametrize(
    ("rows", "odd"),
    [
        ((("Service", "Indoors", "Outdoors"), ("Steam", "1", "2"), ("Glycol", "2", "3")), "Indoors"),
        ((("Service", "Supply", "Return"), ("Steam", "1", "2"), ("Glycol", "2", "3")), "Supply"),
        ((("Item", "Service", "Thickness (in)"), ("1", "Steam", "2"), ("2", "Glycol", "3")), "Item"),
        ((("Service", "Thickness (in)", "Remarks"), ("Steam", "2", "paint"), ("Glycol", "3", "")), "Remarks"),
    ],
)
def test_a_column_whose_heading_does_not_name_lines_is_no_size_and_no_condition(
    rows: tuple[tuple[str, ...], ...], odd: str
) -> None:
    """Thicknesses under "Indoors" are no sizes of pipes, and neither are the numbers of items; remarks are no lines."""
    drafted = drafted_tables(SectionTable(rows, "2.1", "Minimum insulation thickness (in)", ""), vocabulary(), "t")
    assert drafted.tables == ()
    assert any(f"the column `{odd}` was not understood" in doubt for doubt in drafted.doubts)


@pytest.mark.parametrize("mark", ["¹", " (a)", "*", " (1)"])
def test_a_cell_that_is_marked_for_a_note_is_kept_and_left_to_do(mark: str) -> None:
    """The amount of the cell stands; what the note changes is for a person."""
    rows = (("Location", "Thickness (in)"), ("Outdoor", f"2{mark}"), ("Plenum", "1"))
    (drafted,) = draft([SectionTable(rows, "2.1", "Insulation", "")], vocabulary())
    assert (drafted.sort, drafted.doubts) == ("todo", (f"the cell `2{mark}` is marked for a note",))
    assert "  outdoor | 2\n" in drafted.text
    for text in (
        "Insulate steam piping with 40 mm* of mineral wool.",
        "Insulate steam piping with 40¹ mm of mineral wool.",
    ):
        (one,) = draft([Paragraph("2.1.A", text, "p")], vocabulary())
        assert one.sort == "todo", one.text
    note = Paragraph("2.1.A", "* May be 1 inch in shafts.", "p")
    assert draft([note], vocabulary())[0].doubts == (
        "it is a note to what stands above; write into that what it changes",
    )


def test_an_insulation_that_tells_rows_apart_is_a_heading_of_theirs() -> None:
    """Two rows for one location differ in their insulation; of one that has no row nothing is said, and it is open."""
    rows = (
        ("Insulation", "Location", "Thickness (mm)"),
        ("Elastomeric foam", "Outdoor", "32"),
        ("Cellular glass", "Outdoor", "50"),
    )
    drafted = drafted_tables(SectionTable(rows, "2.1", "", ""), vocabulary(), "t")
    (table,) = drafted.tables
    assert (set(table.where), drafted.chosen, drafted.doubts) == ({"location is outdoor"}, (), ())
    assert "insulation" in table.text


@pytest.mark.parametrize(
    "text",
    [
        "Paragraph 2.1.A: change 25 to 50.",
        "Delete paragraph 2.2.B in its entirety.",
        "Replace paragraph 2.2.C with the following: Jacket overlap shall be at least 3 inches.",
        'In paragraph 3.1.B, revise "2 inches" to "2-1/2 inches".',
        "Provide at least 2 inches of fiberglass in lieu of 1-1/2 inches.",
        'Strike "fiberglass" wherever it appears.',
    ],
)
def test_a_change_of_another_paragraph_is_left_to_do(text: str) -> None:
    """What an addendum changes asks nothing by itself, though it may read as if it did."""
    (drafted,) = draft([Paragraph("4.1.A", text, "p")], vocabulary())
    assert (drafted.sort, drafted.doubts) == (
        *("todo", ("it changes what another paragraph says; write the change into that one",)),
    )


def test_sizes_down_and_services_across_under_several_headings() -> None:
    """Two rows of headings, the upper one over the whole width of the amounts; the table lies on its other side."""
    rows = (
        ("Nominal Pipe Size", "Minimum Thickness (inches)", "Minimum Thickness (inches)"),
        ("Nominal Pipe Size", "Chilled Water", "Heating Hot Water and Steam"),
        ("Up to 2 inches", "1", "1-1/2"),
        ("Over 2 inches", "1-1/2", "2"),
    )
    (table,) = drafted_tables(SectionTable(rows, "2.1.A", "", ""), vocabulary(), "t").tables
    assert table.text.splitlines() == [
        'table "t" in in',
        "  by pipe size, service",
        "  | chilled water | heating hot water, steam",
        "  up to NPS 2 | 1 | 1-1/2",
        "  over NPS 2 | 1-1/2 | 2",
    ]
    assert table.where == ("service is one of chilled water, heating hot water, steam",)


def test_a_column_of_materials_is_asked_beside_the_thickness() -> None:
    """Each service has its material, and a table of thickness by service and size."""
    rows = (
        ("Service", "Insulation Material", "under 2 in", "2 in and larger"),
        ("Chilled water", "Elastomeric foam or cellular glass", "1", "1-1/2"),
        ("Steam", "Fiberglass", "2", "3"),
    )
    drafted = drafted_tables(SectionTable(rows, "2.1.A", "", ""), vocabulary(), "t")
    assert [one.text.splitlines()[1:] for one in drafted.tables] == [
        [
            "  by service, pipe size",
            "  | under NPS 2 | NPS 2 and over",
            "  chilled water | 1 | 1-1/2",
            "  steam | 2 | 3",
        ]
    ]
    assert drafted.chosen == (
        (("service is chilled water",), "insulation be one of elastomeric foam, cellular glass"),
        (("service is steam",), "insulation be fiberglass"),
    )


@pytest.mark.parametrize(
    ("cell", "written"),
    [
        ("N/A", "-"),
        ("—", "-"),
        ("None", "nothing required"),
        ("Not required", "nothing required"),
        ("Not permitted", "not permitted"),
        ("NP", "not permitted"),
    ],
)
def test_what_a_table_says_nothing_of_asks_nothing_of_and_forbids_are_told_apart(cell: str, written: str) -> None:
    """N/A is a dash, which leaves the line open; None asks nothing; not permitted fails whatever is proposed."""
    rows = (HEAD, ("105°F - 140°F", "1", "1-1/2", cell))
    (table,) = drafted_tables(SectionTable(rows, "2.1.A", "", ""), vocabulary(), "t").tables
    assert table.text.splitlines()[-1] == f"  105 F to 140 F | 1 | 1-1/2 | {written}"


def test_three_terms_with_a_cell_for_each_combination_stay_one_table() -> None:
    """Services and places down, sizes across under two rows of headings: read by all three, as the language can."""
    rows = (
        ("Service", "Location", "Nominal pipe size", "Nominal pipe size"),
        ("Service", "Location", "Up to 2 inches", "Over 2 inches"),
        ("Chilled water", "Conditioned", "1", "1-1/2"),
        ("", "Outdoor", "1-1/2", "2"),
        ("Heating hot water", "Conditioned", "None", "1"),
        ("", "Outdoor", "1", "Not permitted"),
    )
    (table,) = drafted_tables(SectionTable(rows, "2.1.A", "", ""), vocabulary(), "t").tables
    assert table.text.splitlines() == [
        'table "t" in in',
        "  by service, location, pipe size",
        "  | | up to NPS 2 | over NPS 2",
        "  chilled water | conditioned | 1 | 1-1/2",
        "  chilled water | outdoor | 1-1/2 | 2",
        "  heating hot water | conditioned | nothing required | 1",
        "  heating hot water | outdoor | 1 | not permitted",
    ]
    assert table.where == (
        "service is one of chilled water, heating hot water",
        "location is one of conditioned, outdoor",
    )


def test_three_terms_part_a_table_into_several() -> None:
    """Temperatures under each service: a table for each service, looked up for its lines alone."""
    rows = (
        ("Service", "Temperature (F)", "up to 4 in", "over 4 in"),
        ("Steam", "201-250", "2", "3"),
        ("Steam", "over 250", "3", "4"),
        ("Chilled water", "40 to 60", "1", "1-1/2"),
    )
    drafted = drafted_tables(SectionTable(rows, "2.1.A", "", ""), vocabulary(), "t")
    assert [(one.name, one.where) for one in drafted.tables] == [
        ("t, steam", ("service is steam",)),
        ("t, chilled water", ("service is chilled water",)),
    ]
    assert drafted.tables[0].text.splitlines()[1:] == [
        "  by operating temperature, pipe size",
        "  | up to NPS 4 | over NPS 4",
        "  201 F to 250 F | 2 | 3",
        "  over 250 F | 3 | 4",
    ]


def test_bands_of_each_service_down_a_plain_list() -> None:
    """A list with bands of its own for each service becomes a table of sizes for each."""
    rows = (
        ("Service", "Size", "Thickness"),
        ("Steam", "up to 2 in", "2 in"),
        ("Steam", "over 2 in", "3 in"),
        ("Chilled water", "up to 4 in", "1 in"),
        ("Chilled water", "over 4 in", "2 in"),
    )
    drafted = drafted_tables(SectionTable(rows, "2.1.A", "", ""), vocabulary(), "t")
    assert [one.text.splitlines()[1:] for one in drafted.tables] == [
        ["  by pipe size", "  up to NPS 2 | 2", "  over NPS 2 | 3"],
        ["  by pipe size", "  up to NPS 4 | 1", "  over NPS 4 | 2"],
    ]


def test_a_column_that_nobody_understands_leaves_the_table_to_do() -> None:
    """A column of remarks may change every cell beside it."""
    rows = (("Service", "Thickness", "Remarks"), ("Steam", "2 in", "double at pits"), ("Chilled water", "1 in", ""))
    drafted = drafted_tables(SectionTable(rows, "2.1.A", "", ""), vocabulary(), "t")
    assert drafted.doubts == ("the column `Remarks` was not understood: `double at pits`",)


def test_a_clause_looks_up_the_table_below_its_paragraph() -> None:
    """The paragraph that points to a table asks what the table says, for the lines that both speak of."""
    rows = (("Service", "up to 2 in", "over 2 in"), ("Chilled water", "1", "1-1/2"), ("Steam", "2", "3"))
    text = "Insulate outdoor piping to the minimum thickness scheduled below:"
    blocks = (Paragraph("2.1.A", text, "p"), SectionTable(rows, "2.1.A", text, "t"))
    lead, table = draft(blocks, vocabulary())
    assert (lead.sort, table.sort) == ("heading", "table")
    assert table.text.splitlines()[-6:] == [
        'clause 2.1.A "Insulate outdoor piping to the minimum ..."',
        "  draft",
        f'  wording "{text}"',
        "  where location is outdoor",
        "  where service is one of chilled water, steam",
        '  shall thickness be at least "table of 2.1.A"',
    ]
    odd = (Paragraph("2.1.A", "Use at most the thickness scheduled below:", "p"), blocks[1])
    assert draft(odd, vocabulary())[1].doubts == ("`Use most` was not understood",)


def test_what_stands_above_a_paragraph_bears_on_it() -> None:
    """A title or leading words name the lines of all that is under them; odd words there are a doubt."""
    blocks = (
        Paragraph("2.2", "STEAM PIPING", "p"),
        Paragraph("2.2.A", "Piping exposed to weather:", "p"),
        Paragraph("2.2.A.1", "Provide aluminum jackets.", "p"),
        Paragraph("2.3", "CHILLED WATER PIPING OF THE OLD WING", "p"),
        Paragraph("2.3.A", "Thickness shall be not less than 1 inch.", "p"),
    )
    drafted = draft(blocks, vocabulary())
    assert [one.sort for one in drafted] == ["heading", "heading", "clause", "heading", "todo"]
    assert drafted[2].text.splitlines()[-3:] == [
        "  where service is steam",
        "  where location is outdoor",
        "  shall jacket be aluminum",
    ]
    assert drafted[4].doubts == ("`OLD WING` above, in 2.3, was not understood",)


def test_vague_words_with_an_amount_are_left_to_do() -> None:
    """What gives a number to meet is not put aside as vague; what gives none is."""
    sorts = {
        "Insulation shall be suitable for temperatures up to 450 F.": "todo",
        "Insulation shall be suitable for the service.": "not checked",
    }
    for text, sort in sorts.items():
        (drafted,) = draft([Paragraph("2.1.A", text, "p")], vocabulary())
        assert drafted.sort == sort, drafted.text


def test_an_exception_is_an_exception_and_two_kinds_of_lines_make_two_clauses() -> None:
    """What a sentence excepts is left out; sentences of one paragraph for other lines become a clause each."""
    text = "Jackets shall be PVC, except in plenums. Jackets on outdoor piping shall be aluminum."
    (drafted,) = draft([Paragraph("2.1.A", text, "p")], vocabulary())
    lines = [line.strip() for line in drafted.text.splitlines() if not line.strip().startswith(("wording", "draft"))]
    assert lines == [
        'clause 2.1.A "Jackets shall be PVC, except in ..."',
        "shall jacket be PVC",
        "except where location is plenum",
        "",
        'clause 2.1.A-2 "Jackets shall be PVC, except in ..."',
        "where location is outdoor",
        "shall jacket be aluminum",
    ]


def test_headings_are_no_clauses() -> None:
    """A short paragraph that asks nothing is a heading."""
    blocks, _ = read_section(Path(__file__).parent / "files" / "headings.txt")
    assert [one.sort for one in draft(blocks, vocabulary())] == ["heading", "heading", "clause"]


def test_a_title_that_names_a_material_speaks_for_what_is_under_it() -> None:
    """A family is one condition; a material that the vocabulary does not know leaves all that is under it in doubt."""
    blocks = (
        Paragraph("2.1", "MINERAL-FIBER PIPE INSULATION", "p"),
        Paragraph("2.1.A", "Maximum service temperature: at least 850 degrees F.", "p"),
        Paragraph("2.2", "CALCIUM MAGNESIA INSULATION", "p"),
        Paragraph("2.2.A", "Maximum service temperature: at least 850 degrees F.", "p"),
        Paragraph("2.3", "PIPING INSULATION SCHEDULE", "p"),
        Paragraph("2.3.A", "Maximum service temperature: at least 850 degrees F.", "p"),
    )
    drafted = draft(blocks, vocabulary())
    assert [one.sort for one in drafted[1::2]] == ["clause", "todo", "clause"]
    assert "  where insulation is mineral fiber" in drafted[1].text.splitlines()
    assert drafted[3].doubts == ("`CALCIUM MAGNESIA` above, in 2.2, was not understood",)
    assert "where" not in drafted[5].text


@pytest.mark.parametrize(
    ("text", "sort"),
    [
        ("Insulation shall be 2 inches thick before jackets are installed.", "todo"),
        ("Store room piping shall have PVC jackets.", "todo"),
        ("Sample lines shall be insulated with 1/2 inch of elastomeric foam.", "todo"),
        ("Materials delivered shall have a flame spread of 25 or less.", "todo"),
        ("Store insulation dry, off the floor and under cover.", "not checked"),
        ("Repair punctures before the engineer has left.", "not checked"),
        ("Jackets shall be neat.", "not checked"),
        ("Install insulation according to the manufacturer's instructions.", "not checked"),
    ],
)
def test_what_asks_something_that_can_be_checked_is_not_put_aside(text: str, sort: str) -> None:
    """A word of the site or of papers in it is no reason: "store room piping shall have PVC jackets"."""
    (drafted,) = draft([Paragraph("2.1.A", text, "p")], vocabulary())
    assert drafted.sort == sort, drafted.text


@pytest.mark.parametrize(
    ("title", "text", "sort"),
    [
        ("METAL JACKETS", "Thickness shall be at least 0.016 inch.", "todo"),
        ("METAL JACKETS", "Jacket thickness shall be at least 0.016 inch.", "clause"),
        ("ADHESIVES", "Maximum use temperature shall be at least 180 degrees F.", "todo"),
        ("INSERTS", "Density shall be at least 6 pcf.", "todo"),
        ("JACKETS AND INSULATION", "Thickness shall be at least 1 inch.", "todo"),
        ("JACKETS", "Insulation thickness below them shall be at least 1 inch.", "todo"),
        ("CELLULAR GLASS", "Density shall be at least 7 pcf.", "clause"),
    ],
)
def test_a_property_under_a_title_of_jackets_may_be_that_of_the_jackets(title: str, text: str, sort: str) -> None:
    """A thickness under "METAL JACKETS" is not taken as that of the insulation."""
    blocks = (Paragraph("2.1", title, "p"), Paragraph("2.1.A", text, "p"))
    assert draft(blocks, vocabulary())[1].sort == sort


def test_numbers_of_drafts_that_the_language_refuses_are_free_again() -> None:
    """A relation of two items that cannot be written leaves no gap in the numbers of what stands under its own."""
    text = "Schedule each steam valve, or include it in its line."
    later = "Insulation shall be cellular glass on steam piping and shall be fiberglass on chilled water piping."
    blocks = [Paragraph("3.1.A", text, "p"), Paragraph("3.1.A", later, "p")]
    drafted = draft(blocks, vocabulary())
    names = [line.split('"')[0].strip() for one in drafted for line in one.text.splitlines() if line[:6] == "clause"]
    assert (drafted[0].sort, names) == ("todo", ["clause 3.1.A", "clause 3.1.A-2"])
