"""Two editions of a ruleset compared by meaning: clauses added, dropped, renumbered, changed, worded anew."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from speccheck.language.core import Clause, Condition, Ruleset, Table
from speccheck.language.core.walking import tables_of
from speccheck.language.core.wording import condition_text, value_text
from speccheck.proofread.clause_meaning import part_meanings, table_meaning

if TYPE_CHECKING:
    from speccheck.proofread.findings import Undecided
    from speccheck.proofread.revisions import Revised

_NOTHING = "nothing"
_SAME_WORDS = "in the same words, which hold for other values by what holds for all clauses"


class ClauseFate(StrEnum):
    """What became of a clause."""

    ADDED = "added"
    DROPPED = "dropped"
    CHANGED = "changed"
    NOT_DECIDED = "said otherwise; whether the meaning changed was not decided"
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
        return self.fate not in (ClauseFate.NOT_DECIDED, ClauseFate.RENUMBERED, ClauseFate.REWORDED)


def pair_clauses(old: Ruleset, new: Ruleset) -> Mapping[int, int]:
    """Return which clause of the new ruleset, by position, each clause of the old one became."""
    from speccheck.proofread.matching import paired_editions  # not needed by a check

    return {was: now for now, was in paired_editions(old, new).items()}


def compare_clauses(old: Ruleset, new: Ruleset) -> tuple[ClauseChange, ...]:
    """Return what changed between two editions of a ruleset, in the order of the new one, dropped clauses last.

    What changed is what `speccheck.proofread.revisions` finds; here it is told in the words of the clauses.
    """
    from speccheck.proofread.revisions import compare_revisions  # not needed by a check

    changes = compare_revisions(old, new)
    fates = _fates(changes)
    pairs = {now: was for was, now in pair_clauses(old, new).items()}
    found = [ClauseChange(ClauseFate.RULES, old.name, new.name, "", one) for one in _rules(changes)]
    for position, clause in enumerate(new.clauses):
        if position not in pairs:
            found.append(ClauseChange(ClauseFate.ADDED, "", clause.label, clause.title, _asks(clause, new.units)))
        else:
            found += _change(old.clauses[pairs[position]], clause, new.units, fates)
    kept = set(pairs.values())
    found += [
        ClauseChange(ClauseFate.DROPPED, clause.label, "", clause.title, _asks(clause, old.units))
        for position, clause in enumerate(old.clauses)
        if position not in kept
    ]
    return tuple(found)


def _fates(changes: Sequence[Revised | Undecided]) -> Mapping[tuple[str, str], ClauseFate]:
    """Return what became of the clauses that are in both editions, by their labels then and now."""
    from speccheck.proofread.revisions import Change, Revised

    found: dict[tuple[str, str], ClauseFate] = {}
    for one in changes:
        if isinstance(one, Revised):
            fate = ClauseFate.RENUMBERED if one.change is Change.RENUMBERED else ClauseFate.CHANGED
            found[one.before_label, one.after_label] = fate
        else:
            found.setdefault((one.clauses[0], one.clauses[-1]), ClauseFate.NOT_DECIDED)
    return found


def _rules(changes: Sequence[Revised | Undecided]) -> Iterator[tuple[str, ...]]:
    """Yield what changed for all clauses: how they compare values, and what stands for data that are not stated."""
    from speccheck.proofread.revisions import Change, Revised

    yield from (one.details for one in changes if isinstance(one, Revised) and one.change is Change.RULES)


def _asks(clause: Clause, system: str) -> tuple[str, ...]:
    return tuple(f"shall {condition_text(part, be=True, system=system)}" for part in clause.shall)


def _change(
    old: Clause, new: Clause, system: str, fates: Mapping[tuple[str, str], ClauseFate]
) -> Iterator[ClauseChange]:
    """Yield what became of a clause; nothing where it is as it was."""
    label, title = (old.label, new.label), new.title
    before, after = part_meanings(old), part_meanings(new)
    details = tuple(
        detail for part in before if before[part] != after[part] for detail in _details(part, old, new, system)
    )
    fate = fates.get(label)
    if fate is ClauseFate.RENUMBERED:
        yield ClauseChange(fate, *label, title)
    elif fate is not None:
        yield ClauseChange(fate, *label, title, details or (_SAME_WORDS,))
    told = [
        name
        for name in ("title", "wording", "reason", "sources", "notes", "cautions")
        if getattr(old, name) != getattr(new, name)
    ]
    reworded = (*([", ".join(told)] if told else []), *(details if fate in (None, ClauseFate.RENUMBERED) else ()))
    if reworded:
        yield ClauseChange(ClauseFate.REWORDED, *label, title, reworded)


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
    for row, cells in enumerate(new.cells):
        for column in range(len(cells)):
            was, now = (_cell_text(table, row, column) for table in (old, new))
            if was != now:
                place = ", ".join(new.headings_at(row, column))
                yield f"table {new.name} at {place}: {was}, now {now}"


def _cell_text(table: Table, row: int, column: int) -> str:
    cell = table.cells[row][column]
    return str(table.word(row, column) or "not covered") if cell is None else value_text(cell.value)
