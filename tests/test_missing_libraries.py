"""Libraries that an extra installs: what is said where one is not there."""

from __future__ import annotations

import pytest

from speccheck.cli.desk import _missing
from speccheck.editor import server
from speccheck.report.word import document


def test_what_is_missing_is_told_with_the_command_that_installs_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """The language server, documents and the desk name their library and the extra that has it."""
    for module in (document, server):
        monkeypatch.setattr(module, "find_spec", lambda name: None)
    told = [str(found) for found in (document.missing_library(), server.missing_library(), _missing(["starlette"]))]
    run = "in the folder of this project, run `pip install '.[{}]'`"
    assert told == [
        f"error[R201]: documents need the library `python-docx`\n  at \n  help: {run.format('word')}",
        f"error[R202]: the language server needs the library `pygls`\n  at \n  help: {run.format('editor')}",
        f"error[R203]: the desk needs the library `starlette`\n  at \n  help: {run.format('desk')}",
    ]
