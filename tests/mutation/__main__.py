"""`python -m tests.mutation PACKAGE ... [--count N] [--seed N]`."""

from __future__ import annotations

import csv
import tempfile
from pathlib import Path

import click

from tests.mutation.trying import TESTS, tried

SAME = Path(__file__).parent / "same_meaning.csv"


@click.command()
@click.argument("packages", nargs=-1, type=click.Choice(sorted(TESTS)))
@click.option("--count", type=int, default=20, show_default=True, help="how many mistakes in each package")
@click.option("--seed", type=int, default=1, show_default=True)
def main(packages: tuple[str, ...], count: int, seed: int) -> None:
    """Make mistakes in each PACKAGE and print those that no test notices; with none named, in all."""
    unnoticed = 0
    for package in packages or tuple(TESTS):
        with tempfile.TemporaryDirectory() as folder:
            unnoticed += _try(package, count, seed, Path(folder))
    raise SystemExit(int(unnoticed > 0))


def _try(package: str, count: int, seed: int, folder: Path) -> int:
    """Try the mistakes of one package; return how many were not noticed and mean something else."""
    same = {(row["file"], row["mistake"]) for row in csv.DictReader(SAME.open(encoding="utf-8", newline=""))}
    noticed = alike = tries = 0
    for one in tried(package, count, seed, folder):
        tries += 1
        noticed += one.noticed
        if not one.noticed and (one.file.as_posix(), one.mistake.what) in same:
            alike += 1
        elif not one.noticed:
            click.echo(f"  {one.file}:{one.mistake.line}: {one.mistake.what}")
    click.echo(f"{package}: {noticed} of {tries} noticed" + (f", {alike} mean the same" if alike else ""))
    return tries - noticed - alike


if __name__ == "__main__":
    main()
