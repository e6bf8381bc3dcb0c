"""The screen Start: what it offers to check against."""

from __future__ import annotations

from pathlib import Path

from speccheck.desk.desk import shipped_rulesets
from speccheck.language import load_ruleset
from speccheck.language.ruleset_files import shipped_names


def test_every_shipped_ruleset_is_offered_with_what_it_covers() -> None:
    """The heads of the files, which alone are looked at, say what the rulesets say when they are read."""
    read = [(name, load_ruleset(Path(name)).ruleset) for name in shipped_names()]
    offered = {name: (title, covers) for name, title, covers in shipped_rulesets()}
    assert list(offered) == [name for name, ruleset in read if ruleset is not None and ruleset.clauses]
    for name, ruleset in read:
        if ruleset is not None and name in offered:
            covers = ruleset.covers.split(";")[0]
            assert offered[name] == (ruleset.name, covers[:1].upper() + covers[1:])
