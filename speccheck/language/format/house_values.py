"""Values by the names that the vocabulary gives them: `Aluminium` becomes `aluminum`, `innen` `inside the building`.

A clause may name a value by any of the words that schedules have for it, and means the same. The formatter writes the
value's own name, so that a ruleset reads in one language and a search finds all of it. Words that are a family in a
clause and one value in a schedule stay, for their writer has to say which is meant; so do the data of examples, which
are what a schedule says.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any

from speccheck.language.format.words import option_text
from speccheck.language.syntax.tree import (
    AssumptionSyntax,
    BandSyntax,
    Compared,
    ExamplePart,
    Including,
    ReadAsSyntax,
    RulesetSyntax,
    TableRow,
    TableSyntax,
    TextPart,
    Words,
)
from speccheck.language.vocabulary.terms import Term, Vocabulary, fold


def with_house_values(syntax: RulesetSyntax, vocabulary: Vocabulary) -> RulesetSyntax:
    """Return the syntax of a ruleset with each value of a closed list called by its own name."""
    renamed: RulesetSyntax = _renamed(syntax, vocabulary)
    return renamed


def house_name(words: str, term: Term) -> str:
    """Return the name that a term's list, or a family of it, has for what some words mean; else the words."""
    folded = fold(words)
    value, family = term.choice_names.get(folded), term.family_values.get(folded)
    if family is None:
        return value or words
    if value is not None:
        return words
    names = (name for one in term.families if one.values == family for name in one.names)
    return next((name for name in names if fold(name) not in term.choice_names), words)


def _renamed(node: Any, vocabulary: Vocabulary) -> Any:
    """Return a node, and all in it, with its values renamed."""
    if isinstance(node, tuple):
        return tuple(_renamed(one, vocabulary) for one in node)
    if not is_dataclass(node) or isinstance(node, type | Words | ExamplePart):
        return node
    inside = {one.name: _renamed(getattr(node, one.name), vocabulary) for one in fields(node) if one.name != "place"}
    whole: Any = replace(node, **inside)
    match whole:
        case Compared(Words(text), _, others):
            return replace(whole, others=_values(others, _term(text, vocabulary)))
        case Including(name, _, options):
            return replace(whole, options=_values(options, _term(name.text, vocabulary)))
        case ReadAsSyntax(_, values):
            told = ((term, _values((value,), _term(term.text, vocabulary))[0]) for term, value in values)
            return replace(whole, values=tuple(told))
        case AssumptionSyntax(name, value):
            return replace(whole, value=_values((value,), _term(name.text, vocabulary))[0])
        case TableSyntax():
            return _of_table(whole, vocabulary)
        case _:
            return whole


def _of_table(table: TableSyntax, vocabulary: Vocabulary) -> TableSyntax:
    """Return a table with its values renamed; one that replaces cells keeps the headings of the other."""
    if any(isinstance(part, TextPart) and part.keyword.startswith("replaces") for part in table.parts):
        return table
    axes = [_term(axis.text, vocabulary) for axis in table.axes]
    of = _term(table.of.text, vocabulary) if table.of is not None else None
    across = axes[-1] if len(axes) > 1 else None
    rows = tuple(
        TableRow(
            tuple(_of_band(band, term) for band, term in zip(row.bands, axes, strict=False)),
            _values(row.cells, of),
            row.place,
        )
        for row in table.rows
    )
    return replace(table, columns=tuple(_of_band(band, across) for band in table.columns), rows=rows)


def _of_band(band: BandSyntax, term: Term | None) -> BandSyntax:
    if band.form != "choices" or term is None:
        return band
    values = _values(band.values, term)
    return band if values == band.values else replace(band, values=values, text=", ".join(map(option_text, values)))


def _term(name: str, vocabulary: Vocabulary) -> Term | None:
    """Return the term of closed values that a clause calls so, None for another or none."""
    found = vocabulary.called(name)
    return found if found is not None and found.of_choices else None


def _values(options: tuple[Any, ...], term: Term | None) -> tuple[Any, ...]:
    """Return options with the names of values of a term turned into their own; all else as it is."""
    if term is None:
        return options
    return tuple(replace(one, text=house_name(one.text, term)) if isinstance(one, Words) else one for one in options)
