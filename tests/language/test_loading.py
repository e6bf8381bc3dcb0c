"""Loading: files found beside the ruleset or shipped, what bases bring, files that cannot be read."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import load_ruleset, load_vocabulary, parse_ruleset, shipped_names
from speccheck.language.core import Ruleset

MISTAKES = Path(__file__).parent / "mistakes"
BASE = (
    'ruleset "base"\n  speaks plain terms\n  caution "of the base"\n\n'
    "define cold\n  as operating temperature is under 60 F\n\n"
    "table needed in in\n  by service\n  steam | 1\n\n"
    'clause 2.1 "from the base"\n  shall thickness be at least 1 in\n\n'
    'clause 2.2 "stays"\n  shall concealed\n'
)


def resolved(text: str) -> Ruleset:
    """Return the ruleset of a text that stands beside the vocabulary of these tests."""
    loaded = parse_ruleset(text, "text.clauses", MISTAKES)
    assert loaded.usable, "\n".join(map(str, loaded.diagnostics))
    assert loaded.ruleset is not None
    return loaded.ruleset


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Make a folder with the vocabulary of these tests and a ruleset to build on."""
    (tmp_path / "plain-terms.clauses").write_text((MISTAKES / "plain-terms.clauses").read_text(encoding="utf-8"))
    (tmp_path / "base.clauses").write_text(BASE, encoding="utf-8")
    return tmp_path


def built(folder: Path, text: str) -> Ruleset:
    """Return a ruleset that builds on those of `folder`."""
    loaded = parse_ruleset(text, "text.clauses", folder)
    assert loaded.usable, "\n".join(map(str, loaded.diagnostics))
    assert loaded.ruleset is not None
    return loaded.ruleset


def test_file_that_is_not_there(tmp_path: Path) -> None:
    """A path without a file is told with what to check."""
    assert [str(found) for found in load_ruleset(tmp_path / "nowhere.clauses").diagnostics] == [
        "error[L104]: `nowhere.clauses` does not exist\n"
        "  at nowhere.clauses\n"
        "  help: check the path, or name a shipped ruleset"
    ]


def test_file_that_is_a_folder(tmp_path: Path) -> None:
    """A folder in place of a file is told as one."""
    (tmp_path / "rules").mkdir()
    assert [str(found) for found in load_vocabulary(tmp_path / "rules").diagnostics] == [
        "error[L104]: `rules` is a folder\n  at rules\n  help: name a file that ends in .clauses"
    ]


def test_file_that_is_not_text(tmp_path: Path) -> None:
    """A file that is no UTF-8 text is told as such."""
    (tmp_path / "old.clauses").write_bytes(b'ruleset "\xff\xfe"')
    assert [str(found) for found in load_ruleset(tmp_path / "old.clauses").diagnostics] == [
        "error[L104]: `old.clauses` is not text in UTF-8\n  at old.clauses\n  help: save the file as UTF-8 text"
    ]


def test_line_ends_and_marks_of_other_systems(tmp_path: Path) -> None:
    """A byte order mark and carriage returns change neither the meaning nor the places."""
    text = 'ruleset "a"\n  speaks plain terms\n\nclause 1 "b"\n  shall thicknes be at least 1 in\n'
    (tmp_path / "plain-terms.clauses").write_text((MISTAKES / "plain-terms.clauses").read_text(encoding="utf-8"))
    (tmp_path / "a.clauses").write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    (found,) = load_ruleset(tmp_path / "a.clauses").diagnostics
    assert (found.code, found.place.line, found.place.column) == ("L201", 5, 9)


@pytest.mark.parametrize("name", shipped_names())
def test_shipped_files_load_by_name(name: str) -> None:
    """Every shipped ruleset and vocabulary loads by its name from any folder, without a diagnostic."""
    vocabulary = name == "mechanical-insulation"
    loaded = load_vocabulary(name) if vocabulary else load_ruleset(name)
    assert [str(found) for found in loaded.diagnostics] == []
    assert (loaded.vocabulary if hasattr(loaded, "vocabulary") else loaded.ruleset) is not None


def test_vocabulary_by_the_name_that_rulesets_use() -> None:
    """A shipped vocabulary goes by the words behind `speaks` as well as by its file name."""
    assert load_vocabulary("mechanical insulation").vocabulary == load_vocabulary("mechanical-insulation").vocabulary


def test_base_brings_clauses_names_and_cautions(folder: Path) -> None:
    """Clauses of a base come first; its definitions and tables can be used; its cautions are kept."""
    ruleset = built(
        folder,
        'ruleset "own"\n  builds on "base"\n  caution "own"\n\n'
        'clause 1 "a"\n  where cold\n  shall thickness be at least needed\n',
    )
    assert [(clause.name, clause.ruleset) for clause in ruleset.clauses] == [
        ("2.1", "base"),
        ("2.2", "base"),
        ("1", "own"),
    ]
    assert ruleset.cautions == ("of the base", "own")
    assert ruleset.builds_on == ("base",)


@pytest.mark.parametrize("replaced", ["2.1", '2.1 of "base"'])
def test_replaced_clause_is_gone_and_named(folder: Path, replaced: str) -> None:
    """A clause that says what it replaces takes that clause out, and the ruleset says so; nothing else goes."""
    text = f'ruleset "own"\n  builds on "base"\n\nclause 2.1 "a"\n  replaces {replaced}\n  shall concealed\n'
    ruleset = built(folder, text)
    assert [(clause.name, clause.ruleset) for clause in ruleset.clauses] == [("2.2", "base"), ("2.1", "own")]
    assert ruleset.replaced == ("2.1 by 2.1",)


def test_replacing_is_said_once_through_several_rulesets(folder: Path) -> None:
    """What a base replaced is told once by a ruleset that builds on it, under the name of the clause that took over."""
    text = 'ruleset "middle"\n  builds on "base"\n\nclause 3 "a"\n  replaces 2.1\n  shall concealed\n'
    (folder / "middle.clauses").write_text(text, encoding="utf-8")
    ruleset = built(folder, 'ruleset "own"\n  builds on "middle"\n\nclause 4 "b"\n  replaces 2.2\n  shall concealed\n')
    assert ruleset.replaced == ("2.1 by 3", "2.2 by 4")
    assert [clause.name for clause in ruleset.clauses] == ["3", "4"]


def test_a_shipped_ruleset_that_is_nearly_named_is_offered() -> None:
    """Who leaves the edition off a shipped ruleset is told the whole of its name."""
    (found,) = load_ruleset("energy/ashrae-90").diagnostics
    assert str(found).splitlines() == [
        "error[L104]: `ashrae-90` does not exist",
        "  at ashrae-90",
        "  help: did you mean `energy/ashrae-90.1`?",
    ]


def test_same_number_is_labelled_apart(folder: Path) -> None:
    """Two clauses of one number are both judged and labelled apart: nothing is overridden silently."""
    ruleset = built(folder, 'ruleset "own"\n  builds on "base"\n\nclause 2.1 "a"\n  shall concealed\n')
    assert [clause.label for clause in ruleset.clauses] == ["base 2.1", "base 2.2", "2.1"]


def test_base_through_two_ways_counts_once(folder: Path) -> None:
    """A ruleset that two bases build on brings its clauses once."""
    for name in ("left", "right"):
        text = f'ruleset "{name}"\n  builds on "base"\n\nclause {name} "a"\n  shall concealed\n'
        (folder / f"{name}.clauses").write_text(text, encoding="utf-8")
    ruleset = built(folder, 'ruleset "own"\n  builds on "left"\n  builds on "right"\n')
    assert [clause.name for clause in ruleset.clauses] == ["2.1", "2.2", "left", "right"]


def test_circle_is_found_through_relative_paths(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A ruleset named by a relative path that builds on itself is a circle, not an endless climb."""
    (folder / "self.clauses").write_text(
        'ruleset "self"\n  speaks plain terms\n  builds on "self"\n\nclause 1 "a"\n  shall concealed\n'
    )
    monkeypatch.chdir(folder)
    (found,) = load_ruleset("self.clauses").diagnostics
    assert (found.code, found.message) == (
        "L303",
        "the rulesets build on one another in a circle: `self.clauses` -> `self.clauses`",
    )


def test_header_is_resolved() -> None:
    """Edition, units, tolerance, nominal metric, covers, leaves out, cautions and notes reach the core."""
    ruleset = resolved(
        'ruleset "a"\n  edition "2"\n  speaks plain terms\n  units metric\n  tolerance 0.5 %\n'
        '  lets nominal metric stand for inch\n  covers "pipes"\n  leaves out "ducts"\n'
        '  caution "one"\n  caution "two"\n  note "three"\n\nclause 1 "b"\n  shall concealed\n'
    )
    assert (ruleset.edition, ruleset.units, ruleset.tolerance) == ("2", "metric", pytest.approx(0.005, rel=1e-12))
    assert (ruleset.nominal_metric, ruleset.covers, ruleset.leaves_out) == (True, "pipes", "ducts")
    assert (ruleset.cautions, ruleset.notes) == (("one", "two"), ("three",))


def test_header_says_nothing() -> None:
    """Without a word in the header: inches, comparisons to one part in a million, no metric size for an inch size."""
    ruleset = resolved('ruleset "a"\n  speaks plain terms\n\nclause 1 "b"\n  shall concealed\n')
    assert (ruleset.units, ruleset.tolerance, ruleset.nominal_metric) == ("inch-pound", 1e-6, False)


def test_two_bases_that_clash(folder: Path) -> None:
    """Two bases that mean different things by one name are refused; one that is reached twice is no clash."""
    other = BASE.replace('"base"', '"other"').replace("60 F", "50 F").replace("clause 2", "clause 3")
    (folder / "other.clauses").write_text(other, encoding="utf-8")
    (folder / "again.clauses").write_text('ruleset "again"\n  builds on "base"\n', encoding="utf-8")
    text = 'ruleset "mine"\n  builds on "base"\n  builds on "other"\n'
    assert [str(found) for found in parse_ruleset(text, "text.clauses", folder).diagnostics] == [
        "error[L301]: `base` and `other` give the name `cold` two meanings\n"
        "  at text.clauses:3:3\n"
        '  |   builds on "other"\n'
        "  |   ^^^^^^^^^^^^^^^^^\n"
        "  help: build on one of them, or rename it in one"
    ]
    built(folder, 'ruleset "mine"\n  builds on "base"\n  builds on "again"\n')


@pytest.mark.parametrize(
    "wide",
    [
        "shall " + "not " * 3000 + "concealed",
        "shall thickness be at least 1 in" + " plus 1 in" * 2000,
        "shall " + "(concealed and (" * 90 + "concealed" + " or concealed))" * 90,
        "shall a1\n" + "\n".join(f"define a{n} as a{n + 1}" for n in range(1, 900)) + "\ndefine a900 as concealed",
    ],
    ids=["not", "plus", "parentheses", "definitions"],
)
def test_what_is_nested_too_deeply_is_told(wide: str) -> None:
    """However conditions, amounts and definitions stand inside one another, a limit is told and nothing crashes."""
    loaded = parse_ruleset(f'ruleset "deep"\n  speaks mechanical insulation\nclause 1 "x"\n  {wide}\n')
    assert not loaded.usable
    assert {found.code for found in loaded.diagnostics} == {"L106"}


def test_long_lists_of_conditions_are_not_deep() -> None:
    """A thousand alternatives side by side are long and not deep."""
    wide = "shall concealed" + " or concealed" * 1000
    loaded = parse_ruleset(f'ruleset "long"\n  speaks mechanical insulation\nclause 1 "x"\n  {wide}\n')
    assert "L106" not in {found.code for found in loaded.diagnostics}
