"""Decision diagrams checked against sets of systems written out one by one."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.proofread.clause_regions import eliminate
from speccheck.proofread.decision_diagrams import EMPTY, FULL, Diagram, Diagrams

WIDTHS = (3, 2, 4)
SYSTEMS = tuple(product(*(range(width) for width in WIDTHS)))
System = tuple[int, ...]
boxes = st.dictionaries(st.integers(0, 2), st.integers(1, 15), max_size=3)
unions = st.lists(boxes, max_size=4)


def _diagram(diagrams: Diagrams, union: list[dict[int, int]]) -> Diagram:
    return diagrams.some(diagrams.box(box) for box in union)


def _systems(union: list[dict[int, int]]) -> set[System]:
    return {one for one in SYSTEMS if any(all(mask >> one[axis] & 1 for axis, mask in box.items()) for box in union)}


def _written_out(diagrams: Diagrams, diagram: Diagram) -> set[System]:
    return _systems(list(diagrams.boxes(diagram)))


@settings(max_examples=150, deadline=None)
@given(unions, unions)
def test_diagrams_are_the_sets_that_they_stand_for(first: list[dict[int, int]], second: list[dict[int, int]]) -> None:
    """Joined, met, taken from one another and turned round, diagrams hold the systems that the sets hold."""
    diagrams = Diagrams(WIDTHS)
    left, right = _diagram(diagrams, first), _diagram(diagrams, second)
    a, b = _systems(first), _systems(second)
    assert _written_out(diagrams, left) == a
    assert diagrams.meet(left, right) is diagrams.meet(right, left) is bool(a & b)
    assert _written_out(diagrams, diagrams.both(left, right)) == a & b
    assert _written_out(diagrams, diagrams.either(left, right)) == a | b
    assert _written_out(diagrams, diagrams.without(left, right)) == a - b
    assert _written_out(diagrams, diagrams.negation(left)) == set(SYSTEMS) - a
    assert diagrams.meet(left, right) is bool(a & b)
    assert diagrams.within(left, right) is (a <= b)
    assert (left == right) is (a == b)


@settings(max_examples=150, deadline=None)
@given(unions, st.sets(st.integers(0, 2)))
def test_whatever_lets_axes_go(union: list[dict[int, int]], axes: set[int]) -> None:
    """A system is left if and only if some choice on the axes let go is in the set."""
    diagrams = Diagrams(WIDTHS)
    held = _systems(union)
    expected = {
        one for one in SYSTEMS if any(all(one[at] == other[at] for at in range(3) if at not in axes) for other in held)
    }
    assert _written_out(diagrams, diagrams.whatever(_diagram(diagrams, union), axes)) == expected


@settings(max_examples=150, deadline=None)
@given(unions.filter(bool))
def test_points_hulls_and_widened_boxes_lie_where_they_should(union: list[dict[int, int]]) -> None:
    """A point lies in its set, the hull is the smallest box around it, and a widened box cannot be made wider."""
    diagrams = Diagrams(WIDTHS)
    diagram, held = _diagram(diagrams, union), _systems(union)
    if diagram == EMPTY:
        return
    order = [range(width) for width in WIDTHS]
    point = diagrams.point(diagram, order)
    wide = diagrams.widened({axis: 1 << atom for axis, atom in point.items()}, diagram)
    assert _systems([wide]) <= held
    assert all(wide[axis] >> point[axis] & 1 for axis in wide)
    for axis, mask in wide.items():
        assert all(
            not _systems([{**wide, axis: mask | 1 << at}]) <= held for at in range(WIDTHS[axis]) if not mask >> at & 1
        )
    hull = diagrams.hull(diagram)
    for axis, width in enumerate(WIDTHS):
        mask = sum(1 << at for at in range(width) if any(one[axis] == at for one in held))
        assert hull.get(axis, diagrams.whole[axis]) == mask


@settings(max_examples=150, deadline=None)
@given(st.lists(unions, min_size=1, max_size=3), st.sets(st.integers(0, 2)))
def test_elimination_leaves_what_can_be_completed(sets: list[list[dict[int, int]]], kept: set[int]) -> None:
    """What is left on the kept axes are the systems that some choice on the others puts in all sets at once."""
    diagrams = Diagrams(WIDTHS)
    left = eliminate(diagrams, [_diagram(diagrams, union) for union in sets], frozenset(kept))
    assert left is not None
    common = set(SYSTEMS).intersection(*(_systems(union) for union in sets))
    expected = {one for one in SYSTEMS if any(all(one[at] == other[at] for at in kept) for other in common)}
    assert _written_out(diagrams, left.region) == expected
    if left.region not in (EMPTY, FULL):
        order = [range(width) for width in WIDTHS]

        def choose(region: Diagram) -> Diagram:
            return diagrams.box({axis: 1 << atom for axis, atom in diagrams.point(region, order).items()})

        assert _written_out(diagrams, left.completed(diagrams, choose(left.region), choose)) & common
