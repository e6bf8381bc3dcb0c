"""The names of clauses: those by which reports call them, and all by which somebody may ask for one."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace

from speccheck.language.core import Clause


def labelled(clauses: Iterable[Clause]) -> tuple[Clause, ...]:
    """Return clauses with labels that tell them apart.

    A number is enough for the clauses of the ruleset itself, and for those of an inherited ruleset that has no number
    in common with another. All others go by the name of their ruleset, as `builds on` has it: "condensation 1.1".
    """
    clauses = tuple(clauses)
    count = Counter(clause.name for clause in clauses)
    ambiguous = {clause.called for clause in clauses if count[clause.name] > 1}
    short = [_prefixed(clause) if clause.called in ambiguous else clause.name for clause in clauses]
    taken = Counter(short)
    return tuple(
        replace(clause, label=label if taken[label] == 1 else _titled(clause))
        for clause, label in zip(clauses, short, strict=True)
    )


def clauses_by_name(clauses: Iterable[Clause]) -> Mapping[str, Clause]:
    """Return clauses by every name that asks for one: their labels first, which suggestions are drawn from.

    Besides, a clause can be asked for by its number where no other has it, as "condensation 1.1" where its number is
    enough, as "1.1 (condensation)" and with the title of its ruleset, as "1.1 (Condensation on cold insulation)".
    """
    clauses = tuple(clauses)
    count = Counter(clause.name for clause in clauses)
    found = {clause.label or clause.name: clause for clause in clauses}
    for clause in clauses:
        if count[clause.name] == 1:
            found.setdefault(clause.name, clause)
        found.setdefault(_titled(clause), clause)
        if clause.called:
            found.setdefault(_prefixed(clause), clause)
            found.setdefault(f"{clause.name} ({clause.called})", clause)
    return found


def paragraph_of(name: str) -> str:
    """Return the number of the paragraph that a clause of this name is a part of, or the name itself.

    A paragraph in parts has "2.1-2", "2.1.A", "5.A", "5a" or "5(a)".
    """
    return re.sub(r"(?<=[\w)])(?:-\d+|-[A-Za-z]|\.[A-Za-z]|(?<=\d)[A-Za-z]|\([A-Za-z\d]\))$", "", name)


def _prefixed(clause: Clause) -> str:
    return f"{clause.called} {clause.name}".lstrip()


def _titled(clause: Clause) -> str:
    return f"{clause.name} ({clause.ruleset})"
