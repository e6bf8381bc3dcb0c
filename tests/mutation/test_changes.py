"""The mistakes that are made are small, are code, and leave alone what only readers and type checkers read."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.mutation.changes import mistakes

SOURCE = '''def smaller(first: int = 1, *, strict: bool = True) -> bool:
    """Say 1 < 2: ½."""
    if strict and first < 2:
        return first + 1 > 0
    return not strict
'''


def test_each_kind_of_mistake_is_made_once() -> None:
    """Comparisons, signs, numbers, conditions, answers: each with the words before and after."""
    assert sorted(mistake.what for mistake in mistakes(SOURCE)) == sorted(
        [
            "`1` -> `2`",
            "`True` -> `False`",
            "`strict and first < 2` -> `not (strict and first < 2)`",
            "` and ` -> ` or `",
            "` < ` -> ` <= `",
            "`2` -> `3`",
            "`first + 1 > 0` -> `None`",
            "` > ` -> ` >= `",
            "` + ` -> ` - `",
            "`1` -> `2`",
            "`0` -> `1`",
            "`not strict` -> `None`",
            "`not strict` -> `bool(strict)`",
        ]
    )


@pytest.mark.parametrize("package", ["judge", "quantities"])
def test_what_a_mistake_leaves_is_code(package: str) -> None:
    """Every mistake in two packages parses, and differs from what was there."""
    folder = Path(__file__).parents[2] / "speccheck" / package
    for path in sorted(folder.glob("*.py")):
        source = path.read_text(encoding="utf-8")
        for mistake in mistakes(source):
            assert mistake.text != source
            ast.parse(mistake.text)
