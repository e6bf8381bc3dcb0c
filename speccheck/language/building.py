"""From the parser's tree to the syntax tree of `speccheck.language.syntax`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from speccheck.language.building_tables import build_table
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.reading_files import SourceText
from speccheck.language.syntax import (
    Adjustment,
    AmountSyntax,
    Calculation,
    ChoiceSyntax,
    ClauseSyntax,
    Compared,
    ConditionPart,
    ConditionSyntax,
    DefinitionSyntax,
    ExamplePart,
    FileSyntax,
    Heading,
    Including,
    Item,
    Joined,
    Measure,
    Not,
    Part,
    RulesetSyntax,
    SourcePart,
    Stated,
    TermSyntax,
    TextPart,
    VocabularySyntax,
    Words,
)
from speccheck.language.tree_nodes import is_node, node, nodes, only_node, token

if TYPE_CHECKING:
    from lark import Lark, Token

    from speccheck.language.tree_nodes import Node

RELATIONS = {
    "equal": "is",
    "not_equal": "is not",
    "at_least": "is at least",
    "at_most": "is at most",
    "less_than": "is less than",
    "more_than": "is more than",
    "between": "is between",
    "from_to_under": "is from to under",
    "over_to": "is over to",
    "one_of": "is one of",
    "not_one_of": "is not one of",
    "given": "is given",
    "not_given": "is not given",
}
OPERATIONS = {
    "plus": "plus",
    "minus": "minus",
    "times": "times",
    "divided_by": "divided by",
    "larger": "larger of",
    "smaller": "smaller of",
}
INCLUSIONS = {"include_all": "include", "include_any": "include any of", "include_none": "exclude"}
JOINTS = {"every": "and", "some": "or"}
CONDITION_PARTS = {"where": "where", "shall": "shall", "should": "should", "except_": "except"}


class TreeBuilder:
    """Builds the syntax of one file; what the parser took whole (tables) is read here and may leave diagnostics."""

    def __init__(self, source: SourceText, parser: Lark) -> None:
        self.source = source
        self.parser = parser
        self.diagnostics: list[Diagnostic] = []

    def build(self, start: Node) -> FileSyntax:
        """Return the syntax of a whole file."""
        tree = only_node(start)
        name = self.string(token(tree.children[0]))
        children = nodes(tree.children)
        if tree.data == "ruleset":
            items = [child for child in children if child.data in ("definition", "table", "clause")]
            parts = tuple(self.part(child) for child in children if child not in items)
            return RulesetSyntax(name, parts, tuple(self._item(item) for item in items), self.place(tree))
        entries = [child for child in children if child.data in ("heading", "term")]
        parts = tuple(self.part(child) for child in children if child not in entries)
        return VocabularySyntax(name, parts, tuple(self._entry(entry) for entry in entries), self.place(tree))

    # ---- places and words ------------------------------------------------------------------------

    def place(self, here: Node | Token) -> Place:
        """Return where a node begins and how far it goes on its first line."""
        meta = here.meta if is_node(here) else token(here)
        line, column = meta.line or 0, meta.column or 0
        if meta.end_line == line:
            length = (meta.end_column or column) - column
        else:
            length = len(self.source.lines[line - 1].rstrip()) - column + 1
        return Place(self.source.name, line, column, max(length, 1))

    def string(self, word: Token) -> Words:
        """Return a token as words; a string loses its marks and its line breaks."""
        text = str(word)
        if word.type == "STRING":
            text = " ".join(text[1:-1].split())
        return Words(text, self.place(word))

    def phrase(self, tree: Node) -> Words:
        """Return a name made of several words."""
        words = [self.string(token(child)).text for child in tree.children]
        return Words(" ".join(words), self.place(tree))

    # ---- items -----------------------------------------------------------------------------------

    def _item(self, tree: Node) -> Item:
        if tree.data == "definition":
            return self._definition(tree)
        if tree.data == "table":
            return build_table(self, tree)
        name, title = (self.string(token(tree.children[index])) for index in (0, 1))
        parts = tuple(self.part(node(child)) for child in tree.children[2:])
        return ClauseSyntax(name, title, parts, self.place(tree))

    def _definition(self, tree: Node) -> DefinitionSyntax:
        name, *parts, meaning = (node(child) for child in tree.children)
        is_amount = meaning.data == "amount_meaning"
        inner = only_node(meaning)
        return DefinitionSyntax(
            self.phrase(name),
            tuple(self.part(part) for part in parts),
            self.amount(inner) if is_amount else self.condition(inner),
            is_amount,
            self.place(tree),
        )

    def _entry(self, tree: Node) -> Heading | TermSyntax:
        if tree.data == "heading":
            return Heading(self.string(token(tree.children[0])), self.place(tree))
        name, *rest = (node(child) for child in tree.children)
        forms = {"one_choice": "one of", "any_choice": "any of", "yes_or_no": "yes or no"}
        form = next((forms[child.data] for child in rest if child.data in forms), "")
        choices = next((self._choices(child) for child in rest if child.data in ("one_choice", "any_choice")), ())
        parts = tuple(self.part(child) for child in rest if child.data not in forms)
        return TermSyntax(self.phrase(name), form, parts, choices, self.place(tree))

    def _choices(self, tree: Node) -> tuple[ChoiceSyntax, ...]:
        choices: list[ChoiceSyntax] = []
        for piece in map(node, tree.children):
            if piece.data == "choice":
                choices.append(ChoiceSyntax(self._choice_name(only_node(piece))))
                continue
            text = self.string(token(piece.children[0]))
            if not choices:
                self.diagnostics.append(
                    self.source.error(
                        "L101", f'`"{text.text}"` stands before any value', text.place, "name the value first"
                    )
                )
            elif piece.data == "choice_also":
                choices[-1] = ChoiceSyntax(choices[-1].name, (*choices[-1].also, text), choices[-1].meaning)
            else:
                choices[-1] = ChoiceSyntax(choices[-1].name, choices[-1].also, text)
        return tuple(choices)

    def _choice_name(self, tree: Node) -> Words:
        words = self.phrase(tree)
        if tree.meta.end_line != tree.meta.line:
            self.diagnostics.append(
                self.source.error(
                    "L101",
                    f"`{words.text}` runs over the end of its line",
                    words.place,
                    "put a comma between two values that stand on lines of their own",
                )
            )
        return words

    # ---- parts -----------------------------------------------------------------------------------

    def part(self, tree: Node) -> Part:
        """Return one part of a clause or of a header."""
        place = self.place(tree)
        if tree.data in CONDITION_PARTS:
            condition = self.condition(node(tree.children[0]))
            because = self.string(token(tree.children[1])) if len(tree.children) > 1 else None
            return ConditionPart(CONDITION_PARTS[tree.data], condition, because, place)
        if tree.data == "source":
            confidence = node(tree.children[1]).data.replace("_", " ") if len(tree.children) > 1 else ""
            return SourcePart(
                self.string(token(tree.children[0])), confidence.replace("computed here", "computed"), place
            )
        if tree.data == "example":
            return self._example(tree)
        words = tuple(self.phrase(child) if is_node(child) else self.string(token(child)) for child in tree.children)
        return TextPart(tree.data.replace("_", " "), words, place)

    def _example(self, tree: Node) -> ExamplePart:
        title, verdict, data = token(tree.children[0]), node(tree.children[1]), token(tree.children[2])
        expected = verdict.data.replace("_", " ")
        return ExamplePart(self.string(title), expected, tuple(self._example_data(data)), self.place(tree))

    def _example_data(self, whole: Token) -> list[Words]:
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
                found.append(Words(text, Place(self.source.name, line, start - line_start + 1, len(text))))
        return found

    # ---- conditions and amounts ------------------------------------------------------------------

    def condition(self, tree: Node) -> ConditionSyntax:
        """Return the syntax of a condition."""
        place = self.place(tree)
        if tree.data in JOINTS:
            return Joined(JOINTS[tree.data], tuple(self.condition(node(part)) for part in tree.children), place)
        if tree.data == "negation":
            return Not(self.condition(only_node(tree)), place)
        if tree.data == "holds":
            return Stated(self.phrase(only_node(tree)), place)
        if tree.data in INCLUSIONS:
            name, options = map(node, tree.children)
            return Including(self.phrase(name), INCLUSIONS[tree.data], self._options(options), place)
        left, predicate = map(node, tree.children)
        return Compared(self.amount(left), RELATIONS[predicate.data], self._others(predicate), place)

    def _others(self, predicate: Node) -> tuple[AmountSyntax, ...]:
        if predicate.data in ("one_of", "not_one_of"):
            return self._options(only_node(predicate))
        return tuple(self.amount(node(child)) for child in predicate.children)

    def _options(self, tree: Node) -> tuple[Words | Measure, ...]:
        return tuple(
            self.phrase(option) if option.data == "phrase" else self._measure(option)
            for option in map(node, tree.children)
        )

    def amount(self, tree: Node) -> AmountSyntax:
        """Return the syntax of an amount."""
        if tree.data in OPERATIONS:
            left, right = (self.amount(node(child)) for child in tree.children)
            return Calculation(OPERATIONS[tree.data], left, right, self.place(tree))
        if tree.data == "adjusted":
            thickness, stated, proposed, diameter = (self.amount(node(child)) for child in tree.children)
            return Adjustment(thickness, stated, proposed, diameter, self.place(tree))
        return self._measure(tree) if tree.data == "quantity" else self.phrase(only_node(tree))

    def _measure(self, tree: Node) -> Measure:
        return Measure(str(token(tree.children[0])), len(tree.children) > 1, self.place(tree))
