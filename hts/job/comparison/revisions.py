"""Specifications as a revision of the repository has them, read through git.

git is called with lists of arguments, never through a shell, and is told where options end.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterable
from functools import cached_property, lru_cache
from typing import NamedTuple

from hts.base.text.reading import LARGEST, Unreadable, decoded, root_of
from hts.language.model import Loader, Spec
from hts.language.model.defaults import NO_DEFAULTS, Defaults

#: Name of a revision that stands for what is staged.
INDEX = ""
NOWHERE = "/dev/null"
_FILE_MODES = ("100644", "100755")


class CannotRead(Exception):
    """A side of the comparison that cannot be read; the message says why."""


class Where(NamedTuple):
    """A side as named: `revision` None means the working folder, INDEX what is staged."""

    revision: str | None
    path: str


class Repository:
    """The repository that holds a folder."""

    def __init__(self, folder: str) -> None:
        self.folder = folder

    @cached_property
    def root(self) -> str:
        """Its top folder. Raises CannotRead."""
        return os.path.realpath(self._text("rev-parse", "--show-toplevel").rstrip("\n"))

    def commit(self, revision: str) -> str:
        """The full name of a revision's commit. Raises CannotRead."""
        if not revision or revision.startswith("-"):
            raise CannotRead(f"{revision!r} is not a revision")
        try:
            named = self._text(
                "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}"
            )
        except CannotRead:
            raise CannotRead(f"git does not know revision {revision!r}") from None
        return named.strip()

    def files(self, commit: str) -> dict[str, str]:
        """Path from the top -> name of its content, for every plain file of a commit or, with
        INDEX, of what is staged."""
        if commit == INDEX:
            rows = self._text("ls-files", "--stage", "-z", "--full-name", ":/")
        else:
            rows = self._text("ls-tree", "-r", "-z", "--full-tree", commit)
        found = {}
        for row in rows.split("\0"):
            about, tab, path = row.partition("\t")
            mode, *more = about.split(" ")
            # A link is no file: what it points at would have to be read outside the revision.
            if tab and mode in _FILE_MODES:
                found[path] = more[0] if commit == INDEX else more[1]
        return found

    def content(self, name: str) -> bytes:
        """The bytes git holds under a name. Raises CannotRead."""
        size = self._text("cat-file", "-s", name)
        if int(size) > LARGEST:
            raise CannotRead("the file is larger than 5 MB")
        return self._run("cat-file", "blob", name)

    def knows(self, revision: str) -> bool:
        """Whether git knows a revision of this name."""
        try:
            return bool(self.commit(revision))
        except CannotRead:
            return False

    def merge_base(self, first: str, second: str) -> str:
        """The commit two revisions grew from. Raises CannotRead."""
        both = self.commit(first), self.commit(second)
        try:
            return self._text("merge-base", *both).strip()
        except CannotRead:
            raise CannotRead(f"{first} and {second} have no commit in common") from None

    def changed(self, old: str, new: str | None) -> list[tuple[str | None, str | None]]:
        """Path before and after of each file that differs between a commit and another one, or the
        working folder; None where there is none. A file moved with its content is one pair."""
        sides = [old, *([new] if new is not None else [])]
        words = self._text(
            "diff", "--name-status", "-z", "-M", "--no-ext-diff", "--no-textconv",
            "--no-relative", "--ignore-submodules", *sides, "--",
        ).split("\0")  # fmt: skip
        found: list[tuple[str | None, str | None]] = []
        at = 0
        while at < len(words) - 1:
            letter, path = words[at][:1], words[at + 1]
            if letter in ("R", "C"):
                found.append((path if letter == "R" else None, words[at + 2]))
                at += 3
                continue
            found.append((None if letter == "A" else path, None if letter == "D" else path))
            at += 2
        if new is None:
            found += [(None, path) for path in self._listed("--others", "--exclude-standard")]
        return found

    def working(self) -> list[str]:
        """Path from the top of every file of the working folder that git does not ignore."""
        return self._listed("--cached", "--others", "--exclude-standard")

    def contents(self, names: Iterable[str]) -> dict[str, bytes]:
        """What git holds under each name, read in one go; what is too large is left out."""
        asked = "".join(f"{name}\n" for name in names).encode()
        sizes = self._run("cat-file", "--batch-check=%(objectname) %(objectsize)", given=asked)
        small = [
            name
            for name, _, size in (line.partition(" ") for line in sizes.decode().splitlines())
            if size.isdecimal() and int(size) <= LARGEST
        ]
        data = self._run("cat-file", "--batch", given="".join(f"{n}\n" for n in small).encode())
        found: dict[str, bytes] = {}
        at = 0
        while at < len(data):
            end = data.index(b"\n", at)
            name, _, size = data[at:end].split(b" ")
            at = end + 1 + int(size)
            found[name.decode()] = data[end + 1 : at]
            at += 1
        return found

    def _listed(self, *which: str) -> list[str]:
        return [
            p for p in self._text("ls-files", "-z", "--full-name", *which, ":/").split("\0") if p
        ]

    def _text(self, *arguments: str) -> str:
        return self._run(*arguments).decode("utf-8", "surrogateescape")

    def _run(self, *arguments: str, given: bytes | None = None) -> bytes:
        command = ["git", "-C", self.folder, "--no-optional-locks", *arguments]
        try:
            run = subprocess.run(command, capture_output=True, check=False, input=given)
        except OSError as error:
            raise CannotRead(f"git cannot be run: {(error.strerror or '').lower()}") from None
        if run.returncode != 0:
            answer = run.stderr.decode("utf-8", "replace").strip().split("\n")[0]
            raise CannotRead(answer.removeprefix("fatal: ") or "git failed")
        return run.stdout


# A name git gives is a digest of the content, which never changes under it.
@lru_cache(maxsize=64)
def _content(folder: str, name: str) -> bytes:
    return Repository(folder).content(name)


class RevisionLoader(Loader):
    """Reads files as a revision has them; `use` leads to files of the same revision."""

    def __init__(self, repository: Repository, revision: str) -> None:
        """`revision`: as named by the user, or INDEX. Raises CannotRead."""
        super().__init__(repository.root)
        self.repository = repository
        self.revision = revision
        commit = INDEX if revision == INDEX else repository.commit(revision)
        self.commit = commit
        self.files = repository.files(commit)
        #: What was read in one go beforehand, by the names git has for it.
        self.known: dict[str, bytes] = {}

    def name(self, path: str) -> str:
        return f"{self.revision}:{self._from_root(path)}"

    def text(self, path: str) -> str:
        name = self.files.get(self._from_root(path))
        if name is None:
            raise Unreadable(f"there is no such file in {self.revision or 'what is staged'}")
        try:
            data = self.known.get(name) or _content(self.repository.folder, name)
        except CannotRead as error:
            raise Unreadable(str(error)) from None
        return decoded(data)

    def real(self, path: str) -> str:
        return os.path.normpath(path)

    def has(self, path: str) -> bool:
        return self._from_root(path) in self.files

    def _from_root(self, path: str) -> str:
        return os.path.relpath(path, self.root).replace(os.sep, "/")


def where(text: str) -> Where:
    """A side as the user named it: a path, or REV:path. Where git knows the revision, git is meant,
    whatever a file is called: a change could bring one along that stands in for the older side.
    C:\\jobs\\a.hts is a path: none within a revision begins with a slash."""
    revision, colon, path = text.partition(":")
    if not colon or not path or path[0] in "/\\":
        return Where(None, text)
    if os.path.exists(text) and not Repository(os.getcwd()).knows(revision):
        return Where(None, text)
    return Where(revision, path)


def spec_at(place: Where, defaults: Defaults = NO_DEFAULTS) -> Spec | None:
    """The specification at a place; None where there is no file. Raises CannotRead."""
    if place.revision is not None:
        return _of_revision(place.revision, place.path, defaults)
    if place.path == NOWHERE or not os.path.lexists(place.path):
        return None
    loader = Loader(root_of(place.path))
    try:
        return Spec(loader.read(place.path), loader, defaults)
    except Unreadable as error:
        raise CannotRead(f"{place.path}: {error}") from None


def full_path(place: Where) -> str:
    """Where a side lies, or would lie, in the working folder. Raises CannotRead.

    REV:PATH is read as git reads it: from the top of the repository, or from here where the path
    begins with a dot.
    """
    if place.revision is None or place.path.startswith(("./", "../")):
        return os.path.realpath(place.path)
    return os.path.normpath(os.path.join(Repository(os.getcwd()).root, place.path))


def _of_revision(revision: str, path: str, defaults: Defaults) -> Spec | None:
    loader = RevisionLoader(Repository(os.getcwd()), revision)
    full = full_path(Where(revision, path))
    if not loader.has(full):
        here = os.path.realpath(path)
        if here != full and loader.has(here):
            raise CannotRead(f"from this folder it is {revision}:./{path}")
        return None
    try:
        return Spec(loader.read(full), loader, defaults)
    except Unreadable as error:
        raise CannotRead(f"{revision}:{path}: {error}") from None
