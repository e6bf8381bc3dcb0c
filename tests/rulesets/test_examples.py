"""Shipped rulesets as they are: free of complaints, every example right, every clause and table cell touched by one."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from speccheck.judge import rehearse
from speccheck.language import load_ruleset, load_vocabulary, shipped_names, shipped_ruleset_names
from speccheck.language.core import Expected
from speccheck.language.ruleset_files import file_name
from speccheck.language.syntax.parsing import parse
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import DefinitionSyntax, RulesetSyntax, TableSyntax
from speccheck.shipped import shipped_folder


def written(name: str) -> str:
    """Return the text of a shipped file."""
    return (shipped_folder("rulesets") / file_name(name)).read_text(encoding="utf-8")


RULESETS = shipped_ruleset_names()
DEMO = str(Path(__file__).parents[2] / "examples" / "dairy" / "project.clauses")
VOCABULARIES = [name for name in shipped_names() if name not in RULESETS]


@pytest.mark.parametrize("name", RULESETS)
def test_every_example_comes_out_and_nothing_is_left_untried(name: str) -> None:
    """A shipped ruleset loads without a diagnostic, and so does the rehearsal of its examples."""
    loaded = load_ruleset(name)
    assert loaded.diagnostics == ()
    assert loaded.ruleset is not None
    rehearsal = rehearse(loaded.ruleset)
    assert rehearsal.diagnostics == ()
    assert len(rehearsal.results) >= 2 * rehearsal.clauses


@pytest.mark.parametrize("name", [*RULESETS, DEMO], ids=lambda name: Path(name).stem)
def test_every_example_has_a_title_of_its_own(name: str) -> None:
    """No two examples of a clause share a title, and none that is decided merely repeats a datum of its line."""
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None
    for clause in ruleset.clauses:
        titles = Counter(example.title for example in clause.examples)
        assert [title for title, count in titles.items() if count > 1] == [], clause.name
        repeated = [
            example.title
            for example in clause.examples
            if example.expected is not Expected.CANNOT_TELL
            and example.title in {f"{stated.term.name} {stated.text}" for stated in example.data}
        ]
        assert repeated == [], clause.name


@pytest.mark.parametrize("name", RULESETS)
def test_every_clause_and_table_says_where_it_comes_from(name: str) -> None:
    """Each clause and each table has a source, each clause a wording, the ruleset a caution about relying on it."""
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None
    assert [clause.name for clause in ruleset.clauses if not clause.sources or not clause.wording] == []
    assert [table.name for table in ruleset.tables.values() if not table.sources] == []
    assert ruleset.covers
    assert ruleset.leaves_out
    assert any("relying on" in caution for caution in ruleset.cautions)


@pytest.mark.parametrize("name", VOCABULARIES)
def test_every_vocabulary_loads_without_a_diagnostic(name: str) -> None:
    """The shipped vocabularies are free of complaints."""
    assert load_vocabulary(name).diagnostics == ()


def test_one_project_may_build_on_any_of_the_shipped_rulesets_together() -> None:
    """No two shipped rulesets give one name to two definitions or tables."""
    names: Counter[str] = Counter()
    for name in RULESETS:
        syntax, diagnostics = parse(SourceText(name, written(name)))
        assert diagnostics == ()
        assert isinstance(syntax, RulesetSyntax)
        for item in syntax.items:
            if isinstance(item, DefinitionSyntax | TableSyntax):
                names[item.name.text.casefold()] += 1
    assert [name for name, count in names.items() if count > 1] == []
