"""Observations: what a review finds beside the verdicts of the matrix, each with the lines that it is about."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from speccheck.language.diagnostics import Diagnostic, Severity


class Topic(StrEnum):
    """What an observation comes from."""

    DESIGN = "design list"
    PRODUCTS = "product data"
    DEVIATIONS = "register of deviations"
    RECEIVED = "register of what was received"
    YEAR = "a year of energy"


TOPICS = {"V1": Topic.DESIGN, "V2": Topic.PRODUCTS, "V3": Topic.DEVIATIONS, "V7": Topic.RECEIVED, "V9": Topic.YEAR}
"""What an observation comes from, by how its code begins."""


@dataclass(frozen=True, slots=True)
class Observation:
    """One observation: its diagnostic, the names of the lines that it is about, and the clauses by their labels.

    A warning leaves something open, so that the whole cannot be determined to comply; a note does not.
    """

    diagnostic: Diagnostic
    lines: tuple[str, ...] = ()
    clauses: tuple[str, ...] = ()

    @property
    def topic(self) -> Topic:
        """What the observation comes from, by its code."""
        return TOPICS[self.diagnostic.code[:2]]

    @property
    def leaves_open(self) -> bool:
        """Whether it keeps the whole from being told to comply."""
        return self.diagnostic.severity is not Severity.NOTE and self.topic in (Topic.DESIGN, Topic.PRODUCTS)


def observed(said: Diagnostic, lines: Iterable[str] = (), clauses: Iterable[str] = ()) -> Observation:
    """Return what is said of some lines and clauses as an observation."""
    return Observation(said, tuple(lines), tuple(clauses))
