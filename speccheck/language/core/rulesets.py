"""Rulesets: the clauses that are judged together, with all that they stand on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from speccheck.language.core.amounts import Amount
from speccheck.language.core.clauses import Clause, UncheckedParagraph
from speccheck.language.core.conditions import Condition
from speccheck.language.core.documents import RequiredDocument
from speccheck.language.core.line_relations import LineRelation
from speccheck.language.core.statements import Assumption, Statement, SubjectScope
from speccheck.language.core.tables import Table
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import Single


@dataclass(frozen=True, slots=True, repr=False)
class Ruleset:
    """Clauses that are judged together, with all that they stand on.

    `clauses` holds those of the rulesets built on first (without the replaced ones), then its own, in written
    order. `document`, `edition` and `jurisdiction` say what it was taken from and where that is in force, `verified`
    against what its values were checked, and when. `tolerance` is relative. `nominal_metric` says that a nominal
    metric size may stand for its nominal inch size. `stocked` has the values in which terms can be had;
    `cheapest_first` names terms in the order of what changing them costs. They are for those who look for what would
    comply, and bear on no verdict but those by the economic thickness, which is a stocked one. `unchecked` has the
    paragraphs of the section that are said not to be checked, `documents` what has to be submitted, and `relations`
    what lines have to have in common, those of the rulesets built on first.
    """

    name: str
    vocabulary: Vocabulary
    clauses: tuple[Clause, ...]
    tables: Mapping[str, Table] = field(default_factory=dict)
    definitions: Mapping[str, Condition | Amount] = field(default_factory=dict)
    assumptions: tuple[Assumption, ...] = ()
    scopes: tuple[SubjectScope, ...] = ()
    statements: tuple[Statement, ...] = ()
    document: str = ""
    edition: str = ""
    jurisdiction: str = ""
    verified: str = ""
    units: str = "inch-pound"
    tolerance: float = 1e-6
    nominal_metric: bool = False
    stocked: Mapping[str, tuple[Single, ...]] = field(default_factory=dict)
    cheapest_first: tuple[str, ...] = ()
    covers: str = ""
    leaves_out: str = ""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    builds_on: tuple[str, ...] = ()
    replaced: tuple[str, ...] = ()
    unchecked: tuple[UncheckedParagraph, ...] = ()
    documents: tuple[RequiredDocument, ...] = ()
    relations: tuple[LineRelation, ...] = ()

    def __repr__(self) -> str:
        return f"<Ruleset {self.name}: {len(self.clauses)} clauses>"
