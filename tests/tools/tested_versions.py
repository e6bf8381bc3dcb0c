"""`python -m tests.tools.tested_versions [--compare]`: the versions that the tests were run with.

What `pyproject.toml` asks for states the oldest version of each library. The newest that was tried stands in
`tests/tested_versions.txt`, as constraints for pip, written from the environment that the command runs in: the
libraries of all extras and of the build, and what those ask for in turn. Where one is not installed nothing is
written and the status is 1. With `--compare` nothing is written, and packages that have another version here than in
the record are listed.
"""

from __future__ import annotations

import argparse
import platform
import sys
import tomllib
from collections.abc import Callable, Iterable
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TOP = Path(__file__).parents[2]
RECORD = TOP / "tests" / "tested_versions.txt"
NOT_OURS = {"pip"}
"""What reads the record and comes with Python; a constraint would put an older one in its place."""

HEADING = """\
# The newest versions that the tests were run with, for `pip install -c`.
# Written by `python -m tests.tools.tested_versions` with Python {python} on {system}.
"""


def asked_for(project: Path = TOP / "pyproject.toml") -> list[Requirement]:
    """Return what a project asks for: to run, for each extra, and to be built."""
    table = tomllib.loads(project.read_text("utf-8"))
    extras = table["project"]["optional-dependencies"].values()
    lists = (table["project"]["dependencies"], *extras, table["build-system"]["requires"])
    return [Requirement(line) for lines in lists for line in lines]


def installed(name: str) -> tuple[str, list[str]] | None:
    """Return the version of an installed package and what it asks for; None where it is not installed."""
    try:
        found = metadata.distribution(name)
    except metadata.PackageNotFoundError:
        return None
    return found.version, found.requires or []


def versions(
    requirements: Iterable[Requirement], find: Callable[[str], tuple[str, list[str]] | None] = installed
) -> tuple[dict[str, str], list[str]]:
    """Return the version of every package that requirements come to, by name, and the names of those not installed.

    A requirement is followed when its marker holds here, with each extra that somebody asks for.
    """
    found: dict[str, str] = {}
    missing: set[str] = set()
    waiting = [one for one in requirements if one.marker is None or one.marker.evaluate()]
    followed: set[tuple[str, str]] = set()
    while waiting:
        requirement = waiting.pop()
        name = canonicalize_name(requirement.name)
        package = find(name)
        if package is None:
            missing.add(name)
            continue
        found[name], lines = package
        for extra in {"", *requirement.extras} - {extra for one, extra in followed if one == name}:
            followed.add((name, extra))
            waiting += [
                one for one in map(Requirement, lines) if one.marker is None or one.marker.evaluate({"extra": extra})
            ]
    return {name: found[name] for name in sorted(found) if name not in NOT_OURS}, sorted(missing)


def record(found: dict[str, str]) -> str:
    """Return the text of the record: a heading, and a constraint for each package in the order of names."""
    heading = HEADING.format(python=platform.python_version(), system=f"{platform.system()} {platform.machine()}")
    return heading + "".join(f"{name}=={version}\n" for name, version in found.items())


def recorded(text: str) -> dict[str, str]:
    """Return the version of each package in the text of a record."""
    constraints = (line.split("==", 1) for line in text.splitlines() if not line.startswith("#"))
    return dict(constraints)


def others(constraints: dict[str, str], find: Callable[[str], tuple[str, list[str]] | None] = installed) -> list[str]:
    """Return a line for each recorded package that is installed in another version."""
    here = ((name, version, find(name)) for name, version in constraints.items())
    return [
        f"{name} {package[0]}, recorded {version}"
        for name, version, package in here
        if package and package[0] != version
    ]


def main() -> int:
    """Write the record, or tell what is not installed or differs."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--compare", action="store_true", help="list what has another version here than in the record")
    if parser.parse_args().compare:
        print(*others(recorded(RECORD.read_text("utf-8"))) or ["the versions are those of the record"], sep="\n")
        return 0
    found, missing = versions(asked_for())
    if missing:
        print(f"nothing written; not installed: {', '.join(missing)}", file=sys.stderr)
        return 1
    RECORD.write_text(record(found), encoding="utf-8")
    print(f"{len(found)} packages in {RECORD.relative_to(TOP)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
