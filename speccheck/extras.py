"""The optional extras of this distribution: what to say where a library is not installed."""

from __future__ import annotations

from typing import Literal

Extra = Literal["proofread", "word", "editor", "portfolio", "distributed", "desk"]


def how_to_install(extra: Extra) -> str:
    """Return the help for a library that is not there: the command of the README, which needs the project's folder."""
    return f"in the folder of this project, run `pip install '.[{extra}]'`"
