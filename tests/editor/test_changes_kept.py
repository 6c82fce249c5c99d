"""A server that runs for days keeps nothing of a change once it was taken."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

pytest.importorskip("pygls", reason="the language server needs the extra `editor`")

from lsprotocol import types

from hts.editor.server import server
from hts.editor.workspace import Workspace


def test_nothing_of_a_change_is_kept_by_the_library() -> None:
    made: Any = server()
    workspace, told = Workspace([], "utf-16"), []
    made.session = SimpleNamespace(
        workspace=workspace, opened=workspace.open, closed=workspace.close, changed=told.append
    )
    uri = "untitled:a"
    take = made.protocol._handle_notification
    item = types.TextDocumentItem(uri, "hts", 1, "spec 1\n")
    take(types.TEXT_DOCUMENT_DID_OPEN, types.DidOpenTextDocumentParams(item))
    for number in range(2, 50):
        about = types.VersionedTextDocumentIdentifier(number, uri)
        change = types.TextDocumentContentChangeWholeDocument(f"spec 1\n# {number}\n")
        take(types.TEXT_DOCUMENT_DID_CHANGE, types.DidChangeTextDocumentParams(about, [change]))
    assert workspace.buffers[uri].text.endswith("# 49\n") and len(told) == 48
    about = types.TextDocumentIdentifier(uri)
    take(types.TEXT_DOCUMENT_DID_CLOSE, types.DidCloseTextDocumentParams(about))
    assert workspace.buffers == {}
    assert made.protocol._request_futures == {}
