"""Wording that cannot be judged: phrases that leave open what is asked, and numbers that are not those of the rule.

In: a `Ruleset`. Out: findings about the `wording` of its own clauses. A phrase is settled where the clause draws on a
term or a definition that has its word in its name: "where exposed" is clear where the clause says what `exposed` is.
The phrases are those that writers of specifications are commonly told to avoid (common practice, no source); they and
what to write instead stand in `vague_phrases.csv`.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import conditions_of, has_equals, names_of, terms_of
from speccheck.proofread.findings import Finding
from speccheck.proofread.messages.wording import LEAVES_OPEN_WHAT_IS_ASKED
from speccheck.proofread.wording.against_rule import wording_against_rule

PHRASES_FILE = Path(__file__).with_name("vague_phrases.csv")

# "Acceptable insulation on cold piping: ..." says behind the colon what is acceptable.
_LIST_FOLLOWS = re.compile(r"[^.;:]*:\s+\w")


@dataclass(frozen=True, slots=True)
class VaguePhrase:
    """A phrase that leaves something open, the word in a name that settles it, and what to write instead."""

    phrase: str
    settled_by: str
    instead: str


@cache
def vague_phrases() -> tuple[VaguePhrase, ...]:
    """Return the phrases of the file, the longest first."""
    with PHRASES_FILE.open(encoding="utf-8", newline="") as file:
        found = [VaguePhrase(row["phrase"], row["settled by"], row["instead"]) for row in csv.DictReader(file)]
    return tuple(sorted(found, key=lambda one: (-len(one.phrase), one.phrase)))


def wording_findings(ruleset: Ruleset) -> tuple[Finding, ...]:
    """Return what is vague in the wording of the ruleset's own clauses, and which of its numbers the rule lacks."""
    own = (clause for clause in ruleset.clauses if clause.ruleset == ruleset.name and clause.wording)
    return (*(finding for clause in own for finding in _vague(clause)), *wording_against_rule(ruleset))


def _vague(clause: Clause) -> Iterator[Finding]:
    """Yield a finding for each vague phrase in the wording of a clause, in the order in which they stand there."""
    names = _names_in(clause)
    for found in _phrases_pattern().finditer(clause.wording):
        phrase = next(one for one in vague_phrases() if one.phrase == _plain(found.group()))
        if _LIST_FOLLOWS.match(clause.wording, found.end()):
            continue
        if phrase.settled_by and any(re.search(rf"\b{phrase.settled_by}\b", name) for name in names):
            continue
        yield Finding(
            LEAVES_OPEN_WHAT_IS_ASKED.at(clause.place, clause=clause.label, words=found.group(), advice=phrase.instead),
            (clause.label,),
        )


@cache
def _phrases_pattern() -> re.Pattern[str]:
    listed = "|".join(re.escape(one.phrase).replace(r"\ ", r"\s+") for one in vague_phrases())
    return re.compile(rf"(?<![\w-])(?:{listed})(?![\w-])", re.IGNORECASE)


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()


def _names_in(clause: Clause) -> list[str]:
    """Return the names of the terms and definitions that a clause draws on, and whether it lets equals be approved."""
    nodes = conditions_of(clause)
    equals = ["approved equal"] if has_equals(nodes) else []
    return [name.casefold() for name in (*equals, *names_of(nodes), *(term.name for term in terms_of(nodes)))]
