"""The bytes of a log: only regular files, read by blocks up to a limit; unpacked where packed.

What is compressed or a workbook becomes the text it stands for; all that follows reads text alone.
"""

from __future__ import annotations

import os
import stat
import zlib
from typing import IO, NamedTuple

from hts.base.text.reading import leads_out
from hts.record.errors import RecordError

#: Bytes of a log, packed or unpacked. A week of 100 channels every second is 400 MB; one of 48
#: channels every 5 s is 40 MB.
LARGEST = 512_000_000
_BLOCK = 1 << 20
#: For zlib: a header of gzip, and windows of any size.
_GZIP_ALONE = 31
_GZIP, _ZIP = b"\x1f\x8b", b"PK\x03\x04"
#: What a workbook of the kind before 2007 begins with.
_OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"


class Source(NamedTuple):
    """`raw` is what the file holds, `text` what is to be read of it; `note` a sentence, or ""."""

    raw: bytes
    text: bytes
    note: str


def name_of(path: str) -> str:
    """The name of a file as it may be shown: bytes that are no UTF-8 are replaced."""
    return os.path.basename(path).encode("utf-8", "surrogateescape").decode("utf-8", "replace")


def beside(path: str, suffix: str) -> str:
    """The path of a file beside a log: `run.yaml` beside `run.csv`, and beside `run.csv.gz`."""
    stem, kind = os.path.splitext(path)
    if kind.casefold() == ".gz":
        stem = os.path.splitext(stem)[0]
    return stem + suffix


def source(path: str, largest: int = LARGEST) -> Source:
    """Raises RecordError for what cannot be opened, is no regular file, is too large or damaged."""
    raw = regular(path, largest)
    name = name_of(path)
    if raw.startswith(_GZIP):
        text, whole = _unpacked(raw, name, largest)
        note = (
            f"{name} is unpacked." if whole else f"{name} is unpacked as far as it goes: {_SHORT}"
        )
        return Source(raw, text, note)
    if raw.startswith(_ZIP):
        from hts.record.reading.workbook import as_text

        text, sheet = as_text(raw, name, largest)
        return Source(raw, text, f"{name} is read as a workbook, its sheet {sheet!r}.")
    if raw.startswith(_OLD_WORKBOOK):
        raise RecordError(
            name, "it is a workbook of an old kind", "save it as .xlsx, or as delimited text"
        )
    return Source(raw, raw, "")


def beginning(path: str, size: int) -> bytes:
    """The first `size` bytes of the text of a log. Raises RecordError as `source` does."""
    raw = regular(path, size, whole=False)
    if raw.startswith(_GZIP):
        return _unpacked(raw, name_of(path), size, whole=False)[0]
    if raw.startswith(_ZIP):
        return source(path).text[:size]
    return raw


def regular(path: str, largest: int, whole: bool = True) -> bytes:
    """The bytes of a regular file, at most `largest`; with `whole`, a larger one is an error. No
    pipe, device or folder is waited for, and no link is followed out of the repository it lies in:
    what is quoted of a log that came with a change could be anything."""
    if "\0" not in path and leads_out(path):
        raise RecordError(
            name_of(path),
            "it is reached by a link that leads out of the repository, and is not read",
            "name the file where it lies, or copy it into the repository",
        )
    flags = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    try:
        with open(path, "rb", opener=lambda at, _: os.open(at, flags)) as file:
            if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                raise RecordError(
                    name_of(path), "it is no file, but a folder, pipe or device", "name a file"
                )
            data = _blocks(file, largest + whole)
    except (OSError, ValueError) as error:
        cause = error.strerror if isinstance(error, OSError) else None
        raise RecordError(
            name_of(path), (cause or "it cannot be read").lower(), "check the path"
        ) from None
    if len(data) > largest:
        raise _too_large(name_of(path), largest)
    return data


def _blocks(file: IO[bytes], limit: int) -> bytes:
    parts, size = [], 0
    while size < limit and (block := file.read(min(_BLOCK, limit - size))):
        parts.append(block)
        size += len(block)
    return b"".join(parts)


_SHORT = "the file ends early."


def _unpacked(raw: bytes, name: str, largest: int, whole: bool = True) -> tuple[bytes, bool]:
    """The bytes, and whether the file held all of them. One that ends early gives what there is."""
    limit = largest + whole
    parts: list[bytes] = []
    size = 0
    rest = raw
    ended = True
    while rest and size < limit:
        unpack = zlib.decompressobj(_GZIP_ALONE)
        try:
            while not unpack.eof and size < limit and rest:
                block = unpack.decompress(rest, min(_BLOCK, limit - size))
                parts.append(block)
                size += len(block)
                rest = unpack.unconsumed_tail
            ended = unpack.eof
        except zlib.error:
            ended = False
            break
        # Some programs fill up a block with zeros.
        rest = unpack.unused_data.lstrip(b"\0") if unpack.eof else b""
    if not size:
        raise RecordError(name, "it is damaged and cannot be unpacked", "copy it anew")
    if size > largest:
        raise _too_large(name, largest)
    return b"".join(parts), ended


def _too_large(name: str, largest: int) -> RecordError:
    return RecordError(
        name,
        f"it holds more than {largest // 1_000_000} MB",
        "give the part of the run, or a record with a longer interval",
    )
