"""Rulesets written before terms of the shipped vocabulary got other names mean the same terms."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import load_ruleset
from speccheck.language.core.walking import conditions_of, terms_of

RULES = """ruleset "before"
  speaks  mechanical insulation
  units   inch-pound

clause 1 "Ducts"
  where   {} is given
  shall   thickness be at least 1 in
"""


FORMER_NAMES = {
    "installed resistance": "installed R-value",
    "lowest service temperature": "minimum use temperature",
    "highest service temperature": "maximum use temperature",
    "seam position": "longitudinal seam location",
    "adhesive VOC": "adhesive VOC content",
    "sealant VOC": "sealant VOC content",
    "coating VOC": "coating VOC content",
    "adhesive lowest temperature": "adhesive minimum use temperature",
    "adhesive highest temperature": "adhesive maximum use temperature",
}


@pytest.mark.parametrize(("former", "name"), FORMER_NAMES.items())
def test_a_former_name_is_the_term_of_today(former: str, name: str, tmp_path: Path) -> None:
    """A clause with the former name speaks of the term of today, without a word of complaint."""
    path = tmp_path / "before.clauses"
    path.write_text(RULES.format(former), encoding="utf-8")
    loaded = load_ruleset(path)
    assert loaded.diagnostics == ()
    assert loaded.ruleset is not None
    assert name in {term.name for term in terms_of(conditions_of(loaded.ruleset.clauses[0]))}
