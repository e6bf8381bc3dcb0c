"""`speccheck desk`: a local page for people without a terminal."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

import click

from speccheck.cli import UNUSABLE
from speccheck.cli.inputs import FILE, show
from speccheck.cli.saying import say
from speccheck.english import agree

if TYPE_CHECKING:
    from speccheck.language.diagnostics import Diagnostic

LIBRARIES = {
    "starlette": "starlette", "uvicorn": "uvicorn", "python_multipart": "python-multipart", "filelock": "filelock",
    "tomlkit": "tomlkit",
}  # fmt: skip


@click.command()
@click.argument("folder", type=FILE, required=False)
@click.option("--no-browser", is_flag=True, help="Print the address and open no browser.")
@click.option("--port", type=click.IntRange(0, 65535), default=0, metavar="NUMBER", help="Port; a free one by default.")
def command(folder: Path | None, no_browser: bool, port: int) -> int:
    """Open the desk: a page in your browser that reviews submittals.

    Projects are kept as plain files under FOLDER (by default, a folder
    `speccheck` among your documents). Nothing leaves this machine. Ctrl-C, or
    the button on the page, ends it.

    \b
    Example:
      speccheck desk reviews

    Exit status: 0 ended, 3 it could not be opened.
    """
    missing = [library for module, library in LIBRARIES.items() if find_spec(module) is None]
    if missing:
        show([_missing(missing)])
        return UNUSABLE
    from speccheck.desk.application import serve

    place = folder if folder is not None else _documents()
    if place.exists() and not place.is_dir():
        raise click.UsageError(f"`{place}` is a file; name a folder")
    place.mkdir(parents=True, exist_ok=True)

    def tell(address: str) -> None:
        say(f"The desk is open at {address}\nProjects are kept in {place}\nCtrl-C ends it.")
        if not no_browser:
            click.launch(address)

    serve(place, tell, port)
    return 0


def _documents() -> Path:
    import platformdirs

    return Path(platformdirs.user_documents_dir()) / "speccheck"


def _missing(libraries: list[str]) -> Diagnostic:
    from speccheck.extras import how_to_install
    from speccheck.language.diagnostics import NOWHERE
    from speccheck.report.messages import DESK_NEEDS_LIBRARIES

    named = ", ".join(f"`{one}`" for one in libraries)
    needed = agree(len(libraries), "the library", "the libraries")
    return DESK_NEEDS_LIBRARIES.at(NOWHERE, needed=needed, libraries=named, install=how_to_install("desk"))
