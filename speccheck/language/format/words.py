"""Names, strings, amounts and conditions written out for the formatter.

What may be broken over lines comes out as pieces: texts that go on one line with a space between them, or on several.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache
from typing import assert_never

from speccheck.language.syntax.layout import BEGINNINGS
from speccheck.language.syntax.parsing import clause_parser
from speccheck.language.syntax.tree import (
    Adjustment,
    AmountSyntax,
    AskedIfSyntax,
    CalculationSyntax,
    Compared,
    ConditionSyntax,
    Including,
    Joined,
    Measure,
    Not,
    OrEqualSyntax,
    ReadAsSyntax,
    Stated,
    StatementSyntax,
    Words,
)

WIDTH = 100
# What a line may hold before a comparison: indentation, a keyword, `and`, parentheses.
ROOM = 20
# The words before each of the two amounts of a span, and before a share and what it is of.
SPANS = {
    "between": ("between", "and"),
    "from to under": ("from", "to under"),
    "over to": ("over", "to"),
    "within": ("within", "of"),
    "not within": ("not within", "of"),
}

# Beginnings of files after which a name stands; the parser says which of its words could stand there instead.
_BEFORE_A_NAME = tuple(
    f'ruleset "a" define b as {words}'
    for words in ("", "c is", "c is not", "c is at least", "c is between 1 and", "c is one of", "c include")
)
_INSIDE_A_NAME = 'ruleset "a" define b as c'


# ---- names and strings -------------------------------------------------------------------------------------------


def string_text(text: str) -> str:
    """Return a text in quotation marks."""
    return f'"{text}"'


def string_pieces(text: str) -> list[str]:
    """Return a text in quotation marks in pieces: strings may run over lines at their spaces."""
    return string_text(text).split(" ")


def name_text(name: str) -> str:
    """Return a name as it is written in a clause: in quotation marks where its words would be read otherwise."""
    return name if _reads_as_name(name) else string_text(name)


def _reads_as_name(name: str) -> bool:
    word, quantity, first, later = _name_rules()
    words = name.split(" ")
    if words[0] in first or any(one in later for one in words[1:]):
        return False
    starts = (" ".join(words[number:]) for number in range(len(words)))
    return all(word.fullmatch(one) for one in words) and not any(quantity.match(start) for start in starts)


@cache
def _name_rules() -> tuple[re.Pattern[str], re.Pattern[str], frozenset[str], frozenset[str]]:
    """Return what a word and a quantity look like, and the keywords that could stand for a first or a later word."""
    patterns = {terminal.name: terminal.pattern for terminal in clause_parser().terminals}
    word, quantity = (re.compile(patterns[name].to_regexp()) for name in ("WORD", "QUANTITY"))

    def keywords(beginning: str) -> set[str]:
        parser = clause_parser().parse_interactive(beginning, start="start")
        for _ in parser.iter_parse():
            pass
        found = (patterns[name] for name in parser.choices() if name in patterns)  # type: ignore[no-untyped-call]
        return {pattern.value for pattern in found if pattern.type == "str"}

    first = BEGINNINGS.union(*(keywords(beginning) for beginning in _BEFORE_A_NAME))
    return word, quantity, first, frozenset(keywords(_INSIDE_A_NAME))


def option_text(option: Words | Measure) -> str:
    """Return a name or a quantity."""
    return name_text(option.text) if isinstance(option, Words) else measure_text(option)


def measure_text(measure: Measure) -> str:
    """Return a quantity as it was written."""
    return f"{measure.text} difference" if measure.difference else measure.text


def listed(texts: Iterable[str]) -> list[str]:
    """Return texts with commas behind all but the last."""
    whole = list(texts)
    return [*(f"{text}," for text in whole[:-1]), *whole[-1:]]


# ---- amounts and conditions --------------------------------------------------------------------------------------


def amount_text(amount: AmountSyntax) -> str:
    """Return an amount on one line."""
    return " ".join(_amount_parts(amount))


def amount_pieces(amount: AmountSyntax) -> list[str]:
    """Return an amount in pieces: in one where it is short, else broken before its operations."""
    return short_in_one(_amount_parts(amount))


def _amount_parts(amount: AmountSyntax) -> list[str]:
    match amount:
        case Words() | Measure():
            return [option_text(amount)]
        case CalculationSyntax("larger of" | "smaller of" as operation, left, right):
            return [*_before(f"{operation} ", _amount_parts(left)), *_before("and ", _amount_parts(right))]
        case CalculationSyntax(operation, left, right):
            return [*_amount_parts(left), *_before(f"{operation} ", _amount_parts(right))]
        case ReadAsSyntax(table, values):
            told = [f"as if {name_text(term.text)} is {option_text(value)}" for term, value in values]
            return [name_text(table.text), f"read {told[0]}", *(f"and {one}" for one in told[1:])]
        case Adjustment(thickness, stated, proposed, diameter):
            joints = {"adjusted from ": stated, "to ": proposed, "around ": diameter}
            rest = [piece for joint, part in joints.items() for piece in _before(joint, _amount_parts(part))]
            return [*_amount_parts(thickness), *rest]
        case _:
            assert_never(amount)


def short_in_one(pieces: list[str]) -> list[str]:
    """Return pieces as one where they leave room on a line: a comparison or a short reason is best read unbroken."""
    whole = " ".join(pieces)
    return [whole] if len(whole) <= WIDTH - ROOM else pieces


def condition_pieces(condition: ConditionSyntax, verb: str) -> list[str]:
    """Return a condition in pieces; `verb` is "is" or, after a shall, "be"."""
    match condition:
        case Stated(name):
            return [name_text(name.text)]
        case Not(part):
            return _before("not ", _grouped(part, verb, isinstance(part, Joined | OrEqualSyntax)))
        case Including(name, inclusion, options):
            return _before(f"{name_text(name.text)} {inclusion} ", listed(option_text(option) for option in options))
        case Compared():
            return _compared_pieces(condition, verb)
        case AskedIfSyntax(asked, only_if, otherwise):
            found = [*condition_pieces(asked, verb), *_before("if ", condition_pieces(only_if, "is"))]
            return found if otherwise is None else [*found, *_before("otherwise ", condition_pieces(otherwise, verb))]
        case OrEqualSyntax(part):
            marked = isinstance(part, Joined) and part.joint == "or by another reading"
            return [*_grouped(part, verb, marked), "or approved equal"]
        case Joined(joint, parts):
            inner = [_grouped(part, verb, _needs_marks(joint, part)) for part in parts]
            return inner[0] + [piece for pieces in inner[1:] for piece in _before(f"{joint} ", pieces)]
        case _:
            assert_never(condition)


def _compared_pieces(condition: Compared, verb: str) -> list[str]:
    relation = condition.relation.removeprefix("is").strip()
    left = _amount_parts(condition.left)
    if relation in ("one of", "not one of"):
        first, *others = listed(amount_text(other) for other in condition.others)
        return [*short_in_one([*left, f"{verb} {relation} {first}"]), *others]
    joints = SPANS.get(relation, (relation,))
    start = [*left[:-1], f"{left[-1]} {verb} {joints[0]}".rstrip()]
    if not condition.others:
        return start
    parts = [_amount_parts(other) for other in condition.others]
    later = [_before(f"{joint} ", part) for joint, part in zip(joints[1:], parts[1:], strict=True)]
    start[-1] += f" {parts[0][0]}"
    return short_in_one([*start, *parts[0][1:], *(piece for part in later for piece in part)])


def _needs_marks(joint: str, part: ConditionSyntax) -> bool:
    """Whether a part of a joined condition stands in parentheses: `and` binds before `or`."""
    return isinstance(part, OrEqualSyntax) or (isinstance(part, Joined) and not (joint == "or" and part.joint == "and"))


def _grouped(part: ConditionSyntax, verb: str, marked: bool) -> list[str]:
    pieces = condition_pieces(part, verb)
    return [*_before("(", pieces)[:-1], _before("(", pieces)[-1] + ")"] if marked else pieces


def _before(start: str, pieces: Sequence[str]) -> list[str]:
    return [start + pieces[0], *pieces[1:]]


def claim_pieces(statement: StatementSyntax) -> list[str]:
    """Return what a statement holds to be true, in pieces."""
    *amounts, last = statement.of
    if isinstance(last, Words):
        start = [piece for amount in amounts for piece in amount_pieces(amount)]  # type: ignore[arg-type]
        verb = f"never {statement.form.removesuffix(' as')} as {name_text(last.text)} grows"
        return [*start, verb] if start else [f"clauses are {verb}"]
    (first, second), word = statement.of, statement.form.removesuffix(" where")
    before = _grouped(first, "is", not _ends_plainly(first))  # type: ignore[arg-type]
    after = condition_pieces(second, "is")  # type: ignore[arg-type]
    start = _before(f"clauses are never {word} where ", before)
    return [*start[:-1], f"{start[-1]},", *_before("than where ", after)]


def _ends_plainly(condition: ConditionSyntax) -> bool:
    """Whether a comma behind a condition cannot be read as one of its own lists."""
    match condition:
        case Stated():
            return True
        case Not(part):
            return _ends_plainly(part)
        case Compared():
            return not condition.relation.endswith("one of")
        case _:
            return False


# ---- lines -------------------------------------------------------------------------------------------------------


def filled(start: str, pieces: Sequence[str], hanging: int) -> list[str]:
    """Return lines of at most `WIDTH` columns where pieces allow it: `start`, the pieces, later lines `hanging` in."""
    lines, room = [start + "".join(pieces[:1])], WIDTH
    for piece in pieces[1:]:
        if len(lines[-1]) + 1 + len(piece) > room:
            lines.append(" " * hanging + piece)
        else:
            lines[-1] += f" {piece}"
    return lines
