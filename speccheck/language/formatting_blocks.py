"""Files written out in blocks, each with the place where it began: headings of items, parts, rows, choices.

A block is what a comment can stand before or behind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import assert_never

from speccheck.language.diagnostics import Place
from speccheck.language.formatting_tables import by_line, table_rows
from speccheck.language.formatting_words import (
    amount_pieces,
    claim_pieces,
    condition_pieces,
    filled,
    listed,
    name_text,
    option_text,
    short_in_one,
    string_pieces,
    string_text,
)
from speccheck.language.resolving_vocabularies import KIND_WORDS
from speccheck.language.syntax import (
    AmountSyntax,
    AssumptionSyntax,
    ChoiceSyntax,
    ClauseSyntax,
    ConditionPart,
    DefinitionSyntax,
    ExamplePart,
    FileSyntax,
    Heading,
    Item,
    Part,
    RulesetSyntax,
    ScopeSyntax,
    SourcePart,
    StatementSyntax,
    TableSyntax,
    TermSyntax,
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
NAMED = ("speaks", "subject", "cheapest first", "property of", "stated at", "dates")
VERBATIM = ("units", "tolerance", "shown in", "none is")


@dataclass(frozen=True, slots=True)
class Block:
    """Lines that belong together, where they began, and whether they open an item (a blank line goes before).

    Where `keyword` is not empty, the block began at the last such word before `place`.
    """

    lines: tuple[str, ...]
    place: Place
    keyword: str = ""
    opens_item: bool = False


def blocks_of(file: FileSyntax) -> Iterator[Block]:
    """Yield the blocks of a file in order."""
    sort = "ruleset" if isinstance(file, RulesetSyntax) else "vocabulary"
    yield Block(tuple(filled(f"{sort} ", string_pieces(file.name.text), len(INDENT))), file.place)
    yield from _parts(file.parts, CLAUSE_COLUMN)
    for item in file.items:
        yield from _item(item)


def _item(item: Item | Heading | TermSyntax) -> Iterator[Block]:
    match item:
        case Heading(text, proposed, place):
            pieces = [*string_pieces(text.text), *(["proposed"] if proposed else [])]
            yield Block(tuple(filled("heading ", pieces, 8)), place, opens_item=True)
        case ClauseSyntax(name, title, parts, place):
            head = filled(f"clause {name.text} ", string_pieces(title.text), 2 * len(INDENT))
            yield Block(tuple(head), place, opens_item=True)
            yield from _parts(parts, CLAUSE_COLUMN)
        case DefinitionSyntax():
            yield from _definition(item)
        case AssumptionSyntax(name, value, parts, place):
            yield Block((f"assume {name_text(name.text)} is {option_text(value)}",), place, opens_item=True)
            yield from _parts(parts, _own_column(parts))
        case ScopeSyntax(subject, parts, place):
            yield Block((f"scope {name_text(subject.text)}",), place, opens_item=True)
            yield from _parts(parts, CLAUSE_COLUMN)
        case StatementSyntax():
            yield from _statement(item)
        case TableSyntax():
            yield from _table(item)
        case TermSyntax():
            yield from _term(item)
        case _:
            assert_never(item)


def _definition(item: DefinitionSyntax) -> Iterator[Block]:
    yield Block((f"define {name_text(item.name.text)}",), item.place, opens_item=True)
    keyword = "equal to" if item.is_amount else "as"
    column = _own_column(item.parts, len(keyword))
    yield from _parts(item.parts, column)
    yield Block(tuple(_after_keyword(keyword, _meaning(item), column)), item.meaning.place, keyword.split()[0])


def _meaning(item: DefinitionSyntax) -> list[str]:
    if isinstance(item.meaning, AmountSyntax):
        return amount_pieces(item.meaning)
    return condition_pieces(item.meaning, "is")


def _statement(item: StatementSyntax) -> Iterator[Block]:
    head = filled("statement ", string_pieces(item.title.text), 2 * len(INDENT))
    yield Block(tuple(head), item.place, opens_item=True)
    yield from _parts(item.parts, CLAUSE_COLUMN)
    yield Block(tuple(_after_keyword("that", claim_pieces(item), CLAUSE_COLUMN)), item.of[0].place, "that")


def _table(item: TableSyntax) -> Iterator[Block]:
    head = f"table {name_text(item.name.text)}"
    if item.unit is not None:
        head += f" in {item.unit.text}"
    if item.of is not None:
        head += f" of {name_text(item.of.text)}"
    yield Block((head,), item.place, opens_item=True)
    column = _own_column(item.parts, len("by"))
    yield from _parts(item.parts, column)
    yield Block((INDENT + by_line(item, column),), item.axes[0].place, "by")
    for text, place in table_rows(item):
        yield Block((INDENT + text,), _line_start(place))


def _line_start(place: Place) -> Place:
    return Place(place.file, place.line, 1 if place.line else 0)


# ---- terms -------------------------------------------------------------------------------------------------------


def _term(item: TermSyntax) -> Iterator[Block]:
    yield Block((f"term {_name_and_kind(item)}",), item.place, opens_item=True)
    yield from _parts(item.parts, TERM_COLUMN)
    if not item.choices:
        return
    if not any(choice.also or choice.meaning or choice.part_of for choice in item.choices):
        names = listed(choice.name.text for choice in item.choices)
        start = f"{INDENT}{item.form} "
        yield Block(tuple(filled(start, names, len(start))), item.choices[0].name.place, item.form.split()[0])
        return
    yield Block((INDENT + item.form,), item.choices[0].name.place, item.form.split()[0])
    column = 2 * len(INDENT) + max(len(choice.name.text) for choice in item.choices) + 2
    for number, choice in enumerate(item.choices, start=1):
        yield Block(tuple(_choice(choice, column, number == len(item.choices))), choice.name.place)


def _name_and_kind(item: TermSyntax) -> str:
    """Return the name of a term and, two columns on, its kind."""
    if item.form:
        return name_text(item.name.text) + ("  yes or no" if item.form == "yes or no" else "")
    words = item.name.text.split(" ")
    for start in range(1, len(words)):
        kind = " ".join(words[start:])
        if kind in KIND_WORDS:
            return f"{name_text(' '.join(words[:start]))}  {name_text(kind)}"
    return name_text(item.name.text)


def _choice(choice: ChoiceSyntax, column: int, last: bool) -> list[str]:
    """Return one choice; without more behind it a comma keeps it apart from the name on the next line."""
    start = 2 * INDENT + choice.name.text
    lines: list[str] = []
    if choice.also:
        pieces = listed(string_text(words.text) for words in choice.also)
        lines += filled(f"{start.ljust(column)}also ", pieces, column + 5)
    if choice.meaning:
        front = " " * column if lines else start.ljust(column)
        lines += filled(f"{front}means ", string_pieces(choice.meaning.text), column + 6)
    if choice.part_of:
        front = " " * column if lines else start.ljust(column)
        lines.append(f"{front}part of {string_text(choice.part_of.text)}")
    return lines or [start if last else f"{start},"]


# ---- parts -------------------------------------------------------------------------------------------------------


def _own_column(parts: Sequence[Part], least: int = 0) -> int:
    """Return the width of the longest keyword of a definition, an assumption or a table."""
    return max([least, *(len(_keyword(part)) for part in parts)])


def _parts(parts: Sequence[Part], column: int) -> Iterator[Block]:
    for part in parts:
        lines = _after_keyword(_keyword(part), _pieces(part), column)
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
        case _:
            assert_never(part)


def _pieces(part: Part) -> list[str]:
    """Return what stands behind the keyword of a part."""
    match part:
        case SourcePart(text, confidence):
            return [*string_pieces(text.text), *confidence.split()]
        case ExamplePart(title, expected):
            return [*string_pieces(title.text), expected]
        case ConditionPart("except", condition, because):
            pieces = condition_pieces(condition, "is")
            reason = short_in_one(["because", *string_pieces(because.text)]) if because else []
            return [f"where {pieces[0]}", *pieces[1:], *reason]
        case ConditionPart(keyword, condition):
            return condition_pieces(condition, "be" if keyword in ("shall", "should") else "is")
        case TextPart("replaces", words):
            return [words[0].text, *(f"of {string_text(word.text)}" for word in words[1:])]
        case TextPart(keyword, words):
            return _texts(keyword, words)
        case _:
            assert_never(part)


def _texts(keyword: str, words: Sequence[Words]) -> list[str]:
    if keyword in VERBATIM:
        return listed(word.text for word in words)
    if keyword in NAMED:
        return listed(name_text(word.text) for word in words)
    return string_pieces(words[0].text) if len(words) == 1 else listed(string_text(word.text) for word in words)


def _after_keyword(keyword: str, pieces: Sequence[str], column: int) -> list[str]:
    """Return a part on as many lines as it needs, all but the first hanging behind the keyword's column."""
    if not pieces:
        return [INDENT + keyword]
    hanging = len(INDENT) + column + 1
    return filled(f"{INDENT}{keyword.ljust(column)} ", pieces, hanging)
