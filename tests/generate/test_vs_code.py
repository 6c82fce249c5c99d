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
from hts.generate import package as vs_code
from hts.generate.package import SOURCES, CannotBuild, package


def test_the_same_text_gives_the_same_bytes() -> None:
    data = package("client", "notices")
    assert data == package("client", "notices")
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        names = archive.namelist()
        assert names == sorted(names)
        about = {
            (info.date_time, info.compress_type, info.external_attr, info.create_system)
            for info in archive.infolist()
        }
        # Read by all and written by its owner, packed as on the system most servers have.
        assert about == {((1980, 1, 1, 0, 0, 0), zipfile.ZIP_DEFLATED, 0o644 << 16, 3)}
        manifest = json.loads(archive.read("extension/package.json"))
        assert manifest["version"] == __version__
        parts = manifest["contributes"]
        paths = [parts["languages"][0]["configuration"], parts["grammars"][0]["path"]]
        for path in (*paths, parts["snippets"][0]["path"], manifest["main"]):
            assert f"extension/{path.removeprefix('./')}" in names
        for name in ("extension.vsixmanifest", "[Content_Types].xml"):
            ElementTree.fromstring(archive.read(name))


def test_where_it_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "hts.vsix"
    monkeypatch.setattr(vs_code, "bundled", lambda: ("client", "notices"))
    assert vs_code.main(["-o", str(path)]) == 0
    assert path.read_bytes() == package("client", "notices")
    assert capsys.readouterr().out == f"{path}: {path.stat().st_size // 1000} kB\n"
    assert os.listdir(tmp_path) == ["hts.vsix"]

    def refused() -> tuple[str, str]:
        raise CannotBuild("npm is not installed")

    monkeypatch.setattr(vs_code, "bundled", refused)
    assert vs_code.main(["-o", str(tmp_path / "other.vsix")]) == 2
    assert capsys.readouterr().err == "npm is not installed\n"
    assert os.listdir(tmp_path) == ["hts.vsix"]


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
