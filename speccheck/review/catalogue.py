"""The shipped rulesets as facts: document, edition, place, subject, how sure their sources are; and what is not there.

In: nothing, or words to choose by. Out: the rulesets in the order of their names, and what one might look for in vain,
from `rulesets/not-here.csv`.
"""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from speccheck.language import load_ruleset, shipped_ruleset_names
from speccheck.language.core import Clause, Confidence, Ruleset, Table
from speccheck.language.vocabulary.terms import fold
from speccheck.shipped import shipped_folder

NOT_HERE = "not-here.csv"


@dataclass(frozen=True, slots=True)
class ShippedRuleset:
    """A shipped ruleset by the name that `builds on` and `--against` take, and the marks of its sources, counted."""

    name: str
    ruleset: Ruleset
    marks: Mapping[Confidence, int]

    @property
    def subject(self) -> str:
        """What it is about in a word or two: the folder it lies in, or its own name."""
        return self.name.partition("/")[0].replace("-", " ").replace("voc", "VOC")

    @property
    def places_in_documents(self) -> tuple[str, ...]:
        """Where its tables stand in their documents, then where its clauses do: each once."""
        parts = sorted(own_parts(self.ruleset), key=lambda part: not isinstance(part, Table))
        return tuple(dict.fromkeys(source.text for part in parts for source in part.sources if source.text))


@dataclass(frozen=True, slots=True)
class NotShipped:
    """A document that is not shipped as a ruleset, and why."""

    document: str
    place: str
    subject: str
    why: str


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to choose by, each "" for anything: words of the place, words of the subject, a mark of the sources."""

    place: str = ""
    about: str = ""
    mark: str = ""


def shipped(wanted: Wanted) -> tuple[ShippedRuleset, ...]:
    """Return the shipped rulesets that have what is wanted, in the order of their names."""
    loaded = ((name, load_ruleset(name).ruleset) for name in shipped_ruleset_names())
    every = (ShippedRuleset(name, ruleset, _marks(ruleset)) for name, ruleset in loaded if ruleset is not None)
    return tuple(one for one in every if _is_wanted(one, wanted))


def absent(wanted: Wanted) -> tuple[NotShipped, ...]:
    """Return what is not shipped though one might look for it; nothing has a mark."""
    text = (shipped_folder("rulesets") / NOT_HERE).read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    every = (NotShipped(row["document"], row["place"], row["subject"], row["why"]) for row in rows)
    return tuple(
        one
        for one in every
        if _holds(one.place, wanted.place) and _holds(f"{one.document} {one.subject}", wanted.about)
    )


def own_parts(ruleset: Ruleset) -> list[Clause | Table]:
    """Return the clauses and the tables that stand in a ruleset itself and not in one that it builds on."""
    parts: tuple[Clause | Table, ...] = (*ruleset.clauses, *ruleset.tables.values())
    return [part for part in parts if part.ruleset == ruleset.name]


def _marks(ruleset: Ruleset) -> Mapping[Confidence, int]:
    """Count the marks of the sources of a ruleset's own clauses and tables."""
    return Counter(source.confidence for part in own_parts(ruleset) for source in part.sources)


def _is_wanted(one: ShippedRuleset, wanted: Wanted) -> bool:
    ruleset = one.ruleset
    about = " ".join((one.name, one.subject, ruleset.name, ruleset.document, ruleset.covers))
    has_mark = not wanted.mark or Confidence(wanted.mark) in one.marks
    return has_mark and _holds(ruleset.jurisdiction, wanted.place) and _holds(about, wanted.about)


def _holds(text: str, words: str) -> bool:
    return fold(words) in fold(text)
