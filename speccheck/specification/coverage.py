"""Coverage: which paragraphs of a section a clause checks, which are `not checked`, and which nothing speaks of."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from speccheck.language.core import Clause, Ruleset, UncheckedParagraph
from speccheck.specification.blocks import Block, Paragraph
from speccheck.specification.drafting import is_title


class Covered(StrEnum):
    """What becomes of a paragraph."""

    CHECKED = "checked"
    DRAFT = "drafted, not confirmed"
    NOT_CHECKED = "not checked"
    NOTHING = "nothing speaks of it"
    HEADING = "heading"


@dataclass(frozen=True, slots=True)
class Coverage:
    """One paragraph, what becomes of it, the clauses that do it, and those whose wording is no longer the section's."""

    paragraph: Paragraph
    covered: Covered
    clauses: tuple[str, ...] = ()
    because: str = ""
    differs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CoverageReport:
    """All paragraphs of a section, and the ruleset's own clauses of which no paragraph has the number or the words."""

    paragraphs: tuple[Coverage, ...]
    strangers: tuple[str, ...]

    def count(self, covered: Covered) -> int:
        """Return how many paragraphs something becomes of."""
        return sum(one.covered is covered for one in self.paragraphs)

    @property
    def is_whole(self) -> bool:
        """Whether every paragraph is checked or said not to be, in its present words, and no clause is a stranger."""
        open_ones = self.count(Covered.NOTHING) + self.count(Covered.DRAFT)
        return not open_ones and not self.strangers and not any(one.differs for one in self.paragraphs)


def coverage_of(ruleset: Ruleset, blocks: Iterable[Block]) -> CoverageReport:
    """Return what becomes of each paragraph of a section under a ruleset; inherited clauses do not count."""
    own = [clause for clause in ruleset.clauses if not clause.called]
    by_number, by_words = _by_number(own), {_plain(clause.wording): clause for clause in own if clause.wording}
    unchecked = {one.name: one for one in ruleset.unchecked}
    found: list[Coverage] = []
    for block in blocks:
        if isinstance(block, Paragraph):
            found.append(_covered(block, by_number, by_words, unchecked))
    used = {name for one in found for name in one.clauses}
    strangers = [clause.name for clause in own if clause.name not in used]
    strangers += [name for name in unchecked if name not in used]
    return CoverageReport(tuple(found), tuple(strangers))


def _by_number(clauses: Iterable[Clause]) -> Mapping[str, list[Clause]]:
    """Return clauses by the number of their paragraph: "2.1.A-2" is of 2.1.A too."""
    found: dict[str, list[Clause]] = {}
    for clause in clauses:
        found.setdefault(re.sub(r"-\d+$", "", clause.name), []).append(clause)
    return found


def _covered(
    paragraph: Paragraph,
    by_number: Mapping[str, list[Clause]],
    by_words: Mapping[str, Clause],
    unchecked: Mapping[str, UncheckedParagraph],
) -> Coverage:
    clauses = by_number.get(paragraph.number, [])
    if not clauses and _plain(paragraph.text) in by_words:
        clauses = [by_words[_plain(paragraph.text)]]
    if clauses:
        names = tuple(clause.name for clause in clauses)
        confirmed = all(clause.is_confirmed for clause in clauses)
        differs = tuple(
            one.name for one in clauses if one.wording and _plain(one.wording) not in _plain(paragraph.text)
        )
        return Coverage(paragraph, Covered.CHECKED if confirmed else Covered.DRAFT, names, differs=differs)
    if paragraph.number in unchecked:
        one = unchecked[paragraph.number]
        because = f"{one.reason.value}: {one.because}" if one.because else one.reason.value
        differs = (one.name,) if one.wording and _plain(one.wording) != _plain(paragraph.text) else ()
        return Coverage(paragraph, Covered.NOT_CHECKED, (one.name,), because, differs)
    return Coverage(paragraph, Covered.HEADING if is_title(paragraph.text) else Covered.NOTHING)


def _plain(text: str) -> str:
    """Return words as they are compared: one blank between them, marks of inches and quotation alike."""
    marks = str.maketrans({"″": '"', "“": '"', "”": '"', "’": "'", "–": "-", "—": "-", "\u00a0": " "})
    return " ".join(text.translate(marks).split()).rstrip(".")
