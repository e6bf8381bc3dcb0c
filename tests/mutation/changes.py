"""The mistakes that can be made in a source text: one small change each."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from typing import NamedTuple

_COMPARISONS: dict[type[ast.cmpop], str] = {
    ast.Lt: "<=",
    ast.LtE: "<",
    ast.Gt: ">=",
    ast.GtE: ">",
    ast.Eq: "!=",
    ast.NotEq: "==",
    ast.Is: "is not",
    ast.IsNot: "is",
    ast.In: "not in",
    ast.NotIn: "in",
}
_OPERATIONS: dict[type[ast.operator], str] = {
    ast.Add: "-",
    ast.Sub: "+",
    ast.Mult: "/",
    ast.Div: "*",
    ast.FloorDiv: "/",
}


class Mistake(NamedTuple):
    """A mistake: the line that it is in (from 1), what it does, and the whole text with it."""

    line: int
    what: str
    text: str


def mistakes(source: str) -> Iterator[Mistake]:
    """Yield the mistakes of a module in the order of its text; annotations, docstrings and messages are left alone."""
    tree = ast.parse(source)
    ignored = _ignored(tree)
    data = source.encode()  # the parser counts columns in bytes
    starts = _line_starts(data)
    for node in ast.walk(tree):
        if id(node) in ignored:
            continue
        for start, end, new in _changes(node, data, starts):
            old = data[start:end].decode()
            if old != new:
                yield Mistake(
                    node.lineno, f"`{old[:60]}` -> `{new[:60]}`", (data[:start] + new.encode() + data[end:]).decode()
                )  # type: ignore[attr-defined]


def _changes(node: ast.AST, source: bytes, starts: list[int]) -> Iterator[tuple[int, int, str]]:
    """Yield where a node can be changed, as bytes from and to, and what would stand there."""
    match node:
        case ast.Compare(left, [operator], [right]) if type(operator) in _COMPARISONS:
            first, last = _span(left, starts)[1], _span(right, starts)[0]
            if not {*source[first:last]} & {*b"()#"}:
                yield first, last, f" {_COMPARISONS[type(operator)]} "
        case ast.BinOp(left, operation, right) if type(operation) in _OPERATIONS:
            first, last = _span(left, starts)[1], _span(right, starts)[0]
            if source[first:last].strip() in (b"+", b"-", b"*", b"/", b"//"):
                yield first, last, f" {_OPERATIONS[type(operation)]} "
        case ast.BoolOp(operation, [left, right, *_]):
            first, last = _span(left, starts)[1], _span(right, starts)[0]
            word = b"and" if isinstance(operation, ast.And) else b"or"
            if source[first:last].split() == [word]:
                yield first, last, " or " if word == b"and" else " and "
        case ast.UnaryOp(ast.Not(), operand):
            yield *_span(node, starts), f"bool({source[slice(*_span(operand, starts))].decode()})"
        case ast.Constant(value) if isinstance(value, bool):
            yield *_span(node, starts), str(not value)
        case ast.Constant(value) if isinstance(value, int | float):
            yield *_span(node, starts), f"{value + 1}"
        case ast.If(test) | ast.IfExp(test) | ast.While(test):
            inside = source[slice(*_span(test, starts))].decode()
            yield *_span(test, starts), f"not ({inside})"
        case ast.Return(value) if value is not None and not isinstance(value, ast.Constant):
            yield *_span(value, starts), "None"
        case ast.Continue() | ast.Break():
            yield *_span(node, starts), "pass"


def _ignored(tree: ast.AST) -> set[int]:
    """Return the nodes that say nothing of what the program does: annotations, texts, what only typing reads."""
    found: set[int] = set()
    for node in ast.walk(tree):
        parts: list[ast.AST] = []
        match node:
            case ast.arg(annotation=ast.AST() as annotation) | ast.AnnAssign(annotation=annotation):
                parts.append(annotation)
            case ast.FunctionDef(returns=ast.AST() as returns, decorator_list=decorators):
                parts += [returns, *decorators]
            case ast.ClassDef(decorator_list=decorators):
                parts += decorators
            case ast.Assert() | ast.Raise() | ast.JoinedStr() | ast.Import() | ast.ImportFrom():
                parts.append(node)
            case ast.If(test=ast.Name(id="TYPE_CHECKING")):
                parts.append(node)
        found |= {id(inner) for part in parts for inner in ast.walk(part)}
    return found


def _line_starts(source: bytes) -> list[int]:
    starts = [0]
    for line in source.split(b"\n"):
        starts.append(starts[-1] + len(line) + 1)
    return starts


def _span(node: ast.AST, starts: list[int]) -> tuple[int, int]:
    """Return where a node begins and ends, in bytes."""
    first = starts[node.lineno - 1] + node.col_offset  # type: ignore[attr-defined]
    return first, starts[node.end_lineno - 1] + node.end_col_offset  # type: ignore[attr-defined]
