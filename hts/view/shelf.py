"""The texts that can be looked at, each checked once for however many pages show it."""

from __future__ import annotations

import datetime
import hashlib
import os
import threading
import time
from collections import OrderedDict
from collections.abc import Callable

from hts.base.text.reading import name_below, root_of
from hts.checking.checker.results import UncheckedFile
from hts.checking.checker.tasks import tasks_of
from hts.checking.configuration import ConfigurationError, loader
from hts.editor.look import stamp
from hts.view.changes import Head
from hts.view.checked import Checked, unchanged
from hts.view.kept_rows import KeptRows
from hts.view.list_page import Listed, Row, row_of
from hts.view.papers import Papers
from hts.view.spec_page import Good

#: Checked texts that are kept whole, for pages that are open.
_OPEN = 8
#: Seconds after which a folder is looked through again.
_WALK = 1.0


class Shelf:
    """`path` is a file or a folder, `out` the folder papers are compiled into, `config` the file of
    settings or None for the nearest. A page is looked for by its key alone: no path comes from an
    address."""

    def __init__(self, path: str, out: str = "out", config: str | None = None) -> None:
        self.path = path
        self._out = out
        self._config = config
        self._lock = threading.RLock()
        self._paths: dict[str, str] = {}
        self._listed: list[str] = []
        self.refused: list[str] = []
        self._checked: OrderedDict[str, tuple[int, Checked]] = OrderedDict()
        self._good: dict[str, Good] = {}
        self._rows: dict[str, Row] = {}
        self._papers = Papers()
        self._kept: KeptRows | None = None
        self._walked = 0.0
        self._number = 0
        self._head_stamp: tuple[object, ...] = ()
        self._day = datetime.date.today()
        self._work = threading.Lock()
        self._walk()

    # Texts --------------------------------------------------------------------------------------

    @property
    def keys(self) -> list[str]:
        """Those of the list, in its order."""
        return list(self._listed)

    def has(self, key: str) -> bool:
        return key in self._paths

    def key_of(self, path: str | None) -> str:
        """The key of a text that has a page, "" for one that has none."""
        if path is None:
            return ""
        key = _key(path)
        return key if key in self._paths else ""

    def checked(self, key: str) -> tuple[int, Checked]:
        """The text as it is now, and the number of this state of it. KeyError for no such key."""
        with self._lock:
            path = self._paths[key]
            known = self._checked.get(key)
            if known is not None and known[1].holds():
                self._checked.move_to_end(key)
                return known
            self._number += 1
            made = self._checked[key] = (self._number, Checked(path, self._config))
            while len(self._checked) > _OPEN:
                self._checked.popitem(last=False)
            self._take_in(made[1])
            if made[1].job is not None:
                self._good[key] = Good(made[1], made[1].at.strftime("%H:%M:%S"))
            return made

    def good(self, key: str) -> Good | None:
        """The last text of this key that could be compiled."""
        return self._good.get(key)

    def state(self, key: str) -> str:
        """Another word whenever the page of the text would read otherwise."""
        number, checked = self.checked(key)
        commit = stamp_of_head(checked.path)
        if checked.kept("commit", lambda: commit) != commit:
            # A commit changes what has changed since: the text is looked at anew.
            with self._lock:
                self._checked.pop(key, None)
            number, checked = self.checked(key)
        return str(number)

    def _take_in(self, checked: Checked) -> None:
        """Texts it uses are a click away; none of them lies outside the repository."""
        if checked.case is not None:
            for library in checked.case.spec.libraries:
                path = library.file.source.path
                if path is not None:
                    self._paths.setdefault(_key(path), path)

    # The list -----------------------------------------------------------------------------------

    def list(self, where: Callable[[str], str]) -> list[Listed]:
        """All texts of the folder, those that have not been checked yet without a row."""
        self._walk()
        self._recall()
        root = root_of(self.path)
        places = {key: self._out_folders(key) for key in self._listed}
        self._papers.look(folder for folders in places.values() for folder in folders)
        return [
            Listed(
                where(key), name_below(self._paths[key], root), row,
                self._papers.state(row.number, row.fingerprint, places[key])
                if row is not None and row.fingerprint else "",
            )
            for key in self._listed
            for row in (self._rows.get(key),)
        ]  # fmt: skip

    def list_state(self) -> str:
        """Another word whenever the list would read otherwise; what is not checked is set to."""
        self._walk()
        self._recall()
        rows = [(key, row) for key in self._listed if (row := self._rows.get(key)) is not None]
        head, day = stamp_of_head(self.path), datetime.date.today()
        if (head, day) != (self._head_stamp, self._day):
            self._head_stamp, self._day = head, day
            rows = []
            self._rows = {}
        for key, row in rows:
            if not unchanged(row.stamps):
                self._rows.pop(key, None)
        self.fill()
        listed = [(key, self._rows.get(key)) for key in self._listed]
        papers = [one.paper for one in self.list(str)]
        digest = hashlib.sha256(repr((listed, papers)).encode())
        return digest.hexdigest()[:16]

    def fill(self) -> None:
        """Has the rows that are missing made, one after another, beside all else."""
        if all(key in self._rows for key in self._listed) or self._work.locked():
            return
        threading.Thread(target=self.fill_now, daemon=True).start()

    def fill_now(self) -> None:
        """The same, and waits for it."""
        with self._work:
            head = Head(root_of(self.path))
            for key in self._listed:
                if key not in self._rows:
                    self._rows[key] = row_of(Checked(self._paths[key], self._config), head)
            if self._kept is not None:
                self._kept.keep(self._rows, self._head_stamp)

    def _out_folders(self, key: str) -> tuple[str, ...]:
        """Where the papers of a text may lie."""
        beside = os.path.join(os.path.dirname(self._paths[key]), self._out)
        below = self.path if os.path.isdir(self.path) else os.path.dirname(self.path)
        return self._out, os.path.join(below, self._out), beside

    def _recall(self) -> None:
        """The rows of an earlier start, when the list is first asked for."""
        with self._lock:
            if self._kept is None:
                self._head_stamp = stamp_of_head(self.path)
                self._kept = KeptRows(root_of(self.path), self._config)
                listed = {key: self._paths[key] for key in self._listed}
                self._rows = {**self._kept.rows(listed, self._head_stamp), **self._rows}

    def _walk(self) -> None:
        with self._lock:
            now = time.monotonic()
            if self._walked and now - self._walked < _WALK:
                return
            self._walked = now
            configured = loader(self._config)
            refused: list[str] = []
            found: dict[str, str] = {}
            try:
                for task in tasks_of([self.path], settings=lambda p: configured(p).setting):
                    if isinstance(task, UncheckedFile):
                        refused.append(f"{task.name}: {task.reason}")
                    elif task.path is not None:
                        found[_key(task.path)] = os.path.abspath(task.path)
            except ConfigurationError as error:
                refused.append(str(error))
            if os.path.isfile(self.path) or not found:
                # What was looked at stays listed while it is away: its page says so.
                found = found or {k: self._paths[k] for k in self._listed}
            self._paths.update(found)
            self._listed = list(found)
            self.refused = refused


def _key(path: str) -> str:
    return hashlib.sha256(os.path.realpath(path).encode("utf-8", "surrogateescape")).hexdigest()[
        :16
    ]


def stamp_of_head(path: str) -> tuple[object, ...]:
    """Changes with every commit, checkout and reset of the repository of a path."""
    folder = os.path.join(root_of(path), ".git")
    if os.path.isfile(folder):
        try:
            with open(folder, encoding="utf-8") as file:
                folder = os.path.join(
                    root_of(path), file.read(4096).removeprefix("gitdir:").strip()
                )
        except (OSError, UnicodeDecodeError):
            return ()
    return (*stamp(os.path.join(folder, "logs", "HEAD")), *stamp(os.path.join(folder, "HEAD")))
