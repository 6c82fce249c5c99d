"""The compiled modules that a check needs in one file, in place of five hundred.

Python keeps each compiled module in a file of its own and looks for it, reads it and looks at its
source at every start; over the modules of a check that takes longer than the check. The file lies
beside those of Python, is written and trusted as they are, and what a module's source says counts:
one that was changed since is read as ever. Where nothing can be written, nothing is.
"""

from __future__ import annotations

import marshal
import os
import sys
from contextlib import suppress
from importlib.machinery import ModuleSpec, SourceFileLoader
from types import CodeType
from typing import Any

#: Of a module: its file below the package, time and size of that, and its code.
_Kept = tuple[str, int, int, bytes]


class _Loader(SourceFileLoader):
    """Loads a module as ever, its code from the bundle."""

    def __init__(self, name: str, path: str, code: bytes) -> None:
        super().__init__(name, path)
        self._code = code

    def get_code(self, fullname: str) -> CodeType:
        code: CodeType = marshal.loads(self._code)
        return code


class Bundle:
    """Finds the modules of one package in the bundle that a run before has written."""

    def __init__(self, package: Any) -> None:
        """``package``: the imported package."""
        self._home = os.path.dirname(package.__file__)
        self._prefix = f"{package.__name__}."
        cached = package.__spec__.cached
        self._path = cached and f"{os.path.splitext(cached)[0]}.bundle"
        self._kept: dict[str, _Kept] = {}
        self._used = 0

    def use(self) -> None:
        """From now on modules come from the bundle."""
        if not self._path:
            return
        try:
            with open(self._path, "rb") as file:
                kept = marshal.load(file)
        except (OSError, ValueError, EOFError, TypeError):
            return
        if isinstance(kept, dict):
            self._kept = kept
            sys.meta_path.insert(0, self)

    def find_spec(self, name: str, path: object = None, target: object = None) -> ModuleSpec | None:
        """A module of the bundle whose source is still the one it was made from; else None."""
        kept = self._kept.get(name)
        if kept is None:
            return None
        file = os.path.join(self._home, kept[0])
        if _stamp(file) != kept[1:3]:
            return None
        self._used += 1
        spec = ModuleSpec(name, _Loader(name, file, kept[3]), origin=file)
        spec.has_location = True
        if kept[0].endswith("__init__.py"):
            spec.submodule_search_locations = [os.path.dirname(file)]
        return spec

    def keep(self) -> None:
        """Writes the bundle for the next start, of all modules of the package there are now, where
        some did not come from it."""
        loaded = [name for name in list(sys.modules) if name.startswith(self._prefix)]
        if not self._path or sys.dont_write_bytecode or self._used >= len(loaded) - _EARLIER:
            return
        made: dict[str, _Kept] = {}
        for name in loaded:
            spec = sys.modules[name].__spec__
            loader = spec.loader if spec is not None else None
            if not isinstance(loader, SourceFileLoader):
                return  # out of an archive, say: there it is one file already
            stamp = _stamp(loader.path)
            code = SourceFileLoader(name, loader.path).get_code(name)
            if stamp is None or code is None:
                return
            below = os.path.relpath(loader.path, self._home)
            made[name] = (below, *stamp, marshal.dumps(code))
        self._write(marshal.dumps({**self._kept, **made}))

    def _write(self, content: bytes) -> None:
        new = f"{self._path}.{os.getpid()}"
        try:
            with open(new, "wb") as file:
                file.write(content)
            os.replace(new, self._path)
        except OSError:
            # A full disk leaves half a file, which nobody would take away.
            with suppress(OSError):
                os.unlink(new)


#: Modules that are there before the bundle is: this one, and what begins the program.
_EARLIER = 3


def _stamp(path: str) -> tuple[int, int] | None:
    try:
        state = os.stat(path)
    except OSError:
        return None
    return state.st_mtime_ns, state.st_size
