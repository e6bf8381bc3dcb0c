"""Relations between lines: what lines of one system have to have in common, or what they come to together."""

from __future__ import annotations

from dataclasses import dataclass, field

from speccheck.language.core.clauses import Confirmable, ExceptionPart
from speccheck.language.core.conditions import Comparison, Condition
from speccheck.language.core.sources import Source
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Term


@dataclass(frozen=True, slots=True)
class LineRelation(Confirmable):
    """A paragraph that holds lines of a schedule against one another.

    It is of the lines that meet all of `scope` and no exception. `beside` says which other lines they are held against;
    without it these are the lines of `scope` themselves. Two lines belong together where they state the same for all
    terms of `alike`. Lines that belong together have to state the same for the terms of `same`; with `has_line` each
    line has to have another one beside it; `total` compares the sum of a term over the lines that belong together.
    """

    name: str
    title: str
    ruleset: str
    alike: tuple[Term, ...]
    same: tuple[Term, ...] = ()
    has_line: bool = False
    total: Comparison | None = None
    scope: tuple[Condition, ...] = ()
    beside: tuple[Condition, ...] = ()
    exceptions: tuple[ExceptionPart, ...] = ()
    sources: tuple[Source, ...] = ()
    wording: str = ""
    reason: str = ""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    is_draft: bool = False
    todo: tuple[str, ...] = ()
    place: Place = field(default=Place(), compare=False)

    @property
    def conditions(self) -> tuple[Condition, ...]:
        """All its conditions."""
        return (*self.scope, *self.beside, *(part.condition for part in self.exceptions))
