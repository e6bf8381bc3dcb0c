"""What is kept between runs in the user's cache folder, so that a run does not work out again what cannot have changed.

Only the program itself reads and writes there. A cache that cannot be read or written is not an error: what it would
have held is then worked out afresh.
"""

from __future__ import annotations

import contextlib
import os
import pickle
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any


@cache
def cache_folder() -> Path | None:
    """Return the folder for what is kept, made if need be, or None where it cannot be written.

    The environment variable SPECCHECK_CACHE names another folder; set to nothing, it turns keeping off.
    """
    named = os.environ.get("SPECCHECK_CACHE")
    if named == "":
        return None
    if named is None:
        import platformdirs

        named = platformdirs.user_cache_dir("speccheck")
    folder = Path(named)
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError:
        return None
    return folder if os.access(folder, os.W_OK) else None


@cache
def program_fingerprint() -> str:
    """Return a text that changes with every file of the package, so that no program reads what an older one kept."""
    package = Path(__file__).parent
    states = ((path.name, path.stat()) for path in sorted(package.rglob("*.py")))
    return sha256(repr([(name, state.st_mtime_ns, state.st_size) for name, state in states]).encode()).hexdigest()


def recall(name: str) -> Any:
    """Return what was kept under `name`, or None where there is nothing that can be read."""
    folder = cache_folder()
    if folder is None:
        return None
    try:
        return pickle.loads((folder / name).read_bytes())
    except FileNotFoundError:
        return None
    except Exception:  # a damaged file can raise anything; it is then as good as not there
        return None


def keep(name: str, thing: object) -> None:
    """Keep a thing under `name`; the file is written whole, beside its place, and then moved there."""
    folder = cache_folder()
    if folder is None:
        return
    unfinished = folder / f"{name}.{os.getpid()}"
    with contextlib.suppress(OSError):
        unfinished.write_bytes(pickle.dumps(thing, protocol=5))
        unfinished.replace(folder / name)
