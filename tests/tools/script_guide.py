"""The guide for scripts: `python -m tests.tools.script_guide` renews what its examples print."""

from __future__ import annotations

import contextlib
import io
import os
import re
import shutil
import tempfile
from pathlib import Path
from typing import Any

GUIDE = Path(__file__).parents[2] / "examples" / "scripts" / "README.md"
_EXAMPLE = re.compile(r"```python\n(.*?)```\n(?:\n```text\n(.*?)```\n)?", re.DOTALL)


def renewed(text: str) -> str:
    """Return the guide with what its examples print now, run one after the other in a copy of the examples."""
    names: dict[str, Any] = {}

    def run(example: re.Match[str]) -> str:
        printed = io.StringIO()
        with contextlib.redirect_stdout(printed):
            exec(compile(example[1], str(GUIDE), "exec"), names)
        told = f"\n```text\n{printed.getvalue()}```\n" if printed.getvalue() else ""
        return f"```python\n{example[1]}```\n{told}"

    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        shutil.copytree(GUIDE.parents[1], Path(folder) / "examples")
        return _EXAMPLE.sub(run, text)


if __name__ == "__main__":
    GUIDE.write_text(renewed(GUIDE.read_text(encoding="utf-8")), encoding="utf-8")
    print(f"renewed {os.path.relpath(GUIDE)}")
