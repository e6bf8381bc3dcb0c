"""What reports say of a line: its service, a few words that tell it from others, its data, its place."""

from __future__ import annotations

import re
from collections.abc import Iterable

from speccheck.language.diagnostics import ON_PAPER, Place
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Datum, Line

SERVICE = "service"
_NUMBERED = re.compile(r"(.*?)([0-9]{1,9})", re.DOTALL)


def shown(datum: Datum | None) -> str:
    """Return a datum in the words of the schedule, "" where it has none."""
    return "" if datum is None else datum.text.strip()


def understood(datum: Datum, term: Term | None, system: str) -> str:
    """Return what was understood of a datum in the trade's notation; "" if it is not given or its term not known.

    `system` is the system of units in which nominal sizes are written, "inch-pound" or "metric".
    """
    from speccheck.language.vocabulary.values import write_value

    return "" if term is None or isinstance(datum.value, NotGiven) else write_value(datum.value, term, system)


def service(line: Line) -> str:
    """Return the service of a line by its name in the vocabulary, as written if it has none there, "" if not given."""
    datum = line.data.get(SERVICE)
    if datum is not None and isinstance(datum.value, str):
        return datum.value
    return shown(datum)


def brief(line: Line) -> str:
    """Return a few words that tell a line from others: its service and its sizes."""
    sizes = [shown(datum) for name, datum in line.data.items() if name.endswith("size")]
    return ", ".join(part for part in (service(line), *sizes[:1]) if part)


def stated_terms(matrix: Matrix) -> tuple[Term, ...]:
    """Return the terms that some line states: service and nominal size, then the others in the vocabulary's order."""
    stated = {name for line in matrix.schedule.lines for name in line.data}
    terms = [term for term in matrix.ruleset.vocabulary.terms.values() if term.name in stated]
    return tuple(sorted(terms, key=_rank))


def _rank(term: Term) -> int:
    if term.name == SERVICE:
        return 0
    return 1 if term.kind.form is Form.SIZE else 2


def place_words(place: Place) -> str:
    """Return a place inside the schedule, such as "sheet Piping, B12", "page 2 table 1, B3" or "line 7".

    Its file is named before it where several were submitted together.
    """
    on_paper = place.sheet.startswith(ON_PAPER)
    sheet = place.sheet if on_paper or not place.sheet else f"sheet {place.sheet}"
    line = f"line {place.line}" if place.line and not (place.sheet or place.cell) else ""
    return ", ".join(part for part in (place.file if place.among_files else "", sheet, place.cell, line) if part)


def line_names(lines: Iterable[Line]) -> str:
    """Return the names of the lines with commas; three or more that count up are written "P-1 through P-9"."""
    return drawn_together(line.name for line in lines)


def drawn_together(names: Iterable[str]) -> str:
    """Return names with commas; three or more that count up are written "AF8 through AF12"."""
    runs: list[list[str]] = []
    for name in names:
        if runs and _counts_up(runs[-1][-1], name):
            runs[-1].append(name)
        else:
            runs.append([name])
    return ", ".join(f"{run[0]} through {run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)


def _counts_up(name: str, following: str) -> bool:
    """Tell whether `following` is `name` with its last number one higher."""
    first, second = _NUMBERED.fullmatch(name), _NUMBERED.fullmatch(following)
    return bool(first and second and first[1] == second[1] and int(first[2]) + 1 == int(second[2]))
