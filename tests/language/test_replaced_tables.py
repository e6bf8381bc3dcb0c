"""Tables of a ruleset built on that an addendum replaces, whole or in some cells; worked out by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.judge import Judge, Verdict
from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread
from speccheck.schedule.lines import Datum, Line

PROJECT = """ruleset "project"
  speaks mechanical insulation

define thickness asked for
  equal to pipe thickness

table pipe thickness in in
  source "Section 23 07 19" seen
  by operating temperature, pipe size
                 | under 2 in | 2 in and over
  105 F to 140 F | 1          | 1-1/2
  141 F to 200 F | 1-1/2      | 2

clause 2.1 "Thickness"
  shall thickness be at least pipe thickness

clause 2.2 "Thickness by name"
  shall thickness be at least thickness asked for
"""
HEAD = 'ruleset "addendum"\n  speaks mechanical insulation\n  builds on "project"\n\n'
CELLS = """table pipe thickness in in
  source "Addendum 3" seen
  replaces cells of "project"
  by operating temperature, pipe size
                 | 2 in and over    | under 2 in
  105 F to 140 F | 3                | -
  141 F to 200 F | nothing required | -
"""
WHOLE = """table pipe thickness in in
  replaces the table of "project"
  by pipe size
  up to 4 in | 1
  over 4 in  | 2
"""


def addendum(text: str, folder: Path) -> tuple[Ruleset | None, list[str]]:
    """Return the ruleset of an addendum to the project, and what was told of it."""
    (folder / "project.clauses").write_text(PROJECT, "utf-8")
    path = folder / "addendum.clauses"
    path.write_text(HEAD + text, "utf-8")
    loaded = load_ruleset(path)
    return loaded.ruleset, [f"{one.code} {one.message}" for one in loaded.diagnostics]


def verdicts(ruleset: Ruleset, temperature: str, size: str, thickness: str) -> list[Verdict]:
    """Return the verdicts of all clauses on a line."""
    data = {}
    for name, text in (("operating temperature", temperature), ("pipe size", size), ("thickness", thickness)):
        value = read_value(text, ruleset.vocabulary.terms[name], BareUnits())
        assert not isinstance(value, Misread), value
        data[name] = Datum(value, text)
    return [cell.verdict for cell in Judge(ruleset).row(Line("1", data))]


@pytest.mark.parametrize(
    ("temperature", "size", "thickness", "expected"),
    [
        ("120 F", "3 in", "2 in", Verdict.FAILS),
        ("120 F", "3 in", "3 in", Verdict.COMPLIES),
        ("120 F", "1 in", "1 in", Verdict.COMPLIES),
        ("180 F", "1 in", "1 in", Verdict.FAILS),
        ("180 F", "3 in", "1/2 in", Verdict.COMPLIES),
    ],
    ids=["a cell that is replaced", "met", "a cell that stays", "not met", "a cell that asks nothing any more"],
)
def test_cells_that_an_addendum_replaces_are_read_by_the_clauses_of_the_project(
    tmp_path: Path, temperature: str, size: str, thickness: str, expected: Verdict
) -> None:
    """The addendum asks for 3 in at 120 F on large pipe and for nothing at 180 F; all other cells are the project's."""
    ruleset, told = addendum(CELLS, tmp_path)
    assert ruleset is not None, told
    assert told == []
    assert verdicts(ruleset, temperature, size, thickness) == [expected, expected]
    table = ruleset.tables["pipe thickness"]
    assert [source.text for source in table.sources] == ["Addendum 3", "Section 23 07 19"]
    assert ruleset.replaced == ("table pipe thickness by addendum",)


def test_a_table_is_replaced_whole_with_other_headings(tmp_path: Path) -> None:
    """The addendum's table goes by size alone: 1 in to 4 in pipe, at any temperature."""
    ruleset, told = addendum(WHOLE, tmp_path)
    assert ruleset is not None, told
    assert verdicts(ruleset, "180 F", "3 in", "1 in") == [Verdict.COMPLIES] * 2
    assert verdicts(ruleset, "120 F", "6 in", "1 in") == [Verdict.FAILS] * 2


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (CELLS.replace('"project"', '"projekt"'), "L305 no ruleset `projekt` that this one builds on has a table"),
        (CELLS.replace("2 in and over ", "3 in and over "), "L305 `pipe thickness` of `project` has no heading"),
        (CELLS.replace('  replaces cells of "project"\n', ""), "L301 the name `pipe thickness` is taken already"),
        (
            WHOLE.replace("in in", "of pipe size").replace("| 1", "| 1 in").replace("| 2", "| 2 in"),
            "L305 `pipe thickness` of `project` is read where this table cannot stand for it",
        ),
    ],
    ids=["no such ruleset", "no such heading", "not said", "cells of another kind"],
)
def test_what_cannot_be_replaced_is_told(tmp_path: Path, text: str, message: str) -> None:
    """A table of a ruleset that is not built on, another heading, another kind: none is taken silently."""
    _, told = addendum(text, tmp_path)
    assert [one for one in told if one.startswith(message)], told
