"""The rules of all floors, by the chapter that they belong to: what a person can look up."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module

from speccheck.language.diagnostic_rules import Rule, rules_of, wordings_of

CHAPTERS: Mapping[str, tuple[str, ...]] = {
    "Rulesets and vocabularies": (
        "language.messages.parsing",
        "language.messages.meaning",
        "language.messages.rulesets",
        "language.messages.tables",
    ),
    "Schedules": ("schedule.codes",),
    "Proofreading": (
        "proofread.messages.clauses",
        "proofread.messages.redundancy",
        "proofread.messages.comparing",
        "proofread.messages.wording",
    ),
    "Reviewing": ("review.codes",),
    "Portfolios": ("review.portfolio.codes",),
    "Sweeps": ("review.sweep.codes",),
    "Reports": ("report.codes",),
    "Sections": ("specification.codes",),
}
"""The catalogues of messages of each chapter."""


def chapters() -> Mapping[str, Mapping[str, Rule]]:
    """Return the rules of each chapter by their codes."""
    return {title: {code: rule for name in names for code, rule in _rules(name)} for title, names in CHAPTERS.items()}


def all_rules() -> Mapping[str, Rule]:
    """Return every rule by its code."""
    return {code: rule for rules in chapters().values() for code, rule in rules.items()}


def sentences(rule: Rule) -> tuple[str, ...]:
    """Return the sentences in which a rule is told, with dots in place of what they say of a place."""
    catalogues = (import_module(f"speccheck.{name}") for names in CHAPTERS.values() for name in names)
    said = [one for catalogue in catalogues for one in wordings_of(catalogue) if one.rule == rule]
    return tuple(dict.fromkeys(one.shown for one in said if one.shown))


def _rules(name: str) -> list[tuple[str, Rule]]:
    catalogue = import_module(f"speccheck.{name}")
    told = getattr(catalogue, "DIAGNOSTICS", {})
    return [
        *((code, Rule(code, *words)) for code, words in told.items()),
        *((one.code, one) for one in rules_of(catalogue)),
    ]
