"""The language server as an editor meets it, over its own process and the protocol."""

from __future__ import annotations

import asyncio
import random
import sys
from collections.abc import AsyncIterator
from pathlib import Path

import pytest
import pytest_asyncio

pytest.importorskip("pygls", reason="the language server needs the extra `editor`")
pytest_lsp = pytest.importorskip("pytest_lsp", reason="tests of the server need pytest-lsp")

from lsprotocol import types  # noqa: E402
from pytest_lsp import (  # noqa: E402
    ClientServerConfig,
    LanguageClient,
    client_capabilities,
    make_test_lsp_client,
)

import hts  # noqa: E402
from hts.editor.buffer import Buffer, Lines, uri_of  # noqa: E402
from hts.generate import ROOT  # noqa: E402
from tests.sampling import in_turn  # noqa: E402

pytestmark = pytest.mark.asyncio(loop_scope="module")
SPEC = Path(ROOT, "specs/p22-header.hts")
COMMAND = [sys.executable, "-m", "hts", "language-server"]


def recording() -> LanguageClient:
    """A client that keeps what is published, with the versions, and which texts are open."""
    client = make_test_lsp_client()
    client.published = []
    client.open = set()
    client.protocol.fm.features[types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS] = lambda params: (
        client.published.append(params)
    )
    return client


@pytest_lsp.fixture(
    scope="module",
    config=ClientServerConfig(server_command=COMMAND, client_factory=recording),
)
async def running(lsp_client: LanguageClient) -> AsyncIterator[None]:
    able = client_capabilities("visual_studio_code")
    await lsp_client.initialize_session(
        types.InitializeParams(capabilities=able, root_uri=uri_of(ROOT))
    )
    yield
    await lsp_client.shutdown_session()


@pytest_asyncio.fixture(loop_scope="module")
async def client(running: LanguageClient) -> AsyncIterator[LanguageClient]:
    """One server for all tests, as for a day at a desk: each test closes what it opened."""
    running.published.clear()
    yield running
    for uri in running.open.copy():
        closed(running, uri)
        async with asyncio.timeout(30):
            while not any(told.uri == uri and told.version is None for told in running.published):
                await asyncio.sleep(0.02)


def opened(client: LanguageClient, uri: str, text: str, version: int = 1) -> None:
    client.open.add(uri)
    item = types.TextDocumentItem(uri, "hts", version, text)
    client.text_document_did_open(types.DidOpenTextDocumentParams(item))


def closed(client: LanguageClient, uri: str) -> None:
    client.open.remove(uri)
    about = types.TextDocumentIdentifier(uri)
    client.text_document_did_close(types.DidCloseTextDocumentParams(about))


def changed(client: LanguageClient, uri: str, text: str, version: int) -> None:
    about = types.VersionedTextDocumentIdentifier(version, uri)
    whole = types.TextDocumentContentChangeWholeDocument(text)
    client.text_document_did_change(types.DidChangeTextDocumentParams(about, [whole]))


async def published(
    client: LanguageClient, uri: str, version: int | None = None
) -> list[types.Diagnostic]:
    """The findings of a version of a text, once they have come."""
    async with asyncio.timeout(30):
        while True:
            for told in client.published:
                if told.uri == uri and (version is None or told.version == version):
                    return list(told.diagnostics)
            await asyncio.sleep(0.02)


def position(text: str, offset: int) -> types.Position:
    return types.Position(*Lines(text, "utf-16").position(offset))


def about(uri: str, text: str, words: str, ahead: int = 0) -> dict[str, object]:
    """Parameters of a request about a place."""
    return {
        "text_document": types.TextDocumentIdentifier(uri),
        "position": position(text, text.index(words) + ahead),
    }


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A repository of its own: the header of Tern Island and its library."""
    (tmp_path / ".git").mkdir()
    (tmp_path / "library").mkdir()
    for path in (SPEC, *Path(ROOT, "specs/library").glob("*.hts")):
        where = tmp_path / ("library" if path.parent.name == "library" else "")
        (where / path.name).write_bytes(path.read_bytes())
    return tmp_path


async def test_findings_come_and_go(client: LanguageClient, folder: Path) -> None:
    path = folder / SPEC.name
    uri, text = uri_of(str(path)), path.read_text("utf-8")
    opened(client, uri, text)
    assert await published(client, uri, 1) == []
    # Letters beyond the first plane count twice in UTF-16; nothing has been saved.
    wrong = text.replace("instrument tapping,", "\U0001f525 \U0001f525 tapping,")
    wrong = wrong.replace("monitored by T12", "monitored by T99")
    wrong = wrong.replace("from 10:30 to 1:30", "from 10:30 to 1:00")
    changed(client, uri, wrong, 2)
    told = await published(client, uri, 2)
    expected = hts.check(hts.load(wrong, near=hts.load(path)), today="2026-11-29")
    assert sorted((d.code, d.range.start) for d in told) == sorted(
        (f"{f.kind.code} {f.kind.name}", position(wrong, f.at.span.start)) for f in expected
    )
    gap = next(d for d in told if "zone-gap" in str(d.code))
    assert gap.code_description is not None
    assert "/RULES.md#z113-zone-gap" in gap.code_description.href
    assert gap.related_information
    closed(client, uri)
    async with asyncio.timeout(10):
        while client.published[-1].diagnostics or client.published[-1].version is not None:
            await asyncio.sleep(0.02)


async def test_used_files_count_unsaved_and_when_written(
    client: LanguageClient, folder: Path
) -> None:
    path, library = folder / SPEC.name, folder / "library/materials.hts"
    uri, text = uri_of(str(path)), path.read_text("utf-8")
    opened(client, uri, text)
    assert await published(client, uri, 1) == []
    client.published.clear()
    other = library.read_text("utf-8").replace("pipe-p22", "pipe-p23")
    opened(client, uri_of(str(library)), other)
    told = await published(client, uri)
    assert [str(d.code) for d in told] == ["W111 unknown-name"] * len(told) != []
    client.published.clear()
    closed(client, uri_of(str(library)))
    assert await published(client, uri) == []
    client.published.clear()
    library.write_text(other, "utf-8")
    assert await published(client, uri) != []


async def test_many_changes_are_one_publish(client: LanguageClient) -> None:
    uri, text = uri_of(str(SPEC)), SPEC.read_text("utf-8")
    opened(client, uri, text)
    await published(client, uri, 1)
    client.published.clear()
    for version in range(2, 22):
        changed(client, uri, f"{text}\n# {version}", version)
        await asyncio.sleep(0.04)
    await published(client, uri, 21)
    versions = [told.version for told in client.published]
    assert versions == sorted(versions)
    # At most one in between: a slow machine may pause for longer than the quiet time.
    assert len(versions) <= 3


async def test_what_stands_at_a_place(client: LanguageClient) -> None:
    uri, text = uri_of(str(SPEC)), SPEC.read_text("utf-8")
    opened(client, uri, text)
    await published(client, uri, 1)

    hover = await client.text_document_hover_async(
        types.HoverParams(**about(uri, text, "930 mm total"))
    )
    assert "36.61 in" in hover.contents.value
    offers = await client.text_document_completion_async(
        types.CompletionParams(**about(uri, text, "top            at 12:00"))
    )
    assert [item.label for item in offers.items[:4]] == ["top", "right", "bottom", "left"]
    there = await client.text_document_definition_async(
        types.DefinitionParams(**about(uri, text, "pipe-p22 and"))
    )
    assert there.uri == uri_of(str(SPEC.parent / "library/materials.hts"))
    context = types.ReferenceContext(include_declaration=True)
    places = await client.text_document_references_async(
        types.ReferenceParams(context, **about(uri, text, "zone top", 6))
    )
    assert len([at for at in places if at.uri == uri]) == 4
    symbols = await client.text_document_document_symbol_async(
        types.DocumentSymbolParams(types.TextDocumentIdentifier(uri))
    )
    joint = next(each for each in symbols if each.name == "W12")
    assert {"T1", "T12"} < {each.name for inner in joint.children for each in inner.children}
    document = types.TextDocumentIdentifier(uri)
    links = await client.text_document_document_link_async(types.DocumentLinkParams(document))
    assert len(links) == 5
    tokens = await client.text_document_semantic_tokens_full_async(
        types.SemanticTokensParams(document)
    )
    assert len(tokens.data) > 5 * 1000
    ranges = await client.text_document_selection_range_async(
        types.SelectionRangeParams(document, [position(text, text.index("62 mm"))])
    )
    assert ranges[0].parent.parent.parent is not None
    folds = await client.text_document_folding_range_async(types.FoldingRangeParams(document))
    assert len(folds) == 12
    edits = await client.text_document_formatting_async(
        types.DocumentFormattingParams(document, types.FormattingOptions(2, True))
    )
    assert not edits
    async with asyncio.timeout(20):
        hints: list[types.InlayHint] = []
        whole = types.Range(types.Position(0, 0), types.Position(1000, 0))
        while not hints:
            hints = await client.text_document_inlay_hint_async(
                types.InlayHintParams(document, whole)
            )
            await asyncio.sleep(0.05)
    labels = [hint.label for hint in hints]
    assert "= 39.6 mm (1.559 in)" in labels  # governing thickness by rule
    assert "= 958 mm" in labels  # 6:00 of NPS 24: half of 609.6 mm x pi
    reasoned = await client.text_document_hover_async(
        types.HoverParams(**about(uri, text, "for 2 h", 4))
    )
    assert "2.5 min/mm * t" in reasoned.contents.value


async def test_a_name_is_changed_everywhere_or_nowhere(
    client: LanguageClient, folder: Path
) -> None:
    path = folder / SPEC.name
    uri, text = uri_of(str(path)), path.read_text("utf-8")
    opened(client, uri, text)
    await published(client, uri, 1)
    edit = await client.text_document_rename_async(
        types.RenameParams(new_name="hdr", **about(uri, text, "pipe-p22 and"))
    )
    library = uri_of(str(folder / "library/materials.hts"))
    assert {where: len(edits) for where, edits in edit.changes.items()} == {
        uri: 2,
        library: 1,
        uri_of(str(folder / "library/joints.hts")): 2,
        uri_of(str(folder / "library/typicals.hts")): 2,
    }
    for taken in ("top", "from", "two words", "{"):
        with pytest.raises(Exception, match=r"read as something else|already|not a name"):
            await client.text_document_rename_async(
                types.RenameParams(new_name=taken, **about(uri, text, "zone bottom", 6))
            )
    changed(client, uri, text.replace("datum", "dotum"), 2)
    await published(client, uri, 2)
    with pytest.raises(Exception, match="has errors"):
        await client.text_document_rename_async(
            types.RenameParams(new_name="hdr", **about(uri, text, "zone bottom", 6))
        )


def trusting(client: LanguageClient, trusted: bool) -> None:
    client.workspace_did_change_configuration(
        types.DidChangeConfigurationParams({"hts": {"trusted": trusted}})
    )


async def test_rule_packs_run_only_where_the_folder_is_trusted(
    client: LanguageClient, folder: Path
) -> None:
    (folder / "hts.toml").write_text('rule-packs = ["nobody-has-this"]\n', "utf-8")
    path = folder / SPEC.name
    uri, text = uri_of(str(path)), path.read_text("utf-8")
    opened(client, uri, text)
    told = await published(client, uri, 1)
    assert len(told) == 1
    assert "named at hts.toml:1:1 are not run, so that their rules are not" in told[0].message
    client.published.clear()
    trusting(client, True)
    told = await published(client, uri, 1)
    # Trusted, the user's own settings still have to name it.
    assert "rule pack nobody-has-this may not run" in told[0].message
    trusting(client, False)


async def test_actions_are_proved_and_told_with_their_verdicts(
    client: LanguageClient, folder: Path
) -> None:
    path = folder / SPEC.name
    uri = uri_of(str(path))
    text = path.read_text("utf-8").replace("}\n\npreheat W12 {", "} preheat W12 {")
    text = text.replace("at most 120 degC/h\n  hold", "at most 120 C/hr\n  hold")
    opened(client, uri, text)
    told = await published(client, uri, 1)
    assert {str(d.code)[:4] for d in told} == {"S108", "Q102"}
    document = types.TextDocumentIdentifier(uri)

    async def actions(found: types.Diagnostic, *only: str) -> list[types.CodeAction]:
        context = types.CodeActionContext([found], only=list(only) or None)
        return list(
            await client.text_document_code_action_async(
                types.CodeActionParams(document, found.range, context)
            )
        )

    unit = next(d for d in told if str(d.code).startswith("Q102"))
    first, *others = await actions(unit)
    assert first.title == "write `degC/h` (re-approve rate added: W12/stress-relief/heat-2/at-most)"
    assert not first.is_preferred
    assert first.edit.changes[uri][0].new_text == "degC/h"
    assert [each.title for each in others if "waive" in each.title] == []
    (every,) = await actions(unit, "source.fixAll")
    assert every.title == "mend the layout"
    assert every.edit.changes[uri][0].new_text.strip() == ""


async def test_a_text_that_is_no_file(client: LanguageClient) -> None:
    opened(client, "untitled:Untitled-1", "spec 1\r\njoint W1 {\r\n  wal 10 mm\r\n}\r\n")
    told = await published(client, "untitled:Untitled-1", 1)
    assert told[0].range.start == types.Position(2, 2)


async def fuzzed(client: LanguageClient, folder: Path, count: int, seed: int) -> None:
    """Random edits and requests: every request is answered, no version is told after a newer one,
    and in the end the findings are those of the text."""
    chance = random.Random(seed)
    path = folder / SPEC.name
    uri, text = uri_of(str(path)), path.read_text("utf-8")
    held = Buffer(uri, text, 1, "utf-16")
    opened(client, uri, text)
    document = types.TextDocumentIdentifier(uri)
    pieces = ["", *'{}"\n, \u2028', "\r\n", "\U0001f525", "zone top", "by rule"]
    for version in range(2, count + 2):
        start = chance.randrange(len(held.whole) + 1)
        end = min(len(held.whole), start + chance.choice((0, 0, 1, 2, 30)))
        # No editor has a place between CR and LF.
        first, last = held.lines.position(start), held.lines.position(end)
        first = held.lines.position(held.lines.offset(*first))
        last = held.lines.position(held.lines.offset(*last))
        piece = chance.choice(pieces)
        change: object = types.TextDocumentContentChangePartial(
            types.Range(types.Position(*first), types.Position(*last)), piece
        )
        if chance.random() < 0.01:
            # Begun anew now and then, so that there is something left to spoil.
            change = types.TextDocumentContentChangeWholeDocument(text)
            held.change(text, None, None)
        else:
            held.change(piece, first, last)
        client.text_document_did_change(
            types.DidChangeTextDocumentParams(
                types.VersionedTextDocumentIdentifier(version, uri), [change]
            )
        )
        at = {"text_document": document, "position": types.Position(*first)}
        ask = chance.randrange(8)
        if ask == 0:
            await client.text_document_completion_async(types.CompletionParams(**at))
        elif ask == 1:
            await client.text_document_hover_async(types.HoverParams(**at))
        elif ask == 2:
            await client.text_document_semantic_tokens_full_async(
                types.SemanticTokensParams(document)
            )
        elif ask == 3:
            await client.text_document_document_symbol_async(types.DocumentSymbolParams(document))
        elif ask == 4:
            await client.text_document_definition_async(types.DefinitionParams(**at))
    told = await published(client, uri, count + 1)
    versions = [each.version for each in client.published]
    assert versions == sorted(versions)
    path.write_text(held.whole, "utf-8", newline="")
    expected = hts.check(hts.load(path), today="2026-11-29")
    found = sorted((str(d.code), d.range.start) for d in told)
    assert found == sorted(
        (
            f"{f.kind.code} {f.kind.name}",
            types.Position(*held.position(f.at.span.start)),
        )
        for f in expected
    )


async def test_fuzzed_edits(client: LanguageClient, folder: Path) -> None:
    await fuzzed(client, folder, 300, 1)


@pytest.mark.parametrize("seed", in_turn(range(2, 6), 4))
async def test_thousands_of_fuzzed_edits(client: LanguageClient, folder: Path, seed: int) -> None:
    await fuzzed(client, folder, 2500, seed)
