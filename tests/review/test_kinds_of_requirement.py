"""The kinds of requirement that sections of this trade have: each is encoded and judges, or has a reason why not.

`files/kinds_of_requirement.toml` has 73 of them, with wording in the dairy's world, data that comply and data that do
not. What data comply follows from the wording; the physics behind two of them is tested beside published values
elsewhere.
"""

from __future__ import annotations

import datetime
import tomllib
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from speccheck.judge import Judge, Verdict
from speccheck.judge.examples import example_line
from speccheck.judge.vectorized import columns_of, judge_columns
from speccheck.language import load_vocabulary, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.review.documents import DocumentStanding, documents_of
from speccheck.review.line_relations import relations_of
from speccheck.review.received import read_received
from speccheck.schedule.lines import Line

FILE = Path(__file__).parent / "files" / "kinds_of_requirement.toml"
KINDS: list[dict[str, Any]] = tomllib.loads(FILE.read_text(encoding="utf-8"))["kind"]
DAY = datetime.date(2026, 3, 4)
HEAD = """ruleset "kinds"
  speaks mechanical insulation

table thickness scheduled in in
  by operating temperature, pipe size
                      | up to 2 in | over 2 in
  up to 250 F         | 2-1/2      | 3
  over 250 F to 338 F | 3          | 4

table by concealment in in
  by service, concealed, pipe size
                    |     | up to 2 in | over 2 in
  chilled water     | yes | 1          | 1-1/2
  chilled water     | no  | 1-1/2      | 2
  heating hot water | no  | 1          | 1-1/2

table with words in in
  by service, pipe size
                    | up to 2 in       | over 2 in
  heating hot water | 1                | not permitted
  chilled water     | nothing required | 1

"""


@cache
def vocabulary() -> Vocabulary:
    """The shipped vocabulary."""
    found = load_vocabulary("mechanical insulation").vocabulary
    assert found is not None
    return found


def ruleset_of(item: str) -> Ruleset:
    """The ruleset of one item."""
    loaded = parse_ruleset(f"{HEAD}{item}\n", vocabulary=vocabulary())
    assert loaded.ruleset is not None
    assert loaded.usable, loaded.diagnostics
    return loaded.ruleset


def lines_of(data: Sequence[str]) -> list[Line]:
    """Lines that state what examples would state."""
    examples = "\n".join(f'  example "{number}" complies\n    {one}' for number, one in enumerate(data))
    ruleset = ruleset_of(f'clause 9 "x"\n  shall concealed\n{examples}')
    found = [example_line(one, ruleset.units) for one in ruleset.clauses[0].examples]
    return [Line(f"P-{number}", one.data) for number, one in enumerate(found, start=1)]


def named(*sorts: str) -> list[Any]:
    """The kinds that are encoded in one of some ways."""
    return [pytest.param(kind, id=kind["name"]) for kind in KINDS if any(sort in kind for sort in sorts)]


@pytest.mark.parametrize("kind", named("clause"))
def test_a_clause_lets_pass_what_complies_and_nothing_else(kind: dict[str, Any]) -> None:
    """The judge and the columns say so of both lines; without `fails` the clause leaves it to the reviewer."""
    ruleset = ruleset_of(f'clause 1 "x"\n  wording "{kind["wording"]}"\n  {kind["clause"].strip()}')
    lines = lines_of([one for one in (kind["complies"], kind["fails"]) if one])
    verdicts = [Judge(ruleset).cell(0, line).verdict for line in lines]
    assert verdicts == [Verdict.COMPLIES, Verdict.FAILS][: len(lines)]
    matrix = judge_columns(ruleset, columns_of(lines, ruleset))
    assert [matrix.verdict(row, 0) for row in range(len(lines))] == verdicts
    assert Judge(ruleset).cell(0, Line("silent", {})).verdict is Verdict.CANNOT_TELL


@pytest.mark.parametrize("kind", named("relation"))
def test_a_relation_lets_pass_lines_that_comply_and_no_others(kind: dict[str, Any]) -> None:
    """What lines have in common, that there is one, what they come to together."""
    ruleset = ruleset_of(f'relation 1 "x"\n  wording "{kind["wording"]}"\n  {kind["relation"].strip()}')
    for lines, verdict in ((kind["complies"], Verdict.COMPLIES), (kind["fails"], Verdict.FAILS)):
        assert {one.verdict for one in relations_of(ruleset, lines_of(lines))} == {verdict}


@pytest.mark.parametrize("kind", named("document"))
def test_a_document_is_satisfied_by_what_was_received(kind: dict[str, Any], tmp_path: Path) -> None:
    """By what is of the material and recent enough; by nothing, and by what is not, it is not satisfied."""
    ruleset = ruleset_of(f'document 1 "x"\n  wording "{kind["wording"]}"\n  {kind["document"].strip()}')
    path = tmp_path / "received.toml"
    for received, standing in (
        (kind["complies"], DocumentStanding.SATISFIED),
        (kind["fails"], DocumentStanding.NOT_SATISFIED),
    ):
        path.write_text(received, encoding="utf-8")
        register, problems = read_received(path, ruleset)
        assert register is not None, problems
        assert [one.standing for one in documents_of(ruleset, lines_of([kind["line"]]), register, DAY)] == [standing]


@pytest.mark.parametrize("kind", named("because"))
def test_what_nothing_checks_says_why(kind: dict[str, Any]) -> None:
    """The reason is one of the closed list, and the paragraph is kept with its words."""
    item = f'not checked 1 "x"\n  because {kind["because"]}\n  wording "{kind["wording"]}"'
    (paragraph,) = ruleset_of(f'{item}\n\nclause 2 "x"\n  shall concealed').unchecked
    assert (paragraph.reason.value, paragraph.wording) == (kind["because"], kind["wording"])


def test_at_least_60_of_73_kinds_are_encoded_as_meant() -> None:
    """Each kind stands once, and is encoded in one way."""
    assert len({kind["name"] for kind in KINDS}) == len(KINDS) == 73
    ways = [[way for way in ("clause", "relation", "document", "because") if way in kind] for kind in KINDS]
    assert [way for way in ways if len(way) != 1] == []
    assert sum(way != ["because"] for way in ways) >= 60
