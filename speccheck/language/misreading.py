"""What to say of text that the parser cannot read, and how to go on behind it.

The parser names its tokens for itself; nothing of that is shown. A writer sees the words that could have stood there.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.reading_files import SourceText
from speccheck.language.suggestions import nearest
from speccheck.language.syntax import Words

if TYPE_CHECKING:
    from lark import Lark
    from lark.exceptions import UnexpectedInput

ITEM_WORDS = ("clause", "define", "table", "term", "heading")
PART_WORDS = (
    *ITEM_WORDS,
    *("edition", "speaks", "builds", "units", "tolerance", "lets", "covers", "leaves", "caution", "note", "source"),
    *("wording", "reason", "subject", "replaces", "where", "shall", "should", "except", "example", "by", "as", "equal"),
    *("also", "means", "one", "any", "in", "yes", "none", "computed", "ruleset", "vocabulary"),
)
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
    "COMMA": "`,`",
    "LPAR": "`(`",
    "RPAR": "`)`",
}
_ITEM_LINE = re.compile(rf"[ \t]*(?:{'|'.join(ITEM_WORDS)})\b")
_PART_LINE = re.compile(rf"[ \t]*(?:{'|'.join(PART_WORDS)})\b")
MOST_NAMED = 8


def describe_error(parser: Lark, problem: UnexpectedInput, source: SourceText, text: str) -> tuple[Diagnostic, int]:
    """Return what to say of a parser's error, and the number of the line that is to be set aside."""
    at_end = problem.line < 1 or problem.line > len(source.lines)
    line = _last_line(text) if at_end else problem.line
    quote = _open_quote(source, text, line)
    if quote is not None:
        message = "the quotation mark opened here is not closed"
        return source.error(
            "L102", message, quote, "close it with a second mark; write inch marks as ″ or in"
        ), quote.line
    misspelt = _misspelt_keyword(source, text, line)
    if misspelt is not None:
        return misspelt, misspelt.place.line
    help = _expectation(parser, problem)
    if at_end:
        place = Place(source.name, line, len(source.lines[line - 1].rstrip()) + 1, 1)
        return source.error("L103", "the file ends before this is complete", place, help), line
    word = _offending(source.lines[line - 1], problem.column)
    place = Place(source.name, line, problem.column, max(len(word), 1))
    return source.error("L101", f"`{word}` cannot stand here", place, help), line


def describe_cell_error(source: SourceText, code: str, what: str, piece: Words) -> Diagnostic:
    """Return what to say of a piece of a table that cannot be read."""
    if not piece.text:
        return source.error(code, f"a {what} is empty", piece.place, "write `-` where the table covers nothing")
    helps = {
        "L404": "write `A to B`, `A to under B`, `over A to B`, `under B`, `A and over`, or values parted by commas",
        "L405": "write a quantity, a value of the term that the table is of, or `-` for not covered",
    }
    return source.error(code, f"`{piece.text}` is not a {what}", piece.place, helps[code])


def set_aside(text: str, line: int) -> str | None:
    """Return the text with the part around `line` blanked, lines kept; None where that would leave nothing to read.

    The part goes from its own first word to the next part. Where an item's first line is wrong, the whole item goes.
    """
    lines = text.split("\n")
    starts = [number for number, row in enumerate(lines, start=1) if _PART_LINE.match(row)]
    first = max((number for number in starts if number <= line), default=0)
    if first == 0 or re.match(r"[ \t]*(?:ruleset|vocabulary)\b", lines[first - 1]):
        return None
    whole_item = bool(_ITEM_LINE.match(lines[first - 1]))
    ends = [n for n in starts if n > line and (not whole_item or _ITEM_LINE.match(lines[n - 1]))]
    last = min(ends, default=len(lines) + 1)
    blanked = [*lines[: first - 1], *[""] * (last - first), *lines[last - 1 :]]
    return "\n".join(blanked)


def _last_line(text: str) -> int:
    return max(len(text.rstrip().split("\n")), 1)


def _offending(line: str, column: int) -> str:
    """Return the word or mark that begins at `column`."""
    match = re.match(r'"[^"\n]*"?|[\w.\-/½¼¾°%]+|\S', line[column - 1 :])
    return match.group() if match else line[column - 1 : column].strip() or "the end of the line"


def _expectation(parser: Lark, problem: UnexpectedInput) -> str:
    """Return the help line: what could stand at the place of the error."""
    names = getattr(problem, "accepts", None) or getattr(problem, "expected", None) or getattr(problem, "allowed", None)
    words = sorted({_in_words(parser, name) for name in names or ()} - {""}, key=lambda word: (word[0] == "`", word))
    if not words:
        return "see the guide to the clause language"
    named = words[:MOST_NAMED]
    tail = ", ..." if len(words) > MOST_NAMED else ""
    return "write " + (" or ".join(named) if len(named) < 3 else f"one of: {', '.join(named)}") + tail


def _in_words(parser: Lark, name: str) -> str:
    if name in SORTS:
        return SORTS[name]
    if name in ("$END", "COMMENT") or name.startswith("__IGNORE"):
        return ""
    pattern = next((terminal.pattern for terminal in parser.terminals if terminal.name == name), None)
    return f"`{pattern.value}`" if pattern is not None and pattern.type == "str" else ""


def _open_quote(source: SourceText, text: str, line: int) -> Place | None:
    """Return the place of a quotation mark that is not closed before the next part begins, at or above `line`."""
    lines = text.split("\n")
    for number in range(min(line, len(lines)), max(line - 40, 0), -1):
        row = lines[number - 1]
        if not _PART_LINE.match(row) or "|" in row or re.match(r"[ \t]*example_data", row):
            continue
        end = next((n for n in range(number + 1, len(lines) + 1) if _PART_LINE.match(lines[n - 1])), len(lines) + 1)
        part = "\n".join(lines[number - 1 : end - 1])
        marks = [mark.start() for mark in re.finditer(r'(?<![\d½¼¾⅛⅜⅝⅞])"|(?<=[\d])"(?=\w)|"(?=\s*$)', part)]
        if len(marks) == 1 and part.count('"') == 1:
            before = part[: marks[0]]
            column = marks[0] - (before.rfind("\n") + 1) + 1
            row_number = number + before.count("\n")
            return Place(source.name, row_number, column, len(source.lines[row_number - 1]) - column + 1)
    return None


def _misspelt_keyword(source: SourceText, text: str, line: int) -> Diagnostic | None:
    """Return a diagnostic where the line, or one just above it, begins with a word that is nearly a keyword."""
    lines = text.split("\n")
    for number in (line, line - 1, line + 1):
        match = re.match(r"[ \t]*([A-Za-z]+)\b", lines[number - 1]) if 0 < number <= len(lines) else None
        if match is None or match.group(1) in PART_WORDS or len(match.group(1)) < 4:
            continue
        close = nearest(match.group(1), PART_WORDS)
        if close is not None and len(close) > 3 and abs(len(close) - len(match.group(1))) <= 2:
            place = Place(source.name, number, match.start(1) + 1, len(match.group(1)))
            return source.error("L101", f"`{match.group(1)}` cannot begin a part", place, f"did you mean `{close}`?")
    return None
