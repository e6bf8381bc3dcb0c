"""What the build backend runs before it makes a wheel: the rulesets are parsed, so that no user waits for that.

A development install brings nothing along, since its modules and rulesets change. The order of hashes is settled, as it
is the order in which sets are written.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

BRING = (
    "import sys, pathlib; from speccheck.language.brought_along import bring_along as b; b(pathlib.Path(sys.argv[1]))"
)


class WheelHook(BuildHookInterface):  # type: ignore[type-arg]
    """Adds the folder of what is brought along to a wheel that is no development install."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Parse the rulesets of the checkout with its own code."""
        if version == "editable":
            return
        self.folder = tempfile.TemporaryDirectory()
        brought = self.folder.name
        paths = os.pathsep.join([self.root, *filter(None, sys.path)])  # what the build requires stands on its own path
        around = {"PYTHONHASHSEED": "0", "PYTHONPATH": paths, "SPECCHECK_CACHE": ""}
        subprocess.run([sys.executable, "-B", "-c", BRING, brought], env={**os.environ, **around}, check=True)
        build_data["force_include"][brought] = "speccheck/shipped/brought"

    def finalize(self, version: str, build_data: dict[str, Any], artifact_path: str) -> None:
        """Take the folder away."""
        if version != "editable":
            self.folder.cleanup()
