"""Hovering: what a name means, in Markdown (its kind, its units, its values), and the place where it was written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import assert_never

from speccheck.editor.naming import ChoiceOf, Definition, Name, NameAt
from speccheck.english import first_of
from speccheck.language.core import Condition, Table
from speccheck.language.core.wording import amount_text, condition_text
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.shipped import shipped_folder

# The most values of a list that are shown.
MOST_VALUES = 30


def hover_text(named: NameAt, system: str) -> str:
    """Return what a name can stand for; `system` is the system of units of the ruleset."""
    return "\n\n---\n\n".join(_told(meaning, system) for meaning in named.meanings)


def _told(meaning: Name, system: str) -> str:
    match meaning:
        case Term():
            return _term(meaning)
        case Definition(name, inner, remarks):
            words = condition_text(inner, system=system) if isinstance(inner, Condition) else amount_text(inner, system)
            return "\n\n".join((f"**{_safe(name)}**: definition", *map(_safe, (words, *remarks))))
        case Table():
            return _table(meaning)
        case ChoiceOf(choice, term):
            lines = [f"**{_safe(choice.name)}**: value of {_safe(term.name)}", choice.meaning, _also(choice.also)]
            return "\n\n".join(_safe(line) if line == choice.meaning else line for line in lines if line)
        case _:
            assert_never(meaning)


def _term(term: Term) -> str:
    kind = kind_words(term)
    lines = [f"**{_safe(term.name)}**: {kind}", _safe(term.meaning), _values(term), _also(term.also)]
    return "\n\n".join(line for line in lines if line)


def kind_words(term: Term) -> str:
    """Return the kind of a term with its usual units."""
    words = str(term.kind)
    if term.kind.form is Form.QUANTITY:
        units = dict.fromkeys(unit for unit in (term.inch_pound, term.metric) if unit)
        words += f" in {' or '.join(units)}" if units else ""
    return f"{words}, worked out by the program" if term.computed else words


def _values(term: Term) -> str:
    names = [choice.name for choice in term.choices]
    return f"Values: {_safe(first_of(names, MOST_VALUES))}" if names else ""


def _also(spellings: tuple[str, ...]) -> str:
    return f"Also written: {_safe(', '.join(spellings))}" if spellings else ""


def _table(table: Table) -> str:
    kind = table.of.name if table.of is not None else str(table.kind)
    unit = f" in {table.unit}" if table.unit else ""
    axes = " and ".join(axis.term.name for axis in table.axes)
    lines = [f"**{_safe(table.name)}**: table of {_safe(kind)}{unit}, by {_safe(axes)}"]
    lines += [f"Source: {_safe(str(source))}" for source in table.sources]
    lines += [_safe(text) for text in (*table.cautions, *table.notes)]
    return "\n\n".join(lines)


def _safe(text: str) -> str:
    """Return text that Markdown shows as it is."""
    return "".join(f"\\{sign}" if sign in "\\`*_{}[]<>#|~" else sign for sign in text)


_SHIPPED = "rulesets/"


@dataclass(frozen=True, slots=True)
class Location:
    """A place in a file of this machine: line, column and length as in `Place`."""

    path: Path
    place: Place


def locations(named: NameAt, path: Path) -> tuple[Location, ...]:
    """Return where the things are defined that a name in the file `path` can stand for, as far as it is known."""
    found = (Location(file, place) for place in _places(named) for file in _files(place.file, path) if place.line)
    return tuple(dict.fromkeys(found))


def _places(named: NameAt) -> Iterator[Place]:
    for meaning in named.meanings:
        match meaning:
            case ChoiceOf(_, term):
                yield term.place
            case Definition(_, inner):
                yield inner.place
            case _:
                yield meaning.place


def _files(name: str, path: Path) -> Iterator[Path]:
    """Yield the file that messages call by a name: the text itself, a file beside it, or a shipped one."""
    if name == path.name:
        yield path
    elif name.startswith(_SHIPPED):
        yield shipped_folder("rulesets") / name.removeprefix(_SHIPPED)
    elif (path.parent / name).is_file():
        yield path.parent / name
