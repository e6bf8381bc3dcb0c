"""Parts of clauses, headers, definitions and tables: from the parser's tree to the syntax tree."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from speccheck.language.diagnostics import Place
from speccheck.language.syntax.builder import is_node, node, token
from speccheck.language.syntax.conditions import build_condition
from speccheck.language.syntax.tree import (
    ConditionPart,
    EitherPart,
    ExamplePart,
    InferredPart,
    Part,
    SensiblePart,
    SourcePart,
    TextPart,
    Words,
)

if TYPE_CHECKING:
    from lark import Token

    from speccheck.language.syntax.builder import Builder, Node

CONDITION_PARTS = {
    "where": "where",
    "shall": "shall",
    "should": "should",
    "except_": "except",
    "stocked": "stocked",
    "beside_where": "beside where",
    "shall_total": "shall total",
}


def build_part(builder: Builder, tree: Node) -> Part:
    """Return one part of a clause or of a header."""
    place = builder.place(tree)
    if tree.data in CONDITION_PARTS:
        condition = build_condition(builder, node(tree.children[0]))
        because = builder.string(token(tree.children[1])) if len(tree.children) > 1 else None
        return ConditionPart(CONDITION_PARTS[tree.data], condition, because, place)
    if tree.data == "source":
        confidence = node(tree.children[1]).data.replace("_", " ") if len(tree.children) > 1 else ""
        return SourcePart(
            builder.string(token(tree.children[0])), confidence.replace("computed here", "computed"), place
        )
    if tree.data == "example":
        return _example(builder, tree)
    if tree.data in ("either", "family"):
        return _either(builder, tree)
    if tree.data in ("sensible", "sensible_without_unit"):
        return _sensible(builder, tree)
    if tree.data == "inferred":
        return _inferred(builder, tree)
    if tree.data in ("proposed", "not_proposed"):
        return TextPart(tree.data.replace("_", " "), (), place)
    if tree.data == "dated_within":
        age = builder.string(token(tree.children[0]))
        return TextPart("dated within", (Words(" ".join(age.text.split()), age.place),), place)
    words = tuple(builder.phrase(child) if is_node(child) else builder.string(token(child)) for child in tree.children)
    return TextPart(tree.data.replace("_", " "), words, place)


def _either(builder: Builder, tree: Node) -> EitherPart:
    words = tuple(builder.string(token(child)) for child in tree.children if not is_node(child))
    values = tuple(builder.phrase(node(child)) for child in tree.children if is_node(child))
    return EitherPart(words, values, tree.data == "family", builder.place(tree))


def _sensible(builder: Builder, tree: Node) -> SensiblePart:
    """Return a sensible range, its ends put into one text as `quantities` reads them, or a list of values."""
    range_, *names = map(node, tree.children)
    where, *values = map(builder.phrase, names) if names else (None,)
    place, named = builder.place(tree), tuple(filter(None, values))
    bare = tree.data == "sensible_without_unit"
    if range_.data in _RANGES:
        text = _RANGES[range_.data].format(*(str(token(child)).strip() for child in range_.children))
        return SensiblePart(Words(text, builder.place(range_)), where, named, without_unit=bare, place=place)
    options = tuple(_sensible_value(builder, node(child)) for child in range_.children)
    denied = range_.data == "sensible_not"
    text = ("not " if denied else "") + ", ".join(option.text for option in options)
    return SensiblePart(Words(text, builder.place(range_)), where, named, options, denied, bare, place)


_RANGES = {"sensible_between": "{} to {}", "sensible_up_to": "up to {}", "sensible_from": "{} and over"}


def _sensible_value(builder: Builder, tree: Node) -> Words:
    """Return a value of a list, or one of the two of a yes-or-no term."""
    if tree.data in ("value_yes", "value_no"):
        return Words(tree.data.removeprefix("value_"), builder.place(tree))
    return builder.phrase(tree)


def _inferred(builder: Builder, tree: Node) -> InferredPart:
    """Return a value that is inferred, and the terms that it is inferred from."""
    value, where, *values = map(node, tree.children)
    given = node(values.pop().children[0]) if values[-1].data == "inferred_given" else None
    return InferredPart(
        builder.phrase(value),
        builder.phrase(where),
        tuple(map(builder.phrase, values)),
        builder.phrase(given) if given is not None else None,
        builder.place(tree),
    )


def _example(builder: Builder, tree: Node) -> ExamplePart:
    title, verdict, data = token(tree.children[0]), node(tree.children[1]), token(tree.children[2])
    expected = verdict.data.replace("_", " ")
    return ExamplePart(builder.string(title), expected, tuple(_example_data(builder, data)), builder.place(tree))


def _example_data(builder: Builder, whole: Token) -> list[Words]:
    """Return the stated values of an example, each with its own place."""
    found: list[Words] = []
    line, line_start = whole.line or 0, -(whole.column or 1) + 1
    for match in re.finditer(r"[^,\n]+|\n", str(whole)):
        if match.group() == "\n":
            line, line_start = line + 1, match.end()
            continue
        text = match.group().strip()
        if text:
            start = match.start() + len(match.group()) - len(match.group().lstrip())
            found.append(Words(text, Place(builder.source.name, line, start - line_start + 1, len(text))))
    return found
