"""Planted faults: slips of real specifications, put one at a time into rulesets that are sound.

`planted/` has five invented rulesets and `faults.toml` with one change each, its kind, and the code of the finding that
a careful editor's remark comes to. `section/` has a whole section of 55 clauses;
`second_batch.toml` has changes of it, and `third_batch.toml` of it and of the five.
None has an example, so that proofreading alone finds them.
"""

from __future__ import annotations

import tomllib
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from speccheck.language.loading import parse_ruleset
from speccheck.proofread.proofreading import proofread

FOLDER = Path(__file__).parent / "planted"
SECTION = Path(__file__).parent / "section" / "emberlow.clauses"
BASES = sorted(path.stem for path in FOLDER.glob("*.clauses"))
FAULTS = tomllib.loads((FOLDER / "faults.toml").read_text(encoding="utf-8"))["fault"]
SECOND = tomllib.loads((FOLDER / "second_batch.toml").read_text(encoding="utf-8"))["fault"]
THIRD = tomllib.loads((FOLDER / "third_batch.toml").read_text(encoding="utf-8"))["fault"]
KINDS = tuple(dict.fromkeys(fault["kind"] for fault in FAULTS))


@cache
def codes_found(text: str) -> list[str]:
    """Return the codes of the findings of a ruleset that has to be read without an error."""
    loaded = parse_ruleset(text)
    assert loaded.ruleset is not None, [str(one) for one in loaded.diagnostics]
    return [found.code for found in proofread(loaded.ruleset).findings]


def test_a_sound_section_has_no_finding() -> None:
    """A section of 55 clauses written as a specification is written, with no fault in it, has nothing to be found."""
    text = SECTION.read_text(encoding="utf-8")
    assert text.count("\nclause ") == 55
    assert codes_found(text) == []


@pytest.mark.parametrize("base", BASES)
def test_sound_rulesets_have_no_finding(base: str) -> None:
    """The rulesets before a fault is planted have nothing to be found: whatever were told of them would be false."""
    assert codes_found((FOLDER / f"{base}.clauses").read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("kind", KINDS)
def test_planted_faults_are_found(kind: str) -> None:
    """Of each kind of fault at least four in five are found, under the code that names the fault."""
    faults = [fault for fault in FAULTS if fault["kind"] == kind]
    missed = [fault["new"] for fault in faults if fault["code"] not in codes_found(planted(fault))]
    assert len(missed) <= len(faults) / 5, missed


def test_at_least_95_percent_are_found() -> None:
    """Of all planted faults at least 95 of 100 are found by proofreading alone; there are more than 100 of them."""
    found = Counter(fault["code"] in codes_found(planted(fault)) for fault in FAULTS)
    assert len(FAULTS) >= 100
    assert found[True] >= 0.95 * len(FAULTS)


def test_second_batch_is_found() -> None:
    """Of 60 faults that the code was not written by, 53 were found at first, and all but three at most are since then.

    What was missed: "on center", "R-6 or better", "over 3 in thick", two choices that share a word, a comma behind a
    list of one, and a band that starts late on services of which the scope of the subject does not speak.
    """
    missed = [fault["new"] for fault in SECOND if fault["code"] not in codes_found(planted(fault))]
    assert len(SECOND) == 60
    assert len(missed) <= 3, missed


def test_third_batch_is_found() -> None:
    """Of 49 faults of kinds that had not been thought of, 26 were found at first, and all but one at most are since.

    What was missed: all or any of a list, what the wording forbids, a number of another term, "below ambient", a table
    that falls once, "limited to", "upward of", "no lighter than", "as a minimum", "ought to", sizes of which only the
    wording speaks; "indoors" is missed still, for no place goes by that name.
    """
    missed = [fault["new"] for fault in THIRD if fault["code"] not in codes_found(planted(fault))]
    assert len(THIRD) == 49
    assert len(missed) <= 1, missed


def planted(fault: dict[str, str]) -> str:
    """Return the text of a base with one fault in it; what it takes the place of stands there once."""
    path = FOLDER / f"{fault['base']}.clauses" if "base" in fault else SECTION
    text = path.read_text(encoding="utf-8")
    assert text.count(fault["old"]) == 1, fault
    return text.replace(fault["old"], fault["new"])
