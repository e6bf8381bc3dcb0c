"""Coverage: which paragraphs of a section a clause checks, which are `not checked`, and which nothing speaks of.

What a clause says is held against the words of its paragraph, and tables against tables: `differing` and
`table_coverage` say what differs. With a section that was revised these are the clauses to look at.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.language import parse_ruleset
from speccheck.language.core import Clause, Condition, LineRelation, RequiredDocument, Ruleset, UncheckedParagraph
from speccheck.language.core.walking import conditions_of
from speccheck.specification.blocks import Block, Paragraph, SectionTable, is_title, with_leads
from speccheck.specification.differing import Differs, differences
from speccheck.specification.drafting import PIPING_DEFINED, draft, is_about, is_caption
from speccheck.specification.matching import Entry, matched
from speccheck.specification.table_coverage import TableCoverage, table_coverage


class Covered(StrEnum):
    """What becomes of a paragraph."""

    CHECKED = "checked"
    DRAFT = "drafted, not confirmed"
    NOT_CHECKED = "not checked"
    NOTHING = "nothing speaks of it"
    HEADING = "heading"


@dataclass(frozen=True, slots=True)
class Coverage:
    """One paragraph, what becomes of it, the clauses that do it, and how they differ from its words."""

    paragraph: Paragraph
    covered: Covered
    clauses: tuple[str, ...] = ()
    because: str = ""
    differs: tuple[Differs, ...] = ()


@dataclass(frozen=True, slots=True)
class CoverageReport:
    """All paragraphs and tables of a section, and the ruleset's own clauses for which it has no paragraph."""

    paragraphs: tuple[Coverage, ...]
    strangers: tuple[str, ...]
    tables: tuple[TableCoverage, ...] = ()

    def count(self, covered: Covered) -> int:
        """Return how many paragraphs something becomes of."""
        return sum(one.covered is covered for one in self.paragraphs)

    @property
    def differs(self) -> tuple[Differs, ...]:
        """How clauses and tables differ from the section, in the order of the section."""
        found = (one for part in (self.paragraphs, self.tables) for each in part for one in each.differs)
        return tuple(found)

    @property
    def to_look_at(self) -> tuple[str, ...]:
        """The clauses and tables that somebody has to look at, each once: what differs, and what is a stranger."""
        return tuple(dict.fromkeys([*(one.name for one in self.differs), *self.strangers]))

    @property
    def is_whole(self) -> bool:
        """Whether all is checked or said not to be, as the section has it now, and no clause is a stranger."""
        open_ones = self.count(Covered.NOTHING) + self.count(Covered.DRAFT)
        return not open_ones and not self.to_look_at and all(one.name for one in self.tables)


def coverage_of(ruleset: Ruleset, blocks: Iterable[Block]) -> CoverageReport:
    """Return what becomes of each paragraph of a section under a ruleset; inherited clauses do not count."""
    all_blocks = with_leads(blocks)
    paragraphs = [block for block in all_blocks if isinstance(block, Paragraph)]
    own: list[Entry] = [clause for clause in ruleset.clauses if not clause.called]
    own += [one for one in ruleset.documents if one.ruleset == ruleset.name]
    own += [one for one in ruleset.relations if one.ruleset == ruleset.name]
    own += [one for one in ruleset.unchecked if one.ruleset == ruleset.name]
    entries = matched(paragraphs, own)
    meaning = _Meaning(ruleset, all_blocks)
    found = [_covered(one, entries.get(at, ()), meaning) for at, one in enumerate(paragraphs)]
    used = {id(entry) for several in entries.values() for entry in several}
    strangers = tuple(entry.name for entry in own if id(entry) not in used)
    tables = [block for block in all_blocks if isinstance(block, SectionTable)]
    return CoverageReport(tuple(found), strangers, tuple(table_coverage(tables, ruleset)))


@dataclass
class _Meaning:
    """What the words of paragraphs mean, as far as the drafting understands them: it is asked for, and kept."""

    ruleset: Ruleset
    blocks: tuple[Block, ...]
    _read: dict[str, tuple[Condition, ...]] = field(default_factory=dict)

    def of(self, paragraph: Paragraph) -> tuple[Condition, ...]:
        """Return the conditions that a paragraph was read as, none where it was not understood as a whole."""
        if not self._read:
            drafted = [one for one in draft(self.blocks, self.ruleset.vocabulary) if one.sort == "clause"]
            head = f'ruleset "section"\n  speaks {self.ruleset.vocabulary.name}\n\n'
            text = "\n\n".join(one.text for one in drafted)
            head += f"{PIPING_DEFINED}\n"
            loaded = parse_ruleset(head + text + "\n", drafts=True, vocabulary=self.ruleset.vocabulary)
            clauses = loaded.ruleset.clauses if loaded.ruleset is not None else ()
            self._read = {"": ()}
            for clause in clauses:
                self._read[clause.wording] = (*self._read.get(clause.wording, ()), *conditions_of(clause))
        return self._read.get(paragraph.text.replace('"', "″"), ())


def _covered(paragraph: Paragraph, entries: tuple[Entry, ...], meaning: _Meaning) -> Coverage:
    names = tuple(one.name for one in entries)
    clauses = [one for one in entries if isinstance(one, Clause)]
    differs = tuple(differences(paragraph, entries, meaning.of(paragraph) if clauses else ()))
    if clauses:
        confirmed = all(clause.is_confirmed for clause in clauses)
        return Coverage(paragraph, Covered.CHECKED if confirmed else Covered.DRAFT, names, differs=differs)
    beside = [one for one in entries if isinstance(one, RequiredDocument | LineRelation)]
    if beside:
        confirmed = all(one.is_confirmed for one in beside)
        return Coverage(paragraph, Covered.CHECKED if confirmed else Covered.DRAFT, names, differs=differs)
    for one in entries:
        if isinstance(one, UncheckedParagraph):
            because = f"{one.reason.value}: {one.because}" if one.because else one.reason.value
            return Coverage(paragraph, Covered.NOT_CHECKED, names, because, differs)
    text = paragraph.text
    heading = is_title(text) or is_caption(text) or is_about(text) or text.endswith(":") or not paragraph.number
    return Coverage(paragraph, Covered.HEADING if heading else Covered.NOTHING)
