"""The language server: tells an editor over the Language Server Protocol what hts.editor knows.

The protocol's bookkeeping is the library's (pygls); the texts are kept here.
"""

from __future__ import annotations

import gc
import inspect
import logging
from collections.abc import Callable
from typing import Any

from lsprotocol import types
from pygls.lsp.server import LanguageServer
from pygls.protocol import LanguageServerProtocol, lsp_method
from pygls.uris import from_fs_path

from hts import __version__
from hts.editor import handlers
from hts.editor import tokens as words
from hts.editor.buffer import UTF16, path_of
from hts.editor.session import Session
from hts.editor.workspace import Workspace

Handler = Callable[[Session, Any], Any]

#: Request, what answers it, and what the editor is told about it beforehand.
_REQUESTS: tuple[tuple[str, Handler, Any], ...] = (
    (
        types.TEXT_DOCUMENT_COMPLETION,
        handlers.complete,
        types.CompletionOptions(trigger_characters=[" ", '"', "/", "."]),
    ),
    (types.TEXT_DOCUMENT_HOVER, handlers.hovering, None),
    (types.TEXT_DOCUMENT_INLAY_HINT, handlers.hinting, None),
    (types.TEXT_DOCUMENT_FORMATTING, handlers.laying_out, None),
    (
        types.TEXT_DOCUMENT_CODE_ACTION,
        handlers.acting,
        types.CodeActionOptions([types.CodeActionKind.QuickFix, handlers.FIX_ALL]),
    ),
    (types.TEXT_DOCUMENT_DOCUMENT_SYMBOL, handlers.listing, None),
    (types.TEXT_DOCUMENT_FOLDING_RANGE, handlers.folding, None),
    (types.TEXT_DOCUMENT_SELECTION_RANGE, handlers.selecting, None),
    (
        types.TEXT_DOCUMENT_SEMANTIC_TOKENS_FULL,
        handlers.colouring,
        types.SemanticTokensLegend(list(words.KINDS), list(words.MODIFIERS)),
    ),
    (types.TEXT_DOCUMENT_DOCUMENT_LINK, handlers.linking, None),
    (types.TEXT_DOCUMENT_DEFINITION, handlers.going_to, None),
    (types.TEXT_DOCUMENT_REFERENCES, handlers.referring, None),
    (types.TEXT_DOCUMENT_PREPARE_RENAME, handlers.preparing, None),
    (types.TEXT_DOCUMENT_RENAME, handlers.renaming, types.RenameOptions(prepare_provider=True)),
)


class Protocol(LanguageServerProtocol):
    """The protocol without the library's own copies of the texts: it parts lines at more signs than
    editors do, and moves the positions it is given."""

    # Plain functions: of a generator for a notification the library keeps the result for good.
    @lsp_method(types.TEXT_DOCUMENT_DID_OPEN)
    def lsp_text_document__did_open(self, params: types.DidOpenTextDocumentParams) -> None:
        """A text was opened."""
        self.fm.features[types.TEXT_DOCUMENT_DID_OPEN](params)

    @lsp_method(types.TEXT_DOCUMENT_DID_CHANGE)
    def lsp_text_document__did_change(self, params: types.DidChangeTextDocumentParams) -> None:
        """A text was changed."""
        self.fm.features[types.TEXT_DOCUMENT_DID_CHANGE](params)

    @lsp_method(types.TEXT_DOCUMENT_DID_CLOSE)
    def lsp_text_document__did_close(self, params: types.DidCloseTextDocumentParams) -> None:
        """A text was closed."""
        self.fm.features[types.TEXT_DOCUMENT_DID_CLOSE](params)


class Server(LanguageServer):
    """``session`` is there once the editor has said hello."""

    session: Session

    def begin(self, params: types.InitializeParams) -> None:
        """Takes the folders, the encoding and the settings of the editor."""
        folders = [folder.uri for folder in params.workspace_folders or []]
        if not folders and (params.root_uri or params.root_path):
            folders = [params.root_uri or from_fs_path(params.root_path or "") or ""]
        paths = [path for uri in folders if (path := path_of(uri)) is not None]
        options = params.initialization_options
        settings = options if isinstance(options, dict) else {}
        encoding = str(getattr(self.workspace.position_encoding, "value", None) or UTF16)
        workspace = Workspace(paths, encoding)
        self.session = Session(workspace, self._publish, self._refresh)
        text = params.capabilities.text_document
        item = text.completion.completion_item if text and text.completion else None
        self.session.takes_snippets = bool(item and item.snippet_support)
        self.take(settings)

    def take(self, settings: dict[str, Any]) -> None:
        """Takes settings: `hints` shows what is worked out, `trusted` lets rule packs run."""
        self.session.shows_hints = settings.get("hints", True) is not False
        self.session.trust(settings.get("trusted") is True)

    def _publish(self, uri: str, version: int | None, found: list[types.Diagnostic]) -> None:
        self.text_document_publish_diagnostics(
            types.PublishDiagnosticsParams(uri, found, version=version)
        )

    def _refresh(self) -> None:
        able = self.client_capabilities.workspace
        if able is not None and able.inlay_hint is not None and able.inlay_hint.refresh_support:
            self.workspace_inlay_hint_refresh(None)


def server() -> Server:
    """A server with everything it answers."""
    made = Server("hts", __version__, protocol_cls=Protocol)
    made.feature(types.INITIALIZE)(lambda params: made.begin(params))
    for request, handler, options in _REQUESTS:
        made.feature(request, options)(_answering(made, handler))

    def opened(params: types.DidOpenTextDocumentParams) -> None:
        text = params.text_document
        made.session.opened(text.uri, text.text, text.version)

    def changed(params: types.DidChangeTextDocumentParams) -> None:
        uri = params.text_document.uri
        buffer = made.session.workspace.buffers.get(uri)
        if buffer is None:
            return
        for change in params.content_changes:
            if isinstance(change, types.TextDocumentContentChangePartial):
                start, end = change.range.start, change.range.end
                buffer.change(change.text, (start.line, start.character), (end.line, end.character))
            else:
                buffer.change(change.text, None, None)
        buffer.version = params.text_document.version
        made.session.changed(uri)

    def closed(params: types.DidCloseTextDocumentParams) -> None:
        made.session.closed(params.text_document.uri)

    def folders(params: types.DidChangeWorkspaceFoldersParams) -> None:
        known = made.session.workspace.folders
        for folder in params.event.removed:
            path = path_of(folder.uri)
            if path in known:
                known.remove(path)
        known += [p for folder in params.event.added if (p := path_of(folder.uri)) is not None]

    def settings(params: types.DidChangeConfigurationParams) -> None:
        told = params.settings
        if isinstance(told, dict):
            made.take(told.get("hts", told))
            made.session.again()

    def ended(_: None) -> None:
        made.session.checks.stop()

    made.feature(types.TEXT_DOCUMENT_DID_OPEN)(opened)
    made.feature(types.TEXT_DOCUMENT_DID_CHANGE)(changed)
    made.feature(types.TEXT_DOCUMENT_DID_CLOSE)(closed)
    made.feature(types.WORKSPACE_DID_CHANGE_WORKSPACE_FOLDERS)(folders)
    made.feature(types.WORKSPACE_DID_CHANGE_CONFIGURATION)(settings)
    made.feature(types.SHUTDOWN)(ended)
    return made


def _answering(made: Server, handler: Handler) -> Callable[[Any], Any]:
    if inspect.iscoroutinefunction(handler):

        async def answer_later(params: Any) -> Any:
            return await handler(made.session, params)

        return answer_later

    def answer(params: Any) -> Any:
        return handler(made.session, params)

    return answer


def serve() -> None:
    """Answers on standard input and output until the editor ends it."""
    # What the library logs goes to standard error, which editors keep; its chatter is left out.
    logging.basicConfig(level=logging.ERROR)
    # A command is over before its garbage matters; this runs for days, and each version of a text
    # leaves some.
    gc.freeze()
    gc.set_threshold(5_000, 10, 10)
    server().start_io()
