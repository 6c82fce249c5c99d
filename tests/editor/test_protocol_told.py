"""What the server answers to each request, at every few words of a text that uses another: the
messages of the protocol without a process of its own, each text checked when the test says so."""

from __future__ import annotations

import asyncio
import json
import re
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("pygls", reason="the language server needs the extra `editor`")

from hts.base.text import Source
from hts.checking.rules.examples import BASES
from hts.editor.buffer import Lines, uri_of
from hts.editor.look import Looker, Wanted, worked_out
from hts.editor.place import Text
from hts.editor.server import server
from hts.generate import ROOT
from tests import told

KEPT = Path(__file__).with_name("told") / "protocol.txt"
TODAY = "2026-11-29"
#: The material in a file of its own.
_MATERIAL = re.compile(r"\nmaterial .*?\n}\n", re.S)
LIBRARY = "spec 1\n" + _MATERIAL.findall(BASES["butt"])[0]
#: A letter that counts twice in UTF-16, a waiver of nothing, and a bad line of layout.
MAIN = (
    _MATERIAL.sub("", BASES["butt"])
    .replace("spec 1\n", 'spec 1\n\nuse "library.hts"\n', 1)
    .replace("Tern Island", "Tern Island \U0001f525")
    .replace("from 9:00 to 3:00", "from  9:00 to 2:30")
) + '\nwaive zone-gap on W12/bore {\n  because  "invented"\n}\n'


class Checks:
    """Stands for the checks in a process: notes what it is to look at, and looks when told."""

    def __init__(self, request: Any, answered: Any) -> None:
        self.request, self.answered = request, answered
        self.noted: list[str] = []
        self.users: list[str] = []
        self.looker = Looker()

    def changed(self, key: str, *, quiet: float | None = None) -> None:
        self.noted.append(f"look at {key} {'later' if quiet is None else f'in {quiet} s'}")

    def closed(self, key: str) -> None:
        self.noted.append(f"forget {key}")

    def begin_anew(self) -> None:
        self.noted.append("begin anew")

    def stop(self) -> None:
        self.noted.append("stop")

    def using(self, path: str) -> list[str]:
        self.noted.append(f"who uses {path}")
        return self.users

    async def actions(self, key: str, between: tuple[int, int] | None) -> list[Any]:
        return self.looker.actions(self._wanted(key), between)

    def look(self, key: str, reasons: bool = True) -> None:
        if self.request(key) is not None:
            version = self.request(key)[0]
            data, case = self.looker.look(self._wanted(key))
            self.answered(key, version, data)
            if reasons and case is not None:
                self.answered(key, version, worked_out(case, lambda: False))

    def _wanted(self, key: str) -> Wanted:
        return Wanted(**{**self.request(key)[1], "today": TODAY})


class Editor:
    """Speaks to a server; `told` are the messages it sent, `#` for the folder of the test."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.server = server()
        self.told: list[str] = []
        self.number = 0
        self.server.protocol.set_writer(self, include_headers=False)

    def write(self, data: bytes) -> None:
        answer = json.loads(data)
        answer.pop("jsonrpc"), answer.pop("id", None)
        text = json.dumps(answer, ensure_ascii=False, sort_keys=True)
        self.told.append(text.replace(str(self.folder), "#").replace(uri_of(ROOT), "hts:"))

    def close(self) -> None:
        """A writer has one."""

    async def ask(self, method: str, params: Any) -> list[str]:
        """What is sent in answer to a request."""
        self.number += 1
        return await self._send({"id": self.number, "method": method, "params": params})

    async def tell(self, method: str, params: Any) -> list[str]:
        """What is sent after a notification."""
        return await self._send({"method": method, "params": params})

    async def _send(self, message: dict[str, Any]) -> list[str]:
        before = len(self.told)
        protocol = self.server.protocol
        protocol.handle_message(protocol.structure_message({"jsonrpc": "2.0", **message}))
        for _ in range(4):
            await asyncio.sleep(0)
        return self.told[before:]

    async def begin(self, **options: Any) -> Checks:
        await self.ask(
            "initialize",
            {
                "processId": None,
                "rootUri": uri_of(str(self.folder)),
                "capabilities": {
                    "textDocument": {
                        "completion": {"completionItem": {"snippetSupport": True}},
                    },
                    "workspace": {"inlayHint": {"refreshSupport": True}},
                },
                **options,
            },
        )
        checks: Any = self.server.session.checks
        return checks

    async def open(self, name: str, text: str, version: int = 1) -> str:
        uri = uri_of(str(self.folder / name))
        document = {"uri": uri, "languageId": "hts", "version": version, "text": text}
        await self.tell("textDocument/didOpen", {"textDocument": document})
        return uri


@pytest.fixture
def editor(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Editor:
    monkeypatch.setattr("hts.editor.session.Checks", Checks)
    monkeypatch.setattr("hts.editor.handlers._today", lambda: TODAY)
    # A rule more changes nothing here.
    monkeypatch.setattr("hts.editor.handlers._rules", lambda: [("zone-gap", "a gap")])
    (tmp_path / ".git").mkdir()
    (tmp_path / "library.hts").write_text(LIBRARY, "utf-8")
    (tmp_path / "main.hts").write_text(MAIN, "utf-8")
    return Editor(tmp_path)


def test_each_request_at_every_few_words(editor: Editor) -> None:
    """Of each request the first answer and the first that says nothing, and a digest of all."""
    told_of: dict[str, list[str]] = {}

    async def ask(method: str, where: str, **params: Any) -> None:
        for answer in await editor.ask(f"textDocument/{method}", params):
            kind = "error" if answer.startswith('{"error"') else "answer"
            if answer in ('{"result": null}', '{"result": []}'):
                kind = "nothing"
            if len(answer) > 900:
                answer = f"{answer[:900]} … {told.digest([answer])}"
            told_of.setdefault(method, []).append(f"{kind} {where}: {answer}")

    async def scene() -> None:
        checks = await editor.begin()
        uri = await editor.open("main.hts", MAIN)
        checks.look(uri)
        lines, document = Lines(MAIN, "utf-16"), {"uri": uri}
        at = lambda offset: dict(zip(("line", "character"), lines.position(offset), strict=True))  # noqa: E731
        places = list(Text(Source(MAIN, "main.hts")).places())
        for place in [p for p in places if p.names] + places[::7]:
            here = {"textDocument": document, "position": at(place.span.start + 1)}
            await ask("completion", place.word, **here)
            await ask("hover", place.word, **here)
        for place in [p for p in places if p.names] + places[::40]:
            here = {"textDocument": document, "position": at(place.span.start)}
            for method in ("definition", "prepareRename"):
                await ask(method, place.word, **here)
            for declared in (True, False):
                context = {"includeDeclaration": declared}
                await ask("references", f"{place.word} {declared}", **here, context=context)
        everything = {"start": at(0), "end": at(len(MAIN))}
        for method in (
            "documentSymbol", "foldingRange", "documentLink", "semanticTokens/full",
        ):  # fmt: skip
            await ask(method, "", textDocument=document)
        await ask("formatting", "", textDocument=document,
                  options={"tabSize": 2, "insertSpaces": True})  # fmt: skip
        some = [at(place.span.start) for place in places[::60]]
        await ask("selectionRange", "", textDocument=document, positions=some)
        await ask("inlayHint", "all", textDocument=document, range=everything)
        middle = {"start": at(MAIN.index("joint W12")), "end": at(MAIN.index("kind       girth"))}
        await ask("inlayHint", "four lines", textDocument=document, range=middle)
        found = editor.server.session.outcomes[uri].findings
        for finding in found:
            between = {"start": at(finding["start"]), "end": at(finding["end"])}
            code = f"{finding['code']} {finding['name']}"
            diagnostics = [{"range": between, "message": "", "code": c} for c in (code, "other")]
            for only in (None, ["quickfix"], ["source"], ["source.fixAll.other"]):
                context = {"diagnostics": diagnostics, **({"only": only} if only else {})}
                await ask("codeAction", f"{code} {only}", textDocument=document, range=between,
                          context=context)  # fmt: skip

    asyncio.run(scene())
    told.each_once(
        KEPT,
        {method: "\n".join(lines) for method, lines in told_of.items()},
        lambda line: line.partition(" ")[0],
        by_text=True,
    )


def test_what_becomes_of_texts_and_settings(
    editor: Editor, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A conversation, line by line: what the server sends, and what it has looked at again."""
    lines: list[str] = []

    async def scene() -> None:
        checks = await editor.begin(initializationOptions={"hints": True, "trusted": True})
        able = json.loads(editor.told.pop())["result"]["capabilities"]
        # The rest is the library's.
        for name in ("completion", "codeAction", "semanticTokens", "rename"):
            note(f"{name}: {json.dumps(able[f'{name}Provider'])}")
        session = editor.server.session
        folders = session.workspace.folders
        note(f"folders {folders}, snippets {session.takes_snippets}")
        checks.users = [uri_of(str(editor.folder / name)) for name in ("main.hts", "library.hts")]
        main = await editor.open("main.hts", MAIN)
        await step("renamed before it is checked", ask_rename(main, "W12", "W20"))
        checks.look(main, reasons=False)
        sent("checked")
        checks.look(main)
        sent("and worked out")
        await step("renamed with an error", ask_rename(main, "W12", "W20"))
        library = await editor.open("library.hts", LIBRARY, 5)
        sent("the library")
        await step("a word in it", change(main, 2, [("  axis       horizontal\n", "")]))
        checks.answered(main, 1, {"findings": []})
        checks.answered(main, 1, {"reasons": [], "hints": []})
        sent("late answers")
        right = MAIN.partition("\nwaive ")[0].replace("2:30", "3:00")
        await step("the whole text", change(main, 3, [(None, right)]))
        checks.look(main)
        checks.look(library)
        sent("checked")
        for word, new in (("W12", "W20"), ("pipe and", "run"), ("W12", "two words"), ("axis", "x")):
            await step(f"{word} called {new}", ask_rename(main, word, new))
        checks.answered(main, 3, {"findings": [], "fault": "why", "faults": ["one", "two"],
                                  "untrusted": "hts.toml:1:1"})  # fmt: skip
        sent("faults")
        for settings in (
            {"hts": {"hints": False}}, {"trusted": True}, {"trusted": 1, "hints": 0}, None,
        ):  # fmt: skip
            told_now = editor.tell("workspace/didChangeConfiguration", {"settings": settings})
            await step(f"settings {settings}", told_now)
            note(f"hints {session.shows_hints}")
        other, none, own = "file:///nowhere/else", "untitled:1", uri_of(str(editor.folder))
        for added, removed in (([other, none], [none]), ([], [other, "file:///no"]), ([], [own])):
            event = {
                kind: [{"uri": uri, "name": "x"} for uri in uris]
                for kind, uris in (("added", added), ("removed", removed))
            }
            await editor.tell("workspace/didChangeWorkspaceFolders", {"event": event})
            note(f"folders {folders}")
        buffer, path = session.workspace.buffers[main], str(editor.folder / "library.hts")
        there = {"path": path, "from": (2, 0), "to": (2, 8), "text": ""}
        for other in ({"start": 0, "end": 4, "text": "it"}, there, {**there, "path": None}):
            note(f"beside it {session._related(buffer, other)}")
        large = await editor.open("large.hts", "spec 1\n")
        monkeypatch.setattr("hts.editor.buffer.LARGEST", 6)
        checks.look(large)
        sent("too large")
        for uri in (library, main, main):
            await step(
                "closed", editor.tell("textDocument/didClose", {"textDocument": {"uri": uri}})
            )
        await step("changed though closed", change(main, 9, [(None, "spec 1\n")]))
        for method in ("completion", "hover", "definition", "prepareRename", "documentSymbol",
                       "foldingRange", "semanticTokens/full", "documentLink"):  # fmt: skip
            params = {"textDocument": {"uri": main}, "position": {"line": 0, "character": 1}}
            await step(f"{method} though closed", editor.ask(f"textDocument/{method}", params))
        await step("the end", editor.ask("shutdown", None))

    def note(line: str) -> None:
        lines.append(f"  {line.replace(str(editor.folder), '#')}")

    def sent(about: str) -> None:
        checks: Any = editor.server.session.checks
        lines.append(f"- {about}")
        for line in [*editor.told, *checks.noted]:
            note(line if len(line) < 900 else f"{line[:900]} … {told.digest([line])}")
        editor.told.clear()
        checks.noted.clear()

    async def step(about: str, doing: Any) -> None:
        await doing
        sent(about)

    def ask_rename(uri: str, word: str, new: str) -> Any:
        text = editor.server.session.workspace.buffers[uri].text
        position = Lines(text, "utf-16").position(text.index(word))
        at = dict(zip(("line", "character"), position, strict=True))
        params = {"textDocument": {"uri": uri}, "position": at, "newName": new}
        return editor.ask("textDocument/rename", params)

    def change(uri: str, version: int, pieces: list[tuple[str | None, str]]) -> Any:
        changes = []
        for before, after in pieces:
            if before is None:
                changes.append({"text": after})
                continue
            text = editor.server.session.workspace.buffers[uri].text
            ends = (text.index(before), text.index(before) + len(before))
            start, end = (
                dict(zip(("line", "character"), Lines(text, "utf-16").position(at), strict=True))
                for at in ends
            )
            changes.append({"range": {"start": start, "end": end}, "text": after})
        document = {"uri": uri, "version": version}
        params = {"textDocument": document, "contentChanges": changes}
        return editor.tell("textDocument/didChange", params)

    asyncio.run(scene())
    told.same(KEPT.with_name("conversation.txt"), "all", "\n".join(lines))
