"""The process that atheris guides: `python -m tests.fuzz.guided TARGET FOLDER -options`."""

from __future__ import annotations

import random
import sys

import atheris

with atheris.instrument_imports(include=["speccheck"]):
    from tests.fuzz.changes import HARD, changed
    from tests.fuzz.targets import TARGETS


def main() -> None:
    """Run one target until its options say that it is enough, or something breaks."""
    name, *options = sys.argv[1:]
    target = TARGETS[name]
    examples = target.examples()

    def change(data: bytes, most: int, seed: int) -> bytes:
        chance = random.Random(seed)
        if chance.random() < 0.5:
            return bytes(atheris.Mutate(data, most))
        return changed(data, [*examples, *HARD], chance)[:most]

    target.run(examples[0])  # loads what is loaded once, outside the time of any input
    atheris.Setup([sys.argv[0], *options], target.run, custom_mutator=change)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
