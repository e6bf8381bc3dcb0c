"""Reviews draw on the marks of the vocabulary: a term of a writer's own needs no code."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import load_ruleset
from speccheck.review.reviewing import judge_schedule, review_matrix
from speccheck.schedule import read_schedule

VOCABULARY = """vocabulary "laboratory"

term mark  text
  never compared

term gas
  tells systems apart
  one of helium, argon

term tower
  tells systems apart
  one of
    shaft  also "shafts"
    door   part of "shaft"

term bore  nominal size
  tells systems apart

term product  text

term foam  length
  needs evidence

term foam report  text
  dates foam
"""
RULES = 'ruleset "laboratory"\n  speaks laboratory\n\nclause 1 "Foam"\n  shall foam be at least 1 in\n'


@pytest.fixture
def told(tmp_path: Path) -> list[str]:
    """Return what a review tells of three lines, a design of one system and the data of one product."""
    (tmp_path / "laboratory.clauses").write_text(VOCABULARY, encoding="utf-8")
    (tmp_path / "rules.clauses").write_text(RULES, encoding="utf-8")
    (tmp_path / "lines.csv").write_text(
        "mark,gas,tower,bore,foam,product\nA,helium,shaft,2 in,1 in,Foam X\nB,helium,shaft,2 in,2 in,Foam X\n"
        "C,helium,door,2 in,1 in,Foam X\n"
    )
    (tmp_path / "design.csv").write_text("mark,gas,tower,bore\nS,helium,shaft,2 in to 3 in\n")
    (tmp_path / "products.csv").write_text("product,foam\nFoam X,1 in\n")
    ruleset = load_ruleset(tmp_path / "rules.clauses").ruleset
    assert ruleset is not None
    lines, design, products = (
        read_schedule(tmp_path / f"{name}.csv", ruleset.vocabulary) for name in ("lines", "design", "products")
    )
    matrix = review_matrix(judge_schedule(lines, ruleset), design=design, products=products)
    return [one.diagnostic.message for one in matrix.observations]


def test_marked_terms_are_reviewed(told: list[str]) -> None:
    """Gas, tower and bore tell systems apart, foam needs evidence with a date, and a door belongs to its shaft."""
    assert sorted(told) == sorted(
        [
            "lines `A` and `B` both stand for one system at 2 in and disagree: foam 1 in and 2 in",
            "nothing covers design system `S` (helium, shaft, 2 in through 3 in) at 2-1/2 in and 3 in; "
            "`A` and `B` cover the rest",
            "line `B` states foam 2 in, and the product data of `Foam X` 1 in",
            "the product data of `Foam X` state foam and no foam report",
        ]
    )
