"""`python -m tests.tools.interruptions [--times 25] [--seed N]`: commands that write, ended at random moments.

Each is run once to its end; then, for each signal, as often as is asked, ended at a random moment of that time, all in
one folder. What it was to write has to be whole, or as it was before; and a whole run at last has to leave nothing
hidden behind. Printed is how the runs ended, and what was wrong. `before` are runs that were ended while Python itself
started, which no program hears.
"""

from __future__ import annotations

import argparse
import random
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Mapping
from pathlib import Path

WEATHER = Path(__file__).parents[2] / "examples" / "weather" / "emberlow-hollow.epw"
AGAINST = ("s.csv", "--against", "r.clauses")
SYSTEM = (
    "pipe size 4 in, pipe material steel, insulation elastomeric foam, conductivity 0.25 Btu.in/(h.ft2.F), "
    "jacket none, operating temperature 42 F, ambient temperature 80 F, relative humidity 90 %, thickness 1 in"
)
SCHEDULE = "Mark,Service,Pipe Size,Insulation,Thickness\n" + "".join(
    f"CHW-{number},Chilled water,{number} in,Elastomeric foam,1/2 in\n" for number in range(1, 7)
)
RULES = """ruleset "Invented plant"
    speaks mechanical insulation
    units inch-pound

clause 2.1.A "Thickness"
    where service is chilled water
    shall thickness be at least 1 in
    example "thin" fails service chilled water, thickness 1/2 in

clause 2.1.B "Material"
    shall insulation be elastomeric foam
"""
SECTION = "SECTION 23 07 19\nPART 2 PRODUCTS\n2.1 THICKNESS\nA. Chilled water piping: at least 1 inch thick.\n"
COMMANDS: Mapping[str, tuple[str, ...]] = {
    "check": ("check", *AGAINST, "--page", "a.html", "--workbook", "a.xlsx", "--json", "a.json", "--markdown", "a.md"),
    "read": ("read", *AGAINST, "--starter", "a.toml"),
    "reply": ("reply", *AGAINST, "--page", "a.html", "--keep-notes", "a.toml", "--word", "a.docx"),
    "corrections": ("corrections", "s.xlsx", "--against", "r.clauses", "--workbook", "a.xlsx"),
    "markup": ("markup", "s.xlsx", "--against", "r.clauses", "--into", "a.xlsx"),
    "compare": ("compare", "s.csv", *AGAINST, "--page", "a.html"),
    "blank": ("blank", "r.clauses", "a.xlsx"),
    "prose": ("prose", "r.clauses", "--page", "a.html"),
    "draft": ("draft", "section.txt", "--into", "a.clauses", "--page", "a.html"),
    "format": ("format", "r.clauses"),
    "examples": ("examples", "r.clauses", "--into", "a.txt"),
    "proofread": ("proofread", "r.clauses", "--page", "a.html"),
    "sweep": ("sweep", "r.clauses", "thickness 1/2 in, 1 in", "service chilled water", "--page", "a.html"),
    "system": ("system", SYSTEM, "--picture", "a.svg"),
    "weather": ("weather", str(WEATHER), "--into", "a.clauses"),
    "portfolio": ("portfolio", "all", "--against", "r.clauses", "--into", "judged", "--workers", "1"),
}
SIGNALS = (signal.SIGINT, signal.SIGTERM, signal.SIGKILL)


def prepared(folder: Path) -> Path:
    """Return a folder with what the commands read."""
    from tests.schedule.formats.papers import write_xlsx

    folder.mkdir()
    write_xlsx(folder / "s.xlsx", [line.split(",") for line in SCHEDULE.splitlines()])
    texts = {"s.csv": SCHEDULE, "r.clauses": RULES, "section.txt": SECTION}
    (folder / "all").mkdir()
    for name, text in {**texts, **{f"all/{number}.csv": SCHEDULE for number in range(3)}}.items():
        (folder / name).write_text(text, "utf-8")
    return folder


def started(words: tuple[str, ...], folder: Path) -> subprocess.Popen[bytes]:
    """Start a command in a folder."""
    command = [sys.executable, "-P", "-m", "speccheck", *words]
    return subprocess.Popen(command, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)


def contents(folder: Path) -> dict[str, bytes]:
    """Return the files in a folder, hidden ones too."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def afresh(folder: Path, template: dict[str, bytes]) -> None:
    """Give a folder what it held before the run; what is hidden stays."""
    for file in contents(folder):
        if file not in template and not Path(file).name.startswith("."):
            (folder / file).unlink()
    for file, data in template.items():
        (folder / file).write_bytes(data)


def is_of_python(errors: bytes) -> bool:
    """Say whether a traceback is that of a Python that had not come to the program yet."""
    files = [line for line in errors.splitlines() if line.lstrip().startswith(b"File ")]
    return not any(b"speccheck/" in line for line in files)


def tried(name: str, times: int, chance: random.Random, folder: Path) -> tuple[Counter[str], list[str]]:
    """Return how the runs of a command ended, and what was wrong."""
    words = COMMANDS[name]
    whole_folder = prepared(folder / f"{name}-whole")
    template = contents(whole_folder)
    start = time.monotonic()
    started(words, whole_folder).communicate()
    lasted, whole = time.monotonic() - start, contents(whole_folder)
    ended: Counter[str] = Counter()
    wrong = []
    for one in SIGNALS:
        here = prepared(folder / f"{name}-{one.name}")
        afresh(here, template)
        for _ in range(times):
            process = started(words, here)
            time.sleep(chance.uniform(0, lasted))
            process.send_signal(one)
            _, errors = process.communicate()
            before = b"Traceback" in errors and is_of_python(errors)
            ended[f"{one.name} {'before' if before else process.returncode}"] += 1
            # Python ends as by SIGINT, which shells show as 130, where its `exec` was interrupted at any depth.
            told = (130, -signal.SIGINT) if b"stopped;" in errors else ()
            known = process.returncode in (*told, -one, 0, 1, 2)
            if not before and (b"Traceback" in errors or not known):
                wrong.append(f"{name} {one.name}: {process.returncode} {errors[-300:]!r}")
            if name != "portfolio":  # whose folder holds what a run goes on from
                found = {file: data for file, data in contents(here).items() if not Path(file).name.startswith(".")}
                half = [file for file, data in found.items() if data not in (whole.get(file), template.get(file))]
                wrong += [f"{name} {one.name}: {file} is not whole" for file in half]
                afresh(here, template)
        _, errors = started(words, here).communicate()
        if contents(here) != whole:
            left = sorted(set(contents(here)) ^ set(whole))
            wrong.append(f"{name} {one.name}: the next run left {left} {errors[-300:]!r}")
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
