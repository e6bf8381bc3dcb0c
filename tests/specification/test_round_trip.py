"""Prose of the shipped rulesets, as a Word document drafted back: it means the same, or is left to do.

What a clause means is told by the comparison of editions: definitions, tables and units count, words do not.
"""

from __future__ import annotations

from collections import Counter
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from speccheck.language import load_ruleset, load_vocabulary, parse_ruleset, shipped_ruleset_names
from speccheck.language.core import Ruleset
from speccheck.proofread.clause_meaning import part_meanings
from speccheck.report.word.section import render_prose_document
from speccheck.specification import draft, read_section, ruleset_text

pytest.importorskip("docx")
DAIRY = Path(__file__).parents[2] / "examples" / "dairy"
NAMES = shipped_ruleset_names()
LEAST = 0.9


def drafted_back(ruleset: Ruleset) -> Ruleset:
    """The ruleset that is drafted from the document of another one's prose."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    with TemporaryDirectory() as folder:
        path = Path(folder) / "section.docx"
        path.write_bytes(render_prose_document(ruleset, own_only=True))
        blocks, problems = read_section(path)
    assert problems == ()
    loaded = parse_ruleset(
        ruleset_text("back", vocabulary, draft(blocks, vocabulary)), drafts=True, vocabulary=vocabulary
    )
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


@cache
def fates(name: str) -> Counter[str]:
    """What became of the clauses of a ruleset: "same", "left" to do, or "other"."""
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None
    own = [clause for clause in ruleset.clauses if clause.ruleset == ruleset.name]
    back = drafted_back(ruleset).clauses if own else ()
    by_label = {clause.name: clause for clause in back if not clause.todo}
    told = [todo.wording for todo in back if todo.todo]
    found: Counter[str] = Counter()
    for clause in own:
        other = by_label.get(clause.label)
        if other is not None:
            found["same" if part_meanings(other) == part_meanings(clause) else "other"] += 1
        else:
            found["left" if any(f"(clause {clause.label})" in words for words in told) else "lost"] += 1
    return found


@pytest.mark.parametrize("name", NAMES)
def test_no_clause_comes_back_as_another_or_is_lost(name: str) -> None:
    """A clause that is not read back to the letter is a `todo` with its words."""
    assert not fates(name)["other"]
    assert not fates(name)["lost"]


def test_nine_tenths_of_the_shipped_clauses_come_back_the_same() -> None:
    """Counted over all shipped rulesets."""
    total = sum((fates(name) for name in NAMES), Counter())
    print(dict(total))
    assert total["same"] >= LEAST * total.total()


def test_the_dairy_keeps_its_numbers_and_its_meaning() -> None:
    """Its own clauses, numbered as sections are, come back under the same numbers."""
    ruleset = load_ruleset(DAIRY / "project.clauses").ruleset
    assert ruleset is not None
    back = {clause.name: clause for clause in drafted_back(ruleset).clauses if not clause.todo}
    own = [clause for clause in ruleset.clauses if clause.ruleset == ruleset.name]
    both = [(clause, back[clause.name]) for clause in own if clause.name in back]
    assert [one.name for one, other in both if part_meanings(other) != part_meanings(one)] == []
    assert len(both) >= LEAST * len(own) > 0
