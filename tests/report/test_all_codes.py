"""The codes of all floors together: no number stands for two things, and each lies in the group of its place."""

from __future__ import annotations

import re
from collections import Counter
from importlib import import_module
from pathlib import Path

import pytest

import speccheck
from speccheck.report.all_codes import CHAPTERS, all_codes, chapters

PACKAGE = Path(speccheck.__file__).parent
# The first letter of the codes of each floor.
LETTERS = {"language": "L", "schedule": "S", "proofread": "P", "review": "V", "report": "R", "specification": "D"}
GROUPS_OF = {
    "review.codes": ("V1", "V2", "V3", "V4", "V7", "V8", "V9"),
    "review.portfolio.codes": ("V5",),
    "review.sweep.codes": ("V6",),
}


def test_no_code_stands_in_two_tables() -> None:
    """Every code has one title, whichever floor tells it."""
    count = Counter(code for codes in chapters().values() for code in codes)
    assert [code for code, times in count.items() if times > 1] == []
    assert len(all_codes()) == sum(count.values())


def test_no_table_of_codes_is_left_out() -> None:
    """Each module that has codes is a chapter of the page of diagnostics."""
    found = {
        ".".join(path.relative_to(PACKAGE).with_suffix("").parts)
        for path in PACKAGE.rglob("*codes.py")
        if "DIAGNOSTICS: Mapping" in path.read_text(encoding="utf-8")
    }
    assert found == set(CHAPTERS)


@pytest.mark.parametrize("module", CHAPTERS)
def test_codes_have_the_letter_of_their_floor(module: str) -> None:
    """A letter for the floor, then three digits."""
    codes = import_module(f"speccheck.{module}").DIAGNOSTICS
    assert [code for code in codes if not re.fullmatch(rf"{LETTERS[module.split('.')[0]]}[1-9]\d\d", code)] == []


def test_hundreds_of_the_review_have_one_subject_each() -> None:
    """Design list, products, deviations, notes, portfolios, sweeps, received, weather, years: a hundred each."""
    assert sorted(group for groups in GROUPS_OF.values() for group in groups) == [
        f"V{number}" for number in range(1, 10)
    ]
    for module, groups in GROUPS_OF.items():
        assert {code[:2] for code in import_module(f"speccheck.{module}").DIAGNOSTICS} == set(groups)


@pytest.mark.parametrize("module", CHAPTERS)
def test_numbers_of_a_group_leave_no_gap(module: str) -> None:
    """A code that is gone leaves its number to nobody by accident: the next one is plain to see."""
    numbers: dict[str, list[int]] = {}
    for code in import_module(f"speccheck.{module}").DIAGNOSTICS:
        numbers.setdefault(code[:2], []).append(int(code[2:]))
    for group, taken in numbers.items():
        assert sorted(taken) == list(range(1, len(taken) + 1)), group
