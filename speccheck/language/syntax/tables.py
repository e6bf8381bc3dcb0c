"""Tables of the clause language: rows are taken whole by the parser and cut into bands and cells here."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from speccheck.language.diagnostics import Place
from speccheck.language.syntax.builder import is_node, nodes, only_node, token
from speccheck.language.syntax.misreading import describe_cell_error, describe_heading_error
from speccheck.language.syntax.parts import build_part
from speccheck.language.syntax.tree import BandSyntax, CellWords, Measure, TableRow, TableSyntax, Words

if TYPE_CHECKING:
    from lark import Token

    from speccheck.language.syntax.builder import Builder, Node

BAND_FORMS = {
    "band_under": "under",
    "band_up_to": "up to",
    "band_only": "only",
    "band_closed": "to",
    "band_to_under": "to under",
    "band_over_to": "over to",
    "band_between": "over to under",
    "band_and_over": "and over",
    "band_over": "over",
    "band_choices": "choices",
}

CELL_WORDS = {"cell_not_permitted": "not permitted", "cell_nothing_required": "nothing required"}


def build_table(builder: Builder, tree: Node) -> TableSyntax:
    """Return the syntax of a table; rows and cells that cannot be read leave diagnostics with the builder."""
    axes, *rows = (token(child) for child in tree.children if not is_node(child))
    name, *trees = nodes(tree.children)
    kind = {child.data: child for child in trees if child.data in ("table_unit", "table_of")}
    errors = len(builder.diagnostics)
    named_by = _axes(axes, builder.source.name)
    headings = max(1, len(named_by) - 1)
    columns, body = _headings(builder, [_cut(row, builder.source.name) for row in rows], headings)
    return TableSyntax(
        builder.phrase(name),
        builder.string(token(kind["table_unit"].children[0])) if "table_unit" in kind else None,
        builder.phrase(only_node(kind["table_of"])) if "table_of" in kind else None,
        tuple(build_part(builder, child) for child in trees if child.data not in kind),
        named_by,
        columns,
        tuple(row for pieces in body if (row := _row(builder, pieces, headings)) is not None),
        builder.place(tree),
        whole=len(builder.diagnostics) == errors,
    )


def _without_comment(text: str) -> str:
    return text.split("--", 1)[0].rstrip()


def _cut(row: Token, file: str) -> list[Words]:
    """Return the pieces of a row between its bars, each with its place."""
    pieces, column = [], row.column or 1
    for raw in _without_comment(str(row)).split("|"):
        text = raw.strip()
        start = column + len(raw) - len(raw.lstrip())
        pieces.append(Words(text, Place(file, row.line or 0, start, max(len(text), 1))))
        column += len(raw) + 1
    return pieces


def _axes(line: Token, file: str) -> tuple[Words, ...]:
    text, column = _without_comment(str(line)), line.column or 1
    axes = []
    for raw in text.split(","):
        name = " ".join(raw.split()).strip('"')
        start = column + len(raw) - len(raw.lstrip())
        axes.append(Words(name, Place(file, line.line or 0, start, max(len(name), 1))))
        column += len(raw) + 1
    return tuple(axes)


def _headings(
    builder: Builder, cut: list[list[Words]], headings: int
) -> tuple[tuple[BandSyntax, ...], list[list[Words]]]:
    """Return the bands of the first row, where it names columns behind so many blanks, and the other rows."""
    if not cut or any(piece.text for piece in cut[0][:headings]):
        return (), cut
    bands = [_band(builder, piece) for piece in cut[0][headings:]]
    return tuple(band for band in bands if band is not None), cut[1:]


def _row(builder: Builder, pieces: list[Words], headings: int) -> TableRow | None:
    bands = [_band(builder, piece) for piece in pieces[:headings]]
    cells = tuple(_cell(builder, piece) for piece in pieces[headings:])
    whole = tuple(band for band in bands if band is not None)
    return TableRow(whole, cells, pieces[0].place) if len(whole) == len(bands) else None


def _band(builder: Builder, piece: Words) -> BandSyntax | None:
    from lark.exceptions import UnexpectedInput

    try:
        tree = builder.parser.parse(piece.text, start="band")
    except UnexpectedInput:
        builder.diagnostics.append(describe_heading_error(builder.source, piece))
        return None
    values = tuple(
        _name(child, piece) if is_node(child) else Measure(str(child), False, _inside(piece, token(child)))
        for child in tree.children
    )
    text = " ".join(piece.text.split())
    if tree.data == "band_choices":
        text = re.sub(" ?, ?", ", ", text)
    return BandSyntax(BAND_FORMS[tree.data], values, text, piece.place)


def _cell(builder: Builder, piece: Words) -> Words | Measure | CellWords | None:
    from lark.exceptions import UnexpectedInput

    try:
        tree = builder.parser.parse(piece.text, start="cell")
    except UnexpectedInput:
        builder.diagnostics.append(describe_cell_error(builder.source, piece))
        return None
    if tree.data == "cell_empty":
        return None
    if tree.data in CELL_WORDS:
        return CellWords(CELL_WORDS[tree.data], piece.place)
    if tree.data == "cell_quantity":
        return Measure(piece.text, False, piece.place)
    return _name(only_node(tree), piece)


def _name(tree: Node, piece: Words) -> Words:
    words = [str(child).strip('"') for child in tree.children]
    return Words(" ".join(words), _inside(piece, token(tree.children[0])))


def _inside(piece: Words, word: Token) -> Place:
    return Place(piece.place.file, piece.place.line, piece.place.column + (word.column or 1) - 1, len(word))
