"""Files written out in blocks, each with the place where it began: headings of items, parts, rows, choices.

A block is what a comment can stand before or behind.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from speccheck.language.diagnostics import Place
from speccheck.language.format.parts import (
    CLAUSE_COLUMN,
    INDENT,
    TERM_COLUMN,
    Block,
    after_keyword,
    by_line,
    own_column,
    parts_of,
    table_rows,
)
from speccheck.language.format.words import (
    amount_pieces,
    claim_pieces,
    condition_pieces,
    filled,
    listed,
    name_text,
    option_text,
    string_pieces,
    string_text,
)
from speccheck.language.resolve.vocabularies import KIND_WORDS
from speccheck.language.syntax.tree import (
    AdditionSyntax,
    AmountSyntax,
    AssumptionSyntax,
    ChoiceSyntax,
    ClauseSyntax,
    DefinitionSyntax,
    DocumentSyntax,
    FileSyntax,
    Heading,
    Item,
    RelationSyntax,
    RulesetSyntax,
    ScopeSyntax,
    StatementSyntax,
    TableSyntax,
    TermSyntax,
    UncheckedSyntax,
)


def blocks_of(file: FileSyntax) -> Iterator[Block]:
    """Yield the blocks of a file in order."""
    sort = "ruleset" if isinstance(file, RulesetSyntax) else "vocabulary"
    yield Block(tuple(filled(f"{sort} ", string_pieces(file.name.text), len(INDENT))), file.place)
    yield from parts_of(file.parts, CLAUSE_COLUMN)
    for item in file.items:
        yield from _item(item)


def _item(item: Item | Heading | TermSyntax | AdditionSyntax) -> Iterator[Block]:
    match item:
        case Heading(text, proposed, place):
            pieces = [*string_pieces(text.text), *(["proposed"] if proposed else [])]
            yield Block(tuple(filled("heading ", pieces, 8)), place, opens_item=True)
        case ClauseSyntax(name, title, parts, place):
            head = filled(f"clause {name.text} ", string_pieces(title.text), 2 * len(INDENT))
            yield Block(tuple(head), place, opens_item=True)
            yield from parts_of(parts, CLAUSE_COLUMN)
        case DefinitionSyntax():
            yield from _definition(item)
        case AssumptionSyntax(name, value, parts, place):
            pieces = string_pieces(value.text) if option_text(value).startswith('"') else [option_text(value)]
            head = filled(f"assume {name_text(name.text)} is ", pieces, 2 * len(INDENT))
            yield Block(tuple(head), place, opens_item=True)
            yield from parts_of(parts, own_column(parts))
        case ScopeSyntax(subject, parts, place):
            yield Block((f"scope {name_text(subject.text)}",), place, opens_item=True)
            yield from parts_of(parts, CLAUSE_COLUMN)
        case StatementSyntax():
            yield from _statement(item)
        case TableSyntax():
            yield from _table(item)
        case TermSyntax():
            yield Block((f"term {_name_and_kind(item)}",), item.place, opens_item=True)
            yield from _of_term(item)
        case AdditionSyntax(name, _, _, _, place):
            yield Block((f"add to {name_text(name.text)}",), place, opens_item=True)
            yield from _of_term(item)
        case DocumentSyntax(name, title, parts, place) | RelationSyntax(name, title, parts, place):
            word = "document" if isinstance(item, DocumentSyntax) else "relation"
            head = filled(f"{word} {name.text} ", string_pieces(title.text), 2 * len(INDENT))
            yield Block(tuple(head), place, opens_item=True)
            yield from parts_of(parts, CLAUSE_COLUMN)
        case UncheckedSyntax():
            yield from _unchecked(item)
        case _:
            assert_never(item)


def _unchecked(item: UncheckedSyntax) -> Iterator[Block]:
    head = filled(f"not checked {item.name.text} ", string_pieces(item.title.text), 2 * len(INDENT))
    yield Block(tuple(head), item.place, opens_item=True)
    why = string_pieces(item.because.text) if item.because else []
    yield Block(tuple(after_keyword("because", [item.reason.text, *why], CLAUSE_COLUMN)), item.reason.place, "because")
    if item.wording is not None:
        lines = after_keyword("wording", string_pieces(item.wording.text), CLAUSE_COLUMN)
        yield Block(tuple(lines), item.wording.place, "wording")


def _definition(item: DefinitionSyntax) -> Iterator[Block]:
    yield Block((f"define {name_text(item.name.text)}",), item.place, opens_item=True)
    keyword = "equal to" if item.is_amount else "as"
    column = own_column(item.parts, len(keyword))
    yield from parts_of(item.parts, column)
    yield Block(tuple(after_keyword(keyword, _meaning(item), column)), item.meaning.place, keyword.split()[0])


def _meaning(item: DefinitionSyntax) -> list[str]:
    if isinstance(item.meaning, AmountSyntax):
        return amount_pieces(item.meaning)
    return condition_pieces(item.meaning, "is")


def _statement(item: StatementSyntax) -> Iterator[Block]:
    head = filled("statement ", string_pieces(item.title.text), 2 * len(INDENT))
    yield Block(tuple(head), item.place, opens_item=True)
    yield from parts_of(item.parts, CLAUSE_COLUMN)
    yield Block(tuple(after_keyword("that", claim_pieces(item), CLAUSE_COLUMN)), item.of[0].place, "that")


def _table(item: TableSyntax) -> Iterator[Block]:
    head = f"table {name_text(item.name.text)}"
    if item.unit is not None:
        head += f" in {item.unit.text}"
    if item.of is not None:
        head += f" of {name_text(item.of.text)}"
    yield Block((head,), item.place, opens_item=True)
    column = own_column(item.parts, len("by"))
    yield from parts_of(item.parts, column)
    yield Block((INDENT + by_line(item, column),), item.axes[0].place, "by")
    for text, place in table_rows(item):
        yield Block((INDENT + text,), _line_start(place))


def _line_start(place: Place) -> Place:
    return Place(place.file, place.line, 1 if place.line else 0)


# ---- terms -------------------------------------------------------------------------------------------------------


def _of_term(item: TermSyntax | AdditionSyntax) -> Iterator[Block]:
    """Yield what is said of a term, or added to it, with its values."""
    yield from parts_of(item.parts, TERM_COLUMN)
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
