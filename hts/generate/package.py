"""The package for VS Code: `python -m hts.generate.package -o hts.vsix`.

It holds the generated files for editors and a client of the language server, bundled with the
library it stands on; nothing is downloaded when it is installed or run. Making it needs node and
npm, and the registry npm is set up with. The same sources give the same bytes.
"""

from __future__ import annotations

import argparse
import io
import json
import os
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

from hts import __version__
from hts.generate import ROOT

EDITORS = Path(ROOT, "grammar", "editors")
SOURCES = EDITORS / "vscode"
#: Files of the package that stand in the repository as they are.
FILES = {
    "hts.tmLanguage.json": EDITORS / "hts.tmLanguage.json",
    "snippets.json": EDITORS / "snippets.json",
    "language-configuration.json": EDITORS / "language-configuration.json",
    "LICENSE.txt": Path(ROOT, "LICENSE"),
}
#: The time every file of the package carries: the first that a zip can tell.
_TIME = (1980, 1, 1, 0, 0, 0)


class CannotBuild(Exception):
    """What is missing, and what to do about it."""


def package(bundle: str, notices: str) -> bytes:
    """The package around a bundled client and the licences of what is bundled in it."""
    manifest = json.loads((SOURCES / "package.json").read_text("utf-8"))
    manifest["version"] = __version__
    files = {f"extension/{name}": path.read_bytes() for name, path in FILES.items()}
    files |= {
        "extension.vsixmanifest": _manifest(manifest).encode(),
        "[Content_Types].xml": _CONTENT_TYPES.encode(),
        "extension/package.json": (json.dumps(manifest, indent=1) + "\n").encode(),
        "extension/client.js": bundle.encode(),
        "extension/NOTICES.txt": notices.encode(),
    }
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for name in sorted(files):
            about = zipfile.ZipInfo(name, _TIME)
            about.compress_type = zipfile.ZIP_DEFLATED
            about.external_attr = 0o644 << 16
            # The same on every system, whatever it is packed on.
            about.create_system = 3
            archive.writestr(about, files[name], compresslevel=9)
    return buffer.getvalue()


def bundled() -> tuple[str, str]:
    """The client in one file, and the licences of all that is in it. Raises CannotBuild."""
    npm = shutil.which("npm")
    if npm is None:
        raise CannotBuild("npm is not installed; install node with npm, which bundles the client")
    with tempfile.TemporaryDirectory(prefix="hts-vsix-") as folder:
        for path in (SOURCES / "client.js", *(SOURCES / "bundle").glob("*.json")):
            shutil.copy(path, folder)
        _run([npm, "ci", "--no-audit", "--no-fund", "--silent", "--ignore-scripts"], folder)
        _run(
            [
                npm,
                "exec",
                "--",
                "esbuild",
                "client.js",
                "--bundle",
                "--minify",
                "--platform=node",
                "--target=node18",
                "--external:vscode",
                "--legal-comments=none",
                "--outfile=bundle.js",
                "--metafile=inputs.json",
                "--log-level=warning",
            ],
            folder,
        )
        inputs = json.loads(Path(folder, "inputs.json").read_text("utf-8"))["inputs"]
        return Path(folder, "bundle.js").read_text("utf-8"), _notices(folder, sorted(inputs))


def _run(command: list[str], folder: str) -> None:
    run = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    if run.returncode:
        raise CannotBuild(f"`{' '.join(command[1:4])}` failed: {run.stderr.strip()[:600]}")


def _notices(folder: str, inputs: list[str]) -> str:
    """The licences of the libraries whose files are in the bundle."""
    packages = sorted(
        {
            "/".join(parts[at + 1 : at + (3 if parts[at + 1].startswith("@") else 2)])
            for parts in (name.split("/") for name in inputs)
            if "node_modules" in parts
            for at in [len(parts) - 1 - parts[::-1].index("node_modules")]
        }
    )
    found = ["This package holds, besides its own files, these libraries.\n"]
    for name in packages:
        where = Path(folder, "node_modules", *name.split("/"))
        about = json.loads((where / "package.json").read_text("utf-8"))
        licences = sorted(p for p in where.iterdir() if p.name.lower().startswith("licen"))
        if not licences:
            raise CannotBuild(f"{name} comes without its licence")
        text = "\n".join(licence.read_text("utf-8").strip() for licence in licences)
        found.append(f"{name} {about['version']} ({about['license']})\n\n{text}\n")
    return ("\n" + "-" * 78 + "\n\n").join(found)


_CONTENT_TYPES = (
    '<?xml version="1.0" encoding="utf-8"?>\n'
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension=".json" ContentType="application/json"/>'
    '<Default Extension=".js" ContentType="application/javascript"/>'
    '<Default Extension=".txt" ContentType="text/plain"/>'
    '<Default Extension=".vsixmanifest" ContentType="text/xml"/>'
    "</Types>\n"
)


def _manifest(about: dict[str, object]) -> str:
    engine = quoteattr(str(about["engines"]["vscode"]))  # type: ignore[index]
    named = " ".join(
        f"{attribute}={quoteattr(str(about[key]))}"
        for attribute, key in (("Id", "name"), ("Version", "version"), ("Publisher", "publisher"))
    )
    identity = f'<Identity Language="en-US" {named}/>'
    return (
        '<?xml version="1.0" encoding="utf-8"?>\n'
        '<PackageManifest Version="2.0.0" '
        'xmlns="http://schemas.microsoft.com/developer/vsx-schema/2011">\n'
        f"<Metadata>{identity}"
        f"<DisplayName>{escape(str(about['displayName']))}</DisplayName>"
        f'<Description xml:space="preserve">{escape(str(about["description"]))}</Description>'
        "<Tags>hts,heat treatment,__ext_hts</Tags>"
        "<Categories>Programming Languages,Linters,Formatters</Categories>"
        "<GalleryFlags>Public</GalleryFlags>"
        "<Properties>"
        f'<Property Id="Microsoft.VisualStudio.Code.Engine" Value={engine}/>'
        '<Property Id="Microsoft.VisualStudio.Code.ExtensionDependencies" Value=""/>'
        '<Property Id="Microsoft.VisualStudio.Code.ExtensionPack" Value=""/>'
        '<Property Id="Microsoft.VisualStudio.Code.LocalizedLanguages" Value=""/>'
        "</Properties>"
        "<License>extension/LICENSE.txt</License></Metadata>\n"
        '<Installation><InstallationTarget Id="Microsoft.VisualStudio.Code"/></Installation>\n'
        "<Dependencies/>\n"
        "<Assets>"
        '<Asset Type="Microsoft.VisualStudio.Code.Manifest" Path="extension/package.json" '
        'Addressable="true"/>'
        '<Asset Type="Microsoft.VisualStudio.Services.Content.License" '
        'Path="extension/LICENSE.txt" Addressable="true"/>'
        "</Assets>\n</PackageManifest>\n"
    )


def main(arguments: list[str] | None = None) -> int:
    """Writes the package; 0 where it is written, 2 where it cannot be made."""
    parser = argparse.ArgumentParser(prog="python -m hts.generate.package", description=__doc__)
    parser.add_argument("-o", dest="path", default="hts.vsix", help="the file to write")
    path: str = parser.parse_args(arguments).path
    try:
        data = package(*bundled())
    except CannotBuild as error:
        print(error, file=sys.stderr)
        return 2
    temporary = f"{path}.new"
    with open(temporary, "wb") as file:
        file.write(data)
    os.replace(temporary, path)
    print(f"{path}: {len(data) // 1000} kB")
    return 0


if __name__ == "__main__":
    sys.exit(main())
