"""Every code of every floor, by the chapter that it belongs to: what a person can look up."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module

CHAPTERS: Mapping[str, str] = {
    "language.codes": "Rulesets and vocabularies",
    "schedule.codes": "Schedules",
    "proofread.codes": "Proofreading",
    "review.codes": "Reviewing",
    "review.portfolio.codes": "Portfolios",
    "review.sweep.codes": "Sweeps",
    "report.codes": "Reports",
    "specification.codes": "Sections",
}


def chapters() -> Mapping[str, Mapping[str, tuple[str, str]]]:
    """Return the codes of each chapter: code to title and explanation."""
    return {title: import_module(f"speccheck.{module}").DIAGNOSTICS for module, title in CHAPTERS.items()}


def all_codes() -> Mapping[str, tuple[str, str]]:
    """Return every code with its title and explanation."""
    return {code: words for codes in chapters().values() for code, words in codes.items()}
