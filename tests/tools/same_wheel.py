"""`python -m tests.tools.same_wheel [--into FOLDER]`: the wheel built twice, and compared to the byte.

The files that git knows are copied into two folders, in opposite order, with other times and other modes. Each copy is
built under its own umask, time zone, language and order of hashes. Both have the time of the last commit as
SOURCE_DATE_EPOCH, which the build backend writes beside every file of the wheel. The status is 1 where a byte differs.
"""

from __future__ import annotations

import argparse
import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
import zipfile
from dataclasses import dataclass
from pathlib import Path

TOP = Path(__file__).parents[2]


@dataclass(frozen=True)
class Surroundings:
    """What may differ from one machine to the next and must not show in a wheel."""

    folder: str
    umask: int
    changed: int
    """When each file was last changed, in seconds since 1970."""
    backwards: bool
    """Whether files are copied from the last to the first."""
    variables: dict[str, str]


HERE = Surroundings("checkout", 0o022, 1_000_000_000, False, {"TZ": "UTC0", "LC_ALL": "C.UTF-8", "PYTHONHASHSEED": "1"})
ELSEWHERE = Surroundings(
    "deeper/an other place", 0o077, 1_700_000_001, True, {"TZ": "XXX-11:30", "LC_ALL": "C", "PYTHONHASHSEED": "2"}
)


def asked_of_git(*words: str) -> str:
    """Return what git says about this checkout."""
    return subprocess.run(["git", *words], cwd=TOP, capture_output=True, text=True, check=True).stdout


def copied(into: Path, around: Surroundings) -> None:
    """Copy the files that git knows, as they are in the checkout now."""
    names = sorted(name for name in asked_of_git("ls-files", "-z").split("\0") if (TOP / name).is_file())
    for name in reversed(names) if around.backwards else names:
        target = into / name
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(TOP / name, target)
        target.chmod(0o666 & ~around.umask)
        os.utime(target, (around.changed, around.changed))


def built(into: Path, around: Surroundings, epoch: str) -> Path:
    """Return the wheel that is built of a copy of the checkout within a folder."""
    source = into / around.folder
    copied(source, around)
    command = [
        sys.executable,
        "-m",
        "build",
        "--wheel",
        "--no-isolation",
        "--outdir",
        str(source / "dist"),
        str(source),
    ]
    variables = {**os.environ, **around.variables, "SOURCE_DATE_EPOCH": epoch}
    subprocess.run(command, cwd=source, env=variables, umask=around.umask, stdout=subprocess.DEVNULL, check=True)
    return next((source / "dist").glob("*.whl"))


def differences(one: Path, other: Path) -> list[str]:
    """Return where two wheels differ: their names, the files in them, or the order, times and modes of those."""
    if one.name == other.name and one.read_bytes() == other.read_bytes():
        return []
    with zipfile.ZipFile(one) as first, zipfile.ZipFile(other) as second:
        pairs = zip(first.infolist(), second.infolist(), strict=False)
        told = [
            f"{left.filename} and {right.filename}"
            for left, right in pairs
            if (left.filename, left.date_time, left.external_attr, left.CRC)
            != (right.filename, right.date_time, right.external_attr, right.CRC)
        ]
    return told or [f"{one.name} and {other.name}"]


def main() -> int:
    """Build, compare, and say what came of it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--into", type=Path, help="a folder for the wheel")
    asked = parser.parse_args()
    epoch = asked_of_git("log", "-1", "--format=%ct").strip()
    with tempfile.TemporaryDirectory() as temporary:
        one, other = (built(Path(temporary), around, epoch) for around in (HERE, ELSEWHERE))
        told = differences(one, other)
        print(*(f"differs: {line}" for line in told), sep="\n", end="\n" if told else "")
        if told:
            return 1
        print(f"the same to the byte: {one.name}, SHA-256 {hashlib.sha256(one.read_bytes()).hexdigest()}")
        if asked.into:
            asked.into.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(one, asked.into / one.name)
    return 0


if __name__ == "__main__":
    sys.exit(main())
