"""`python -m tests.fuzz [TARGET ...] [--minutes N] [--inputs N] [--seed N] [--into FOLDER] [--by-chance]`."""

from __future__ import annotations

import hashlib
from pathlib import Path

import click

from tests.fuzz.running import by_chance, can_be_guided, guided, limit_memory
from tests.fuzz.targets import TARGETS


@click.command()
@click.argument("names", nargs=-1, type=click.Choice(sorted(TARGETS)))
@click.option("--minutes", type=float, default=1.0, show_default=True, help="how long each target is tried")
@click.option("--inputs", type=int, default=0, help="how many inputs at most, by chance alone")
@click.option("--seed", type=int, default=1, show_default=True)
@click.option(
    "--into", type=click.Path(path_type=Path), default=Path("fuzz"), show_default=True, help="where inputs are kept"
)
@click.option("--by-chance", "chance", is_flag=True, help="change examples by chance, even where atheris is installed")
def main(names: tuple[str, ...], minutes: float, inputs: int, seed: int, into: Path, chance: bool) -> None:
    """Try changed inputs on each TARGET until something breaks; without one, list them."""
    broken = False
    for name in names:
        if inputs or chance or not can_be_guided():
            broken |= _by_chance(name, minutes, inputs, seed, into)
        else:
            status = guided(TARGETS[name], into, seed=seed, minutes=minutes)
            broken |= status != 0
            click.echo(f"{name}: {'nothing broke' if status == 0 else f'something broke, see {into}'}")
    if not names:
        for target in TARGETS.values():
            click.echo(f"{target.name:12} {target.takes}")
    raise SystemExit(int(broken))


def _by_chance(name: str, minutes: float, inputs: int, seed: int, into: Path) -> bool:
    limit_memory()
    run = by_chance(TARGETS[name], seed=seed, inputs=inputs, minutes=0.0 if inputs else minutes)
    click.echo(f"{name}: {run.inputs:,} inputs in {run.seconds:.0f} s, {len(run.faults)} ways to break it")
    for fault, data in run.faults.items():
        into.mkdir(parents=True, exist_ok=True)
        path = into / f"{name}-{hashlib.sha256(data).hexdigest()[:12]}"
        path.write_bytes(data)
        click.echo(f"  {fault}\n    {path}")
    return bool(run.faults)


if __name__ == "__main__":
    main()
