"""Two commands, one comparison: `compare` and `proofread --since` say the same of two editions, both ways."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.proofread.findings import Undecided
from speccheck.proofread.revisions import Change, compare_revisions
from speccheck.review.editions import ClauseFate, compare_clauses
from tests.proofread.random_rulesets import random_pair

FATES = {
    Change.ADDED: ClauseFate.ADDED,
    Change.DROPPED: ClauseFate.DROPPED,
    Change.RENUMBERED: ClauseFate.RENUMBERED,
}
OPPOSITE = {
    Change.STRICTER: Change.LOOSER,
    Change.LOOSER: Change.STRICTER,
    Change.ADDED: Change.DROPPED,
    Change.DROPPED: Change.ADDED,
}
SHIPPED = [
    ("energy/irc-2018", "energy/irc-2021"),
    ("energy/irc-2021", "energy/irc-2024"),
    ("energy/germany-geg-2020", "energy/germany-geg-2024"),
    ("adhesive-voc/south-coast", "adhesive-voc/ventura-county"),
    ("fire", "fire"),
]
HEAD = 'ruleset "case"\n  speaks mechanical insulation\n'
BASE = """
clause 1 "a"
  where service is steam or service is steam condensate
  shall thickness be at least 2 in

clause 2 "b"
  where location is outdoor
  shall jacket be one of aluminum, PVC

clause 3 "c"
  shall thickness be at least 1 in
"""


def _ruleset(text: str, head: str = HEAD) -> Ruleset:
    loaded = parse_ruleset(head + text)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def _since(base: Ruleset, revised: Ruleset) -> set[tuple[ClauseFate, str, str]]:
    """Return what `proofread --since` says, in the words of `compare`."""
    found = set()
    for one in compare_revisions(base, revised):
        if isinstance(one, Undecided):
            found.add((ClauseFate.NOT_DECIDED, one.clauses[0], one.clauses[-1]))
        elif one.change is Change.RULES:
            found.add((ClauseFate.RULES, base.name, revised.name))
        else:
            found.add((FATES.get(one.change, ClauseFate.CHANGED), one.before_label, one.after_label))
    changed = {labels for fate, *labels in map(list, found) if fate is ClauseFate.CHANGED for labels in [tuple(labels)]}
    return {one for one in found if one[0] is not ClauseFate.NOT_DECIDED or one[1:] not in changed}


def _compare(base: Ruleset, revised: Ruleset) -> set[tuple[ClauseFate, str, str]]:
    """Return what `compare` says, but for clauses that only have other words."""
    changes = compare_clauses(base, revised)
    return {(one.fate, one.old, one.new) for one in changes if one.fate is not ClauseFate.REWORDED}


@pytest.mark.parametrize("names", SHIPPED, ids="-".join)
def test_both_say_the_same_of_shipped_editions(names: tuple[str, str]) -> None:
    """Of editions of one document, of two documents, and of one with itself, forwards and backwards."""
    loaded = [load_ruleset(name).ruleset for name in names]
    one, other = (ruleset for ruleset in loaded if ruleset is not None)
    for pair in ((one, other), (other, one)):
        assert _compare(*pair) == _since(*pair)
    assert bool(_since(one, other)) is (names[0] != names[1])


@pytest.mark.parametrize("seed", range(40))
def test_both_say_the_same_of_random_rulesets_both_ways(seed: int) -> None:
    """Stricter one way is looser the other way, new is gone, and both commands have the same clauses to tell of."""
    one, other = random_pair(seed, orders=seed % 4 == 0)
    there, back = (compare_revisions(*pair) for pair in ((one, other), (other, one)))
    assert _compare(one, other) == _since(one, other)
    assert _compare(other, one) == _since(other, one)
    turned = {
        (OPPOSITE.get(found.change, found.change), found.after_label, found.before_label)
        for found in there
        if not isinstance(found, Undecided)
    }
    assert turned == {
        (found.change, found.before_label, found.after_label) for found in back if not isinstance(found, Undecided)
    }


@pytest.mark.parametrize(
    ("old", "new", "head", "expected"),
    [
        pytest.param(
            "service is steam or service is steam condensate",
            "service is one of steam, steam condensate",
            HEAD,
            set(),
            id="a list in other words",
        ),
        pytest.param(
            "where location is outdoor\n  shall jacket be one of aluminum, PVC",
            "shall jacket be one of aluminum, PVC\n  except where location is not outdoor",
            HEAD,
            set(),
            id="a scope as an exception",
        ),
        pytest.param(
            'clause 2 "b"',
            'clause 2 "new"\n  shall flame spread be at most 25\n\nclause 4 "b"',
            HEAD,
            {(ClauseFate.ADDED, "", "2"), (ClauseFate.RENUMBERED, "2", "4")},
            id="a clause put in, the next one renumbered",
        ),
        pytest.param(
            "",
            "",
            f"{HEAD}assume location is outdoor\n",
            {(ClauseFate.RULES, "case", "case")},
            id="an assumption",
        ),
    ],
)
def test_what_the_two_disagreed_on(old: str, new: str, head: str, expected: set[tuple[ClauseFate, str, str]]) -> None:
    """By hand: words that no verdict hangs on are no change; an assumption is one; a moved clause is itself."""
    one, other = _ruleset(BASE), _ruleset(BASE.replace(old, new) if old else BASE, head)
    assert _compare(one, other) == _since(one, other) == expected


@pytest.mark.parametrize(
    ("old", "new", "status"),
    [("", "", 0), ('clause 3 "c"', 'clause 30 "c"', 0), ("at least 1 in", "at least 1-1/2 in", 1)],
    ids=["the same", "renumbered", "stricter"],
)
def test_both_commands_end_alike(tmp_path: Path, old: str, new: str, status: int) -> None:
    """The exit status is 0 where every clause means what it meant, under whatever number, and else 1."""
    base, revised = tmp_path / "base.clauses", tmp_path / "revised.clauses"
    base.write_text(HEAD + BASE, encoding="utf-8")
    revised.write_text(HEAD + (BASE.replace(old, new) if old else BASE), encoding="utf-8")
    for call in (["compare", base, revised], ["proofread", revised, "--since", base]):
        result = CliRunner().invoke(speccheck, list(map(str, call)), standalone_mode=False)
        assert result.return_value == status, result.output
