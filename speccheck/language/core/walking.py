"""Walking the core: the one place that knows what stands inside a node.

Readers that ask the same of every node, however deep, go through here and test for no class of their own: `atoms` are
the conditions without parts, each in its plainest form; `terms_of`, `tables_of`, `names_of` and `values_of` are what
nodes draw on; `rebuild` is a node with other parts. Each of these matches on all nodes, so that a new one shows here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import assert_never, cast

from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    AskedIf,
    CellSays,
    Clause,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
    Literal,
    Lookup,
    NamedAmount,
    NamedCondition,
    Negation,
    OneOf,
    Operation,
    OrEqual,
    Readings,
    Relation,
    Some,
    Table,
    TermValue,
    Within,
)
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import NUMBER, Term, quantity_kind
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import Quantity

Node = Amount | Condition
Atom = Comparison | Includes | Given | Holds | CellSays
"""A condition without parts; to be one of several values is to be equal to one of them."""


# ---- a node and its parts ----------------------------------------------------------------------------------------


def inner(node: Node) -> tuple[Node, ...]:
    """Return the nodes directly inside a node."""
    match node:
        case Literal() | TermValue():  # first, as most are
            return ()
        case Comparison(left, _, right) | Arithmetic(_, left, right):
            return (left, right)
        case Adjusted(thickness, stated, proposed, diameter):
            return (thickness, stated, proposed, diameter)
        case OneOf(amount) | NamedAmount(_, amount):
            return (amount,)
        case Every(parts) | Some(parts) | Readings(parts):
            return parts
        case Negation(part) | OrEqual(part):
            return (part,)
        case AskedIf(asked, condition, otherwise):
            return (asked, condition) if otherwise is None else (asked, condition, otherwise)
        case NamedCondition(_, condition):
            return (condition,)
        case Lookup() | Includes() | Given() | Holds() | CellSays():
            return ()
        case _:
            assert_never(node)


def literals_in(node: Node) -> tuple[Literal, ...]:
    """Return the stated values directly inside a node."""
    return tuple(part for part in inner(node) if isinstance(part, Literal))


def rebuild(node: Node, parts: Sequence[Node]) -> Node:
    """Return a node with other nodes inside it, in the order of `inner`; conditions joined may be more or fewer."""
    amounts, conditions = cast(Sequence[Amount], parts), cast(Sequence[Condition], parts)
    match node:
        case Comparison(_, relation, _, place):
            return Comparison(amounts[0], relation, amounts[1], place)
        case Arithmetic(operation, _, _, kind, place):
            return Arithmetic(operation, amounts[0], amounts[1], kind, place)
        case Adjusted():
            return Adjusted(amounts[0], amounts[1], amounts[2], amounts[3], node.place)
        case OneOf(_, options, place):
            return OneOf(amounts[0], options, place)
        case NamedAmount(name, _, place):
            return NamedAmount(name, amounts[0], place)
        case Every() | Some() | Readings():
            return type(node)(tuple(conditions), node.place)
        case Negation() | OrEqual():
            return type(node)(conditions[0], node.place)
        case AskedIf(_, _, _, place):
            return AskedIf(
                conditions[0], conditions[1], conditions[2] if len(conditions) > 2 else None, place, node.by_table
            )
        case NamedCondition(name, _, place):
            return NamedCondition(name, conditions[0], place)
        case Literal() | TermValue() | Lookup() | Includes() | Given() | Holds() | CellSays():
            return node
        case _:
            assert_never(node)


def rebuilt_amount(amount: Amount, change: Callable[[Amount], Amount]) -> Amount:
    """Return an amount with each amount directly inside it changed."""
    return cast(Amount, rebuild(amount, [change(cast(Amount, part)) for part in inner(amount)]))


def walk(nodes: Iterable[Node]) -> Iterator[Node]:
    """Go through nodes and all that is inside them, outer ones first."""
    waiting = [*nodes][::-1]
    while waiting:
        node = waiting.pop()
        yield node
        waiting += inner(node)[::-1]


def depth_of(nodes: Iterable[Node]) -> int:
    """Return how many nodes stand inside one another at most; unlike `walk` it takes any depth."""
    deepest, level = 0, list(nodes)
    while level:
        deepest += 1
        level = list({id(one): one for node in level for one in inner(node)}.values())
    return deepest


# ---- conditions without parts ------------------------------------------------------------------------------------


def atoms(nodes: Iterable[Node]) -> Iterator[Atom]:
    """Yield the conditions without parts among nodes and all that is inside them, behind names and "not" too."""
    for node in walk(nodes):
        yield from atoms_at(node)


def comparisons(nodes: Iterable[Node]) -> Iterator[Comparison]:
    """Yield the comparisons among the atoms of nodes."""
    return (atom for atom in atoms(nodes) if isinstance(atom, Comparison))


def comparing_conditions(nodes: Iterable[Node]) -> Iterator[Comparison | OneOf | Includes]:
    """Yield the conditions that hold something against stated or other amounts, as they are written."""
    return (node for node in walk(nodes) if isinstance(node, Comparison | OneOf | Includes))


def alternatives_in(nodes: Iterable[Node]) -> Iterator[Some]:
    """Yield the conditions of which one part is enough."""
    return (node for node in walk(nodes) if isinstance(node, Some))


def denied_in(nodes: Iterable[Node]) -> tuple[Condition, ...]:
    """Return the conditions that are not to hold, with "not" before them; what cells of tables say is none."""
    parts = (node.part for node in walk(nodes) if isinstance(node, Negation))
    return tuple(part for part in parts if not isinstance(part, CellSays))


def plain(node: Comparison | AskedIf) -> Condition:
    """Return what a condition comes to in plainer ones.

    A comparison comes to comparisons by order: within 10 % is from 0.9 to 1.1 times the right amount, within 5 F from
    5 F below it to 5 F above it. A requirement with a condition comes to alternatives, among them that it holds either
    way.
    """
    if isinstance(node, AskedIf):
        return _either_way(node)
    match node.relation:
        case Relation():
            return node
        case Within(share, denied):
            ends = _shares_around if share.dimension == "ratio" else _distances_around
            inside = _between(node, *ends(node.right, share))
            return Negation(inside, node.place) if denied else inside
        case _:
            assert_never(node.relation)


def _either_way(node: AskedIf) -> Some:
    unless = Negation(node.condition, node.place)
    if node.otherwise is None:
        return Some((node.asked, unless), node.place)
    ways = (node.asked, node.condition), (node.otherwise, unless), (node.asked, node.otherwise)
    return Some(tuple(Every(way, node.place) for way in ways), node.place)


def _shares_around(amount: Amount, share: Quantity) -> tuple[Amount, Amount]:
    """Return the ends of a span around an amount, which may lie below nothing."""
    below, above = (_times(amount, 1 + sign * share.value) for sign in (-1, 1))
    smaller, larger = (Arithmetic(one, below, above, amount.kind) for one in (Operation.SMALLER, Operation.LARGER))
    return smaller, larger


def _distances_around(amount: Amount, distance: Quantity) -> tuple[Amount, Amount]:
    """Return the ends of a span that reach equally far to either side of an amount."""
    stated = Literal(distance, quantity_kind(distance.dimension))
    low, high = (Arithmetic(one, amount, stated, amount.kind) for one in (Operation.MINUS, Operation.PLUS))
    return low, high


def _between(node: Comparison, low: Amount, high: Amount) -> Every:
    limits = (Relation.AT_LEAST, low), (Relation.AT_MOST, high)
    return Every(tuple(Comparison(node.left, relation, end, node.place) for relation, end in limits), node.place)


def _times(amount: Amount, factor: float) -> Arithmetic:
    return Arithmetic(Operation.TIMES, amount, Literal(factor, NUMBER), amount.kind)


def equalities(node: OneOf) -> tuple[Comparison, ...]:
    """Return the comparisons of which one holds where an amount is one of several values."""
    return tuple(
        Comparison(node.amount, Relation.EQUAL, Literal(option, node.amount.kind, node.place), node.place)
        for option in node.options
    )


def conjuncts(conditions: Iterable[Condition]) -> Iterator[Condition]:
    """Yield conditions that all have to hold, with those joined by `and` taken apart, not behind a definition."""
    for condition in conditions:
        match condition:
            case Every(parts):
                yield from conjuncts(parts)
            case _:
                yield condition


def asked_comparisons(
    conditions: Iterable[Condition], where: tuple[Condition, ...] = ()
) -> Iterator[tuple[Comparison, tuple[Condition, ...]]]:
    """Yield the comparisons that have to be met, each with the conditions of its own that it is asked under."""
    for condition in conjuncts(conditions):
        match condition:
            case Comparison():
                yield condition, where
            case AskedIf(asked, own, otherwise):
                yield from asked_comparisons([asked], (*where, own))
                if otherwise is not None:
                    yield from asked_comparisons([otherwise], (*where, Negation(own, condition.place)))
            case _:
                continue


def atoms_at(node: Node) -> tuple[Atom, ...]:
    """Return the atoms that a node itself is, and none of those inside it."""
    match node:
        case Comparison():
            return (node,) if isinstance(node.relation, Relation) else tuple(atoms([plain(node)]))
        case Includes() | Given() | Holds() | CellSays():
            return (node,)
        case OneOf():
            return equalities(node)
        case Every() | Some() | Negation() | AskedIf() | OrEqual() | Readings() | NamedCondition():
            return ()
        case Literal() | TermValue() | Lookup() | Arithmetic() | Adjusted() | NamedAmount():
            return ()
        case _:
            assert_never(node)


# ---- what nodes draw on ------------------------------------------------------------------------------------------


def conditions_of(clause: Clause) -> tuple[Condition, ...]:
    """Return all conditions of a clause: where, judged only where, except, shall, should."""
    exceptions = tuple(part.condition for part in clause.exceptions)
    return (*clause.scope, *clause.judged_only, *exceptions, *clause.shall, *clause.should)


def terms_of(nodes: Iterable[Node]) -> tuple[Term, ...]:
    """Return the terms that nodes draw on, through tables too, in the order in which they are met."""
    found: dict[str, Term] = {}
    for node in walk(nodes):
        for term in terms_at(node):
            found.setdefault(term.name, term)
    return tuple(found.values())


def plain_terms_of(nodes: Iterable[Node]) -> tuple[Term, ...]:
    """Return the terms whose values nodes take themselves, and not through a table."""
    return tuple(
        {term.name: term for node in walk(nodes) if table_at(node) is None for term in terms_at(node)}.values()
    )


def tables_of(nodes: Iterable[Node]) -> tuple[Table, ...]:
    """Return the tables that nodes look up, in the order in which they are met."""
    return tuple(dict.fromkeys(table for node in walk(nodes) if (table := table_at(node)) is not None))


def names_of(nodes: Iterable[Node]) -> tuple[str, ...]:
    """Return the names of definitions that nodes use, in the order in which they are met."""
    return tuple(dict.fromkeys(name for node in walk(nodes) if (name := _name_at(node))))


def values_of(nodes: Iterable[Node]) -> tuple[Single, ...]:
    """Return the values that nodes state, with the cells of the tables that they look up."""
    return tuple(value for node in walk(nodes) for value in _values_at(node))


def has_readings(nodes: Iterable[Node]) -> bool:
    """Say whether any node keeps two readings of one source."""
    return any(isinstance(node, Readings) for node in walk(nodes))


def has_equals(nodes: Iterable[Node]) -> bool:
    """Say whether any node lets a reviewer approve an equal."""
    return any(isinstance(node, OrEqual) for node in walk(nodes))


def may_leave_out(nodes: Iterable[Node]) -> bool:
    """Say whether any node denies something, depends on something or goes by a name, so that it may leave lines out."""
    return any(_leaves_out(node) for node in walk(nodes))


def _leaves_out(node: Node) -> bool:
    match node:
        case Comparison(_, relation):
            return relation is Relation.NOT_EQUAL
        case Negation() | NamedCondition() | AskedIf() | CellSays() | Holds() | Readings():
            return True
        case OneOf() | Includes() | Given() | Every() | Some() | OrEqual():
            return False
        case Literal() | TermValue() | Lookup() | NamedAmount() | Arithmetic() | Adjusted():
            return False
        case _:
            assert_never(node)


def words_out_of_place(nodes: Iterable[Node], *, asked: bool) -> Iterator[tuple[Table, Place]]:
    """Yield the tables whose cells say words where nothing is `asked`, or inside what is worked out or listed."""
    for node in walk(nodes):
        if isinstance(node, CellSays) and not asked:
            yield node.table, node.place
        elif isinstance(node, Arithmetic | Adjusted | OneOf):
            found = next((table for table in tables_of(inner(node)) if table.words), None)
            if found is not None:
                yield found, node.place


def works_out(nodes: Iterable[Node]) -> bool:
    """Say whether any node works an amount out of others."""
    return any(_calculates(node) for node in walk(nodes))


def adjusts(nodes: Iterable[Node]) -> bool:
    """Say whether any node adjusts a thickness to another conductivity, which is a power and no sum or product."""
    return any(isinstance(node, Adjusted) for node in walk(nodes))


def terms_at(node: Node) -> tuple[Term, ...]:
    """Return the terms that a node itself draws on, and none of those inside it."""
    match node:
        case TermValue(term) | Includes(term) | Given(term) | Holds(term):
            return (term,)
        case Lookup(table) | CellSays(table):
            return tuple(axis.term for axis in table.axes)
        case Literal() | Arithmetic() | Adjusted() | NamedAmount():
            return ()
        case (
            Comparison()
            | OneOf()
            | Every()
            | Some()
            | Negation()
            | AskedIf()
            | OrEqual()
            | Readings()
            | NamedCondition()
        ):
            return ()
        case _:
            assert_never(node)


def table_at(node: Node) -> Table | None:
    """Return the table that a node itself looks up."""
    return node.table if isinstance(node, Lookup | CellSays) else None


def _name_at(node: Node) -> str:
    return node.name if isinstance(node, NamedAmount | NamedCondition) else ""


def _values_at(node: Node) -> tuple[Single, ...]:
    match node:
        case Literal(value):
            return (value,)
        case OneOf(_, options) | Includes(_, _, options):
            return options
        case Comparison(_, Within(share)):
            return (share,)
        case Lookup(table):
            return tuple(cell.value for row in table.cells for cell in row if cell is not None)
        case TermValue() | Arithmetic() | Adjusted() | NamedAmount() | Given() | Holds() | CellSays():
            return ()
        case Comparison() | Every() | Some() | Negation() | AskedIf() | OrEqual() | Readings() | NamedCondition():
            return ()
        case _:
            assert_never(node)


def _calculates(node: Node) -> bool:
    match node:
        case Arithmetic() | Adjusted():
            return True
        case Literal() | TermValue() | Lookup() | NamedAmount():
            return False
        case Comparison() | OneOf() | Includes() | Given() | Holds() | CellSays():
            return False
        case Every() | Some() | Negation() | AskedIf() | OrEqual() | Readings() | NamedCondition():
            return False
        case _:
            assert_never(node)
