"""`python -m tests.tools.interruptions [--times 25] [--seed N]`: commands that write, ended at random moments.

Each is run once to its end; then, for each signal, as often as is asked, ended at a random moment of that time. What it
was to write has to be whole or absent, and the next whole run has to leave nothing hidden behind. Printed is how the
runs ended, and whatever was found half written.
"""

from __future__ import annotations

import argparse
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Mapping
from pathlib import Path

EXAMPLES = Path(__file__).parents[2] / "examples"
RULES, SCHEDULE = EXAMPLES / "papers" / "project.clauses", EXAMPLES / "papers" / "schedule.csv"
AGAINST = (str(SCHEDULE), "--against", str(RULES))
COMMANDS: Mapping[str, tuple[str, ...]] = {
    "check": ("check", *AGAINST, "--page", "a.html", "--workbook", "a.xlsx", "--json", "a.json", "--markdown", "a.md"),
    "read": ("read", *AGAINST, "--starter", "a.toml"),
    "reply": ("reply", *AGAINST, "--page", "a.html", "--keep-notes", "a.toml", "--word", "a.docx"),
    "corrections": ("corrections", "s.xlsx", "--against", str(RULES), "--workbook", "a.xlsx"),
    "markup": ("markup", "s.xlsx", "--against", str(RULES), "--into", "a.xlsx"),
    "compare": ("compare", str(SCHEDULE), *AGAINST, "--page", "a.html"),
    "blank": ("blank", str(RULES), "a.xlsx"),
    "prose": ("prose", str(RULES), "--page", "a.html"),
    "portfolio": ("portfolio", "all", "--against", str(RULES), "--into", "judged", "--workers", "1"),
}
SIGNALS = (signal.SIGINT, signal.SIGTERM, signal.SIGKILL)


def prepared(folder: Path) -> Path:
    """Return a folder with what the commands read."""
    from tests.schedule.formats.papers import write_xlsx

    folder.mkdir()
    rows = [line.split(",") for line in SCHEDULE.read_text("utf-8").splitlines()]
    write_xlsx(folder / "s.xlsx", rows)
    (folder / "all").mkdir()
    for number in range(3):
        (folder / "all" / f"{number}.csv").write_bytes(SCHEDULE.read_bytes())
    return folder


def started(words: tuple[str, ...], folder: Path) -> subprocess.Popen[bytes]:
    """Start a command in a folder."""
    command = [sys.executable, "-P", "-m", "speccheck", *words]
    return subprocess.Popen(command, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)


def contents(folder: Path) -> dict[str, bytes]:
    """Return the files in a folder, hidden ones too."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def tried(name: str, times: int, chance: random.Random, folder: Path) -> tuple[Counter[str], list[str]]:
    """Return how the runs of a command ended, and what was wrong."""
    words = COMMANDS[name]
    whole_folder = prepared(folder / f"{name}-whole")
    template = shutil.copytree(whole_folder, folder / f"{name}-template")
    start = time.monotonic()
    started(words, whole_folder).communicate()
    lasted, whole = time.monotonic() - start, contents(whole_folder)
    ended: Counter[str] = Counter()
    wrong = []
    for one in SIGNALS:
        for number in range(times):
            here = shutil.copytree(template, folder / f"{name}-{one.name}-{number}")
            process = started(words, here)
            time.sleep(chance.uniform(0, lasted))
            process.send_signal(one)
            _, errors = process.communicate()
            ended[f"{one.name} {process.returncode}"] += 1
            if b"Traceback" in errors and process.returncode != -one:
                wrong.append(f"{name} {one.name}: a traceback")
            if name != "portfolio":  # whose folder holds what a run goes on from
                half = [file for file, data in contents(here).items() if file[0] != "." and data != whole.get(file)]
                wrong += [f"{name} {one.name}: {file} is not whole" for file in half]
            started(words, here).communicate()
            if contents(here) != whole:
                wrong.append(f"{name} {one.name}: the next run left {sorted(set(contents(here)) ^ set(whole))}")
    return ended, wrong


def main() -> None:
    """End all commands at random moments, and print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=25)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--command", choices=COMMANDS, action="append")
    asked = parser.parse_args()
    chance = random.Random(asked.seed)
    with tempfile.TemporaryDirectory() as folder:
        for name in asked.command or COMMANDS:
            ended, wrong = tried(name, asked.times, chance, Path(folder))
            print(f"{name}: {dict(sorted(ended.items()))}", *wrong, sep="\n    ", flush=True)


if __name__ == "__main__":
    main()
