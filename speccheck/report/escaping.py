"""Text of strangers, made harmless for the place it goes to: a workbook or CSV cell, Markdown, a terminal.

A schedule comes from outside. Its text may start like a formula, hold codes that steer a terminal, or reverse the
order of letters. HTML is escaped by the template library.
"""

from __future__ import annotations

import re
from typing import Any

# Signs with which spreadsheet programs begin a formula, and their full-width forms, which some of them take as well.
_FORMULA_SIGNS = tuple("=+-@\t\r\n＝＋－＠")

# Control codes (C0, C1), lone surrogates, and marks that reverse or hide text: none belongs in a line of a report.
_CONTROLS = re.compile(
    "[\x00-\x1f\x7f-\x9f\u2028\u2029\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069\ufeff\ud800-\udfff\ufffe\uffff]"
)

_SURROGATES = re.compile("[\ud800-\udfff]")

_MARKDOWN = re.compile(r"([\\`*_{}\[\]<>|~&])")
_ENTITIES = {"<": "&lt;", ">": "&gt;", "&": "&amp;"}
_LINE_START = re.compile(r"^(\s*)(?:([-+#=>:])|(\d+)([.)])(?=\s|$))")


def plain(text: str) -> str:
    """Return `text` in one line: each control code and direction mark is one space, lengths stay the same."""
    return _CONTROLS.sub(" ", text)


def encodable(value: Any) -> Any:
    """Return plain nested values with each lone surrogate, which no file can hold, made the replacement character."""
    if isinstance(value, str):
        return _SURROGATES.sub("\ufffd", value)
    if isinstance(value, dict):
        return {name: encodable(part) for name, part in value.items()}
    return [encodable(part) for part in value] if isinstance(value, list) else value


def starts_like_formula(text: str) -> bool:
    """Tell whether a spreadsheet program could take `text` for a formula."""
    return text.startswith(_FORMULA_SIGNS) or text.lstrip().startswith(_FORMULA_SIGNS)


def comma_separated_safe(text: str) -> str:
    """Return `text` for a CSV cell: an apostrophe goes before what could be a formula.

    A CSV file has no cell types, so a leading apostrophe is the only way to say "text".
    """
    shown = plain(text)
    return f"'{shown}" if starts_like_formula(shown) else shown


def markdown_safe(text: str) -> str:
    """Return `text` for a line or a table cell of Markdown: shown as written, in one line, nothing of it a mark-up."""
    escaped = _MARKDOWN.sub(lambda found: _ENTITIES.get(found[1], f"\\{found[1]}"), plain(text).strip())
    return _LINE_START.sub(_escape_start, escaped)


def _escape_start(found: re.Match[str]) -> str:
    space, sign, number, stop = found.groups()
    return f"{space}\\{sign}" if sign else f"{space}{number}\\{stop}"
