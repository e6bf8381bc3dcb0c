"""Tables of a ruleset built on that an addendum replaces, whole or in some cells, and what looks them up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TypeVar, cast

from speccheck.language.core import (
    Amount,
    AskedIf,
    Band,
    CellSays,
    Clause,
    Comparison,
    Condition,
    ExceptionPart,
    Lookup,
    Ruleset,
    Table,
)
from speccheck.language.core.walking import Node, inner, rebuild
from speccheck.language.resolve.conditions import by_cells

Replaced = Mapping[Table, Table]
_T = TypeVar("_T", bound=Node)


def with_cells(old: Table, new: Table) -> Table | str:
    """Return a table with the cells that another one has, or the heading of that one that the first does not have."""
    if [axis.term for axis in old.axes] != [axis.term for axis in new.axes]:
        return ", ".join(axis.term.name for axis in new.axes)
    cells, words = [list(row) for row in old.cells], [[old.word(*at) for at in row] for row in _places(old)]
    for row in _places(new):
        for at in row:
            if new.cells[at[0]][at[1]] is None and new.word(*at) is None:
                continue
            positions = []
            for axis, band in zip(old.axes, new.bands_at(*at), strict=True):
                same = next((place for place, one in enumerate(axis.bands) if _alike(one, band)), None)
                if same is None:
                    return band.text
                positions.append(same)
            row_at, column_at = old.place_of(positions)
            cells[row_at][column_at], words[row_at][column_at] = new.cells[at[0]][at[1]], new.word(*at)
    whole = tuple(map(tuple, words))
    sources = tuple(dict.fromkeys((*new.sources, *old.sources)))
    return replace(
        new,
        axes=old.axes,
        cells=tuple(map(tuple, cells)),
        words=whole if any(map(any, whole)) else (),
        sources=sources,
        cautions=tuple(dict.fromkeys((*old.cautions, *new.cautions))),
        notes=tuple(dict.fromkeys((*old.notes, *new.notes))),
    )


def _alike(one: Band, other: Band) -> bool:
    return (one.interval, one.choices) == (other.interval, other.choices)


def _places(table: Table) -> list[list[tuple[int, int]]]:
    return [[(row, column) for column in range(len(cells))] for row, cells in enumerate(table.cells)]


def cuts(ruleset: Ruleset, table: Table) -> bool:
    """Say whether a ruleset reads a table as if terms had other values, which replacing the table would not follow."""
    from speccheck.language.core.walking import conditions_of, tables_of

    conditions = [condition for clause in ruleset.clauses for condition in conditions_of(clause)]
    return any(one.cut_from == table for one in tables_of([*conditions, *ruleset.definitions.values()]))


def with_tables(ruleset: Ruleset, replaced: Replaced) -> Ruleset:
    """Return a ruleset that looks up other tables in the place of some."""
    if not replaced:
        return ruleset

    def changed(node: _T) -> _T:
        return cast(_T, _changed(node, replaced))

    def exceptions(parts: tuple[ExceptionPart, ...]) -> tuple[ExceptionPart, ...]:
        return tuple(replace(part, condition=changed(part.condition)) for part in parts)

    def conditions(several: tuple[Condition, ...]) -> tuple[Condition, ...]:
        return tuple(map(changed, several))

    def clause(one: Clause) -> Clause:
        return replace(
            one,
            scope=conditions(one.scope),
            shall=conditions(one.shall),
            should=conditions(one.should),
            exceptions=exceptions(one.exceptions),
        )

    return replace(
        ruleset,
        clauses=tuple(map(clause, ruleset.clauses)),
        tables={name: replaced.get(table, table) for name, table in ruleset.tables.items()},
        definitions={name: changed(meaning) for name, meaning in ruleset.definitions.items()},
        assumptions=tuple(replace(one, scope=conditions(one.scope)) for one in ruleset.assumptions),
        documents=tuple(
            replace(one, scope=conditions(one.scope), exceptions=exceptions(one.exceptions))
            for one in ruleset.documents
        ),
        relations=tuple(
            replace(
                one, scope=conditions(one.scope), beside=conditions(one.beside), exceptions=exceptions(one.exceptions)
            )
            for one in ruleset.relations
        ),
    )


def _changed(node: Node, replaced: Replaced) -> Node:
    """Return a node with other tables in it; what words of cells say of a comparison is worked out anew."""
    match node:
        case AskedIf(asked, by_table=True):
            return _changed(asked, replaced)
        case Lookup(table, place) if table in replaced:
            return Lookup(replaced[table], place)
        case CellSays(table, word, place) if table in replaced:
            return CellSays(replaced[table], word, place)
        case _:
            parts: list[Amount | Condition] = [_changed(part, replaced) for part in inner(node)]
            whole = rebuild(node, parts) if parts else node
    if isinstance(whole, Comparison):
        return by_cells(whole) or whole
    return whole
