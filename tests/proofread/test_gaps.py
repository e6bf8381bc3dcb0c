"""One finding for one gap: the systems that no clause governs, told by the reasons why, each with its smallest line."""

from __future__ import annotations

from speccheck.language import parse_ruleset
from speccheck.proofread.findings import Finding
from speccheck.proofread.proofreading import proofread
from tests.some import some

PLANT = """
ruleset "Invented plant"
  speaks mechanical insulation

scope thickness
  where component is one of pipe, fitting, valve, flange
  where service is one of chilled water, heating hot water, domestic hot water, steam, steam condensate

clause 1 "Chilled water"
  subject thickness
  where component is one of pipe, fitting, valve, flange
  where service is chilled water
  where pipe size is at most 8 in
  shall thickness be at least 1 in

clause 2 "Heating hot water"
  subject thickness
  where component is one of pipe, fitting, valve, flange
  where service is heating hot water and operating temperature is at most 200 F
  shall thickness be at least 1 in

clause 3 "Domestic hot water"
  subject thickness
  where component is pipe
  where service is domestic hot water
  where location is not outdoor
  shall thickness be at least 1 in

clause 4 "Steam"
  subject thickness
  where component is one of pipe, fitting, valve, flange
  where service is steam
  where pipe size is over 1 in
  where operating temperature is at most 350 F
  shall thickness be at least 2 in
"""
# What the clauses leave out, by hand: each of the four stops somewhere, two of them twice, and condensate has none.
GAPS = {
    "service steam condensate": "component pipe, service steam condensate",
    "service chilled water; pipe size 10 in through 48 in": "component pipe, service chilled water, pipe size 10 in",
    "service heating hot water; operating temperature over 200 F to 260 F": (
        "component pipe, service heating hot water, operating temperature 212 F"
    ),
    "component fitting or valve or flange; service domestic hot water": (
        "component fitting, service domestic hot water"
    ),
    "service domestic hot water; location outdoor": "component pipe, service domestic hot water, location outdoor",
    "service steam; operating temperature over 350 F to 1200 F": (
        "component pipe, service steam, operating temperature 400 F"
    ),
    "service steam; pipe size 1/8 in through 1 in": "component pipe, service steam, pipe size 1 in",
}


def _gaps(text: str) -> list[Finding]:
    loaded = parse_ruleset(text)
    assert loaded.ruleset is not None, loaded.diagnostics
    return [one for one in proofread(loaded.ruleset).findings if one.code == "P103"]


def test_each_gap_is_told_once() -> None:
    """Seven things are left out, and seven findings name them, not the temperatures that go with each service."""
    assert {one.systems: one.example_text for one in _gaps(PLANT)} == GAPS


def test_the_smallest_line_names_every_value_that_makes_the_gap() -> None:
    """Each term in the words of a finding is stated by its line, though fewer might do for another gap."""
    for one in _gaps(PLANT):
        told = {part.strip().rsplit(" ", 1)[0] for part in one.systems.split(";")}
        assert all(any(words.startswith(stated.term.name) for stated in one.example) for words in some(told)), one


def test_a_clause_put_in_closes_its_gap_alone() -> None:
    """With a clause on condensate six findings are left, and they are the other six."""
    clause = """
clause 5 "Condensate"
  subject thickness
  where component is one of pipe, fitting, valve, flange
  where service is steam condensate
  shall thickness be at least 1 in
"""
    left = {one.systems for one in _gaps(PLANT + clause)}
    assert left == set(GAPS) - {"service steam condensate"}


def test_what_to_write_instead_can_be_pasted() -> None:
    """The exceptions that the findings propose, pasted into the scope, leave nothing ungoverned."""
    proposed = [one.help.partition("scope: `")[2].rstrip("`") for one in _gaps(PLANT)]
    assert all(proposed)
    assert "except where service is chilled water and pipe size is at least 10 in because ..." in proposed
    pasted = "".join(f"  {one.replace('...', chr(34) + 'left out' + chr(34))}\n" for one in proposed)
    assert _gaps(PLANT.replace("\nclause 1 ", f"{pasted}\nclause 1 ", 1)) == []
