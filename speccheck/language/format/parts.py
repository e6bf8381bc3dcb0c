"""Parts of items written out for the formatter: a keyword and its words; tables one row a line, bars aligned."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import assert_never

from speccheck.language.diagnostics import Place
from speccheck.language.format.words import (
    condition_pieces,
    filled,
    listed,
    name_text,
    option_text,
    short_in_one,
    string_pieces,
    string_text,
)
from speccheck.language.syntax.tree import (
    CellWords,
    ConditionPart,
    EitherPart,
    ExamplePart,
    InferredPart,
    Measure,
    Part,
    SensiblePart,
    SourcePart,
    TableSyntax,
    TextPart,
    Words,
)

INDENT = "  "
# The widths of the keywords of clauses and headers (`wording`) and of terms (`means`); longer ones stand out.
CLAUSE_COLUMN, TERM_COLUMN = 7, 5
KEYWORDS = {
    "shown in": "in",
    "property of": "of",
    "nominal metric": "lets nominal metric stand for inch",
    "cheapest first": "changes cheapest first",
}
NAMED = (
    "speaks",
    "subject",
    "cheapest first",
    "property of",
    "stated at",
    "dates",
    "beside",
    "together",
)
VERBATIM = ("dated within", "units", "tolerance", "shown in", "none is")


@dataclass(frozen=True, slots=True)
class Block:
    """Lines that belong together, where they began, and whether they open an item (a blank line goes before).

    Where `keyword` is not empty, the block began at the last such word before `place`.
    """

    lines: tuple[str, ...]
    place: Place
    keyword: str = ""
    opens_item: bool = False


def own_column(parts: Sequence[Part], least: int = 0) -> int:
    """Return the width of the longest keyword of a definition, an assumption or a table."""
    return max([least, *(len(_keyword(part)) for part in parts)])


def parts_of(parts: Sequence[Part], column: int) -> Iterator[Block]:
    """Yield the blocks of parts whose words begin behind a column."""
    for part in parts:
        lines = after_keyword(_keyword(part), _pieces(part), column)
        if isinstance(part, ExamplePart):
            hanging = len(INDENT) + column + 1
            data = listed(words.text for words in part.data)
            lines += filled(" " * hanging, data, hanging)
        yield Block(tuple(lines), part.place)


def _keyword(part: Part) -> str:
    match part:
        case TextPart(keyword):
            return KEYWORDS.get(keyword, keyword)
        case ConditionPart(keyword):
            return keyword
        case SourcePart():
            return "source"
        case ExamplePart():
            return "example"
        case EitherPart(family=family):
            return "family" if family else "either"
        case SensiblePart():
            return "sensible"
        case InferredPart():
            return "inferred"
        case _:
            assert_never(part)


def _pieces(part: Part) -> list[str]:
    """Return what stands behind the keyword of a part."""
    match part:
        case SourcePart(text, confidence):
            return [*string_pieces(text.text), *confidence.split()]
        case ExamplePart(title, expected):
            return [*string_pieces(title.text), expected]
        case EitherPart():
            return _either(part)
        case SensiblePart(range_, where, values, options, denied, without_unit):
            names = listed(name_text(value.text) for value in values)
            own = listed(option.text if option.text in ("yes", "no") else name_text(option.text) for option in options)
            first = [f"not {own[0]}", *own[1:]] if denied else own or [range_.text]
            beside = [f"where {name_text(where.text)} is {names[0]}", *names[1:]] if where else []
            return [*first, *beside, *(["without unit"] if without_unit else [])]
        case InferredPart(value, where, values, given):
            names = listed(name_text(one.text) for one in values)
            stated = [f"and {name_text(given.text)} is stated"] if given is not None else []
            return [f"{name_text(value.text)} where {name_text(where.text)} is {names[0]}", *names[1:], *stated]
        case ConditionPart("except", condition, because):
            pieces = condition_pieces(condition, "is")
            reason = short_in_one(["because", *string_pieces(because.text)]) if because else []
            return [f"where {pieces[0]}", *pieces[1:], *reason]
        case ConditionPart(keyword, condition):
            return condition_pieces(condition, "be" if keyword in ("shall", "should") else "is")
        case TextPart("judged only where", words):
            pieces = listed(name_text(word.text) for word in words)
            return [*pieces, "are stated" if len(words) > 1 else "is stated"]
        case TextPart("submit", words):
            kind, *each = (name_text(word.text) for word in words)
            return [kind, f"of each {listed(each)[0]}", *listed(each)[1:]] if each else [kind]
        case TextPart("replaces", words):
            return [words[0].text, *(f"of {string_text(word.text)}" for word in words[1:])]
        case TextPart(keyword, words):
            return _texts(keyword, words)
        case _:
            assert_never(part)


def _either(part: EitherPart) -> list[str]:
    names = [name_text(value.text) for value in part.values]
    first, *others = listed(names) if part.family else [names[0], *(f"or {name}" for name in names[1:])]
    return [*listed(string_text(word.text) for word in part.words), f"is {first}", *others]


def _texts(keyword: str, words: Sequence[Words]) -> list[str]:
    if keyword in VERBATIM:
        return listed(word.text for word in words)
    if keyword in NAMED:
        return listed(name_text(word.text) for word in words)
    return string_pieces(words[0].text) if len(words) == 1 else listed(string_text(word.text) for word in words)


def after_keyword(keyword: str, pieces: Sequence[str], column: int) -> list[str]:
    """Return a part on as many lines as it needs, all but the first hanging behind the keyword's column."""
    if not pieces:
        return [INDENT + keyword]
    hanging = len(INDENT) + column + 1
    return filled(f"{INDENT}{keyword.ljust(column)} ", pieces, hanging)


def by_line(table: TableSyntax, column: int) -> str:
    """Return the line that names the axes; their names stand as they are, because the whole line is names."""
    return f"{'by'.ljust(column)} {', '.join(axis.text for axis in table.axes)}"


def table_rows(table: TableSyntax) -> Iterator[tuple[str, Place]]:
    """Yield the rows of a table, the naming of its columns first, each with the place where it stood."""
    rows = [[*(band.text for band in row.bands), *map(_cell_text, row.cells)] for row in table.rows]
    places = [row.place for row in table.rows]
    if table.columns:
        blanks = [""] * max(1, len(table.axes) - 1)
        rows.insert(0, [*blanks, *(band.text for band in table.columns)])
        places.insert(0, table.columns[0].place)
    count = max((len(row) for row in rows), default=0)
    widths = [max((len(row[number]) for row in rows if number < len(row)), default=0) for number in range(count)]
    for row, place in zip(rows, places, strict=True):
        padded = (text.ljust(width) for text, width in zip(row, widths, strict=False))
        yield " | ".join(padded).rstrip(), place


def _cell_text(cell: Words | Measure | CellWords | None) -> str:
    if isinstance(cell, CellWords):
        return cell.text
    return "-" if cell is None else option_text(cell)
