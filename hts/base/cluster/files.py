"""The files a unit of work needs, read where they are and laid out where the work is done."""

from __future__ import annotations

import os
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock
from typing import Any, NamedTuple

from hts.base.cluster.spread import ClusterError
from hts.base.leftovers import private_folder
from hts.base.text.reading import root_of

#: Bytes that one unit takes along at most: more is no work to be handed on.
LARGEST = 256_000_000
#: A process has one working folder.
_LOCK = Lock()


class Files(NamedTuple):
    """Files by absolute path, packed; links by where they are and where they lead; folders that
    are there although they may be empty; `here` is the folder that relative paths are seen from."""

    data: dict[str, bytes]
    links: dict[str, str]
    folders: tuple[str, ...]
    here: str


class Gathered:
    """Files put together for one unit."""

    def __init__(self) -> None:
        self._data: dict[str, bytes] = {}
        self._links: dict[str, str] = {}
        self._folders: dict[str, None] = {}
        self._size = 0

    def add(self, path: str, data: bytes) -> None:
        """Takes a file along with what it holds. Raises ClusterError where that is too much."""
        at, real = os.path.abspath(path), os.path.realpath(path)
        if real != at:
            self._links[at] = real
        root = root_of(real)
        if os.path.exists(os.path.join(root, ".git")):
            # So that there, too, it is a repository.
            self._folders[os.path.join(root, ".git")] = None
        if real not in self._data:
            self._size += len(data)
            self._data[real] = zlib.compress(data, 1)
        if self._size > LARGEST:
            raise ClusterError(
                f"{path} and what goes with it hold more than {LARGEST // 1_000_000} MB, too much "
                "to be sent: leave --on out"
            )

    def files(self) -> Files:
        return Files(dict(self._data), dict(self._links), tuple(self._folders), os.getcwd())


class Laid(NamedTuple):
    """Files of another machine, below a folder of their own."""

    top: str

    def there(self, path: str) -> str:
        """The path here of a file that is called `path` where it comes from. A relative one stays:
        the working folder lies below the top, too."""
        return _below(self.top, path) if os.path.isabs(path) else path

    def as_told(self, found: Any) -> Any:
        """Text, or tuples with text in them, with all paths as where the files come from."""
        if isinstance(found, str):
            return found.replace(self.top, "")
        if isinstance(found, tuple):
            made = tuple(self.as_told(each) for each in found)
            return type(found)(*made) if hasattr(found, "_fields") else made
        return found


@contextmanager
def laid_out(files: Files) -> Iterator[Laid]:
    """Within, the files are there, and the working folder is theirs."""
    with _LOCK, private_folder() as folder:
        laid = Laid(os.path.realpath(folder))
        before = os.getcwd()
        for path in (*files.folders, files.here):
            os.makedirs(laid.there(path), exist_ok=True)
        for path, data in files.data.items():
            _made(laid.there(path))
            with open(laid.there(path), "wb") as file:
                file.write(zlib.decompress(data))
        for path, real in files.links.items():
            _made(laid.there(path))
            if not os.path.lexists(laid.there(path)):
                os.symlink(laid.there(real), laid.there(path))
        try:
            os.chdir(laid.there(files.here))
            yield laid
        finally:
            os.chdir(before)


def _made(path: str) -> None:
    os.makedirs(os.path.dirname(path), exist_ok=True)


def _below(top: str, path: str) -> str:
    return os.path.join(top, os.path.splitdrive(path)[1].lstrip("\\/"))
