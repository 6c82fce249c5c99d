"""A log that is being written: whole rows only, and nothing lost when the recorder begins anew."""

from __future__ import annotations

import os

from hts.base.leftovers import private_folder
from hts.record.errors import RecordError
from hts.record.reading.source import LARGEST, beside, regular

#: What may lie beside a log and belongs to it, and the most bytes of it.
_MAP, _EVENTS = ".yaml", ".events.yaml"
_LARGEST_BESIDE = 10_000_000
#: A last line longer than this is no row that is still being written.
_LONGEST_LINE = 1_000_000


class Growing:
    """The rows a log has held since it was first looked at, with the map and the events beside it.

    `parts` are files in a private folder: the log as it is now, cut after its last whole row, and
    before it what it held before it was emptied or replaced. All of it is read anew each time, so
    nothing but the files decides what is shown; a watch that is started again misses only what a
    log no longer holds. Use as a context manager.
    """

    def __init__(self, earlier: list[str], path: str, named: tuple[str | None, ...] = ()) -> None:
        """`earlier` are logs that go before `path` and no longer change; `named` are files that
        are read with it, from wherever they lie."""
        self._earlier = earlier
        self._named = [one for one in named if one is not None]
        self._path = path
        self._kept: list[bytes] = []
        self._now = b""
        self._beside: dict[str, bytes] = {}
        self._folder = private_folder()

    def __enter__(self) -> Growing:
        return self

    def __exit__(self, *_: object) -> None:
        self._folder.cleanup()

    def changed(self) -> bool:
        """Looks at the log, and at the map and the events beside it; whether they hold other rows
        or other notes than the last time.

        Raises RecordError where it cannot be read.
        """
        try:
            data = _whole_rows(regular(self._path, LARGEST))
        except RecordError:
            if os.path.lexists(self._path):
                raise
            if not self._now and not self._kept:
                raise RecordError(self._path, "there is no such file", "name the log") from None
            return False  # between the two halves of a rotation
        noted = self._noted()
        if data == self._now:
            noted, self._beside = self._beside, noted
            return bool(data) and self._beside != noted
        self._beside = noted
        if self._now and not _continues(self._now, data):
            if not data:
                return False  # emptied: the rows to come are another part
            self._kept.append(self._now)
        self._now = data
        return True

    def _noted(self) -> dict[str, bytes]:
        """What lies beside the log: ending -> bytes."""
        found = {}
        paths = {ending: beside(self._path, ending) for ending in (_MAP, _EVENTS)}
        for key, path in (*paths.items(), *zip(self._named, self._named, strict=True)):
            if os.path.isfile(path):
                found[key] = regular(path, _LARGEST_BESIDE)
        return found

    @property
    def has_events(self) -> bool:
        """Whether a file of events lies beside the log."""
        return _EVENTS in self._beside

    def without_events(self) -> list[str]:
        """The parts with no file of events beside the last, until they are asked for again."""
        found = self.parts
        its = beside(found[-1], _EVENTS)
        if self.has_events and os.path.isfile(its):
            os.unlink(its)
        return found

    @property
    def name(self) -> str:
        return os.path.basename(self._path)

    @property
    def parts(self) -> list[str]:
        """Paths of all rows so far, in their order."""
        named = os.path.basename(self._path)
        stem, dot, suffix = named.rpartition(".")
        found = list(self._earlier)
        for number, data in enumerate([*self._kept, self._now], 1):
            earlier = number <= len(self._kept)
            name = f"{stem}-{number}{dot}{suffix}" if earlier and dot else named
            if earlier and not dot:
                name = f"{named}-{number}"
            path = os.path.join(self._folder.name, name)
            if data:
                _write(path, data)
                found.append(path)
                self._write_beside(path, last=not earlier)
        return found

    def _write_beside(self, path: str, last: bool) -> None:
        """The map beside each part, and the events once."""
        for ending in (_MAP, _EVENTS):
            its = beside(path, ending)
            data = self._beside.get(ending)
            if data is not None and (last or ending != _EVENTS):
                _write(its, data)
            elif os.path.exists(its):
                os.unlink(its)  # it was taken away, or is the last part's now


def _write(path: str, data: bytes) -> None:
    with open(path, "wb") as file:
        file.write(data)


def _whole_rows(data: bytes) -> bytes:
    """The bytes up to the last line end; a row that is still being written is left for later."""
    cut = data.rfind(b"\n") + 1
    # UTF-16 ends a line with two bytes.
    if data[:2] == b"\xff\xfe":
        cut += cut % 2
    if cut == 0 and len(data) > _LONGEST_LINE:
        return data
    return data[:cut]


def _continues(before: bytes, after: bytes) -> bool:
    """Whether a log was written on, or written anew with the same rows in it: its last row is
    still there."""
    if after.startswith(before):
        return True
    last = before.rstrip(b"\r\n").rpartition(b"\n")[2]
    return bool(last) and last in after
