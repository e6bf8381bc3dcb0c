"""Two editions of a ruleset compared by meaning: clauses added, dropped, renumbered, changed, worded anew."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from speccheck.language.core import Band, Clause, Condition, Literal, Ruleset, Table
from speccheck.language.core.walking import tables_of
from speccheck.language.core.wording import condition_text, document_sentence, value_text
from speccheck.review.clause_meaning import (
    clause_meaning,
    conditions_meaning,
    part_meanings,
    table_meaning,
    value_meaning,
)

_NOTHING = "nothing"


class ClauseFate(StrEnum):
    """What became of a clause."""

    ADDED = "added"
    DROPPED = "dropped"
    CHANGED = "changed"
    RENUMBERED = "renumbered"
    REWORDED = "worded anew, with the same meaning"
    RULES = "what holds for all clauses"


@dataclass(frozen=True, slots=True)
class ClauseChange:
    """What became of one clause: its label then and now ("" where there is none), and what differs, in words."""

    fate: ClauseFate
    old: str
    new: str
    title: str
    details: tuple[str, ...] = ()

    @property
    def changes_meaning(self) -> bool:
        """Whether a line could get another verdict by the change."""
        return self.fate not in (ClauseFate.RENUMBERED, ClauseFate.REWORDED)


def pair_clauses(old: Ruleset, new: Ruleset) -> Mapping[int, int]:
    """Return which clause of the new ruleset, by position, each clause of the old one became.

    Clauses that mean the same under the same label come first, then those that mean the same, then those of one label.
    """
    before = [(clause.label, clause_meaning(clause)) for clause in old.clauses]
    after = [(clause.label, clause_meaning(clause)) for clause in new.clauses]
    pairs: dict[int, int] = {}
    for same_label, same_meaning in ((True, True), (False, True), (True, False)):
        waiting: dict[object, list[int]] = {}
        taken = set(pairs.values())
        for position, (label, meaning) in enumerate(after):
            if position not in taken:
                waiting.setdefault((label if same_label else "", meaning if same_meaning else ()), []).append(position)
        for position, (label, meaning) in enumerate(before):
            alike = waiting.get((label if same_label else "", meaning if same_meaning else ()))
            if position not in pairs and alike:
                pairs[position] = alike.pop(0)
    return pairs


def compare_clauses(old: Ruleset, new: Ruleset) -> tuple[ClauseChange, ...]:
    """Return what changed between two editions of a ruleset, in the order of the new one, dropped clauses last."""
    pairs = {now: was for was, now in pair_clauses(old, new).items()}
    found = [*_rules(old, new)]
    for position, clause in enumerate(new.clauses):
        if position not in pairs:
            found.append(ClauseChange(ClauseFate.ADDED, "", clause.label, clause.title, _asks(clause, new.units)))
        else:
            found += _change(old.clauses[pairs[position]], clause, new.units)
    kept = set(pairs.values())
    found += [
        ClauseChange(ClauseFate.DROPPED, clause.label, "", clause.title, _asks(clause, old.units))
        for position, clause in enumerate(old.clauses)
        if position not in kept
    ]
    return tuple(found)


def _rules(old: Ruleset, new: Ruleset) -> Iterator[ClauseChange]:
    """Yield what changed for all clauses: how they compare values, and what stands for data that are not stated."""
    details = []
    if old.tolerance != new.tolerance:
        details.append(f"tolerance {old.tolerance:g}, now {new.tolerance:g}")
    if old.nominal_metric != new.nominal_metric:
        details.append(f"nominal metric sizes {'now' if new.nominal_metric else 'no longer'} stand for inch sizes")
    then, now = ({**_assumptions(one), **_documents(one)} for one in (old, new))
    details += [f"no longer: {words}" for meaning, words in then.items() if meaning not in now]
    details += [f"now: {words}" for meaning, words in now.items() if meaning not in then]
    if details:
        yield ClauseChange(ClauseFate.RULES, old.name, new.name, "", tuple(details))


def _assumptions(ruleset: Ruleset) -> Mapping[object, str]:
    """Return what stands for data that lines do not state, by its meaning, in words."""
    found: dict[object, str] = {}
    for one in ruleset.assumptions:
        meaning = (one.term.name, value_meaning(one.value), conditions_meaning(one.scope))
        where = " and ".join(condition_text(part, system=ruleset.units) for part in one.scope)
        found[meaning] = f"assume {one.term.name} is {value_text(one.value, ruleset.units)}" + (
            f" where {where}" if where else ""
        )
    return found


def _documents(ruleset: Ruleset) -> Mapping[object, str]:
    """Return what has to be submitted, by its meaning, in words."""
    found: dict[object, str] = {}
    for one in ruleset.documents:
        each = tuple(term.name for term in one.each)
        exceptions = tuple(conditions_meaning([part.condition]) for part in one.exceptions)
        meaning = (one.kind, each, str(one.within), conditions_meaning(one.scope), exceptions)
        found[meaning] = f"document {one.name}: {document_sentence(one, ruleset.units)}"
    return found


def _asks(clause: Clause, system: str) -> tuple[str, ...]:
    return tuple(f"shall {condition_text(part, be=True, system=system)}" for part in clause.shall)


def _change(old: Clause, new: Clause, system: str) -> Iterator[ClauseChange]:
    """Yield what became of a clause; nothing where it is as it was."""
    label, title = (old.label, new.label), new.title
    before, after = part_meanings(old), part_meanings(new)
    parts = [part for part in before if before[part] != after[part]]
    if parts:
        details = tuple(detail for part in parts for detail in _details(part, old, new, system))
        yield ClauseChange(ClauseFate.CHANGED, *label, title, details)
    if old.label != new.label:
        yield ClauseChange(ClauseFate.RENUMBERED, *label, title)
    told = [
        name
        for name in ("title", "wording", "reason", "sources", "notes", "cautions")
        if getattr(old, name) != getattr(new, name)
    ]
    if told:
        yield ClauseChange(ClauseFate.REWORDED, *label, title, (", ".join(told),))


def _details(part: str, old: Clause, new: Clause, system: str) -> Iterator[str]:
    """Yield in words how one part of a clause changed: what it says then and now, and cells of tables."""
    conditions = [_conditions(part, clause) for clause in (old, new)]
    then, now = (_part_text(part, several, system) for several in conditions)
    if then != now:
        yield f"{part}: {then}; now {now}"
    tables = [{table.name: table for table in tables_of(several)} for several in conditions]
    changes = [change for name in tables[0] if name in tables[1] for change in _cells(tables[0][name], tables[1][name])]
    yield from changes
    if then == now and not changes:
        yield f"{part}: a definition or a table behind `{then}` means something else"


def _conditions(part: str, clause: Clause) -> tuple[Condition, ...]:
    return {
        "where it applies": clause.scope,
        "judged only where": clause.judged_only,
        "exceptions": tuple(one.condition for one in clause.exceptions),
        "requirement": clause.shall,
        "advice": clause.should,
    }[part]


def _part_text(part: str, conditions: Sequence[Condition], system: str) -> str:
    joint = " or " if part == "exceptions" else " and "
    return joint.join(condition_text(one, system=system) for one in conditions) or _NOTHING


def _cells(old: Table, new: Table) -> Iterator[str]:
    """Yield the cells of a table that changed, by the words of their bands."""
    if table_meaning(old) == table_meaning(new):
        return
    axes = [[band.text for axis in table.axes for band in axis.bands] for table in (old, new)]
    if axes[0] != axes[1]:
        yield f"table {new.name}: its bands are others"
        return
    for row, (before, after) in enumerate(zip(old.cells, new.cells, strict=True)):
        for column, (was, now) in enumerate(zip(before, after, strict=True)):
            if _cell_text(was) != _cell_text(now):
                place = ", ".join(band.text for band in _bands(new, row, column))
                yield f"table {new.name} at {place}: {_cell_text(was)}, now {_cell_text(now)}"


def _bands(table: Table, row: int, column: int) -> tuple[Band, ...]:
    bands = (table.axes[0].bands[row],)
    return (*bands, table.axes[1].bands[column]) if len(table.axes) > 1 else bands


def _cell_text(cell: Literal | None) -> str:
    return "not covered" if cell is None else value_text(cell.value)
