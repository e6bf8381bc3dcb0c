"""What could stand at a place where the parser stopped: its names for tokens in the words of a writer."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from speccheck.language.syntax.layout import BEGINNINGS

if TYPE_CHECKING:
    from lark import Lark

# What the parser's own names stand for; those with nothing behind them are not worth naming.
SORTS = {
    "WORD": "a name",
    "STRING": "words in quotation marks",
    "QUANTITY": "a quantity",
    "UNIT": "a unit",
    "CLAUSE_NAME": "the number of the clause",
    "AXES": "the terms that the table is read by",
    "ROW": "a row of the table",
    "EXAMPLE_DATA": "the data of the example",
    "SYSTEM": "`inch-pound` or `metric`",
    "UNLIMITED": "`unlimited`",
    "UNCHECKED": "`document`, `act on site`, `qualification`, `order of work`, `left to the manufacturer`, "
    "`other section` or `vague`",
    "COMMA": "`,`",
    "LPAR": "`(`",
    "RPAR": "`)`",
    "AT": "`at least` or `at most`",
    "CANNOT": "`cannot tell`",
    "DOES": "`does not apply`",
    "LESS": "`less than`",
    "MORE": "`more than`",
    "ONE": "`one of`",
    "DIVIDED": "`divided by`",
    "LARGER": "`larger of`",
    "SMALLER": "`smaller of`",
    "BUILDS": "`builds on`",
    "LEAVES": "`leaves out`",
    "TAKEN": "`taken from`",
    "VERIFIED": "`verified against`",
    "LETS": "`lets nominal metric stand for inch`",
    "EQUAL": "`equal to`",
    "YES": "`yes or no`",
    "SECOND": "`second hand`",
    "COMMON": "`common practice`",
    **dict.fromkeys(("ARE", "BE", "INCLUDES", "EXCLUDES"), ""),
}
MOST_NAMED = 8


def expectation(parser: Lark, accepted: Iterable[str], *, at_line_start: bool) -> str:
    """Return the help line: what could stand at the place of the error; in mid-line no words that begin parts."""
    words = {_in_words(parser, name) for name in accepted} - {""}
    if not at_line_start:
        words = words - {f"`{word}`" for word in BEGINNINGS} or words
    named = sorted(words, key=lambda word: (word[0] == "`", word))
    if not named:
        return "leave out what stands here, or put it in quotation marks"
    tail = ", ..." if len(named) > MOST_NAMED else ""
    return "write " + (" or ".join(named) if len(named) < 3 else f"one of: {', '.join(named[:MOST_NAMED])}") + tail


def keywords(parser: Lark) -> set[str]:
    """Return the words of the language, as they are quoted in a message."""
    return {f"`{terminal.pattern.value}`" for terminal in parser.terminals if terminal.pattern.type == "str"}


def _in_words(parser: Lark, name: str) -> str:
    if name in SORTS:
        return SORTS[name]
    pattern = next((terminal.pattern for terminal in parser.terminals if terminal.name == name), None)
    return f"`{pattern.value}`" if pattern is not None and pattern.type == "str" else ""
