"""The rules of all floors together: no number stands for two things, and each lies in the group of its place."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

import speccheck
from speccheck.report.all_codes import CHAPTERS, all_rules, chapters

PACKAGE = Path(speccheck.__file__).parent
# How the codes of each chapter begin.
GROUPS_OF = {
    "Rulesets and vocabularies": ("L1", "L2", "L3", "L4", "L5"),
    "Schedules": ("S1", "S2", "S3", "S4", "S6"),
    "Proofreading": ("P1", "P2", "P3", "P4", "P5", "P6", "P7", "P8"),
    "Reviewing": ("V1", "V2", "V3", "V4", "V7", "V8", "V9"),
    "Portfolios": ("V5",),
    "Sweeps": ("V6",),
    "Reports": ("R1", "R2"),
    "Sections": ("D1",),
}


def test_no_code_stands_in_two_catalogues() -> None:
    """Every code has one rule, whichever floor tells it."""
    count = Counter(code for rules in chapters().values() for code in rules)
    assert [code for code, times in count.items() if times > 1] == []
    assert len(all_rules()) == sum(count.values())


def test_no_catalogue_is_left_out() -> None:
    """Each module that has rules belongs to a chapter of the page of diagnostics."""
    found = {
        ".".join(path.relative_to(PACKAGE).with_suffix("").parts)
        for path in PACKAGE.rglob("*.py")
        if re.search(r" = Rule\($", path.read_text(encoding="utf-8"), re.MULTILINE)
    }
    assert found == {name for names in CHAPTERS.values() for name in names}


def test_codes_are_a_letter_and_three_digits() -> None:
    """A letter for the floor, then three digits, of which the first is the group."""
    assert [code for code in all_rules() if not re.fullmatch(r"[LSPVRD][1-9]\d\d", code)] == []


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_groups_have_one_chapter_each(chapter: str) -> None:
    """Which hundreds a chapter has is written down, so that no group is begun twice."""
    assert {code[:2] for code in chapters()[chapter]} == set(GROUPS_OF[chapter])


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_numbers_of_a_group_leave_no_gap(chapter: str) -> None:
    """A code that is gone leaves its number to nobody by accident: the next one is plain to see."""
    numbers: dict[str, list[int]] = {}
    for code in chapters()[chapter]:
        numbers.setdefault(code[:2], []).append(int(code[2:]))
    for group, taken in numbers.items():
        assert sorted(taken) == list(range(1, len(taken) + 1)), group
