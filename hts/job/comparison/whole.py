"""Two revisions of a whole repository: every specification that changed, or uses something that
did."""

from __future__ import annotations

import os
import posixpath
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import NamedTuple

from hts.base.text.reading import Unreadable, decoded, read_bytes
from hts.checking.checker.fault import fault
from hts.checking.checker.processes import cores, pool_of
from hts.job.comparison.change import Side, make
from hts.job.comparison.compare import Comparison, compare
from hts.job.comparison.lookup import named
from hts.job.comparison.registry import ADDED, CHANGED, REMOVED
from hts.job.comparison.revisions import CannotRead, Repository, RevisionLoader
from hts.language.model import Loader, Spec
from hts.language.model.defaults import Defaults
from hts.language.model.uses import reached, used_by

SUFFIX = ".hts"
#: Up to this many files, starting further processes costs more time than it saves.
FEW = 16
#: Portions per process, so that none waits long for the last one.
_PORTIONS = 4
_SETTINGS = ("hts.toml", "pyproject.toml")
#: What a file of settings that others share holds where it sets something here.
_TABLE = b"[tool.hts"


class Between(NamedTuple):
    """The two sides: a revision, and another one or (None) the working folder."""

    old: str
    new: str | None

    def __str__(self) -> str:
        return f"{self.old} -> {self.new or 'working folder'}"


class Touched(NamedTuple):
    """A specification's path before and after, whether it changed itself, and the changed file it
    uses, "" for none."""

    old: str | None
    new: str | None
    itself: bool
    through: str

    @property
    def path(self) -> str:
        return self.new or self.old or ""


class Compared(NamedTuple):
    """One file: its path, the older one where it moved; whether it changed itself, and the changed
    file it uses; and the comparison, None where it `failed`."""

    path: str
    moved_from: str
    itself: bool
    through: str
    comparison: Comparison | None
    failed: str = ""


def between(text: str, repository: Repository) -> Between | None:
    """The sides that REV, REV..REV or REV...REV means (the latter from where the two parted); None
    where git knows no such revision. Raises CannotRead."""
    for mark in ("...", ".."):
        first, found, second = text.partition(mark)
        if found:
            first, second = first or "HEAD", second or "HEAD"
            if not (repository.knows(first) and repository.knows(second)):
                return None
            if mark == "...":
                first = repository.merge_base(first, second)
            return Between(first, second)
    return Between(text, None) if repository.knows(text) else None


def compare_all(
    repository: Repository,
    sides: Between,
    below: Iterable[str] = (),
    *,
    defaults: Callable[[str], Defaults],
    today: str | None = None,
    jobs: int | None = None,
) -> Iterator[Compared]:
    """Every file of settings that changed, then every specification that changed or uses something
    that changed, by path.

    ``below``: paths from the top of the repository; only what is at or below one of them is
    compared. ``defaults`` gives what holds unless said, for the path of a file. ``jobs``
    is the number of processes; None means one for a few files, every core for many. Raises
    CannotRead.
    """
    whole = _Whole(repository, sides)
    wanted = tuple(below)
    yield from (each for each in whole.settings() if _within(each.path, wanted))
    tasks = [
        (each, defaults(os.path.join(repository.root, each.path)))
        for each in whole.specs()
        if _within(each.path, wanted) or (each.old and _within(each.old, wanted))
    ]
    loaders = whole.old, whole.new
    count = jobs or (cores() if len(tasks) > FEW else 1)
    if count == 1:
        yield from (_compared(each, known, *loaders, today) for each, known in tasks)
        return
    size = max(1, -(-len(tasks) // (count * _PORTIONS)))
    portions = [tasks[start : start + size] for start in range(0, len(tasks), size)]
    begin = partial(_take, loaders)
    try:
        with pool_of(min(count, len(portions)), "comparing files", begin) as pool:
            for portion in pool.map(partial(_portion, today=today), portions):
                yield from portion
    except ChildProcessError as error:
        raise CannotRead(str(error)) from None


#: What reads the two sides, in a process that compares some files of many.
_LOADERS: list[Loader] = []


def _take(loaders: tuple[Loader, Loader]) -> None:
    _LOADERS[:] = loaders


def _portion(tasks: list[tuple[Touched, Defaults]], today: str | None) -> list[Compared]:
    old, new = _LOADERS
    return [_compared(each, known, old, new, today) for each, known in tasks]


def _compared(
    each: Touched, known: Defaults, older: Loader, newer: Loader, today: str | None
) -> Compared:
    moved_from = each.old if each.old and each.new and each.old != each.new else ""
    comparison, failed = None, ""
    try:
        sides = _spec(older, each.old, known), _spec(newer, each.new, known)
        comparison = compare(*sides, today=today).without_specs()
    except (CannotRead, Unreadable) as error:
        failed = str(error)
    except Exception as error:
        failed = fault(error)
    return Compared(each.path, moved_from, each.itself, each.through, comparison, failed)


class _Whole:
    def __init__(self, repository: Repository, sides: Between) -> None:
        self.repository = repository
        self.old = RevisionLoader(repository, sides.old)
        self.new: Loader = (
            Loader(repository.root) if sides.new is None else RevisionLoader(repository, sides.new)
        )
        commit = repository.commit(sides.old)
        other = None if sides.new is None else repository.commit(sides.new)
        self.pairs = repository.changed(commit, other)

    def specs(self) -> list[Touched]:
        """Those that changed or use something that did, by path."""
        moved: list[tuple[str | None, str | None]] = []
        touched: set[str] = set()
        for old, new in self.pairs:
            before = old if old and _is_spec(old) else None
            after = new if new and _is_spec(new) else None
            if before or after:
                moved.append((before, after))
                touched |= {path for path in (before, after) if path}
        changed = {path for pair in self.pairs for path in pair if path}
        older, newer = self._texts()
        through: dict[str, str] = {}
        for texts in (older, newer):
            uses = {path: used_by(text, path) for path, text in texts.items()}
            through |= reached(uses, changed)
        found = [Touched(a, b, True, through.get(b or a or "", "")) for a, b in moved]
        for path, used in through.items():
            if path not in touched:
                a, b = path if path in older else None, path if path in newer else None
                found.append(Touched(a, b, False, used))
        return sorted(found, key=lambda each: each.new or each.old or "")

    def _texts(self) -> tuple[dict[str, str], dict[str, str]]:
        """The text of every specification on both sides, by path."""
        files = {path: name for path, name in self.old.files.items() if _is_spec(path)}
        names = set(files.values())
        if isinstance(self.new, RevisionLoader):
            names |= {name for path, name in self.new.files.items() if _is_spec(path)}
        known = self.repository.contents(sorted(names))
        self.old.known = known
        before = {path: _loosely(known.get(name, b"")) for path, name in files.items()}
        if isinstance(self.new, RevisionLoader):
            self.new.known = known
            theirs = {p: n for p, n in self.new.files.items() if _is_spec(p)}
            return before, {path: _loosely(known.get(name, b"")) for path, name in theirs.items()}
        changed = {new for _, new in self.pairs}
        after = {}
        for path in filter(_is_spec, self.repository.working()):
            if path in before and path not in changed:
                after[path] = before[path]
                continue
            full = os.path.join(self.repository.root, path)
            try:
                # A link uses what it leads to.
                data = (
                    f'use "{os.readlink(full)}"'.encode("utf-8", "replace")
                    if os.path.islink(full)
                    else read_bytes(full)
                )
            except (OSError, Unreadable):  # told when it is compared
                data = b""
            after[path] = _loosely(data)
        return before, after

    def settings(self) -> Iterator[Compared]:
        """Files of settings that changed: they count on both sides, so that nothing else tells."""
        row = named("document", "settings")
        for old, new in self.pairs:
            path = new or old or ""
            if posixpath.basename(path) not in _SETTINGS:
                continue
            first, second = _bytes(self.old, old), _bytes(self.new, new)
            if not path.endswith("hts.toml") and not any(
                _TABLE in (data or b"") for data in (first, second)
            ):
                continue
            mine, theirs = (_settings(path, data) for data in (first, second))
            action = CHANGED if mine and theirs else ADDED if theirs else REMOVED
            if mine or theirs:
                change = make("", row, action, mine, theirs)
                yield Compared(path, "", True, "", Comparison(None, None, [change], []))


def _settings(path: str, data: bytes | None) -> Side | None:
    if data is None:
        return None
    import hashlib

    digest = hashlib.sha256(data).hexdigest()[:32]
    return Side(path, f"{path} ({digest[:8]})", f"sha256 {digest}", None)


def _bytes(loader: Loader, path: str | None) -> bytes | None:
    if path is None:
        return None
    try:
        return loader.text(os.path.join(loader.root, path)).encode("utf-8")
    except Unreadable:
        return b""


def _spec(loader: Loader, path: str | None, defaults: Defaults) -> Spec | None:
    """Raises Unreadable."""
    if path is None:
        return None
    full = os.path.join(loader.root, path)
    if os.path.commonpath([loader.real(full), loader.root]) != loader.root:
        raise Unreadable("a link out of the repository, which is not followed")
    return Spec(loader.read(full), loader, defaults)


def _is_spec(path: str) -> bool:
    return path.lower().endswith(SUFFIX)


def _loosely(data: bytes) -> str:
    """Text good enough for finding what it uses."""
    try:
        return decoded(data)
    except Unreadable:
        return data.decode("utf-8", "replace")


def _within(path: str, wanted: tuple[str, ...]) -> bool:
    return not wanted or any(
        folder in (".", path) or path.startswith(f"{folder}/") for folder in wanted
    )
