"""The package for VS Code: what is in it, and which program its client starts."""

from __future__ import annotations

import io
import json
import os
import shutil
import subprocess
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest

from hts import __version__
from hts.generate.package import SOURCES, package


def test_the_same_text_gives_the_same_bytes() -> None:
    data = package("client", "notices")
    assert data == package("client", "notices")
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        names = archive.namelist()
        assert names == sorted(names)
        assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        manifest = json.loads(archive.read("extension/package.json"))
        assert manifest["version"] == __version__
        parts = manifest["contributes"]
        paths = [parts["languages"][0]["configuration"], parts["grammars"][0]["path"]]
        for path in (*paths, parts["snippets"][0]["path"], manifest["main"]):
            assert f"extension/{path.removeprefix('./')}" in names
        for name in ("extension.vsixmanifest", "[Content_Types].xml"):
            ElementTree.fromstring(archive.read(name))


#: What VS Code and the library give the client, and what it made of them.
STUB = """
const Module = require("module");
const [client, trusted, setting, folder] = process.argv.slice(1);
let started, told;
const vscode = {
  window: { showErrorMessage: (text) => { told = text; } },
  workspace: {
    isTrusted: trusted === "trusted",
    workspaceFolders: [{ uri: { scheme: "file", fsPath: folder } }],
    getConfiguration: () => ({ get: (name) => (name === "path" ? setting : true) }),
    onDidGrantWorkspaceTrust: () => ({}),
    onDidChangeConfiguration: () => ({}),
  },
};
class LanguageClient {
  constructor(id, name, server, options) { started = { server, options }; }
  async start() {}
}
const load = Module._load;
Module._load = (name, ...rest) =>
  name === "vscode" ? vscode
  : name === "vscode-languageclient/node" ? { LanguageClient }
  : load(name, ...rest);
require(client).activate({ subscriptions: [] }).then(() => {
  console.log(JSON.stringify({ started, told }));
});
"""


@pytest.mark.skipif(shutil.which("node") is None, reason="node is not installed")
def test_the_client_finds_the_program(tmp_path: Path) -> None:
    """By the setting; by the folder's own .venv where the folder is trusted; by the search path."""
    folder, path = tmp_path / "job", tmp_path / "bin"
    own, found = folder / ".venv/bin/hts", path / "hts"
    for each in (own, found):
        each.parent.mkdir(parents=True)
        each.write_text("")

    node = shutil.which("node")
    assert node is not None

    def activated(trust: str, setting: str = "", search: str = str(path)) -> dict[str, object]:
        run = subprocess.run(
            [node, "-e", STUB, "--", str(SOURCES / "client.js"), trust, setting, str(folder)],
            capture_output=True,
            text=True,
            check=True,
            env={**os.environ, "PATH": search},
        )
        answer: dict[str, object] = json.loads(run.stdout)
        return answer

    def command(*arguments: str) -> object:
        started = activated(*arguments)["started"]
        assert isinstance(started, dict)
        return started["server"]["command"]

    assert command("trusted", "/opt/hts") == "/opt/hts"
    assert command("trusted") == str(own)
    assert command("not trusted") == str(found)
    started = activated("not trusted")["started"]
    assert isinstance(started, dict)
    assert started["options"]["initializationOptions"] == {"trusted": False, "hints": True}
    # A folder of the search path that depends on where one stands is passed over.
    lost = activated("not trusted", search=".")
    assert "started" not in lost
    assert "nothing is checked" in str(lost["told"])
