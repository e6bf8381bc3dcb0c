"""The register of deviations: what the engineer has accepted, for which lines, from which clause, and until when.

A register is a TOML file with a table for each deviation:

    [[deviation]]
    name = "D-3"                                # by which the letters call it
    clause = "3.3.A"
    lines = "service is glycol and orientation is vertical"
    reason = "The riser has no straight run over 18 ft."
    reference = "RFI 12, answered 2026-02-10"
    until = 2026-06-30                          # the last day on which it holds; leave it out where it has no end

`lines` is a condition in the clause language, with the terms and definitions of the ruleset.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from speccheck.language.clause_names import clauses_by_name
from speccheck.language.core import Condition, Ruleset
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.suggestions import nearest
from speccheck.review import codes
from speccheck.review.conditions import read_condition

TEXT_KEYS = ("name", "clause", "lines", "reason", "reference")
KEYS = (*TEXT_KEYS, "until")
NOWHERE = Place()
_SHAPE = "write a table [[deviation]] for each deviation"
_NEEDED = f"each deviation has {', '.join(TEXT_KEYS)}, and where it ends, until"


@dataclass(frozen=True, slots=True)
class Deviation:
    """One accepted deviation: `lines` says for which lines, `until` is the last day on which it holds, None for ever.

    `clause` is the label of the clause; `words` is the condition as written.
    """

    name: str
    clause: str
    lines: Condition
    words: str
    reason: str
    reference: str
    until: datetime.date | None = None
    place: Place = NOWHERE

    def __str__(self) -> str:
        until = f", until {self.until.isoformat()}" if self.until else ""
        return f"{self.name}: {self.reason} ({self.reference}{until})"


@dataclass(frozen=True, slots=True)
class Register:
    """The accepted deviations in the order of the file, and the file's name without folders."""

    name: str
    deviations: tuple[Deviation, ...]


def read_register(path: Path, ruleset: Ruleset) -> tuple[Register | None, tuple[Diagnostic, ...]]:
    """Return the register of a file; None and errors where any of it cannot be used."""
    import tomllib

    try:
        text = path.read_text(encoding="utf-8")
        content = tomllib.loads(text)
    except OSError as error:
        return None, (_unreadable(path, f"cannot be opened: {(error.strerror or 'no access').lower()}"),)
    except UnicodeDecodeError:
        return None, (_unreadable(path, "is not text in UTF-8"),)
    except tomllib.TOMLDecodeError as error:
        return None, (_not_toml(path, str(error)),)
    entries = content.get("deviation")
    if set(content) - {"deviation"} or not isinstance(entries, list) or not all(isinstance(e, dict) for e in entries):
        return None, (_error(codes.BAD_REGISTER, "this is not a register of deviations", Place(path.name), _SHAPE),)
    places = _places(path.name, text)
    problems: list[Diagnostic] = []
    found: list[Deviation] = []
    for entry, place in zip(entries, places, strict=False):
        wrong = list(_misshapen(entry, place, [one.name for one in found]))
        deviation = wrong or _deviation(entry, place, text, ruleset)
        if isinstance(deviation, Deviation):
            found.append(deviation)
        else:
            problems += deviation
    return (None if problems else Register(path.name, tuple(found))), tuple(problems)


def _places(file: str, text: str) -> list[Place]:
    """Return where each table of the file begins; the file's own place where tables are written in another way."""
    rows = [number for number, row in enumerate(text.splitlines(), 1) if re.match(r"\s*\[\[\s*deviation\s*\]\]", row)]
    count = max(len(rows), text.count("{"))
    return [Place(file, row, 1) for row in rows] + [Place(file)] * (count - len(rows))


def _misshapen(entry: dict[str, Any], place: Place, taken: list[str]) -> Iterator[Diagnostic]:
    """Yield what is wrong with the keys of an entry."""
    name = entry.get("name")
    called = f"deviation `{name}`" if isinstance(name, str) and name.strip() else "the deviation"
    for key in entry:
        if key not in KEYS:
            near = nearest(key, KEYS)
            help = f"did you mean `{near}`?" if near else _NEEDED
            yield _error(codes.REGISTER_ENTRY, f"{called} has a key `{key}`, which there is not", place, help)
    for key in TEXT_KEYS:
        if not isinstance(entry.get(key), str) or not entry[key].strip():
            yield _error(codes.REGISTER_ENTRY, f"{called} does not say its `{key}`", place, _NEEDED)
    if "until" in entry and type(entry["until"]) is not datetime.date:
        message = f"`until` of {called} is no date"
        yield _error(codes.REGISTER_ENTRY, message, place, "write a date without quotation marks: 2026-06-30")
    if name in taken:
        message = f"two deviations are called `{name}`"
        yield _error(codes.REGISTER_ENTRY, message, place, "give one of them another name")


def _deviation(entry: dict[str, Any], place: Place, text: str, ruleset: Ruleset) -> Deviation | list[Diagnostic]:
    """Return the deviation of an entry of the right shape, or what is wrong with its clause and its condition."""
    clauses = clauses_by_name(clause for clause in ruleset.clauses if clause.shall)
    problems = []
    if entry["clause"] not in clauses:
        near = nearest(entry["clause"], clauses)
        help = f"did you mean `{near}`?" if near else "name a clause by its number in the matrix"
        message = f"the ruleset has no clause `{entry['clause']}` that asks for anything"
        problems.append(_error(codes.DEVIATION_CLAUSE, message, place, help))
    lines = read_condition(entry["lines"], ruleset, _place_of(entry["lines"], place, text))
    if isinstance(lines, tuple):
        return [*problems, *lines]
    if problems:
        return problems
    words = " ".join(entry["lines"].split())
    return Deviation(
        entry["name"].strip(),
        clauses[entry["clause"]].label,
        lines,
        words,
        entry["reason"].strip(),
        entry["reference"].strip(),
        entry.get("until"),
        place,
    )


def _place_of(condition: str, place: Place, text: str) -> Place:
    """Return where a condition begins in the file, the place of its table where it is not written in one piece."""
    for number, row in enumerate(text.splitlines(), 1):
        if number > place.line and condition in row:
            return Place(place.file, number, row.index(condition) + 1)
    return place


def _unreadable(path: Path, why: str) -> Diagnostic:
    return _error(codes.BAD_REGISTER, f"`{path.name}` {why}", Place(path.name))


def _not_toml(path: Path, error: str) -> Diagnostic:
    found = re.search(r"line (\d+), column (\d+)", error)
    place = Place(path.name, int(found[1]), int(found[2]), 1) if found else Place(path.name)
    return _error(codes.BAD_REGISTER, f"this is not TOML: {error.split(' (at ')[0].lower()}", place)


def _error(code: str, message: str, place: Place, help: str = "") -> Diagnostic:
    return Diagnostic(code, Severity.ERROR, message, place, help)
