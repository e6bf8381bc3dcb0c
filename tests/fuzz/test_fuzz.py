"""What once broke a way into the program is answered now; a run by chance tries the same inputs each time."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.fuzz.changes import changed
from tests.fuzz.running import CORPUS, by_chance, fault_of
from tests.fuzz.targets import TARGETS, Target

KEPT = sorted(CORPUS.glob("*/*"))


@pytest.mark.parametrize("path", KEPT, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_what_once_broke_a_reader_is_answered(path: Path) -> None:
    """Values and diagnostics, within five seconds: no exception."""
    assert fault_of(TARGETS[path.parent.name], path.read_bytes()) == ""


@pytest.mark.parametrize("name", sorted(TARGETS))
def test_the_examples_of_each_target_are_answered(name: str) -> None:
    """Each way in has examples, and what is kept for it belongs to one that is there."""
    examples = TARGETS[name].examples()
    assert examples
    assert [fault_of(TARGETS[name], data) for data in examples] == [""] * len(examples)
    assert {path.parent.name for path in KEPT} <= set(TARGETS)


def test_a_fault_is_found_and_kept_once_for_each_place() -> None:
    """A reader that breaks on a mark is caught, and the run goes on."""

    def breaks(data: bytes) -> object:
        return 1 / (b"\x00" not in data)

    run = by_chance(Target("broken", "anything", breaks, lambda: [b"one line\nand another"]), seed=1, inputs=400)
    assert run.inputs == 400
    (fault,) = run.faults
    assert fault.startswith("ZeroDivisionError in test_fuzz.py:")
    assert b"\x00" in run.faults[fault]


def test_the_same_seed_tries_the_same_inputs() -> None:
    """A run can be repeated, whatever it found."""
    first, second = ([changed(b"1-1/2 in", [b"25 mm"], random.Random(seed)) for seed in range(50)] for _ in range(2))
    assert first == second
    assert len(set(first)) > 40
