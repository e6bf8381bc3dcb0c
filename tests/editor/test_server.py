"""The language server spoken to by a real client over standard input and output, as an editor does it."""

from __future__ import annotations

import asyncio
import json
import subprocess
import sys
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("pygls")

from lsprotocol import types
from pygls.lsp.client import BaseLanguageClient
from pygls.uris import from_fs_path

TEXT = """ruleset "Invented dairy"
  speaks  mechanical insulation

define cold
  as operating temperature is less than 60 F

table needed in inches
  source "nowhere" from memory
  by     pipe size
  up to 2 in | 1
  over 2 in  | 1-1/2

clause 1.1 "Thickness"
  where   cold and service is chilled water
  shall   thickness be at least needed
  example "½ in, ″thin″" fails
          service CHW, operating temperature 44 F, pipe size 2 in, thickness 1/2 in
  example "1 in" fails
          service CHW, operating temperature 44 F, pipe size 2 in, thickness 1 in
  example "3 in pipe" complies
          service CHW, operating temperature 44 F, pipe size 3 in, thickness 2 in
"""
SECONDS = 60.0


class Client(BaseLanguageClient):
    """A client that keeps the diagnostics that the server sends."""

    def __init__(self) -> None:
        super().__init__("test", "1")
        self.told: asyncio.Queue[types.PublishDiagnosticsParams] = asyncio.Queue()

        @self.feature(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
        def diagnostics(params: types.PublishDiagnosticsParams) -> None:
            self.told.put_nowait(params)

    async def diagnostics(self) -> list[tuple[str | int | None, str, int, int]]:
        """Return the next diagnostics: code, message, line and column."""
        params = await asyncio.wait_for(self.told.get(), SECONDS)
        return [(d.code, d.message, d.range.start.line, d.range.start.character) for d in params.diagnostics]


def talk(conversation: Callable[[Client, str], Awaitable[Any]], path: Path, text: str = TEXT) -> Any:
    """Start the server, open a text in it, hold a conversation, and end it as an editor does."""

    async def whole() -> Any:
        client = Client()
        await client.start_io(sys.executable, "-m", "speccheck", "language-server")
        await asyncio.wait_for(
            client.initialize_async(types.InitializeParams(types.ClientCapabilities(), root_uri=None)), SECONDS
        )
        client.initialized(types.InitializedParams())
        uri = from_fs_path(str(path))
        assert uri is not None
        document = types.TextDocumentItem(uri, "clauses", 1, text)
        client.text_document_did_open(types.DidOpenTextDocumentParams(document))
        try:
            return await asyncio.wait_for(conversation(client, uri), SECONDS)
        finally:
            await asyncio.wait_for(client.shutdown_async(None), SECONDS)
            client.exit(None)
            await client.stop()

    return asyncio.run(whole())


def at(text: str, words: str, shift: int = 0) -> types.Position:
    """Return the position of words in a text."""
    before = text[: text.index(words) + shift]
    return types.Position(before.count("\n"), len(before) - before.rfind("\n") - 1)


def test_an_editor_is_answered(tmp_path: Path) -> None:
    """Diagnostics, hover, completion, definition, formatting and examples, one after the other on one open file."""
    path = tmp_path / "dairy.clauses"
    answers = talk(_conversation, path)
    assert answers["opened"] == [
        (
            "L502",
            "the example `1 in` of clause `1.1` should come out as `fails`, but the verdict is `complies`\n"
            "thickness is 1 in, at least 1 in (needed, row up to 2 in)",
            17,
            2,
        )
    ]
    assert answers["changed"][0][0] == "L201"
    assert answers["changed"][0][1] == "`thicknes` is not known\ndid you mean `thickness`?"
    assert answers["put right"] == answers["opened"]
    assert answers["term"].startswith("**thickness**: length in in or mm")
    assert answers["definition"] == "**cold**: definition\n\noperating temperature is less than 60 F"
    assert answers["table"].splitlines()[::2] == [
        "**needed**: table of length in in, by pipe size",
        "Source: nowhere (from memory)",
    ]
    assert answers["value"].startswith("**chilled water**: value of service")
    assert {"where", "shall", "example", "clause"} <= answers["part words"]
    assert {"chilled water", "steam"} <= answers["values"]
    assert {"needed", "cold", "thickness"} <= answers["names"]
    assert answers["defined here"] == [(from_fs_path(str(path)), 6)]
    (vocabulary, line), *_ = answers["defined elsewhere"]
    assert vocabulary.endswith("/mechanical-insulation.clauses")
    assert line > 0
    assert not answers["formatted"]
    assert answers["lenses"] == ["2 of 3 examples come out"]
    assert answers["examples"] == [{"clause": "1.1", "examples": 3, "right": 2}]


async def _conversation(client: Client, uri: str) -> dict[str, Any]:
    here = types.TextDocumentIdentifier(uri)

    async def hover(words: str, shift: int = 1) -> str:
        found = await client.text_document_hover_async(types.HoverParams(here, at(TEXT, words, shift)))
        assert found is not None
        assert isinstance(found.contents, types.MarkupContent)
        return found.contents.value

    async def completed(position: types.Position) -> set[str]:
        found = await client.text_document_completion_async(types.CompletionParams(here, position))
        assert isinstance(found, types.CompletionList)
        return {item.label for item in found.items}

    async def defined(words: str) -> list[tuple[str, int]]:
        found = await client.text_document_definition_async(types.DefinitionParams(here, at(TEXT, words, 1)))
        assert isinstance(found, list)
        return [(one.uri, one.range.start.line) for one in found if isinstance(one, types.Location)]

    answers: dict[str, Any] = {"opened": await client.diagnostics()}
    for version, (name, text) in enumerate(
        (("changed", TEXT.replace("shall   thickness", "shall   thicknes")), ("put right", TEXT)), start=2
    ):
        versioned = types.VersionedTextDocumentIdentifier(version, uri)
        whole = types.TextDocumentContentChangeWholeDocument(text)
        client.text_document_did_change(types.DidChangeTextDocumentParams(versioned, [whole]))
        answers[name] = await client.diagnostics()
    answers["term"] = await hover("thickness be")
    answers["definition"] = await hover("cold and")
    answers["table"] = await hover("needed\n")
    answers["value"] = await hover("chilled water")
    answers["part words"] = await completed(types.Position(at(TEXT, "  shall").line, 3))
    answers["values"] = await completed(at(TEXT, "service is ", len("service is ")))
    answers["names"] = await completed(at(TEXT, "at least needed", len("at least ")))
    answers["defined here"] = await defined("needed\n")
    answers["defined elsewhere"] = await defined("thickness be")
    answers["formatted"] = await client.text_document_formatting_async(
        types.DocumentFormattingParams(here, types.FormattingOptions(2, True))
    )
    lenses = await client.text_document_code_lens_async(types.CodeLensParams(here)) or ()
    answers["lenses"] = [one.command.title for one in lenses if one.command is not None]
    command = types.ExecuteCommandParams("speccheck.runExamples", [uri])
    answers["examples"] = await client.workspace_execute_command_async(command)
    return answers


def test_an_unkempt_file_is_put_in_the_house_style(tmp_path: Path) -> None:
    """The edit replaces the whole text by what the formatter gives."""
    from speccheck.language.format.house_style import format_text
    from speccheck.language.syntax.source_text import SourceText

    unkempt = TEXT.replace("  where   cold", "where cold")

    async def conversation(client: Client, uri: str) -> Any:
        await client.diagnostics()
        params = types.DocumentFormattingParams(types.TextDocumentIdentifier(uri), types.FormattingOptions(2, True))
        return await client.text_document_formatting_async(params)

    edits = talk(conversation, tmp_path / "unkempt.clauses", unkempt)
    assert [edit.new_text for edit in edits] == [format_text(SourceText("unkempt.clauses", unkempt))]
    assert edits[0].range.end.line >= unkempt.count("\n")


INITIALIZE = {
    "jsonrpc": "2.0",
    "id": 1,
    "method": "initialize",
    "params": {"capabilities": {}, "processId": None, "rootUri": None},
}
SHUTDOWN = {"jsonrpc": "2.0", "id": 2, "method": "shutdown", "params": None}
EXIT = {"jsonrpc": "2.0", "method": "exit", "params": None}


def framed(message: object) -> bytes:
    """Return a message with its head."""
    body = json.dumps(message).encode()
    return b"Content-Length: %d\r\n\r\n" % len(body) + body


@pytest.mark.parametrize(
    ("bad", "told"),
    [
        (b"Content-Length: 99999999999\r\n\r\n{}", "a message says that it has 99,999,999,999 bytes; it may have 1 to"),
        (b"Content-Length: 0\r\n\r\n", "a message says that it has 0 bytes"),
        (b"Content-Length: many\r\n\r\n{}", "`Content-Length: many` is no head of a message"),
        (b"Content-Length: -5\r\n\r\n{}", "`Content-Length: -5` is no head of a message"),
        (b"Length: 5\r\n\r\n{}", "`Length: 5` is no head of a message"),
        (b"\x00\xff" * 70_000 + b"\r\n", "is no head of a message"),
        (b"Content-Length: " + b"9" * 5_000 + b"\r\n\r\n", "is no head of a message"),
        (b"content-length:2\n\n{}", ""),
        (b"Content-Type: text\r\nContent-Length: 2\r\n\r\n{}", ""),
        (b'Content-Length: 9\r\n\r\n{"jsonrpc": "2.0"}', "what stands before a message belongs to none"),
        (b"Content-Length: 100000\r\n\r\n" + b"[" * 100_000, ""),
    ],
)
def test_a_message_that_cannot_be_read_ends_nothing(bad: bytes, told: str) -> None:
    """After a head too large, of no number or none at all the editor is told, and the next message is answered."""
    sent = framed(INITIALIZE) + bad + framed(SHUTDOWN) + framed(EXIT)
    command = [sys.executable, "-m", "speccheck", "language-server"]
    done = subprocess.run(command, input=sent, capture_output=True, check=False, timeout=SECONDS)
    assert done.returncode == 0
    assert b'"id": 2' in done.stdout or b'"id":2' in done.stdout
    assert told.encode() in done.stdout.replace(b"\\u0060", b"`")
    assert b"Traceback" not in done.stdout
