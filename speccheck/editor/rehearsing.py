"""Rehearsing: the examples of a ruleset judged, for the editor to show at the clauses."""

from __future__ import annotations

from dataclasses import dataclass

from speccheck.editor.analysing import Analysis
from speccheck.english import agree
from speccheck.judge import Rehearsal, rehearse
from speccheck.language.diagnostics import Diagnostic, Place


@dataclass(frozen=True, slots=True)
class ClauseExamples:
    """The examples of one clause of the file: how many there are, how many come out, and the place of the clause."""

    label: str
    place: Place
    count: int
    right: int

    @property
    def words(self) -> str:
        """The numbers in words."""
        if not self.count:
            return "no example"
        return f"{self.right} of {self.count} {agree(self.count, 'example comes', 'examples come')} out"


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """What became of the examples of a file: clause by clause, the diagnostics of those that do not come out, and the
    place of each example with whether it comes out.
    """

    clauses: tuple[ClauseExamples, ...] = ()
    diagnostics: tuple[Diagnostic, ...] = ()
    examples: tuple[tuple[Place, bool], ...] = ()


def rehearsed(analysis: Analysis) -> Rehearsed:
    """Return the examples of a file judged; nothing where the file cannot be used."""
    if analysis.ruleset is None or any(found.severity == "error" for found in analysis.diagnostics):
        return Rehearsed()
    found = rehearse(analysis.ruleset)
    here = tuple(one for one in found.diagnostics if one.place.file == analysis.path.name)
    examples = ((one.example.place, one.right) for one in found.results)
    own = tuple((place, right) for place, right in examples if place.file == analysis.path.name)
    return Rehearsed(tuple(_clauses(analysis, found)), here, own)


def _clauses(analysis: Analysis, found: Rehearsal) -> list[ClauseExamples]:
    assert analysis.ruleset is not None
    counted = []
    for clause in analysis.ruleset.clauses:
        if clause.place.file == analysis.path.name:
            results = [result for result in found.results if result.clause is clause]
            right = sum(result.right for result in results)
            counted.append(ClauseExamples(clause.label, clause.place, len(results), right))
    return counted
