"""From the parser's tree to the syntax tree of `speccheck.language.syntax.tree`: files, items and terms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

from speccheck.language.messages.parsing import MARK_BEFORE_VALUE
from speccheck.language.syntax.builder import node, nodes, only_node, token
from speccheck.language.syntax.conditions import build_amount, build_condition, build_measure
from speccheck.language.syntax.layout import item_name
from speccheck.language.syntax.parts import build_part
from speccheck.language.syntax.tables import build_table
from speccheck.language.syntax.tree import (
    AdditionSyntax,
    AmountSyntax,
    AssumptionSyntax,
    ChoiceSyntax,
    ClauseSyntax,
    ConditionSyntax,
    DefinitionSyntax,
    DocumentSyntax,
    FileSyntax,
    Heading,
    Item,
    Part,
    RelationSyntax,
    RulesetSyntax,
    ScopeSyntax,
    StatementSyntax,
    TermSyntax,
    TextPart,
    UncheckedSyntax,
    VocabularySyntax,
    Words,
)

if TYPE_CHECKING:
    from speccheck.language.syntax.builder import Builder, Node

ITEMS = (
    "definition",
    "assumption",
    "scope",
    "assertion",
    "table",
    "clause",
    "document",
    "relation",
    "unchecked",
    "heading",
    "term",
    "addition",
)
FORMS = {"one_choice": "one of", "any_choice": "any of", "yes_or_no": "yes or no"}


def build_file(builder: Builder, start: Node) -> FileSyntax:
    """Return the syntax of a whole file."""
    tree = only_node(start)
    name, place = builder.string(token(tree.children[0])), builder.place(tree)
    children = nodes(tree.children)
    items = [child for child in children if child.data in ITEMS]
    parts = _header(builder, [child for child in children if child.data not in ITEMS])
    if tree.data == "vocabulary":
        return VocabularySyntax(name, parts, tuple(_entry(builder, item) for item in items), place)
    starts = [item.meta.line for item in items]
    ends = [*starts, len(builder.source.lines) + 1][1:]
    built = tuple(_item(builder, item, range(*lines)) for item, *lines in zip(items, starts, ends, strict=True))
    return RulesetSyntax(name, parts, built, place, _names_left_out(builder))


def _header(builder: Builder, trees: Sequence[Node]) -> tuple[Part, ...]:
    """Return the parts of a header; `edition 2021` behind `builds on` is the edition of what is built on."""
    parts: list[Part] = []
    for tree in trees:
        part, before = build_part(builder, tree), parts[-1] if parts else None
        of_base = tree.data == "edition" and token(tree.children[0]).type == "QUANTITY"
        if of_base and isinstance(part, TextPart) and isinstance(before, TextPart) and before.keyword == "builds on":
            name = before.words[0]
            parts[-1] = replace(before, words=(replace(name, text=f"{name.text} {part.words[0].text}"),))
        else:
            parts.append(part)
    return tuple(parts)


def _names_left_out(builder: Builder) -> tuple[str, ...]:
    names = (item_name(builder.source.lines[line - 1]) for line in sorted(builder.left_out))
    return tuple(name for name in names if name)


def _item(builder: Builder, tree: Node, lines: range) -> Item:
    if tree.data == "definition":
        return _definition(builder, tree)
    if tree.data == "assumption":
        return _assumption(builder, tree)
    if tree.data == "scope":
        subject, *scope_parts = (node(child) for child in tree.children)
        written = tuple(build_part(builder, part) for part in scope_parts)
        return ScopeSyntax(builder.phrase(subject), written, builder.place(tree))
    if tree.data == "assertion":
        return _statement(builder, tree)
    if tree.data == "table":
        return build_table(builder, tree)
    if tree.data == "unchecked":
        return _unchecked(builder, tree)
    name, title = (builder.string(token(tree.children[index])) for index in (0, 1))
    parts = tuple(build_part(builder, node(child)) for child in tree.children[2:])
    if tree.data == "document":
        return DocumentSyntax(name, title, parts, builder.place(tree))
    if tree.data == "relation":
        return RelationSyntax(name, title, parts, builder.place(tree))
    whole = builder.left_out.isdisjoint(lines)
    return ClauseSyntax(name, title, parts, builder.place(tree), whole)


def _unchecked(builder: Builder, tree: Node) -> UncheckedSyntax:
    name, title, reason = (builder.string(token(child)) for child in tree.children[:3])
    words = {part.data: builder.string(token(part.children[0])) for part in nodes(tree.children[3:])}
    because, wording = words.get("unchecked_words"), words.get("unchecked_wording")
    return UncheckedSyntax(name, title, reason, because, wording, builder.place(tree))


def _definition(builder: Builder, tree: Node) -> DefinitionSyntax:
    name, *parts, meaning = (node(child) for child in tree.children)
    is_amount = meaning.data == "amount_meaning"
    inner = only_node(meaning)
    return DefinitionSyntax(
        builder.phrase(name),
        tuple(build_part(builder, part) for part in parts),
        build_amount(builder, inner) if is_amount else build_condition(builder, inner),
        is_amount,
        builder.place(tree),
    )


def _assumption(builder: Builder, tree: Node) -> AssumptionSyntax:
    name, value, *parts = (node(child) for child in tree.children)
    stated = builder.phrase(value) if value.data == "phrase" else build_measure(builder, value)
    return AssumptionSyntax(
        builder.phrase(name), stated, tuple(build_part(builder, part) for part in parts), builder.place(tree)
    )


def _statement(builder: Builder, tree: Node) -> StatementSyntax:
    title, (*parts, claim) = token(tree.children[0]), [node(child) for child in tree.children[1:]]
    form = claim.data.removeprefix("never_").replace("_", " ")
    inner = [node(child) for child in claim.children]
    if form.endswith("where"):
        of: tuple[AmountSyntax | ConditionSyntax, ...] = tuple(build_condition(builder, part) for part in inner)
    else:
        of = (*(build_amount(builder, part) for part in inner[:-1]), builder.phrase(inner[-1]))
    written = tuple(build_part(builder, part) for part in parts)
    return StatementSyntax(builder.string(title), written, form, of, builder.place(tree))


# ---- vocabularies ------------------------------------------------------------------------------------------------


def _entry(builder: Builder, tree: Node) -> Heading | TermSyntax | AdditionSyntax:
    if tree.data == "heading":
        return Heading(builder.string(token(tree.children[0])), len(tree.children) > 1, builder.place(tree))
    name, *rest = (node(child) for child in tree.children)
    form = next((FORMS[child.data] for child in rest if child.data in FORMS), "")
    listing = next((child for child in rest if child.data in ("one_choice", "any_choice")), None)
    choices = _choices(builder, listing.children) if listing is not None else ()
    parts = tuple(build_part(builder, child) for child in rest if child.data not in FORMS)
    if tree.data == "addition":
        return AdditionSyntax(builder.phrase(name), form, parts, choices, builder.place(tree))
    return TermSyntax(builder.phrase(name), form, parts, choices, builder.place(tree))


def _choices(builder: Builder, pieces: Sequence[object]) -> tuple[ChoiceSyntax, ...]:
    choices: list[ChoiceSyntax] = []
    for piece in map(node, pieces):
        if piece.data == "choice":
            choices += map(ChoiceSyntax, _choice_names(builder, only_node(piece)))
            continue
        text = builder.string(token(piece.children[0]))
        if not choices:
            builder.diagnostics.append(MARK_BEFORE_VALUE.at(text.place, builder.source, words=text.text))
        elif piece.data == "choice_also":
            choices[-1] = replace(choices[-1], also=(*choices[-1].also, text))
        elif piece.data == "choice_means":
            choices[-1] = replace(choices[-1], meaning=text)
        else:
            choices[-1] = replace(choices[-1], part_of=text)
    return tuple(choices)


def _choice_names(builder: Builder, tree: Node) -> Iterator[Words]:
    """Yield the values that some words name: those on each line are one value."""
    words = [builder.string(token(child)) for child in tree.children]
    for _, line in groupby(words, key=lambda word: word.place.line):
        first, *others = line
        last = others[-1] if others else first
        length = last.place.column + last.place.length - first.place.column
        place = replace(first.place, length=length)
        yield Words(" ".join(word.text for word in (first, *others)), place)
