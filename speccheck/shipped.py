"""Where the grammar and the rulesets lie: beside the package in a checkout, inside it in an installed wheel."""

from __future__ import annotations

from functools import cache
from pathlib import Path

BROUGHT_ALONG = "brought"
"""The folder of what was worked out when a wheel was built, which a checkout does not have."""


@cache
def shipped_folder(name: str) -> Path:
    """Return the folder `name` ("grammar" or "rulesets") that came with this installation.

    A wheel carries it as `speccheck/shipped/<name>`; a checkout has it at the top of the repository.
    """
    package = Path(__file__).resolve().parent
    inside = package / "shipped" / name
    return inside if inside.is_dir() else package.parent / name
