"""What proposals are like: missing data, clashes, the order of the ruleset, properties of what is replaced."""

from __future__ import annotations

from speccheck.judge import Verdict
from speccheck.report.mending_words import clash_text, proposal_texts
from speccheck.review.corrections import Mending, Tools, mend
from tests.review.mending.drawing import line_of, ruleset_of

THICK = 'clause 1 "thick"\n  shall thickness be at least 1-1/2 in\n'
SPACED = 'clause 2 "spaced"\n  shall spacing be at most 15 ft\n'
EITHER = 'clause 1 "either"\n  shall thickness be at least 2 in or jacket be steel\n'
LIMITED = 'clause 3 "thin"\n  shall thickness be at most 1 in\n'


def mended(clauses: str, stated: dict[str, str], keep: tuple[str, ...] = ()) -> Mending:
    """Return what would make a line comply, which has to need something."""
    ruleset = ruleset_of(clauses)
    found = mend(line_of(ruleset, stated), Tools.of(ruleset, keep))
    assert found is not None
    return found


def texts(found: Mending) -> list[tuple[str, ...]]:
    """Return the proposals in words."""
    return [proposal_texts(proposal, "inch-pound") for proposal in found.proposals]


def test_next_stocked_step_is_proposed() -> None:
    """1-1/4 in is not stocked: from 1 in the next step that complies is 1-1/2 in, and thicker ones comply as well."""
    assert texts(mended(THICK, {"thickness": "1 in"})) == [("revise thickness from 1 in to 1-1/2 in or more",)]


def test_limit_of_a_clause_is_proposed_where_nothing_is_stocked() -> None:
    """A spacing has no stocked steps; the limit that the clause states is the smallest change."""
    assert texts(mended(SPACED, {"spacing": "18 ft"})) == [("revise spacing from 18 ft to 15 ft or less",)]


def test_beyond_a_limit_that_does_not_comply_itself() -> None:
    """Less than 10 ft is met by a plain number below it."""
    clause = 'clause 2 "spaced"\n  shall spacing be less than 10 ft\n'
    assert texts(mended(clause, {"spacing": "18 ft"})) == [("revise spacing from 18 ft to 9 ft or less",)]


def test_line_that_complies_needs_nothing() -> None:
    """There is no proposal for a line that breaks nothing."""
    ruleset = ruleset_of(THICK)
    assert mend(line_of(ruleset, {"thickness": "2 in"}), Tools.of(ruleset)) is None


def test_missing_datum_is_not_invented() -> None:
    """For what is not given it is said what would comply, and that it is not given."""
    found = mended(SPACED, {"spacing": "TBD"})
    assert (found.fails, [clause.name for clause in found.lacks]) == ((), ["2"])
    assert not found.proposals[0].changes[0].is_given
    assert texts(found) == [("state spacing, which is not given (TBD): 15 ft or less would comply",)]


def test_data_of_the_building_are_waited_for() -> None:
    """A clause that waits for the temperature of the building stays open, and is not worked around."""
    hot = 'clause 4 "hot"\n  where operating temperature is at least 100 F\n  shall material be glass\n'
    found = mended(THICK + hot, {"thickness": "1 in", "material": "foam", "operating temperature": "TBD"})
    assert texts(found) == [("revise thickness from 1 in to 1-1/2 in or more",)]


def test_change_that_opens_a_question_says_so() -> None:
    """Where every change brings in a clause that waits for the building, the proposal names what it waits for."""
    wet = 'clause 4 "steel"\n  where jacket is steel\n  shall operating temperature be at least 100 F\n'
    found = mended('clause 1 "jacket"\n  shall jacket be steel\n' + wet, {"jacket": "PVC"})
    assert [proposal.waits_for for proposal in found.proposals] == [("operating temperature",)]
    assert texts(found) == [
        (
            "revise jacket from PVC to steel",
            "whether it then complies with 4 cannot be determined without operating temperature",
        )
    ]


def test_clauses_that_clash_are_named_as_a_pair() -> None:
    """At least 1-1/2 in and at most 1 in cannot both be; a third clause is not drawn into it."""
    found = mended(THICK + SPACED + LIMITED, {"thickness": "1 in", "spacing": "18 ft"})
    assert found.proposals == ()
    assert found.clash is not None
    assert [clause.name for clause in found.clash.clauses] == ["1", "3"]
    assert clash_text(found.clash) == "no change of thickness complies with clauses 1 and 3 together"


def test_clause_that_nothing_proposed_can_meet() -> None:
    """A clause about the building alone cannot be met by a proposal."""
    found = mended('clause 5 "hot"\n  shall service be hot\n', {"service": "cold"})
    assert found.clash is not None
    assert clash_text(found.clash) == "nothing that may be changed bears on clause 5"


def test_order_of_the_ruleset_decides_what_comes_first() -> None:
    """Without an order the vocabulary's decides between two single changes; a stated one goes before it."""
    line = {"thickness": "1 in", "jacket": "PVC"}
    thickness, jacket = ("revise thickness from 1 in to 2 in or more",), ("revise jacket from PVC to steel",)
    assert texts(mended(EITHER, line)) == [thickness, jacket]
    assert texts(mended("  changes cheapest first jacket, thickness\n" + EITHER, line)) == [jacket, thickness]


def test_term_that_is_kept_is_not_changed() -> None:
    """A term that the reviewer wants kept is left as it is."""
    found = mended(EITHER, {"thickness": "1 in", "jacket": "PVC"}, keep=("thickness",))
    assert texts(found) == [("revise jacket from PVC to steel",)]


def test_properties_go_with_what_is_replaced() -> None:
    """The conductivity of foam says nothing of glass: with another material it has to be shown again."""
    clauses = 'clause 6 "glass"\n  shall material be glass\nclause 7 "k"\n  shall conductivity be at most 0.27\n'
    found = mended(clauses, {"material": "foam", "conductivity": "0.25"})
    assert texts(found) == [
        (
            "revise material from foam to glass",
            "show conductivity of the new material: 0.27 or less would comply",
        )
    ]


def test_part_of_a_set_is_added() -> None:
    """Of a set only what lacks is added, and what was there stays."""
    clause = 'clause 8 "stops"\n  shall stops include valves, flanges\n  shall stops exclude hangers\n'
    assert texts(mended(clause, {"stops": "valves, hangers"})) == [
        ("revise stops from valves, hangers to valves and flanges (include flanges and leave out hangers)",)
    ]


def test_none_is_no_proposal() -> None:
    """Leaving the jacket out would meet the clause, and is not proposed."""
    found = mended('clause 9 "no PVC"\n  shall jacket be not PVC\n', {"jacket": "PVC"})
    assert texts(found) == [("revise jacket from PVC to aluminum",)]


def test_changed_line_was_judged() -> None:
    """A proposal carries the cells of the changed line."""
    found = mended(THICK, {"thickness": "1 in"})
    assert [cell.verdict for cell in found.proposals[0].cells] == [Verdict.COMPLIES]
