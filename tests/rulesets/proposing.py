"""Proposed lines for the shipped rulesets: from words, as a schedule has them, to the verdict of one clause."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from speccheck.judge import Cell, Judge, Verdict
from speccheck.language import load_ruleset
from speccheck.language.vocabulary.values import read_value
from speccheck.quantities import Misread
from speccheck.schedule.lines import Datum, Line


@cache
def judge_of(ruleset: str) -> Judge:
    """Return the judge of a shipped ruleset, which must be free of errors and warnings."""
    loaded = load_ruleset(ruleset)
    assert loaded.ruleset is not None, loaded.diagnostics
    assert loaded.diagnostics == ()
    return Judge(loaded.ruleset)


def verdict(ruleset: str, clause: str, stated: Mapping[str, str]) -> Verdict:
    """Return what a clause of a shipped ruleset makes of a line that states these words for these terms."""
    return cell(ruleset, clause, stated).verdict


def cell(ruleset: str, clause: str, stated: Mapping[str, str]) -> Cell:
    """Return the verdict of a clause on a line that states these words for these terms, with its reason."""
    judge = judge_of(ruleset)
    data: dict[str, Datum] = {}
    for name, words in stated.items():
        value = read_value(words, judge.ruleset.vocabulary.terms[name])
        assert not isinstance(value, Misread), value
        data[name] = Datum(value, words)
    names = [one.name for one in judge.ruleset.clauses]
    return judge.cell(names.index(clause), Line("1", data))


def published(name: str) -> list[dict[str, str]]:
    """Return the rows of `data/<name>.csv`, its comment lines left out."""
    lines = (Path(__file__).parent / "data" / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if line and not line.startswith("#")))
