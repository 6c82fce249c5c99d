"""How the program begins: a check of paths alone, and modules out of one file."""

from __future__ import annotations

import importlib
import os
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

from hts.cli.bundle import Bundle
from tests.specs.found import SPECS


def run(*arguments: str, **surroundings: str) -> tuple[int, str, str]:
    done = subprocess.run(
        [sys.executable, "-m", "hts", *arguments],
        capture_output=True,
        text=True,
        cwd=SPECS.parent,
        env={**os.environ, **surroundings},
    )
    return done.returncode, done.stdout, done.stderr


@pytest.mark.parametrize("name", ["broken/zone-gap.hts", "nowhere.hts"])
def test_a_check_without_options_says_what_one_with_options_says(name: str) -> None:
    path = f"specs/{name}"
    assert run("check", path) == run("check", "--color", "auto", path)


def test_what_cannot_be_used_is_told_as_with_options(tmp_path: Path) -> None:
    (tmp_path / "hts.toml").write_text("nonsense = 1\n")
    (tmp_path / "a.hts").write_text("spec 1\n")
    path = str(tmp_path / "a.hts")
    alone = run("check", path)
    assert alone == run("check", "--color", "auto", path)
    assert alone[0] == 2
    assert "nonsense" in alone[2]


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    # Whoever runs the tests may have told Python to write none, or elsewhere.
    monkeypatch.setattr(sys, "pycache_prefix", None)
    home = tmp_path / "parcel"
    (home / "inner").mkdir(parents=True)
    (home / "__init__.py").write_text("")
    (home / "inner" / "__init__.py").write_text("")
    for name in ("one", "two", "three", "four", "five"):
        (home / "inner" / f"{name}.py").write_text(f"said = {name!r}\n")
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "meta_path", list(sys.meta_path))
    for name in [name for name in sys.modules if name.startswith("parcel")]:
        monkeypatch.delitem(sys.modules, name)
    return importlib.import_module("parcel")


def said(package: ModuleType) -> list[str]:
    """What the modules say, imported anew."""
    names = ("one", "two", "three", "four", "five")
    for name in [name for name in sys.modules if name.startswith("parcel.")]:
        del sys.modules[name]
    importlib.invalidate_caches()
    return [importlib.import_module(f"parcel.inner.{name}").said for name in names]


def kept(package: ModuleType) -> Path:
    (found,) = Path(str(package.__file__)).parent.rglob("*.bundle")
    return found


def test_modules_come_from_the_bundle_while_their_source_is_the_same(package: ModuleType) -> None:
    assert said(package)[0] == "one"
    Bundle(package).keep()
    bundle = Bundle(package)
    bundle.use()
    assert said(package) == ["one", "two", "three", "four", "five"]
    module = sys.modules["parcel.inner.one"]
    assert type(module.__spec__.loader).__module__ == "hts.cli.bundle"  # type: ignore[union-attr]
    assert Path(str(module.__file__)).name == "one.py"
    before = kept(package).stat().st_mtime_ns
    bundle.keep()
    assert kept(package).stat().st_mtime_ns == before
    # A source that was changed counts at once, and in the bundle from the next start on.
    Path(str(module.__file__)).write_text("said = 'something else'\n")
    assert said(package)[0] == "something else"


@pytest.mark.parametrize("content", [b"", b"\0", b"nothing of the kind", b"i\0\0\0\0"])
def test_a_bundle_that_cannot_be_read_does_no_harm(package: ModuleType, content: bytes) -> None:
    said(package)
    Bundle(package).keep()
    kept(package).write_bytes(content)
    Bundle(package).use()
    assert said(package)[0] == "one"


def test_nothing_is_written_where_python_writes_nothing(
    package: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    said(package)
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    Bundle(package).keep()
    assert not list(Path(str(package.__file__)).parent.rglob("*.bundle"))
