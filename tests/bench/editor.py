"""Times the language server as an editor meets it: `python -m tests.bench.editor`.

Wall time over the protocol, the quiet time included, and processor time of the server with the
process that checks. With `--rival FOLDER`, a folder in which `npm install yaml-language-server` was
run, the same changes are sent to that server over the same content as YAML under our own schema.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import yaml

import hts
from hts.editor.buffer import Lines, uri_of
from hts.language.vocabulary.export import export

ROOT = Path(__file__).parents[2]
SPEC = ROOT / "specs" / "p22-header.hts"
ROUNDS = 15


def text_of(lines: int) -> str:
    """The header of Tern Island with as many welds as make so many lines."""
    text = SPEC.read_text("utf-8")
    at = text.index("joint W12 {")
    head, body = text[:at], text[at:]
    found = head + body
    number = 13
    while found.count("\n") + body.count("\n") * 0.6 < lines:
        found += re.sub(r"\bW12\b", f"W{number}", body).replace("\ncycle ", f"\ncycle c{number}-")
        number += 1
    return found


class Client:
    """One server in a process of its own; every message it sends is kept with its time."""

    def __init__(self, command: list[str], settings: dict[str, Any] | None = None) -> None:
        self.settings = settings or {}
        self.process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        self.number = 0
        self.answers: dict[int, float] = {}
        self.published: list[tuple[float, str, int | None, int]] = []
        self.news = threading.Condition()
        threading.Thread(target=self._listen, daemon=True).start()
        able = {
            "workspace": {"configuration": True, "didChangeConfiguration": {}},
            "textDocument": {"publishDiagnostics": {"versionSupport": True}},
        }
        asked = {"processId": None, "rootUri": uri_of(str(ROOT)), "capabilities": able}
        self.hello = self.ask("initialize", asked)
        self.tell("initialized", {})
        if settings:
            self.tell("workspace/didChangeConfiguration", {"settings": settings})

    def _send(self, message: dict[str, Any]) -> None:
        data = json.dumps({"jsonrpc": "2.0", **message}).encode()
        assert self.process.stdin is not None
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n" % len(data) + data)
        self.process.stdin.flush()

    def tell(self, method: str, params: Any) -> None:
        self._send({"method": method, "params": params})

    def ask(self, method: str, params: Any) -> float:
        """Seconds until the answer."""
        begun = time.perf_counter()
        number = self.send(method, params)
        return self.wait(number) - begun

    def send(self, method: str, params: Any) -> int:
        self.number += 1
        self._send({"id": self.number, "method": method, "params": params})
        return self.number

    def wait(self, number: int) -> float:
        with self.news:
            assert self.news.wait_for(lambda: number in self.answers, 60)
            return self.answers[number]

    def _listen(self) -> None:
        out = self.process.stdout
        assert out is not None
        while head := out.readline():
            length = int(head.split(b":")[1]) if head.lower().startswith(b"content-length") else 0
            while out.readline().strip():
                pass
            message = json.loads(out.read(length))
            now = time.perf_counter()
            if "id" in message and "method" in message:
                items = (message.get("params") or {}).get("items", [])
                answer = [self.settings.get(item.get("section"), {}) for item in items] or None
                self._send({"id": message["id"], "result": answer})
                continue
            with self.news:
                if "id" in message:
                    self.answers[message["id"]] = now
                elif message["method"] == "textDocument/publishDiagnostics":
                    told = message["params"]
                    count = len(told["diagnostics"])
                    self.published.append((now, told["uri"], told.get("version"), count))
                self.news.notify_all()

    def open(self, uri: str, text: str, language: str = "hts") -> float:
        """Seconds until the first findings."""
        begun = time.perf_counter()
        item = {"uri": uri, "languageId": language, "version": 1, "text": text}
        self.tell("textDocument/didOpen", {"textDocument": item})
        return self._published(uri, begun) - begun

    def change(self, uri: str, version: int, at: tuple[int, int], text: str) -> None:
        where = {"line": at[0], "character": at[1]}
        change = {"range": {"start": where, "end": where}, "text": text}
        about = {"uri": uri, "version": version}
        params = {"textDocument": about, "contentChanges": [change]}
        self.tell("textDocument/didChange", params)

    def _published(self, uri: str, since: float) -> float:
        def there() -> list[float]:
            return [when for when, where, _, _ in self.published if where == uri and when > since]

        with self.news:
            assert self.news.wait_for(there, 60)
            return there()[0]

    def publish_after_change(self, uri: str, version: int, at: tuple[int, int]) -> float:
        begun = time.perf_counter()
        self.change(uri, version, at, " ")
        return self._published(uri, begun) - begun

    def processes(self) -> list[int]:
        """The server and what it started."""
        own = self.process.pid
        children = Path(f"/proc/{own}/task/{own}/children")
        found = [own]
        if children.exists():
            found += [int(pid) for pid in children.read_text().split()]
        return found

    def busy(self) -> float:
        """Processor seconds of the server and what it started (Linux)."""
        ticks = 0
        for pid in self.processes():
            fields = Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()
            ticks += int(fields[11]) + int(fields[12])
        return ticks / os.sysconf("SC_CLK_TCK")

    def memory(self) -> float:
        """Megabytes that the server and what it started take for themselves."""
        total = 0
        for pid in self.processes():
            rollup = Path(f"/proc/{pid}/smaps_rollup").read_text()
            total += int(re.search(r"^Pss:\s+(\d+)", rollup, re.M)[1])  # type: ignore[index]
        return total / 1000

    def end(self) -> None:
        self.process.kill()


def place(text: str, words: str) -> dict[str, Any]:
    line, column = Lines(text, "utf-16").position(text.index(words))
    return {"line": line, "character": column}


def ours(lines: int) -> None:
    text = text_of(lines)
    client = Client([sys.executable, "-m", "hts", "language-server"])
    path = ROOT / "specs" / f"bench-{lines}.hts"
    uri = uri_of(str(path))
    first = client.open(uri, text)
    end = Lines(text, "utf-16").position(len(text))
    time.sleep(1)
    before = client.busy()
    waits = []
    for n in range(ROUNDS):
        waits.append(client.publish_after_change(uri, n + 2, end))
        time.sleep(0.3)
    spent = (client.busy() - before) / ROUNDS
    about = {"textDocument": {"uri": uri}, "position": place(text, "top            at 12:00")}
    idle = {m: client.ask(f"textDocument/{m}", about) for m in ("completion", "hover")}
    worst = {"completion": 0.0, "hover": 0.0}
    version = ROUNDS + 2
    for n in range(60):
        if n % 6 == 0:
            client.change(uri, version, end, "#")
            version += 1
        for method in worst:
            worst[method] = max(worst[method], client.ask(f"textDocument/{method}", about))
        time.sleep(0.02)
    time.sleep(1)
    known = len(client.published)
    for _ in range(20):
        client.change(uri, version, end, "#")
        version += 1
        time.sleep(0.04)
    time.sleep(1.5)
    told = [v for _, _, v, _ in client.published[known:]]
    assert told == sorted(v or 0 for v in told)
    print(
        f"hts  {text.count(chr(10)):5} lines: initialize {client.hello * 1e3:4.0f} ms, first "
        f"findings {first * 1e3:4.0f} ms; change to publish median "
        f"{statistics.median(waits) * 1e3:4.0f} ms, worst {max(waits) * 1e3:4.0f}; processor "
        f"{spent * 1e3:4.0f} ms; completion {idle['completion'] * 1e3:3.0f} ms idle, worst while "
        f"checking {worst['completion'] * 1e3:3.0f}; hover {idle['hover'] * 1e3:3.0f}, "
        f"{worst['hover'] * 1e3:3.0f}; 20 changes: {len(told)} publishes; {client.memory():3.0f} MB"
    )
    client.end()


def many(count: int) -> None:
    """Memory with many texts open."""
    client = Client([sys.executable, "-m", "hts", "language-server"])
    text = text_of(555)
    for number in range(count):
        client.open(uri_of(str(ROOT / "specs" / f"bench-{number}.hts")), f"{text}# {number}\n")
    time.sleep(1)
    print(f"hts  {count} texts of {text.count(chr(10))} lines open: {client.memory():.0f} MB")
    client.end()


def days(count: int) -> None:
    """Memory over very many changes: a letter here and there, as somebody who writes for days.

    What was read of a line is remembered for the last 4,096 different lines, and what governs
    joints for the last 500 different sets of facts: memory grows until these are full, and no more.
    """
    text = text_of(215)
    client = Client([sys.executable, "-m", "hts", "language-server"])
    uri = uri_of(str(ROOT / "specs" / "bench-days.hts"))
    client.open(uri, text)
    draw = random.Random(1)
    lines = text.count("\n")
    told: list[str] = []
    last = (0, 0)
    for number in range(2, count + 2):
        at = (draw.randrange(lines), 0)
        if number % 2:
            undone = {"start": {"line": last[0], "character": 0},
                      "end": {"line": last[0], "character": 1}}  # fmt: skip
            about = {"uri": uri, "version": number}
            change = {"range": undone, "text": ""}
            params = {"textDocument": about, "contentChanges": [change]}
            client.tell("textDocument/didChange", params)
        else:
            client.change(uri, number, at, draw.choice("0123456789abc"))
            last = at
        if number % 2 == 0:
            time.sleep(0.13)  # long enough to be checked
        if (number - 1) % (count // 5) == 0:
            time.sleep(1)
            told.append(f"{client.memory():.1f}")
    print(f"hts  memory over {count} changes, after each fifth: {', '.join(told)} MB   goal +10 MB")
    client.end()


def rival(folder: str, modules: str) -> None:
    """yaml-language-server over the header as YAML, with the schema of what we export."""
    spec = hts.load(SPEC)
    text = yaml.safe_dump(export(spec.file), sort_keys=False, allow_unicode=True)
    schema = json.loads((ROOT / "grammar/spec.schema.json").read_text("utf-8"))
    whole = {"$schema": schema["$schema"], "$ref": "#/$defs/file", "$defs": schema["$defs"]}
    where = Path(folder, "file.schema.json")
    where.write_text(json.dumps(whole), "utf-8")
    settings = {
        "yaml": {"schemas": {uri_of(str(where)): "*.yaml"}, "validate": True, "completion": True},
        "[yaml]": {},
        "editor": {},
        "files": {},
    }
    server = Path(modules, "node_modules/.bin/yaml-language-server")
    client = Client([str(server), "--stdio"], settings)
    uri = uri_of(str(Path(folder, "header.yaml")))
    first = client.open(uri, text, "yaml")
    end = Lines(text, "utf-16").position(len(text))
    time.sleep(2)
    before = client.busy()
    waits = []
    for n in range(ROUNDS):
        waits.append(client.publish_after_change(uri, n + 2, end))
        time.sleep(0.3)
    spent = (client.busy() - before) / ROUNDS
    about = {"textDocument": {"uri": uri}, "position": place(text, "kind: girth")}
    idle = [client.ask("textDocument/completion", about) for _ in range(5)]
    print(
        f"yaml {text.count(chr(10)):5} lines: initialize {client.hello * 1e3:4.0f} ms, first "
        f"findings {first * 1e3:4.0f} ms; change to publish median "
        f"{statistics.median(waits) * 1e3:4.0f} ms, worst {max(waits) * 1e3:4.0f}; processor "
        f"{spent * 1e3:4.0f} ms; completion {statistics.median(idle) * 1e3:3.0f} ms idle; "
        f"{client.memory():3.0f} MB; shape and choices only"
    )
    client.end()


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--changes", type=int, default=0, help="changes to see memory grow over")
    parser.add_argument("--rival", metavar="FOLDER", help="where yaml-language-server is installed")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        steps: list[Callable[[], None]] = [
            lambda: ours(215),
            lambda: ours(555),
            lambda: ours(2000),
            lambda: many(20),
        ]
        if asked.changes:
            steps.append(lambda: days(asked.changes))
        if asked.rival:
            steps.append(lambda: rival(folder, asked.rival))
        for step in steps:
            step()


if __name__ == "__main__":
    main()
