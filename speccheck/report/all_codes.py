"""The rules of all floors, by the chapter that they belong to: what a person can look up."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module

from speccheck.language.diagnostic_rules import Rule, rules_of, wordings_of

CHAPTERS: Mapping[str, tuple[str, ...]] = {
    "Rulesets and vocabularies": tuple(
        f"language.messages.{one}" for one in ("parsing", "meaning", "rulesets", "tables")
    ),
    "Schedules": tuple(f"schedule.messages.{one}" for one in ("files", "tables", "cells", "settled")),
    "Proofreading": tuple(f"proofread.messages.{one}" for one in ("clauses", "redundancy", "comparing", "wording")),
    "Reviewing": ("review.messages.evidence", "review.messages.registers"),
    "Portfolios": ("review.portfolio.messages",),
    "Sweeps": ("review.sweep.messages",),
    "Reports": ("report.messages", "editor.messages"),
    "Sections": ("specification.messages",),
}
"""The catalogues of messages of each chapter."""


def chapters() -> Mapping[str, Mapping[str, Rule]]:
    """Return the rules of each chapter by their codes."""
    return {title: rules_in(title) for title in CHAPTERS}


def rules_in(chapter: str) -> Mapping[str, Rule]:
    """Return the rules of one chapter by their codes; the catalogues of the others are not imported for it."""
    return {rule.code: rule for name in CHAPTERS[chapter] for rule in rules_of(import_module(f"speccheck.{name}"))}


def all_rules() -> Mapping[str, Rule]:
    """Return every rule by its code."""
    return {code: rule for rules in chapters().values() for code, rule in rules.items()}


def sentences(rule: Rule) -> tuple[str, ...]:
    """Return the sentences in which a rule is told, with dots in place of what they say of a place."""
    catalogues = (import_module(f"speccheck.{name}") for names in CHAPTERS.values() for name in names)
    said = [one for catalogue in catalogues for one in wordings_of(catalogue) if one.rule == rule]
    return tuple(dict.fromkeys(one.shown for one in said if one.shown))
