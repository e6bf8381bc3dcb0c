"""The language server: what an editor asks, answered over the Language Server Protocol, with pygls."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any

from speccheck.editor.analysing import Analysis, analyse, rehearsed
from speccheck.editor.completing import suggestions
from speccheck.editor.hovering import hover_text, locations
from speccheck.editor.incoming import Incoming
from speccheck.editor.messages import SERVER_NEEDS_LIBRARY
from speccheck.editor.naming import NameAt, name_meant
from speccheck.extras import how_to_install
from speccheck.language.diagnostics import NOWHERE, Diagnostic, Place, Severity
from speccheck.language.format.house_style import format_text

if TYPE_CHECKING:
    from lsprotocol import types
    from pygls.lsp.server import LanguageServer

RUN_EXAMPLES = "speccheck.runExamples"


def missing_library() -> Diagnostic | None:
    """Return what to install where pygls is not there."""
    if find_spec("pygls") is not None:
        return None
    return SERVER_NEEDS_LIBRARY.at(NOWHERE, install=how_to_install("editor"))


class Documents:
    """The texts that the editor has open, each analysed once for each version."""

    def __init__(self, server: LanguageServer) -> None:
        self.server = server
        self._known: dict[str, tuple[int | None, str, Analysis]] = {}

    def analysis(self, uri: str) -> Analysis:
        """Return the analysis of an open text."""
        from pygls.uris import to_fs_path

        document = self.server.workspace.get_text_document(uri)
        known = self._known.get(uri)
        if known is None or (known[0], known[1]) != (document.version, document.source):
            path = Path(to_fs_path(uri) or "untitled.clauses")
            known = self._known[uri] = (document.version, document.source, analyse(document.source, path))
        return known[2]

    def forget(self, uri: str) -> None:
        """Let go of a text that was closed."""
        self._known.pop(uri, None)

    def range(self, analysis: Analysis, place: Place) -> types.Range:
        """Return a place of a text as the client counts."""
        from lsprotocol import types

        line, column = max(place.line - 1, 0), max(place.column - 1, 0)
        start, end = types.Position(line, column), types.Position(line, column + max(place.length, 1))
        lines = [f"{row}\n" for row in analysis.source.lines]
        return self.server.workspace.position_codec.range_to_client_units(lines, types.Range(start, end))

    def name(self, analysis: Analysis, position: types.Position) -> NameAt | None:
        """Return the name at a position of the client."""
        row, column = self.column(analysis, position)
        return name_meant(row, column, analysis.names)

    def column(self, analysis: Analysis, position: types.Position) -> tuple[str, int]:
        """Return the line of a position and its column in characters."""
        lines = [f"{row}\n" for row in analysis.source.lines]
        here = self.server.workspace.position_codec.position_from_client_units(lines, position)
        row = analysis.source.lines[here.line] if here.line < len(lines) else ""
        return row, here.character


def serve() -> None:
    """Serve an editor over standard input and output until it ends the server; it is told what cannot be read."""
    from lsprotocol import types

    server = make_server()

    def tell(why: str) -> None:
        server.window_show_message(types.ShowMessageParams(types.MessageType.Error, why))

    server.start_io(Incoming(sys.stdin.buffer, tell))  # type: ignore[arg-type]


def make_server() -> LanguageServer:
    """Return the server with all that it can do, ready to be started on a channel."""
    from importlib.metadata import version

    from lsprotocol import types
    from pygls.lsp.server import LanguageServer

    server = LanguageServer("speccheck", version("speccheck"))
    documents = Documents(server)

    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    @server.feature(types.TEXT_DOCUMENT_DID_SAVE)
    def changed(params: Any) -> None:
        _publish(documents, params.text_document.uri)

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    def closed(params: types.DidCloseTextDocumentParams) -> None:
        documents.forget(params.text_document.uri)

    @server.feature(types.TEXT_DOCUMENT_HOVER)
    def hover(params: types.HoverParams) -> types.Hover | None:
        return _hover(documents, params)

    @server.feature(types.TEXT_DOCUMENT_COMPLETION)
    def complete(params: types.CompletionParams) -> types.CompletionList:
        return _completion(documents, params)

    @server.feature(types.TEXT_DOCUMENT_DEFINITION)
    def define(params: types.DefinitionParams) -> list[types.Location]:
        return _definition(documents, params)

    @server.feature(types.TEXT_DOCUMENT_FORMATTING)
    def format_document(params: types.DocumentFormattingParams) -> list[types.TextEdit]:
        return _formatting(documents, params.text_document.uri)

    @server.feature(types.TEXT_DOCUMENT_CODE_LENS)
    def lenses(params: types.CodeLensParams) -> list[types.CodeLens]:
        return _lenses(documents, params.text_document.uri)

    @server.command(RUN_EXAMPLES)
    def run_examples(uri: str) -> list[dict[str, object]]:
        _publish(documents, uri)
        found = rehearsed(documents.analysis(uri))
        return [{"clause": one.label, "examples": one.count, "right": one.right} for one in found.clauses]

    return server


def _publish(documents: Documents, uri: str) -> None:
    """Send the client what is wrong with a text, and which of its examples do not come out."""
    from lsprotocol import types

    analysis = documents.analysis(uri)
    found = [*analysis.diagnostics, *rehearsed(analysis).diagnostics]
    told = [_told(documents, analysis, one) for one in found]
    documents.server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri, told))


def _told(documents: Documents, analysis: Analysis, found: Diagnostic) -> types.Diagnostic:
    from lsprotocol import types

    severities = {
        Severity.ERROR: types.DiagnosticSeverity.Error,
        Severity.WARNING: types.DiagnosticSeverity.Warning,
        Severity.NOTE: types.DiagnosticSeverity.Information,
    }
    return types.Diagnostic(
        documents.range(analysis, found.place),
        f"{found.message}\n{found.help}".rstrip("\n"),
        severities[found.severity],
        found.code,
        source="speccheck",
    )


def _hover(documents: Documents, params: types.HoverParams) -> types.Hover | None:
    from lsprotocol import types

    analysis = documents.analysis(params.text_document.uri)
    named = documents.name(analysis, params.position)
    if named is None:
        return None
    system = analysis.ruleset.units if analysis.ruleset is not None else "inch-pound"
    place = Place(line=params.position.line + 1, column=named.start + 1, length=named.end - named.start)
    content = types.MarkupContent(types.MarkupKind.Markdown, hover_text(named, system))
    return types.Hover(content, documents.range(analysis, place))


def _completion(documents: Documents, params: types.CompletionParams) -> types.CompletionList:
    from lsprotocol import types

    kinds = {
        "keyword": types.CompletionItemKind.Keyword,
        "term": types.CompletionItemKind.Variable,
        "value": types.CompletionItemKind.EnumMember,
        "definition": types.CompletionItemKind.Function,
        "table": types.CompletionItemKind.Struct,
    }
    analysis = documents.analysis(params.text_document.uri)
    _, column = documents.column(analysis, params.position)
    found = suggestions(analysis, params.position.line, column)
    items = [
        types.CompletionItem(one.text, kind=kinds[one.sort], detail=one.detail or None, sort_text=f"{at:05}")
        for at, one in enumerate(found)
    ]
    return types.CompletionList(False, items)


def _definition(documents: Documents, params: types.DefinitionParams) -> list[types.Location]:
    from lsprotocol import types
    from pygls.uris import from_fs_path

    analysis = documents.analysis(params.text_document.uri)
    named = documents.name(analysis, params.position)
    found = []
    for one in locations(named, analysis.path) if named is not None else ():
        line, column = one.place.line - 1, one.place.column - 1
        area = types.Range(types.Position(line, column), types.Position(line, column + one.place.length))
        uri = params.text_document.uri if one.path == analysis.path else from_fs_path(str(one.path))
        found += [types.Location(uri, area)] if uri else []
    return found


def _formatting(documents: Documents, uri: str) -> list[types.TextEdit]:
    """Return the edit that puts a text in the house style; none where it has mistakes or is in it."""
    from lsprotocol import types

    analysis = documents.analysis(uri)
    formatted = format_text(analysis.source, analysis.vocabulary)
    if not isinstance(formatted, str) or formatted == analysis.source.text:
        return []
    end = types.Position(len(analysis.source.lines), 0)
    return [types.TextEdit(types.Range(types.Position(0, 0), end), formatted)]


def _lenses(documents: Documents, uri: str) -> list[types.CodeLens]:
    from lsprotocol import types

    analysis = documents.analysis(uri)
    return [
        types.CodeLens(documents.range(analysis, one.place), types.Command(one.words, RUN_EXAMPLES, arguments=[uri]))
        for one in rehearsed(analysis).clauses
    ]
