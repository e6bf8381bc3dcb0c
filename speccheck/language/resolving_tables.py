"""Tables resolved: bands and cells read as values, and checked so that no value falls into two bands."""

from __future__ import annotations

from itertools import combinations
from typing import Any

from speccheck.language.core import Axis, Band, Confidence, Literal, Source, Table
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.kinds import CHOICE, NUMBER, Form, Kind, quantity_kind
from speccheck.language.literals import resolve_literal
from speccheck.language.names import Names
from speccheck.language.resolving_amounts import resolve_choice
from speccheck.language.syntax import BandSyntax, Measure, Part, SourcePart, TableSyntax, TextPart, Words
from speccheck.language.vocabulary import Term
from speccheck.quantities import Interval, canonical_unit, unit_dimensions

# For each form of band: whether its values are the low end, the high end or both, and which ends belong to it.
BAND_ENDS = {
    "under": ("high", True, False),
    "up to": ("high", True, True),
    "only": ("same", True, True),
    "to": ("both", True, True),
    "to under": ("both", True, False),
    "over to": ("both", False, True),
    "over to under": ("both", False, False),
    "and over": ("low", True, True),
    "over": ("low", False, True),
}


def resolve_table(names: Names, syntax: TableSyntax, ruleset: str) -> Table | None:
    """Return the table that `syntax` means, or None after its errors were reported."""
    terms = [names.term(axis.text) for axis in syntax.axes]
    for axis, term in zip(syntax.axes, terms, strict=True):
        if term is None:
            names.unknown(axis)
        elif term.kind.form in (Form.SET, Form.YES_NO, Form.TEXT):
            names.error("L402", f"a table cannot be read by `{term.name}`, a {term.kind}", axis, "name another term")
            return None
    known = [term for term in terms if term is not None]
    if not syntax.whole or len(known) < len(terms) or not _shape_fits(names, syntax):
        return None
    kind, of = _kind_of_cells(names, syntax)
    axes = _axes(names, syntax, known)
    if kind is None or axes is None:
        return None
    unit = canonical_unit(syntax.unit.text) or "" if syntax.unit else ""
    rows = tuple(tuple(_cell(names, cell, kind, of, unit) for cell in row.cells) for row in syntax.rows)
    return Table(
        syntax.name.text,
        kind,
        axes,
        rows,
        unit,
        of,
        sources_of(syntax.parts),
        texts_of(syntax.parts, "caution"),
        texts_of(syntax.parts, "note"),
        ruleset,
        syntax.place,
    )


def sources_of(parts: tuple[Part, ...]) -> tuple[Source, ...]:
    """Return the sources among the parts."""
    return tuple(Source(p.text.text, Confidence(p.confidence)) for p in parts if isinstance(p, SourcePart))


def texts_of(parts: tuple[Part, ...], keyword: str) -> tuple[str, ...]:
    """Return the words of all parts with `keyword`."""
    return tuple(p.words[0].text for p in parts if isinstance(p, TextPart) and p.keyword == keyword)


def _shape_fits(names: Names, syntax: TableSyntax) -> bool:
    """Check the number of axes and the length of the rows."""
    if len(syntax.axes) > 2:
        names.error("L402", "a table is read by one or two terms", syntax.axes[2], "make two tables of it")
        return False
    if len(syntax.axes) == 2 and not syntax.columns:
        names.error("L402", "the first row does not name the columns", syntax.axes[1], "begin the first row with `|`")
        return False
    if len(syntax.axes) == 1 and syntax.columns:
        names.error("L402", "the table has columns, but only one axis", syntax.axes[0], "name the term of the columns")
        return False
    width = len(syntax.columns) or 1
    wrong = [row for row in syntax.rows if len(row.cells) != width]
    for row in wrong:
        message = f"the row has {len(row.cells)} cells where the table has {width} columns"
        names.report(names.source.error("L401", message, row.place, "write `-` for a cell that is not covered"))
    return not wrong and bool(syntax.rows)


def _kind_of_cells(names: Names, syntax: TableSyntax) -> tuple[Kind | None, Term | None]:
    if syntax.of is not None:
        term = names.term(syntax.of.text)
        if term is None:
            names.unknown(syntax.of)
        return (term.kind if term else None), term
    if syntax.unit is not None:
        dimensions = unit_dimensions(syntax.unit.text)
        if not dimensions:
            names.error("L205", f"`{syntax.unit.text}` is not a unit", syntax.unit, "write a unit such as `in` or `mm`")
            return None, None
        return quantity_kind(dimensions[0]), None
    first = next((cell for row in syntax.rows for cell in row.cells if isinstance(cell, Measure)), None)
    literal = resolve_literal(first, None, names.source) if first is not None else None
    return (literal.kind if isinstance(literal, Literal) else NUMBER), None


def _cell(names: Names, cell: Words | Measure | None, kind: Kind, of: Term | None, unit: str) -> Literal | None:
    if cell is None:
        return None
    if kind.form is Form.CHOICE and of is not None:
        words = cell if isinstance(cell, Words) else Words(cell.text, cell.place)
        choice = resolve_choice(names, words, of)
        return Literal(choice, CHOICE, cell.place) if choice is not None else None
    if isinstance(cell, Words):
        names.error("L405", f"`{cell.text}` is not a {kind}", cell, "write a quantity, or `-` for not covered")
        return None
    literal = resolve_literal(cell, kind, names.source, bare_unit=unit)
    if isinstance(literal, Diagnostic):
        names.report(literal)
        return None
    return literal


def _axes(names: Names, syntax: TableSyntax, terms: list[Term]) -> tuple[Axis, ...] | None:
    headings = [[row.band for row in syntax.rows], list(syntax.columns)]
    axes = []
    for term, bands in zip(terms, headings, strict=False):
        resolved = [_band(names, band, term) for band in bands]
        whole = tuple(band for band in resolved if band is not None)
        if len(whole) < len(bands) or not _apart(names, whole):
            return None
        axes.append(Axis(term, whole))
    return tuple(axes)


def _band(names: Names, syntax: BandSyntax, term: Term) -> Band | None:
    if term.kind.form is Form.CHOICE:
        found = [
            resolve_choice(names, value if isinstance(value, Words) else Words(value.text, value.place), term)
            for value in syntax.values
        ]
        choices = tuple(choice for choice in found if choice is not None)
        return Band(syntax.text, choices=choices, place=syntax.place) if len(choices) == len(found) else None
    if syntax.form == "choices":
        message = f"`{syntax.text}` is not a band of `{term.name}`, a {term.kind}"
        names.report(names.source.error("L404", message, syntax.place, "write `A to B`, `under B` or `A and over`"))
        return None
    values: list[Any] = []
    for value in syntax.values:
        assert isinstance(value, Measure), value
        literal = resolve_literal(value, term.kind, names.source)
        if isinstance(literal, Diagnostic):
            names.report(literal)
            return None
        values.append(literal.value)
    return Band(syntax.text, _interval(syntax.form, values), place=syntax.place)


def _interval(form: str, values: list[Any]) -> Interval[Any]:
    ends, low_closed, high_closed = BAND_ENDS[form]
    low = None if ends == "high" else values[0]
    high = None if ends == "low" else values[-1]
    return Interval(low, high, low_closed, high_closed)


def _apart(names: Names, bands: tuple[Band, ...]) -> bool:
    """Check that no value lies in two of the bands."""
    clear = True
    for first, second in combinations(bands, 2):
        shared = set(first.choices) & set(second.choices)
        if shared or (first.interval and second.interval and _overlap(first.interval, second.interval)):
            message = f"`{second.text}` overlaps `{first.text}`"
            help = "let one end where the other begins: `A to under B`, then `B to C`"
            names.report(names.source.error("L403", message, second.place, help))
            clear = False
    return clear


def _overlap(first: Interval[Any], second: Interval[Any]) -> bool:
    """Say whether two intervals share a value."""
    return _reaches(first, second) and _reaches(second, first)


def _reaches(lower: Interval[Any], upper: Interval[Any]) -> bool:
    """Say whether the high end of `lower` lies at or above the low end of `upper`, so that they could meet."""
    if lower.high is None or upper.low is None:
        return True
    high, low = amount_of(lower.high), amount_of(upper.low)
    return high > low or (high == low and lower.high_closed and upper.low_closed)


def amount_of(value: Any) -> float:
    """Return the bare number of a quantity (SI), a nominal size (inches) or a number."""
    return float(getattr(value, "value", getattr(value, "inches", value)))
