"""Describing: atoms and boxes in the words of the language: "operating temperature over 140 F to under 141 F"."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping

from speccheck.language.core.wording import amount_text
from speccheck.language.vocabulary.terms import Form
from speccheck.proofread.decision_diagrams import Mask
from speccheck.proofread.partition import Atom
from speccheck.proofread.variables import ABOVE, AT, BELOW, YES, Axis, ChoiceAxis, OrderAxis, TermAxis, Variables

# A list of more values than this is told by those that are left out, or by its first ones.
LONG_LIST = 6
_ORDER_WORDS = {
    BELOW: "is less than",
    AT: "is",
    ABOVE: "is more than",
    BELOW | AT: "is at most",
    AT | ABOVE: "is at least",
    BELOW | ABOVE: "is not",
}


def box_words(axes: Variables, box: Mapping[int, Mask]) -> str:
    """Return in words which systems lie in a box; "any system" for all."""
    told = []
    for index, mask in sorted(box.items()):
        axis = axes.axes[index]
        if isinstance(axis, TermAxis) and axis.term.kind.form is Form.SET and mask & ~1:
            continue
        told.append(_axis_words(axis, mask))
    return "; ".join(told) or "any system"


def _axis_words(axis: Axis, mask: Mask) -> str:
    if isinstance(axis, TermAxis):
        return f"{axis.term.name} {mask_words(axis, mask)}"
    if isinstance(axis, ChoiceAxis):
        return f"{axis.term.name} {'with' if mask == 1 << YES else 'without'} {axis.choice}"
    assert isinstance(axis, OrderAxis), axis
    return f"{amount_text(axis.left)} {_ORDER_WORDS[mask]} {amount_text(axis.right)}"


def mask_words(axis: TermAxis, mask: Mask) -> str:
    """Return in words the atoms of a term's axis that a mask holds."""
    missing = ["not given"] if mask & 1 else []
    if axis.term.kind.form in (Form.QUANTITY, Form.NUMBER, Form.COUNT, Form.SIZE):
        stand_ins = [atom.text for at, atom in enumerate(axis.atoms) if atom.stand_in and mask >> at & 1]
        shown = stand_ins if len(stand_ins) < sum(atom.stand_in for atom in axis.atoms) else []
        parts = [_run_words(axis, first, last) for first, last in runs(axis, mask)]
        return " or ".join([*parts, *shown, *missing])
    names = [atom.text for at, atom in enumerate(axis.atoms) if at and mask >> at & 1]
    others = [atom.text for at, atom in enumerate(axis.atoms) if at and not mask >> at & 1]
    if len(names) > LONG_LIST and len(others) <= LONG_LIST:
        return " or ".join([f"other than {', '.join(others)}" if others else "any", *missing])
    if len(names) > LONG_LIST:
        names = [*names[:LONG_LIST], f"{len(names) - LONG_LIST} more"]
    return " or ".join([*names, *missing])


def runs(axis: TermAxis, mask: Mask) -> Iterator[tuple[int, int]]:
    """Yield the first and the last atom of each part of an ordered axis that a mask holds; stand-ins are left out."""
    held = [at for at, atom in enumerate(axis.atoms) if at and mask >> at & 1 and not atom.stand_in]
    start: int | None = None
    for at, following in zip(held, [*held[1:], 0], strict=False):
        start = at if start is None else start
        if following != at + 1:
            yield start, at
            start = None


def _run_words(axis: TermAxis, first: int, last: int) -> str:
    """Return a run of atoms as a band of a table is written."""
    low, high = axis.atoms[first], axis.atoms[last]
    if axis.term.kind.form is Form.SIZE or (low.single and high.single):
        return low.text if first == last else f"{low.text} through {high.text}"
    start = low.text if low.single else _end_text(axis.atoms, low.low)
    end = high.text if high.single else _end_text(axis.atoms, high.high)
    if high.low == math.inf and first != last:
        end = ""
    if not start and not end:
        return "any"
    if not start:
        return f"{end} and under" if high.single else f"under {end}"
    if not end:
        return f"{start} and over" if low.single else f"over {start}"
    return f"{'' if low.single else 'over '}{start} to {'' if high.single else 'under '}{end}"


def _end_text(atoms: Iterable[Atom], number: float | None) -> str:
    """Return the words of the value at which a stretch ends; "" for no end."""
    if number is None:
        return ""
    return next((atom.text for atom in atoms if atom.single and atom.low == number), f"{number:.6g}")


# ---- as a condition ----------------------------------------------------------------------------------------------


def box_condition(axes: Variables, box: Mapping[int, Mask]) -> str:
    """Return a box as a condition that can be pasted behind `where`; "" where it has parts that no condition says."""
    parts = [_condition(axes.axes[index], mask) for index, mask in sorted(box.items())]
    return " and ".join(parts) if all(parts) else ""


def _condition(axis: Axis, mask: Mask) -> str:
    if not isinstance(axis, TermAxis) or mask & 1:
        return ""
    names = [atom.text for at, atom in enumerate(axis.atoms) if at and mask >> at & 1]
    match axis.term.kind.form:
        case Form.CHOICE:
            listed = names[0] if len(names) == 1 else f"one of {', '.join(names)}"
            return f"{axis.term.name} is {listed}"
        case Form.YES_NO:
            return axis.term.name if names == ["yes"] else f"not {axis.term.name}"
        case Form.QUANTITY | Form.SIZE | Form.NUMBER | Form.COUNT:
            parts = list(runs(axis, mask))
            return _limits(axis, *parts[0]) if len(parts) == 1 else ""
        case _:
            return ""


def _limits(axis: TermAxis, first: int, last: int) -> str:
    """Return the limits of a run of atoms, without the one at which the axis ends."""
    name, low, high = axis.term.name, axis.atoms[first], axis.atoms[last]
    ordinary = [at for at, atom in enumerate(axis.atoms) if at and not atom.stand_in]
    starts_at, ends_at = (one.single or axis.term.kind.form is Form.SIZE for one in (low, high))
    if first == last and starts_at:
        return f"{name} is {low.text}"
    found = []
    if first != ordinary[0]:
        start = low.text if starts_at else _end_text(axis.atoms, low.low)
        found.append(f"{name} is {'at least' if starts_at else 'more than'} {start}")
    if last != ordinary[-1]:
        end = high.text if ends_at else _end_text(axis.atoms, high.high)
        found.append(f"{name} is {'at most' if ends_at else 'less than'} {end}")
    return " and ".join(found)
